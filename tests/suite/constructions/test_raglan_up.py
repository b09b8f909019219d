"""A raglan from the hem up: counts by hand, equal decreases at its lines in the proven fabric, all sizes, refusals."""

import re
from itertools import pairwise

import pytest
from bodies_kit import FRAME, fabric, garment, lines_in
from support import EXAMPLES, checked, errors, planned, world, written

from wale.driver import compile_spec
from wale.prove.fabric import LEFT_DEC, RIGHT_DEC

EXAMPLE = (EXAMPLES / "grist-raglan.wale").read_text("utf-8")
YOKE = """
piece yoke, in the round
    join   body with sleeve in plain
    raglan up to 80 sts over 22 cm
    work   4 rounds
    bind   off
"""


def numbers(plan, size=0):
    section = next(one for one in plan.piece("yoke").sections if one.address == "yoke.raglan.yoke")
    return {name: int(value) for name, value in section.numbers[size].items() if value.denominator == 1}


def test_counts_by_hand():
    # 160 body sts, sleeves of 64, underarms of 12: 160 / 2 - 12 = 68 of front and back, 64 - 12 = 52 of a sleeve;
    # 2 x (68 + 52) = 240 joined. 240 - 80 = 160 sts go by eights: 20 decrease rounds, 40 sts of each part:
    # 68 - 40 = 28, 52 - 40 = 12; 2 x (28 + 12) = 80.
    found = numbers(planned(garment(YOKE)))
    assert [found[name] for name in ("before", "half", "arm", "losses", "half_left", "arm_left")] == [
        240,
        68,
        52,
        20,
        28,
        12,
    ]
    # 22 cm at 2.8 rounds: 61.6, so 62; the first and the last are for the markers: 60 for 20 decreases, every third.
    assert [found[name] for name in ("rounds", "often", "early", "late")] == [62, 3, 20, 0]


def test_rates_that_do_not_come_out_even_are_slower_first():
    # 20 cm are 56 rounds, 54 for 20 decreases: 2 apart 6 times, 3 apart 14 times; 3 x 14 + 2 x 6 = 54.
    done = written(garment(YOKE.replace("22 cm", "20 cm")))
    rows = fabric(done, "yoke").rows
    decreases = [row.number for row in rows if LEFT_DEC in row.ops]
    gaps = [after - before for before, after in pairwise(decreases)]
    # the last one is followed by one round, and the one that takes the markers out
    assert gaps == [3] * 14 + [2] * 5 and decreases[0] == 2 and decreases[-1] == 54


def test_both_sides_of_each_line_lose_the_same_in_the_knitted_fabric():
    done = written(garment(YOKE))
    shaped = [row for row in fabric(done, "yoke").rows if LEFT_DEC in row.ops or RIGHT_DEC in row.ops]
    assert len(shaped) == 20
    for number, row in enumerate(shaped, 1):
        lefts, rights = lines_in(row, LEFT_DEC), lines_in(row, RIGHT_DEC)
        half, arm = 68 - 2 * number, 52 - 2 * number
        # rounds begin in the middle of the back; beside each line one stitch is knitted, then two together
        first = 68 // 2 - number
        marks = [first, first + arm, first + arm + half, first + 2 * arm + half]
        assert rights == [mark - 2 for mark in marks]
        assert lefts == [mark + 1 for mark in marks]


@pytest.mark.parametrize("is_left_handed", [False, True])
def test_the_example_is_proven(is_left_handed):
    done = compile_spec(world(EXAMPLE), "a.wale", is_left_handed=is_left_handed)
    assert done.proof is not None, done.problems
    assert [one.code for one in done.problems if one.code[0] in "EW"] == []


