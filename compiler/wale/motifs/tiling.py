"""A motif as what it covers the fabric with: rows of cells that are repeated, each repeat above perhaps shifted.

Columns count from 0 at the right, rows from 0 at the bottom, as a chart is worked. `rows` stand bottom row first, each
from left to right as it is typed.
"""

from __future__ import annotations

from math import gcd

from msgspec import Struct

Rows = tuple[tuple[str, ...], ...]


class Tiling(Struct, frozen=True):
    """Rows that cover the fabric; the repeat above starts `shift` stitches further to the left."""

    rows: Rows
    shift: int = 0

    @property
    def width(self) -> int:
        """Stitches of the repeat."""
        return len(self.rows[0])

    @property
    def period(self) -> int:
        """Rows until the repeat stands again at the same stitch, shifts counted."""
        return period(self.rows, self.shift)

    def cell(self, column: int, row: int) -> str:
        """Give the yarn at a column from the right and a row from the bottom; both may be any whole number."""
        times, inside = divmod(row, len(self.rows))
        line = self.rows[inside]
        return line[-1 - (column - self.shift * times) % len(line)]

    def line(self, row: int, start: int = 0, width: int = 0) -> tuple[str, ...]:
        """Give the cells of a row from left to right, `width` of them (one repeat where 0), from column `start` on."""
        return tuple(self.cell(start + column, row) for column in reversed(range(width or self.width)))

    def rectangle(self) -> Tiling:
        """Give the same cover without a shift: the rows of a whole period."""
        return self if self.shift % self.width == 0 else Tiling(tuple(self.line(row) for row in range(self.period)))


def period(rows: Rows, shift: int) -> int:
    """Give the rows until a repeat stands again at the same stitch: the rows, times the shifts that go round."""
    width = len(rows[0])
    return len(rows) * (width // gcd(width, shift))
