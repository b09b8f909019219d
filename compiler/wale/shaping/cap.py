"""Caps of set-in sleeves: how high, and how many stitches go by single decreases.

Input: lengths in any one unit, stitches. Output: an exact height, a whole number of decreases.
"""

from __future__ import annotations

from fractions import Fraction

ALLOWANCES = ((30, 2), (48, 3))
"""Inches by which a cap and its last bind-off are less than the armhole, for chests up to so many inches."""
WIDEST_ALLOWANCE = 4


def cap_height(
    armhole: int | Fraction, bind_off: int | Fraction, chest: int | Fraction, *, inch: int | Fraction = 1
) -> Fraction:
    """Give the height of a cap: the armhole less half of the last bind-off and half of an allowance.

    Args:
        armhole: depth of the armhole.
        bind_off: width of the stitches bound off at last.
        chest: of the garment; the wider, the lower the cap.
        inch: an inch in the unit of the others.

    Source: docs/maths.md#sleeve-cap. Example: 8.5, 3 and 40 inches: 5.5 inches.
    """
    allowance = next((less for most, less in ALLOWANCES if chest <= most * inch), WIDEST_ALLOWANCE)
    return Fraction(armhole) - Fraction(bind_off) / 2 - Fraction(allowance) * inch / 2


def cap_decreases(stitches: int, *bound_off: int) -> int | None:
    """Give the decreases of each side of a cap between its bind-offs.

    Args:
        stitches: of the upper arm.
        bound_off: stitches of both sides, and of the top, that are bound off.

    Returns:
        Decreases a side; None where the two sides can't be alike, or where more is bound off than there is.

    Source: docs/maths.md#sleeve-cap. Example: 66 less 10, 8 and 16: 16 each side.
    """
    left = stitches - sum(bound_off)
    return None if left < 0 or left % 2 else left // 2
