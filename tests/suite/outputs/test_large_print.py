"""Large print: no type below 18 point, chart cells no smaller than it, nothing cut, every figure still there."""

from __future__ import annotations

import io
import re
from html import unescape
from typing import Any

import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outputs_sample import FLOUR, RYE, grist, millrace

from wale.outputs import chart_grid, charted, document, html, pdf, schematic, tabled
from wale.outputs.chart import Room, parts, tiles
from wale.outputs.ids import Ids
from wale.outputs.setting import LARGE_MM, LARGE_PT, Setting
from wale.outputs.svg import text_width
from wale.pattern import Chart, Schematic, Table

PAPER = Setting("a4", is_large=True)


def test_the_least_type_is_that_of_the_guideline() -> None:
    # American Council of the Blind, Large Print Guidelines (2022): 18 point; a point is 1/72 of 25.4 mm.
    assert LARGE_PT == 18
    assert pytest.approx(18 * 25.4 / 72) == LARGE_MM


def largeness(svg: str) -> float:
    """How many mm on the page a unit of a picture is."""
    found = re.search(r' width="([\d.]+)mm"[^>]* viewBox="0 0 ([\d.]+) ', svg)
    assert found
    return float(found[1]) / float(found[2])


def chart(columns: int, rows: int, ratio: float = 0.9, *, flat: bool = True) -> Chart:
    return Chart("Mill", grist(rows, columns), (RYE, FLOUR), ratio, flat, (1, 12, 1, 28))


@settings(deadline=None, max_examples=40, derandomize=True)
@given(st.integers(1, 90), st.integers(1, 90), st.floats(0.6, 1.5), st.booleans())
def test_numbers_and_cells_of_a_chart_are_as_large_as_the_type(
    columns: int, rows: int, ratio: float, flat: bool
) -> None:
    made = charted.make(chart(columns, rows, ratio, flat=flat), "c", Ids(), PAPER)
    for tile, svg in made["tiles"]:
        by = largeness(svg)
        for size in re.findall(r'<text [^>]*font-size="([\d.]+)"', svg):
            assert float(size) * by >= (LARGE_MM if flat else min(LARGE_MM, tile.height)) - 0.02
        wide, tall = re.search(r'<image [^>]* width="([\d.]+)" height="([\d.]+)"', svg).groups()  # type: ignore[union-attr]
        image = [int(n) for n in re.findall(r"\d+", tile_shown(svg))]
        assert float(wide) * by / image[0] >= LARGE_MM - 0.05
        assert float(tall) * by / image[1] >= LARGE_MM - 0.05
        assert tile.width <= 168.01 and tile.height <= 212.01


def tile_shown(svg: str) -> str:
    """Cells that the picture shows, across and up, by its pixels: four to a cell."""
    from base64 import b64decode

    from PIL import Image

    found = re.search(r'href="data:image/png;base64,([^"]+)"', svg)
    assert found
    image = Image.open(io.BytesIO(b64decode(found[1])))
    return f"{image.width // 4} {image.height // 4}"


@settings(deadline=None, max_examples=60, derandomize=True)
@given(st.integers(1, 200), st.integers(1, 120), st.sampled_from([0.8, 1.0, 1.2]))
def test_parts_cover_each_cell_once_and_show_two_of_the_next_beyond_the_joint(
    columns: int, rows: int, ratio: float
) -> None:
    room = Room(168.0, 194.0, 8.0, LARGE_MM, LARGE_MM / 2.4)
    found = tiles(chart(columns, rows, ratio), room, "c")
    assert len(found) == parts(chart(columns, rows, ratio), room)
    own = [
        (c, r)
        for tile in found
        for c in range(tile.columns[0], tile.columns[1] + 1)
        for r in range(tile.rows[0], tile.rows[1] + 1)
    ]
    assert sorted(own) == [(c, r) for c in range(1, columns + 1) for r in range(1, rows + 1)]
    for tile in found:
        across, up = map(int, tile_shown(tile.svg).split()) if columns * rows <= 20_000 else (0, 0)
        left, right = min(columns, tile.columns[1] + 2), max(1, tile.columns[0] - 2)
        top, bottom = min(rows, tile.rows[1] + 2), max(1, tile.rows[0] - 2)
        if across:
            assert (across, up) == (left - right + 1, top - bottom + 1)
        assert tile.svg.count("stroke-dasharray") == bool(tile.joins)


