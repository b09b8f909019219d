"""A stitch chart as SVG: one small picture for the colours, one path a colour for the marks, few paths for the grid.

Never one element a cell: ten thousand cells take a fraction of a second to typeset this way and most of ten otherwise.
Columns and rows count from 1 at the lower right, as the chart is read; at the lower left for a left-handed knitter.
Lengths are millimetres.
"""

from __future__ import annotations

from io import BytesIO
from math import ceil

from msgspec import Struct

from wale.outputs import chart_grid, chart_raster, marks
from wale.outputs.chart_grid import DIGIT, TOP, Grid, start_groups
from wale.outputs.svg import figure, number, png_uri
from wale.pattern import Chart

_PIXELS = 4
_MANY_CELLS = 20_000
"""A chart of more cells has its marks in the picture, not as paths."""
_NO_STITCH = "#ffffff"


class Room(Struct, frozen=True):
    """What a chart may take: page width and height, the wished cell width, the least side of a cell; mm."""

    width: float
    height: float
    cell: float
    least: float = 2.0


class Tile(Struct, frozen=True):
    """A part of a chart that fits its room: its columns and rows (first, last; as the chart counts) and picture."""

    columns: tuple[int, int]
    rows: tuple[int, int]
    svg: str
    width: float
    height: float


def picture(rows: tuple[tuple[int, ...], ...], colours: tuple[str, ...], scale: int = _PIXELS) -> bytes:
    """The colour cells as an indexed PNG, `scale` pixels a cell, top row first on the picture.

    Args:
        rows: bottom row first, indexes into `colours`; -1 (no stitch) becomes white.
        colours: `#rrggbb`, at most 255.
        scale: pixels along a cell's side.
    """
    from PIL import Image

    blank = len(colours)
    cells = bytes(blank if cell < 0 else cell for row in reversed(rows) for cell in row)
    image = Image.frombytes("P", (len(rows[0]), len(rows)), cells)
    image.putpalette(b"".join(bytes.fromhex(colour[1:]) for colour in (*colours, _NO_STITCH)))
    image = image.resize((image.width * scale, image.height * scale), Image.Resampling.NEAREST)
    out = BytesIO()
    image.save(out, "PNG", optimize=False, compress_level=6)
    return out.getvalue()


def occurring(chart: Chart) -> tuple[int, ...]:
    """Indexes of the colours that the chart uses, in their order; -1 first if cells without a stitch occur."""
    return tuple(sorted({cell for row in chart.rows for cell in row}))


def tiles(chart: Chart, room: Room, ident: str) -> tuple[Tile, ...]:
    """The chart in as few parts as its room allows, the part of column 1 and row 1 first, then along, then upwards.

    The cell takes the wished width, or less so that the chart fits, but its smaller side never less than `room.least`;
    beyond that the chart is split, after whole tens where it can be. `ident` is unique on the page.
    """
    cell, spans, up = _parts(chart, room)
    many = len(spans) * len(up) > 1
    words = describe(chart)
    return tuple(
        _tile(chart, columns, rows, cell, f"{ident}-{n}" if many else ident, words)
        for n, (rows, columns) in enumerate(((r, c) for r in up for c in spans), 1)
    )


def parts(chart: Chart, room: Room) -> int:
    """In how many parts `tiles` gives the chart."""
    _, spans, up = _parts(chart, room)
    return len(spans) * len(up)


def _parts(chart: Chart, room: Room) -> tuple[float, tuple[tuple[int, int], ...], tuple[tuple[int, int], ...]]:
    """The width of a cell, the spans of columns, and those of rows."""
    count = (len(chart.rows[0]), len(chart.rows))
    inner = room.width - 2 * _gutter(chart)
    tall = room.height - TOP - _foot(chart)
    least = room.least * max(1.0, chart.cell_ratio)
    across = min(count[0], max(1, int(inner / least + 1e-9)))
    spans = _spans(count[0], across)
    widest = max(last - first + 1 for first, last in spans)
    cell = min(room.cell, inner / widest)
    if len(spans) == 1 and count[1] * max(cell, least) / chart.cell_ratio > tall >= count[1] * least / chart.cell_ratio:
        cell = tall * chart.cell_ratio / count[1]
    cell = max(cell, least)
    return cell, spans, _spans(count[1], max(1, int(tall * chart.cell_ratio / cell + 1e-9)))


def _spans(count: int, most: int) -> tuple[tuple[int, int], ...]:
    """1..count cut into the fewest spans of at most `most`, about even, each but the last a whole number of tens."""
    parts = ceil(count / most)
    size = ceil(count / parts)
    tens = ceil(size / 10) * 10
    if parts > 1 and tens <= most:
        size = tens
    return tuple((first, min(first + size - 1, count)) for first in range(1, count + 1, size))


