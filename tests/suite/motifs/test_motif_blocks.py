"""Motif blocks: what is made of others comes to plain rows; slips are told with their place and a way out."""

import sys
from pathlib import Path

import pytest
from motif_cases import shown

sys.path.append(str(Path(__file__).parents[1] / "resolve"))

from resolve_frame import codes, framed, mended, resolved, spec_of

EAR = """\
motif ear
    repeat 3 sts, 2 rows
    key    |-| rye, |x| flour
    | - x - |
    | x x - |

"""
CROSS = """\
motif cross
    repeat 3 sts, 3 rows
    key    |-| rye, |x| flour
    | - x - |
    | x x x |
    | - x - |

"""


def made(snippet: str, name: str):
    return spec_of(snippet).motifs[name]


def problems_of(snippet: str):
    text = framed(snippet)
    spec, problems = resolved(text)
    return text, spec, problems


def place(text: str, problem, number: int = 0) -> str:
    span = problem.labels[number].span
    return text[span.start : span.end]


def test_lines_are_followed_from_the_top_down():
    # mirrored first, then a stitch to the left; and the other way round
    one = made(EAR + "motif m, as ear\n    mirrored\n    shifted 1 st\n", "m")
    two = made(EAR + "motif m, as ear\n    shifted 1 st\n    mirrored\n", "m")
    assert shown(one.tiling) == ["x--", "xx-"]
    assert shown(two.tiling) == ["--x", "x-x"]


def test_changes_may_stand_below_rows_and_a_shift_comes_where_it_stands():
    rows = EAR.replace("motif ear", "motif m").rstrip() + "\n"
    motif = made(rows + "    next shifts 1 st\n    mirrored\n", "m")
    assert (shown(motif.tiling), motif.shift) == (["-x-", "-xx"], 2)
    # `next` after a drop shifts the dropped repeat of 6 sts
    motif = made(rows + "    half drop\n    next shifts 5 sts\n", "m")
    assert (motif.width, len(motif.rows), motif.shift) == (6, 2, 5)


def test_a_motif_may_be_made_of_one_that_stands_further_down_and_of_motifs_in_a_used_file():
    used = "wale 1\n\n" + EAR.replace("motif ear", "motif grain")
    text = 'pattern "Frame"\n    use "shared.wale"\n\n'
    text += "motif last, as middle\n    flipped\n\nmotif middle, as grain\n    mirrored\n"
    spec = spec_of(text, {"shared.wale": used})
    assert shown(spec.motifs["last"].tiling) == ["-xx", "-x-"]
    # in the order of the file, the used one's first
    assert [*spec.motifs][-2:] == ["last", "middle"] and "grain" in spec.motifs


def test_recoloured_yarns_keep_their_place_in_the_key():
    motif = made(EAR + "motif m, as ear\n    recoloured rye to flour, flour to rye\n", "m")
    assert motif.marks == (("flour", "-"), ("rye", "x"))
    assert shown(motif.tiling) == ["x-x", "--x"]
    _, spec, _ = problems_of(EAR + "motif m, as ear\n    recoloured flour to rye\n")
    assert spec.motifs["m"].marks == (("rye", "-"),)


def test_a_stack_and_its_lines():
    motif = made(
        EAR + CROSS + "motif m\n    stack ear, 2 times\n    stack plain in flour, 1 row\n    stack cross\n", "m"
    )
    # the ear mirrors nowhere, the cross stands as it is typed
    assert shown(motif.tiling) == ["-x-", "xxx", "-x-", "xxx", "-x-", "xx-", "-x-", "xx-"]
    assert len({span.start for span in motif.row_spans}) == 3
    assert motif.row_spans[0] == motif.row_spans[3] != motif.row_spans[4]


