"""Crowns of hats in wedges, hat cast-on, flat discs.

Input: stitches, wedges and rounds. Output: a `Crown` of rounds in order, or None where the rounds do not suffice.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.shaping.spacing import EvenRow, decrease_round

TWO_PI = Fraction(710, 113)
"""2 pi by the fraction 355/113, right to six decimals."""


class WedgeRound(Struct, frozen=True):
    """One decrease round.

    Attributes:
        round: its number, from 1.
        plain: plain stitches of each wedge: before the one decrease, or between the two.
        stitches: stitches after the round.
    """

    round: int
    plain: int
    stitches: int


class Crown(Struct, frozen=True):
    """A crown in equal wedges.

    With one decrease a wedge works k(plain), k2tog; with two it works k2tog, k(plain), k2tog, k1.

    Attributes:
        wedges: how many.
        each: decreases of a wedge in a decrease round, 1 or 2.
        even_out: decreases in round 1 that leave a multiple of the wedges; None where none is needed.
        decreases: decrease rounds in order; all other rounds are plain.
        rounds: rounds of the crown, plain ones after the last decrease included.
        left: stitches at the end.
    """

    wedges: int
    each: int
    even_out: EvenRow | None
    decreases: tuple[WedgeRound, ...]
    rounds: int
    left: int


def crown(stitches: int, wedges: int, rounds: int, *, each: int = 1, until: int = 1) -> Crown | None:
    """Lay out a crown whose wedges shrink together.

    Surplus stitches go first, evenly spread over round 1. The first decrease is on round 1, the last on round
    `rounds`; where the intervals differ (by one) the longer come first, so that the top closes faster. Half the rounds
    plain is the usual crown.

    Args:
        stitches: stitches at the start, >= wedges.
        wedges: 1 or more; 7 to 10 are usual.
        rounds: rounds available, >= 1.
        each: decreases a wedge and decrease round, 1 or 2.
        until: stitches that each wedge keeps at least; >= 1 (>= 3 with two decreases).

    Returns:
        The crown, or None when there are more decrease rounds than rounds (see `least_rounds`).

    Raises:
        ValueError: counts outside these bounds.

    Source: docs/maths.md#crown-in-wedges. Example: 88 sts, 8 wedges, 19 rounds: (k9, k2tog) 8 times, one plain
    round, and so on; 8 sts left after 10 decrease rounds.
    """
    events = least_rounds(stitches, wedges, each=each, until=until)
    if rounds < events:
        return None
    surplus = stitches % wedges
    places = _places(events, rounds)
    width = stitches // wedges
    taken = 2 if each == 1 else 5
    decreases = []
    for place in places[1 if surplus else 0 :]:
        plain, width = width - taken, width - each
        decreases.append(WedgeRound(place, plain, width * wedges))
    even_out = decrease_round(stitches, surplus) if surplus else None
    return Crown(wedges, each, even_out, tuple(decreases), rounds, width * wedges)


def least_rounds(stitches: int, wedges: int, *, each: int = 1, until: int = 1) -> int:
    """Give the fewest rounds a crown takes: one for each decrease round, and one to even the stitches out.

    Raises:
        ValueError: counts outside the bounds of `crown`.

    Source: docs/maths.md#crown-in-wedges.
    """
    if each not in (1, 2) or wedges < 1 or stitches < wedges:
        raise ValueError("a crown has at least one stitch a wedge, and takes one or two of them at once")
    if until < (1 if each == 1 else 3):
        raise ValueError("a wedge ends with one stitch, or three where it loses two at once")
    surplus = stitches % wedges
    return max(0, stitches // wedges - until) // each + (1 if surplus else 0)


def hat_cast_on(head: int | Fraction, gauge: int | Fraction, ease: int | Fraction) -> Fraction:
    """Give the exact stitches round a hat: (head + ease) x gauge; the ease of a hat is negative.

    Source: docs/maths.md#hat-cast-on. Example: 22 inches, 5 sts an inch, ease -1 inch: 105.
    """
    return (Fraction(head) + ease) * gauge


def flat_disc_rate(rows_per_stitch: int | Fraction) -> Fraction:
    """Give the stitches a round by which a disc must grow or shrink to lie flat; fewer make a dome.

    Args:
        rows_per_stitch: row gauge / stitch gauge, > 0.

    Source: docs/maths.md#flat-disc. Example: at 4/3 a disc needs 4.71 sts a round.
    """
    return TWO_PI / rows_per_stitch


def _places(events: int, rounds: int) -> tuple[int, ...]:
    """Give the rounds of the shapings: first on 1, last on `rounds`, longer intervals first."""
    if not events:
        return ()
    if events == 1:
        return (1,)
    short, longer = divmod(rounds - 1, events - 1)
    places = [1]
    for i in range(events - 1):
        places.append(places[-1] + short + (1 if i < longer else 0))
    return tuple(places)
