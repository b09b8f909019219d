"""A raglan from the neck down: its counts by hand, and proven in all sizes."""

import pytest
from support import EXAMPLES, world

from wale.checks.rings import rings
from wale.driver import check_spec, compile_spec

RAGLAN = (EXAMPLES / "headrace-raglan.wale").read_text("utf-8")


def numbers(done, size):
    piece = done.plan.pieces[0]
    section = next(one for one in piece.sections if one.address.endswith("raglan.yoke"))
    return {name: int(value) for name, value in section.numbers[size].items() if value.denominator == 1}


@pytest.fixture(scope="module")
def done():
    return compile_spec(world(RAGLAN), "a.wale")


def test_size_m_by_hand(done):
    # 20 sts in 10 cm. Body 94 + 8 = 102 cm: 204 sts; upper arm 27.94 + 8 = 35.94 cm: 71.88, so 72 sts; underarm a
    # twentieth of 102 cm: 5.1 cm, 10.2, so 10 sts; neck 36.9 + 8 = 44.9 cm: 90 sts by an even number.
    # increases = (204 - 90 + 2 * 72 - 4 * 10) / 8 = 218 / 8 = 27.25: no whole number; 202 sts make it 27.
    # sleeve at the neck 72 - 10 - 2 * 27 = 8; back and front (90 - 2 * 8) / 2 = 37; all 90 + 8 * 27 = 306.
    found = numbers(done, 2)
    assert (found["before"], found["after"], found["sleeve"], found["under"]) == (90, 202, 72, 10)
    assert (found["gains"], found["cap"], found["back"], found["all"]) == (27, 8, 37, 306)
    # 18.415 + 4 = 22.415 cm at 2.8 rounds: 62.76, so 63 rounds, the first of them with the markers: 62 for 27
    # increases: 2 rounds apart 19 times, 3 apart 8 times.
    assert (found["rounds"], found["often"], found["early"], found["late"]) == (63, 2, 19, 8)
    assert 2 * 19 + 3 * 8 == 62


def test_each_line_gains_on_both_sides_and_no_stitch_is_lost(done):
    for size in range(len(done.plan.sizes)):
        found = numbers(done, size)
        back = found["back"] + 2 * found["gains"]
        sleeve = found["cap"] + 2 * found["gains"]
        assert 2 * back + 2 * sleeve == found["all"]
        assert found["after"] == 2 * back + 2 * found["under"]
        assert found["sleeve"] == sleeve + found["under"]


def test_it_is_proven_in_all_sizes(done):
    assert done.proof is not None


def test_a_missing_option_is_told_with_a_line_that_has_it():
    problems = check_spec(world(RAGLAN.replace(", underarm underarm", "")), "a.wale").problems
    assert [one.code for one in problems if one.is_error] == ["E206"]
    assert "underarm" in problems[0].message
    assert "raglan to bust over armhole-depth, sleeves upper-arm, underarm 5 cm" in problems[0].help


@pytest.mark.parametrize(("over", "bust"), [("8 cm", "8 cm"), ("armhole-depth", "60 cm")])
def test_increases_that_do_not_fit_their_rounds_are_refused(over, bust):
    text = RAGLAN.replace("over armhole-depth", f"over {over}").replace("ease bust 8 cm", f"ease bust {bust}")
    problems = [one for one in check_spec(world(text), "a.wale").problems if one.is_error]
    assert problems
    assert all(one.code.startswith("E3") for one in problems)


def test_sleeves_need_their_raglan():
    lines = [line for line in RAGLAN.splitlines() if not line.strip().startswith("raglan")]
    problems = check_spec(world("\n".join(lines) + "\n"), "a.wale").problems
    assert "E405" in [one.code for one in problems]


def test_the_left_hand_is_proven_too():
    assert compile_spec(world(RAGLAN), "a.wale", sizes=("S", "3XL"), is_left_handed=True).proof is not None


MOTIF = """yarn flour
    count  200 m per 100 g wool
    colour #e8dcc0

motif ripple
    repeat 4 sts, 2 rows
    key    |-| rye, |x| flour
    | - x - - |
    | x - x - |

swatch ripple-round, in the round
    motif  ripple in rye, flour
    needle 4.5 mm
    washed 20 sts and 26 rounds in 10 cm
    weight 60 g of 60 sts, 80 rows

swatch plain-round"""
BAND = """    work    2 rounds
    work    in ripple on ripple-round, whole repeats
    work    to 24 cm
    work    in plain-round
    work    to side - ribbing
"""


def test_the_body_below_the_parting_is_worked_in_a_motif():
    text = RAGLAN.replace("swatch plain-round", MOTIF, 1).replace("    work    to side - ribbing\n", BAND)
    done = compile_spec(world(text), "a.wale", sizes=("M", "3XL"))
    assert done.proof is not None, done.problems
    piece = done.plan.pieces[0]
    section = next(one for one in piece.sections if one.fabric is not None and one.fabric.motif == "ripple")
    assert all(count % 4 == 0 for count in piece.levels[section.first].counts)


def test_sleeve_and_cuff_are_proven_measures_and_rings(done):
    # 2 sts in a cm; size M: 72 sts are 36 cm, upper arm 27.94 cm: +8.06; cuff: wrist 15.3 + 5 = 20.3 cm, 40 sts, 20 cm
    sleeve, cuff = done.plan.pieces[0].girths
    assert (sleeve.level.counts[2], sleeve.level.width(2)) == (72, 36)
    assert (cuff.level.counts[2], cuff.level.width(2)) == (40, 20)
    (table,) = [
        part
        for section in done.pattern.sections
        for part in section.parts
        if getattr(part, "caption", "").startswith("Finished measurements")
    ]
    told = {row[0]: row[3] for row in table.rows}
    assert told["pullover, sleeve, around"] == "36.0" and told["ease at the upper-arm"] == "+8.1"
    assert told["pullover, cuff, around"] == "20.0"
    found = {one.ring: one.part for one in rings(done.spec, done.plan) if one.size == "M"}
    assert found["rib at the cast-on"] == "head" and found["bust"] == "shoulder-girth"
    assert found["sleeve"] == found["cuff"] == "hand"