def test_figures_stand_on_a_ground_whose_shift_they_follow():
    # centre of the cross at column 2, row 2; its top is row 0 of the repeat above, which starts 1 st to the left
    motif = made(
        CROSS + "motif m\n    repeat 5 sts, 3 rows\n    ground rye\n    place cross, 1 st along, 1 row up\n"
        "    next shifts 1 st\n",
        "m",
    )
    assert (shown(motif.tiling), motif.shift) == (["-xxx-", "--x--", "---x-"], 1)
    assert motif.cell(2, 3) == "flour"


@pytest.mark.parametrize(
    ("lines", "width", "rows"),
    [("half drop", 8, 4), ("brick", 4, 4), ("drop 1/4", 16, 4), ("doubled about the gap", 8, 4), ("flipped", 4, 4)],
)
def test_a_repeat_line_checks_what_the_lines_come_to(lines, width, rows):
    base = (
        "motif tall\n    repeat 4 sts, 4 rows\n    key |-| rye, |x| flour\n"
        + "    | - - - x |\n" * 2
        + ("    | - x - x |\n    | - - x x |\n\n")
    )
    right = f"motif m, as tall\n    repeat {width} sts, {rows} rows\n    {lines}\n"
    motif = made(base + right, "m")
    assert (motif.width, len(motif.rows)) == (width, rows)
    wrong = right.replace(f"{width} sts", f"{width + 1} sts")
    text, spec, (problem,) = problems_of(base + wrong)
    assert (problem.code, place(text, problem), spec) == ("E242", f"{width + 1} sts, {rows} rows", None)
    assert resolved(mended(text, problem.fixes[0]))[1] == []


@pytest.mark.parametrize(
    ("snippet", "code", "where", "mends"),
    [
        (EAR + "motif m, as eer\n    mirrored\n", "E213", "eer", True),
        (EAR + "motif m\n    stack ear\n    stack eer\n", "E213", "eer", True),
        (EAR + "motif m\n    repeat 9 sts, 9 rows\n    ground rye\n    place eer\n", "E213", "eer", True),
        (EAR + "motif m, as ear\n    recoloured rie to flour\n", "E247", "rie", True),
        (EAR + "motif m, as ear\n    recoloured rye to flours\n", "E211", "flours", True),
        (EAR + "motif m, as ear\n    recoloured rye to flour, rye to rye\n", "E205", "rye", False),
        (EAR + "motif m, as ear\n    brick\n", "E246", "brick", True),
        (CROSS + "motif m, as cross\n    half drop\n", "E246", "half drop", True),
        (CROSS + "motif m, as cross\n    drop 2/3\n", "E246", "drop 2/3", True),
        (CROSS + "motif m, as cross\n    drop 1/4\n", "E246", "drop 1/4", True),
        (CROSS + "motif m, as cross\n    next shifts 3 sts\n", "E244", "3 sts", False),
        (EAR + "motif m, as m\n", "E217", "m", False),
        (EAR + "motif m, as ear\n    stack ear\n", "E204", "stack ear", False),
        (EAR + "motif m\n    stack plain in rye\n    stack ear\n", "E206", "stack plain in rye", True),
        (EAR + "motif m\n    repeat 9 sts, 9 rows\n    place ear\n", "E206", "motif m", False),
        (EAR + "motif m\n    repeat 9 sts, 9 rows\n    ground rye\n", "E206", "motif m", False),
        (EAR + "motif m\n    repeat 9 sts\n    ground rye\n    place ear\n", "E206", "repeat 9 sts", False),
        (EAR + "motif m, as ear\n    shifted 0 sts\n", "E222", "0 sts", False),
        (EAR + "motif m, as ear\n    miror\n", "E202", "miror", True),
    ],
)
def test_a_slip_is_told_once_with_its_place(snippet, code, where, mends):
    text, spec, problems = problems_of(snippet)
    assert (codes(problems), spec) == ([code], None)
    assert place(text, problems[0]) == where
    if mends:
        again = [resolved(mended(text, fix))[1] for fix in problems[0].fixes]
        assert again and all(problem.severity in ("note", "warning") for found in again for problem in found)


