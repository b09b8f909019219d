"""Sloped shoulders, as stepped bind-offs or as short rows.

Input: stitches of one shoulder and steps (or the slope's depth). Output: stitches of each step.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate

from wale.shaping.gauge import nearest


def shoulder_steps(stitches: int, steps: int) -> tuple[int, ...]:
    """Divide a shoulder into steps from the armhole edge, the larger ones last.

    Args:
        stitches: stitches of one shoulder, >= steps.
        steps: bind-offs, on alternate rows, >= 1.

    Returns:
        `steps` counts that sum to `stitches` and differ by at most 1.

    Raises:
        ValueError: no step, or fewer stitches than steps.

    Source: docs/maths.md#shoulder-steps. Example: 16 in three steps are 5, 5, 6.
    """
    if steps < 1 or stitches < steps:
        raise ValueError(f"{stitches} sts do not make {steps} steps")
    size, larger = divmod(stitches, steps)
    return (size,) * (steps - larger) + (size + 1,) * larger


def turning_points(steps: Sequence[int]) -> tuple[int, ...]:
    """Give the short-row turns of a shoulder: stitches left unworked at the armhole edge, in growing order.

    A shoulder of n steps has n-1 turns; the last step needs none.

    Source: docs/maths.md#shoulder-steps. Example: steps 5, 5, 6 turn at 5 and 10 stitches from the edge.
    """
    return tuple(accumulate(steps))[:-1]


def steps_for_slope(depth: int | Fraction, rows_per_length: int | Fraction) -> int:
    """Give the steps whose rows come nearest to a slope's depth: one step for two rows, at least one.

    Source: docs/maths.md#shoulder-slope. Example: 2 inches at 4 rows an inch are four steps.
    """
    return max(1, nearest(Fraction(depth) * rows_per_length / 2))


def slope_depth(steps: int, rows_per_length: int | Fraction) -> Fraction:
    """Give the exact depth of a slope of so many steps: two rows for one step.

    Source: docs/maths.md#shoulder-slope.
    """
    return Fraction(2 * steps) / Fraction(rows_per_length)
