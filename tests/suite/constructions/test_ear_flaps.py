"""Hats with ear flaps: counts by hand, proof, and what is refused."""

import pytest
from support import EXAMPLES, world

from wale.constructions.ear_flaps import EAR_FLAPS
from wale.course import rows_made, times
from wale.driver import check_spec, compile_spec

HAT = (EXAMPLES / "spillway-hat.wale").read_text("utf-8")


def test_flaps_of_120_stitches_by_hand():
    # A fifth of 120 is 24, the odd number above it 25; 12 sts lie from the start of the round to either flap: 13 to 37
    # and 84 to 108. 7 cm at 3 rows are 22 in pairs; ten losses take 20, 2 are even, after the first.
    numbers = EAR_FLAPS.worked_out(120, {"over": 7, "rows_per_cm": 3})
    assert (numbers["flap"], numbers["losses"], numbers["even"]) == (25, 10, 2)
    (loop,) = EAR_FLAPS.parts[0].lines
    assert [one["from"] for one in times(loop, numbers)] == [13, 84]
    one = [25, 25, 25, *(left for left in range(23, 4, -2) for _ in range(2))]
    assert [row.after for row in rows_made(EAR_FLAPS.parts[0], numbers)] == [*one, *one]


@pytest.mark.parametrize("head", [38, 44, 52, 60])
@pytest.mark.parametrize("over", ["4 cm", "7 cm", "12 cm"])
def test_hats_of_all_girths_are_proven(head, over):
    text = HAT.replace("53 (56, 59) cm", f"{head} ({head + 1}, {head + 2}) cm").replace("over 7 cm", f"over {over}")
    for left in (False, True):
        done = compile_spec(world(text), "a.wale", is_left_handed=left)
        assert done.proof is not None, done.problems


def test_flaps_wait_for_the_crown():
    crown = "    crown   8 wedges over 8 cm, plain in rye\n"
    text = HAT.replace(crown, "").replace("    ear     flaps over 7 cm\n", "    ear     flaps over 7 cm\n" + crown)
    problems = check_spec(world(text), "a.wale").problems
    assert [one.code for one in problems if one.is_error] == ["E405"]


def test_a_thumb_waits_for_the_end_of_the_hand():
    mitten = (EXAMPLES / "sack-mittens.wale").read_text("utf-8").replace("    top     wedge\n", "")
    problems = check_spec(world(mitten), "a.wale").problems
    assert [one.code for one in problems if one.is_error] == ["E405"]
