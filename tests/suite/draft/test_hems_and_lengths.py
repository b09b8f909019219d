"""Hems, ribs and lengths: what is measured from where, and on which side a section starts.

Swatches: facing 28 sts and 40 rows, plain 27 sts and 38 rows in 10 cm, easy 40 sts = 13.6 cm and 40 rows = 12.2 cm.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import checked, errors, planned

from wale.plan import PiecePlan

SHEET = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
sizes one
    measure bust 100 cm
    ease bust 0 cm
piece back, worked flat
    edge 1 st each side in rye
{lines}
    bind off
join
    seam sides, mattress stitch
"""


def piece(*lines: str) -> PiecePlan:
    return planned(sheet(*lines)).pieces[0]


def sheet(*lines: str) -> str:
    return SHEET.format(lines="\n".join(f"    {line}" for line in lines))


HEMMED = ("cast on bust/2 in facing", "hem 3 cm, folded, purl ridge", "work in grist on easy, centred", "work to 20 cm")


def test_a_facing_is_three_percent_narrower() -> None:
    """50 cm less 3 % is 48.5 cm: 135.8 sts at 2.8 a cm, 136 and 2 edge sts; above the fold 50 cm are 147.06 + 2."""
    facing, body = piece(*HEMMED).levels
    assert facing.wishes == (Fraction("48.5"),)
    assert facing.counts == (138,)
    assert body.wishes == (Fraction(50),)
    assert body.counts == (149,)  # odd: centred on a stitch


def test_a_facing_as_narrow_as_the_line_says() -> None:
    """10 %: 45 cm, 126 sts and 2."""
    lines = ("cast on bust/2 in facing, 10 percent narrower", *HEMMED[1:])
    assert piece(*lines).levels[0].counts == (128,)


@pytest.mark.parametrize("above", ["work to 20 cm", "shape to 41 cm over 20 cm"])
def test_only_the_facing_is_narrower_where_no_other_fabric_begins_above_the_fold(above: str) -> None:
    """48.5 cm are 130.95 sts, 131 and 2; above the fold 50 cm are 135 and 2: 4 more on the facing's last row.

    41 cm are 112.7 sts, 113, which has the parity of 137.
    """
    hemmed = piece("cast on bust/2 in plain", "hem 3 cm, folded, purl ridge", above)
    facing, body = hemmed.levels[:2]
    assert (facing.counts, body.counts) == ((133,), (137,))
    assert hemmed.sections[0].even_change == (4,)


@pytest.mark.parametrize(
    ("lines", "labels"),
    [
        (("hem 3 cm, folded, purl ridge",), ["cast-on", "sweep", "bust"]),
        (("rib 3 cm, 2x2", "work in plain", "work 2 cm"), ["cast-on", "sweep", "bust"]),
        (("work 3 cm",), ["sweep", "bust"]),
    ],
)
def test_a_cast_on_with_a_name_leaves_that_of_its_measure_to_the_level_above(
    lines: tuple[str, ...], labels: list[str]
) -> None:
    """Without the name the first level would be `bust`, and the shaped one `bust-2`."""
    flared = piece("cast on bust/2 + 6 cm in plain, named sweep", *lines, "shape to bust/2 over 20 cm")
    assert [level.label for level in flared.levels] == labels
    assert [level.wishes for level in flared.levels[-2:]] == [(Fraction(56),), (Fraction(50),)]


def test_without_a_hem_nothing_is_narrower() -> None:
    assert piece("cast on bust/2 in plain", "work 5 cm").levels[0].counts == (137,)  # 135 + 2


def test_the_turning_row_leaves_chart_row_1_on_the_right_side() -> None:
    """3 cm are 12 rows; with 11 or 13 the turning row is a wrong-side row, and the body starts on row 13 or 15."""
    facing, turning, body = piece(*HEMMED).sections
    assert facing.rows[0] in (11, 13) and turning.rows == (1,)
    before = facing.rows[0] + turning.rows[0]
    assert before % 2 == 0, "row 1 of the body is an odd, right-side row"
    assert body.chart_start == (0,)


def test_the_change_of_gauge_falls_on_the_last_row_below_the_fold() -> None:
    """138 sts to 149: 11 more, evenly; the turning row has the body's stitches."""
    facing, turning, body = piece(*HEMMED).sections
    assert facing.even_change == (11,)
    assert turning.even_change is None and body.even_change is None


def test_work_to_is_measured_from_the_fold() -> None:
    """20 cm at 40 rows = 12.2 cm are 65.6 rows: 66, even; the facing does not count."""
    body = piece(*HEMMED).sections[-1]
    assert body.rows == (66,)
    assert body.position == (66 * Fraction(122, 400),)
    assert body.deviation(0) == 66 * Fraction(122, 400) - 20


