"""The opening at the neck: how wide, and the steps of its curve.

Input: stitches of the neck and rows of its depth. Output: a `Neck`, whose steps sum exactly to the neck.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby, pairwise

from msgspec import Struct

from wale.shaping.gauge import nearest

MOST_PER_STEP = 3
"""Most stitches that a step takes on average, so that a shallow neck keeps a wide flat centre."""

BOAT_ENDS = Fraction(5, 2)
"""How wide both ends of a boat neck are together, in cm: all but about an inch is bound off at once (common practice,
no source)."""


class Neck(Struct, frozen=True):
    """Bind-offs of a neck: the centre on row 1, then each side on alternate rows, then straight.

    Attributes:
        centre: stitches bound off (or held) at the centre.
        steps: stitches that go at the neck edge of each side, in order, one step in two rows: bound off, never growing
            and each >= 1; of a V decreased, 1 or 0.
        rows: rows of the neck's depth, the centre's row included.
    """

    centre: int
    steps: tuple[int, ...]
    rows: int

    @property
    def stitches(self) -> int:
        """Stitches of the whole neck."""
        return self.centre + 2 * sum(self.steps)

    @property
    def step_rows(self) -> tuple[int, ...]:
        """Row of each step, the centre's being row 1; the side worked second may be one row later."""
        return tuple(3 + 2 * i for i in range(len(self.steps)))

    @property
    def straight_rows(self) -> int:
        """Plain rows after the last step (after the centre where there is none)."""
        return self.rows - (1 + 2 * len(self.steps))


def sloped_neck(stitches: int, rows: int, *, least: int = 1) -> Neck | None:
    """Divide a V neck into the stitches of its point and single decreases, spread evenly over the depth.

    The point is one stitch, or two where the neck has an even count. The first decrease stands on row 3, the others
    follow at most one pair of rows closer or wider than each other, the closer ones first.

    Args:
        stitches: stitches of the neck, >= 1.
        rows: rows of its depth, >= 1.
        least: stitches that the point has at least, such as an opening in its middle and a stitch on either side.

    Returns:
        The neck, its steps 1 on a pair of rows with a decrease and 0 on one without; None where the rows are too few.

    Source: arithmetic; shorter intervals first: docs/maths.md#v-neck. Example: 21 sts in 34 rows are 1, then 10
    decreases: on row 3, every 2nd row 3 times, every 4th row 6 times.
    """
    centre = min(max(least, 1), stitches)
    centre += (stitches - centre) % 2
    side, pairs = (stitches - centre) // 2, (rows - 1) // 2
    if side > pairs:
        return None
    steps = [0] * pairs
    gap, wide = divmod(pairs - 1, side - 1) if side > 1 else (0, 0)
    at = 0
    for number in range(side):
        steps[at] = 1
        at += gap + (number >= side - 1 - wide)
    return Neck(centre, tuple(steps), rows)


