"""One chart as a picture file of its own: SVG with grid and numbers, or PNG with cells, marks and grid."""

from __future__ import annotations

from io import BytesIO

from wale.outputs import chart as charts
from wale.outputs import chart_raster
from wale.pattern import Chart

_ROOM = charts.Room(width=100_000.0, height=100_000.0, cell=5.0)
_THIN, _HEAVY = "#8c8c8c", "#1a1a1a"
_SCALE = 2


def svg(chart: Chart) -> bytes:
    """The whole chart as an SVG file, cells 5 mm wide; it names its fonts and falls back on those of the reader."""
    (tile,) = charts.tiles(chart, _ROOM, "chart")
    head, rest = tile.svg.split(">", 1)
    space = "" if "xmlns=" in head else ' xmlns="http://www.w3.org/2000/svg"'
    size = "" if " width=" in head else f' width="{tile.width:.2f}mm" height="{tile.height:.2f}mm"'
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{head}{space}{size}>{rest}\n'.encode()


def png(chart: Chart) -> bytes:
    """The whole chart as a PNG file, cells 20 pixels wide; each tenth line is heavier, counted from column 1."""
    from PIL import Image, ImageDraw

    image = Image.open(BytesIO(chart_raster.picture(chart, chart.rows))).convert("RGB")
    across, up = len(chart.rows[0]), len(chart.rows)
    image = image.resize((image.width * _SCALE, image.height * _SCALE), Image.Resampling.NEAREST)
    wide, tall = image.width // across, image.height // up
    pen = ImageDraw.Draw(image)
    for is_ten in (False, True):
        for column in range(across + 1):
            if (column % 10 == 0) is is_ten:
                x = column * wide if chart.from_left else image.width - column * wide
                pen.line((x, 0, x, image.height), fill=_HEAVY if is_ten else _THIN, width=3 if is_ten else 1)
        for row in range(up + 1):
            if (row % 10 == 0) is is_ten:
                y = image.height - row * tall
                pen.line((0, y, image.width, y), fill=_HEAVY if is_ten else _THIN, width=3 if is_ten else 1)
    out = BytesIO()
    image.save(out, "PNG", optimize=False, compress_level=6)
    return out.getvalue()
