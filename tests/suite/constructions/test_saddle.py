"""Saddle shoulders from the hem up: counts by hand, the straps row by row, all sizes, refusals."""

import re

import pytest
from bodies_kit import FRAME, fabric, garment
from support import EXAMPLES, checked, errors, planned, world, written

from wale.driver import compile_spec
from wale.prove.fabric import LEFT_DEC, RIGHT_DEC

EXAMPLE = (EXAMPLES / "flume-saddle.wale").read_text("utf-8")
YOKE = """
piece yoke, in the round
    join    body with sleeve in plain
    saddles to 72 sts over 22 cm, straps 16 sts, shoulders 20 sts
    work    4 rounds
    bind    off
"""


def numbers(plan, size=0):
    section = next(one for one in plan.piece("yoke").sections if one.address == "yoke.saddles.yoke")
    return {name: int(value) for name, value in section.numbers[size].items() if value.denominator == 1}


def test_counts_by_hand():
    # 240 joined: sleeves of 52, front and back of 68. Straps of 16: (52 - 16) / 2 = 18 rounds of the sleeves.
    # 240 - 72 = 168 = 4 x 42; 18 of them by the sleeves, 20 by the shoulders: 4 by the body. 68 - 2 x 4 = 60 before the
    # straps, 60 - 2 x 20 = 20 at the neck: 2 x (20 + 16) = 72.
    found = numbers(planned(garment(YOKE)))
    assert [found[name] for name in ("strap", "losses", "body", "half_left", "sts")] == [16, 18, 4, 60, 2 * 60 + 2 * 16]
    # 22 cm are 62 rounds: one with the markers, 4 for the body, one without them: 56 for 18 decreases: 3 apart, 2 once
    # more: 18 x 3 = 54, so two of them 4 apart.
    assert [found[name] for name in ("straight", "often", "early", "late")] == [56, 3, 16, 2]
    # 20 sts at 2 in a cm are 10 cm, 28 rows, 14 pairs; 20 - 14 = 6 second stitches: 6 pairs of two, 8 of one
    assert [found[name] for name in ("double", "single")] == [6, 1]
    assert 2 * 6 + (1 + 6 + 1) == 20


@pytest.mark.parametrize(("straps", "strap"), [("15 sts", 14), ("17 sts", 16), ("18 sts", 18)])
def test_a_strap_is_even_where_its_sleeve_is(straps, strap):
    # sleeves of 52: of 14 and 15, 16 and 17, 17 and 18 the even one
    found = numbers(planned(garment(YOKE.replace("16 sts", straps))))
    assert found["strap"] == strap


def test_each_strap_takes_as_much_of_front_as_of_back_in_the_knitted_fabric():
    rows = fabric(written(garment(YOKE)), "yoke").rows
    # 62 rounds below; each strap 1 + 1 + 4 x 6 + 2 x 1 rows, and the row to the end
    own = rows[62:]
    assert len(own) == 2 * (2 * 14 + 1) + 4
    for strap in (own[:28], own[29:57]):
        before = 152 if strap[0] is own[0] else 112
        taken = {"right": 0, "left": 0}
        for row in strap:
            # a decrease at the left end of the strap takes of what follows, one at its right end of what comes before
            side = "left" if LEFT_DEC in row.ops else "right"
            assert row.ops.count(LEFT_DEC) + row.ops.count(RIGHT_DEC) == 1
            taken[side] += before - row.stitches
            before = row.stitches
        assert taken == {"right": 20, "left": 20}
    assert own[57].stitches == 72


def test_a_strap_is_as_long_as_its_shoulder():
    # 28 rows at 2.8 in a cm, 20 sts at 2: 10 cm each; in the example within a pair of rows
    plan = planned(EXAMPLE)
    piece = plan.piece("yoke")
    for size in range(len(plan.sizes)):
        found = numbers(plan, size)
        pairs = found["shoulder"] - found["double"]
        assert abs(pairs * 2 / 2.8 - found["shoulder"] / 2) <= 2 / 2.8
        assert found["after"] == 2 * (found["half_left"] - 2 * found["shoulder"]) + 2 * found["strap"]
        assert found["after"] == piece.level("neck-base").counts[size]
        assert found["half_left"] - 2 * found["shoulder"] >= found["strap"] - 2


@pytest.mark.parametrize("is_left_handed", [False, True])
def test_the_example_is_proven(is_left_handed):
    done = compile_spec(world(EXAMPLE), "a.wale", is_left_handed=is_left_handed)
    assert done.proof is not None, done.problems
    assert [one.code for one in done.problems if one.code[0] in "EW"] == []


@pytest.mark.parametrize("table", ["women XS S M L XL 2XL 3XL 4XL 5XL", "men S M L XL 2XL"])
def test_whole_tables_are_proven(table):
    assert compile_spec(world(re.sub(r"(?m)^sizes .*$", f"sizes {table}", EXAMPLE)), "a.wale").proof is not None


def test_it_needs_a_body_and_sleeves_that_are_joined():
    ring = YOKE.replace("join    body with sleeve in plain", "cast    on 240 sts in plain\n    work    2 rounds")
    assert errors(checked(FRAME + ring)) == ["E405"]


def test_a_missing_option_is_told():
    (problem,) = checked(garment(YOKE.replace(", straps 16 sts", ""))).problems
    assert problem.code == "E206" and "straps" in problem.message


@pytest.mark.parametrize(("old", "new"), [("22 cm", "6 cm"), ("72 sts", "140 sts"), ("16 sts", "60 sts")])
def test_what_does_not_fit_is_refused(old, new):
    (code,) = errors(checked(garment(YOKE.replace(old, new))))
    assert code.startswith("E3")


def test_the_schematic_narrows_by_its_rounds_and_steps_in_at_the_straps():
    done = written(garment(YOKE))
    assert done.pattern.drawing is not None
    yoke = done.pattern.drawing.parts[-1].outline
    # 240 sts at 2 in a cm lie 60 cm wide; 152 above 62 rounds at 2.8 in a cm, 38 cm; the neck's 72 from there on, 18 cm
    low, shoulder = 30, 30 + 62 / 2.8
    widths = {round(y, 4): max(x for x, at in yoke if round(at, 4) == round(y, 4)) for _, y in yoke}
    assert widths[low] == 30
    assert widths[round(shoulder, 4)] == 19
    assert (9, pytest.approx(shoulder)) in [(x, y) for x, y in yoke]


def test_ways_out_that_take_too_long_are_not_offered() -> None:
    """At 28 rounds in 15 cm one size lacks rounds for its decreases; the best widths of some changes take long."""
    text = (EXAMPLES / "flume-saddle.wale").read_text("utf-8")
    slow = text.replace(" 10.0 cm, 28 rounds = 10.0", " 10.0 cm, 28 rounds = 15")
    assert errors(checked(slow)) == ["E303"]
