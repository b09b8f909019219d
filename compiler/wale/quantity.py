"""Units: unit words to exact numbers in the fixed unit of their kind, and exact numbers to printed text.

Inside the compiler lengths are cm, weights g, counts whole numbers, all exact. The factors are definitions (1 inch =
2.54 cm, 1 yd = 0.9144 m, 1 oz = 1/16 lb, 1 lb = 453.59237 g: international yard and pound, 1959).
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

UnitKind = Literal["length", "weight", "stitches", "rows", "percent"]

CM_PER_INCH = Fraction(254, 100)
"""Exact, international yard and pound agreement of 1959."""

_OUNCE = Fraction("453.59237") / 16

UNITS: dict[str, tuple[UnitKind, Fraction]] = {
    "cm": ("length", Fraction(1)),
    "mm": ("length", Fraction(1, 10)),
    "m": ("length", Fraction(100)),
    "inch": ("length", CM_PER_INCH),
    "inches": ("length", CM_PER_INCH),
    "yd": ("length", CM_PER_INCH * 36),
    "g": ("weight", Fraction(1)),
    "kg": ("weight", Fraction(1000)),
    "oz": ("weight", _OUNCE),
    "sts": ("stitches", Fraction(1)),
    "st": ("stitches", Fraction(1)),
    "rows": ("rows", Fraction(1)),
    "row": ("rows", Fraction(1)),
    "rounds": ("rows", Fraction(1)),
    "round": ("rows", Fraction(1)),
    "percent": ("percent", Fraction(1, 100)),
}
"""Every unit word of the language with its kind and its factor to cm, g, a count, or a share of 1."""

OTHER_WORDS: dict[str, str] = {
    "in": "inch",
    "ins": "inch",
    "inchs": "inch",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "cms": "cm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "yard": "yd",
    "yards": "yd",
    "yds": "yd",
    "gram": "g",
    "grams": "g",
    "gramme": "g",
    "grammes": "g",
    "gr": "g",
    "kilogram": "kg",
    "kilograms": "kg",
    "kilo": "kg",
    "ounce": "oz",
    "ounces": "oz",
    "stitch": "sts",
    "stitches": "sts",
    "rnd": "rounds",
    "rnds": "rounds",
    "pc": "percent",
    "pct": "percent",
}
"""Words that people write for a unit, with the unit word that the language knows."""


def dimension_of(unit: str) -> UnitKind | None:
    """Give the kind of a unit word, or None when the language has no such unit."""
    found = UNITS.get(unit)
    return found[0] if found else None


def to_base(value: Fraction, unit: str) -> Fraction:
    """Give `value` in the fixed unit of its kind: cm, g, stitches, rows, or a share of 1 for percent.

    Raises:
        KeyError: no such unit; users meet a problem earlier, through `dimension_of`.

    Example: to_base(Fraction(11, 2), "inch") == Fraction("13.97").
    """
    return value * UNITS[unit][1]


def meant_unit(word: str) -> str | None:
    """Give the unit that an unknown word most likely means ("stitches" → "sts", "CM" → "cm"), or None."""
    lower = word.lower().rstrip(".")
    if lower in UNITS:
        return lower
    return OTHER_WORDS.get(lower)


def round_half_up(value: Fraction, scale: int = 1) -> int:
    """Give the whole number nearest to `value` times `scale`; halves go away from zero."""
    # in whole numbers: a pattern rounds thousands of figures
    above, below = value.numerator * scale, value.denominator
    size = (2 * abs(above) + below) // (2 * below)
    return size if above >= 0 else -size


def show_decimal(value: Fraction, places: int = 1) -> str:
    """Print with exactly `places` decimals, halves away from zero; never "-0.0"."""
    scaled = round_half_up(value, 10**places)
    whole, part = divmod(abs(scaled), 10**places)
    text = f"{whole}.{part:0{places}d}" if places else str(whole)
    return f"-{text}" if scaled < 0 else text


def in_unit(value: Fraction, units: str) -> Fraction:
    """Give a length of cm in the unit that a pattern prints: `units` is "cm" or "inch"."""
    return value / CM_PER_INCH if units == "inch" else value


def show_length(value: Fraction, units: str, places: int = 1) -> str:
    """Print a length of cm in the pattern's unit, `places` decimals, without the unit word."""
    return show_decimal(in_unit(value, units), places)


def unit_word(units: str, figure: str = "") -> str:
    """Give the word that stands after figures of length: "cm" or "inches", "inch" after a single "1"."""
    return "cm" if units != "inch" else "inch" if figure == "1" else "inches"


def length_words(value: Fraction, units: str, places: int = 1, *, trim: bool = True) -> str:
    """Print a length of cm with its unit, in the unit of the pattern: "61.5 cm", "24.2 inches".

    Args:
        units: "cm" or "inch", of the pattern.
        places: decimals; with `trim` zeros at their end are left out.
    """
    text = show_length(value, units, places)
    if trim and places:
        text = text.rstrip("0").removesuffix(".")
    return f"{text} {unit_word(units, text)}"


def units_in_text(text: str, units: str) -> str:
    """Give a sentence whose lengths are in cm with all of them in the unit of the pattern.

    Example: "16-21 cm" in inches is "6.3-8.3 inches"; decimals stay as many, one at least.
    """
    if units != "inch":
        return text

    def told(number: str) -> str:
        return show_length(Fraction(number), units, max(1, len(number.partition(".")[2])))

    def converted(found: re.Match[str]) -> str:
        first, between, last = found.groups()
        return f"{told(first)}{between}{told(last)} inches" if last else f"{told(first)} inches"

    return re.sub(r"(\d+(?:\.\d+)?)(?:( to |-)(\d+(?:\.\d+)?))? cm\b", converted, text)


def show_inch(value: Fraction) -> str:
    """Print a length given in cm as inches to the nearest quarter: "22 3/4", "1/2", "8". No unit word."""
    quarters = round_half_up(value / CM_PER_INCH * 4)
    whole, part = divmod(abs(quarters), 4)
    sign = "-" if quarters < 0 else ""
    if not part:
        return f"{sign}{whole}"
    share = ("", "1/4", "1/2", "3/4")[part]
    return f"{sign}{whole} {share}" if whole else f"{sign}{share}"


def show_signed(value: Fraction, places: int = 2) -> str:
    """Print a deviation with its sign: "+1.39", "-0.50"; plain "0.00" when it rounds to nothing."""
    text = show_decimal(value, places)
    return text if round_half_up(value, 10**places) <= 0 else f"+{text}"
