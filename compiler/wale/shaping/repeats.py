"""Repeats: whether they fit a count, and motifs shifted by half.

Input: counts. Output: counts, and the place in the motif of each stitch.
"""

from __future__ import annotations

from msgspec import Struct


class Fit(Struct, frozen=True):
    """How a repeat fits a count of stitches.

    Attributes:
        times: whole repeats.
        rest: stitches left over; 0 where it fits.
        below: largest count that fits, not above the count.
        above: smallest count that fits, not below the count.
    """

    times: int
    rest: int
    below: int
    above: int


def repeat_fit(stitches: int, repeat: int, extra: int = 0) -> Fit:
    """Fit a "multiple of `repeat` plus `extra`" to a count of stitches.

    Args:
        stitches: the count, >= extra.
        repeat: stitches of a repeat, >= 1.
        extra: stitches outside the repeats, >= 0.

    Raises:
        ValueError: counts outside these bounds.

    Source: docs/maths.md#repeat-fit. Example: 14 goes 17 times in 240, 2 over; 238 and 252 fit.
    """
    if repeat < 1 or extra < 0 or stitches < extra:
        raise ValueError("a repeat has stitches, and the count holds those outside it")
    times, rest = divmod(stitches - extra, repeat)
    return Fit(times, rest, stitches - rest, stitches - rest + (repeat if rest else 0))


def half_drop(x: int, y: int, width: int, height: int) -> tuple[int, int]:
    """Give the motif's cell at stitch x, row y (from 0) when every other column of motifs drops by half.

    Args:
        x: stitch.
        y: row.
        width: stitches of the motif.
        height: rows of the motif, even.

    Raises:
        ValueError: an odd height, or an empty motif.

    Source: docs/maths.md#half-drop.
    """
    if width < 1 or height < 2 or height % 2:
        raise ValueError("a half drop needs an even number of rows")
    return x % width, (y + height // 2 * (x // width % 2)) % height


def half_drop_size(width: int, height: int) -> tuple[int, int]:
    """Give stitches and rows of the smallest rectangle that repeats under `half_drop`.

    Source: docs/maths.md#half-drop. Example: a motif 6 wide and 8 high repeats over 12 by 8.
    """
    return 2 * width, height
