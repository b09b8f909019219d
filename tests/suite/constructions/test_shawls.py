"""Shawls: counts by hand, and proven in all depths."""

from fractions import Fraction
from itertools import pairwise

import pytest
from support import EXAMPLES, world

from wale.constructions.half_circle import HALF_CIRCLE
from wale.constructions.shawls import CRESCENT, TRIANGLE
from wale.course import rows_made
from wale.driver import check_spec, compile_spec

TEXT = (EXAMPLES / "millpond-shawl.wale").read_text("utf-8")


def test_a_shawl_of_45_cm_by_hand():
    # 45 cm at 3 rows are 135 rows: 67.5 pairs, so 68; four stitches a pair: 7 + 4 * 68 = 279
    numbers = TRIANGLE.worked_out(7, {"over": 45, "rows_per_cm": 3})
    assert (numbers["pairs"], numbers["all"], numbers["half"]) == (68, 279, 1)


def test_a_half_circle_as_published():
    # https://rhyflowerknits.com/shawl-shaping-101-half-pi/: 9 sts, then 8, 12, 24, 48, 96 and 192 more. Doubled after
    # 2, 6, 14, 30, 62 and 126 rows; 70 cm at 3 rows are 210.
    rows = rows_made(HALF_CIRCLE.parts[0], HALF_CIRCLE.worked_out(9, {"over": 70, "rows_per_cm": 3}))
    counts = [9, *(row.after for row in rows)]
    gained = [(number, more - less) for number, (less, more) in enumerate(pairwise(counts)) if more > less]
    assert gained == [(2, 8), (6, 12), (14, 24), (30, 48), (62, 96), (126, 192)]
    assert (len(rows), counts[-1]) == (210, 9 + 8 + 12 + 24 + 48 + 96 + 192)


def test_a_half_circle_lies_about_flat():
    # An arc of r rows is pi r rows long; at 22 sts and 32 rows that is 2.16 r sts. Between two doublings the rows have
    # more at first and fewer at last: on average as many, within a tenth.
    rows = rows_made(HALF_CIRCLE.parts[0], HALF_CIRCLE.worked_out(9, {"over": 126, "rows_per_cm": 1}))
    wanted = sum(Fraction(355, 113) * number * 22 / 32 for number in range(31, 127))
    assert abs(sum(row.after for row in rows[30:126]) / wanted - 1) < Fraction(1, 10)


def test_a_crescent_as_published():
    # https://rhyflowerknits.com/basic-top-down-crescent/: 9 sts (7 and 2 of a set-up), 194 rows: 397
    rows = rows_made(CRESCENT.parts[0], CRESCENT.worked_out(9, {"over": 194, "rows_per_cm": 1}))
    assert (len(rows), rows[-1].after) == (194, 397)
    assert [row.after for row in rows[:4]] == [11, 13, 15, 17]


@pytest.mark.parametrize("line", ["triangle", "crescent", "half circle"])
@pytest.mark.parametrize("depth", ["1 cm", "10 rows", "33 cm", "120 cm"])
@pytest.mark.parametrize("start", [7, 9, 15])
def test_it_is_proven_in_all_depths(line, depth, start):
    text = TEXT.replace("triangle over 45 (70) cm", f"{line} over {depth}")
    text = text.replace("cast on  7 sts", f"cast on  {start} sts")
    assert compile_spec(world(text), "a.wale").proof is not None


@pytest.mark.parametrize("line", ["triangle", "crescent", "half circle"])
def test_in_garter_its_wrong_side_rows_are_knitted(line):
    text = TEXT.replace("triangle over 45 (70) cm", f"{line} over 20 cm")
    text = text.replace("fabric stockinette", "fabric garter").replace("32 rows in", "44 rows in")
    done = compile_spec(world(text), "a.wale")
    assert done.proof is not None
    words = " ".join(done.proof.printed.pieces[0].steps)
    assert "p to the last" not in words and ("(WS): knit." in words or "(WS): k2, yo, k to" in words)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("7 sts", "8 sts", "E3"),
        ("7 sts", "5 sts", "E3"),
        ("worked flat\n    edge     0", "in the round\n    edge     0", "E"),
    ],
)
def test_what_cannot_be_is_refused(old, new, code):
    problems = [one for one in check_spec(world(TEXT.replace(old, new)), "a.wale").problems if one.is_error]
    assert problems
    assert all(one.code.startswith(code) for one in problems)
