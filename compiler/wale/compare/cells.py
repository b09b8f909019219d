"""Motifs of two plans compared cell by cell, counted as a chart is: rows from the bottom, columns from the right."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest

from msgspec import Struct

from wale.compare.numbers import Json

Rows = Sequence[Sequence[str]]


class Cell(Struct, frozen=True):
    """A cell that is in another yarn; row and column from 1. None: that version's motif has no such cell."""

    row: int
    column: int
    before: str | None
    after: str | None


class MotifChange(Struct, frozen=True):
    """What became of a motif.

    Attributes:
        before, after: its rows of yarn names, the bottom row first, each left to right; None: it has no such motif.
        cells: cells that differ, row by row; rows and columns that only one version has are among them. Empty for a
            motif that came or went.
        shifts: stitches by which the repeat above starts to the left, before and after.
    """

    name: str
    before: Rows | None
    after: Rows | None
    cells: tuple[Cell, ...]
    shifts: tuple[int, int] = (0, 0)


def motif_changes(before: Json, after: Json) -> tuple[MotifChange, ...]:
    """Give the motifs that are not the same in two plans, in the order of the first."""
    old, new = ({one["name"]: one for one in plan["motifs"]} for plan in (before, after))
    changes = (_change(name, old, new) for name in dict.fromkeys((*old, *new)))
    return tuple(one for one in changes if one.before != one.after or one.shifts[0] != one.shifts[1])


def _change(name: str, old: Mapping[str, Json], new: Mapping[str, Json]) -> MotifChange:
    one, other = old.get(name), new.get(name)
    if one is None or other is None:
        return MotifChange(name, one["rows"] if one else None, other["rows"] if other else None, ())
    shifts = one["shift"], other["shift"]
    return MotifChange(name, one["rows"], other["rows"], tuple(_cells(one["rows"], other["rows"])), shifts)


def _cells(before: Rows, after: Rows) -> Iterator[Cell]:
    for row, (old, new) in enumerate(zip_longest(before, after, fillvalue=()), 1):
        for column, (one, other) in enumerate(zip_longest(reversed(old), reversed(new)), 1):
            if one != other:
                yield Cell(row, column, one, other)
