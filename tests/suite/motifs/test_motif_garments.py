"""Garments worked in motifs that are made of others: charted cell for cell, balanced and centred, and proven."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support import checked, errors, written

from wale.draft.motifs import column
from wale.pattern import Chart

GARMENT = """\
wale 1

pattern "Cloth"
    tolerance 6 cm

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif ear
    repeat 6 sts, 4 rows
    key    |-| rye, |x| flour
    | - - - x - - |
    | - - x - x - |
    | - x - x - x |
    | - - - x - - |

motif leaf
    repeat 4 sts, 4 rows
    key    |-| rye, |x| flour
    | - - - x |
    | - - x x |
    | - x x - |
    | x - - - |

motif worked{lines}

swatch flat, worked flat
    motif  worked in rye, flour
    needle 3.5 mm
    washed 28 sts and 32 rows in 10 cm

swatch round, in the round
    motif  worked in rye, flour
    needle 3.5 mm
    washed 28 sts and 32 rows in 10 cm

sizes small large
    measure bust 80 (120) cm
    ease    bust 0 cm

piece cloth, worked flat
    cast on bust/2 in flat
    work    in worked on flat, {fit}
    work    16 rows
    bind off

piece ring, in the round
    cast on bust in round
    work    in worked on round, whole repeats
    work    12 rounds
    bind off
"""
MADE = {
    "half drop": ", as ear\n    half drop",
    "brick": ", as ear\n    brick",
    "upside down, other colours": ", as ear\n    flipped\n    recoloured rye to flour, flour to rye",
    "doubled about the stitch": ", as leaf\n    doubled about the stitch",
    "doubled about both stitches": ", as leaf\n    doubled about both stitches",
    "doubled about the gap": ", as leaf\n    doubled about the gap\n    shifted 3 sts",
    "stacked": "\n    stack ear\n    stack plain in rye, 2 rows\n    stack ear\n    flipped",
    "scattered": "\n    repeat 12 sts, 8 rows\n    ground rye\n    place ear\n    place ear, 6 sts along, 4 rows up",
}
LEANING = {"drop of a quarter": ", as ear\n    drop 1/4", "leaves": ", as leaf\n    half drop"}


def spec_in(lines: str, fit: str) -> str:
    return GARMENT.replace("{lines}", lines).replace("{fit}", fit)


@pytest.mark.parametrize("name", MADE)
@pytest.mark.parametrize("fit", ["whole repeats", "centred"])
def test_a_flat_piece_is_balanced_and_centred_by_the_axes_that_are_found(name, fit):
    done = checked(spec_in(MADE[name], fit))
    assert errors(done) == []
    motif = done.spec.motifs["worked"]
    (section,) = [one for one in done.plan.pieces[0].sections if one.fabric is not None and one.kind == "work"]
    for size, count in enumerate(done.plan.pieces[0].levels[0].counts):
        places = [column(section, motif.width, count, stitch, size) for stitch in range(1, count - 1)]
        for row in range(motif.period):
            colours = [motif.cell(place, row) for place in places]
            assert colours == colours[::-1]
        if fit == "whole repeats":
            on_stitch = any(axis.denominator == 1 for axis in motif.axes()[:1])
            assert len(places) % motif.width == (1 % motif.width if on_stitch else 0)


@pytest.mark.parametrize("name", LEANING)
def test_a_motif_that_mirrors_nowhere_cannot_be_centred(name):
    done = checked(spec_in(LEANING[name], "centred"))
    assert errors(done) == ["E245"]
    assert errors(checked(spec_in(LEANING[name], "whole repeats"))) == []


@pytest.mark.parametrize("name", LEANING)
def test_seams_of_a_motif_that_mirrors_nowhere_cannot_mirror(name):
    """Told at the words that ask for it, with the motif beside; without them whole repeats stand."""
    text = spec_in(LEANING[name], "whole repeats, seams mirrored")
    (problem,) = [one for one in checked(text).problems if one.severity == "error"]
    asked, motif = (text[label.span.start : label.span.end] for label in problem.labels)
    assert (problem.code, asked, motif.split()[0]) == ("E245", "seams mirrored", "motif")
    assert problem.labels[0].text.startswith("it does not mirror")


@pytest.mark.parametrize("name", MADE)
def test_seams_of_a_motif_that_mirrors_may_be_asked_for(name):
    assert errors(checked(spec_in(MADE[name], "whole repeats, seams mirrored"))) == []


@pytest.mark.parametrize("name", [*MADE, *LEANING])
def test_the_chart_shows_the_motif_and_the_pattern_is_proven(name):
    done = written(spec_in({**MADE, **LEANING}[name], "whole repeats"))
    assert errors(done) == []
    assert done.proof is not None
    motif = done.spec.motifs["worked"]
    parts = [part for section in done.pattern.sections for part in section.parts]
    charts = [part for part in parts if isinstance(part, Chart) and part.name == "worked"]
    assert len(charts) == 2
    for chart in charts:
        yarns = [colour.name for colour in chart.colours]
        for row, line in enumerate(chart.rows):
            assert [yarns[cell] for cell in line] == [motif.cell(x, row) for x in reversed(range(motif.width))]


LINES = st.sampled_from(
    [
        "mirrored", "flipped", "half turn", "half drop", "brick", "drop 1/3", "drop 1/4", "drop 3/4", "drop 1/0",
        "shifted 1 st", "shifted 2 sts, 3 rows", "shifted 5 rows", "shifted 0 rows", "next shifts 2 sts",
        "next shifts 9 sts",
        "recoloured rye to flour", "recoloured flour to rye, rye to flour", "recoloured bran to rye",
        "doubled about the gap", "doubled about the stitch", "doubled about both stitches", "doubled", "half",
        "stack ear", "stack leaf, 2 times, from the edge", "stack plain in rye, 2 rows", "stack plain in rye",
        "place ear", "place leaf, 3 sts along, 2 rows up", "ground rye", "repeat 12 sts, 8 rows", "repeat 4 sts",
        "wedge", "stack worked", "key |-| rye", "| - x - |",
    ]
)  # fmt: skip


@settings(deadline=None, derandomize=True, max_examples=150)
@given(st.sampled_from(["", ", as ear", ", as leaf", ", as worked", ", as nothing"]), st.lists(LINES, max_size=6))
def test_any_lines_in_any_order_give_a_motif_or_a_problem_in_their_own_block(head, lines):
    text = spec_in("".join((head, *(f"\n    {line}" for line in lines))), "whole repeats")
    text = text[: text.index("swatch flat")] + text[text.index("sizes small") : text.index("piece cloth")]
    block = text.index("motif worked"), text.index("sizes small")
    done = checked(text + "piece cloth, worked flat\n    cast on 20 sts in cloth\n\n" + PLAIN)
    own = [found for found in done.problems if found.code[1] in "12"]
    assert all(block[0] <= found.labels[0].span.start < block[1] for found in own)
    assert (done.spec is None) == any(found.is_error for found in own)
    if done.spec is not None:
        motif = done.spec.motifs["worked"]
        assert len(motif.row_spans) == len(motif.rows)
        assert {yarn for row in motif.rows for yarn in row} <= {yarn for yarn, _ in motif.marks}


PLAIN = """\
swatch cloth, worked flat
    fabric stockinette in rye
    needle 3.5 mm
    washed 20 sts and 30 rows in 10 cm
"""
