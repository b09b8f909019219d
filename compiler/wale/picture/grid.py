"""A picture as cells in the proportions of a stitch: mean colours, and how well they come again."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

if TYPE_CHECKING:
    from PIL.Image import Image

_CLEARLY = 1.08
"""How many times purer cells must be that do not begin at the corner; our choice."""

Colour = tuple[int, int, int]
"""Red, green and blue, 0 to 255."""


class Lattice(Struct, frozen=True):
    """How a motif covers a picture.

    Attributes:
        stitches: cells across one repeat.
        rows: cells up one repeat.
        width: of a repeat, in shares of the picture's width.
        height: of a repeat, in shares of its height.
        shift: cells that the repeat above starts along to the left.
        begin: shares of a cell, to the right and up, that are left out at the lower left corner.
    """

    stitches: int
    rows: int
    width: float
    height: float
    shift: int = 0
    begin: tuple[float, float] = (0.0, 0.0)


Cells = tuple[tuple[Colour, ...], ...]
"""Rows of cells from the bottom up, each left to right."""


def cells(image: Image, lattice: Lattice) -> Cells:
    """Give the mean colours of all whole cells that fit into the picture from its lower left corner."""
    from PIL import Image as images

    across, up = lattice.width * image.width / lattice.stitches, lattice.height * image.height / lattice.rows
    left, low = lattice.begin[0] * across, image.height - lattice.begin[1] * up
    columns, rows = int((image.width - left) / across + 0.01), int(low / up + 0.01)
    box = (left, max(0.0, low - rows * up), min(image.width, left + columns * across), low)
    data = image.resize((columns, rows), images.Resampling.BOX, box=box).tobytes()
    step = 3 * columns
    lines = [data[start : start + step] for start in range(0, len(data), step)]
    return tuple(tuple((line[at], line[at + 1], line[at + 2]) for at in range(0, step, 3)) for line in lines[::-1])


def aligned(image: Image, lattice: Lattice) -> Lattice:
    """Let the cells begin where they are purest, by eighths of a cell: a picture may be cut within a stitch.

    Pure are cells whose mean colours differ most from one another. They stay at the corner where another place is
    hardly better, as in a drawing without stitches, or leaves no whole repeat.
    """
    for way in (0, 1):
        tried = []
        for eighth in range(8):
            begin = (eighth / 8, lattice.begin[1]) if way == 0 else (lattice.begin[0], eighth / 8)
            one = replace(lattice, begin=begin)
            found = cells(image, one)
            if len(found) >= one.rows and len(found[0]) >= one.stitches:
                tried.append((spread(found), one))
        best = max(tried, key=lambda each: each[0])
        if best[0] > tried[0][0] * _CLEARLY:
            lattice = best[1]
    return lattice


def spread(found: Cells) -> float:
    """Give the variance of the colours of cells: how pure they are."""
    total = 0.0
    for part in range(3):
        values = [cell[part] for row in found for cell in row]
        mean = sum(values) / len(values)
        total += sum((value - mean) ** 2 for value in values) / len(values)
    return total


def clash(found: Cells, lattice: Lattice) -> Fraction | None:
    """Give the share of cells that differ clearly from their like in the repeat beside, or above where it is more.

    Clearly is more than half of what cells of different yarns differ by, so that noise does not count. None where no
    cell has its like in the picture.
    """
    stitches, rows, shift = lattice.stitches, lattice.rows, lattice.shift
    columns, lines = len(found[0]), len(found)
    limit = _contrast(found) // 2
    beside = [
        _apart(line[column], line[column + stitches]) for line in found for column in range(max(0, columns - stitches))
    ]
    # What stands at a column in one repeat stands `shift` columns further left in the next one up.
    targets = [(column, (column - shift) % stitches if shift else column) for column in range(columns)]
    above = [
        _apart(found[row][column], found[row + rows][target])
        for row in range(max(0, lines - rows))
        for column, target in targets
        if target < columns
    ]
    return max(
        (Fraction(sum(pair > limit for pair in pairs), len(pairs)) for pairs in (beside, above) if pairs), default=None
    )


def folded(found: Cells, lattice: Lattice) -> Cells:
    """Give one repeat, each cell the mean of all its copies; bottom row first.

    It begins with the cell that is nearest to the picture's lower left corner, be it cut off there or whole.
    """
    stitches, rows = lattice.stitches, lattice.rows
    right, up = (int(share > 0.5) for share in lattice.begin)
    sums = [[[0, 0, 0, 0] for _ in range(stitches)] for _ in range(rows)]
    for number, line in enumerate(found, up):
        times, row = divmod(number, rows)
        for column, colour in enumerate(line, right):
            total = sums[row][(column + lattice.shift * times) % stitches]
            for part in range(3):
                total[part] += colour[part]
            total[3] += 1
    return tuple(tuple(_mean(total) for total in line) for line in sums)


def _mean(total: list[int]) -> Colour:
    count = max(1, total[3])
    red, green, blue = ((2 * part + count) // (2 * count) for part in total[:3])
    return red, green, blue


def _apart(one: Colour, other: Colour) -> int:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) + abs(one[2] - other[2])


def _contrast(found: Cells) -> int:
    """Give what cells of different yarns differ by: among neighbours the largest difference but for a two-hundredth."""
    beside = [_apart(one, other) for line in found for one, other in pairwise(line)]
    above = [_apart(one, other) for lower, upper in pairwise(found) for one, other in zip(lower, upper, strict=True)]
    both = sorted(beside + above)
    return both[-1 - len(both) // 200] if both else 0
