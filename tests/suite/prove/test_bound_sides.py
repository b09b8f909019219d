"""Stitches bound off at each side of a flat piece: counts, motif, proof, schematic, and what is refused."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from prove_corruptions import refute
from support import PLAIN, checked, errors, planned, written
from test_floats_proven import knitted as proven

from wale.outputs.text import render as to_text
from wale.prove.charts import read_chart
from wale.prove.joins import mirror_fault
from wale.prove.machine import knit
from wale.prove.proof import prove
from wale.prove.reader import read
from wale.write.facts import facts, printed
from wale.write.outline import layers, outline

PANEL = """wale 1

pattern "Panel"

{yarns}
sizes one

piece panel, worked flat
    edge     0 sts each side
    cast on  40 cm in plain
    work     10 cm
    bind off 3 cm each side
    work     10 cm
    bind off
"""
BODY = """wale 1

pattern "Hopper"
    use "mill-yarns.wale"

sizes women XS S M L XL 2XL 3XL 4XL 5XL
    ease bust 10 cm, hip 8 cm, armhole-depth 3 cm, shoulder-girth 4 cm

piece back, worked flat
    cast on   bust/2 in plain
    rib       5 cm, 2x2, on 3 mm
    work      in grist on easy, centred on the stitch
    work      to body-length - 3 cm - armhole-depth
    mark      underarm
    bind off  3 cm each side
    shape     to bust/2 - 12 cm over 8 cm
    work      to body-length
    neck      neck-width wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, as back
    neck neck-width wide, 8 cm deep, round

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
"""
ROWS = (("Row 1 (RS)", "3 rye, 2 flour, 1 rye"), ("Row 2 (WS)", "6 rye"))


def test_the_stitches_by_hand() -> None:
    """2 sts a cm: 40 cm are 80. 40 - 2 * 3 = 34 cm are 68, 6 less at each side; 28 rows are 10 cm."""
    plan = planned(PANEL.format(yarns=PLAIN))
    below, above = plan.pieces[0].levels
    assert (below.counts, above.counts) == ((80,), (68,))
    assert [section.rows for section in plan.pieces[0].sections] == [(28,), (2,), (28,)]


def test_the_outline_steps_in_at_once() -> None:
    """From 20 cm half the width to 17 cm at 10 cm of height: 28 rows of 2.8 in a cm; 58 rows in all."""
    piece = planned(PANEL.format(yarns=PLAIN)).pieces[0]
    right = [(float(x), float(y)) for x, y in outline(layers(piece, 0)) if x > 0]
    assert right == [(20, 0), (20, 10), (17, 10), (17, 58 / 2.8)]


def test_the_words_of_both_rows() -> None:
    done = written(PANEL.format(yarns=PLAIN))
    assert done.pattern is not None
    text = " ".join(to_text(done.pattern).split())
    assert "Next row (RS): bind off 6 sts, work to the end. 74 sts." in text
    assert "Next row (WS): bind off 6 sts, work to the end. 68 sts." in text


@pytest.mark.parametrize("start", ["centred on the stitch", "whole repeats at bust-2, tolerance 2.5 cm"])
def test_both_sides_lose_the_same_and_the_motif_stays_on_the_centre(
    start: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of all sizes: the column of the middle stitch is the same below and above, and rows mirror, edges included."""
    done = written(BODY.replace("centred on the stitch", start))
    assert done.plan is not None and errors(done) == []
    backs = [fabric for fabric in proven(done, monkeypatch) if fabric.piece == "back"]
    assert len(backs) == 9
    for fabric, low, high in zip(backs, *(level.counts for level in done.plan.pieces[0].levels[1:3]), strict=True):
        (mark,) = (rows for name, rows in fabric.marks if name == "underarm")
        below, first, second = fabric.rows[mark - 1 : mark + 2]
        each = (low - high) // 2
        assert each > 0 and low - 2 * each == high
        assert [len(row.ops) for row in (below, first, second)] == [low, low - each, high]
        assert below.column(low // 2) % 12 == second.column(high // 2) % 12
        assert first.column(low // 2 - each) % 12 == second.column(high // 2) % 12
        inner = second.colours
        assert inner == inner[::-1]


def test_what_lies_between_the_armholes_is_no_ring() -> None:
    """A back of half the bust less 40 cm would not pass the shoulders as a ring; above the armholes there is none."""
    narrow = BODY.replace("bust/2 - 12 cm over 8 cm", "bust/2 - 14 cm over 10 cm").replace("girth 4 cm", "girth 40 cm")
    assert [found for found in checked(narrow).problems if found.code == "W606"] == []


HALF = """wale 1

pattern "Weir"

{yarns}
sizes one

piece back, worked flat
    cast on   52 cm in plain
    work      30 cm
    bind off  4 cm each side
    shape     to 36 cm over 12 cm
    work      to 60 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece left-front, as back, left half
    opening 4 cm
    neck    18 cm wide, 12 cm deep, V

piece right-front, as left-front, mirrored

join
    seam back shoulders with left-front shoulders, three-needle bind-off
    seam back shoulders with right-front shoulders, three-needle bind-off
    seam sides, mattress stitch

band button-band
    pick up along left-front front-edge in plain
    rib     4 cm, 2x2
"""


def test_a_half_binds_off_at_its_side_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """2 sts and 2.8 rows a cm, an edge stitch taken up at each side: 52 cm are 106 sts, 44 and 36 cm 90 and 74.

    (52 - 4) / 2 = 24 cm are 50 sts; the back binds off (106 - 90) / 2 = 8 at each side, so a half is left with 42, and
    with 42 - (90 - 74) / 2 = 34 after the shaping. 30 cm are 84 rows. RS rows of the left half start at its side, so it
    binds off on row 85; the right half on row 86.
    """
    done = written(HALF.format(yarns=PLAIN))
    assert errors(done) == []
    found = {one.piece: one for one in proven(done, monkeypatch)}
    counts = {name: [row.stitches for row in found[name].rows[83:86]] for name in ("back", "left-front", "right-front")}
    assert counts == {"back": [106, 98, 90], "left-front": [50, 42, 42], "right-front": [50, 50, 42]}
    assert [found[name].rows[found["left-front"].neck_row - 2].stitches for name in ("left-front", "right-front")] == [
        34,
        34,
    ]
    steps = {one.name: " ".join(one.steps) for one in printed(done.spec, done.plan, done.pattern, done.sizes).pieces}
    even = "Work 1 row in stockinette in rye."
    bind = "Next row ({}): bind off 8 sts, work to the end. 42 sts."
    assert f"{bind.format('RS')} {even}" in steps["left-front"]
    assert f"{even} {bind.format('WS')}" in steps["right-front"]


@pytest.mark.parametrize(
    ("piece", "old", "new"),
    [
        ("left-front", "Next row (RS): bind off 8 sts", "Next row (RS): bind off 7 sts"),
        ("right-front", "Next row (WS): bind off 8 sts", "Next row (RS): bind off 8 sts"),
        ("right-front", "Work 1 row in stockinette in rye.", "Work 2 rows in stockinette in rye."),
    ],
)
def test_a_half_that_binds_off_elsewhere_is_found(piece: str, old: str, new: str) -> None:
    done = written(HALF.format(yarns=PLAIN))
    page = printed(done.spec, done.plan, done.pattern, done.sizes)
    wanted = facts(done.spec, done.plan, done.sizes)
    assert prove(page, wanted) == []
    pieces = [
        replace(one, steps=tuple(step.replace(old, new) for step in one.steps)) if one.name == piece else one
        for one in page.pieces
    ]
    assert pieces != list(page.pieces)
    assert prove(replace(page, pieces=tuple(pieces)), wanted)


def test_halves_that_bind_off_unlike_each_other_are_no_mirror_images(monkeypatch: pytest.MonkeyPatch) -> None:
    """The right half's row 86 would still have its 50 stitches where it bound off on row 88."""
    done = written(HALF.format(yarns=PLAIN))
    found = {one.piece: one for one in proven(done, monkeypatch)}
    left, right = found["left-front"], found["right-front"]
    assert mirror_fault(left, right, in_colour=True) == ""
    late = list(right.rows)
    late[85] = replace(late[84], number=86, side="WS")
    fault = mirror_fault(left, replace(right, rows=tuple(late)), in_colour=True)
    assert fault == "row 86 is not the mirror image of that of the left-front"


def test_a_half_of_which_nothing_is_left_is_refused() -> None:
    """52 - 2 * 24 cm are 4 cm, which the opening of 4 cm takes away."""
    gone = HALF.format(yarns=PLAIN).replace("bind off  4 cm", "bind off  24 cm")
    assert "E410" in errors(checked(gone))


def lines(right: int, left: int, row: int = 1) -> list[str]:
    return [
        "Cast on 20 sts in rye on 3.5 mm needles.",
        "Begin chart ear on the next row (RS) with chart row 1: RS rows start at column 1, WS rows start at column 6; "
        "repeat the 6 columns across.",
        "Work 1 edge st in rye at each end of every row, outside the chart.",
        f"Next row (RS): bind off {right} sts, work in chart to the end, chart row {row}. {20 - right} sts.",
        f"Next row (WS): bind off {left} sts, work in chart to the end, chart row 2. {20 - right - left} sts.",
        "Bind off all 14 sts in rye.",
    ]


def test_the_machine_keeps_the_columns_by_hand() -> None:
    """18 sts of chart between 2 edge sts. 3 go at the right: the 4th (column 3) is the new edge st, in rye; then
    columns 4 to 6 and two more repeats, of 3 rye, 2 flour, 1 rye, and the old edge st."""
    told = lines(3, 3)
    readings = [(line, read(line).instructions[0]) for line in told]
    fabric, findings = knit("panel", "one", readings, {("ear", True): read_chart(ROWS)})
    assert not findings and fabric is not None
    rye, flour = (list(fabric.palette).index(name) for name in ("rye", "flour"))
    chart = [rye, rye, rye, flour, flour, rye]
    assert list(fabric.rows[0].colours) == [rye, *chart[3:], *chart, *chart, rye]
    assert [len(row.ops) for row in fabric.rows] == [17, 14]
    assert fabric.bound_off == 20


@pytest.mark.parametrize(
    ("told", "words"),
    [(lines(18, 2), "not so many"), (lines(3, 3, 2), "next chart row"), (lines(0, 3), "not so many")],
)
def test_what_cannot_be_bound_off_so_is_told(told: list[str], words: str) -> None:
    readings = [(line, read(line).instructions[0]) for line in told]
    fabric, findings = knit("panel", "one", readings, {("ear", True): read_chart(ROWS)})
    assert fabric is None and words in findings[0].message


def test_a_bind_off_off_by_a_stitch_is_caught() -> None:
    """A page that binds off 5 at the one side and 7 at the other ends with the same stitches, but is not the plan."""
    done = written(PANEL.format(yarns=PLAIN))
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    page, planned_facts = printed(done.spec, done.plan, done.pattern, [0]), facts(done.spec, done.plan, [0])
    assert prove(page, planned_facts) == []
    (piece,) = page.pieces
    wrong = tuple(
        line.replace("bind off 6 sts, work to the end. 74", "bind off 5 sts, work to the end. 75").replace(
            "bind off 6 sts, work to the end. 68", "bind off 7 sts, work to the end. 68"
        )
        for line in piece.steps
    )
    assert wrong != piece.steps
    assert prove(replace(page, pieces=(replace(piece, steps=wrong),)), planned_facts)


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("bind off 3 cm", "bind off 20 cm", "E410"),
        ("bind off 3 cm", "bind off 6 sts", "E405"),
        ("    work     10 cm\n    bind off 3 cm each side", "    bind off 3 cm each side", "E405"),
        ("    bind off\n", "    bind off\n    bind off\n", "E405"),
        ("    bind off 3 cm", "    work in grist on easy\n    bind off 3 cm", "E405"),
    ],
)
def test_what_is_refused(old: str, new: str, code: str) -> None:
    text = PANEL.format(yarns='    use "mill-yarns.wale"\n' if "grist" in new else PLAIN)
    assert old in text
    assert errors(checked(text.replace(old, new, 1))) == [code]


RIBBED = """wale 1

pattern "Hopper"
    use "mill-yarns.wale"

sizes one

piece panel, worked flat
    cast on  84 sts in plain
    rib      10 rows, 2x2
    bind off 5 sts each side
    work     20 rows
    bind off
"""


def test_right_above_an_edge_the_fabric_is_named() -> None:
    """The words of a row that binds off name no fabric, and a rib row goes before."""
    done = written(RIBBED)
    assert done.pattern is not None and errors(done) == []
    told = " ".join(to_text(done.pattern).split())
    assert "Continue in stockinette in rye. 6. Next row (RS): bind off 5 sts, work to the end." in told
    refute(RIBBED, "panel", "Continue in stockinette in rye.", "Continue in garter in rye.")
