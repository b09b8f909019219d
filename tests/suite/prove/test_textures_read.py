"""Textures as they are read: cables over the end of a repeat, rows that begin with any stitch, one yarn alone."""

from __future__ import annotations

import pytest
from support import EXAMPLES, checked, errors, written
from test_floats_proven import knitted as proven
from test_textures_proven import COWL, REST, SCARF, YARN

from wale.cli import main
from wale.files import MemoryWorld
from wale.outputs.text import render as to_text
from wale.prove.fabric import INC, KNIT, LEFT_CROSS, LEFT_DEC, PURL, RIGHT_DEC

OVER_THE_END = """
motif basket
    repeat   8 sts, 2 rows
    stitches |-| knit, |o| purl, |<| cable-4-left
    | - - - - - - - - |
    | < < - o o - < < |
"""
MOVED = """
motif basket
    repeat   8 sts, 2 rows
    stitches |-| knit, |o| purl, |<| cable-4-left
    | - - - o - - - - |
    | - < < < < o - - |
    next shifts 2 sts
"""
LACE = """
motif basket
    repeat   6 sts, 2 rows
    stitches |-| knit, |y| yo, |s| ssk, |v| slip
    | - v - - - - |
    | - - - - s y |
"""


def text_of(motif: str, piece: str) -> str:
    done = written(YARN + motif + REST + piece)
    assert done.pattern is not None
    return to_text(done.pattern)


@pytest.mark.parametrize(("piece", "edge", "cables"), [(SCARF, 1, (6, 14, 22, 30)), (COWL, 0, range(6, 112, 8))])
def test_a_cable_over_the_end_of_the_repeat(
    piece: str, edge: int, cables: tuple[int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The repeat is 2 of a cable, k1, p2, k1, 2 of it; what the edge cuts is knitted: 2 sts first, 3 or 2 last."""
    done = written(YARN + OVER_THE_END + REST + piece)
    (fabric,) = proven(done, monkeypatch)
    for row in fabric.rows[::2]:
        inner = row.ops[edge : len(row.ops) - edge]
        crossed = {first + step for first in cables for step in range(4)}
        expected = [
            LEFT_CROSS if place in crossed else PURL if place % 8 in (3, 4) else KNIT for place in range(len(inner))
        ]
        assert list(inner) == expected


def test_its_parts_are_told_at_both_ends() -> None:
    text = " ".join(text_of(OVER_THE_END, SCARF).split())
    assert "Row 1 (RS): cable 4 left (2 sts), k1, p2, k1, cable 4 left (2 sts)" in text
    assert "A cable with a number of sts in brackets goes on over the end of the repeat." in text


def test_a_shift_moves_cables_over_the_end() -> None:
    """Row 1 from the right, a letter a stitch: k k p C C C C k; two along, they are C k k k p C C C."""
    text = " ".join(text_of(MOVED, COWL).split())
    assert "Row 1: k2, p1, cable 4 left, k1 " in text
    assert "Row 3: cable 4 left (1 st), k3, p1, cable 4 left (3 sts) (as row 1, begun 6 sts along)" in text


@pytest.mark.parametrize("motif", [OVER_THE_END, MOVED, LACE])
@pytest.mark.parametrize("piece", [SCARF, COWL])
def test_the_printed_text_can_be_knitted_again(motif: str, piece: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Its chart rows begin with a knit stitch, a cable or a yarn over."""
    assert main(["knit", "printed.txt"], MemoryWorld({"printed.txt": text_of(motif, piece)})) == 0
    assert "printed.txt: no problems" in "".join(capsys.readouterr())


@pytest.mark.parametrize(
    ("piece", "told"),
    [
        # both edges of the flat piece mirror about the middle of the purl stitches, a gap: no stitch to balance
        (SCARF.replace("from the edge", "whole repeats").replace("43 sts", "42 sts"), "8 sts and 2 edge sts."),
        (COWL, "8 sts."),
    ],
)
def test_the_multiple_of_the_counts_is_told(piece: str, told: str) -> None:
    text = " ".join(text_of(OVER_THE_END, piece).split())
    assert f": a multiple of {told}" in text
    # part repeats have none
    assert "a multiple of" not in text_of(OVER_THE_END, SCARF)


def test_nothing_is_said_of_colours() -> None:
    text = " ".join(text_of(LACE, SCARF).split())
    assert "Two-colour" not in text and "Floats may be" not in text
    assert "work each stitch as the key of the chart says for that side" in text


def test_the_scarf_keeps_its_stitches(monkeypatch: pytest.MonkeyPatch) -> None:
    """28 cm at 48 sts in 21.6 cm are 62.2 sts, and 2 edge sts; 12 k + 1 + 2 next to it is 63, kept by every row."""
    mill = (EXAMPLES / "tailwater-scarf.wale").read_text("utf-8")
    done = written(mill)
    assert done.pattern is not None
    assert "scarf: a multiple of 12 sts plus 1 and 2 edge sts." in " ".join(to_text(done.pattern).split())
    (fabric,) = proven(done, monkeypatch)
    assert {row.stitches for row in fabric.rows} == {63}
    # and mirrors about the middle: decreases that lean to the right become such as lean to the left
    leaning = bytes.maketrans(bytes((LEFT_DEC, RIGHT_DEC)), bytes((RIGHT_DEC, LEFT_DEC)))
    assert all(row.ops == row.ops[::-1].translate(leaning) for row in fabric.rows)
    # 160 cm at 40 rows in 16 cm are 400 rows, then 4 of garter
    assert len(fabric.rows) == 404


@pytest.mark.parametrize(
    ("old", "new", "at"),
    [
        ("    cast on 120 sts", "    steek   7 sts\n    cast on 120 sts", "work    in basket on tube, whole repeats"),
        ("    bind off\n", "    crown   6 wedges over 8 cm\n", "crown   6 wedges over 8 cm"),
    ],
)
def test_what_a_texture_is_not_built_with(old: str, new: str, at: str) -> None:
    text = (YARN + LACE + REST + COWL).replace(old, new)
    done = checked(text)
    assert errors(done) == ["E405"]
    (label, *_) = next(one for one in done.problems if one.is_error).labels
    assert text[label.span.start : label.span.end] == at


def test_a_plain_crown_goes_on_above_a_texture(monkeypatch: pytest.MonkeyPatch) -> None:
    done = written(
        YARN + LACE + REST + COWL.replace("    bind off\n", "    crown   6 wedges over 8 cm, plain in rye\n")
    )
    (fabric,) = proven(done, monkeypatch)
    # rounds 21 and on are the crown: no yarn over is left, 120 sts at its start, and it ends in few
    assert fabric.rows[19].stitches == 120
    assert fabric.rows[-1].stitches < 20
    assert all(INC not in row.ops for row in fabric.rows[20:])
