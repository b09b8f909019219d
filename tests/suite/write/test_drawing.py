"""Drawings of garments planned by hand (see garments.py): 2 sts and 3 rows to the cm."""

from __future__ import annotations

from base64 import b64decode
from io import BytesIO
from math import dist

import pytest
from garments import FLOUR, RYE, cowl, hat, pullover
from msgspec.structs import replace
from support import EXAMPLES, written

from wale.outputs.drawing import render
from wale.pattern import Drawing, DrawnPart
from wale.write.drawing import drawing

GRAIN = ((RYE, RYE, RYE, FLOUR), (RYE,) * 4, (RYE, FLOUR, RYE, RYE), (RYE,) * 4)
"""Rows from the bottom, left to right: column 0 stands at the right; row 3 is row 1 shifted by two."""
PLAIN = ((RYE,),)


def made(garment: tuple[object, object], size: int = 0) -> Drawing:
    found = drawing(*garment, size)  # type: ignore[arg-type]
    assert found is not None
    return found


def test_a_pullover_has_back_sleeves_front_and_neckband_in_that_order() -> None:
    parts = made(pullover(), 1).parts
    # Back and its band; rib and fabric of the left, then of the right sleeve; front; its band.
    assert [part.tile for part in parts if part.tile != PLAIN] == [GRAIN] * 4
    assert [part.tile == PLAIN for part in parts] == [False, True, True, False, True, False, False, True]


def test_the_motif_stands_on_the_centre_line_and_starts_at_the_fold() -> None:
    front = made(pullover(), 1).parts[-2]
    # The gap between columns 0 and 1 is on the centre line: column 0 covers x = 0 to 0.5, so a tile of four columns
    # ends at 0.5 and begins at -1.5.
    assert front.origin == pytest.approx((-1.5, 0))
    assert front.cell == pytest.approx((1 / 2, 1 / 3))
    assert front.turn == 0


def test_sleeves_hang_mirrored_from_the_tips_of_the_shoulders() -> None:
    parts = made(pullover(), 1).parts
    left, right = parts[3], parts[5]
    for part, tip in ((left, (-27.5, 52)), (right, (27.5, 52))):
        # The folded top is half of 44 cm long, one end at the tip; the fold is the 34 cm of fabric above the rib.
        at = next(i for i, point in enumerate(part.outline) if point == pytest.approx(tip))
        sides = sorted(dist(tip, part.outline[i % len(part.outline)]) for i in (at - 1, at + 1))
        assert sides == pytest.approx([22, 34])
    assert sorted((-x, y) for x, y in left.outline) == [pytest.approx(point) for point in sorted(right.outline)]
    assert left.turn == -right.turn
    assert min(y for _, y in right.outline) < 52 < 52.001 > max(y for _, y in right.outline)
    assert max(x for x, _ in right.outline) > 27.5


def test_the_neckband_is_as_deep_as_its_rounds() -> None:
    band = made(pullover(), 1).parts[-1]
    # 6 rounds are 2 cm: the front neck, 18 cm wide and 46 to 54 cm high, leaves 14 cm and begins at 48 inside.
    at_high = sorted({round(x, 6) for x, y in band.outline if y == pytest.approx(54)})
    at_centre = sorted({round(y, 6) for x, y in band.outline if abs(x) <= 3})
    assert at_high == [-9, -7, 7, 9]
    assert at_centre == [46, 48]


def test_a_hat_wears_its_pom_pom() -> None:
    body, ball = made(hat()).parts
    assert body.tile == GRAIN
    assert max(y for _, y in body.outline) == pytest.approx(16)
    assert ball.tile == ((FLOUR,),)
    xs = [x for x, _ in ball.outline]
    assert max(xs) - min(xs) == pytest.approx(8)


def test_a_cowl_is_a_plain_tube_above_its_rib() -> None:
    rib, body = made(cowl()).parts
    assert sorted(rib.outline) == [(-15, 0), (-15, 3), (15, 0), (15, 3)]
    assert sorted(body.outline) == [(-15, 3), (-15, 18), (15, 3), (15, 18)]
    assert rib.tile == body.tile == PLAIN


@pytest.mark.parametrize(("name", "edge", "is_up"), [("headrace-raglan", 0, True), ("grist-raglan", 0, False)])
def test_what_is_worked_from_the_neck_is_drawn_with_its_neck_uppermost(name: str, edge: int, is_up: bool) -> None:
    """The first part of the one is its neck's rib, which lies above all others; of the other a sleeve."""
    done = written((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    parts = made((done.spec, done.plan)).parts
    heights = [max(y for _, y in part.outline) for part in parts]
    assert (heights[edge] == max(heights)) == is_up


def test_the_words_name_pieces_and_fabrics() -> None:
    assert made(pullover(), 1).words == (
        "By hand laid flat, size M: body in grain (rye and flour) with a folded hem; two sleeves in rye, then grain "
        "(rye and flour); neckband in rye"
    )
    assert made(hat()).words == "Hat by hand laid flat, size one: hat in grain (rye and flour); pom-pom in flour"


def test_nothing_knitted_is_not_drawn() -> None:
    spec, plan = cowl()
    assert drawing(spec, replace(plan, pieces=()), 0) is None


@pytest.mark.parametrize(("origin", "place"), [((-1.5, 0.0), (0, 0)), ((0.0, 0.0), (3, 0)), ((-1.5, -1 / 3), (2, 1))])
def test_the_picture_shows_the_motif_where_its_origin_says(origin: tuple[float, float], place: tuple[int, int]) -> None:
    # Four stitches by four rows from (0, 0). With the tile's corner at -1.5 (three stitches to the left) its fourth
    # column, flour on the tile's first row, is the first one seen; a row lower, the third tile row is the second seen,
    # whose flour stands in tile column 1, seen in column 2.
    from PIL import Image

    square = ((0.0, 0.0), (2.0, 0.0), (2.0, 4 / 3), (0.0, 4 / 3))
    svg = render(Drawing((DrawnPart(square, GRAIN, (1 / 2, 1 / 3), origin),), "a swatch"), "d")
    image = Image.open(BytesIO(b64decode(svg.split("base64,")[1].split('"')[0]))).convert("L")
    wide, tall = image.width // round(image.width / 5), 4
    rows = image.height // tall
    bright = {
        (column, row)
        for column in range(4)
        for row in range(4)
        if image.crop((column * wide, (rows - 1 - row) * tall, (column + 1) * wide, (rows - row) * tall))
        .resize((1, 1), Image.Resampling.BOX)
        .getpixel((0, 0))
        > 130
    }
    assert place in bright
    assert len(bright) == 2