def _gutter(chart: Chart) -> float:
    return len(str(len(chart.rows))) * DIGIT + 1.6


def _foot(chart: Chart) -> float:
    return 4.2 + (5.0 if chart.starts else 0.0)


def _tile(chart: Chart, columns: tuple[int, int], rows: tuple[int, int], cell: float, ident: str, words: str) -> Tile:
    across, up = columns[1] - columns[0] + 1, rows[1] - rows[0] + 1
    total = len(chart.rows[0])
    low = columns[0] - 1 if chart.from_left else total - columns[1]
    cells = tuple(row[low : low + across] for row in chart.rows[rows[0] - 1 : rows[1]])
    both = _gutter(chart), _gutter(chart) if chart.flat else 0.6
    right, left = both[::-1] if chart.from_left else both
    grid = Grid(columns, rows, cell, cell / chart.cell_ratio, left, from_left=chart.from_left)
    groups = start_groups(chart) if rows[0] == 1 else ()
    width = grid.right + right
    height = TOP + up * grid.tall + (_foot(chart) if groups else 4.2)
    is_large = len(chart.rows) * total > _MANY_CELLS
    colours = tuple(colour.colour for colour in chart.colours)
    if grid.is_fine:
        image = png_uri(picture(cells, colours, scale=1))
    else:
        image = png_uri(chart_raster.picture(chart, cells) if is_large else picture(cells, colours))
    body = (
        f'<image href="{image}" x="{number(grid.left)}" y="{number(grid.top)}" width="{number(across * grid.wide)}" '
        f'height="{number(up * grid.tall)}" preserveAspectRatio="none" image-rendering="pixelated"/>'
        + ("" if is_large or grid.is_fine else chart_grid.mark_paths(chart, cells, grid))
        + grid.lines()
        + chart_grid.repeat(chart, grid)
        + chart_grid.centre(chart, grid)
        + chart_grid.row_numbers(chart, grid)
        + (chart_grid.starts(groups, grid) if groups else "")
        + chart_grid.column_numbers(grid, height)
    )
    part = (
        ""
        if (across, up) == (total, len(chart.rows))
        else f", columns {columns[0]}–{columns[1]}, rows {rows[0]}–{rows[1]}"
    )
    title = f"Chart {chart.name}{part}: {across} stitches, {up} rows"
    return Tile(
        columns,
        rows,
        figure(width, height, body, ident=ident, title=title, desc=words, kind="chart"),
        width,
        height,
    )


def describe(chart: Chart) -> str:
    """The chart's make-up in a few sentences: colours, direction, repeat, where the words are."""
    names = [chart.colours[i].name for i in occurring(chart) if i >= 0]
    ways = ("right to left", "left to right")
    first, second = ways[::-1] if chart.from_left else ways
    side = f"odd rows from {first}, even rows from {second}" if chart.flat else f"every round from {first}"
    words = " The chart in words follows." if chart.words else ""
    if chart.repeat is None:
        extent = "Every stitch is drawn."
    else:
        right, left, low, high = chart.repeat
        extent = f"The repeat is columns {right} to {left}, rows {low} to {high}."
    counted = " Columns are counted from the left." if chart.from_left else ""
    return f"Colours: {', '.join(names)}. Read {side}.{counted} {extent}{words}"


def cell_sample(chart: Chart, index: int, ident: str) -> str:
    """One cell of the chart as its legend shows it, -1 for a cell without a stitch."""
    side = 4.0
    tall = side / chart.cell_ratio
    if index < 0:
        grid = Grid((1, 1), (1, 1), side, tall, 0.2, 0.2)
        inside = chart_grid.hatch([(side / 2 + 0.2, tall / 2 + 0.2)], grid)
        fill, name = _NO_STITCH, "no stitch"
    else:
        colour = chart.colours[index]
        shape = marks.shapes(c.mark for c in chart.colours)[index]
        fill, name = colour.colour, colour.name
        middle = [(side / 2 + 0.2, tall / 2 + 0.2)]
        inside = marks.path(shape, fill, middle, min(side, tall) / 2) if shape else ""
    box = (
        f'<rect x="0.2" y="0.2" width="{number(side)}" height="{number(tall)}" fill="{fill}" stroke="#333333" '
        'stroke-width="0.2"/>'
    )
    return figure(side + 0.4, tall + 0.4, box + inside, ident=ident, title=f"Cell: {name}", kind="sample")