def test_a_ring_is_told_once_and_those_who_use_it_keep_silent():
    text, spec, problems = problems_of(
        "motif a, as b\n\nmotif b\n    stack c\n\nmotif c, as a\n\nmotif d, as c\n    flipped\n"
    )
    assert (codes(problems), spec) == (["E217"], None)
    assert "a → b → c → a" in problems[0].message
    assert [place(text, problems[0], number) for number in range(3)] == ["a", "b", "c"]


def test_two_rings_are_two_problems():
    _, _, problems = problems_of("motif a, as b\n\nmotif b, as a\n\nmotif c, as d\n\nmotif d, as c\n")
    assert codes(problems) == ["E217", "E217"]


def test_a_broken_motif_is_poison_to_those_made_of_it():
    _, _, problems = problems_of(EAR.replace("| x x - |", "| x q - |") + "motif m, as ear\n\nmotif n\n    stack m\n")
    assert codes(problems) == ["E241"]


def test_figures_that_meet_are_told_with_the_nearest_free_place():
    ground = CROSS + "motif m\n    repeat 9 sts, 4 rows\n    ground rye\n    place cross, 2 sts along\n"
    text, _, (problem,) = problems_of(ground + "    place cross, 3 sts along\n")
    # crosses at columns 2-4 and 3-5: the second one's right arm, column 3 of the middle row, is the first one's centre
    assert problem.code == "E248" and "stitch 4 of row 2" in problem.message
    assert [place(text, problem, number) for number in (0, 1)] == [
        "place cross, 3 sts along",
        "place cross, 2 sts along",
    ]
    # columns 4 and 5 meet it still: 4 is its left arm; from column 5 on it is free
    assert "place cross, 5 sts along" in mended(text, problem.fixes[0])
    assert resolved(mended(text, problem.fixes[0]))[1] == []


def test_a_figure_larger_than_its_ground_meets_itself():
    _, _, (problem,) = problems_of(CROSS + "motif m\n    repeat 2 sts, 9 rows\n    ground rye\n    place cross\n")
    assert problem.code == "E248" and "itself" in problem.message and problem.fixes == ()


def lines_of(width: int) -> str:
    return "    | " + "- " * (width - 1) + "x |\n"


def wide(name: str, width: int, rows: int = 1) -> str:
    return (
        f"motif {name}\n    repeat {width} sts, {rows} rows\n    key |-| rye, |x| flour\n"
        + lines_of(width)
        + (f"    | {'- ' * width}|\n" * (rows - 1) + "\n")
    )


def test_bands_that_meet_too_late_are_told_with_widths_that_meet_sooner():
    text, _, (problem,) = problems_of(
        wide("a", 16) + wide("b", 10) + wide("c", 7) + "motif m\n    stack a\n    stack b\n    stack c\n"
    )
    # 16 and 10 make 80; 7 more makes 560
    assert problem.code == "E249" and "560 sts" in problem.message
    assert place(text, problem) == "stack c"
    # next to 7: 5 and 8 divide 80, 6 makes 240, 4 divides 80 as well
    assert "4 or 5 or 8 sts" in problem.help


@pytest.mark.parametrize(
    "snippet",
    [
        wide("a", 150) + "motif m, as a\n    doubled about the gap\n",
        wide("a", 60, 4) + "motif m, as a\n    drop 1/4\n",
        wide("a", 5, 90) + "motif m, as a\n    next shifts 1 st\n    half drop\n",
        wide("a", 5, 90) + "motif m\n    stack a, 5 times\n",
        CROSS + "motif m\n    repeat 201 sts, 9 rows\n    ground rye\n    place cross\n",
        CROSS + "motif m\n    repeat 9 sts, 99999 rows\n    ground rye\n    place cross\n",
    ],
)
def test_what_grows_too_large_is_refused(snippet):
    _, spec, problems = problems_of(snippet)
    assert (codes(problems), spec) == (["E249"], None)


