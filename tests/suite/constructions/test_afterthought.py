"""Afterthought heels and thumbs: counts by hand, proof in all girths, and what is refused."""

import pytest
from support import EXAMPLES, world

from wale.constructions.afterthought import AFTERTHOUGHT_THUMB, HEEL_WEDGE
from wale.constructions.mittens import THUMB
from wale.course import rows_made
from wale.driver import check_spec, compile_spec

SOCK = (EXAMPLES / "penstock-socks.wale").read_text("utf-8").replace("heel    flap", "afterthought heel")
SOCK = SOCK.replace("    toe     wedge\n", "    toe     wedge\n    heel    wedge\n")
MITTEN = (EXAMPLES / "sack-mittens.wale").read_text("utf-8").replace("thumb-gusset", "afterthought thumb")


def test_a_heel_of_48_stitches():
    # As at http://cozyspirityarns.blogspot.com/2011/04/starting-forethought-heel.html: 24 and 24 loops; four fewer on
    # every second round, then on every round. Until a quarter is left, 12: 9 rounds, 5 of them with a plain one.
    rows = [row.after for row in rows_made(HEEL_WEDGE.parts[0], HEEL_WEDGE.worked_out(48, {"heel": 24}))]
    assert rows == [48, 44, 44, 40, 40, 36, 36, 32, 32, 28, 28, 24, 20, 16, 12]


def test_a_thumb_of_48_stitches():
    # A fifth of 48 is 9.6: 10 below and 10 above; 12 - 5 = 7 before it, for the side is at stitch 12.
    numbers = AFTERTHOUGHT_THUMB.worked_out(48)
    assert (numbers["held"], numbers["cast"], numbers["lead"]) == (10, 10, 7)
    assert THUMB.worked_out(48, {**numbers, "thumb": 5, "rows_per_cm": 3})["picked"] == 20


@pytest.mark.parametrize("girth", [13, 15, 18, 20, 25, 38])
@pytest.mark.parametrize("left", [False, True])
def test_all_girths_are_proven(girth, left):
    sock = SOCK.replace("ankle         21 (23, 25) cm", f"ankle {girth} ({girth + 1}, {girth + 2}) cm")
    mitten = MITTEN.replace("17.3 (19, 20.7) cm", f"{girth} ({girth + 1}, {girth + 2}) cm")
    for text in (sock, mitten, mitten.replace("thumb   5 (5.5, 6) cm", "thumb 2 cm, bound off")):
        done = compile_spec(world(text), "a.wale", is_left_handed=left)
        assert done.proof is not None, done.problems


@pytest.mark.parametrize("text", [SOCK, MITTEN])
def test_nothing_is_opened_where_there_is_no_waste_yarn(text):
    kept = [line for line in text.splitlines() if "afterthought" not in line]
    problems = check_spec(world("\n".join(kept) + "\n"), "a.wale").problems
    assert [one.code for one in problems if one.is_error] == ["E405"]
