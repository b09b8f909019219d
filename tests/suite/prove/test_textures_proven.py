"""Textures: what comes off the needles is the motif as it was drawn, flat and in the round, shaped and divided."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from prove_corruptions import corruptions, harmless
from prove_patterns import TEXTURED, compiled
from support import checked, codes, written
from test_floats_proven import knitted as proven

from wale.outputs.text import render as to_text
from wale.prove.charts import together
from wale.prove.fabric import (
    CENTRED_DEC,
    INC,
    KNIT,
    LEFT_CROSS,
    LEFT_DEC,
    LEFT_DEEP,
    PURL,
    RIGHT_CROSS,
    RIGHT_DEC,
    RIGHT_DEEP,
    SLIPPED,
)
from wale.prove.facts import Printed
from wale.prove.proof import prove
from wale.stitches import groups
from wale.write.document import document
from wale.write.facts import facts, printed

YARN = """wale 1

pattern "Grist"

yarn rye
    count  200 m per 100 g wool
    colour #8a5a2b
"""
BASKET = """
motif basket
    repeat   4 sts, 4 rows
    stitches |-| knit, |o| purl
    | o o - - |
    | o o - - |
    | - - o o |
    | - - o o |
"""
GRIST = """
motif basket
    repeat   10 sts, 4 rows
    stitches |-| knit, |o| purl, |y| yo, |/| k2tog, |s| ssk, |v| slip, |<| cable-4-left
    | - - - - - - o - - o |
    | - v - v - - o / y o |
    | - - - - - - o - - o |
    | - < < < < - o y s o |
"""
LEAF = """
motif basket
    repeat   12 sts, 4 rows
    stitches |-| knit, |o| purl, |y| yo, |A| s2kp, |3| k3tog, |e| sssk
    | - - - o o - o o - - - - |
    | - y 3 y - - - y e y - - |
    | - - - - - - - - - - - - |
    | - y - - - A - - - y - - |
"""
REST = """
swatch cloth, worked flat
    motif  basket in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

swatch tube, in the round
    motif  basket in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

sizes one
"""
SCARF = """
piece scarf, worked flat
    edge    1 st each side
    cast on 43 sts in cloth
    work    in basket on cloth, from the edge
    work    20 rows
    bind off
"""
SHAPED = """
piece back, worked flat
    cast on   86 sts in cloth
    work      in basket on cloth, from the edge
    work      6 rows
    shape     to 70 sts over 24 rows
    work      40 rows
    neck      30 sts wide, 16 rows deep
    shoulders slope 8 rows, short rows
"""
COWL = """
piece cowl, in the round
    cast on 120 sts in tube
    work    in basket on tube, whole repeats
    work    20 rounds
    bind off
"""
FACE = {
    "knit": KNIT,
    "purl": PURL,
    "yo": INC,
    "k2tog": RIGHT_DEC,
    "ssk": LEFT_DEC,
    "slip": SLIPPED,
    "k3tog": RIGHT_DEEP,
    "sssk": LEFT_DEEP,
    "s2kp": CENTRED_DEC,
    "cable-4-left": LEFT_CROSS,
    "cable-4-right": RIGHT_CROSS,
}


def drawn(motif: str) -> list[list[int]]:
    """The cells of a motif as they are typed, bottom row first, each from the right."""
    key = dict(re.findall(r"\|(\S)\| ([a-z0-9-]+)", motif))
    rows = re.findall(r"^ {4}\| (.+) \|$", motif, re.M)
    return [[FACE[key[mark]] for mark in row.split()[::-1]] for row in rows[::-1]]


@pytest.mark.parametrize("piece", [SCARF, COWL])
@pytest.mark.parametrize("motif", [BASKET, GRIST])
def test_the_fabric_is_the_motif(motif: str, piece: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Cell by cell; where the width cuts a pair or a cable, which begins at column 1 here, its part is knitted."""
    done = written(YARN + motif + REST + piece)
    assert done.plan is not None
    (fabric,) = proven(done, monkeypatch)
    cells = drawn(motif)
    edge = 1 if piece is SCARF else 0
    width = len(cells[0])
    for row in fabric.rows:
        inner = row.ops[edge : len(row.ops) - edge]
        tile = cells[(row.number - 1) % len(cells)]
        wanted = [tile[place % width] for place in range(len(inner))]
        cut = len(inner) % width
        # the last repeat of the scarf ends after one column: the purl at the right of the eyelets
        assert cut in (0, 1, len(inner) % 4)
        assert list(inner) == wanted
        assert row.colours == bytes((fabric.palette.index("rye"),)) * len(row.ops)


