"""What lies over a chart's colours: grid, marks, repeat, numbers and starts, each a path or a few texts."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from wale.outputs import marks
from wale.outputs.svg import GREY, INK, label, number
from wale.pattern import Chart

TEXT = 2.4
DIGIT = 0.53 * TEXT
TOP = 0.6
_MANY_ROWS = 200
_DIAMOND = 1.1
CHANGED = "#8c1800"
"""The colour of what tells an old version from a new one: dark enough to be told in grey by its form."""
_FRAMED = 4.0
"""In larger cells, mm, a frame is no heavier."""
# Cells of a smaller side, mm, are not lined one by one; numbers stand at the first of these steps that leaves room.
_FINE = 1.0
_STEPS = (1, 5, 10, 50, 100, 500, 1000)


class StartGroup(Struct, frozen=True):
    """Starts in one column: the letter below the chart, the column, and who starts there."""

    letter: str
    column: int
    text: str


def start_groups(chart: Chart) -> tuple[StartGroup, ...]:
    """The chart's starts, one group a column, the first column first: "back XS, M; sleeve L"."""
    columns: dict[int, list[str]] = {}
    for start in chart.starts:
        columns.setdefault(start.column, []).append(start.text)
    return tuple(
        StartGroup(_letter(i), column, "; ".join(texts)) for i, (column, texts) in enumerate(sorted(columns.items()))
    )


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else _letter(index // 26 - 1) + _letter(index % 26)


class Grid(Struct, frozen=True):
    """Where cells lie: the tile's columns and rows, the cell's sides, the left edge, and where columns count from."""

    columns: tuple[int, int]
    rows: tuple[int, int]
    wide: float
    tall: float
    left: float
    top: float = TOP
    from_left: bool = False

    @property
    def right(self) -> float:
        """The right edge of the cells."""
        return self.left + (self.columns[1] - self.columns[0] + 1) * self.wide

    @property
    def bottom(self) -> float:
        """The lower edge of the cells."""
        return self.top + (self.rows[1] - self.rows[0] + 1) * self.tall

    def x(self, column: float) -> float:
        """The edge of a column that is worked last on right-side rows, mostly its left (half columns allowed)."""
        along = (column - self.columns[0] + 1) * self.wide
        return self.left + along if self.from_left else self.right - along

    def y(self, row: float) -> float:
        """The lower edge of a row."""
        return self.bottom - (row - self.rows[0]) * self.tall

    @property
    def is_fine(self) -> bool:
        """Whether cells are too small for marks and for lines between them."""
        return min(self.wide, self.tall) < _FINE

    def lines(self) -> str:
        """Thin lines at every cell, heavier ones at whole tens and round the tile; or at tens and hundreds.

        The latter where cells are fine. The heavier ones have a light rim, which shows on dark cells and in grey.
        """
        step = 10 if self.is_fine else 1
        thin: list[str] = []
        heavy: list[str] = []
        for column in range(self.columns[0] - 1, self.columns[1] + 1):
            edge = column in (self.columns[0] - 1, self.columns[1])
            if edge or column % step == 0:
                run = f"M{number(self.x(column))} {number(self.top)}V{number(self.bottom)}"
                (heavy if edge or column % (10 * step) == 0 else thin).append(run)
        for row in range(self.rows[0], self.rows[1] + 2):
            edge = row in (self.rows[0], self.rows[1] + 1)
            if edge or (row - 1) % step == 0:
                run = f"M{number(self.left)} {number(self.y(row))}H{number(self.right)}"
                (heavy if edge or (row - 1) % (10 * step) == 0 else thin).append(run)
        return (
            f'<path d="{"".join(thin)}" fill="none" stroke="{GREY}" stroke-width="0.1"/>'
            f'<path d="{"".join(heavy)}" fill="none" stroke="#ffffff" stroke-width="0.6" stroke-opacity="0.75"/>'
            f'<path d="{"".join(heavy)}" fill="none" stroke="#333333" stroke-width="0.3" stroke-linecap="square"/>'
        )


def mark_paths(chart: Chart, cells: tuple[tuple[int, ...], ...], grid: Grid) -> str:
    """The marks of all cells, and the hatching of those without a stitch: one path a colour.

    `cells` holds the tile's rows, bottom row first, left to right as seen.
    """
    centres: dict[int, list[tuple[float, float]]] = {}
    for r, row in enumerate(cells):
        y = grid.bottom - (r + 0.5) * grid.tall
        for c, colour in enumerate(row):
            centres.setdefault(colour, []).append((grid.left + (c + 0.5) * grid.wide, y))
    half = min(grid.wide, grid.tall) / 2
    drawn = [hatch(centres[-1], grid)] if -1 in centres else []
    names = marks.shapes(colour.mark for colour in chart.colours)
    for index in sorted(set(centres) - {-1}):
        if names[index]:
            drawn.append(marks.path(names[index], chart.colours[index].colour, centres[index], half))
    return "".join(drawn)


def hatch(centres: list[tuple[float, float]], grid: Grid) -> str:
    """Slanting grey lines over cells without a stitch, one path; `centres` are theirs."""
    wide, tall = grid.wide, grid.tall
    runs = "".join(
        f"M{number(x - wide / 2)} {number(y + tall / 2)}l{number(wide)} {number(-tall)}"
        f"M{number(x - wide / 2)} {number(y)}l{number(wide / 2)} {number(-tall / 2)}"
        f"M{number(x)} {number(y + tall / 2)}l{number(wide / 2)} {number(-tall / 2)}"
        for x, y in centres
    )
    return f'<path d="{runs}" fill="none" stroke="{GREY}" stroke-width="0.15"/>'


def repeat(chart: Chart, grid: Grid) -> str:
    """The bold outline of the repeat, as far as it lies in this tile."""
    if chart.repeat is None:
        return ""
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


def changed(cells: Iterable[tuple[int, int]], grid: Grid) -> str:
    """A heavy frame inside each cell that changes; `cells` are (row, column).

    Its light rim shows on dark cells and in grey. Each cell has its own, so that none looks framed by its neighbours.
    """
    side = min(min(grid.wide, grid.tall), _FRAMED)
    off = side * 0.12
    frames = ""
    for row, column in sorted(cells):
        if grid.rows[0] <= row <= grid.rows[1] and grid.columns[0] <= column <= grid.columns[1]:
            left, right = sorted((grid.x(column - 1), grid.x(column)))
            frames += (
                f"M{number(left + off)} {number(grid.y(row + 1) + off)}H{number(right - off)}"
                f"V{number(grid.y(row) - off)}H{number(left + off)}z"
            )
    if not frames:
        return ""
    return (
        f'<path d="{frames}" fill="none" stroke="#ffffff" stroke-width="{number(side * 0.3)}"/>'
        f'<path class="changed" d="{frames}" fill="none" stroke="{CHANGED}" stroke-width="{number(side * 0.19)}"/>'
    )


def centre(chart: Chart, grid: Grid) -> str:
    """The centre line, broken, as far as it lies in this tile."""
    if not grid.columns[0] - 1 <= chart.centre <= grid.columns[1] or not chart.centre:
        return ""
    run = f"M{number(grid.x(chart.centre))} {number(grid.top)}V{number(grid.bottom)}"
    return f'<path d="{run}" fill="none" stroke="{INK}" stroke-width="0.4" stroke-dasharray="1.6 0.8"/>'


def row_numbers(chart: Chart, grid: Grid) -> str:
    """Numbers at the side where each row starts: odd rows right, even rows left when flat; else all right.

    For a left-handed knitter the other way round.

    Of more than two hundred rows every fifth is numbered, beside the heavier line at each ten; of fine ones, fewer.
    """
    drawn = []
    least = 1 if len(chart.rows) <= _MANY_ROWS else 5
    step = max(least, _step(TEXT / grid.tall) if grid.is_fine else 1)
    for row in range(grid.rows[0], grid.rows[1] + 1):
        if row % step and row not in (1, len(chart.rows)):
            continue
        y = grid.y(row + 0.5)
        size = TEXT if chart.flat else min(TEXT, grid.tall)
        if (chart.flat and row % 2 == 0) is not chart.from_left:
            drawn.append(label(grid.left - 0.8, y, str(row), size, anchor="end"))
        else:
            drawn.append(label(grid.right + 0.8, y, str(row), size, anchor="start"))
    return "".join(drawn)


def _step(least: float) -> int:
    return next((step for step in _STEPS if step > least), _STEPS[-1])


def column_numbers(grid: Grid, height: float) -> str:
    """Every fifth, tenth or further column's number, at the foot of a picture `height` tall."""
    step = max(5, _step(4 * DIGIT / grid.wide))
    shown = [c for c in range(grid.columns[0], grid.columns[1] + 1) if c == 1 or c % step == 0]
    return "".join(label(grid.x(c - 0.5), height - 1.8, str(c), TEXT) for c in shown)


def starts(groups: tuple[StartGroup, ...], grid: Grid, own: tuple[int, int]) -> str:
    """Small triangles below the first row, each with the letter of its group; `own` are the part's own columns."""
    drawn = []
    for group in groups:
        if not own[0] <= group.column <= own[1]:
            continue
        x, y = grid.x(group.column - 0.5), grid.bottom + 0.7
        drawn.append(f'<path d="M{number(x)} {number(y)}l0.85 1.5h-1.7z" fill="{INK}"/>')
        drawn.append(label(x, y + 2.9, group.letter, TEXT, bold=True))
    return "".join(drawn)


def pale(grid: Grid, columns: tuple[int, int], rows: tuple[int, int]) -> str:
    """A veil over cells that lie beyond a part's own columns and rows; nothing where there are none."""
    if (grid.columns, grid.rows) == (columns, rows):
        return ""
    left, right = sorted((grid.x(columns[0] - 1), grid.x(columns[1])))
    top, bottom = grid.y(rows[1] + 1), grid.y(rows[0])
    whole = f"M{number(grid.left)} {number(grid.top)}H{number(grid.right)}V{number(grid.bottom)}H{number(grid.left)}Z"
    own = f"M{number(left)} {number(top)}V{number(bottom)}H{number(right)}V{number(top)}Z"
    return f'<path d="{whole}{own}" fill="#ffffff" fill-opacity="0.6" fill-rule="evenodd"/>'


def joints(grid: Grid, columns: tuple[int, int], rows: tuple[int, int]) -> str:
    """The broken lines at which parts are joined, with a diamond at both ends."""
    lines, diamonds = "", ""
    for column, is_joint in (
        (columns[0] - 1, grid.columns[0] < columns[0]),
        (columns[1], columns[1] < grid.columns[1]),
    ):
        if is_joint:
            x = grid.x(column)
            lines += f"M{number(x)} {number(grid.top)}V{number(grid.bottom)}"
            diamonds += _diamond(x, grid.top + _DIAMOND) + _diamond(x, grid.bottom - _DIAMOND)
    for row, is_joint in ((rows[0], grid.rows[0] < rows[0]), (rows[1] + 1, rows[1] < grid.rows[1])):
        if is_joint:
            y = grid.y(row)
            lines += f"M{number(grid.left)} {number(y)}H{number(grid.right)}"
            diamonds += _diamond(grid.left + _DIAMOND, y) + _diamond(grid.right - _DIAMOND, y)
    if not lines:
        return ""
    return (
        f'<path d="{lines}" fill="none" stroke="{INK}" stroke-width="0.5" stroke-dasharray="2.4 1"/>'
        f'<path d="{diamonds}" fill="{INK}" stroke="#ffffff" stroke-width="0.2"/>'
    )


def _diamond(x: float, y: float) -> str:
    side = number(_DIAMOND)
    return f"M{number(x - _DIAMOND)} {number(y)}l{side} -{side}l{side} {side}l-{side} {side}z"
