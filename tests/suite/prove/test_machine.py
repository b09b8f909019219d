"""The machine on short texts that can be knitted by hand; the expected rows are written out beside them."""

from __future__ import annotations

import pytest

from wale.prove.charts import read_chart
from wale.prove.fabric import Contradiction, Fabric, Finding
from wale.prove.machine import knit
from wale.prove.reader import read, read_by_hand, select

# Four columns; from the right: row 1 a b a a, row 2 b a a a (told from the left on a WS row).
FLAT = [("Row 1 (RS)", "1 a, 1 b, 2 a"), ("Row 2 (WS)", "3 a, 1 b")]
ROUND = [("Row 1", "1 a, 1 b, 2 a"), ("Row 2", "1 b, 3 a")]
CHARTS = {("dots", True): read_chart(FLAT), ("dots", False): read_chart(ROUND)}


def work(*lines: str) -> tuple[Fabric | None, list[Finding]]:
    return knit("piece", "one", [(line, select(read(line), 0)) for line in lines], CHARTS)


def made(*lines: str) -> Fabric:
    fabric, findings = work(*lines)
    assert findings == []
    assert fabric is not None
    return fabric


def stopped(*lines: str) -> Finding:
    fabric, (finding,) = work(*lines)
    assert fabric is None
    return finding


def colours(fabric: Fabric, row: int) -> str:
    return "".join(fabric.colour(fabric.rows[row], place) for place in range(len(fabric.rows[row].ops)))


def ops(fabric: Fabric) -> list[str]:
    return [row.ops.decode() for row in fabric.rows]


CAST_ON = "Cast on 8 sts in a on 3 mm needles."
BEGIN = (
    "Begin chart dots on the next row (RS) with chart row 1: RS rows start at column 2, WS rows start at column 3; "
    "repeat the 4 columns across."
)
ONE_ROW = "Work 1 rows in chart dots, chart row 1."
EDGE = "Work 1 edge st in c at each end of every row, outside the chart."


def test_a_chart_stands_over_its_columns_with_edges_outside() -> None:
    # 6 stitches inside: columns 2 3 4 1 2 3 from the right; row 1 there is b a a a b a, row 2 is a a a b a a.
    fabric = made(CAST_ON, BEGIN, EDGE, "Work 2 rows in chart dots, chart rows 1 to 2.")
    assert [colours(fabric, 0), colours(fabric, 1)] == ["cbaaabac", "caaabaac"]
    assert [(row.side, row.start) for row in fabric.rows] == [("RS", 2), ("WS", 3)]
    assert [fabric.rows[0].column(place) for place in (1, 6)] == [1, 6]


def test_decreases_take_the_outer_stitches_and_keep_the_inner_columns() -> None:
    # Row 1: ssk takes columns 2 and 3, k2tog 2 and 3 at the other end; inside stay 3 4 1 2: a a a b.
    fabric = made(
        CAST_ON,
        BEGIN,
        EDGE,
        "Each decrease row (RS): 1 edge st, ssk, work in chart to the last 3 sts, k2tog, 1 edge st. 2 sts fewer.",
        "Work the decrease row on row 1 from here; work the other rows even in chart dots, chart "
        "rows 1 to 2: 2 rows, 6 sts.",
    )
    assert ops(fabric) == ["kLkkRk", "kkkkkk"]
    assert colours(fabric, 0) == "caaabc"
    assert [row.start for row in fabric.rows] == [3, 2]


def test_increases_go_on_with_the_columns_outwards() -> None:
    # Columns grow from 2..3 to 1..4 at the ends: a b a a a b a a on row 1.
    fabric = made(
        CAST_ON,
        BEGIN,
        EDGE,
        "Each increase row (RS): 1 edge st, m1L, work in chart to the last 1 st, m1R, 1 edge st. 2 sts more.",
        "Work the increase row on row 1 from here; work the other rows even in chart dots, chart row 1: "
        "1 rows, 10 sts.",
    )
    assert ops(fabric) == ["klkkkkkkrk"]
    assert colours(fabric, 0) == "cabaaabaac"


def test_a_wrong_side_row_is_told_from_the_left() -> None:
    fabric = made(
        CAST_ON,
        "Work 1 rows in stockinette in a.",
        "Next row (WS): increase 2 sts evenly: p1, m1p, p3, m1p, p4. 10 sts.",
    )
    # From the left: p m p p p m p p p p; from the right it is the other way round, and purls look like knits.
    assert ops(fabric) == ["kkkkkkkk", "kkkkmkkkmk"]


