"""One chart as a file: the SVG is whole XML with its numbers, the PNG has the colours of the motif in its cells."""

from __future__ import annotations

from io import BytesIO
from xml.etree import ElementTree

import pytest
from PIL import Image
from support import EXAMPLES, written

from wale.driver import charts_of, render_chart

SVG = "{http://www.w3.org/2000/svg}"
INK = {"rye": (0x8A, 0x5A, 0x2B), "flour": (0xEF, 0xE6, 0xD2)}


@pytest.fixture(scope="module")
def cowl():
    return written((EXAMPLES / "first-cowl.wale").read_text("utf-8"))


def test_an_svg_stands_alone(cowl):
    data = render_chart(cowl, "grist", "svg")
    root = ElementTree.fromstring(data)
    assert root.tag == f"{SVG}svg" and root.get("width", "").endswith("mm")
    (chart,) = charts_of(cowl)
    numbers = {one.text for one in root.iter(f"{SVG}text")}
    assert {str(row) for row in range(1, len(chart.rows) + 1)} <= numbers


def test_a_png_has_the_cells_of_the_motif(cowl):
    """Row 1 of grist from the right: 5 rye, 1 flour, twice; a tenth of a cell in from its corner no mark stands."""
    image = Image.open(BytesIO(render_chart(cowl, "grist", "png"))).convert("RGB")
    (chart,) = charts_of(cowl)
    wide, tall = image.width // 12, image.height // len(chart.rows)
    y = image.height - tall + tall // 5
    found = [image.getpixel((image.width - (column + 1) * wide + wide // 5, y)) for column in range(12)]
    assert found == [INK[yarn] for yarn in (*["rye"] * 5, "flour") * 2]


def test_no_such_chart(cowl):
    assert render_chart(cowl, "grits", "svg") is None
