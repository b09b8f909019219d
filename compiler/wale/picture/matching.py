"""Cells matched with yarns: the nearest colour by CIEDE2000, and what every other yarn would cost."""

from __future__ import annotations

from collections.abc import Sequence

from wale.picture.grid import Cells, Colour

Costs = tuple[tuple[tuple[int, ...], ...], ...]
"""Rows from the bottom up, cells left to right: for each yarn its CIEDE2000 from the cell, in thousandths."""
Motif = tuple[tuple[int, ...], ...]
"""Rows from the bottom up, cells left to right, indexes of yarns."""


def costs(found: Cells, colours: Sequence[str]) -> Costs:
    """Give how far each cell is from each yarn; whole thousandths, so that ties are the same everywhere.

    Args:
        found: mean colours.
        colours: of the yarns, `#rrggbb`.
    """
    from coloraide import Color

    yarns = [Color(colour).convert("lab-d65") for colour in colours]
    known: dict[Colour, tuple[int, ...]] = {}
    for cell in dict.fromkeys(cell for row in found for cell in row):
        seen = Color("srgb", [part / 255 for part in cell]).convert("lab-d65")
        known[cell] = tuple(round(1000 * seen.delta_e(yarn, method="2000")) for yarn in yarns)
    return tuple(tuple(known[cell] for cell in row) for row in found)


def nearest(table: Costs) -> Motif:
    """Give the nearest yarn of each cell, the first one of equals."""
    return tuple(tuple(cell.index(min(cell)) for cell in row) for row in table)


def total(table: Costs, motif: Motif) -> int:
    """Give what a motif costs altogether, in thousandths."""
    return sum(cell[yarn] for row, line in zip(table, motif, strict=True) for cell, yarn in zip(row, line, strict=True))
