"""How much yarn: rules of area, weight and length that need no plan.

Input: exact numbers. Output: Fractions, not rounded up; whoever buys rounds.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

MARGIN = Fraction(10, 100)
"""Share to have ready beyond what is reckoned; common practice, no source."""

TAIL_PER_WIDTH = 3
TAIL_SPARE_INCHES = 10
"""Long-tail cast-on: three times the edge and 10 inches to spare."""

TASSEL_DIVISOR = 4
"""A tassel of n cm takes n / 4 g; our own rule of thumb."""
POM_POM_DIVISOR = 30
"""A pom-pom of d cm takes d^3 / 30 g; our own rule of thumb."""


def trapezium(first: int | Fraction, second: int | Fraction, height: int | Fraction) -> Fraction:
    """Give the area of a piece that runs evenly from one width to another: the mean width times the height.

    Source: docs/maths.md#area. Example: 8 and 15 inches wide, 18 long: 207 square inches.
    """
    return (Fraction(first) + second) / 2 * height


def sweater_area(girth: int | Fraction, length: int | Fraction) -> Fraction:
    """Give the area of a whole sweater, roughly: girth x length x 3/2.

    Source: docs/maths.md#area. Example: 40 by 24 inches: 1440 square inches.
    """
    return Fraction(girth) * length * Fraction(3, 2)


def grams_by_area(area: int | Fraction, swatch_area: int | Fraction, swatch_grams: int | Fraction) -> Fraction:
    """Give the weight of a fabric from a weighed swatch of it: area x swatch weight / swatch area.

    Source: docs/maths.md#weight-by-area. Example: 1440 square inches, a swatch of 36 of 9 g: 360 g.
    """
    return Fraction(area) * swatch_grams / swatch_area


def grams_by_length(length_cm: int | Fraction, metres_per_100g: int | Fraction) -> Fraction:
    """Give the weight of a length of yarn.

    Source: docs/maths.md#weight-by-length. Example: 40 000 cm of a yarn of 400 m per 100 g weigh 100 g.
    """
    return Fraction(length_cm) / metres_per_100g


def scarf_yards(length_inches: int | Fraction, width_inches: int | Fraction, sts_per_inch: int | Fraction) -> Fraction:
    """Give the yards of yarn in a plain rectangle: length x width x sts per inch / 6.

    Source: docs/maths.md#scarf-rule. Example: 48 by 8 inches at 5 sts an inch take 320 yards.
    """
    return Fraction(length_inches) * width_inches * sts_per_inch / 6


def cast_on_tail(width_inches: int | Fraction) -> Fraction:
    """Give the tail of a long-tail cast-on in inches: three times the edge and 10 inches.

    Source: docs/maths.md#cast-on-tail. Example: an edge of 8 inches takes 34.
    """
    return Fraction(TAIL_PER_WIDTH) * width_inches + TAIL_SPARE_INCHES


def cast_on_tail_from_sample(stitches: int, sample_stitches: int, sample_length: int | Fraction) -> Fraction:
    """Give the yarn in a cast-on from what a few of its stitches used when unravelled; a few inches come on top.

    Source: docs/maths.md#cast-on-tail. Example: 10 sts used T, so 100 sts use 10 T.
    """
    return Fraction(stitches, sample_stitches) * sample_length


def pom_pom_grams(diameter_cm: int | Fraction) -> Fraction:
    """Give the yarn in a dense pom-pom: the cube of its diameter / 30.

    Source: docs/maths.md#pom-pom. Example: 6 cm take 7.2 g.
    """
    return Fraction(diameter_cm) ** 3 / POM_POM_DIVISOR


def tassel_grams(length_cm: int | Fraction) -> Fraction:
    """Give the yarn in a tassel about 0.8 cm thick: a quarter of a gram for each cm.

    Source: docs/maths.md#tassel. Example: 10 cm take 2.5 g.
    """
    return Fraction(length_cm) / TASSEL_DIVISOR


def put_ups(grams: Sequence[int | Fraction], put_up: int | Fraction) -> tuple[int, ...]:
    """Give the whole put-ups to buy of each colour: grams / put-up, rounded up.

    Source: docs/maths.md#whole-put-ups. Example: 180 g in each of two colours, cones of 150 g: two of each.
    """
    return tuple(ceil(Fraction(each) / put_up) for each in grams)
