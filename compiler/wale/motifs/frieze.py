"""The bands of a motif, rows between plain ones, and what leaves each of them as it is when it is a border alone.

The seven frieze groups in the notation of the International Tables for Crystallography: p1, p11g, p1m1, p11m, p2, p2mg
and p2mm.
"""

from __future__ import annotations

from msgspec import Struct

from wale.motifs.cover import Cover
from wale.motifs.tiling import Rows, Tiling


class Frieze(Struct, frozen=True):
    """A band: its first and last row from 0 (the last one may lie in the repeat above) and its frieze group."""

    first: int
    last: int
    group: str


def frieze(rows: Rows) -> str:
    """Give the frieze group of rows that are repeated to the sides only."""
    cover, top = Cover(Tiling(rows)), len(rows) - 1
    mirror, turn = cover.move(1, 0, 0) is not None, cover.move(1, 1, top) is not None
    along = cover.move(0, 1, top)
    if along is None:
        return "p1m1" if mirror else "p2" if turn else "p1"
    if mirror:
        return "p2mg" if along else "p2mm"
    return "p11g" if along else "p11m"


def bands(motif: Tiling) -> tuple[Frieze, ...]:
    """Give the runs of rows between rows of one colour; all rows are one band where none is of one colour."""
    height = len(motif.rows)
    plain = [row for row in range(height) if len(set(motif.rows[row])) == 1]
    if not plain:
        return (Frieze(0, height - 1, frieze(motif.rows)),)
    found = []
    # The last plain row first, so that a band which starts at row 0 is told by the rows of this repeat.
    for below, above in zip([plain[-1] - height, *plain[:-1]], plain, strict=True):
        if above - below > 1:
            rows = tuple(motif.line(row) for row in range(below + 1, above))
            up = height if below + 1 < 0 else 0
            found.append(Frieze(below + 1 + up, above - 1 + up, frieze(rows)))
    return tuple(sorted(found, key=lambda band: band.first))
