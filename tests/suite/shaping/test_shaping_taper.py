"""Shaping over rows: the settled rule by hand, and its laws for any count."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale.shaping.taper import Schedule, cast_on_at_edges, least_rows, schedule, shapings

steps_ = st.integers(0, 80)
rows_ = st.integers(0, 400)


@pytest.mark.parametrize(
    ("start", "end", "rows", "first", "then"),
    [
        # 33 in 140: q = 4, 4 * 33 = 132, 8 rows over make 4 intervals of 6; 29 fours count the first.
        (53, 119, 140, 3, ((4, 28), (6, 4))),
        # 14 in 104: q = 6, 84, 20 over: 10 eights, 4 sixes.
        (44, 72, 104, 5, ((6, 3), (8, 10))),
        # 18 in 120: q = 6, 108, 12 over: 6 eights, 12 sixes.
        (60, 96, 120, 5, ((6, 11), (8, 6))),
        # 20 in 130: q = 6, 120, 10 over: 5 eights, 15 sixes.
        (50, 90, 130, 5, ((6, 14), (8, 5))),
        # 29 in 58: every right-side row.
        (120, 62, 58, 1, ((2, 28),)),
        # One shaping at the end of its rows: q = 10.
        (10, 12, 10, 9, ()),
    ],
)
def test_right_side_rows_by_hand(start: int, end: int, rows: int, first: int, then: tuple[tuple[int, int]]) -> None:
    made = schedule(shapings(start, end), rows)
    assert made == Schedule(first, then, rows)
    assert made.last == rows - 1 and made.plain_after == 1


def test_too_few_rows_are_refused_with_the_rows_it_takes() -> None:
    steps = shapings(120, 62)
    assert schedule(steps, 32) is None
    assert least_rows(steps) == 58
    assert least_rows(steps, any_row=True) == 29


def test_odd_rows_and_wrong_side_starts() -> None:
    # 3 in 13 rows: the last row is a right-side row and stays plain; 12 rows are every 4th.
    assert schedule(3, 13) == Schedule(3, ((4, 2),), 13)
    # From a wrong-side row the same rule starts one row later: right-side rows are even.
    assert schedule(3, 13, starts_right=False) == Schedule(4, ((4, 2),), 13)
    assert schedule(6, 12, starts_right=False) is None


def test_intervals_that_differ() -> None:
    assert Schedule(3, ((4, 28), (6, 4)), 140).distinct_intervals == 2
    assert Schedule(1, ((2, 28),), 58).distinct_intervals == 1
    assert Schedule(0, (), 58).rows() == ()


@given(steps_, rows_, st.booleans(), st.booleans())
def test_schedules_stay_within_their_rows(steps: int, rows: int, any_row: bool, starts_right: bool) -> None:
    made = schedule(steps, rows, any_row=any_row, starts_right=starts_right)
    least = least_rows(steps, any_row=any_row, starts_right=starts_right)
    assert (made is None) == (rows < least)
    if made is None:
        return
    places = made.rows()
    assert len(places) == made.steps == steps
    assert list(places) == sorted(set(places)) and all(1 <= place <= rows for place in places)
    if not any_row:
        assert all(place % 2 == (1 if starts_right else 0) for place in places)
    if places:
        assert places[-1] == made.last
        gaps = [b - a for a, b in pairwise(places)]
        assert gaps == sorted(gaps)
        assert not gaps or gaps[-1] - gaps[0] <= (1 if any_row else 2)
        # Nothing is wasted: one plain row after right-side shaping, and one more where the sides do not work out.
        lead = 0 if any_row or starts_right else 1
        assert made.plain_after == (0 if any_row else 1 + (rows - lead) % 2)


@given(st.integers(1, 80), st.integers(1, 200))
def test_first_interval_is_the_shortest(steps: int, half: int) -> None:
    made = schedule(steps, 2 * half)
    if made is not None and made.then:
        assert made.then[0][0] - (made.first + 1) in (0, 2)


def test_shapings_need_alike_counts() -> None:
    assert shapings(53, 119) == 33 and shapings(7, 7) == 0
    with pytest.raises(ValueError, match="53 to 120"):
        shapings(53, 120)


@given(st.integers(0, 200), st.integers(0, 60), st.integers(1, 9))
def test_edges_grow_by_no_more_than_asked(start: int, half: int, at_once: int) -> None:
    steps = cast_on_at_edges(start, start + 2 * half, at_once)
    assert sum(steps) == half and all(1 <= step <= at_once for step in steps)
    assert all(step == at_once for step in steps[:-1])


@pytest.mark.parametrize(("start", "end", "at_once"), [(10, 8, 1), (10, 13, 1), (10, 12, 0)])
def test_edges_that_cannot_grow(start: int, end: int, at_once: int) -> None:
    with pytest.raises(ValueError, match="edges"):
        cast_on_at_edges(start, end, at_once)


@pytest.mark.parametrize(("steps", "rows"), [(-1, 4), (1, -4)])
def test_negative_counts_are_refused(steps: int, rows: int) -> None:
    with pytest.raises(ValueError, match="negative"):
        schedule(steps, rows)
