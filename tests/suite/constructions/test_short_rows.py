"""Heels and toes of short rows: counts by hand, rows that follow, closed fabric, proof."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import EXAMPLES, world

from wale.constructions.short_rows import HEEL_SHORT, TOE_SHORT
from wale.course import rows_made
from wale.driver import compile_spec

SOCK = (EXAMPLES / "penstock-socks.wale").read_text("utf-8")


def made(course, before):
    return [rows_made(part, course.worked_out(before)) for part in course.parts]


def test_a_heel_of_24_stitches_by_hand():
    # 48 sts: 24 for the heel, a third of them, 8, at the right. Rows shorter by a stitch each: 23, 22, 21 ... The
    # shortest right-side row runs from stitch 9 (8 before it wait) to stitch 24 - 9 = 15: 7 stitches.
    first, second = made(HEEL_SHORT, 48)
    assert [row.worked for row in first] == [*range(23, 6, -1), 15, 48, 48]
    assert [row.waiting for row in first] == [0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 0, 0, 0]
    # From stitch 16 back to stitch 9 are 8 sts; each row then has one more, until all 24 are worked.
    assert [row.worked for row in second] == [16, *range(8, 25)]
    assert [row.waiting for row in second] == [0, 8, 8, 7, 7, 6, 6, 5, 5, 4, 4, 3, 3, 2, 2, 1, 1, 0]


@given(st.integers(6, 60))
def test_each_end_of_a_row_is_a_stitch_from_the_last_one(fours):
    before = 4 * fours
    for course in (HEEL_SHORT, TOE_SHORT):
        for rows in made(course, before):
            flat = [row for row in rows if row.worked < before]
            ends = [(row.waiting, row.waiting + row.worked) for row in flat]
            for (right, left), (to_right, to_left) in pairwise(ends[1:-1]):
                assert abs(right - to_right) + abs(left - to_left) == 1


@pytest.mark.parametrize("ankle", [13, 15, 18, 20, 22, 25, 30, 38])
@pytest.mark.parametrize("left", [False, True])
def test_socks_of_all_girths_are_proven(ankle, left):
    text = SOCK.replace("ankle         21 (23, 25) cm", f"ankle {ankle} ({ankle + 1}, {ankle + 2}) cm")
    text = text.replace("heel    flap", "heel    short rows").replace("toe     wedge", "toe     short rows")
    done = compile_spec(world(text), "a.wale", is_left_handed=left)
    assert done.proof is not None, done.problems
