"""An old outline over the new one, true to scale, and changed cells framed: those alone, each by itself."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from outputs_sample import millrace

from wale.outputs import chart, chart_grid, html, schematic, text
from wale.outputs.chart_grid import Grid
from wale.pattern import Chart, ChartColour, Charts, Dimension, Pattern, Schematic, Section

SVG = "{http://www.w3.org/2000/svg}"
RYE, FLOUR = ChartColour("rye", "#8a5a2b", ""), ChartColour("flour", "#efe6d2", "dot")
GRAIN = Chart("Grain, old", ((0, 0, 1), (0, 1, 0)), (RYE, FLOUR), 1.0, True, (1, 3, 1, 2), changed=((1, 1), (2, 2)))


def box(half: float, tall: float) -> tuple[tuple[float, float], ...]:
    return ((half, 0.0), (half, tall), (-half, tall), (-half, 0.0))


# 52 cm became 50: each side moves by 1 cm, and the upper edge by 3 cm.
BODY = Schematic(
    "Back",
    "M",
    box(25, 40),
    (),
    (Dimension("A", "bust", (-25.0, 20.0), (25.0, 20.0), ("52.0", "50.0", "-2.0")),),
    before=box(26, 37),
)


def polygons(picture: str) -> list[list[tuple[float, float]]]:
    root = ElementTree.fromstring(picture)
    return [
        [tuple(map(float, pair.split(","))) for pair in (one.get("points") or "").split()]  # type: ignore[misc]
        for one in root.iter(f"{SVG}polygon")
    ]


def test_both_outlines_have_one_scale_centre_line_and_lower_edge() -> None:
    # The larger of both takes 150 mm less six lanes of 5.4 mm across, 120 mm less four up: 117.6 / 52 and 98.4 / 40.
    scale = min(117.6 / 52, 98.4 / 40)
    new, old = polygons(schematic.render(BODY, "back"))
    moved = [(x - ox, y - oy) for (x, y), (ox, oy) in zip(new, old, strict=True)]
    assert [x for x, _ in moved] == pytest.approx([-scale, -scale, scale, scale], abs=0.02)
    assert [y for _, y in moved] == pytest.approx([0, -3 * scale, -3 * scale, 0], abs=0.02)
    assert new[0][0] - new[3][0] == pytest.approx(50 * scale, abs=0.02)


def test_the_outlines_differ_in_kind_of_line_and_a_key_tells_which_is_which() -> None:
    picture = schematic.render(BODY, "back")
    new, old = ElementTree.fromstring(picture).iter(f"{SVG}polygon")
    assert new.get("stroke-dasharray") is None and old.get("stroke-dasharray")
    assert float(old.get("stroke-width") or 0) < float(new.get("stroke-width") or 0)
    words = [one.text for one in ElementTree.fromstring(picture).iter(f"{SVG}text")]
    assert words == ["A bust 52.0, now 50.0", "new", "old"]
    assert "bust was 52.0, is 50.0" in picture


def test_without_an_old_outline_a_schematic_has_neither_key_nor_second_line() -> None:
    picture = schematic.render(replace(BODY, before=()), "back")
    assert len(polygons(picture)) == 1
    assert ">old<" not in picture


def test_an_old_outline_alone_is_no_trouble_without_measures() -> None:
    told = text.render(page(replace(BODY, dimensions=())))
    assert "Back" in told
    assert "<table" not in html.render(page(replace(BODY, dimensions=())))


def page(*parts: Schematic | Charts) -> Pattern:
    return replace(millrace(), drawing=None, sections=(Section("what", "What", parts),))


def test_the_table_tells_old_new_and_change() -> None:
    shown = html.render(page(BODY))
    heads = re.findall(r'<th scope="col"[^>]*>([^<]*)</th>', shown)
    assert heads == ["Letter", "Measure", "old", "new", "change"]
    assert re.findall(r'<td class="figures">([^<]*)</td>', shown) == ["52.0", "50.0", "-2.0"]
    assert "A bust  52.0  50.0    -2.0" in text.render(page(BODY))


CELLS = st.sets(st.tuples(st.integers(1, 5), st.integers(1, 6)))


@given(CELLS, st.booleans())
def test_each_changed_cell_has_a_frame_of_its_own_inside_it(cells: set[tuple[int, int]], from_left: bool) -> None:
    grid = Grid((1, 6), (1, 5), 2.0, 1.0, 0.0, 0.0, from_left=from_left)
    drawn = chart_grid.changed(cells, grid)
    frames = re.search(r'class="changed" d="([^"]*)"', drawn)
    boxes = [
        tuple(map(float, one)) for one in re.findall(r"M(\S+?) (\S+?)H(\S+?)V(\S+?)H\S+?z", frames[1] if frames else "")
    ]
    middles = {((left + right) / 2, (high + low) / 2) for left, high, right, low in boxes}
    # a cell is 2 mm by 1 mm; column 1 lies at the right (at the left for the left hand), row 1 below
    assert middles == {(2 * column - 1.0 if from_left else 13.0 - 2 * column, 5.5 - row) for row, column in cells}
    assert len(boxes) == len(cells)
    assert all(right - left < 2 and low - high < 1 for left, high, right, low in boxes)


def test_frames_beyond_a_part_of_the_chart_are_left_out() -> None:
    assert chart_grid.changed([(9, 1), (1, 9)], Grid((1, 6), (1, 5), 1.0, 1.0, 0.0)) == ""


def test_charts_stand_side_by_side_each_with_its_name_and_key() -> None:
    shown = html.render(page(Charts("Grain", "Compare.", (GRAIN, replace(GRAIN, name="Grain, new")))))
    assert re.findall(r"<h4[^>]*>([^<]*)</h4>", shown) == ["Grain, old", "Grain, new"]
    assert shown.count("</svg> changed</li>") == 2
    ids = re.findall(r' id="([^"]*)"', shown)
    assert len(ids) == len(set(ids))


def test_a_chart_says_how_many_cells_change() -> None:
    assert "2 cells that change are framed." in chart.describe(GRAIN)
    assert "1 cell that changes is framed." in chart.describe(replace(GRAIN, changed=((1, 1),)))
    assert "framed" not in chart.describe(replace(GRAIN, changed=()))
    told = text.render(page(Charts("Grain", "Compare.", (GRAIN,))))
    assert "Grain. Compare." in told and "Chart Grain, old: 3 stitches, 2 rows." in told