def test_ribs_stand_over_each_other() -> None:
    fabric = made(
        "Cast on 9 sts in a on 3 mm needles.",
        "Each rib row (RS): k1, (k1, p1) 3 times, k1, k1.",
        "Each rib row (WS): p1, (p1, k1) 3 times, p1, p1.",
        "Rib: work 2 rows in 1x1 rib, beginning with the RS rib row.",
    )
    assert ops(fabric) == ["kkpkpkpkk"] * 2


TOP = "Neck and shoulders: the next row is row 1 (RS) of the top; keep on in stockinette in a."
TEN = "Cast on 10 sts in a on 3 mm needles."


def test_short_rows_leave_the_armhole_ends_and_are_closed() -> None:
    # 10 sts, neck of 2 in the middle. Row 2 (WS) ends 1 st before the right armhole, row 3 (RS) 1 before the left.
    fabric = made(
        TEN,
        TOP,
        "Short rows: on the right shoulder at the end of row 2 (WS), on the left at the end of row 3 (RS), leave the "
        "last 1 sts unworked and turn; then on every 2nd row leave 2 sts more once.",
        "Work rows 1 to 2 with this shaping.",
        "Neck row (RS): on row 3: work until 4 sts are on the right needle (unworked ones counted), bind off the next "
        "2 sts, work to the turn.",
        "Left side: go on over the sts after the neck, the others wait.",
        "On row 7 (RS), work all 4 sts, closing the turns; put them on a holder.",
        "Right side: join the yarn at the neck edge with row 4 (WS).",
        "On row 6 (WS), work all 4 sts, closing the turns; put them on a holder.",
    )
    whole = [(row.number, row.waiting, len(row.ops), row.stitches) for row in fabric.rows if not row.part]
    # row 3: 3 of 4 on the right (1 waits), 3 of 4 on the left (1 is left)
    assert whole == [(1, 0, 10, 10), (2, 1, 9, 10), (3, 1, 6, 8)]
    left = [(row.number, row.waiting, len(row.ops)) for row in fabric.rows if row.part == "left"]
    # row 4 works 3, row 5 leaves 2 more (1 worked), row 6 works that 1, row 7 closes
    assert left == [(4, 0, 3), (5, 0, 1), (6, 0, 1), (7, 0, 4)]
    right = [(row.number, row.waiting, len(row.ops)) for row in fabric.rows if row.part == "right"]
    # row 4 (WS) leaves 1 + 2, row 5 comes back over that 1, row 6 closes
    assert right == [(4, 3, 1), (5, 3, 1), (6, 0, 4)]
    assert (fabric.held, fabric.bound_off, fabric.live) == ((4, 4), 2, 0)


def test_steps_bind_the_shoulders_off() -> None:
    # Neck first: 4 + 2 + 4. Right: 2 off on row 3 and 2 on row 5; left: on rows 4 and 6.
    fabric = made(
        TEN,
        TOP,
        "Neck row (RS): on row 1: work 4 sts, bind off the next 2 sts, work to the end of the row.",
        "Shoulders: on the right shoulder at the start of row 3 (RS), on the left at the start of row 4 (WS), bind "
        "off 2 sts; then on every 2nd row bind off 2 sts once.",
        "Left side: go on over the sts after the neck, the others wait.",
        "Right side: join the yarn at the neck edge with row 2 (WS).",
    )
    rows = [(row.part, row.number, row.stitches) for row in fabric.rows]
    assert rows == [
        ("", 1, 8),
        *[("left", 2, 4), ("left", 3, 4), ("left", 4, 2), ("left", 5, 2)],
        *[("right", 2, 4), ("right", 3, 2), ("right", 4, 2)],
    ]
    assert (fabric.held, fabric.bound_off) == ((0, 0), 10)


