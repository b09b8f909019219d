"""A very large chart's cells with their marks as one picture: ten thousands of drawn marks take a typesetter seconds.

Each colour's cell is drawn once, fine, and made small; the rows are put together from those cells line by line.
"""

from __future__ import annotations

from io import BytesIO

from wale.outputs import marks
from wale.outputs.svg import GREY
from wale.pattern import Chart

WIDE = 10
"""Pixels across a cell: 127 to the inch where a cell is 2 mm wide."""
_FINE = 4
_BOLD = 1.7
"""How much bolder a mark is drawn than as a path: made small, a thin stroke would pale."""
_NO_STITCH = "#ffffff"


def picture(chart: Chart, cells: tuple[tuple[int, ...], ...], across: int = WIDE) -> bytes:
    """Cells of a chart as an indexed PNG, top row first.

    Args:
        chart: whose cells they are.
        cells: the rows to show, bottom row first; -1 is no stitch, white with slanting lines.
        across: pixels across a cell.
    """
    from PIL import Image, ImageDraw

    tall = max(1, round(across / chart.cell_ratio))
    shapes = (*marks.shapes(colour.mark for colour in chart.colours), "")
    colours = (*(colour.colour for colour in chart.colours), _NO_STITCH)
    wide, high = across * _FINE, tall * _FINE
    strip = Image.new("RGB", (wide * len(colours), high))
    pen = ImageDraw.Draw(strip)
    for n, (colour, shape) in enumerate(zip(colours, shapes, strict=True)):
        pen.rectangle((n * wide, 0, (n + 1) * wide - 1, high - 1), fill=colour)
        if n == len(chart.colours):
            left, right, middle = n * wide, (n + 1) * wide, (n + 0.5) * wide
            for run in ((left, high, right, 0), (left, high / 2, middle, 0), (middle, high, right, high / 2)):
                pen.line(run, fill=GREY, width=_FINE)
        if shape:
            marks.draw(pen, shape, colour, ((n + 0.5) * wide, high / 2), min(wide, high) / 2, _BOLD)
    strip = strip.resize((across * len(colours), tall), Image.Resampling.BOX).quantize(255, dither=Image.Dither.NONE)
    flat = strip.tobytes()
    pixels = []
    for y in range(tall):
        line = flat[y * strip.width : (y + 1) * strip.width]
        pixels.append([line[n * across : (n + 1) * across] for n in range(len(colours))])
    # Index -1 finds the last cell, the one without a stitch.
    content = b"".join(b"".join(map(line.__getitem__, row)) for row in reversed(cells) for line in pixels)
    image = Image.frombytes("P", (len(cells[0]) * across, len(cells) * tall), content)
    image.putpalette(strip.getpalette() or [])
    out = BytesIO()
    image.save(out, "PNG", optimize=False, compress_level=6)
    return out.getvalue()