def test_parts_say_where_they_go_on() -> None:
    # Two across and two up; the second part is the left one, the third stands above the first.
    found = tiles(chart(30, 30), Room(168.0, 194.0, 8.0, LARGE_MM, LARGE_MM / 2.4), "c")
    assert [tile.joins for tile in found] == [
        (("left", 2), ("above", 3)),
        (("right", 1), ("above", 4)),
        (("left", 4), ("below", 1)),
        (("right", 3), ("below", 2)),
    ]
    assert all(tile.pale for tile in found)


words = st.text("abcdef 0123456789.", min_size=1, max_size=14)


@settings(deadline=None, max_examples=80, derandomize=True)
@given(st.integers(1, 9).flatmap(lambda n: st.lists(st.lists(words, min_size=n, max_size=n), min_size=2, max_size=6)))
def test_a_wide_table_is_printed_in_parts_that_lose_nothing(rows: list[list[str]]) -> None:
    header, *cells = [tuple(row) for row in rows]
    table = Table("Measures", header, tuple(cells), "Washed.")
    found = tabled.in_parts(table)
    assert all(one.rows and [row[0] for row in one.rows] == [row[0] for row in cells] for one in found)
    for place, row in enumerate((header, *cells)):
        said = [cell for one in found for cell in (one.header, *one.rows)[place][1:]]
        assert said == list(row[1:])
    assert [one.note for one in found] == [""] * (len(found) - 1) + ["Washed."]
    for one in found if len(header) > 2 else ():
        figures = tabled.figure_columns(one)
        # 168 mm are 26.4 em of 18 point; figures never wrap, and a lone column has no one to share with.
        least = sum(
            max(text_width(row[i], 1) for row in (one.header, *one.rows))
            for i in range(1, len(one.header))
            if figures[i]
        )
        assert least <= 26.4 or len(one.header) == 2


@pytest.fixture(scope="module")
def reader() -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf.render(millrace(), epoch=1_700_000_000, is_large=True)))


def test_no_letter_of_the_pdf_is_below_eighteen_point(reader: pypdf.PdfReader) -> None:
    sizes: dict[float, str] = {}

    def seen(text: str, cm: list[float], tm: list[float], _: Any, size: float) -> None:
        if text.strip():
            across = abs(size * (tm[0] ** 2 + tm[1] ** 2) ** 0.5 * (cm[0] ** 2 + cm[1] ** 2) ** 0.5)
            sizes.setdefault(round(across, 1), text)

    for page in reader.pages:
        page.extract_text(visitor_text=seen)
    # In pictures the reader tells the units of the picture, which is enlarged: they are held to the type by themselves.
    for unit in (chart_grid.TEXT, schematic.TEXT):
        sizes.pop(unit, "")
    assert sizes and min(sizes) >= 17.9, (min(sizes), sizes[min(sizes)])


def test_letters_of_schematics_are_as_large_as_the_type_and_keep_to_the_page() -> None:
    drawn = [part for section in millrace().sections for part in section.parts if isinstance(part, Schematic)]
    assert drawn
    for one in drawn:
        svg = str(document._make_schematic(one, "s", Ids(), PAPER, millrace().sizes)["svg"])
        assert min(float(size) * largeness(svg) for size in re.findall(r'font-size="([\d.]+)"', svg)) >= LARGE_MM - 0.02
        assert float(re.search(r'width="([\d.]+)mm"', svg)[1]) <= 170  # type: ignore[index]


def test_the_pdf_says_all_that_the_page_says(reader: pypdf.PdfReader) -> None:
    def words(text: str) -> set[str]:
        return set(re.findall(r"[A-Za-z]{3,}|\d+\.\d+", text))

    page = html.render(millrace()).partition('<main id="main">')[2]
    page = unescape(re.sub(r"<title.*?</title>|<desc.*?</desc>|<[^>]*>", " ", page, flags=re.S))
    missing = words(page) - words(" ".join(one.extract_text() for one in reader.pages))
    assert missing <= {"Letter"}


def test_the_page_is_set_at_eighteen_point_and_its_charts_too() -> None:
    page = html.render(millrace(), is_large=True)
    assert ":root { font-size: 150%; }" in page  # 24 px are 18 point
    assert ":root { font-size: 150%; }" not in html.render(millrace())
    svgs = re.findall(r'<svg [^>]*class="chart".*?</svg>', page, re.S)
    for svg in svgs:
        assert min(float(size) * largeness(svg) for size in re.findall(r'font-size="([\d.]+)"', svg)) >= LARGE_MM - 0.02
    assert svgs