def test_a_neck_edge_is_bound_off_where_its_rows_start() -> None:
    fabric = made(
        TEN,
        TOP,
        "Neck row (RS): on row 1: work 4 sts, bind off the next 2 sts, work to the end of the row.",
        "Left side: go on over the sts after the neck, the others wait; at the start of RS rows, from row 3 on, bind "
        "off 1 sts once.",
        "After row 4 put the 3 sts on a holder.",
        "Right side: join the yarn at the neck edge with row 2 (WS); at the start of WS rows, from row 2 on, bind off "
        "1 sts once.",
        "After row 4 put the 3 sts on a holder.",
    )
    rows = [(row.part, row.number, row.stitches) for row in fabric.rows]
    left = [("left", 2, 4), ("left", 3, 3), ("left", 4, 3)]
    assert rows == [("", 1, 8), *left, ("right", 2, 3), ("right", 3, 3), ("right", 4, 3)]
    assert (fabric.held, fabric.bound_off) == ((3, 3), 4)


def test_a_neck_row_says_what_waits_and_what_is_bound_off() -> None:
    # The right shoulder binds off 2 of 10 on row 1; 2 of its 4 are left before the neck of 2.
    step = (
        "Shoulders: on the right shoulder at the start of row 1 (RS), on the left at the start of row 2 (WS), bind "
        "off 2 sts; then on every 2nd row bind off 2 sts once."
    )
    sides = ("Left side: go on over the sts after the neck, the others wait.",)
    sides += ("Right side: join the yarn at the neck edge with row 2 (WS).",)
    neck = "Neck row (RS): on row 1: after the shoulder's bind-off work 2 sts, bind off the next 2 sts, work to the "
    neck += "end of the row."
    assert [row.stitches for row in made(TEN, TOP, step, neck, *sides).rows] == [6, 2, 2, 2]
    other = neck.replace("after the shoulder's bind-off work", "work")
    assert "what the shoulder binds off" in stopped(TEN, TOP, step, other, *sides).message
    other = neck.replace("the end of the row", "the turn")
    assert "where the row ends" in stopped(TEN, TOP, step, other, *sides).message


def test_chart_rows_are_told_in_order_and_all() -> None:
    # Two rows in the chart: 1 2, 1 2 1 2, 1 are 7 rows.
    start = (CAST_ON, BEGIN, EDGE)
    told = "Work 7 rows in chart dots, chart rows 1 to 2, then all rows twice, then 1."
    whole = "Work 7 rows in chart dots, all chart rows 3 times, then 1."
    assert made(*start, whole).rows == made(*start, told).rows
    assert [row.chart_row for row in made(*start, told).rows] == [1, 2, 1, 2, 1, 2, 1]
    assert "5 chart rows are told for 7 rows" in stopped(*start, told.replace("twice", "once")).message
    assert "the next chart row is 1, not 2" in stopped(*start, told.replace("then 1.", "then 2.")).message


CROWN = (
    "Cast on 12 sts in a on 3 mm needles. Join to a round without twisting; mark its start.",
    "Begin chart dots on the next round with chart row 1: start at column 1 and repeat the 4 columns to the end of the "
    "round.",
    "Crown: Divide the round into 2 wedges of 6 sts and mark them; the wedges start at chart columns 1, 3.",
    "Each decrease round: in each of the 2 wedges work in chart to the last 2 sts of the wedge, k2tog. 2 sts fewer.",
    "Work the decrease round on round 1, then on every 2nd round once; work the other rounds even in chart dots, "
    "chart rows 1 to 2, then 1: 3 rounds, 8 sts.",
    "Cut the yarn, draw it through the last 8 sts and fasten off.",
)


def test_wedges_keep_their_columns() -> None:
    fabric = made(*CROWN)
    assert ops(fabric) == ["kkkkRkkkkR", "kkkkkkkkkk", "kkkRkkkR"]
    # Wedge 1 from column 1, wedge 2 from column 3; row 1 is a b a a, row 2 b a a a.
    assert [colours(fabric, row) for row in range(3)] == ["abaaa" + "aaaba", "baaab" + "aabaa", "abaa" + "aaab"]
    assert (fabric.drawn, fabric.live) == (8, 0)