def test_sizes_are_found_together():
    plan = planned(EXAMPLE)
    body, sleeve, yoke = (plan.piece(name) for name in ("torso", "sleeve", "yoke"))
    for size in range(len(plan.sizes)):
        found = numbers(plan, size)
        girth, arm, underarm = (
            body.levels[-1].counts[size],
            sleeve.levels[-1].counts[size],
            body.holders[size][0],
        )
        assert found["arm"] == arm - underarm and found["half"] == girth // 2 - underarm
        assert found["before"] - found["after"] == 8 * found["losses"]
        assert min(found["arm_left"], found["half_left"]) >= 4
        # as deep as asked, to half a round of 10 / 28 cm
        section = next(one for one in yoke.sections if one.kind == "course")
        depth = section.rows[size] / section.rows_per_cm
        assert abs(depth - section.step.action.given["over"].at(size)) <= 5 / 28


@pytest.mark.parametrize("table", ["women XS S M L XL 2XL 3XL 4XL 5XL", "men S M L XL 2XL"])
def test_whole_tables_are_proven(table):
    assert compile_spec(world(re.sub(r"(?m)^sizes .*$", f"sizes {table}", EXAMPLE)), "a.wale").proof is not None


@pytest.mark.parametrize("table", ["children 2 4 6 8 10 12 14 16", "babies 3-months 6-months 12-months 18-months"])
def test_whole_tables_of_children_are_proven(table):
    # their tables lack neck and wrist: taken from head and upper arm, as in tests/bench/all_constructions.py
    lines = re.sub(r"(?m)^sizes .*$", f"sizes {table}", EXAMPLE).replace(
        "bust 8 cm, upper-arm 8 cm, armhole-depth 4 cm, wrist 5 cm, neck-base 8 cm",
        "bust 8 cm, upper-arm 6 cm, armhole-depth 3 cm",
    )
    lines = lines.replace("neck-base", "body.head * 2/3").replace("wrist", "body.upper-arm * 0.8")
    assert compile_spec(world(lines.replace("upper-arm)/2", "body.upper-arm)/2")), "a.wale").proof is not None


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ("    work 2 rounds\n    decrease evenly to 200 sts\n    work 2 rounds\n    raglan", "E405"),
        ("    raglan up to 160 sts over 10 cm\n    raglan", "E205"),
    ],
    ids=["changed before", "twice"],
)
def test_where_it_cannot_stand_it_is_refused(lines, code):
    assert errors(checked(garment(YOKE).replace("    raglan", lines))) == [code]


def test_it_needs_a_body_and_sleeves_that_are_joined():
    ring = YOKE.replace("join   body with sleeve in plain", "cast   on 240 sts in plain\n    work   2 rounds")
    assert errors(checked(FRAME + ring)) == ["E405"]


@pytest.mark.parametrize(("old", "new"), [("22 cm", "6 cm"), ("80 sts", "30 sts"), ("80 sts", "81 sts")])
def test_decreases_that_do_not_fit_are_refused(old, new):
    (code,) = errors(checked(garment(YOKE.replace(old, new))))
    assert code.startswith("E3")


def test_a_rib_that_follows_at_once_loses_its_rest_on_its_first_round():
    # 40 cm are 80 sts; ribs of 4 + 3 = 7 sts: 77 make 11 ribs, 84 were wider than what they join
    done = written(garment(YOKE.replace("80 sts", "40 cm").replace("work   4 rounds", "rib    3 cm, 4x3")))
    assert done.plan.piece("yoke").sections[-1].even_start == (-3,)
    assert [row.stitches for row in fabric(done, "yoke").rows[61:64]] == [80, 77, 77]


def test_a_motif_needs_even_rounds_above_it():
    text = garment(YOKE.replace("work   4 rounds", "work   in plain\n    work   4 rounds"))
    assert written(text).proof is not None
    tooth = "motif tooth\n    repeat 6 sts, 1 rows\n    key    |-| rye, |x| flour\n    | - - x - - x |\n\n"
    flour = "yarn flour\n    count  2/8 Nm wool\n    colour #e8dcc0\n\n"
    teeth = "swatch teeth, in the round\n    motif  tooth in rye, flour\n    needle 4 mm\n"
    teeth += "    washed 20 sts and 28 rounds in 10 cm\n\n"
    text = text.replace("sizes one", flour + tooth + teeth + "sizes one")
    assert errors(checked(text.replace("work   in plain\n    work   4", "work   in tooth on teeth\n    work   4"))) == [
        "E405"
    ]
