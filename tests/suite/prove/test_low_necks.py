"""Necks that begin before the sides are shaped: beside them is knitted what the back has, whose neck is high."""

from __future__ import annotations

import re

import pytest
from prove_corruptions import refute
from support import EXAMPLES, checked, codes, errors, written
from test_floats_proven import knitted as proven

from wale.outputs.text import render as to_text
from wale.prove.fabric import LEFT_DEC, RIGHT_DEC, Fabric, Row
from wale.prove.joins import yarns_of

VEST = (EXAMPLES / "hopper-vest.wale").read_text("utf-8").replace("vee      = neck-width", "vee      = 22 cm")
ANY_ROW = (
    VEST.replace("over 2 * underarm,", "over underarm, on any row,")
    .replace("1 st each", "2 sts each")
    .replace("22 cm", "27 cm")
)
CARDIGAN = (EXAMPLES / "sluice-cardigan.wale").read_text("utf-8").replace("min(neck-width, 16 cm) deep", "26 cm deep")
PLAIN_VEST = """wale 1

pattern "Hopper"
    use "mill-yarns.wale"

sizes S
    measure bust 80 cm

piece back, worked flat
    edge      1 st each side in rye
    cast on   80 sts in plain
    work      100 rows
    mark      underarm
    bind off  6 sts each side
    shape     to 52 sts over 20 rows
    work      60 rows
    neck      20 sts wide, 6 rows deep
    shoulders slope 4 rows, short rows

piece front, as back
    neck 20 sts wide, 72 rows deep, V

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
"""


def in_words(text: str) -> str:
    done = written(text)
    assert done.pattern is not None and errors(done) == []
    return " ".join(to_text(done.pattern).split())


def beside(row: Row, back: Row, end: str, keep: int) -> None:
    """Hold the outer stitches of a part against those of the whole row of the back, worked at the same height."""
    mine = slice(0, keep) if end == "right" else slice(len(row.ops) - keep, None)
    other = slice(0, keep) if end == "right" else slice(len(back.ops) - keep, None)
    assert row.ops[mine] == back.ops[other] and row.side == back.side and row.chart_row == back.chart_row


