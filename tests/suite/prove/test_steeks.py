"""Pieces that are worked in the round and cut open: stitches, colours, proof, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from msgspec.structs import replace
from prove_variants import VARIANTS
from support import checked, codes, errors, planned, written
from test_floats_proven import knitted as proven

from wale.outputs.text import render as to_text
from wale.prove.charts import read_chart
from wale.prove.machine import knit
from wale.prove.proof import prove
from wale.prove.reader import read
from wale.write.facts import facts, printed

SPEC = VARIANTS["steek"]
STEEK = "Steek: the first {first} and the last {last} of every round are the steek, outside any chart."
TURNS = (
    " Work them in the yarns of the round, a st each by turns in the order rye, flour, beginning with the first of the "
    "last ones."
)
ROWS = (("Row 1", "3 rye, 2 flour, 1 rye"), ("Row 2", "6 rye"))


def test_the_width_leaves_the_steek_out() -> None:
    """50 cm at 2.4 sts are 120; the motif mirrors on a stitch: 6 k + 1 = 121 sts, 50.42 cm; 7 more are cast on."""
    (level,) = planned(SPEC).pieces[0].levels
    assert (level.counts, level.edges, level.taken) == ((128,), 7, 7)
    assert level.width(0) == Fraction(121) / Fraction("2.4")


@pytest.mark.parametrize("stitches", [3, 5, 7, 9, 11])
def test_each_width_of_a_steek_is_proven_and_both_sides_are_alike(
    stitches: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of n stitches (n + 1) / 2 begin the round. The 121 between the ends mirror, as those of a flat piece would."""
    done = written(SPEC.replace("steek 7", f"steek {stitches}"))
    (fabric,) = proven(done, monkeypatch)
    first, last = (stitches + 1) // 2, (stitches - 1) // 2
    assert fabric.cast_on == 121 + stitches
    for row in fabric.rows:
        inner = row.colours[first : len(row.colours) - last]
        assert len(inner) == 121 and inner == inner[::-1]


def test_no_float_passes_more_than_a_stitch_of_the_steek(monkeypatch: pytest.MonkeyPatch) -> None:
    """The last 3 stitches of a round and the first 4 of the next lie side by side: neighbours differ in colour."""
    (fabric,) = proven(written(SPEC), monkeypatch)
    for row in fabric.rows:
        across = row.colours[-3:] + row.colours[:4]
        if len(set(row.colours)) == 1:
            assert len(set(across)) == 1
        else:
            assert all(one != other for one, other in pairwise(across))
            assert across[0] == across[-1]


def test_the_yarn_counts_the_steeks_stitches_stitch_by_stitch(monkeypatch: pytest.MonkeyPatch) -> None:
    """156 rounds, 39 of each row. Steeks in two yarns: 4 rye, 3 flour on 3 rows, 7 rye on the plain one."""
    (fabric,) = proven(written(SPEC), monkeypatch)
    flour = list(fabric.palette).index("flour")
    ends = b"".join(row.colours[-3:] + row.colours[:4] for row in fabric.rows)
    assert (len(ends), ends.count(flour)) == (156 * 7, 39 * 3 * 3)


def test_the_text_says_it_and_the_table_leaves_it_out() -> None:
    done = written(SPEC)
    assert done.pattern is not None
    text = to_text(done.pattern)
    text = " ".join(text.split())
    assert STEEK.format(first=4, last="3 sts") + TURNS in text
    assert "50.4" in text and "53.3" not in text
    assert "Steek of the panel (not proven)" in text and "a round in both yarns begins with flour" in text


def lines(first: int, last: str, start: int) -> list[str]:
    return [
        "Cast on 18 sts in rye on 3.5 mm needles. Join to a round without twisting; mark its start.",
        STEEK.format(first=first, last=last) + TURNS,
        f"Begin chart ear on the next round with chart row 1: start at column {start} and repeat the 6 columns to the "
        "steek.",
        "Work 2 rounds in chart ear, chart rows 1 to 2.",
        "Bind off all 18 sts in rye.",
    ]


def knitted(told: list[str]):
    readings = [(line, read(line).instructions[0]) for line in told]
    return knit("panel", "one", readings, {("ear", False): read_chart(ROWS)})


def test_the_machine_works_the_stripes_by_hand() -> None:
    """Row 1 in rye and flour by turns from the last 2 on: rye, flour | rye, flour, rye; 13 chart sts between them."""
    fabric, findings = knitted(lines(3, "2 sts", 1))
    assert not findings and fabric is not None
    rye, flour = (list(fabric.palette).index(name) for name in ("rye", "flour"))
    chart = [rye, rye, rye, flour, flour, rye]
    assert list(fabric.rows[0].colours) == [rye, flour, rye, *chart, *chart, rye, rye, flour]
    assert set(fabric.rows[1].colours) == {rye}


def test_a_steek_that_is_not_cut_through_its_middle_is_refused() -> None:
    for first, last in ((3, "3 sts"), (2, "2 sts"), (2, "3 sts"), (4, "2 sts")):
        fabric, findings = knitted(lines(first, last, 1))
        assert fabric is None and "not the middle" in findings[0].message


