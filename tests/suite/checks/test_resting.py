"""Rests of yarns, edges that a chart row lacks, and strands over round ends, against plain counts."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from specs import ROOT, YARNS, compiled

from wale.checks import check
from wale.checks.resting import edges_alone, gathered, overs, rests
from wale.write.strands import strand_list, strand_order

BRAN = "yarn bran\n    count  100 m per 100 g\n    colour #c9a36b\n"
MARKS = {"-": "rye", "x": "flour", "o": "bran"}


def spec(rows, *, flat=False, fit="from the edge", edge="1 st each side in rye", rows_10=30, length=20, stitches=48):
    """A panel or tube in a motif whose rows are given bottom first; 2.4 sts a cm."""
    way = "worked flat" if flat else "in the round"
    used = [mark for mark in MARKS if any(mark in row for row in rows)]
    key = ", ".join(f"|{mark}| {MARKS[mark]}" for mark in used)
    cells = "\n".join(f"    | {' '.join(row)} |" for row in rows[::-1])
    edges = f"    edge {edge}\n" if flat else ""
    return f"""wale 1
pattern "Rests"
{YARNS}
{BRAN}
motif m
    repeat {len(rows[0])} sts, {len(rows)} rows
    key {key}
{cells}

swatch s, {way}
    motif m in {", ".join(MARKS[mark] for mark in used)}
    needle 3.5 mm
    washed 24 sts and {rows_10} rows in 10 cm

sizes one
piece p, {way}
{edges}    cast on {stitches} sts in s
    work in m on s, {fit}
    work {length} cm
    bind off
"""


def test_a_colour_of_two_rows_of_forty_is_cut():
    rows = ["-x", "x-", *["--"] * 38]
    found = rests(*compiled(spec(rows)))
    # 38 rounds at 3 a cm are 12.67 cm; 20 cm are 60 rounds, so the third round from the second repeat is reached.
    assert [(one.yarn, one.last, one.after, one.rows, one.cut) for one in found] == [("flour", 2, 41, 38, True)]
    assert [one.code for one in check(*compiled(spec(rows))) if one.code[1] == "6"].count("N617") == 1


def test_a_rest_that_no_size_reaches_is_none():
    # 12 cm are 36 rounds: flour of round 41 is never knitted.
    assert rests(*compiled(spec(["-x", "x-", *["--"] * 38], length=12))) == ()


def test_worked_flat_an_odd_rest_waits_at_the_other_edge_and_an_even_one_does_not():
    odd = rests(*compiled(spec(["-x", "--", "--", "--"], flat=True)))
    even = rests(*compiled(spec(["-x", "--", "--"], flat=True)))
    assert [(one.rows, one.turned) for one in odd] == [(3, True)]
    assert [(one.rows, one.turned) for one in even] == [(2, False)]
    assert not rests(*compiled(spec(["-x", "--", "--", "--"])))[0].turned


def test_the_yarn_of_the_edges_never_rests_but_is_missing_in_rows():
    rows = ["x-", "-x", "xx", "xx"]
    made = compiled(spec(rows, flat=True))
    assert rests(*made) == ()
    assert [(yarn, lacking) for _, yarn, lacking in edges_alone(*made)] == [("rye", (3, 4))]
    other = compiled(spec(rows, flat=True, edge="1 st each side in flour"))
    assert edges_alone(*other) == () and [one.yarn for one in rests(*other)] == ["rye"]


def test_alike_rests_are_told_together():
    made = compiled(spec(["-x", "--", "-x", "--"][:2], flat=True))
    assert [rows for _, rows in gathered(*made)] == [(1,)]
    made = compiled(spec(["-x--", "----", "x---", "----"], flat=True))
    assert [rows for _, rows in gathered(*made)] == [(1, 3)]


def test_the_order_of_strands_is_that_of_the_gauge_and_all_are_told():
    made = compiled(spec(["-xo-", "xo--"]))
    assert strand_order(*made) == ("rye", "flour", "bran")
    (_, listed) = strand_list(*made)
    words = [f"{one.strong} {one.text}" for one in listed.items]
    assert any(word.startswith("Order of strands: rye, flour, bran") for word in words)
    (crowded,) = [word for word in words if "more than two colours" in word]
    # Of four stitches two are rye, one flour and one bran: bran, the later of equals, may go.
    assert "in chart rows 1, 2" in crowded and "without bran and embroider in duplicate stitch" in crowded
    assert not any("Worked flat" in word for word in words)


def test_a_garment_of_one_colour_tells_of_no_strands():
    text = (ROOT / "examples/first-cowl.wale").read_text("utf-8")
    text = text.replace("    work    in grist on easy-round, whole repeats\n", "")
    assert strand_list(*compiled(text)) == ()


@settings(max_examples=60)
@given(
    st.integers(2, 6).flatmap(
        lambda width: st.lists(st.text("-x", min_size=width, max_size=width), min_size=1, max_size=6)
    ),
    st.integers(30, 60),
)
def test_strands_over_the_end_of_rounds_equal_a_count_on_the_spiral(rows, stitches):
    """The rounds end to end as one strip: each run over an end, beyond the limit and the runs of both rounds."""
    if not any("x" in row for row in rows) or not any("-" in row for row in rows):
        return
    made = compiled(spec(rows, stitches=stitches))
    width, expected = len(rows[0]), {}
    for at in range(len(rows)):
        lower, upper = (rows[row % len(rows)][::-1] for row in (at, at + 1))
        # 20 cm are 60 rounds: each round is followed by its next.
        strip = [lower[n % width] for n in range(stitches)] + [upper[n % width] for n in range(stitches)]
        for mark in set(lower) & set(upper):
            places = [n for n, cell in enumerate(strip) if cell == mark]
            passed = next(b - a - 1 for a, b in pairwise(places) if a < stitches <= b)
            own = 0
            for line in (lower, upper):
                if len(set(line)) > 1:
                    wide = [n for n, cell in enumerate(line * 3) if cell == mark]
                    own = max([own, *(b - a - 1 for a, b in pairwise(wide))])
            if passed > max(6, own):  # 2.5 cm at 2.4 sts are 6
                expected.setdefault(MARKS[mark], {})[at + 1] = passed
    found = {one.yarn: (one.rows, one.stitches) for one in overs(*made)}
    assert found == {yarn: (tuple(sorted(at)), max(at.values())) for yarn, at in expected.items()}
