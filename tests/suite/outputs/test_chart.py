"""Charts: pixels are cells, few elements, marks that stand out, parts that cover the whole."""

from __future__ import annotations

import base64
import io
import re
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from outputs_sample import FLOUR, RYE, grist, large_chart, small_chart
from PIL import Image, ImageDraw

from wale.outputs import chart as charts
from wale.outputs import charted, marks
from wale.outputs.chart import Room
from wale.outputs.chart_grid import start_groups
from wale.outputs.ids import Ids
from wale.outputs.setting import Setting
from wale.pattern import Chart, ChartColour, ChartStart
from wale.stitches import TEXTURE
from wale.write.charts import mark
from wale.write.whole_charts import SHAPINGS

PAGE = Room(168.0, 200.0, 4.6)


def pixels(svg: str) -> Image.Image:
    found = re.search(r'href="data:image/png;base64,([^"]+)"', svg)
    assert found
    return Image.open(io.BytesIO(base64.b64decode(found[1])))


def size_of(svg: str, tag: str) -> tuple[float, float]:
    found = re.search(rf'<{tag}[^>]* width="([\d.]+)(?:mm)?" height="([\d.]+)', svg)
    assert found
    return float(found[1]), float(found[2])


def numbers(svg: str) -> list[str]:
    return re.findall(r">(\d+)</text>", svg)


