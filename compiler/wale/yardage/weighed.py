"""In the middle of the work: what was weighed against the estimate, and whether what is left will do."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from math import ceil
from typing import Literal

from msgspec import Struct

from wale.problems.nearest import nearest
from wale.problems.problem import Problem
from wale.quantity import show_decimal, to_base
from wale.spec import Spec
from wale.write.finishing import MAKING_UP
from wale.write.yarn_needed import bought_yarns
from wale.write.yarn_used import SCALE_G, ZERO
from wale.yardage.walk import Event, used

FORM = "YARN WEIGHT at PIECE row N"
EXAMPLE = '--left "rye 212 g at back row 84"'
LEAST_G = Fraction(20)
"""Below so many grams nothing is corrected; our choice: a scale's error would be over 5 %."""

ODD = Fraction(7, 10), Fraction(14, 10)
"""Used / estimated beyond these bounds is told to be doubtful; our choice."""

_AMOUNT = r"([0-9]{1,6}(?:\.[0-9]{1,3})?) ?(g|kg|oz)"
_LEFT = re.compile(rf"(\S+) {_AMOUNT}(?: of {_AMOUNT})? at (\S+)(?: ([1-9][0-9]?))? (?:row|round) ([0-9]{{1,6}})")

Verdict = Literal["enough", "not enough", "perhaps not enough", "not known"]


class Weighing(Struct, frozen=True):
    """`rye 212 g of 300 g at sleeve 2 row 84`: what is left, of how much (None: what is on hand), and where."""

    yarn: str
    left: Fraction
    of: Fraction | None
    place: str
    copy: int
    row: int


class Weighed(Struct, frozen=True):
    """What a weighing says.

    Attributes:
        used: grams used so far, and what the estimate says of them, from its least to its most.
        factor: used / estimated, from least to most; None where nothing can be said, and `why`.
        rest: grams that the rest takes, corrected where that can be.
        missing: grams that are missing at most.
        begun: grams that the work began with, as far as is known.
    """

    weighing: Weighing
    where: str
    used: Fraction | None
    estimated: tuple[Fraction, Fraction] | None
    factor: tuple[Fraction, Fraction] | None
    why: str
    rest: tuple[Fraction, Fraction] | None
    verdict: Verdict
    missing: Fraction
    begun: Fraction | None = None

    @property
    def is_doubtful(self) -> bool:
        """Whether so much more or less was used than estimated that a slip is likelier than a tight or loose hand."""
        return self.factor is not None and (self.factor[1] < ODD[0] or self.factor[0] > ODD[1])


def read_left(text: str, spec: Spec, work: Sequence[Event]) -> Weighing | Problem:
    """Read what was weighed; a problem where it cannot be read or names what the work has not."""
    found = _LEFT.fullmatch(" ".join(text.split()))
    if found is None:
        return _problem(f"`{text[:80]}` does not read as what is left of a yarn", f"Write {EXAMPLE}.")
    yarn, left, unit, of, of_unit, place, copy, row = found.groups()
    names = bought_yarns(spec)
    if yarn not in names:
        parts = spec.yarns[yarn].held if yarn in spec.yarns else ()
        near = nearest(yarn, names)
        help = f"Weigh {' and '.join(parts)}, of which it is made." if parts else f"Its yarns are {', '.join(names)}."
        return _problem(f"this garment takes no yarn `{yarn}`", help + (f" Perhaps {near[0]}?" if near else ""))
    places = {event.place: event for event in work if event.place != MAKING_UP}
    if place not in places:
        return _problem(f"this garment has no piece or band `{place}`", f"Its pieces are {', '.join(places)}.")
    last = places[place]
    number = int(copy or 1)
    if number > last.copies:
        times = "once" if last.copies == 1 else f"{last.copies} times"
        return _problem(f"the {place} is made {times}, so there is no number {number}", f"Write {EXAMPLE}.")
    if int(row) > last.rows:
        return _problem(
            f"the {place} has {last.rows} rows in this size, not {row}",
            "Rows count from the cast-on, facing and turning row included.",
        )
    grams = to_base(Fraction(left), unit)
    start = to_base(Fraction(of), of_unit) if of else None
    begun = start if start is not None else spec.yarns[yarn].on_hand
    if begun is not None and grams > begun:
        return _problem(
            f"{show_decimal(grams, 0)} g of {yarn} are left of {show_decimal(begun, 0)} g",
            f"Write what the work began with, such as `{yarn} {left} {unit} of {ceil(grams / 100) * 100} g at ...`.",
        )
    return Weighing(yarn, grams, start, place, number, int(row))


def _problem(message: str, help: str) -> Problem:
    return Problem("E308", message, help=help)


def weigh(weighing: Weighing, spec: Spec, work: Sequence[Event]) -> Weighed:
    """Compare what was used with the estimate, and correct the rest by it."""
    done = _rows_done(weighing, work)
    before, after = used(work[:done], weighing.yarn), used(work[done:], weighing.yarn)
    where = work[done - 1].words if done else "before the start"
    begun = weighing.of if weighing.of is not None else spec.yarns[weighing.yarn].on_hand
    spent = begun - weighing.left if begun is not None else None
    spread = before.spread
    estimated = (spread.low, spread.high) if spread is not None else None
    factor, why = None, ""
    if spent is None:
        why = "it is not known how much the work began with"
    elif spread is None:
        why = "the estimate is not known"
    elif min(spent, spread.low) < LEAST_G:
        why = f"under {LEAST_G} g are knitted, too little to correct by"
    ways = list(zip(before.known, after.known, strict=False)) if len(before.known) == len(after.known) else []
    rest: tuple[Fraction, Fraction] | None = None
    if not why and spent is not None and ways:
        error = 2 * SCALE_G
        factors = [((spent - error) / one.middle, (spent + error) / one.middle) for one, _ in ways]
        factor = min(low for low, _ in factors), max(high for _, high in factors)
        rests = [(low * two.middle, high * two.middle) for (low, high), (_, two) in zip(factors, ways, strict=True)]
        rest = min(low for low, _ in rests), max(high for _, high in rests)
    elif after.spread is not None:
        rest = after.spread.low, after.spread.high
    return Weighed(weighing, where, spent, estimated, factor, why, rest, *_verdict(rest, weighing.left), begun)


def _verdict(rest: tuple[Fraction, Fraction] | None, left: Fraction) -> tuple[Verdict, Fraction]:
    if rest is None:
        return "not known", ZERO
    low, high = rest
    if left >= high:
        return "enough", ZERO
    return ("not enough" if left < low else "perhaps not enough"), high - left


def _rows_done(weighing: Weighing, work: Sequence[Event]) -> int:
    """Give how many events are done when so many rows of a place are worked."""
    return max(
        (
            index
            for index, event in enumerate(work, 1)
            if (event.place, event.copy) == (weighing.place, weighing.copy)
            and event.what in ("row", "cast-on")
            and event.row <= weighing.row
        ),
        default=0,
    )