def test_work_to_is_measured_from_the_cast_on_where_nothing_folds() -> None:
    """A rib of 5 cm (19 rows, so 18 or 20) and the rest up to 20 cm."""
    rib, body = piece("cast on bust/2 in plain", "rib 5 cm, 2x2", "work in grist on easy", "work to 20 cm").sections
    assert rib.rows[0] in (18, 20)
    length = rib.rows[0] * Fraction(10, 38) + body.rows[0] * Fraction(122, 400)
    assert body.position == (length,)
    best = min(
        abs(a * Fraction(10, 38) - 5) ** 2 + abs(a * Fraction(10, 38) + b * Fraction(122, 400) - 20) ** 2
        for a in range(14, 26, 2)
        for b in range(30, 70, 2)
    )
    assert abs(rib.rows[0] * Fraction(10, 38) - 5) ** 2 + abs(length - 20) ** 2 == best


def test_a_plain_front_keeps_the_motif_off_the_hem() -> None:
    """The front is as deep as the facing, in the plain swatch; the motif starts above it, on a right-side row."""
    lines = (HEMMED[0], "hem 3 cm, folded, purl ridge, front in plain", *HEMMED[2:])
    facing, turning, front, body = piece(*lines).sections
    assert front.kind == "front" and front.fabric is None and front.chart_start is None
    assert front.swatch == "plain"
    assert abs(facing.length(0) - front.length(0)) <= Fraction(20, 38)  # a pair of rows
    assert (facing.rows[0] + turning.rows[0] + front.rows[0]) % 2 == 0
    assert body.chart_start == (0,)


def test_a_rib_takes_its_multiple_beside_the_edge_stitches() -> None:
    """2x2 flat: 4 k + 2, and 2 edge sts; 50 cm are 135: 134 + 2."""
    rib = piece("cast on bust/2 in plain", "rib 5 cm, 2x2", "work 5 cm")
    assert rib.levels[0].counts == (136,)
    assert (rib.levels[0].counts[0] - 2) % 4 == 2


@pytest.mark.parametrize(
    ("width", "count"),
    [
        ("26.67 cm", 72),  # 72.0 sts: just a multiple of 4
        ("27.41 cm", 72),  # 74.0 sts lie between 72 and 76: the rib is not to be the wider
        ("27.5 cm", 72),  # 74.25 sts: 76 is nearer, and would flare by 1.75 sts
        ("27.85 cm", 76),  # 75.2 sts: 76 is wider by less than a stitch, a quarter of the multiple
    ],
)
def test_a_rib_is_not_wider_than_what_it_joins(width: str, count: int) -> None:
    """In the round at 2.7 sts a cm, 2x2."""
    lines = (f"cast on {width} in plain-round", "rib 5 cm, 2x2", "work 5 cm")
    text = (
        sheet(*lines).replace("back, worked flat", "back, in the round").replace("    edge 1 st each side in rye\n", "")
    )
    plan = planned(text.replace("join\n    seam sides, mattress stitch\n", ""))
    assert plan.pieces[0].levels[0].counts == (count,)


@pytest.mark.parametrize(("rib", "step", "over"), [("1x1", 2, 1), ("2x2", 4, 2), ("3x1", 4, 3)])
def test_other_ribs(rib: str, step: int, over: int) -> None:
    count = piece("cast on bust/2 in plain", f"rib 5 cm, {rib}", "work 5 cm").levels[0].counts[0]
    assert (count - 2) % step == over % step


def test_written_rows_are_kept() -> None:
    assert piece("cast on bust/2 in plain", "work 8 rows", "work 12 rows").sections[1].rows == (12,)


def test_lines_that_do_not_reach_a_length_are_refused() -> None:
    """12 cm and then `work to` 10 cm: 2 cm too long already."""
    text = sheet("cast on bust/2 in plain", "work 46 rows", "work to 10 cm")
    assert errors(checked(text)) == ["E406"]


def test_a_length_in_a_solved_width() -> None:
    """50 cm at 27 sts in 10 cm are exactly 135 sts, so 60 - 50/2 = 35 cm: 133 rows, 132 or 134."""
    level = piece("cast on bust/2 in plain", "work 60 cm - back.bust/2")
    assert level.levels[0].width(0) == 50
    section = level.sections[0]
    assert section.wishes == (Fraction(35),)
    assert section.rows[0] in (132, 134)


def test_a_solved_width_is_what_was_got_not_what_was_wished() -> None:
    """49.9 cm are 134.73 sts: 135, so 50 cm got."""
    text = sheet("cast on 49.9 cm in plain", "work 60 cm - back.cast-on/2")
    section = planned(text).pieces[0].sections[0]
    assert section.wishes == (Fraction(35),)


def test_a_width_in_a_solved_width_is_refused() -> None:
    text = sheet("cast on bust/2 in plain", "shape to back.bust + 4 cm over 10 cm")
    assert "E304" in errors(checked(text))