@settings(deadline=None, derandomize=True)
@given(
    st.integers(1, 12).flatmap(
        lambda n: st.lists(st.lists(st.integers(-1, 2), min_size=n, max_size=n), min_size=1, max_size=12)
    ),
    st.integers(1, 3),
)
def test_each_cell_is_a_square_of_pixels_in_its_colour(rows: list[list[int]], scale: int) -> None:
    colours = ("#8a5a2b", "#efe6d2", "#102030")
    image = Image.open(io.BytesIO(charts.picture(tuple(map(tuple, rows)), colours, scale)))
    assert image.mode == "P"
    assert image.size == (len(rows[0]) * scale, len(rows) * scale)
    plain = image.convert("RGB")
    for x in range(image.width):
        for y in range(image.height):
            cell = rows[len(rows) - 1 - y // scale][x // scale]
            wanted = "#ffffff" if cell < 0 else colours[cell]
            assert "#{:02x}{:02x}{:02x}".format(*plain.getpixel((x, y))) == wanted  # type: ignore[misc]


def test_a_small_chart_is_one_tile_with_cells_true_to_the_gauge() -> None:
    (tile,) = charts.tiles(small_chart(), PAGE, "c")
    assert (tile.columns, tile.rows) == ((1, 24), (1, 28))
    wide, tall = size_of(tile.svg, "image")
    assert (wide / 24) / (tall / 28) == pytest.approx(0.9, abs=0.001)
    assert tile.width <= PAGE.width
    assert tile.height <= PAGE.height


def test_never_one_element_a_cell() -> None:
    elements = sum(tile.svg.count("<") for tile in charts.tiles(large_chart(), PAGE, "c"))
    # 19,200 cells; two tags for each of the texts, mostly row numbers: 160 a strip of tiles, two strips.
    assert elements < 1000


def test_tiles_of_a_large_chart_cover_each_cell_once_and_keep_two_millimetres() -> None:
    chart = large_chart()
    tiles = charts.tiles(chart, PAGE, "c")
    covered = [
        (c, r)
        for tile in tiles
        for c in range(tile.columns[0], tile.columns[1] + 1)
        for r in range(tile.rows[0], tile.rows[1] + 1)
    ]
    assert sorted(covered) == [(c, r) for c in range(1, 121) for r in range(1, 161)]
    for tile in tiles:
        wide, tall = size_of(tile.svg, "image")
        assert wide / (tile.columns[1] - tile.columns[0] + 1) >= 2.0 - 0.01
        assert tall / (tile.rows[1] - tile.rows[0] + 1) >= 2.0 - 0.01
        assert tile.width <= PAGE.width + 0.01
        assert tile.height <= PAGE.height + 0.01


@settings(deadline=None, max_examples=50, derandomize=True)
@given(st.integers(1, 300), st.integers(1, 300), st.floats(0.5, 1.6), st.booleans())
def test_tiles_fit_their_room_whatever_the_chart(columns: int, rows: int, ratio: float, flat: bool) -> None:
    chart = Chart("Mill", ((0,) * columns,) * rows, (RYE,), ratio, flat, (1, 1, 1, 1))
    tiles = charts.tiles(chart, PAGE, "c")
    assert max(tile.width for tile in tiles) <= PAGE.width + 0.01
    assert max(tile.height for tile in tiles) <= PAGE.height + 0.01
    cells = sum((t.columns[1] - t.columns[0] + 1) * (t.rows[1] - t.rows[0] + 1) for t in tiles)
    assert cells == columns * rows


def test_a_tile_shows_the_cells_of_its_columns_counted_from_the_right() -> None:
    # Three columns need three tiles of one: the first shows the rightmost cell of the page.
    chart = Chart("Mill", ((0, 1, 2),), (RYE, FLOUR, ChartColour("bran", "#c59a5f", "x")), 1.0, False, (1, 3, 1, 1))
    tiles = charts.tiles(chart, Room(8.0, 40.0, 4.0, least=4.0), "c")
    shown = [pixels(tile.svg).convert("RGB").getpixel((0, 0)) for tile in tiles]
    assert shown == [(0xC5, 0x9A, 0x5F), (0xEF, 0xE6, 0xD2), (0x8A, 0x5A, 0x2B)]


def test_flat_rows_are_numbered_where_they_start() -> None:
    chart = Chart("Mill", ((0,) * 4,) * 4, (RYE,), 1.0, True, (1, 4, 1, 4))
    (tile,) = charts.tiles(chart, PAGE, "c")
    sides = dict(re.findall(r'text-anchor="(start|end|middle)">(\d+)<', tile.svg)[::-1])
    ends = {int(n): side for side, n in re.findall(r'text-anchor="(start|end)">(\d+)<', tile.svg)}
    assert ends == {1: "start", 2: "end", 3: "start", 4: "end"}
    assert sides["middle"] == "1"
    (ring,) = charts.tiles(replace(chart, flat=False), PAGE, "c")
    assert {s for s, _ in re.findall(r'text-anchor="(start|end)">(\d+)<', ring.svg)} == {"start"}


def test_starts_are_grouped_by_column_from_the_right() -> None:
    starts = tuple(
        ChartStart(text, column)
        for text, column in (("back S, L; front S, L", 7), ("back M", 1), ("sleeve S (row 5)", 7), ("Cuff", 2))
    )
    groups = start_groups(replace(small_chart(), starts=starts))
    assert [(g.letter, g.column, g.text) for g in groups] == [
        ("a", 1, "back M"),
        ("b", 2, "Cuff"),
        ("c", 7, "back S, L; front S, L; sleeve S (row 5)"),
    ]


def test_only_the_colours_that_occur_are_listed() -> None:
    chart = replace(small_chart(), rows=((1, 1), (1, -1)))
    assert charts.occurring(chart) == (-1, 1)


def test_the_mark_stands_out_on_its_cell() -> None:
    # 3:1 is the least contrast of a graphic that carries meaning: WCAG 2.2, 1.4.11.
    for level in range(0, 256, 5):
        colour = "#" + f"{level:02x}" * 3
        assert marks.contrast(marks.pen(colour), colour) >= 3


def test_contrast_of_black_and_white_is_twenty_one() -> None:
    assert marks.contrast("#000000", "#ffffff") == pytest.approx(21)


def test_each_mark_gets_a_shape_of_its_own() -> None:
    assert marks.shapes(("", "x", "dot", "?")) == ("", "cross", "dot", "ring")
    assert len(set(marks.shapes("?!§$"))) == 4


def test_each_stitch_of_a_texture_has_a_shape_of_its_own() -> None:
    """Those of one cell; a cable looks alike whatever its number. One that had no shape would be a dot."""
    asked = [stitch.mark for stitch in TEXTURE.values() if stitch.mark and stitch.together == 1]
    alone = [marks.shapes((one,))[0] for one in asked]
    assert "dot" not in alone and len(set(alone)) == len(asked) and marks.shapes(asked) == tuple(alone)


def test_colours_and_their_shapings_never_share_a_mark() -> None:
    """A hundred and fifty yarns, each plain and in all five shapings: no sign stands for two of the 900 cells."""
    yarns = [mark(number) for number in range(150)]
    cells = [*yarns, *(f"{shaping} {yarn}".strip() for shaping in SHAPINGS.values() for yarn in yarns)]
    assert cells[0] == "" and len(set(cells)) == len(cells) == 900
    drawn = marks.shapes(cells)
    assert drawn == marks.shapes(drawn) and len(set(drawn)) == len(drawn)


def test_signs_stay_apart_in_grey_at_the_size_of_the_smallest_cells() -> None:
    """As in a picture of many cells, black on white: two differ by more than half of the ink of the paler one."""
    shades = {}
    for shape in marks.shapes([*(mark(number) for number in range(1, 11)), *SHAPINGS.values()]):
        image = Image.new("RGB", (40, 40), "#ffffff")
        marks.draw(ImageDraw.Draw(image), shape, "#ffffff", (20, 20), 20, 1.7)
        shades[shape] = [255 - value for value in image.convert("L").resize((10, 10), Image.Resampling.BOX).tobytes()]
    assert len(shades) == 15
    for one, other in combinations(shades.values(), 2):
        apart = sum(abs(a - b) for a, b in zip(one, other, strict=True))
        assert apart > min(sum(one), sum(other)) / 2


def test_marks_that_are_alike_are_told_apart() -> None:
    found = marks.shapes(("x", "×", "", "", "dot dot", "X"))
    assert found[0] == "cross" and found[2:5] == ("", "", "dot dot")
    assert len(set(found)) == 5


def test_the_picture_is_named_and_described() -> None:
    (tile,) = charts.tiles(small_chart(), PAGE, "grist")
    assert '<title id="grist-title">Chart Grist: 24 stitches, 28 rows</title>' in tile.svg
    assert "Colours: rye, flour." in tile.svg


def test_a_very_large_chart_has_its_marks_in_the_picture() -> None:
    # 160 by 160 cells, flour (with a dot) in every other column: no paths of marks, a dark dot in flour's only.
    # Of lines, repeat and joints there are seven paths at most in a part.
    chart = Chart("Mill", ((0, 1) * 80,) * 160, (RYE, FLOUR), 1.0, True, (1, 2, 1, 2))
    tiles = charts.tiles(chart, PAGE, "c")
    assert sum(tile.svg.count("<path") for tile in tiles) <= 7 * len(tiles)
    image = pixels(tiles[0].svg).convert("RGB")
    rye, flour = ((image.getpixel((x + 5, 5)), image.getpixel((x + 1, 1))) for x in (0, 10))
    assert rye[0] == rye[1] == (0x8A, 0x5A, 0x2B)
    assert flour[1] == (0xEF, 0xE6, 0xD2)
    assert sum(flour[0]) < 200  # type: ignore[arg-type]


def test_of_very_many_rows_every_fifth_is_numbered() -> None:
    chart = Chart("Mill", ((0,) * 4,) * 203, (RYE,), 1.0, True, (1, 4, 1, 4))
    found = [int(n) for tile in charts.tiles(chart, PAGE, "c") for n in re.findall(r'"(?:start|end)">(\d+)<', tile.svg)]
    # Rows that two parts have in common are numbered in both.
    assert sorted(set(found)) == [1, *range(5, 201, 5), 203]


def test_fine_cells_are_lined_at_tens_and_numbered_where_there_is_room() -> None:
    # 168 mm less two gutters of four digits (2 x 6.69) leave 154.6 for 1000 columns: 0.155 mm, 0.172 mm tall at 0.9.
    # A number is 2.4 mm tall and takes 5.1 across: every fiftieth of either, and the first: 2 x 21.
    chart = Chart("Sky", grist(1000, 1000), (RYE, FLOUR), 0.9, True, (1, 12, 1, 28))
    room = charts.Room(168, 226, 4.6, least=0.01)
    (tile,) = charts.tiles(chart, room, "sky")
    assert charts.parts(chart, room) == 1
    assert tile.svg.count("<text") == 42
    # Lines at 0, 10 ... 1000 both ways.
    lines = re.findall(r'<path d="([^"]*)" fill="none" stroke="#(?:8c8c8c|333333)"', tile.svg)
    assert sum(path.count("M") for path in lines) == 2 * 101


def test_parts_are_counted_without_drawing_them() -> None:
    chart = Chart("Sky", grist(160, 120), (RYE, FLOUR), 0.9, True, (1, 12, 1, 28))
    assert charts.parts(chart, PAGE) == len(charts.tiles(chart, PAGE, "sky"))


def test_a_chart_of_many_pages_fills_them_and_has_its_legend_first() -> None:
    """175 columns of 2.23 mm at least are 390 mm, three parts; 197 rows of 2.3 / 1.115 = 2.06 mm are 406 mm, two."""
    notes = ("A note.",) * 6
    chart = replace(large_chart(), rows=grist(197, 175), cell_ratio=1.115, notes=notes)
    made = charted.make(chart, "back", Ids(), Setting("a4"))
    assert len(made["tiles"]) == 3 * 2
    assert all(200 < tile.height <= 226 for tile, _ in made["tiles"])
    assert made["is_legend_first"]
    common = charted.make(small_chart(), "grist", Ids(), Setting("a4"))
    assert len(common["tiles"]) == 1 and not common["is_legend_first"]