@pytest.mark.parametrize(
    ("lines", "row", "why"),
    [
        ((CAST_ON, BEGIN.replace("column 3", "column 4"), EDGE, ONE_ROW), 1, "WS rows start at column 3"),
        ((CAST_ON, "Next row (RS): increase 2 sts evenly: k4, m1, k3, m1. 10 sts."), 1, "take 7 sts"),
        ((CAST_ON, "Next row (RS): increase 2 sts evenly: k4, m1, k4, m1. 11 sts."), 1, "give 10 sts"),
        ((CAST_ON, "Next row (RS): increase 1 sts evenly: k4, m1p, k4. 9 sts."), 1, "m1p does not belong"),
        ((CAST_ON, "Turning row (WS): knit. This row is the fold."), 1, "is a RS row, not a WS row"),
        ((CAST_ON, "Bind off all 9 sts in a."), 1, "there are 8 sts"),
        ((CAST_ON, "Bind off all 8 sts in a.", "Work 1 rows in stockinette in a."), 1, "no stitches on the needle"),
        ((CAST_ON, "Work 3 rounds in stockinette in a."), 1, "the work is flat"),
        (
            (CAST_ON, f"Next row (RS): decrease 1 sts evenly: {', '.join(['(k999999) 20 times'] * 2)}. 7 sts."),
            1,
            "more stitches than anybody knits",
        ),
        ((*CROWN[:2], CROWN[2].replace("1, 3", "1, 2")), 1, "wedge 2 starts at chart column 3"),
        ((*CROWN[:4], CROWN[4].replace("8 sts", "7 sts")), 4, "there are 8 sts, not 7"),
    ],
)  # fmt: skip
def test_words_that_cannot_be_worked_stop_at_their_row(lines: tuple[str, ...], row: int, why: str) -> None:
    finding = stopped(*lines)
    assert why in finding.message
    assert (finding.piece, finding.size, finding.row, finding.line) == ("piece", "one", row, lines[-1])


@pytest.mark.parametrize(
    ("rows", "why"),
    [
        ([("Row 1", "2 a"), ("Row 3", "2 a")], "row 3 of the chart stands where row 2"),
        ([("Row 1", "2 a"), ("Row 2", "2 b (as row 1)")], "row 2 is not as row 1"),
        ([("Row 1", "2 a (as row 1)")], "cannot be as row 1"),
        ([("Row 1", "2 a, 1 b"), ("Row 2", "1 a, 1 b, 1 a (as row 1)")], "row 2 is not as row 1"),
        ([("Row 1", "2 a, 1 b"), ("Row 2", "1 a, 1 b, 1 a (as row 1, begun 2 sts along)")], "begun 2 sts along"),
        ([("Row 1", "2 a"), ("Row 2", "2 a (as row 1, begun 2 sts along)")], "row 1 has no 2 sts to begin row 2 along"),
        ([("Row 1", "(2 a) 0 times")], "no stitches"),
        ([("Row 1", "(999999 a, 1 b) 999999 times")], "more stitches than anybody knits"),
        ([("Row 1", "(999999 a) 20 times"), ("Row 2", "21 a")], "more stitches than anybody knits"),
        ([], "no rows"),
    ],
)
def test_a_chart_in_words_agrees_with_itself(rows: list[tuple[str, str]], why: str) -> None:
    with pytest.raises(Contradiction, match=why):
        read_chart(rows)


def test_a_chart_row_says_again_and_how_it_relates() -> None:
    chart = read_chart(
        [("Row 1", "2 a, (1 b, 1 a) twice"), ("Row 2", "1 a, (1 b, 1 a) twice, 1 a (as row 1, begun 1 st along)")]
    )
    assert chart.rows == (tuple("aababa"), tuple("ababaa"))


@pytest.mark.parametrize("told", ["chart row 0", "chart rows 0 to 2", "all chart rows 0 times", "chart rows 0"])
def test_a_chart_has_no_row_0(told: str) -> None:
    assert "0" in stopped(CAST_ON, BEGIN, EDGE, f"Work 2 rows in chart dots, {told}.").message


def test_decreases_of_three_together_take_two_stitches_each():
    # 12 sts; sssk and k3tog leave one of three each, ssk one of two: 12 - 2 - 2 - 1 = 7; one each is a decrease's own
    lines = ["Cast on 12 sts.", "Row 1 (RS): k1, sssk, k2, k3tog, k1, ssk.", "Bind off all 7 sts."]
    fabric, _ = knit("piece", "one", [(line, select(read_by_hand(line), 0)) for line in lines], CHARTS)
    assert fabric is not None
    assert (len(fabric.rows[0].ops), fabric.deeper, fabric.bound_off) == (7, 2, 7)
