"""Afterthought heels and thumbs in a motif: waste yarn is laid between two rounds, and the chart goes on."""

import pytest
from msgspec.structs import replace
from support import EXAMPLES, world

from wale.driver import compile_spec
from wale.pattern import Steps
from wale.prove.proof import prove
from wale.write.facts import facts, printed

MOTIF = """yarn flour
    count   400 m per 100 g wool
    strands 2
    colour  #efe6d2

motif grain
    repeat 4 sts, 4 rows
    key    |-| rye, |x| flour
    | - - x - |
    | - x x x |
    | x x - x |
    | - x - - |

swatch grain-round, in the round
    motif  grain in rye, flour
    needle 3 mm
    washed 26 sts and 28 rounds in 10 cm

swatch plain-round"""
MITTEN = (EXAMPLES / "sack-mittens.wale").read_text("utf-8").replace("swatch plain-round", MOTIF, 1)
MITTEN = MITTEN.replace(
    "    work    in plain-round\n    work    1 cm\n", "    work    in grain on grain-round\n    work    1 cm\n"
)
MITTEN = MITTEN.replace("    thumb-gusset\n", "    afterthought thumb\n")
MITTEN = MITTEN.replace("    top     wedge", "    work    in plain-round\n    work    1 cm\n    top     wedge")
SOCK = (EXAMPLES / "penstock-socks.wale").read_text("utf-8").replace("swatch plain-round", MOTIF, 1)
SOCK = SOCK.replace("    work    in plain-round\n", "    work    in grain on grain-round\n").replace(
    "heel    flap", "afterthought heel"
)
SOCK = SOCK.replace(
    "    toe     wedge\n", "    work    in plain-round\n    work    1 cm\n    toe     wedge\n    heel    wedge\n"
)


def compiled(text, *, is_left=False):
    done = compile_spec(world(text), "a.wale", is_left_handed=is_left)
    assert done.proof is not None, done.problems
    return done


def steps(done):
    return [
        item.text
        for section in done.pattern.sections
        if section.id.startswith("piece-")
        for part in section.parts
        if isinstance(part, Steps)
        for item in part.items
    ]


@pytest.mark.parametrize("text", [MITTEN, SOCK])
@pytest.mark.parametrize("is_left", [False, True])
def test_both_are_proven_for_either_hand(text, is_left):
    compiled(text, is_left=is_left)


@pytest.mark.parametrize("text", [MITTEN, SOCK])
def test_the_chart_goes_on_over_the_waste_yarn(text):
    """Chart rows follow one another from the first round of the motif to the last, with none between them."""
    done = compiled(text)
    for piece in facts(done.spec, done.plan, done.sizes).pieces:
        rows = [row.chart_row for row in piece.rows if row.chart_row]
        assert rows == [number % 4 + 1 for number in range(len(rows))] and len(rows) > 10
        within = [bool(row.chart_row) for row in piece.rows]
        assert within.index(True) + len(rows) == len(within) - within[::-1].index(True)


def test_the_thumb_is_where_it_is_in_a_plain_mitten():
    """At 26 sts in 10 cm 18.3 cm are 48 sts (47.58): a fifth 10 (9.6), and 12 - 5 = 7 before it."""
    done = compile_spec(world(MITTEN), "a.wale", ("S",))
    assert "On the next round, after 7 sts, k the next 10 sts in waste yarn, put them back and go on." in steps(done)
    assert "Take out the waste yarn: 10 sts below and 10 above." in steps(done)


def test_the_heel_lies_about_the_start_of_the_round():
    """A quarter of the round at each side of it, so that half of the round is the heel."""
    done = compiled(SOCK)
    plan = done.plan.pieces[0]
    section = next(one for one in plan.sections if one.kind == "course")
    for size in done.sizes:
        half = plan.levels[section.first].counts[size] // 4
        assert (section.numbers[size]["half"], section.numbers[size]["heel"]) == (half, 2 * half)
        assert section.rows[size] == 0
    assert any(text.startswith("Slip the last") for text in steps(done))


@pytest.mark.parametrize(
    ("text", "old", "new"),
    [
        (MITTEN, "k the next 10 ", "k the next 9 "),
        (SOCK, "of the round back, knit them and the next 1", "of the round back, knit them and the next 2"),
        (SOCK, "Slip the last 1", "Slip the last 2"),
    ],
)
def test_a_wrong_count_of_waste_yarn_is_found(text, old, new):
    done = compiled(text)
    page, known = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    pieces = tuple(replace(one, steps=tuple(step.replace(old, new) for step in one.steps)) for one in page.pieces)
    assert bool(prove(replace(page, pieces=pieces), known)) is (pieces != page.pieces)
