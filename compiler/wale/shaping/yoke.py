"""Yokes in the round and raglans: the division at the neck, depths, and rounds that take a share of the stitches.

Input: stitches of neck, body or yoke, or lengths in any one unit. Output: exact counts or lengths; rounding them to
a rib or a motif is the caller's.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

from msgspec import Struct

from wale.shaping.phrases import Phrase, Plain, Shaped, fold

RAGLAN_GAIN = 8
"""Stitches that a raglan round gains or loses: one at each side of four lines.

Source: http://cs.oswego.edu/~ebozak/knit/ck-patterns/aran/part22.html.
"""


class ShareRound(Struct, frozen=True):
    """Group by group a round loses the same share: a group of `group` stitches loses `lost` by k2tog at its end.

    Attributes:
        group: stitches of a group, >= 2 x lost.
        lost: decreases of a group, >= 1.
    """

    group: int
    lost: int

    def phrases(self, stitches: int) -> tuple[Phrase, ...]:
        """Give the words of the round over so many stitches, a multiple of the group."""
        unit: tuple[Phrase, ...] = (Plain(self.group - 2 * self.lost), Shaped(self.lost))
        return fold([unit] * (stitches // self.group))


YOKE_ROUNDS = (ShareRound(4, 1), ShareRound(3, 1), ShareRound(5, 2))
"""The rounds of a percentage yoke: -25 % (k2, k2tog), -33 % (k1, k2tog), -40 % (k1 and k2tog twice)."""
YOKE_PLACES = (Fraction(1, 2), Fraction(3, 4), Fraction(1))
"""How deep in the yoke they stand, as parts of its depth."""


def yoke_counts(stitches: int, rounds: Sequence[ShareRound] = YOKE_ROUNDS) -> tuple[int, ...] | None:
    """Give the stitches after each decrease round of a yoke.

    Args:
        stitches: when body and sleeves are joined.
        rounds: in the order worked.

    Returns:
        Stitches after each round, or None where the groups of a round leave stitches over (see `yoke_multiple`).

    Source: docs/maths.md#yoke. Example: 240 sts: 180, 120, 72.
    """
    counts = []
    for one in rounds:
        if stitches % one.group:
            return None
        stitches -= stitches // one.group * one.lost
        counts.append(stitches)
    return tuple(counts)


def yoke_multiple(rounds: Sequence[ShareRound] = YOKE_ROUNDS) -> int:
    """Give the multiple that the stitches at the start must be of, so that the groups of each round fill it.

    Source: docs/maths.md#yoke. Example: 20 for the three rounds of a percentage yoke.
    """
    left, multiple = Fraction(1), 1
    for one in rounds:
        # multiple x left is a whole number here; it has to be one of groups.
        count = multiple * left
        multiple *= one.group // gcd(int(count), one.group)
        left *= 1 - Fraction(one.lost, one.group)
    return multiple


def yoke_depth(girth: int | Fraction) -> Fraction:
    """Give the depth of a round yoke: half of the body's width laid flat.

    Source: docs/maths.md#yoke. Example: a body of 100 cm has a yoke of 25 cm.
    """
    return Fraction(girth) / 4


def raglan_neck(neck: int | Fraction, garment: int | Fraction) -> tuple[Fraction, Fraction]:
    """Give the stitches of the back (and of the front, alike) and of a sleeve top that a raglan's neck is cast on with.

    Args:
        neck: stitches round the neck.
        garment: stitches round the garment, in the same gauge.

    Source: docs/maths.md#raglan. Example: neck 56, garment 160: 28 and 5.6 before they are rounded to the rib.
    """
    part, shift = Fraction(neck) * 30 / 100, Fraction(garment) * 7 / 100
    return part + shift, part - shift


def raglan_rounds(before: int, after: int) -> int | None:
    """Give the increase (or decrease) rounds between two counts of a raglan, or None where eight don't divide them.

    Source: docs/maths.md#raglan. Example: 80 to 240: 20 rounds.
    """
    rounds, rest = divmod(abs(after - before), RAGLAN_GAIN)
    return None if rest else rounds


def raglan_depths(worked: int | Fraction, sleeve_top: int | Fraction) -> tuple[Fraction, Fraction]:
    """Give the depth of the back neck and of the armhole of a raglan from the top, in the unit of the lengths given.

    Args:
        worked: length of the raglan lines as rows.
        sleeve_top: width of a sleeve's stitches at the cast-on; they lie over the shoulder, half of them behind.

    Source: docs/maths.md#raglan. Example: 5.5 inches worked from a sleeve top of 4: 2 and 7.5.
    """
    half = Fraction(sleeve_top) / 2
    return half, Fraction(worked) + half