def scoop_neck(stitches: int, rows: int, *, least: int = 1) -> Neck:
    """Divide a scoop: half of it in its centre, single decreases that slow down, then straight sides.

    Of a side's stitches half (rounded up) go on every 2nd row, the others on every 4th; where the rows are too few for
    that more of them go on every 2nd row, and where they are too few for any more the centre is wider.

    Args:
        stitches: stitches of the neck, >= 1.
        rows: rows of its depth, >= 1.
        least: stitches that the centre has at least, such as an opening in its middle and a stitch on either side.

    Returns:
        The neck, its steps 1 on a pair of rows with a decrease and 0 on one without.

    Source: docs/maths.md#scoop. Example: 40 sts in 40 rows are 20, then 10 decreases: on row 3, every 2nd row 4 times,
    every 4th row 5 times; 9 rows are straight.
    """
    centre = min(max(-(-stitches // 2), least), stitches)
    centre += (stitches - centre) % 2
    pairs = (rows - 1) // 2
    side = min((stitches - centre) // 2, pairs)
    quick = max(-(-side // 2), 2 * side - pairs)
    return Neck(stitches - 2 * side, (1,) * quick + (0, 1) * (side - quick), rows)


def boat_neck(stitches: int, rows: int, ends: int, *, least: int = 1) -> Neck:
    """Divide a boat neck: straight across, but for a few stitches that curve up at its two ends.

    Args:
        stitches: stitches of the neck, >= 1.
        rows: rows of its depth, >= 1.
        ends: stitches that both ends have together, >= 0.
        least: stitches that the centre has at least, such as an opening in its middle and a stitch on either side.

    Returns:
        The neck, whose ends fall in steps as those of `neck_steps`.

    Source: docs/maths.md#boat-neck. Example: 60 sts in 8 rows with 6 at the ends are 54, then 2, 1 at each side.
    """
    return neck_steps(stitches, rows, least=max(least, stitches - ends))


def boat_ends(sts_per_cm: Fraction) -> int:
    """Give the stitches of both ends of a boat neck.

    Source: docs/maths.md#boat-neck. Example: 2.5 cm at 2.2 sts in a cm are 5.5, so 6.
    """
    return nearest(BOAT_ENDS * sts_per_cm)


def with_placket(neck: Neck, stitches: int, rows: int) -> Neck:
    """Put a slit below a neck: its foot is bound off first, and what the centre has beside it where the neck begins.

    Args:
        neck: the neck, its centre as wide as the slit or by an even count wider.
        stitches: stitches of the slit's foot.
        rows: rows of the slit, even, >= 2.

    Returns:
        The neck, with the slit's stitches as its centre. No step falls beside the slit; on the row on which the neck
        alone would begin, what is left of its centre goes at each side, or else its first step.

    Source: docs/maths.md#placket. Example: 32 sts in 14 rows, 12 at the centre, with a slit of 6 sts and 4 rows are
    6, then 0, 3, 3, 2, 2, 1, 1, 1 at each side in 18 rows.
    """
    corner = (neck.centre - stitches) // 2
    beside = (0,) * (rows // 2 - 1)
    return Neck(stitches, (*beside, *((corner,) if corner else ()), *neck.steps), neck.rows + rows)


def slope_runs(steps: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Give the decreases of a V after its first one: (rows from one to the next, times), neighbours different."""
    places = [place for place, step in enumerate(steps) if step]
    gaps = [2 * (after - before) for before, after in pairwise(places)]
    return tuple((gap, len(list(run))) for gap, run in groupby(gaps))


def neck_steps(stitches: int, rows: int, *, curved: bool = True, least: int = 1) -> Neck:
    """Divide a neck into its centre and the steps of each side.

    A third of the neck (rounded up to its parity) is the centre; the sides fall off in steps that shrink steadily,
    until the last would be half a stitch. Few rows make fewer and bigger steps, and a wider centre where a step would
    exceed three stitches on average; rows left over are straight.

    Args:
        stitches: stitches of the neck, >= 1.
        rows: rows of its depth, >= 1.
        curved: False for a square neck, all in the centre.
        least: stitches that the centre has at least, such as an opening in its middle and a stitch on either side.

    Returns:
        The neck; `stitches` is kept exactly, `centre` has its parity, and no step lies beyond `rows`.

    Raises:
        ValueError: no stitch or no row.

    Source: docs/maths.md#neck-curve; `least` serves docs/maths.md#halves. Example: 32 sts in 14 rows are 12, then 3,
    2, 2, 1, 1, 1 at each side; in 6 rows 20, then 4, 2.
    """
    if stitches < 1 or rows < 1:
        raise ValueError("a neck has stitches and rows")
    if not curved:
        return Neck(stitches, (), rows)
    centre = min(max(-(-stitches // 3), least), stitches)
    centre += (stitches - centre) % 2
    available = (rows - 1) // 2
    side = min((stitches - centre) // 2, MOST_PER_STEP * available)
    count = 0
    while count < available and count * (count + 1) < 4 * side:
        count += 1
    steps = _shrinking(side, count)
    return Neck(stitches - 2 * side, steps, rows)


def neck_split(stitches: int, share: Fraction) -> tuple[int, int, int]:
    """Split a row into shoulder, neck, shoulder.

    Args:
        stitches: stitches of the row, >= 1.
        share: the neck's part of them, from 0 to 1.

    Returns:
        Three counts that sum to `stitches`; the shoulders are equal, the neck is the nearest count that allows it.

    Raises:
        ValueError: a share outside 0 to 1.

    Source: docs/maths.md#neck-split. Example: 30 % of 80 is 28, 24, 28.
    """
    if not 0 <= share <= 1:
        raise ValueError("a share lies between 0 and 1")
    neck = nearest(stitches * share, 2, stitches % 2)
    neck = min(neck, stitches)
    return (stitches - neck) // 2, neck, (stitches - neck) // 2


def _shrinking(total: int, count: int) -> tuple[int, ...]:
    """Share out `total` by the weights count, count-1, ... 1, by largest remainder; empty shares are dropped."""
    if not total:
        return ()
    weights = count * (count + 1) // 2
    exact = [Fraction(total * (count - i), weights) for i in range(count)]
    shares = [int(part) for part in exact]
    by_rest = sorted(range(count), key=lambda i: (shares[i] - exact[i], i))
    for i in by_rest[: total - sum(shares)]:
        shares[i] += 1
    return tuple(sorted((part for part in shares if part), reverse=True))
