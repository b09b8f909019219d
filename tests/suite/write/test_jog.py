"""The remark on the jog: which columns hide it, where it is said, and where there is none."""

from __future__ import annotations

from fractions import Fraction

import pytest
from garments import AT, GRAIN, hat, pullover
from msgspec.structs import replace

from wale.materials import Motif
from wale.plan import Plan
from wale.spec import Spec
from wale.write.context import Context
from wale.write.jog import jog_lines, plain_columns
from wale.write.lines import Line
from wale.write.pieces import piece_lines

LEAF = Motif("grain", AT, (tuple("rrf"), tuple("rff")), (AT, AT), (("r", "-"), ("f", "x")))
"""From the right: flour in both rows, flour above rye, rye in both rows."""
STRIPES = Motif("grain", AT, (tuple("rf"), tuple("rf")), (AT, AT), (("r", "-"), ("f", "x")))


def in_motif(motif: Motif, centre: Fraction, count: int = 80) -> tuple[Spec, Plan]:
    """The hat by hand in another motif, with that column on its centre line and so many stitches."""
    spec, plan = hat()
    (piece,) = plan.pieces
    level = replace(piece.levels[0], counts=(count,))
    sections = tuple(replace(one, centre=(centre,)) for one in piece.sections)
    piece = replace(piece, sections=sections, levels=(level,))
    return replace(spec, motifs={"grain": motif}), replace(plan, pieces=(piece,))


def jogs(spec: Spec, plan: Plan, number: int = 0) -> list[Line]:
    at = Context(spec, plan, plan.pieces[number], 0)
    return [line for one in at.piece.sections for line in jog_lines(at, one, one.address)]


def said(spec: Spec, plan: Plan) -> str:
    (line,) = jogs(spec, plan)
    assert not line.is_instruction
    return str(line.parts[0])


def test_columns_of_one_yarn_are_found() -> None:
    assert plain_columns(LEAF) == {0: "f", 2: "r"}
    assert plain_columns(STRIPES) == {0: "f", 1: "r"}
    # Flour stands in column 0 on row 1 and in column 2 on row 3; columns 1 and 3 never have any.
    assert plain_columns(GRAIN) == {1: "rye", 3: "rye"}


@pytest.mark.parametrize(
    ("start", "words"),
    [
        (0, "The first stitch of each round is f in every chart row"),
        (1, "The last stitch of each round is f in every chart row"),
        (2, "The first stitch of each round is r in every chart row"),
    ],
)
def test_a_plain_column_beside_the_start_is_named(start: int, words: str) -> None:
    # 81 stitches are 27 repeats: stitch 40 is on the centre line, 40 = 1 (mod 3) columns on from the start; the last
    # stitch is in the column before the start's.
    assert words in said(*in_motif(LEAF, Fraction((start + 1) % 3), 81))


def test_without_one_beside_the_start_it_says_what_would_hide_it() -> None:
    lone = Motif("grain", AT, (tuple("rfrr"), tuple("frff")), (AT, AT), (("r", "-"), ("f", "x")))
    assert "show" not in said(*in_motif(lone, Fraction(3, 2)))
    # Columns from the right: 0 changes, 1 changes, 2 is all flour, 3 changes. The start is column 0 and the last is 3:
    # 80 stitches, the centre line after stitch 39, column 39 = 3 (mod 4), so at 3 and a half.
    bar = Motif("grain", AT, (tuple("rfrf"), tuple("ffff"), tuple("ffrr")), (AT,) * 3, (("r", "-"), ("f", "x")))
    assert plain_columns(bar) == {2: "f"}
    assert "beside a column that is all f" in said(*in_motif(bar, Fraction(7, 2)))


def test_a_broken_repeat_is_told() -> None:
    # 80 stitches are 26 repeats of 3 and two stitches more; stitches 39 and 40 are beside the centre line.
    assert "breaks off there" in said(*in_motif(LEAF, Fraction(1, 2)))
    assert "breaks off" not in said(*in_motif(LEAF, Fraction(1), 81))


def test_stripes_and_flat_pieces_have_none() -> None:
    assert jogs(*in_motif(STRIPES, Fraction(1, 2))) == []
    assert jogs(*pullover()) == []


def test_it_is_said_once_after_the_chart_begins() -> None:
    spec, plan = hat()
    lines = piece_lines(Context(spec, plan, plan.pieces[0], 0))
    (at,) = [number for number, line in enumerate(lines) if line.slot.endswith(".jog")]
    assert lines[at - 1].slot.endswith(".chart")
    words = str(lines[at].parts[0])
    assert words.startswith("Note (not proven): ")
    assert "steps up by one round" in words
    assert "start of the round" in words
    assert "slip the first stitch" in words
    assert words.count("common practice, no source") == 2
