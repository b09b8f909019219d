"""Schematics and drawings: words free of each other and inside the picture, fabric in the motif's colours."""

from __future__ import annotations

import io
import re
from base64 import b64decode
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outputs_sample import back_schematic, pullover_drawing
from PIL import Image, ImageChops, ImageFont

from wale.outputs import drawing, fonts, schematic, svg
from wale.pattern import Dimension, Drawing, DrawnPart, Schematic

Box = tuple[float, float, float, float]
TEXT = re.compile(
    r'<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)" text-anchor="middle" font-weight="600"'
    r'(?: transform="rotate\((-?\d+) ([-\d.]+) ([-\d.]+)\)")?>([^<]+)<'
)


def word_boxes(picture: str) -> list[Box]:
    """Boxes of the texts by an estimate of our own: half an em a letter, 0.7 em tall."""
    boxes = []
    for x, y, size, turn, *_, words in TEXT.findall(picture):
        wide, tall = 0.5 * float(size) * len(words), 0.7 * float(size)
        mx, my = float(x), float(y) - 0.34 * float(size)
        w, h = (tall, wide) if turn else (wide, tall)
        boxes.append((mx - w / 2, my - h / 2, mx + w / 2, my + h / 2))
    return boxes


def frame(picture: str) -> Box:
    wide, tall = (float(n) for n in re.findall(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', picture)[0])
    dx, dy = (float(n) for n in re.findall(r"translate\(([-\d.]+) ([-\d.]+)\)", picture)[0])
    return -dx, -dy, wide - dx, tall - dy


def check_words(picture: str, count: int) -> None:
    boxes = word_boxes(picture)
    assert len(boxes) == count
    x1, y1, x2, y2 = frame(picture)
    for box in boxes:
        assert x1 <= box[0]
        assert y1 <= box[1]
        assert box[2] <= x2
        assert box[3] <= y2
    for one, other in combinations(boxes, 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def test_words_of_a_back_are_whole_and_apart() -> None:
    check_words(schematic.render(back_schematic(), "s"), 9)


@settings(deadline=None, derandomize=True)
@given(st.integers(20, 90), st.integers(10, 90), st.lists(st.sampled_from("hvtbl"), min_size=1, max_size=8))
def test_words_are_whole_and_apart_whatever_the_piece(wide: int, tall: int, kinds: list[str]) -> None:
    ends = {
        "h": ((0.0, tall / 2), (float(wide), tall / 2)),
        "v": ((0.0, 0.0), (0.0, float(tall))),
        "t": ((0.0, float(tall)), (wide / 3, float(tall))),
        "b": ((0.0, 0.0), (float(wide), 0.0)),
        "l": ((float(wide), 0.0), (float(wide), tall / 4)),
    }
    # Three measures on one inner line are the most that a knitter would be shown; more of them are left out here.
    kinds = [kind for n, kind in enumerate(kinds) if kind != "h" or kinds[:n].count("h") < 3]
    outline = ((0.0, 0.0), (float(wide), 0.0), (float(wide), float(tall)), (0.0, float(tall)))
    dimensions = tuple(Dimension(chr(65 + n), "body width", *ends[kind], ("1.0",)) for n, kind in enumerate(kinds))
    check_words(schematic.render(Schematic("Back", "M", outline, (), dimensions), "s"), len(kinds))


def test_the_schematic_is_named_and_described() -> None:
    picture = schematic.render(back_schematic(), "s")
    assert '<title id="s-title">Schematic of Back, size M</title>' in picture
    assert "A hip, B waist, C bust" in picture


@pytest.mark.parametrize("words", ["hem to underarm", "MWMW", "illi", "neck depth 2XL", "Ärmel"])
def test_the_estimated_width_covers_the_set_word(words: str) -> None:
    face = next(f for f in fonts.needed("") if f.family == fonts.SANS and f.weight == 600)
    font = ImageFont.truetype(io.BytesIO(fonts.truetype(face.address)), 100)
    assert svg.text_width(words, 100) >= font.getlength(words)


def test_a_stitch_tile_has_five_by_four_pixels_a_stitch_and_repeats_without_a_seam() -> None:
    tile = (("#8a5a2b", "#efe6d2"), ("#efe6d2", "#8a5a2b"), ("#8a5a2b", "#8a5a2b"))
    image = drawing.stitch_tile(tile).convert("RGB")
    assert image.size == (2 * 5, 3 * 4)
    # The tile of two repeats on top of each other is the tile twice: so its edges meet.
    twice = drawing.stitch_tile(tile * 2).convert("RGB")
    for top in (0, 12):
        # A palette of 64 colours may round a shade differently.
        apart = ImageChops.difference(twice.crop((0, top, 10, top + 12)), image)
        assert max(high for _, high in apart.getextrema()) <= 3  # type: ignore[misc]


def test_the_fabric_starts_at_the_lower_edge_and_stands_centred() -> None:
    # One row of three stitches, light in the middle, on 9 stitches: light ones are numbers 2, 5 and 8.
    piece = drawing.cloth((("#000000", "#ffffff", "#000000"), ("#000000",) * 3), 9, 4)
    image = Image.open(io.BytesIO(piece)).convert("L")
    assert image.size == (45, 16)
    light = [image.getpixel((5 * c + 1, 4 * 3 + 1)) > 128 for c in range(9)]  # type: ignore[operator]
    assert light == [False, True, False] * 3
    dark_row = [image.getpixel((5 * c + 1, 4 * 2 + 2)) > 128 for c in range(9)]  # type: ignore[operator]
    assert not any(dark_row)


def test_a_garment_fits_its_room_and_has_one_picture_a_part() -> None:
    picture = drawing.render(pullover_drawing(), "d", width=100.0, height=100.0)
    wide, tall = (float(n) for n in re.findall(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', picture)[0])
    # The pullover is 121 cm wide and 61 tall, so the width decides: 2 mm of margin, 98 / 121 x 61 + 2 = 51.4.
    assert wide == pytest.approx(100, abs=0.1)
    assert tall == pytest.approx(51.4, abs=0.1)
    assert picture.count("<image ") == len(pullover_drawing().parts)
    assert "a lattice of flour diamonds" in picture


def test_a_very_fine_fabric_is_drawn_with_a_pixel_a_stitch() -> None:
    part = DrawnPart(((0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)), (("#8a5a2b",),), (0.1, 0.1))
    found = re.search(r"base64,([^\"]+)", drawing.render(Drawing((part,), "Sail"), "d"))
    assert found
    assert Image.open(io.BytesIO(b64decode(found[1]))).size == (600, 600)


def test_a_child_s_short_slope_has_its_word_beside_it_and_the_armhole_goes_on_in_its_lane() -> None:
    # 26 cm by 30 cm at 3.5 mm to the cm: the slope of 1.5 cm is 5 mm tall, its words some 9 mm long.
    outline = ((-13.0, 0.0), (13.0, 0.0), (13.0, 28.5), (6.0, 30.0), (4.0, 25.0), (-4.0, 25.0), (-6.0, 30.0),
               (-13.0, 28.5))  # fmt: skip
    dimensions = (
        Dimension("D", "armhole edge", (13.0, 14.0), (13.0, 28.5), ("14.5",)),
        Dimension("I", "slope", (13.0, 28.5), (13.0, 30.0), ("1.5",)),
        Dimension("J", "neck depth", (0.0, 25.0), (0.0, 30.0), ("5.0",)),
    )
    picture = schematic.render(Schematic("Back", "2", outline, (), dimensions), "s")
    check_words(picture, 3)
    turned = {words: turn for *_, turn, _, _, words in TEXT.findall(picture)}
    assert turned == {"D armhole edge": "-90", "I slope": "", "J neck depth": ""}
    arrows = re.findall(r'd="M([-\d.]+) [-\d.]+L([-\d.]+) [-\d.]+" fill="none" stroke="#1d5560"', picture)
    lanes = [one for one, other in arrows if one == other]
    assert len(set(lanes)) == 2  # the neck's own, and one for slope and armhole
    points = re.search(r'points="([^"]+)"', picture)
    assert points
    corners = [tuple(map(float, pair.split(","))) for pair in points[1].split()]
    for box in word_boxes(picture):
        for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
            inside = [
                step
                for step in range(101)
                if box[0] < x1 + (x2 - x1) * step / 100 < box[2] and box[1] < y1 + (y2 - y1) * step / 100 < box[3]
            ]
            assert not inside


def test_a_motif_wider_than_the_fabric_is_cut_to_its_middle() -> None:
    # Nine columns on three stitches: (3 - 9) // 2 = -3, so the fabric begins with the tile's column 3.
    row = ("#000000",) * 3 + ("#000000", "#ffffff", "#000000") + ("#ffffff",) * 3
    image = Image.open(io.BytesIO(drawing.cloth((row,), 3, 2))).convert("L")
    assert image.size == (15, 8)
    assert [image.getpixel((5 * c + 1, 5)) > 128 for c in range(3)] == [False, True, False]  # type: ignore[operator]


def test_the_finest_fabric_shows_every_seventh_stitch() -> None:
    # 10,000 by 100,000 stitches in at most 1,500 pixels a side: every 7th of a row, every 67th row.
    image = Image.open(io.BytesIO(drawing.cloth((("#8a5a2b",), ("#efe6d2",)), 10_000, 100_000))).convert("RGB")
    assert image.size == (1429, 1493)
    # The lowest row shown is row 0, rye; the next is row 67, flour.
    below, above = (image.getpixel((0, image.height - n)) for n in (1, 2))
    assert below[0] < 0x8A and above[0] > 0x8A  # type: ignore[index]
