"""Shawls: counts by hand, and proven in all depths."""

import pytest
from support import EXAMPLES, world

from wale.constructions.shawls import TRIANGLE
from wale.driver import check_spec, compile_spec

TEXT = (EXAMPLES / "millpond-shawl.wale").read_text("utf-8")


def test_a_shawl_of_45_cm_by_hand():
    # 45 cm at 3 rows are 135 rows: 67.5 pairs, so 68; four stitches a pair: 7 + 4 * 68 = 279
    numbers = TRIANGLE.worked_out(7, {"over": 45, "rows_per_cm": 3})
    assert (numbers["pairs"], numbers["all"], numbers["half"]) == (68, 279, 1)


@pytest.mark.parametrize("depth", ["1 cm", "10 rows", "33 cm", "120 cm"])
@pytest.mark.parametrize("start", [7, 9, 15])
def test_it_is_proven_in_all_depths(depth, start):
    text = TEXT.replace("45 (70) cm", depth).replace("cast on  7 sts", f"cast on  {start} sts")
    assert compile_spec(world(text), "a.wale").proof is not None


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
