"""Drawings side by side: one scale, the motif's colours stitch by stitch, each fabric once, rulers true."""

from __future__ import annotations

import re
from base64 import b64decode
from collections.abc import Iterator
from io import BytesIO
from xml.etree import ElementTree

import pytest
from msgspec.structs import replace
from outputs_sample import millrace
from PIL import Image

from wale.outputs import alike, html, text
from wale.pattern import Drawing, Drawings, DrawnPart, Section

RYE, FLOUR = "#8a5a2b", "#efe6d2"
GRAIN = ((RYE, RYE, RYE, FLOUR), (RYE,) * 4, (RYE, FLOUR, RYE, RYE), (RYE,) * 4)
CELL = (0.5, 1 / 3)
ROOM = (50.0, 60.0)
SVG = "{http://www.w3.org/2000/svg}"


def piece(wide: float, tall: float, origin: tuple[float, float], ruler: str = "") -> Drawing:
    outline = ((0.0, 0.0), (wide, 0.0), (wide, tall), (0.0, tall))
    return Drawing((DrawnPart(outline, GRAIN, CELL, origin),), f"a piece {wide} cm wide", ruler=ruler)


def drawn(*drawings: Drawing, is_shared: bool = False) -> list[ElementTree.Element]:
    names = [f"d{number}" for number in range(len(drawings))]
    return [ElementTree.fromstring(one) for one in alike.render(drawings, names, ROOM, is_shared=is_shared)]


