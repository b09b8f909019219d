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
