"""Socks from the toe up: counts by hand, proof, and what is refused."""

import pytest
from support import EXAMPLES, world

from wale.constructions.toes import TOE_UP
from wale.course import rows_made
from wale.driver import check_spec, compile_spec

SOCK = (EXAMPLES / "wheelpit-socks.wale").read_text("utf-8")
CLOSED = "    cast on 6 cm in plain-round, closed\n"
TOE = "    toe     to ankle\n"


def test_a_toe_from_16_to_64_stitches_by_hand():
    # 48 sts in 12 rounds of four: the first 6 on every round to 16 + 24 = 40, the others on every second one.
    numbers = TOE_UP.worked_out(16, {"after": 64})
    assert (numbers["gains"], numbers["fast"], numbers["slow"]) == (12, 6, 6)
    rows = [row.after for row in rows_made(TOE_UP.parts[0], numbers)]
    fast, slow = [20, 24, 28, 32, 36, 40], [40, 44, 44, 48, 48, 52, 52, 56, 56, 60, 60, 64]
    assert rows == [16, *fast, *slow, 64, 64]


@pytest.mark.parametrize("ankle", [13, 15, 18, 20, 22, 25, 30, 38])
@pytest.mark.parametrize("left", [False, True])
def test_socks_of_all_girths_are_proven(ankle, left):
    text = SOCK.replace("ankle         21 (23, 25) cm", f"ankle {ankle} ({ankle + 1}, {ankle + 2}) cm")
    done = compile_spec(world(text), "a.wale", is_left_handed=left)
    assert done.proof is not None, done.problems


@pytest.mark.parametrize("cast_on", ["8 sts", "4 cm", "12 cm"])
def test_any_tip_is_proven(cast_on):
    assert compile_spec(world(SOCK.replace("cast on 6 cm", f"cast on {cast_on}")), "a.wale").proof is not None


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        (", closed", "", "E405"),
        (", closed", ", closed, provisional", "E204"),
        (TOE, "", "E405"),
        (CLOSED + TOE, CLOSED + "    work 2 rounds\n" + TOE, "E405"),
        (TOE, "    toe     to 3 cm\n", "E3"),
        ("cast on 6 cm", "cast on 6 sts", "E3"),
    ],
    ids=["an open cast-on", "two ways", "nothing begins", "rounds below it", "no wider", "no two halves"],
)
def test_what_cannot_be_is_refused(old, new, code):
    text = SOCK.replace(old, new)
    assert text != SOCK
    problems = [one for one in check_spec(world(text), "a.wale").problems if one.is_error]
    assert problems
    assert all(one.code.startswith(code) for one in problems)


def test_a_closed_cast_on_is_no_ring_that_has_to_pass_the_heel():
    assert all("cast-on" not in one.message for one in check_spec(world(SOCK), "a.wale").problems)
