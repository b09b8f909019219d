"""A motif forced to mirror or turn: of all axes the one that costs least, and the cheapest yarn for alike cells."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Literal

from wale.picture.matching import Costs, Motif, total

Kind = Literal["sides", "rows", "both", "turn"]
Cell = tuple[int, int]
"""Row from the bottom and column from the left, from 0."""
Orbits = tuple[tuple[Cell, ...], ...]
"""Cells that have one yarn together."""
_MOST_TRIED = 2_000_000
"""Most cells times axes that are tried; the axes of a larger motif run through its middle."""


def singles(table: Costs) -> Orbits:
    """Give every cell on its own."""
    return tuple(((row, column),) for row in range(len(table)) for column in range(len(table[0])))


def symmetric(table: Costs, kind: Kind) -> tuple[Motif, Orbits]:
    """Give the cheapest motif of a kind of symmetry, and its cells that go together.

    Args:
        table: costs of one repeat that stands straight above itself.
        kind: `sides`: left and right are alike; `rows`: top and bottom; `both`; `turn`: it is alike on its head.
    """
    best: tuple[int, Motif, Orbits] | None = None
    for axes in _axes(kind, len(table), len(table[0])):
        orbits = _orbits(kind, axes, len(table), len(table[0]))
        motif = _cheapest(table, orbits)
        cost = total(table, motif)
        if best is None or cost < best[0]:
            best = (cost, motif, orbits)
    assert best is not None
    return best[1], best[2]


def _axes(kind: Kind, rows: int, columns: int) -> Iterator[Cell]:
    """Give sums of rows and of columns that change places; the middle of the repeat first."""
    middle = (rows - 1, columns - 1)
    up = sorted(range(rows), key=lambda axis: abs(axis - middle[0])) if kind != "sides" else [0]
    along = sorted(range(columns), key=lambda axis: abs(axis - middle[1])) if kind != "rows" else [0]
    if len(up) * len(along) * rows * columns > _MOST_TRIED:
        up, along = up[:1], along[:1]
    return product(up, along)


def _orbits(kind: Kind, axes: Cell, rows: int, columns: int) -> Orbits:
    up, along = axes
    found: dict[Cell, tuple[Cell, ...]] = {}
    for row, column in product(range(rows), range(columns)):
        if (row, column) in found:
            continue
        over, across = (up - row) % rows, (along - column) % columns
        images = {
            "sides": [(row, across)],
            "rows": [(over, column)],
            "both": [(row, across), (over, column), (over, across)],
            "turn": [(over, across)],
        }[kind]
        orbit = tuple(dict.fromkeys([(row, column), *images]))
        found.update(dict.fromkeys(orbit, orbit))
    return tuple(dict.fromkeys(found.values()))


def _cheapest(table: Costs, orbits: Orbits) -> Motif:
    cells = [[0] * len(row) for row in table]
    for orbit in orbits:
        prices = [sum(yarn) for yarn in zip(*(table[row][column] for row, column in orbit), strict=True)]
        for row, column in orbit:
            cells[row][column] = prices.index(min(prices))
    return tuple(tuple(row) for row in cells)
