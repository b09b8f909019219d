"""Lengths to counts and back, exactly, and the whole number nearest to a wish.

Input: Fractions and ints. Output: Fractions, until `nearest` is asked for a whole number. Any unit of length works,
as long as the gauge is per the same unit; the rest of the compiler uses centimetres.
"""

from __future__ import annotations

from fractions import Fraction

CM_PER_INCH = Fraction(254, 100)


def per_length(count: int | Fraction, length: int | Fraction) -> Fraction:
    """Give the gauge of a swatch: `40 sts = 13.6 cm` is `per_length(40, Fraction("13.6"))` = 50/17 sts per cm.

    Args:
        count: stitches or rows counted, > 0.
        length: what they measure, > 0.

    Raises:
        ValueError: a count or length that is not above zero.

    Source: docs/maths.md#gauge.
    """
    if count <= 0 or length <= 0:
        raise ValueError("a gauge needs a count and a length above zero")
    return Fraction(count) / Fraction(length)


def stitches(width: int | Fraction, gauge: int | Fraction) -> Fraction:
    """Give the exact, unrounded count of stitches (or rows) in a width (or height) at so many per unit of length.

    Source: docs/maths.md#gauge. Example: 5 sts per inch over 42 inches is 210.
    """
    return Fraction(width) * Fraction(gauge)


def width(count: int | Fraction, gauge: int | Fraction) -> Fraction:
    """Give the exact width (or height) of a count of stitches (or rows) at so many per unit of length.

    Source: docs/maths.md#gauge. Example: 200 sts at 4 1/2 per inch measure 44 4/9 inches.
    """
    return Fraction(count) / Fraction(gauge)


def miscount(length: int | Fraction, counted: int | Fraction, off: int | Fraction = Fraction(1, 2)) -> Fraction:
    """Give how much a piece comes out wrong when so many stitches of the swatch were counted that were not there.

    Args:
        length: the length that is wished for.
        counted: stitches (or rows) counted in the swatch, > 0.
        off: stitches counted too many; half a stitch is what an eye at the swatch's edge cannot tell.

    Returns:
        The error in the unit of `length`: off / counted of it, whatever the gauge.

    Source: docs/maths.md#miscounted-swatch. Example: 110 cm from 40 sts, half of one too many: 1.375 cm.
    """
    return Fraction(length) * off / Fraction(counted)


def nearest(value: int | Fraction, modulus: int = 1, residue: int = 0, *, down: bool = False) -> int:
    """Give the whole number nearest to `value` that leaves `residue` when divided by `modulus`.

    Args:
        value: the exact wish.
        modulus: 1 for any whole number, 2 with residue 0 for even, a repeat's width for whole repeats; >= 1.
        residue: what is left over; taken modulo `modulus`.
        down: never above `value`.

    Returns:
        The count; halfway between two the larger, unless `down`.

    Raises:
        ValueError: `modulus` < 1.

    Source: docs/maths.md#nearest-count. Example: nearest(Fraction("72.8"), 2) == 72.
    """
    if modulus < 1:
        raise ValueError("a modulus is at least 1")
    steps = (Fraction(value) - residue) / modulus
    whole = steps.numerator // steps.denominator
    if not down and steps - whole >= Fraction(1, 2):
        whole += 1
    return whole * modulus + residue
