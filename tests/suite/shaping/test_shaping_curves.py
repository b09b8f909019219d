"""Necks, shoulders and crowns for any count."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale.shaping.crown import crown, flat_disc_rate, least_rounds
from wale.shaping.neck import neck_split, neck_steps
from wale.shaping.shoulders import shoulder_steps, slope_depth, steps_for_slope, turning_points


@given(st.integers(1, 200), st.integers(1, 120))
def test_necks_sum_and_fit_their_rows(stitches: int, rows: int) -> None:
    neck = neck_steps(stitches, rows)
    assert neck.stitches == neck.centre + 2 * sum(neck.steps) == stitches
    assert neck.centre % 2 == stitches % 2 and 3 * neck.centre >= stitches
    assert list(neck.steps) == sorted(neck.steps, reverse=True) and all(neck.steps)
    assert len(neck.step_rows) == len(neck.steps)
    assert neck.straight_rows >= 0
    assert max(neck.step_rows, default=1) + neck.straight_rows == rows
    assert sum(neck.steps) <= 3 * ((rows - 1) // 2)


@given(st.integers(1, 200), st.integers(1, 118))
def test_deeper_necks_never_have_a_wider_centre(stitches: int, rows: int) -> None:
    assert neck_steps(stitches, rows + 2).centre <= neck_steps(stitches, rows).centre


def test_necks_by_hand() -> None:
    # 20 rows hold 9 steps, the curve takes 6 of them: 1 + 12 rows, 7 straight.
    deep = neck_steps(32, 20)
    assert (deep.centre, deep.steps, deep.straight_rows) == (12, (3, 2, 2, 1, 1, 1), 7)
    assert deep.step_rows == (3, 5, 7, 9, 11, 13)
    # 8 rows hold 3 steps, 9 sts at most: weights 3, 2, 1 of 6 are 4.5, 3, 1.5.
    assert neck_steps(32, 8).steps == (5, 3, 1)
    square = neck_steps(32, 20, curved=False)
    assert (square.centre, square.steps, square.straight_rows) == (32, (), 19)


@given(st.integers(1, 300), st.fractions(0, 1, max_denominator=100))
def test_neck_splits_are_the_nearest_symmetric_ones(stitches: int, share: Fraction) -> None:
    left, neck, right = neck_split(stitches, share)
    assert left == right >= 0 and left + neck + right == stitches and neck >= 0
    others = range(stitches % 2, stitches + 1, 2)
    assert abs(neck - stitches * share) == min(abs(other - stitches * share) for other in others)


@given(st.integers(1, 100), st.integers(1, 20))
def test_shoulders(stitches: int, steps: int) -> None:
    if stitches < steps:
        with pytest.raises(ValueError, match="steps"):
            shoulder_steps(stitches, steps)
        return
    made = shoulder_steps(stitches, steps)
    assert sum(made) == stitches and len(made) == steps
    assert list(made) == sorted(made) and made[-1] - made[0] <= 1
    turns = turning_points(made)
    assert len(turns) == steps - 1
    assert [b - a for a, b in pairwise((0, *turns, stitches))] == list(made)


@given(st.integers(1, 20), st.fractions(1, 6, max_denominator=10))
def test_slopes_there_and_back(steps: int, rows_per_cm: Fraction) -> None:
    assert steps_for_slope(slope_depth(steps, rows_per_cm), rows_per_cm) == steps


def test_a_shoulder_has_a_step() -> None:
    assert steps_for_slope(Fraction(1, 10), 3) == 1


@given(st.integers(1, 160), st.integers(1, 12), st.integers(1, 80), st.sampled_from([(1, 1), (1, 2), (2, 3), (2, 4)]))
def test_crowns(stitches: int, wedges: int, rounds: int, kind: tuple[int, int]) -> None:
    each, until = kind
    if stitches < wedges:
        with pytest.raises(ValueError, match="crown"):
            crown(stitches, wedges, rounds, each=each, until=until)
        return
    made = crown(stitches, wedges, rounds, each=each, until=until)
    assert (made is None) == (rounds < least_rounds(stitches, wedges, each=each, until=until))
    if made is None:
        return
    on_needle = stitches
    places = []
    if made.even_out is not None:
        assert made.even_out.stitches_before == on_needle
        on_needle = made.even_out.stitches_after
        places.append(1)
    assert on_needle % wedges == 0
    for one in made.decreases:
        # Work a wedge: the plain stitches, two for each decrease, and the single one that parts a pair.
        used = one.plain + 2 * each + (1 if each == 2 else 0)
        assert one.plain >= 0 and used * wedges == on_needle
        on_needle -= each * wedges
        assert one.stitches == on_needle
        places.append(one.round)
    assert made.left == on_needle
    if made.decreases:
        assert on_needle // wedges >= until
    assert on_needle // wedges < until + each or not made.decreases
    gaps = [b - a for a, b in pairwise(places)]
    assert gaps == sorted(gaps, reverse=True) and (not gaps or (gaps[-1] >= 1 and gaps[0] - gaps[-1] <= 1))
    if len(places) > 1:
        assert (places[0], places[-1]) == (1, rounds)


@pytest.mark.parametrize(("each", "until"), [(3, 3), (1, 0), (2, 2)])
def test_crowns_out_of_bounds(each: int, until: int) -> None:
    with pytest.raises(ValueError, match=r"crown|wedge"):
        crown(80, 8, 20, each=each, until=until)


def test_a_coarser_disc_grows_faster() -> None:
    # A disc of radius r rows has a girth of 2 pi r rows' heights: 6.2832 sts a round where sts and rows are square.
    assert abs(flat_disc_rate(1) - Fraction("6.283185")) < Fraction(1, 10**5)
    assert flat_disc_rate(2) * 2 == flat_disc_rate(1)


@pytest.mark.parametrize(("stitches", "rows"), [(0, 4), (4, 0)])
def test_no_neck(stitches: int, rows: int) -> None:
    with pytest.raises(ValueError, match="neck"):
        neck_steps(stitches, rows)


def test_no_share_beyond_the_row() -> None:
    with pytest.raises(ValueError, match="share"):
        neck_split(80, Fraction(3, 2))
