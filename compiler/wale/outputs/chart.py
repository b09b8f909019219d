"""A stitch chart as SVG: one small picture for the colours, one path a colour for the marks, few paths for the grid.

Never one element a cell: ten thousand cells take a fraction of a second to typeset this way and most of ten otherwise.
Columns and rows count from 1 at the lower right, as the chart is read; at the lower left for a left-handed knitter.
Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from wale.outputs import chart_grid, chart_raster, marks
from wale.outputs.chart_grid import DIGIT, TOP, Grid, start_groups
from wale.outputs.svg import enlarged, figure, number, png_uri
from wale.pattern import Chart

_PIXELS = 4
_MANY_CELLS = 20_000
"""A chart of more cells has its marks in the picture, not as paths."""
_NO_STITCH = "#ffffff"
# Columns or rows that parts of a chart have in common, of so many at least that a part shows for each.
_LAP, _LAP_OF = 2, 8
Span = tuple[int, int]


class Room(Struct, frozen=True):
    """What a chart may take: page width and height, the wished cell width, the least side of a cell; mm.

    With a `scale` everything in the chart, its numbers and lines too, is drawn so many times as large.
    """

    width: float
    height: float
    cell: float
    least: float = 2.0
    scale: float = 1.0

    @property
    def unscaled(self) -> Room:
        """The same room before what stands in it is enlarged."""
        return Room(*(side / self.scale for side in (self.width, self.height, self.cell, self.least)))


class Tile(Struct, frozen=True):
    """A part of a chart that fits its room: its columns and rows (first, last; as the chart counts) and picture.

    Attributes:
        joins: where the chart goes on, as seen on the page, and the number of the part there ("left", 2).
        pale: whether it shows, pale, cells of those parts too.
    """

    columns: tuple[int, int]
    rows: tuple[int, int]
    svg: str
    width: float
    height: float
    joins: tuple[tuple[str, int], ...] = ()
    pale: bool = False

    def larger(self, by: float) -> Tile:
        """The tile so many times as large."""
        return replace(self, svg=enlarged(self.svg, by), width=self.width * by, height=self.height * by)


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
    beyond that the chart is split, after whole tens where it can be. Where parts meet, each shows some cells of the
    other, pale, beyond a broken line that both have, so that they can be laid or glued on each other. `ident` is unique
    on the page.
    """
    cell, spans, up, laps = _parts(chart, room.unscaled)
    many = len(spans) * len(up) > 1
    words = describe(chart)
    made = []
    for n, (rows, columns) in enumerate(((r, c) for r in up for c in spans), 1):
        name = f"{ident}-{n}" if many else ident
        tile = _tile(chart, columns, rows, cell, name, words, laps, 2 if room.scale > 1 else 1)
        joins = tuple(_joins(n, len(spans), len(up), from_left=chart.from_left))
        made.append(replace(tile, joins=joins, pale=bool(joins and max(laps))).larger(room.scale))
    return tuple(made)


def _joins(number: int, across: int, up: int, *, from_left: bool) -> Iterator[tuple[str, int]]:
    """Where a chart of so many parts goes on beside one of them, and the number of the part there."""
    row, column = divmod(number - 1, across)
    before, after = ("left", "right") if from_left else ("right", "left")
    if column > 0:
        yield before, number - 1
    if column < across - 1:
        yield after, number + 1
    if row > 0:
        yield "below", number - across
    if row < up - 1:
        yield "above", number + across


def parts(chart: Chart, room: Room) -> int:
    """In how many parts `tiles` gives the chart."""
    _, spans, up, _ = _parts(chart, room.unscaled)
    return len(spans) * len(up)


def _parts(chart: Chart, room: Room) -> tuple[float, tuple[Span, ...], tuple[Span, ...], Span]:
    """The width of a cell, the spans of columns, those of rows, and how many of either lap over where parts meet."""
    count = (len(chart.rows[0]), len(chart.rows))
    inner = room.width - 2 * _gutter(chart)
    tall = room.height - TOP - _foot(chart)
    least = room.least * max(1.0, chart.cell_ratio)
    across = max(1, int(inner / least + 1e-9))
    lap = _lap(count[0], across)
    spans = _spans(count[0], across - 2 * lap)
    widest = max(min(last + lap, count[0]) - max(first - lap, 1) + 1 for first, last in spans)
    cell = min(room.cell, inner / widest)
    if len(spans) == 1 and count[1] * max(cell, least) / chart.cell_ratio > tall >= count[1] * least / chart.cell_ratio:
        cell = tall * chart.cell_ratio / count[1]
    cell = max(cell, least)
    up = max(1, int(tall * chart.cell_ratio / cell + 1e-9))
    lap_up = _lap(count[1], up)
    return cell, spans, _spans(count[1], up - 2 * lap_up), (lap, lap_up)