def held_against_the_back(front: Fabric, back: Fabric) -> set[str]:
    """Give at which ends a stitch was decreased beside the neck; each part runs as the back does."""
    shaped: set[str] = set()
    for row in front.rows[front.neck_row :]:
        other = back.rows[row.number - 1] if row.number <= len(back.rows) else None
        if other is None or other.part or row.number >= back.neck_row or row.waiting or row.gone:
            continue
        # inside the neck's own edge stitch and decrease the part runs as the back does
        keep = len(row.ops) - 3
        beside(row, other, row.part, keep)
        worn, whole = yarns_of(front, row), yarns_of(back, other)
        assert (worn if row.part == "right" else worn[::-1])[:-3] == (whole if row.part == "right" else whole[::-1])[
            :keep
        ]
        outer = row.ops[: keep // 2] if row.part == "right" else row.ops[-(keep // 2) :]
        shaped |= {row.part} if {LEFT_DEC, RIGHT_DEC} & set(outer) else set()
    return shaped


@pytest.mark.parametrize("text", [VEST, ANY_ROW], ids=["right-side rows", "any row"])
def test_both_sides_are_shaped_and_coloured_as_the_back_is(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    done = written(text)
    assert done.plan is not None and errors(done) == []
    fabrics = {(one.piece, one.size): one for one in proven(done, monkeypatch)}
    for size in done.plan.sizes:
        found = held_against_the_back(fabrics["front", size], fabrics["back", size])
        assert found == {"left", "right"}


def test_halves_are_shaped_as_the_back_is_and_marked_at_its_underarm(monkeypatch: pytest.MonkeyPatch) -> None:
    """The left half lies at the right of the back's rows, the right half at their left, whose V begins a row later."""
    done = written(CARDIGAN)
    assert done.plan is not None and codes(done) == []
    fabrics = {(one.piece, one.size): one for one in proven(done, monkeypatch)}
    below = 0
    for size in done.plan.sizes:
        back = fabrics["back", size]
        for name, end in (("left-front", "right"), ("right-front", "left")):
            half = fabrics[name, size]
            assert half.marks == back.marks
            below += dict(half.marks)["underarm"] > half.neck_row
            for row, other in zip(half.rows, back.rows[: back.neck_row - 1], strict=False):
                if row.number < half.neck_row or len(other.ops) < other.stitches:
                    continue
                keep, way = len(row.ops) - 3, 1 if end == "right" else -1
                beside(row, other, end, keep)
                assert yarns_of(half, row)[::way][:keep] == yarns_of(back, other)[::way][:keep]
    assert below


def test_its_words_by_hand() -> None:
    """182 rows below the shoulder's end; the V's 72 rows begin with row 111, the 9th of the 20 rows that shape.

    80 - 12 sts are 68, and 8 decreases lead to 52: 10 pairs of rows are 6 of one pair and 2 of two, so they stand on
    rows 1, 3, 5, 7, 9, 11, 15 and 19 of the 20. Of these 1, 3, 5 and 7 lie below the neck: 60 sts. Rows 9, 11, 15, 19
    are rows 1, 3, 7 and 11 of the top. On its row 1 there are 60 sts, 2 at the point and 29 at each side: one at the
    edge, two that are decreased to one, and 26 more.
    """
    told = in_words(PLAIN_VEST)
    front = told[told.index("Front Worked flat") :]
    assert (
        "Work the decrease row on row 1 from here, then on every 2nd row 3 times; work the other rows even in "
        "stockinette in rye: 8 rows, 60 sts." in front
    )
    assert (
        "Neck row (RS): on row 1: 1 edge st, ssk, work 26 sts, bind off the next 2 sts, work to the last 3 sts, k2tog, "
        "1 edge st." in front
    )
    steps = "on row 3, then on every 4th row twice."
    assert f"Left side edge: at the same time, at the end of RS rows work k2tog, 1 edge st: {steps}" in front
    assert f"Right side edge: at the same time, at the start of RS rows work 1 edge st, ssk: {steps}" in front


def test_the_sides_are_told_once_where_the_neck_begins_below_the_bind_off() -> None:
    """84 rows of depth: the top begins 20 rows above the 80th; its rows 3 and 4 bind off 6 sts, and it is marked."""
    told = in_words(PLAIN_VEST.replace("72 rows deep", "84 rows deep"))
    front = told[told.index("Front Worked flat") :]
    assert "bind off 6 sts, work to the end" not in front
    left = re.search(r"Left side edge: at the same time, (.+?)\. [0-9]+\. ", front)
    assert left is not None
    assert left[1] == (
        "after row 2 mark it: underarm; then at the start of row 4 (WS) bind off 6 sts; then at the end of RS rows "
        "work k2tog, 1 edge st: on row 5, then on every 2nd row 5 times, then on every 4th row twice"
    )


def test_a_neck_begins_no_lower_than_its_fabric() -> None:
    done = checked(VEST.replace("vee      = 22 cm", "vee      = 56 cm"))
    (found,) = [one for one in done.problems if one.is_error]
    assert found.code == "E401" and "lines below the neck are" in found.help


def test_a_boat_neck_in_words_by_hand() -> None:
    """27 sts in 10 cm: 2.5 cm are 7, so 20 - 7 = 13, made even 14, are the centre; 6 rows hold one step, of 3 sts."""
    back = in_words(PLAIN_VEST.replace("20 sts wide, 6 rows deep", "20 sts wide, 6 rows deep, boat"))
    assert "work 19 sts, bind off the next 14 sts, work to the end of the row." in back
    assert "at the start of RS rows, from row 3 on, bind off 3 sts once." in back


def test_a_scoop_in_words_by_hand() -> None:
    """10 of 20 sts are the centre, 5 a side: 3 on every 2nd row, 2 on every 4th; 30 rows hold 13 pairs."""
    told = in_words(PLAIN_VEST.replace("72 rows deep, V", "30 rows deep, scoop"))
    assert "work 21 sts, bind off the next 10 sts, work to the end of the row." in told
    steps = "on row 3, then on every 2nd row twice, then on every 4th row twice."
    assert f"at the start of RS rows work 1 edge st, ssk: {steps}" in told
    assert f"at the start of WS rows work 1 edge st, p2tog: {steps.replace('row 3', 'row 2')}" in told


@pytest.mark.parametrize("form", ["26 cm deep, scoop", "26 cm deep, round", "12 cm deep, scoop", "3 cm deep, boat"])
def test_halves_of_every_form_are_proven(form: str) -> None:
    done = written(CARDIGAN.replace("26 cm deep, V", form))
    assert done.proof is not None and errors(done) == []


def test_a_neck_has_one_form() -> None:
    (found,) = checked(PLAIN_VEST.replace("72 rows deep, V", "72 rows deep, scoop, boat")).problems
    assert found.code == "E204" and "`scoop` and `boat`" in found.labels[0].text


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("on row 1: 1 edge st, ssk", "on row 1: 1 band st, ssk"),
        ("last 3 sts, k2tog, 1 edge st", "last 3 sts, k2tog, 1 band st"),
        ("at the end of RS rows work k2tog, 1 edge st", "at the end of RS rows work k2tog, 1 band st"),
        ("start of RS rows work 1 edge st, ssk: on row 3", "start of RS rows work 2 edge sts, ssk: on row 3"),
    ],
)
def test_a_wrong_word_at_the_sides_is_found(old: str, new: str) -> None:
    refute(PLAIN_VEST, "front", old, new)


def test_a_side_that_is_too_narrow_for_both_decreases_is_refused() -> None:
    """68 sts become 30 in 19 decreases, the last on the 139th of 200 rows. A scoop of 24 sts in 80 rows begins on the
    121st; its sides lose 6, on its rows 3, 5, 7, 11, 15 and 19, the 139th. There 5 sts become the 3 of a shoulder, and
    a decrease inside an edge stitch at either end takes 6. Four rows lower the neck is done before."""
    text = PLAIN_VEST.replace("to 52 sts over 20 rows", "to 30 sts over 38 rows").replace(
        "slope 4 rows", "slope 2 rows"
    )
    text = text.replace("20 sts wide", "24 sts wide")
    (found,) = [one for one in checked(text.replace("72 rows deep, V", "80 rows deep, scoop")).problems if one.is_error]
    assert (found.code, found.size) == ("E401", "S")
    assert found.message == "row 19 of the top of front decreases over 6 sts, and 5 sts are left of a side"
    assert errors(written(text.replace("72 rows deep, V", "84 rows deep, scoop"))) == []
