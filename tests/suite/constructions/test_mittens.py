"""Mittens against the book of 1918, and proven in all girths."""

from itertools import pairwise

import pytest
from support import EXAMPLES, mended, world

from wale.constructions.mittens import THUMB, THUMB_CUFF, THUMB_GUSSET
from wale.course import rows_made
from wale.driver import check_spec, compile_spec, render

MITTS = (EXAMPLES / "hopper-mitts.wale").read_text("utf-8")
MITTEN = (EXAMPLES / "sack-mittens.wale").read_text("utf-8")


def test_the_childs_mitten_of_54_stitches():
    # W092: Handbook of Wool Knitting and Crochet (1918): 54 sts, +2 on every 3rd round until 21 of the thumb stand
    # between the markers (74 in all), 7 cast on, 60 sts go on.
    numbers = THUMB_GUSSET.worked_out(54)
    assert (numbers["held"], numbers["all"], numbers["cast"], numbers["hand"]) == (21, 74, 7, 60)
    rows = rows_made(THUMB_GUSSET.parts[0], numbers)
    gained = [number for number, (one, other) in enumerate(pairwise(rows), 2) if other.after > one.after]
    assert gained == [4, 7, 10, 13, 16, 19, 22, 25, 28]


def test_a_thumb_of_sixteen_closes_as_published():
    # W091: http://www.knitty.com/issuewinter06/KSPATTmadriver.html: 16 sts, 12, 8, 4
    given = {"held": 11, "cast": 5, "opened": 0, "thumb": 4, "rows_per_cm": 3}
    numbers = THUMB.worked_out(40, given)
    assert [row.after for row in rows_made(THUMB.parts[0], numbers)][-3:] == [12, 8, 4]
    assert len(rows_made(THUMB.parts[0], numbers)) == 4 * 3


@pytest.mark.parametrize("hand", [11, 13, 16, 19, 24, 30])
@pytest.mark.parametrize("thumb", ["3 cm", "6.5 cm", "20 rounds"])
def test_mittens_of_all_girths_are_proven(hand, thumb):
    text = MITTEN.replace("17.3 (19, 20.7) cm", f"{hand} ({hand + 1}, {hand + 2}) cm").replace(
        "thumb   5 (5.5, 6) cm", f"thumb   {thumb}"
    )
    done = compile_spec(world(text), "a.wale")
    assert done.proof is not None, done.problems


def test_the_thumb_of_a_mitt_by_hand():
    # 48 sts: a gusset of 2 * (3 * 48 / 16) + 1 = 19 sts, 2 * floor(19 / 6) + 1 = 7 cast on: 26; 2 cm at 3 rounds are 6
    numbers = THUMB_CUFF.worked_out(48, {**THUMB_GUSSET.worked_out(48), "thumb": 2, "rows_per_cm": 3})
    assert numbers["picked"] == 26
    assert [row.after for row in rows_made(THUMB_CUFF.parts[0], numbers)] == [26] * 6


@pytest.mark.parametrize("hand", [11, 13, 16, 19, 24, 30])
@pytest.mark.parametrize("left", [False, True])
def test_mitts_of_all_girths_are_proven(hand, left):
    text = MITTS.replace("17.3 (19, 20.7) cm", f"{hand} ({hand + 1}, {hand + 2}) cm")
    done = compile_spec(world(text), "a.wale", is_left_handed=left)
    assert done.proof is not None, done.problems


def test_the_left_hand_is_proven_too():
    assert compile_spec(world(MITTEN), "a.wale", is_left_handed=True).proof is not None


@pytest.mark.parametrize(
    ("old", "new"),
    [("    thumb-gusset\n", ""), ("    top     wedge\n", "    top     wedge\n    work 3 cm\n")],
    ids=["a thumb without its gusset", "rows after the top"],
)
def test_what_cannot_stand_there_is_refused(old, new):
    problems = check_spec(world(MITTEN.replace(old, new)), "a.wale").problems
    assert [one.code for one in problems if one.is_error] == ["E405"]


def test_a_gusset_of_two_words_is_mended():
    text = MITTEN.replace("thumb-gusset", "thumb gusset")
    (found,) = check_spec(world(text), "a.wale").problems
    place = found.labels[0].span
    assert (found.code, text[place.start : place.end]) == ("E202", "thumb gusset")
    assert mended(text, found.fixes[0]) == MITTEN


def test_one_round_is_said_as_one():
    done = compile_spec(world(MITTEN.replace("    work    1 cm\n", "    work    1 round\n")), "a.wale")
    text = render(done, "text", world(MITTEN))[0].decode()
    assert "Work 1 round in stockinette in rye." in text
    assert "1 rounds" not in text
