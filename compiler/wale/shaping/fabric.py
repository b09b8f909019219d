"""The knitted loop: yarn in a stitch, density, tightness, weight of the fabric, thickness of the yarn.

Input: exact numbers in cm and tex. Output: Fractions; roots are right to a millionth. Any constants are those of fully
relaxed plain wool knitting, unless others are given. Laws: Doyle 1953, Munden 1959 (J. Textile Inst. 50, T448).
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

KW = Fraction(42, 10)
"""Wales per cm times the loop's length in cm: fully relaxed plain wool (GATE textile paper 2015, question 54)."""
KC = Fraction(55, 10)
"""Courses per cm times the loop's length in cm: fully relaxed plain wool (same paper)."""
KS = KW * KC

PEIRCE_PER_INCH = 28
"""Peirce: cotton yarn of count Ne lies 28 x sqrt(Ne) times side by side in an inch."""
_PRECISION = 10**6


def root(square: Fraction) -> Fraction:
    """Give the square root of a number >= 0, rounded down to a millionth.

    Raises:
        ValueError: a number below 0; a caller's bug.
    """
    return Fraction(isqrt(square.numerator * _PRECISION**2 // square.denominator), _PRECISION)


def loop_length(sts_per_cm: int | Fraction, rows_per_cm: int | Fraction) -> Fraction:
    """Give the yarn in one plain stitch in cm from the area of the stitch: sqrt(ks / (sts per cm * rows per cm)).

    Source: docs/maths.md#yarn-in-a-stitch. Example: 2.2 sts and 3 rows per cm take 1.871 cm.
    """
    return root(KS / (Fraction(sts_per_cm) * Fraction(rows_per_cm)))


def loop_by_width(sts_per_cm: int | Fraction, kw: Fraction = KW) -> Fraction:
    """Give the yarn in one plain stitch in cm from its width alone: kw / sts per cm.

    Source: docs/maths.md#yarn-in-a-stitch. Example: 2.2 sts per cm take 1.909 cm.
    """
    return kw / Fraction(sts_per_cm)


def loop_by_height(rows_per_cm: int | Fraction, kc: Fraction = KC) -> Fraction:
    """Give the yarn in one plain stitch in cm from its height alone: kc / rows per cm.

    Source: docs/maths.md#yarn-in-a-stitch. Example: 3 rows per cm take 1.833 cm.
    """
    return kc / Fraction(rows_per_cm)


def stitch_density(loop_cm: int | Fraction, kw: Fraction = KW, kc: Fraction = KC) -> Fraction:
    """Give the stitches in a square cm of plain knitting with so much yarn in each: kw * kc / l^2.

    Source: docs/maths.md#yarn-in-a-stitch. Example: loops of 0.5 cm lie 92.4 to the square cm.
    """
    return kw * kc / Fraction(loop_cm) ** 2


def tightness(tex: int | Fraction, loop_cm: int | Fraction) -> Fraction:
    """Give the tightness factor sqrt(tex) / l of a fabric, l in cm; the higher, the firmer.

    Source: docs/maths.md#tightness-factor. Example: 444 tex in loops of 1.87 cm give 11.3.
    """
    return root(Fraction(tex)) / Fraction(loop_cm)


def yarn_per_area(sts_per_cm: int | Fraction, rows_per_cm: int | Fraction, loop_cm: int | Fraction) -> Fraction:
    """Give the metres of yarn in a square metre of fabric: stitches in it times the yarn of each.

    Source: docs/maths.md#weight-of-a-fabric. Example: 2.2 sts, 3 rows per cm, loops of 1.87 cm: 1234.2 m.
    """
    return Fraction(sts_per_cm) * Fraction(rows_per_cm) * Fraction(loop_cm) * 100


def area_weight(
    sts_per_cm: int | Fraction, rows_per_cm: int | Fraction, loop_cm: int | Fraction, tex: int | Fraction
) -> Fraction:
    """Give the g of a square metre of fabric: metres of yarn in it * tex / 1000.

    Source: docs/maths.md#weight-of-a-fabric. Example: 2.2 sts, 3 rows per cm, loops of 1.87 cm, 444 tex: 548 g.
    """
    return yarn_per_area(sts_per_cm, rows_per_cm, loop_cm) * Fraction(tex) / 1000


def cotton_diameter(ne: int | Fraction) -> Fraction:
    """Give the thickness in inches of a hard cotton yarn of count Ne, by Peirce: 1 / (28 sqrt(Ne)).

    Source: docs/maths.md#thickness-of-a-yarn. Example: Ne 36 is 1/168 inch.
    """
    return 1 / (PEIRCE_PER_INCH * root(Fraction(ne)))


def yarn_diameter(tex: int | Fraction, volume: int | Fraction = Fraction(11, 10)) -> Fraction:
    """Give the thickness in mm of a round yarn: 2 sqrt(tex * v / (1000 pi)).

    Not the thickness at which hand knitters wrap a yarn, which is two to three times as much.

    Args:
        tex: g per 1000 m, > 0.
        volume: cm3 of yarn per g, fibre and air; Peirce's 1.1 for cotton by default.

    Source: docs/maths.md#thickness-of-a-yarn. Example: 250 tex are 0.592 mm.
    """
    return 2 * root(Fraction(tex) * volume / (1000 * Fraction(355, 113)))


def tex_of_diameter(diameter_mm: int | Fraction, volume: int | Fraction = Fraction(11, 10)) -> Fraction:
    """Give the tex of a round yarn of a thickness: the way back of `yarn_diameter`.

    Source: docs/maths.md#thickness-of-a-yarn.
    """
    return (Fraction(diameter_mm) / 2) ** 2 * 1000 * Fraction(355, 113) / volume
