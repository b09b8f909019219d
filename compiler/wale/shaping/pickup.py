"""Picking up stitches along an edge.

Input: gauges and counts. Output: a ratio of stitches to rows, a pattern a knitter can keep, and counts.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from wale.shaping.gauge import nearest
from wale.shaping.spacing import distribute

PRECISION = 10**6
LONGEST_PATTERN = 13
"""Most rows in one round of the pick-up pattern, as long as the published one of 10 in 13."""


def pick_up_ratio(
    sts_per_length: int | Fraction, rows_per_length: int | Fraction, longest: int = LONGEST_PATTERN
) -> Fraction:
    """Give the stitches to pick up for each row of an edge.

    Args:
        sts_per_length: stitch gauge of the band, > 0.
        rows_per_length: row gauge of the piece, per the same length, > 0.
        longest: most rows after which the pattern starts again.

    Returns:
        The nearest fraction with a denominator up to `longest`.

    Raises:
        ValueError: a gauge that is not above zero, or a ratio that rounds to none.

    Source: docs/maths.md#pick-up-along-rows. Example: 20 sts and 26 rows give 10/13.
    """
    if sts_per_length <= 0 or rows_per_length <= 0:
        raise ValueError("gauges are above zero")
    ratio = (Fraction(sts_per_length) / Fraction(rows_per_length)).limit_denominator(longest)
    if not ratio:
        raise ValueError(f"less than one stitch for {longest} rows")
    return ratio


def pick_up_pattern(ratio: Fraction) -> tuple[tuple[int, int], ...]:
    """Split a ratio into small parts (stitches, rows), each leaving out one row: 10/13 = 3/4 + 3/4 + 4/5.

    Below one half each part is one stitch in several rows; above one, several stitches in one row.

    Returns:
        Parts in growing order; their stitches and rows sum to the ratio's terms.

    Raises:
        ValueError: the ratio is not above zero.

    Source: docs/maths.md#pick-up-along-rows.
    """
    if ratio <= 0:
        raise ValueError("a ratio is above zero")
    picked, rows = ratio.numerator, ratio.denominator
    if picked >= rows:
        return tuple((part, 1) for part in sorted(distribute(picked, rows)))
    skipped = rows - picked
    if skipped > picked:
        return tuple((1, part) for part in sorted(distribute(rows, picked)))
    return tuple((part, part + 1) for part in sorted(distribute(picked, skipped)))


def along_rows(rows: int, ratio: Fraction) -> int:
    """Give the stitches to pick up along so many rows, the nearest whole number.

    Source: docs/maths.md#pick-up-along-rows. Example: 120 rows at 2/3 give 80.
    """
    return nearest(rows * ratio)


def along_stitches(stitches: int) -> int:
    """Give the stitches to pick up along bound-off or held stitches: one for one.

    Source: docs/maths.md#pick-up-along-stitches.
    """
    return stitches


def hypotenuse(across: Fraction, up: Fraction) -> Fraction:
    """Give the length of a slant to a millionth, in exact arithmetic."""
    square = across * across + up * up
    return Fraction(isqrt(square.numerator * PRECISION**2 // square.denominator), PRECISION)
