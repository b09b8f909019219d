"""Buttonholes along a band.

Input: stitches (or rows) of the band, how many holes, of how many stitches, and how far the outer ones lie from the
ends. Output: the stitches between them.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from wale.shaping.spacing import distribute_in_blocks

MARGIN = Fraction(127, 100)
"""cm from the ends to the first and the last hole: half an inch, https://slippedstitches.wordpress.com/tag/buttonholes/."""


def margin(length: int | Fraction, per_length: int | Fraction) -> int:
    """Give the whole stitches (or rows) before the first hole: those that the length holds.

    Source: docs/maths.md#buttonholes. Example: half an inch at 9 rows an inch are 4.
    """
    return floor(Fraction(length) * per_length)


def buttonholes(stitches: int, holes: int, each: int, first: int) -> tuple[int, ...] | None:
    """Spread holes over a band.

    Args:
        stitches: of the whole band.
        holes: how many, >= 1.
        each: stitches of a hole, >= 0 (0: its place alone).
        first: stitches before the first and after the last one; a single hole lies in the middle.

    Returns:
        The stitches before the first hole, between neighbours, and after the last; None where not a stitch is left
        between two.

    Source: docs/maths.md#buttonholes. Example: 8 holes of 4 in 127 sts, the first after 2: 13 between (W082).
    """
    left = stitches - holes * each
    if holes == 1:
        return (left - left // 2, left // 2) if left >= 2 else None
    between = left - 2 * first
    if first < 1 or between < holes - 1:
        return None
    return (first, *distribute_in_blocks(between, holes - 1), first)