def test_many_large_motifs_are_bounded_together():
    # 200 sts x 400 rows are 80,000 cells: 25 of them make two millions
    big = wide("a", 200) + "motif m0\n    stack a, 400 times\n\n"
    snippet = big + "".join(f"motif m{n}, as m{n - 1}\n\n" for n in range(1, 26))
    _, spec, problems = problems_of(snippet)
    assert [problem.code for problem in problems if problem.severity == "error"] == ["E249"] and spec is None


def test_a_long_chain_of_motifs_is_no_trouble():
    snippet = (
        EAR + "motif m0, as ear\n\n" + "".join(f"motif m{n}, as m{n - 1}\n    mirrored\n\n" for n in range(1, 1600))
    )
    assert shown(spec_of(snippet).motifs["m1599"].tiling) == ["-x-", "-xx"]


def test_wedges_stand_alone():
    wedge = "motif top\n    repeat 3 sts, 2 rows\n    key |-| rye, |x| flour\n    | x |\n    | - x - |\n    wedge\n"
    text, _, problems = problems_of(wedge + "    mirrored\n")
    assert (codes(problems), place(text, problems[0])) == (["E245"], "mirrored")
    text, _, problems = problems_of(wedge + "\nmotif m\n    stack top\n")
    assert (codes(problems), place(text, problems[0])) == (["E245"], "top")


def test_three_colours_in_a_row_are_told_where_they_come_together():
    bran = "yarn bran\n    count 2/8 Nm wool\n    colour #c9a36b\n\n"
    base = (
        bran + "motif two\n    repeat 2 sts, 2 rows\n    key |-| rye, |x| flour, |o| bran\n    | - o |\n    | x x |\n\n"
    )
    assert problems_of(base)[2] == []
    text, spec, (problem,) = problems_of(base + "motif m, as two\n    half drop\n")
    assert (problem.code, place(text, problem)) == ("W243", "half drop") and spec is not None
    # told where it came about, not again by those made of it
    assert codes(problems_of(base + "motif m, as two\n    half drop\n\nmotif n, as m\n    flipped\n")[2]) == ["W243"]


SMALLER = [
    # 4 sts that are twice 2, and 4 rows that are twice 2
    ("| - x - x |\n    | x - x - |\n    | - x - x |\n    | x - x - |", "4 sts, 4 rows", "| - x |\n    | x - |"),
    ("| - x x - x x |\n    | x - - x - - |", "6 sts, 2 rows", "| - x x |\n    | x - - |"),
    ("| - x - |\n    | x - - |\n    | - x - |\n    | x - - |", "3 sts, 4 rows", "| - x - |\n    | x - - |"),
]


@pytest.mark.parametrize(("bars", "size", "left"), SMALLER, ids=[size for _, size, _ in SMALLER])
def test_a_repeat_that_holds_a_smaller_one_is_noted_and_cut(bars, size, left):
    text, spec, (problem,) = problems_of(f"motif m\n    repeat {size}\n    key |-| rye, |x| flour\n    {bars}\n")
    assert (problem.code, place(text, problem)) == ("N254", f"repeat {size}")
    cut = mended(text, problem.fixes[0])
    assert left in cut
    small, found = resolved(cut)
    assert found == [] and small is not None and spec is not None
    one, other = small.motifs["m"], spec.motifs["m"]
    assert one.width * len(one.rows) < other.width * len(other.rows)
    assert all(one.cell(x, y) == other.cell(x, y) for x in range(12) for y in range(12))


def test_a_half_drop_or_a_shift_typed_out_is_no_smaller_repeat():
    # 4 sts in 2 rows: the upper row is the lower one 2 sts along
    rows = "    key |-| rye, |x| flour\n    | - - x - |\n    | x - - - |\n"
    assert problems_of("motif m\n    repeat 4 sts, 2 rows\n" + rows)[2] == []
    assert problems_of("motif m\n    repeat 4 sts, 2 rows\n" + rows + "    next shifts 1 st\n")[2] == []
