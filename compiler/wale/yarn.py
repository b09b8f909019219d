"""Yarn counts in exact arithmetic: any numbering system to metres per 100 g, folds, strands, and weight classes.

A direct system gives weight per length (higher number, thicker yarn), an indirect one length per weight. Everything
follows from 1 yd = 0.9144 m and 1 lb = 453.59237 g. Rules and sources: docs/yarn.md.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cache
from typing import Literal

from msgspec import Struct

from wale.published import rows_of

METRES_PER_YARD = Fraction("0.9144")
GRAMS_PER_POUND = Fraction("453.59237")


class System(Struct, frozen=True):
    """A numbering system.

    Attributes:
        kind: "direct": tex = number * tex; "indirect": tex = tex / number.
        tex: tex of a yarn of number 1.
        words: what the number counts.
    """

    kind: Literal["direct", "indirect"]
    tex: Fraction
    words: str


def _per_pound(yards: int, pounds: Fraction = Fraction(1)) -> Fraction:
    """Give the tex of a yarn of which `yards` weigh `pounds`."""
    return pounds * GRAMS_PER_POUND * 1000 / (yards * METRES_PER_YARD)


SYSTEMS: dict[str, System] = {
    "tex": System("direct", Fraction(1), "g per 1000 m"),
    "dtex": System("direct", Fraction(1, 10), "g per 10 000 m"),
    "den": System("direct", Fraction(1, 9), "g per 9000 m"),
    "ktex": System("direct", Fraction(1000), "kg per 1000 m"),
    "mtex": System("direct", Fraction(1, 1000), "mg per 1000 m"),
    "grains": System("direct", _per_pound(120, Fraction(1, 7000)), "grains per 120 yd"),
    "spyndle": System("direct", _per_pound(14400), "lb per 14 400 yd"),
    "Nm": System("indirect", Fraction(1000), "m per g"),
    "Ne": System("indirect", _per_pound(840), "840 yd hanks per lb (cotton)"),
    "NeW": System("indirect", _per_pound(560), "560 yd hanks per lb (worsted)"),
    "run": System("indirect", _per_pound(1600), "1600 yd lengths per lb (woollen)"),
    "cut": System("indirect", _per_pound(300), "300 yd lengths per lb (woollen)"),
    "lea": System("indirect", _per_pound(300), "300 yd leas per lb (linen)"),
    "ypp": System("indirect", _per_pound(1), "yd per lb"),
    "YSW": System("indirect", _per_pound(256), "256 yd skeins per lb (Yorkshire woollen)"),
    "gala": System("indirect", _per_pound(200), "300 yd cuts per 24 oz (Galashiels)"),
}
"""Every numbering system that `count` knows, by its word."""


def metres_per_100g(number: Fraction, system: str) -> Fraction:
    """Give the length of 100 g of yarn of a count.

    Args:
        number: the resultant count, > 0; see `resultant` for folded yarn.
        system: a key of `SYSTEMS`.

    Raises:
        KeyError: no such system.
        ZeroDivisionError: a count of 0; users meet a problem earlier.

    Example: metres_per_100g(Fraction(4), "Nm") == 400.
    """
    found = SYSTEMS[system]
    if found.kind == "indirect":
        return 100_000 * number / found.tex
    return 100_000 / (number * found.tex)


def count_in(metres: Fraction, system: str) -> Fraction:
    """Give the count, in a system, of a yarn of so many metres per 100 g: the way back of `metres_per_100g`."""
    found = SYSTEMS[system]
    tex = 100_000 / metres
    return found.tex / tex if found.kind == "indirect" else tex / found.tex


def band_metres_per_100g(length_m: Fraction, weight_g: Fraction) -> Fraction:
    """Give the metres per 100 g of a ball-band statement, e.g. 210 m in 50 g."""
    return length_m * 100 / weight_g


class Fold(Struct, frozen=True):
    """A folded count read apart: how many singles, the count of each, and a doubt in words ("" if there is none)."""

    fold: int
    single: int
    doubt: str = ""


def read_fold(first: int, second: int) -> Fold:
    """Read `2/8` or `8/2`: the smaller number is the fold (the order differs by country).

    Doubtful where the two are within a factor of 3 of each other or the fold is over 4 (common practice, no source).
    """
    fold, single = min(first, second), max(first, second)
    reasons = []
    if single < 3 * fold:
        reasons.append(f"{fold} and {single} are close to each other")
    if fold > 4:
        reasons.append(f"{fold} is a rare fold")
    doubt = ""
    if reasons:
        doubt = f"{first}/{second} is read as {fold} strands of {single} twisted together; {' and '.join(reasons)}"
    return Fold(fold, single, doubt)


def resultant(fold: Fold, system: str) -> Fraction:
    """Give the count of the folded yarn as one number: single / fold, or single * fold in a direct system.

    Take-up by twist is left out. Example: 2/8 Nm is Nm 4; 2/34 tex is R 68 tex.
    """
    if SYSTEMS[system].kind == "indirect":
        return Fraction(fold.single, fold.fold)
    return Fraction(fold.single * fold.fold)


def held_together(metres: Iterable[Fraction]) -> Fraction:
    """Give the metres per 100 g of strands held together: 1 / sum(1 / each).

    Args:
        metres: metres per 100 g of each strand, at least one, all > 0.

    Example: two strands of 800 give 400.
    """
    return 1 / sum((1 / each for each in metres), Fraction(0))


class WeightClass(Struct, frozen=True):
    """A class 0 to 7 of the Craft Yarn Council's yarn weight system; a bound of None is open.

    Attributes:
        stitches: stockinette stitches in 4 inches.
        needle_mm: needle sizes.
        wpi: wraps per inch.
        metres: length of 100 g; common practice, unlike the other columns.
    """

    number: int
    name: str
    yarns: str
    stitches: tuple[Fraction | None, Fraction | None]
    needle_mm: tuple[Fraction | None, Fraction | None]
    wpi: tuple[Fraction | None, Fraction | None]
    metres: tuple[Fraction | None, Fraction | None]


@cache
def weight_classes() -> tuple[WeightClass, ...]:
    """Give the eight classes, finest yarn first."""

    def pair(row: dict[str, str], column: str) -> tuple[Fraction | None, Fraction | None]:
        low, high = row[f"{column}_min"], row[f"{column}_max"]
        return Fraction(low) if low else None, Fraction(high) if high else None

    return tuple(
        WeightClass(
            int(row["number"]),
            row["name"],
            row["yarns"],
            pair(row, "stitches"),
            pair(row, "needle_mm"),
            pair(row, "wpi"),
            pair(row, "metres"),
        )
        for row in rows_of("yarn_weights")
    )


def _distance(value: Fraction, bounds: tuple[Fraction | None, Fraction | None]) -> Fraction:
    low, high = bounds
    if low is not None and value < low:
        return low - value
    if high is not None and value > high:
        return value - high
    return Fraction(0)


def classes_by_metres(metres: Fraction) -> tuple[WeightClass, ...]:
    """Give the classes that a yarn of so many metres per 100 g may be, finest first; at least one.

    Ranges overlap, and fibre matters: length says the class only roughly (common practice, no standard).
    """
    return tuple(each for each in weight_classes() if _distance(metres, each.metres) == 0)


def classes_by_wraps(wraps: Fraction) -> tuple[WeightClass, ...]:
    """Give the classes that a yarn of so many wraps per inch may be, finest first; the nearest where none holds it."""
    nearest = min(_distance(wraps, each.wpi) for each in weight_classes())
    return tuple(each for each in weight_classes() if _distance(wraps, each.wpi) == nearest)


def needle_range(classes: Sequence[WeightClass]) -> tuple[Fraction | None, Fraction | None]:
    """Give the thinnest and thickest usual needle in mm over some classes; None where a class is open.

    For stockinette; stranded work often takes one size more, ribs and hems one or two less.
    """
    return _hull([each.needle_mm for each in classes])


def metres_range(classes: Sequence[WeightClass]) -> tuple[Fraction | None, Fraction | None]:
    """Give the least and greatest usual metres per 100 g over some classes; None where a class is open."""
    return _hull([each.metres for each in classes])


def _hull(
    bounds: Sequence[tuple[Fraction | None, Fraction | None]],
) -> tuple[Fraction | None, Fraction | None]:
    lows = [low for low, _ in bounds if low is not None]
    highs = [high for _, high in bounds if high is not None]
    return (
        min(lows) if len(lows) == len(bounds) else None,
        max(highs) if len(highs) == len(bounds) else None,
    )