def corners(picture: ElementTree.Element) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the outline on the page."""
    (outline,) = [one for one in picture.iter(f"{SVG}polygon") if one.get("fill") == "none"]
    points = [tuple(map(float, pair.split(","))) for pair in (outline.get("points") or "").split()]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def opened(image: ElementTree.Element) -> Image.Image:
    return Image.open(BytesIO(b64decode((image.get("href") or "").split("base64,")[1])))


def light_stitches(picture: ElementTree.Element, columns: int, rows: int) -> Iterator[tuple[int, int]]:
    """Stitches of the outline, column from the left and row from below, that are rather flour than rye."""
    (image,) = picture.iter(f"{SVG}image")
    x, y, wide, tall = (float(image.get(name) or 0) for name in ("x", "y", "width", "height"))
    left, top, right, bottom = corners(picture)
    pixels = opened(image).convert("L")
    across, up = pixels.width / wide, pixels.height / tall
    for column in range(columns):
        for row in range(rows):
            box = (
                (left - x + (right - left) / columns * column) * across,
                (bottom - y - (bottom - top) / rows * (row + 1)) * up,
                (left - x + (right - left) / columns * (column + 1)) * across,
                (bottom - y - (bottom - top) / rows * row) * up,
            )
            if pixels.resize((1, 1), Image.Resampling.BOX, box=box).getpixel((0, 0)) > 130:
                yield column, row


def test_all_stand_in_frames_of_one_size_at_one_scale() -> None:
    small, large = drawn(piece(10, 8, (0, 0)), piece(20, 12, (0, 0)))
    assert {small.get("width"), large.get("width")} == {"50mm"}
    assert small.get("viewBox") == large.get("viewBox")
    one, other = corners(small), corners(large)
    # The larger fills the room of 50 mm less 1 mm at each side: 2.4 mm to the cm.
    assert other[2] - other[0] == pytest.approx(48)
    assert one[2] - one[0] == pytest.approx(24, abs=0.02)
    assert (one[3] - one[1]) / (other[3] - other[1]) == pytest.approx(8 / 12, abs=0.002)
    assert one[3] == other[3]


def test_nothing_is_larger_than_life() -> None:
    (only,) = drawn(piece(2, 2, (0, 0)))
    left, top, right, bottom = corners(only)
    assert (right - left, bottom - top) == pytest.approx((20, 20), abs=0.02)


def test_a_stitch_has_the_proportions_of_the_gauge() -> None:
    for one in (*drawn(piece(10, 8, (0, 0)), piece(20, 12, (0.5, -1))), *drawn(piece(2, 2, (0, 0)))):
        (image,) = one.iter(f"{SVG}image")
        pixels = opened(image)
        # A stitch is drawn on 5 by 4 pixels or a multiple of them.
        stitch = float(image.get("width") or 0) / pixels.width * 5, float(image.get("height") or 0) / pixels.height * 4
        assert stitch[0] / stitch[1] == pytest.approx(CELL[0] / CELL[1], rel=0.01)


@pytest.mark.parametrize("origin", [(0.0, 0.0), (0.5, 0.0), (-1.5, -2 / 3), (3.0, 5 / 3), (-6.5, -4.0)])
def test_the_colours_are_those_of_the_motif_stitch_by_stitch(origin: tuple[float, float]) -> None:
    first, second = drawn(piece(5, 4, (0.0, 0.0)), piece(10, 8, origin))
    for one, at, columns, rows in ((first, (0, 0), 10, 12), (second, origin, 20, 24)):
        shift = round(at[0] / CELL[0]), round(at[1] / CELL[1])
        expected = {
            (column, row)
            for column in range(columns)
            for row in range(rows)
            if GRAIN[(row - shift[1]) % 4][(column - shift[0]) % 4] == FLOUR
        }
        assert set(light_stitches(one, columns, rows)) == expected


def test_a_page_holds_each_fabric_once_however_many_sizes() -> None:
    sizes = [piece(10 + number, 8, (number / 2, 0)) for number in range(9)]
    pictures = drawn(*sizes, is_shared=True)
    (image,) = [image for one in pictures for image in one.iter(f"{SVG}image")]
    used = [use.get("href") for one in pictures for use in one.iter(f"{SVG}use")]
    assert used == [f"#{image.get('id')}"] * 9
    # On paper each picture has the same file, which the typesetter keeps once.
    apart = drawn(*sizes)
    assert len({image.get("href") for one in apart for image in one.iter(f"{SVG}image")}) == 1
    ids = [one.get("id") for picture in pictures for one in picture.iter() if one.get("id")]
    assert len(ids) == len(set(ids))


def test_each_has_its_words() -> None:
    small, large = drawn(piece(10, 8, (0, 0)), piece(20, 12, (0, 0)))
    for one, words in ((small, "a piece 10 cm wide"), (large, "a piece 20 cm wide")):
        title = one.find(f"{SVG}title")
        assert title is not None
        assert title.text == words
        assert one.get("role") == "img"
        assert one.get("aria-labelledby") == title.get("id")


@pytest.mark.parametrize(("unit", "length", "across", "up"), [("cm", 1.0, 7, 5), ("inch", 2.54, 3, 2)])
def test_rulers_have_a_tick_for_each_unit(unit: str, length: float, across: int, up: int) -> None:
    # 6 cm are 0 to 6 cm, or 0 to 2 inches; 5.2 cm are 1 to 5 cm, or 1 and 2 inches.
    (one,) = drawn(piece(6, 5.2, (0, 0), unit))
    left, _, right, bottom = corners(one)
    scale = (right - left) / 6
    lines = [
        {key: float(value) for key, value in line.attrib.items() if key[0] in "xy"} for line in one.iter(f"{SVG}line")
    ]
    below = sorted(line["x1"] for line in lines if line["x1"] == line["x2"])
    beside = sorted((line["y1"] for line in lines if line["y1"] == line["y2"]), reverse=True)
    assert below == pytest.approx([left + number * length * scale for number in range(across)], abs=0.02)
    assert beside == pytest.approx([bottom - number * length * scale for number in range(1, up + 1)], abs=0.02)
    frame = [float(value) for value in (one.get("viewBox") or "").split()]
    for line in lines:
        assert min(line["x1"], line["x2"], line["y1"], line["y2"]) >= 0
        assert max(line["x1"], line["x2"]) <= frame[2]
        assert max(line["y1"], line["y2"]) <= frame[3]


def test_a_page_and_a_text_tell_all_of_them() -> None:
    items = tuple(replace(piece(10 + n, 8, (0, 0)), caption=f"Size {name}") for n, name in enumerate("SML"))
    shown = Section("looks", "How it looks", (Drawings("The sizes", "All at one scale.", items),))
    pattern = replace(millrace(large=False), sections=(shown,))
    page = html.render(pattern)
    assert re.findall(r"<figcaption>(Size .)</figcaption>", page) == ["Size S", "Size M", "Size L"]
    assert re.search(r'<h3 id="looks-the-sizes">The sizes</h3>\s*<p class="before">All at one scale.</p>', page)
    told = text.render(pattern)
    assert "The sizes. All at one scale.\n- Size S: a piece 10 cm wide.\n- Size M: a piece 11 cm wide." in told
