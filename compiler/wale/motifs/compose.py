"""Motifs put together: bands one above the other, and single figures on a ground."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from msgspec import Struct

from wale.motifs.symmetry import mirror_axes
from wale.motifs.tiling import Rows, Tiling


class Band(Struct, frozen=True):
    """A motif worked so many times as a band; `aligned` ones stand with a mirror axis over that of the lowest."""

    motif: Tiling
    times: int = 1
    aligned: bool = True


class Figure(Struct, frozen=True):
    """One repeat of a motif with its lower right cell at a column and a row of the ground."""

    rows: Rows
    column: int
    row: int


class Overlap(Struct, frozen=True):
    """Two figures (by number, the later first) that both have a stitch at a column and a row of the ground."""

    figure: int
    other: int
    column: int
    row: int


def stacked(bands: Sequence[Band]) -> Tiling:
    """Give bands above one another, the first one lowest, as wide as all their repeats need."""
    width = lcm(*(band.motif.width for band in bands))
    starts = _starts(bands)
    return Tiling(
        tuple(
            band.motif.line(row, -start, width)
            for band, start in zip(bands, starts, strict=True)
            for row in range(len(band.motif.rows) * band.times)
        )
    )


def _starts(bands: Sequence[Band]) -> list[int]:
    """Stitches that each band is moved to the left so that all that mirror do so about one column.

    The column is an axis of the lowest band that mirrors, on a stitch where all of them have one, else on a gap: the
    one to which the others' axes of that kind have the least way. Bands with no kind in common stay as they are typed.
    """
    axes = [mirror_axes(band.motif) if band.aligned else () for band in bands]
    kinds = [{axis.denominator for axis in own} for own in axes if own]
    common = set.intersection(*kinds) if kinds else set()
    if not common:
        return [0] * len(bands)
    kind = min(common)
    axes = [tuple(axis for axis in own if axis.denominator == kind) for own in axes]
    lead = next(index for index, own in enumerate(axes) if own)
    width, copies = bands[lead].motif.width, lcm(*(band.motif.width for band in bands)) // bands[lead].motif.width
    ways = [
        [_nearest(own, axis + copy * width, band.motif.width) for own, band in zip(axes, bands, strict=True)]
        for copy in range(copies)
        for axis in axes[lead]
    ]
    return min(ways, key=lambda moves: sum(abs(move) for move in moves))


def _nearest(axes: Sequence[Fraction], column: Fraction, width: int) -> int:
    moves = [int(column - axis) % width for axis in axes]
    return min((min(move, move - width, key=abs) for move in moves), key=lambda move: (abs(move), -move), default=0)


def scattered(
    width: int, height: int, ground: str, shift: int, figures: Sequence[Figure]
) -> tuple[Tiling, Overlap | None]:
    """Give figures on a ground, running on over its edges, and the first two that meet in a stitch, if any do.

    A figure's cells in the ground's colour are no part of it.
    """
    cells = [[ground] * width for _ in range(height)]
    owner: dict[tuple[int, int], int] = {}
    for number, figure in enumerate(figures):
        for up, line in enumerate(figure.rows):
            times, row = divmod(figure.row + up, height)
            for along, yarn in enumerate(reversed(line)):
                column = (figure.column + along - shift * times) % width
                if yarn == ground:
                    continue
                other = owner.setdefault((column, row), number)
                if other != number or cells[row][width - 1 - column] != ground:
                    return Tiling(tuple(tuple(line) for line in cells), shift), Overlap(number, other, column, row)
                cells[row][width - 1 - column] = yarn
    return Tiling(tuple(tuple(line) for line in cells), shift), None