def test_shaped_and_divided(monkeypatch: pytest.MonkeyPatch) -> None:
    """A stitch keeps its column while the edges move in and the neck opens; each row keeps its count but for the
    shaping at its ends, for no yarn over stands without its decrease."""
    done = written(YARN + GRIST + REST + SHAPED)
    assert done.plan is not None
    (fabric,) = proven(done, monkeypatch)
    cells = drawn(GRIST)
    before = 86
    for row in fabric.rows:
        inner = row.ops[1:-1]
        gained = row.ops.count(INC) - row.ops.count(LEFT_DEC) - row.ops.count(RIGHT_DEC)
        if not row.part and row.number <= 30:
            assert row.stitches == before + gained
            lost = before - row.stitches
            # 86 stitches and an edge stitch: column 1 began at the second stitch; each side lost half of the others
            shift = (86 - row.stitches) // 2
            tile = cells[(row.number - 1) % 4]
            for place, op in enumerate(inner[1:-1] if lost else inner, 1 if lost else 0):
                assert op in (tile[(place + shift) % 10], KNIT)
            before = row.stitches
        else:
            assert gained == 0
        assert row.ops.count(LEFT_CROSS) % 4 == 0


def test_lace_is_whole_or_knitted_plain(monkeypatch: pytest.MonkeyPatch) -> None:
    """What lies between a yarn over and its decrease is there as drawn, or all of it that the edges leave is plain but
    for their shaping: columns 3 to 11 of row 1, 3 to 5 and 9 to 11 of row 3, counted on the drawing from the right."""
    done = written(YARN + LEAF + REST + SHAPED)
    (fabric,) = proven(done, monkeypatch)
    cells = drawn(LEAF)
    figures = {0: ((2, 10),), 2: ((2, 4), (8, 10))}
    whole = plain = 0
    for row in fabric.rows:
        at = {row.waiting + place: (row.column(place), op) for place, op in enumerate(row.ops)}
        edges = {0} if row.part == "right" else {row.stitches - 1} if row.part == "left" else {0, row.stitches - 1}
        places = at.keys() - edges
        number = (row.chart_row - 1) % 4
        for first, last in figures.get(number, ()):
            for start in (place for place in sorted(places) if at[place][0] % 12 == first and row.chart):
                found = [at[place][1] for place in range(start, start + last - first + 1) if place in places]
                if found == cells[number][first : first + len(found)] and len(found) == last - first + 1:
                    whole += 1
                else:
                    assert set(found) <= {KNIT, LEFT_DEC, RIGHT_DEC}
                    plain += 1
    assert whole > 40 and plain > 10


