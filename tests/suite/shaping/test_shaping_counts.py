"""Counts from lengths, picked-up stitches, ribs, repeats, colours, for any input."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale.colour import contrast, lightness
from wale.shaping.gauge import nearest, per_length, stitches, width
from wale.shaping.pickup import along_rows, along_stitches, pick_up_pattern, pick_up_ratio
from wale.shaping.repeats import half_drop, repeat_fit
from wale.shaping.rib import facing_stitches, rib_rule

gauges = st.fractions(Fraction(1, 2), 8, max_denominator=50)


@given(st.fractions(0, 200, max_denominator=100), gauges)
def test_lengths_there_and_back(length: Fraction, gauge: Fraction) -> None:
    assert width(stitches(length, gauge), gauge) == length


def test_swatch() -> None:
    # 40 / 13.6 = 400 / 136 = 50 / 17
    assert per_length(40, Fraction("13.6")) == Fraction(50, 17)
    with pytest.raises(ValueError, match="above zero"):
        per_length(40, 0)


@given(st.fractions(-50, 300, max_denominator=60), st.integers(1, 24), st.integers(0, 23), st.booleans())
def test_nearest_is_the_nearest(value: Fraction, modulus: int, residue: int, down: bool) -> None:
    found = nearest(value, modulus, residue, down=down)
    around = range(int(value) - 60, int(value) + 60)
    allowed = [n for n in around if (n - residue) % modulus == 0 and (n <= value or not down)]
    # Between two at the same distance the larger.
    assert found == min(allowed, key=lambda n: (abs(n - value), -n))


def test_nearest_needs_a_modulus() -> None:
    with pytest.raises(ValueError, match="modulus"):
        nearest(4, 0)


@given(gauges, gauges)
def test_pick_up_patterns_sum_to_their_ratio(sts: Fraction, rows: Fraction) -> None:
    ratio = pick_up_ratio(sts, rows)
    assert abs(ratio - sts / rows) <= Fraction(1, 2 * 13)
    pattern = pick_up_pattern(ratio)
    assert sum(part for part, _ in pattern) == ratio.numerator
    assert sum(of for _, of in pattern) == ratio.denominator
    parts = [part for part, _ in pattern]
    assert max(parts) - min(parts) <= 1
    assert along_rows(ratio.denominator * 7, ratio) == ratio.numerator * 7


@pytest.mark.parametrize(
    ("ratio", "pattern"),
    [
        (Fraction(1), ((1, 1),)),
        (Fraction(2, 5), ((1, 2), (1, 3))),
        (Fraction(3, 2), ((1, 1), (2, 1))),
        (Fraction(5, 7), ((2, 3), (3, 4))),
    ],
)
def test_pick_up_patterns_by_hand(ratio: Fraction, pattern: tuple[tuple[int, int], ...]) -> None:
    assert pick_up_pattern(ratio) == pattern


def test_picking_up_along_stitches_is_one_for_one() -> None:
    assert along_stitches(24) == 24


@pytest.mark.parametrize(
    "call", [lambda: pick_up_ratio(0, 3), lambda: pick_up_ratio(1, 100), lambda: pick_up_pattern(0)]
)
def test_no_ratio(call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=r"zero|less"):
        call()


@given(st.integers(1, 4), st.integers(1, 4), st.integers(1, 200))
def test_ribs_match_at_both_edges(knit: int, purl: int, wish: int) -> None:
    modulus, residue = rib_rule(knit, purl, in_round=False)
    count = nearest(wish, modulus, residue)
    fabric = [i % (knit + purl) < knit for i in range(count)]
    assert fabric == fabric[::-1]
    modulus, residue = rib_rule(knit, purl, in_round=True)
    assert nearest(wish, modulus, residue) % (knit + purl) == 0


def test_ribs_by_hand() -> None:
    assert rib_rule(1, 1, in_round=False) == (2, 1)
    assert rib_rule(2, 2, in_round=False) == (4, 2)
    assert rib_rule(2, 2, in_round=True) == (4, 0)
    with pytest.raises(ValueError, match="rib"):
        rib_rule(0, 2, in_round=True)


def test_a_facing_is_three_per_cent_narrower() -> None:
    assert facing_stitches(200) == 194


@given(st.integers(0, 500), st.integers(1, 40), st.integers(0, 10))
def test_repeats_below_and_above(count: int, repeat: int, extra: int) -> None:
    if count < extra:
        with pytest.raises(ValueError, match="repeat"):
            repeat_fit(count, repeat, extra)
        return
    fit = repeat_fit(count, repeat, extra)
    assert fit.times * repeat + fit.rest + extra == count and 0 <= fit.rest < repeat
    assert fit.below <= count <= fit.above and (fit.below == count == fit.above) == (fit.rest == 0)
    assert (fit.below - extra) % repeat == (fit.above - extra) % repeat == 0


@given(st.integers(0, 60), st.integers(0, 60), st.integers(1, 9), st.integers(1, 6))
def test_half_drop_shifts_the_next_column_by_half(x: int, y: int, w: int, half: int) -> None:
    h = 2 * half
    assert half_drop(x + w, y + half, w, h) == half_drop(x, y, w, h) == half_drop(x, y + h, w, h)


def test_half_drop_needs_even_rows() -> None:
    with pytest.raises(ValueError, match="even"):
        half_drop(0, 0, 6, 7)


def test_lightness_and_contrast_at_their_ends() -> None:
    assert round(lightness("#000000"), 3) == 0 and round(lightness("#ffffff"), 3) == 100
    # Grey 118: ((118/255 + 0.055) / 1.055) ** 2.4 = 0.18116; 116 * 0.18116 ** (1/3) - 16 = 49.64
    assert round(lightness("#767676"), 2) == 49.64
    assert round(contrast("#000000", "#ffffff"), 3) == 21 and round(contrast("#5a3b1c", "#5a3b1c"), 3) == 1