def _lap(count: int, most: int) -> int:
    """How many columns or rows parts have in common, none where all fit or parts are small."""
    return 0 if count <= most else min(_LAP, most // _LAP_OF)


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


def _tile(chart: Chart, columns: Span, rows: Span, cell: float, ident: str, words: str, laps: Span, fine: int) -> Tile:
    total, tallest = len(chart.rows[0]), len(chart.rows)
    across, up = columns[1] - columns[0] + 1, rows[1] - rows[0] + 1
    shown = max(1, columns[0] - laps[0]), min(total, columns[1] + laps[0])
    shown_rows = max(1, rows[0] - laps[1]), min(tallest, rows[1] + laps[1])
    low = shown[0] - 1 if chart.from_left else total - shown[1]
    wide = shown[1] - shown[0] + 1
    cells = tuple(row[low : low + wide] for row in chart.rows[shown_rows[0] - 1 : shown_rows[1]])
    both = _gutter(chart), _gutter(chart) if chart.flat else 0.6
    right, left = both[::-1] if chart.from_left else both
    grid = Grid(shown, shown_rows, cell, cell / chart.cell_ratio, left, from_left=chart.from_left)
    groups = start_groups(chart) if rows[0] == 1 else ()
    width = grid.right + right
    height = grid.bottom + (_foot(chart) if groups else 4.2)
    is_large = tallest * total > _MANY_CELLS
    colours = tuple(colour.colour for colour in chart.colours)
    if grid.is_fine:
        image = png_uri(picture(cells, colours, scale=1))
    else:
        marked = chart_raster.picture(chart, cells, chart_raster.WIDE * fine) if is_large else picture(cells, colours)
        image = png_uri(marked)
    body = (
        f'<image href="{image}" x="{number(grid.left)}" y="{number(grid.top)}" '
        f'width="{number(grid.right - grid.left)}" height="{number(grid.bottom - grid.top)}" '
        'preserveAspectRatio="none" image-rendering="pixelated"/>'
        + ("" if is_large or grid.is_fine else chart_grid.mark_paths(chart, cells, grid))
        + chart_grid.pale(grid, columns, rows)
        + grid.lines()
        + chart_grid.repeat(chart, grid)
        + chart_grid.changed(chart.changed, grid)
        + chart_grid.centre(chart, grid)
        + chart_grid.joints(grid, columns, rows)
        + chart_grid.row_numbers(chart, grid)
        + (chart_grid.starts(groups, grid, columns) if groups else "")
        + chart_grid.column_numbers(grid, height)
    )
    part = "" if (across, up) == (total, tallest) else f", columns {columns[0]}–{columns[1]}, rows {rows[0]}–{rows[1]}"
    title = f"Chart {chart.name}{part}: {across} stitches, {up} rows"
    svg = figure(width, height, body, ident=ident, title=title, desc=words, kind="chart")
    return Tile(columns, rows, svg, width, height)


def describe(chart: Chart) -> str:
    """The chart's make-up in a few sentences: colours or stitches, direction, repeat, where the words are."""
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
    cells = "; ".join(names) if chart.is_texture else ", ".join(names)
    cells = f"{'Stitches' if chart.is_texture else 'Colours'}: {cells}"
    return f"{cells}. Read {side}.{counted} {extent}{_framed(len(chart.changed))}{words}"


def _framed(count: int) -> str:
    return f" {count} {'cell that changes is' if count == 1 else 'cells that change are'} framed." if count else ""


def changed_sample(ident: str) -> str:
    """A cell that changes, as the legend shows it."""
    grid = Grid((1, 1), (1, 1), 4.0, 4.0, 0.2, 0.2)
    return figure(4.4, 4.4, chart_grid.changed([(1, 1)], grid), ident=ident, title="Cell: changed", kind="sample")


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
