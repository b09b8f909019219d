"""The lines `source`, `rights` and `credit` of a motif: read, passed on, and printed with its chart."""

import sys
from pathlib import Path

from support import written

sys.path.append(str(Path(__file__).parents[1] / "resolve"))

from resolve_frame import codes, framed, resolved, spec_of

ROWS = """\
motif ear
    repeat 4 sts, 2 rows
    key    |-| rye, |x| flour
    | - x x - |
    | x - - - |
"""
TOLD = (
    ROWS
    + """\
    credit "The crew: thanks"
    source "Carving on the mill's door"
    rights "Free to knit, not to sell"
"""
)


def test_the_lines_are_read_in_one_order_whatever_theirs():
    assert spec_of(TOLD).motifs["ear"].origin == (
        ("source", "Carving on the mill's door"),
        ("rights", "Free to knit, not to sell"),
        ("credit", "The crew: thanks"),
    )
    assert spec_of(ROWS).motifs["ear"].origin == ()


def test_what_is_made_of_a_motif_has_its_lines_after_its_own_each_once():
    made = TOLD + 'motif ears, as ear\n    flipped\n    credit "Us"\nmotif both\n    stack ear\n    stack ears\n'
    motifs = spec_of(made).motifs
    assert motifs["ears"].origin == (("credit", "Us"), *motifs["ear"].origin)
    assert motifs["both"].origin == (*motifs["ear"].origin, ("credit", "Us"))


def test_a_second_line_and_a_line_without_its_text_are_refused():
    _, problems = resolved(framed(TOLD + '    source "Again"\n'))
    assert codes(problems) == ["E205"]
    _, problems = resolved(framed(ROWS + "    source mill\n"))
    assert codes(problems) == ["E203"]


def test_the_pattern_prints_them_with_the_chart():
    hat = (Path(__file__).parents[3] / "docs/problems/W602.md").read_text("utf-8").split("```wale\n")[1].split("```")[0]
    lines = '    | x - - - |\n    source "A door"\n    rights "Ours"\n    credit "Row 1: 3 rye"\n'
    pattern = written(hat.replace("    | x - - - |\n", lines)).pattern
    assert pattern is not None
    (section,) = [one for one in pattern.sections if one.id == "charts"]
    assert section.parts[0].notes[-3:] == ("Source: A door", "Rights: Ours", "Credit: Row 1: 3 rye")
