"""The plan of one size alone: its rows are those that the plan of all sizes gives for it."""

import json

import pytest
from support import EXAMPLES, world

from wale.driver import compile_spec, render_plan


@pytest.mark.parametrize("name", ["headrace-raglan", "penstock-socks", "sack-mittens"])
def test_courses_keep_the_numbers_of_their_size(name):
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    whole = json.loads(render_plan(compile_spec(world(text), "a.wale")))
    one = json.loads(render_plan(compile_spec(world(text), "a.wale", sizes=("M",))))
    place = [size["name"] for size in whole["sizes"]].index("M")
    assert [piece["rows"] for piece in one["pieces"]] == [[piece["rows"][place]] for piece in whole["pieces"]]


SIZED = """wale 1

pattern "Sized"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

swatch plain, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm
    weight 9 g of 40 sts, 56 rows

sizes women S M L
    ease bust 6 (8, 10) cm

piece back, worked flat
    cast on   bust/2 in plain
    work      to 36 cm
    mark      underarm
    work      to 58 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows
    pom-pom   3 (6, 9) cm in rye

piece left-front, as back, left half
    OPENING
    neck 18 cm wide, 12 cm deep, V

piece right-front, as left-front, mirrored
    BUTTONS

piece lining, worked flat, make 2
    cast on 20 sts in plain
    work    8 cm

join
    seam  back shoulders with left-front shoulders, three-needle bind-off
    seam  back shoulders with right-front shoulders, three-needle bind-off
    seam  sides, mattress stitch
    inset lining in left-front, 14 (16, 18) cm up, 4 (5, 6) cm from the centre
    inset lining in right-front, 14 (16, 18) cm up, 4 (5, 6) cm from the centre

band collar
    pick up along right-front neck, back neck, left-front neck in plain
    EDGING
"""
OPEN, NOTE = "opening 4 (5, 6) cm", 'note "As the left one."'
EVERY = {
    "a front band": ("front band 8 sts in garter", "buttonholes 5, first 1 (2, 4) cm from the ends", "rib 3 cm, 1x1"),
    "a collar": (OPEN, NOTE, "shawl collar 12 (14, 16) cm, 4 (5, 6) cm in front, garter"),
    "a hood": (OPEN, NOTE, "hood 56 (60, 64) cm wide, 33 cm deep"),
}


@pytest.mark.parametrize("name", EVERY)
def test_what_a_line_says_for_each_size_is_that_of_the_size(name):
    """Each list of a value a size holds in the plan of L alone the third of its values; all else stays."""
    opening, buttons, edging = EVERY[name]
    text = SIZED.replace("OPENING", opening).replace("BUTTONS", buttons).replace("EDGING", edging)
    whole, one = (json.loads(render_plan(compile_spec(world(text), "a.wale", sizes=sizes))) for sizes in ((), ("L",)))
    for place in ("pieces", "bands", "yarns"):
        for all_sizes, alone in zip(whole[place], one[place], strict=True):
            assert third(all_sizes, alone) == alone


def third(whole, alone):
    """Give a plan's node with the third of three values wherever the plan of one size has one in their place."""
    if isinstance(whole, dict):
        return {key: third(value, alone[key]) for key, value in whole.items()}
    if isinstance(whole, list) and len(whole) == 3 and isinstance(alone, list) and len(alone) == 1:
        return [whole[2]]
    if isinstance(whole, list) and isinstance(alone, list) and len(whole) == len(alone):
        return [third(*pair) for pair in zip(whole, alone, strict=True)]
    return whole