def test_a_steek_off_by_a_stitch_is_caught() -> None:
    """A page that says 3 and 2 stitches, or another order of yarns, does not give the planned fabric of 4 and 3."""
    done = written(SPEC)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    whole, planned_facts = printed(done.spec, done.plan, done.pattern, [0]), facts(done.spec, done.plan, [0])
    assert prove(whole, planned_facts) == []
    for old, new in (
        ("first 4 and the last 3 sts", "first 3 and the last 2 sts"),
        ("first 4 and the last 3 sts", "first 5 and the last 4 sts"),
        ("order rye, flour", "order flour, rye"),
    ):
        (piece,) = whole.pieces
        steps = tuple(step.replace(old, new) for step in piece.steps)
        assert steps != piece.steps
        assert prove(replace(whole, pieces=(replace(piece, steps=steps),)), planned_facts)


@pytest.mark.parametrize(("stitches", "word"), [(0, "middle"), (1, "narrow"), (4, "middle"), (13, "wide")])
def test_a_steek_of_a_wrong_number(stitches: int, word: str) -> None:
    done = checked(SPEC.replace("steek 7", f"steek {stitches}"))
    assert errors(done) == ["E254"]
    (problem,) = (one for one in done.problems if one.is_error)
    assert word in problem.message and "steek 5 sts" in problem.help


def test_a_flat_piece_has_no_steek() -> None:
    assert "E250" in errors(checked(SPEC.replace("panel, in the round", "panel, worked flat")))


@pytest.mark.parametrize(
    "line",
    [
        "crown 6 wedges over 9 cm, plain in rye",
        "rib 3 cm, 1x1",
        "shape to 60 cm over 20 cm",
        "work in ear on easy, whole repeats, starts at the plainest column",
    ],
)
def test_what_has_no_steek_yet_is_refused(line: str) -> None:
    done = checked(SPEC.replace("    bind off", f"    {line}\n    bind off"))
    assert errors(done)[0] in ("E405", "E250")


def test_another_gauge_is_refused() -> None:
    plain = "swatch plain, in the round\n    fabric garter in rye\n    needle 3 mm\n"
    plain += "    washed 20 sts and 40 rows in 10 cm\n"
    text = SPEC.replace("sizes one", plain + "sizes one").replace("50 cm in easy\n", "50 cm in plain\n    work 2 cm\n")
    assert errors(checked(text)) == ["E405"]


def test_a_second_piece_has_the_steek_of_the_first() -> None:
    plan = planned(SPEC + "piece other, as panel\n")
    assert [one.steek.stitches for one in plan.pieces if one.steek is not None] == [7, 7]


@pytest.mark.parametrize(
    ("fibre", "warns"),
    [("wool", False), ("superwash wool", True), ("cotton", True), ("silk", True), ("", True), ("alpaca", False)],
)
def test_yarn_that_does_not_felt_is_a_warning(fibre: str, warns: bool) -> None:
    done = checked(SPEC.replace("2/8 Nm wool\n    colour #efe6d2", f"2/8 Nm {fibre}\n    colour #efe6d2"))
    assert codes(done) == (["W621"] if warns else [])


def test_the_drawing_has_the_motif_where_the_cut_piece_has_it() -> None:
    """The chart starts at column 3, so that (2 from 0) is the middle one of 121, and its tile ends 2.5 sts beyond it.

    A tile is 6 sts at 2.4 a cm wide: 2.5 cm.
    """
    done = written(SPEC)
    assert done.pattern is not None and done.pattern.drawing is not None
    (part,) = done.pattern.drawing.parts
    assert part.origin is not None
    assert (part.origin[0] - (2.5 - 6) / 2.4) / 2.5 == pytest.approx(0, abs=1e-6)


def test_a_round_that_is_cut_open_need_not_go_over_a_head() -> None:
    """50 cm are too narrow for a body as a ring; a cut piece is no ring."""
    plan = planned(SPEC.replace("piece panel", "piece vest"))
    assert not plan.pieces[0].is_tube
    done = checked(SPEC.replace("piece panel", "piece vest"))
    assert not {"W606", "N607"} & set(codes(done))


def test_a_plain_steek_that_is_not_told_or_told_wrong_is_caught() -> None:
    """A plain fabric is the same with and without the line; what is to be cut is not."""
    done = written(VARIANTS["steek-plain"])
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    whole, known = printed(done.spec, done.plan, done.pattern, [0]), facts(done.spec, done.plan, [0])
    (piece,) = whole.pieces
    told = STEEK.format(first=2, last="1 st")
    assert told in piece.steps and prove(whole, known) == []
    for changed in ("", STEEK.format(first=3, last="2 sts")):
        steps = tuple(changed if step == told else step for step in piece.steps)
        (finding,) = prove(replace(whole, pieces=(replace(piece, steps=steps),)), known)
        assert "the steek has" in finding.message
