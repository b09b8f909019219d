"""Which moves take a fabric to itself.

Each row has a class (what it is up to a rotation), an offset in it and a period. A symmetry moves row y to row
y + b or b - y; it is there when the classes agree and the offsets leave one way along, a congruence for each row.
"""

from __future__ import annotations

from math import gcd, lcm

from msgspec import Struct

from wale.motifs.tiling import Tiling


class _Row(Struct, frozen=True):
    """A row's cells are those of `cells`, `offset` stitches further to the left, and come again after `period`."""

    cells: bytes
    offset: int
    period: int


class Cover:
    """The rows of a cover by class, and what maps them on one another."""

    def __init__(self, motif: Tiling) -> None:
        yarns = {yarn: number for number, yarn in enumerate(dict.fromkeys(c for row in motif.rows for c in row))}
        lines = [bytes(yarns[cell] for cell in motif.line(row)[::-1]) for row in range(len(motif.rows))]
        self.rows = [_row(line) for line in lines]
        # Column -c of a row, so that column 0 stays where it is.
        self.back = [_row(line[:1] + line[:0:-1]) for line in lines]
        self.shift = motif.shift

    def on(self, height: int, shift: int) -> Cover:
        """Give the same cover by its smallest repeat."""
        cover = object.__new__(Cover)
        cover.rows, cover.back, cover.shift = self.rows[:height], self.back[:height], shift
        return cover

    def lattice(self) -> tuple[int, int, int]:
        """Give rows, stitches along, and the stitches of the smallest repeat."""
        width = lcm(*(row.period for row in self.rows))
        rows = len(self.rows)
        for height in range(1, rows):
            if rows % height == 0 and (along := self.move(0, 0, height)) is not None:
                return height, along % width, width
        return rows, self.shift % width, width

    def first(self, across: int, over: int, height: int) -> tuple[int, int] | None:
        """Give one symmetry (a, b): column c goes to c + a, or a - c where `across`; row y to y + b, or b - y."""
        found = ((self.move(across, over, up), up) for up in range(height))
        return next(((along, up) for along, up in found if along is not None), None)

    def move(self, across: int, over: int, up: int) -> int | None:
        """Give how far along the rows go, or None where their cells do not agree."""
        along, step = 0, 1
        others, way = (self.back, -1) if across else (self.rows, 1)
        for number, row in enumerate(self.rows):
            times, inside = divmod(up - number if over else up + number, len(self.rows))
            other = others[inside]
            if other.cells != row.cells:
                return None
            # The other row's offset, shifts counted; a row read backwards is shifted the other way.
            need = way * (other.offset + way * self.shift * times - row.offset)
            common = gcd(step, row.period)
            if (need - along) % common:
                return None
            while (need - along) % row.period:
                along += step
            step = lcm(step, row.period)
        return along % step


def _row(cells: bytes) -> _Row:
    width, ring = len(cells), cells + cells
    period = ring.find(cells, 1)
    offset = min(range(period), key=lambda start: ring[start : start + width])
    return _Row(ring[offset : offset + width], offset, period)
