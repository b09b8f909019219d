"""Necks, shoulders and crowns for any count."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale.shaping.crown import crown, flat_disc_rate, least_rounds
from wale.shaping.neck import boat_neck, neck_split, neck_steps, scoop_neck, slope_runs
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


def test_scoops_by_hand() -> None:
    # 40: 20 in the centre, 10 a side, 5 on every 2nd row and 5 on every 4th: pairs 1 to 5, then 7, 9, 11, 13, 15.
    deep = scoop_neck(40, 40)
    assert (deep.centre, deep.steps) == (20, (1, 1, 1, 1, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1))
    assert slope_runs(deep.steps) == ((2, 4), (4, 5)) and deep.straight_rows == 40 - 31
    # 27 rows hold 13 pairs: 2 * 10 - 13 = 7 go on every 2nd row, 3 on every 4th: 7 + 6 pairs, none to spare.
    assert slope_runs(scoop_neck(40, 27).steps) == ((2, 6), (4, 3)) and scoop_neck(40, 27).straight_rows == 0
    # 11 rows hold 5 pairs, so 5 at each side, and 30 in the centre.
    assert (scoop_neck(40, 11).centre, scoop_neck(40, 11).steps) == (30, (1,) * 5)
    # An odd neck has an odd centre: 17 of 31, at least half of it; and an opening of 25 is all of the centre.
    assert scoop_neck(31, 60).centre == 17 and scoop_neck(40, 60, least=25).centre == 26


@given(st.integers(1, 200), st.integers(1, 160))
def test_scoops_sum_slow_down_and_fit_their_rows(stitches: int, rows: int) -> None:
    neck = scoop_neck(stitches, rows)
    assert neck.stitches == stitches and neck.straight_rows >= 0 and 2 * neck.centre >= stitches
    assert set(neck.steps) <= {0, 1} and neck.steps[:1] in ((), (1,)) and neck.steps[-1:] in ((), (1,))
    gaps = [gap for gap, times in slope_runs(neck.steps) for _ in range(times)]
    assert gaps == sorted(gaps) and set(gaps) <= {2, 4}


def test_boat_necks_by_hand() -> None:
    # 60 sts, 6 of them at the ends, 3 each: 7 rows hold 3 steps, weights 3, 2, 1 of 6 are 1.5, 1, 0.5.
    assert boat_neck(60, 8, 6) == neck_steps(60, 8, least=54)
    assert (boat_neck(60, 8, 6).centre, boat_neck(60, 8, 6).steps) == (54, (2, 1))
    # Two pairs of rows: weights 2, 1 of 3 are 2, 1. One pair: all 3 at once. None: straight across.
    assert [boat_neck(60, rows, 6).steps for rows in (5, 3, 2)] == [(2, 1), (3,), ()]
    # 7 at the ends of an even neck are 6: the centre keeps its parity. A third stays at least where it is narrow.
    assert boat_neck(60, 8, 7).centre == 54 and boat_neck(9, 20, 8).centre == 3


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
