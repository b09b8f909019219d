"""Increases and decreases spread over one row or round.

Input: stitches and how many shapings. Output: an `EvenRow`, which a machine can walk (`gaps`) and a writer can print
(`phrases`). Every spread sums exactly; unequal gaps differ by one, and mirror whenever whole stitches allow.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from wale.shaping.phrases import Phrase, Plain, Shaped, fold, merge, weigh


def distribute(total: int, gaps: int) -> tuple[int, ...]:
    """Spread `total` stitches over `gaps` places as evenly as whole stitches allow.

    Args:
        total: stitches to place, >= 0.
        gaps: places along the row, >= 1.

    Returns:
        `gaps` integers in row order, summing to `total`; largest and smallest differ by at most 1. They read the same
        from both ends unless an odd total meets an even number of gaps.

    Raises:
        ValueError: `gaps` < 1 or `total` < 0; a caller's bug.

    Source: docs/maths.md#even-spacing. Example: distribute(7, 3) == (2, 3, 2).
    """
    if gaps < 1 or total < 0:
        raise ValueError("spreading needs at least one gap and no negative total")
    ends = [_mirrored_round(Fraction(total * i, gaps), Fraction(total, 2)) for i in range(gaps + 1)]
    return tuple(b - a for a, b in pairwise(ends))


def distribute_in_blocks(total: int, gaps: int) -> tuple[int, ...]:
    """Spread like `distribute`, with equal gaps together: the larger ones half at the start, half at the end.

    Less even along the row than `distribute`, and shorter to say.

    Source: docs/maths.md#even-spacing; the order is common practice, no source.
    Example: distribute_in_blocks(8, 5) == (2, 2, 1, 1, 2).
    """
    if gaps < 1 or total < 0:
        raise ValueError("spreading needs at least one gap and no negative total")
    small, larger = divmod(total, gaps)
    first = (larger + 1) // 2
    return (small + 1,) * first + (small,) * (gaps - larger) + (small + 1,) * (larger - first)


class Group(Struct, frozen=True):
    """Plain stitches, then shapings side by side, then plain stitches."""

    before: int
    shapings: int
    after: int


class EvenRow(Struct, frozen=True):
    """One row or round with shapings spread over it.

    Attributes:
        change: stitches that one shaping adds: -1 (two together) or +1 (make one between two stitches).
        head: plain stitches at the start.
        groups: in row order.
        tail: plain stitches at the end.
    """

    change: int
    head: int
    groups: tuple[Group, ...]
    tail: int

    @property
    def shapings(self) -> int:
        """How many increases or decreases the row holds."""
        return sum(g.shapings for g in self.groups)

    @property
    def stitches_before(self) -> int:
        """Stitches on the needle before the row."""
        plain = self.head + self.tail + sum(g.before + g.after for g in self.groups)
        return plain + (2 * self.shapings if self.change < 0 else 0)

    @property
    def stitches_after(self) -> int:
        """Stitches on the needle after the row."""
        return self.stitches_before + self.change * self.shapings

    def gaps(self) -> tuple[int, ...]:
        """Give the plain stitches before each shaping and, last, those after the last one."""
        result = [self.head]
        for group in self.groups:
            result[-1] += group.before
            result += [0] * group.shapings
            result[-1] += group.after
        result[-1] += self.tail
        return tuple(result)

    def phrases(self) -> tuple[Phrase, ...]:
        """Give the row as knitters write it, repeats folded: (k6, k2tog) 12 times is one `Repeat`.

        The head stands alone or in the first group, whichever is shorter to say.
        """
        units = [tuple(merge((Plain(g.before), Shaped(g.shapings), Plain(g.after)))) for g in self.groups]
        apart = merge((Plain(self.head), *fold(units), Plain(self.tail)))
        units[0] = tuple(merge((Plain(self.head), *units[0])))
        together = merge((*fold(units), Plain(self.tail)))
        return tuple(min(apart, together, key=weigh))


def decrease_round(stitches: int, count: int, *, blocks: bool = False) -> EvenRow:
    """Spread `count` decreases over a round: a group of g stitches is g-2 plain and two together.

    Where fewer plain stitches than decreases are left, each plain stitch follows a run of decreases.

    Args:
        stitches: stitches of the round.
        count: decreases, 1 <= count <= stitches / 2.
        blocks: keep equal groups together.

    Raises:
        ValueError: too few stitches, or no decrease.

    Source: docs/maths.md#even-decreases. Example: 96 less 12 is (k6, k2tog) 12 times.
    """
    plain = _plain_left(stitches, count)
    spread = distribute_in_blocks if blocks else distribute
    if plain < count:
        return EvenRow(-1, 0, _dense(plain, count), 0)
    return EvenRow(-1, 0, tuple(Group(p, 1, 0) for p in spread(plain, count)), 0)


def decrease_flat(stitches: int, count: int, *, edge: int = 1, blocks: bool = False) -> EvenRow:
    """Spread `count` decreases over a row worked flat, plain at both ends.

    With `edge` 1 the row is cut in count+1 sections, and each decrease joins the last stitch of a section to the
    first of the next. Where no more plain stitches than decreases are left between the edges, each plain stitch
    follows a run of decreases.

    Args:
        stitches: stitches of the row.
        count: decreases, 1 <= count <= (stitches - 2 * edge) / 2.
        edge: stitches at each end that stay plain, >= 0.
        blocks: keep equal sections together.

    Raises:
        ValueError: too few stitches, or no decrease.

    Source: docs/maths.md#even-decreases. Example: 110 less 14 has 15 sections, ten of 7 and five of 8.
    """
    plain = _plain_left(stitches - 2 * edge, count)
    if plain <= count:
        return EvenRow(-1, edge, _dense(plain, count), edge)
    gaps = (distribute_in_blocks if blocks else distribute)(plain, count + 1)
    return EvenRow(-1, edge, tuple(Group(p, 1, 0) for p in gaps[:-1]), gaps[-1] + edge)


def increase_round(stitches: int, count: int, *, blocks: bool = False) -> EvenRow:
    """Spread `count` increases over a round, each after its group of plain stitches.

    Args:
        stitches: stitches of the round.
        count: increases, 1 <= count <= stitches.
        blocks: keep equal groups together.

    Raises:
        ValueError: fewer stitches than increases, or no increase.

    Source: docs/maths.md#even-increases. Example: 96 and 12 is (k8, m1) 12 times.
    """
    _check_increase(stitches, count)
    spread = distribute_in_blocks if blocks else distribute
    return EvenRow(1, 0, tuple(Group(p, 1, 0) for p in spread(stitches, count)), 0)


def increase_flat(stitches: int, count: int, *, half_ends: bool = False, blocks: bool = False) -> EvenRow:
    """Spread `count` increases over a row worked flat, plain at both ends.

    Args:
        stitches: stitches of the row.
        count: increases, 1 <= count < stitches.
        half_ends: half a section at each end, instead of count+1 like sections.
        blocks: keep equal sections together; like sections only.

    Raises:
        ValueError: no more stitches than increases, or no increase.

    Source: docs/maths.md#even-increases. Example: 40 and 4 is five sections of 8; 48 and 12 with half ends is
    k2, m1, (k4, m1) 11 times, k2.
    """
    _check_increase(stitches - 1, count)
    if half_ends:
        middle = Fraction(stitches, 2)
        places = [_mirrored_round(Fraction((2 * i + 1) * stitches, 2 * count), middle) for i in range(count)]
        ends = (0, *places, stitches)
        gaps = tuple(b - a for a, b in pairwise(ends))
    else:
        gaps = (distribute_in_blocks if blocks else distribute)(stitches, count + 1)
    return EvenRow(1, 0, tuple(Group(p, 1, 0) for p in gaps[:-1]), gaps[-1])


def increase_simply(stitches: int, count: int) -> EvenRow | None:
    """Spread `count` increases by one gap, or two alternating gaps, and leave the rest plain at the end.

    Less even than `increase_flat`, and short to say. The rest is never longer than a gap.

    Returns:
        The row; None where neither a single gap nor alternating ones leave so short a rest.

    Raises:
        ValueError: fewer stitches than increases, or no increase.

    Source: docs/maths.md#even-increases. Example: 100 and 16 is after every 6th stitch, 4 left at the end.
    """
    _check_increase(stitches, count)
    gap, rest = divmod(stitches, count)
    for pair in ((gap, gap), (gap, gap + 1), (gap + 1, gap)):
        gaps = tuple(pair[i % 2] for i in range(count))
        rest = stitches - sum(gaps)
        if 0 <= rest <= gap:
            return EvenRow(1, 0, tuple(Group(p, 1, 0) for p in gaps), rest)
    return None


def _mirrored_round(place: Fraction, middle: Fraction) -> int:
    """Round to the nearest whole number; a half goes towards the middle, so that both ends are treated alike."""
    half = Fraction(1, 2)
    if place > middle:
        return -int((half - place) // 1)
    return int((place + half) // 1)


def _plain_left(stitches: int, count: int) -> int:
    if count < 1 or stitches < 2 * count:
        raise ValueError(f"{count} decreases do not fit in {stitches} sts")
    return stitches - 2 * count


def _check_increase(stitches: int, count: int) -> None:
    if count < 1 or stitches < count:
        raise ValueError(f"{count} increases do not fit")


def _dense(plain: int, count: int) -> tuple[Group, ...]:
    if not plain:
        return (Group(0, count, 0),)
    return tuple(Group(0, run, 1) for run in distribute(count, plain))