@pytest.mark.parametrize("name", TEXTURED)
def test_examples_in_all_sizes(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each stitch is that of its chart's column, a knit one where a cable is cut, or the shaping at an end."""
    done = compiled(name)
    assert done.spec is not None and done.plan is not None
    compared = 0
    for fabric in proven(done, monkeypatch):
        piece = done.plan.piece(fabric.piece)
        border = max(1, piece.levels[0].edges // 2 - 1) if piece is not None else 1
        for row in (row for row in fabric.rows if row.chart):
            motif = done.spec.motifs[row.chart]
            assert motif.is_texture
            for at, op in enumerate(row.ops):
                cell = motif.cell(row.column(at), row.chart_row - 1)
                if border < row.waiting + at < row.stitches - border - 1:
                    assert op == FACE[cell] or ("cable" in cell and op == KNIT)
                    compared += 1
    assert compared > 10_000


def test_words_tell_each_side_as_it_is_worked() -> None:
    done = written(YARN + GRIST + REST + SCARF)
    assert done.pattern is not None
    text = to_text(done.pattern)
    assert "Row 1 (RS): p1, ssk, yo, p1, k1, cable 4 left, k1" in text
    assert "Row 2 (WS): p6, k1, p2, k1" in text
    assert "Row 3 (RS): p1, yo, k2tog, p1, k2, (sl1, k1) twice" in text
    assert "Begin chart basket, a texture in rye, on the next row (RS)" in text
    assert "knit that part" in text and "cable left: as many sts as the number says" in " ".join(text.split())


@pytest.mark.parametrize(("motif", "least"), [(GRIST, 90), (LEAF, 60)])
def test_every_slip_in_its_words_is_found(motif: str, least: int) -> None:
    """Each figure one more and one less, stitches exchanged, lines dropped and swapped, in the piece and its chart."""
    done = written(YARN + motif + REST + SCARF)
    assert done.spec is not None and done.plan is not None
    pattern = document(done.spec, done.plan, (0,))
    whole, known = printed(done.spec, done.plan, pattern, (0,)), facts(done.spec, done.plan, (0,))
    assert prove(whole, known) == []
    slips = [*corruptions(whole), *_exchanged(whole)]
    passed = [(sort, line) for sort, line, damaged in slips if prove(damaged, known) == [] and not harmless(sort, line)]
    assert len(slips) > least and passed == []


DEEP = (("k3tog", "k2tog"), ("k3tog", "sssk"), ("sssk", "s2kp"), ("s2kp", "k3tog"))


def _exchanged(whole: Printed) -> Iterator[tuple[str, str, Printed]]:
    """Stitches of the chart exchanged: a knit and a purl stitch, both decreases, what a cable leans to."""
    ((name, rows),) = whole.charts
    for number, (label, text) in enumerate(rows):
        for one, other in (
            ("k1", "p1"),
            ("ssk", "k2tog"),
            ("yo, ", ""),
            ("left", "right"),
            ("sl1", "k1"),
            ("4", "2"),
            *DEEP,
        ):
            if one in text:
                changed = (*rows[:number], (label, text.replace(one, other, 1)), *rows[number + 1 :])
                yield "exchanged", changed[number][1], replace(whole, charts=((name, changed),))


GAINS = {"yo": 1, "k2tog": -1, "ssk": -1, "k3tog": -2, "sssk": -2, "s2kp": -2}


@given(st.lists(st.sampled_from(["knit", "purl", *GAINS, "yo", "yo", "yo", "cable-2-left"]), min_size=1, max_size=12))
@settings(max_examples=500)
def test_both_ways_of_parting_a_row_agree(row: list[str]) -> None:
    """The compiler's and the proof's, on the same row; what is worked together keeps its stitches, and all else is
    single stitches. No cut at another level leaves more of them: each way is tried, cable by cable."""
    words = {"knit": "k", "purl": "p", "cable-2-left": "cable 2 left"}
    found = groups(row)
    if found is None:
        assert sum(GAINS.get(name, 0) for name in row) or _odd_cables(row)
        return
    assert set(together([words.get(name, name) for name in row])) == set(found)
    grouped = [place for group in found for place in group]
    assert len(set(grouped)) == len(grouped)
    assert all(row[place] in ("knit", "purl") for place in set(range(len(row))) - set(grouped))
    for group in found:
        assert sum(GAINS.get(row[place], 0) for place in group) == 0
        assert sum(row[place] == "cable-2-left" for place in group) % 2 == 0
    if "cable-2-left" not in row:
        ways = [_loose(row, start) for start in range(len(row))]
        assert len(grouped) == min(ways)


def _odd_cables(row: list[str]) -> bool:
    cells = "".join("c" if "cable" in name else " " for name in row)
    start = max(cells.find(" "), 0)
    return any(len(run) % 2 for run in (cells[start:] + cells[:start]).split())


def _loose(row: list[str], start: int) -> int:
    """How many stitches lie in stretches of more than one where the row is first cut before a place, then wherever as
    many are made as taken up."""
    loose = length = balance = 0
    for name in row[start:] + row[:start]:
        balance, length = balance + GAINS.get(name, 0), length + 1
        if not balance:
            loose, length = loose + (length if length > 1 else 0), 0
    return loose


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("|y| yo", "|y| yarn", "E255"),
        ("basket in rye", "basket in rye, rye", "E256"),
        ("| - < < < < - o y s o |", "| - < < < - - o y s o |", "E257"),
        ("| - - - - - - o - - o |\n    | - v", "| - < < < < - o - - o |\n    | - v", "E257"),
        ("o y s o |", "o y - o |", "E257"),
        ("rows\n    stitches", "rows\n    wedge\n    stitches", "E204"),
    ],
)
def test_what_is_no_texture(old: str, new: str, code: str) -> None:
    text = YARN + GRIST + REST + SCARF
    assert old in text
    assert code in codes(checked(text.replace(old, new, 1)))
