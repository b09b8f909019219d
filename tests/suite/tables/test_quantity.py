"""Units against an independent registry (pint), and printing by hand-worked cases."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale import quantity

PINT_NAMES = {
    "cm": ("centimeter", "centimeter"),
    "mm": ("millimeter", "centimeter"),
    "m": ("meter", "centimeter"),
    "inch": ("inch", "centimeter"),
    "inches": ("inch", "centimeter"),
    "yd": ("yard", "centimeter"),
    "g": ("gram", "gram"),
    "kg": ("kilogram", "gram"),
    "oz": ("ounce", "gram"),
    "percent": ("percent", "dimensionless"),
}


@pytest.fixture(scope="module")
def registry():
    import pint

    return pint.UnitRegistry(non_int_type=Decimal)


@pytest.mark.parametrize("unit", sorted(PINT_NAMES))
def test_factor_is_pints(registry, unit):
    name, base = PINT_NAMES[unit]
    theirs = registry.Quantity(Decimal(1), name).to(base).magnitude
    assert float(quantity.to_base(Fraction(1), unit)) == pytest.approx(float(theirs), rel=1e-15)


def test_every_unit_is_checked_or_a_plain_count():
    counts = {u for u, (kind, factor) in quantity.UNITS.items() if kind in ("stitches", "rows") and factor == 1}
    assert set(quantity.UNITS) == set(PINT_NAMES) | counts


def test_exact_definitions():
    assert quantity.to_base(Fraction(11, 2), "inch") == Fraction("13.97")
    assert quantity.to_base(Fraction(1), "yd") == Fraction("91.44")
    assert quantity.to_base(Fraction(16), "oz") == Fraction("453.59237")


@pytest.mark.parametrize(
    ("unit", "kind"),
    [("cm", "length"), ("oz", "weight"), ("sts", "stitches"), ("round", "rows"), ("percent", "percent")],
)
def test_dimension(unit, kind):
    assert quantity.dimension_of(unit) == kind


@pytest.mark.parametrize("word", ["in", "CM", "US", "", "stitches"])
def test_unknown_word_has_no_dimension(word):
    assert quantity.dimension_of(word) is None


@pytest.mark.parametrize(
    ("word", "meant"),
    [("in", "inch"), ("CM", "cm"), ("cm.", "cm"), ("stitches", "sts"), ("Yards", "yd"), ("furlong", None)],
)
def test_meant_unit(word, meant):
    assert quantity.meant_unit(word) == meant


def test_meant_units_exist():
    assert set(quantity.OTHER_WORDS.values()) <= set(quantity.UNITS)
    assert not set(quantity.OTHER_WORDS) & set(quantity.UNITS)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("58", "58"),
        ("61.45", "61.5"),
        ("61.44", "61.4"),
        ("57.96", "58"),
        ("0.04", "0"),
        ("-0.04", "0"),
        ("-2.5", "-2.5"),
    ],
)
def test_lengths_in_words(value, text):
    assert quantity.length_words(Fraction(value), "cm") == f"{text} cm"


def test_lengths_in_words_in_inches() -> None:
    # 58 / 2.54 = 22.83; 25.4 / 2.54 = 10; 1.5 / 2.54 = 0.591.
    assert quantity.length_words(Fraction(58), "inch") == "22.8 inches"
    assert quantity.length_words(Fraction("25.4"), "inch") == "10 inches"
    assert quantity.length_words(Fraction("25.4"), "inch", 2, trim=False) == "10.00 inches"
    assert quantity.length_words(Fraction("1.5"), "inch", 2) == "0.59 inches"


def test_a_sentence_in_the_patterns_unit() -> None:
    # 49 / 2.54 = 19.291; 16 to 21 are 6.30 to 8.27; 77.2 and 119.6 are 30.39 and 47.09.
    text = "head: bust × 0.073 + 49.00 cm, kept within 16-21 cm; bust 77.2 to 119.6 cm; 10 % and 2cm stay"
    assert quantity.units_in_text(text, "cm") == text
    told = "head: bust × 0.073 + 19.29 inches, kept within 6.3-8.3 inches; bust 30.4 to 47.1 inches; 10 % and 2cm stay"
    assert quantity.units_in_text(text, "inch") == told


@pytest.mark.parametrize(
    ("inches", "text"),
    [("22 3/4", "22 3/4"), ("1/2", "1/2"), ("8", "8"), ("8 1/8", "8 1/4"), ("8 1/9", "8"), ("7 15/16", "8")],
)
def test_show_inch(inches, text):
    value = sum(Fraction(word) for word in inches.split())
    assert quantity.show_inch(value * Fraction(254, 100)) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [("1.39", "+1.39"), ("-0.5", "-0.50"), ("0", "0.00"), ("0.004", "0.00"), ("-0.004", "0.00"), ("0.005", "+0.01")],
)
def test_show_signed(value, text):
    assert quantity.show_signed(Fraction(value)) == text


@given(st.integers(-(10**7), 10**7), st.integers(0, 3))
def test_decimal_rounding_is_the_decimal_modules(ten_thousandths, places):
    value = Fraction(ten_thousandths, 10_000)
    exact = Decimal(ten_thousandths).scaleb(-4)
    theirs = exact.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    assert quantity.show_decimal(value, places) == f"{abs(theirs) if theirs == 0 else theirs}"
