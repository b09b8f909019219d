"""Floats of a motif kept within a limit: one after the other, by the cheapest of the cells that help most."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from wale.picture.matching import Costs, Motif
from wale.picture.symmetry import Cell, Orbits


class Float(Struct, frozen=True):
    """Stitches of a row for which a yarn of that row is not used, over the repeat's end."""

    yarn: int
    columns: tuple[int, ...]


def floats(row: Sequence[int]) -> list[Float]:
    """Give all floats of a row, repeated to its sides; a row of one yarn has none."""
    width = len(row)
    found = []
    for yarn in sorted(set(row)) if len(set(row)) > 1 else ():
        places = [column for column in range(width) if row[column] == yarn]
        for place, following in zip(places, [*places[1:], places[0] + width], strict=True):
            if following - place > 1:
                found.append(Float(yarn, tuple(column % width for column in range(place + 1, following))))
    return found


def shortened(table: Costs, motif: Motif, orbits: Orbits, limit: int) -> Motif | None:
    """Give the motif with no float of more than `limit` stitches, or None where this way does not lead there.

    Args:
        table: what each yarn costs in each cell.
        motif: the motif so far.
        orbits: cells that are changed together.
        limit: stitches, at least 1.
    """
    together = {cell: orbit for orbit in orbits for cell in orbit}
    cells = [list(row) for row in motif]
    excess = [_excess(row, limit) for row in cells]
    while any(excess):
        number = next(index for index, over in enumerate(excess) if over)
        best: tuple[int, int, Cell, int] | None = None
        for long in floats(cells[number]):
            for column in long.columns if len(long.columns) > limit else ():
                change, price = _change(table, cells, excess, together[number, column], long.yarn, limit)
                if change < 0 and (best is None or (change, price) < best[:2]):
                    best = (change, price, (number, column), long.yarn)
            if best is not None:
                break
        if best is None:
            return None
        for row, column in together[best[2]]:
            cells[row][column] = best[3]
        for row in {row for row, _ in together[best[2]]}:
            excess[row] = _excess(cells[row], limit)
    return tuple(tuple(row) for row in cells)


def _excess(row: Sequence[int], limit: int) -> int:
    """Give by how many stitches the floats of a row are too long altogether."""
    last: dict[int, int] = {}
    over = 0
    for column, yarn in enumerate(row):
        if yarn in last and column - last[yarn] - 1 > limit:
            over += column - last[yarn] - 1 - limit
        last[yarn] = column
    if len(last) > 1:
        for yarn, column in last.items():
            over += max(0, row.index(yarn) + len(row) - column - 1 - limit)
    return over


def _change(
    table: Costs, cells: list[list[int]], excess: list[int], orbit: tuple[Cell, ...], yarn: int, limit: int
) -> tuple[int, int]:
    """Give what a change of cells takes off the excess (less than 0 where it helps), and what it costs."""
    price = sum(table[row][column][yarn] - table[row][column][cells[row][column]] for row, column in orbit)
    change = 0
    for number in {row for row, _ in orbit}:
        row = list(cells[number])
        for other, column in orbit:
            if other == number:
                row[column] = yarn
        change += _excess(row, limit) - excess[number]
    return change, price
