"""A stitch chart as SVG: one small picture for the colours, one path a colour for the marks, few paths for the grid.

Never one element a cell: ten thousand cells take a fraction of a second to typeset this way and most of ten otherwise.
Columns and rows count from 1 at the lower right, as the chart is read. Lengths are millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from math import ceil

from wale.outputs import marks
from wale.outputs.svg import GREY, INK, figure, label, number, png_uri
from wale.pattern import Chart

TEXT = 2.4
_DIGIT = 0.53 * TEXT
_PIXELS = 4
_NO_STITCH = "#ffffff"


@dataclass(frozen=True, slots=True)
class Room:
    """What a chart may take: page width and height, the wished cell width, the least side of a cell; mm."""

    width: float
    height: float
    cell: float
    least: float = 2.0


@dataclass(frozen=True, slots=True)
class Tile:
    """A part of a chart that fits its room: its columns and rows (first, last; from the lower right) and picture."""

    columns: tuple[int, int]
    rows: tuple[int, int]
    svg: str
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class StartGroup:
    """Starts in one column: the letter below the chart, the column, and who starts there."""

    letter: str
    column: int
    text: str


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


def start_groups(chart: Chart) -> tuple[StartGroup, ...]:
    """The chart's starts, one group a column from the right: "back XS, M; sleeve L"."""
    columns: dict[int, dict[str, list[str]]] = {}
    for start in chart.starts:
        piece, comma, size = start.text.rpartition(", ")
        sizes = columns.setdefault(start.column, {}).setdefault(piece if comma else start.text, [])
        if comma:
            sizes.append(size)
    return tuple(
        StartGroup(_letter(i), column, "; ".join(f"{p} {', '.join(s)}".strip() for p, s in columns[column].items()))
        for i, column in enumerate(sorted(columns))
    )


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else _letter(index // 26 - 1) + _letter(index % 26)


def occurring(chart: Chart) -> tuple[int, ...]:
    """Indexes of the colours that the chart uses, in their order; -1 first if cells without a stitch occur."""
    return tuple(sorted({cell for row in chart.rows for cell in row}))


def tiles(chart: Chart, room: Room, ident: str) -> tuple[Tile, ...]:
    """The chart in as few parts as its room allows, lower right part first, then leftwards, then upwards.

    The cell takes the wished width, or less so that the chart fits, but its smaller side never less than `room.least`;
    beyond that the chart is split, after whole tens where it can be. `ident` is unique on the page.
    """
    count = (len(chart.rows[0]), len(chart.rows))
    inner = room.width - 2 * _gutter(chart)
    tall = room.height - _foot(chart)
    least = room.least * max(1.0, chart.cell_ratio)
    across = min(count[0], max(1, int(inner / least + 1e-9)))
    spans = _spans(count[0], across)
    widest = max(last - first + 1 for first, last in spans)
    cell = min(room.cell, inner / widest)
    if len(spans) == 1 and count[1] * max(cell, least) / chart.cell_ratio > tall >= count[1] * least / chart.cell_ratio:
        cell = tall * chart.cell_ratio / count[1]
    cell = max(cell, least)
    up = _spans(count[1], max(1, int(tall * chart.cell_ratio / cell + 1e-9)))
    many = len(spans) * len(up) > 1
    return tuple(
        _tile(chart, columns, rows, cell, f"{ident}-{n}" if many else ident)
        for n, (rows, columns) in enumerate(((r, c) for r in up for c in spans), 1)
    )


def _spans(count: int, most: int) -> tuple[tuple[int, int], ...]:
    """1..count cut into the fewest spans of at most `most`, about even, each but the last a whole number of tens."""
    parts = ceil(count / most)
    size = ceil(count / parts)
    tens = ceil(size / 10) * 10
    if parts > 1 and tens <= most:
        size = tens
    return tuple((first, min(first + size - 1, count)) for first in range(1, count + 1, size))


def _gutter(chart: Chart) -> float:
    return len(str(len(chart.rows))) * _DIGIT + 1.6


def _foot(chart: Chart) -> float:
    return 4.2 + (5.0 if chart.starts else 0.0)


def _tile(chart: Chart, columns: tuple[int, int], rows: tuple[int, int], cell: float, ident: str) -> Tile:
    across, up = columns[1] - columns[0] + 1, rows[1] - rows[0] + 1
    total = len(chart.rows[0])
    cells = tuple(row[total - columns[1] : total - columns[0] + 1] for row in chart.rows[rows[0] - 1 : rows[1]])
    grid = _Grid(columns, rows, cell, cell / chart.cell_ratio, _gutter(chart) if chart.flat else 0.6)
    starts = chart.starts if rows[0] == 1 else ()
    width = grid.left + across * grid.wide + _gutter(chart)
    height = 0.6 + up * grid.tall + (_foot(chart) if starts else 4.2)
    image = png_uri(picture(cells, tuple(colour.colour for colour in chart.colours)))
    body = (
        f'<image href="{image}" x="{number(grid.left)}" y="{number(grid.top)}" width="{number(across * grid.wide)}" '
        f'height="{number(up * grid.tall)}" preserveAspectRatio="none" image-rendering="pixelated"/>'
        + _marks(chart, cells, grid)
        + grid.lines()
        + _repeat(chart, grid)
        + _row_numbers(chart, grid)
        + (_starts(chart, grid) if starts else "")
        + _column_numbers(grid, width, height)
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
        figure(width, height, body, ident=ident, title=title, desc=describe(chart), kind="chart"),
        width,
        height,
    )


def describe(chart: Chart) -> str:
    """The chart's make-up in a few sentences: colours, direction, repeat, where the words are."""
    names = [chart.colours[i].name for i in occurring(chart) if i >= 0]
    first, last, low, high = chart.repeat
    side = (
        "odd rows from right to left, even rows from left to right" if chart.flat else "every round from right to left"
    )
    words = " The chart in words follows." if chart.words else ""
    return f"Colours: {', '.join(names)}. Read {side}. The repeat is columns {first} to {last}, rows {low} to {high}.{words}"


@dataclass(frozen=True, slots=True)
class _Grid:
    """Where cells lie: the tile's columns and rows, the cell's sides, the left edge."""

    columns: tuple[int, int]
    rows: tuple[int, int]
    wide: float
    tall: float
    left: float
    top: float = 0.6

    @property
    def right(self) -> float:
        return self.left + (self.columns[1] - self.columns[0] + 1) * self.wide

    @property
    def bottom(self) -> float:
        return self.top + (self.rows[1] - self.rows[0] + 1) * self.tall

    def x(self, column: float) -> float:
        """The left edge of a column (half columns allowed)."""
        return self.right - (column - self.columns[0] + 1) * self.wide

    def y(self, row: float) -> float:
        """The lower edge of a row."""
        return self.bottom - (row - self.rows[0]) * self.tall

    def lines(self) -> str:
        """Thin lines at every cell, heavier ones at whole tens and round the tile: two paths."""
        thin, heavy = [], []
        for column in range(self.columns[0] - 1, self.columns[1] + 1):
            edge = column in (self.columns[0] - 1, self.columns[1])
            run = f"M{number(self.x(column))} {number(self.top)}V{number(self.bottom)}"
            (heavy if edge or column % 10 == 0 else thin).append(run)
        for row in range(self.rows[0], self.rows[1] + 2):
            edge = row in (self.rows[0], self.rows[1] + 1)
            run = f"M{number(self.left)} {number(self.y(row))}H{number(self.right)}"
            (heavy if edge or (row - 1) % 10 == 0 else thin).append(run)
        return (
            f'<path d="{"".join(thin)}" fill="none" stroke="{GREY}" stroke-width="0.1"/>'
            f'<path d="{"".join(heavy)}" fill="none" stroke="#333333" stroke-width="0.26" stroke-linecap="square"/>'
        )


def _marks(chart: Chart, cells: tuple[tuple[int, ...], ...], grid: _Grid) -> str:
    centres: dict[int, list[tuple[float, float]]] = {}
    for r, row in enumerate(cells):
        y = grid.bottom - (r + 0.5) * grid.tall
        for c, colour in enumerate(row):
            centres.setdefault(colour, []).append((grid.left + (c + 0.5) * grid.wide, y))
    half = min(grid.wide, grid.tall) / 2
    drawn = [_hatch(centres[-1], grid)] if -1 in centres else []
    names = marks.shapes(colour.mark for colour in chart.colours)
    for index in sorted(set(centres) - {-1}):
        if names[index]:
            drawn.append(marks.path(names[index], chart.colours[index].colour, centres[index], half))
    return "".join(drawn)


def _hatch(centres: list[tuple[float, float]], grid: _Grid) -> str:
    wide, tall = grid.wide, grid.tall
    runs = "".join(
        f"M{number(x - wide / 2)} {number(y + tall / 2)}l{number(wide)} {number(-tall)}"
        f"M{number(x - wide / 2)} {number(y)}l{number(wide / 2)} {number(-tall / 2)}"
        f"M{number(x)} {number(y + tall / 2)}l{number(wide / 2)} {number(-tall / 2)}"
        for x, y in centres
    )
    return f'<path d="{runs}" fill="none" stroke="{GREY}" stroke-width="0.15"/>'


def _repeat(chart: Chart, grid: _Grid) -> str:
    """The bold outline of the repeat, as far as it lies in this tile."""
    first, last, low, high = chart.repeat
    left, right = max(first, grid.columns[0]), min(last, grid.columns[1])
    bottom, top = max(low, grid.rows[0]), min(high, grid.rows[1])
    if left > right or bottom > top:
        return ""
    x1, x2, y1, y2 = grid.x(right), grid.x(left - 1), grid.y(top + 1), grid.y(bottom)
    sides = (
        (right == last, f"M{number(x1)} {number(y1)}V{number(y2)}"),
        (left == first, f"M{number(x2)} {number(y1)}V{number(y2)}"),
        (top == high, f"M{number(x1)} {number(y1)}H{number(x2)}"),
        (bottom == low, f"M{number(x1)} {number(y2)}H{number(x2)}"),
    )
    drawn = "".join(run for inside, run in sides if inside)
    return f'<path d="{drawn}" fill="none" stroke="{INK}" stroke-width="0.7" stroke-linecap="square"/>'


def _row_numbers(chart: Chart, grid: _Grid) -> str:
    drawn = []
    for row in range(grid.rows[0], grid.rows[1] + 1):
        y = grid.y(row + 0.5)
        size = TEXT if chart.flat else min(TEXT, grid.tall)
        if chart.flat and row % 2 == 0:
            drawn.append(label(grid.left - 0.8, y, str(row), size, anchor="end"))
        else:
            drawn.append(label(grid.right + 0.8, y, str(row), size, anchor="start"))
    return "".join(drawn)


def _column_numbers(grid: _Grid, width: float, height: float) -> str:
    step = 5 if grid.wide * 5 > 4 * _DIGIT else 10
    shown = [c for c in range(grid.columns[0], grid.columns[1] + 1) if c == 1 or c % step == 0]
    return "".join(label(grid.x(c - 0.5), height - 1.8, str(c), TEXT) for c in shown)


def _starts(chart: Chart, grid: _Grid) -> str:
    """Small triangles below the first row, each with the letter of its group."""
    drawn = []
    for group in start_groups(chart):
        if not grid.columns[0] <= group.column <= grid.columns[1]:
            continue
        x, y = grid.x(group.column - 0.5), grid.bottom + 0.7
        drawn.append(f'<path d="M{number(x)} {number(y)}l0.85 1.5h-1.7z" fill="{INK}"/>')
        drawn.append(label(x, y + 2.9, group.letter, TEXT, bold=True))
    return "".join(drawn)


def cell_sample(chart: Chart, index: int, ident: str) -> str:
    """One cell of the chart as its legend shows it, -1 for a cell without a stitch."""
    side = 4.0
    tall = side / chart.cell_ratio
    if index < 0:
        grid = _Grid((1, 1), (1, 1), side, tall, 0.2, 0.2)
        inside = _hatch([(side / 2 + 0.2, tall / 2 + 0.2)], grid)
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
