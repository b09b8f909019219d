"""A picture as cells in the proportions of a stitch: mean colours, and how well they come again."""

from __future__ import annotations

from fractions import Fraction
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


def shrunk(image: Image, lattice: Lattice) -> Image:
    """Give a picture of one pixel for each whole cell that fits into the picture from its lower left corner."""
    from PIL import Image as images

    across, up = _cell(image, lattice)
    left, low = lattice.begin[0] * across, image.height - lattice.begin[1] * up
    columns, rows = _fitting(image, lattice)
    box = (left, max(0.0, low - rows * up), min(image.width, left + columns * across), low)
    return image.resize((columns, rows), images.Resampling.BOX, box=box)


def _cell(image: Image, lattice: Lattice) -> tuple[float, float]:
    """Give the pixels of a cell across and up."""
    return lattice.width * image.width / lattice.stitches, lattice.height * image.height / lattice.rows


def _fitting(image: Image, lattice: Lattice) -> tuple[int, int]:
    """Give the whole cells that fit into the picture across and up."""
    across, up = _cell(image, lattice)
    left, low = lattice.begin
    return int(image.width / across - left + 0.01), int(image.height / up - low + 0.01)


def cells(image: Image, lattice: Lattice) -> Cells:
    """Give the mean colours of all whole cells that fit into the picture from its lower left corner."""
    small = shrunk(image, lattice)
    data, step = small.tobytes(), 3 * small.width
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
            columns, rows = _fitting(image, one)
            if columns >= one.stitches and rows >= one.rows:
                tried.append((spread(image, one), one))
        best = max(tried, key=lambda each: each[0])
        if best[0] > tried[0][0] * _CLEARLY:
            lattice = best[1]
    return lattice


def spread(image: Image, lattice: Lattice) -> float:
    """Give the variance of the colours of cells: how pure they are."""
    from PIL import ImageStat

    return sum(ImageStat.Stat(shrunk(image, lattice)).var)


def clash(image: Image, lattice: Lattice) -> Fraction | None:
    """Give the share of cells that differ clearly from their like in the repeat beside, or above where it is more.

    Clearly is more than half of what cells of different yarns differ by, so that noise does not count. None where no
    cell has its like in the picture.
    """
    small = shrunk(image, lattice)
    neighbours = [sum(pair) for pair in zip(_apart(small, 1, 0), _apart(small, 0, 1), strict=True)]
    limit = _contrast(neighbours) // 2
    stitches, rows, shift = lattice.stitches, lattice.rows, lattice.shift
    beside = _apart(small, stitches, 0)
    # What stands at a column in one repeat stands `shift` columns further left in the next one up.
    above = _apart(small, shift, rows)
    if shift:
        above = [sum(pair) for pair in zip(above, _apart(small, shift - stitches, rows), strict=True)]
    shares = [Fraction(sum(one[limit + 1 :]), sum(one)) for one in (beside, above) if any(one)]
    return max(shares, default=None)


def _apart(small: Image, left: int, up: int) -> list[int]:
    """Count the pairs of cells, the second so far to the left and up, by their difference, 0 to 255.

    It is the largest of the differences in red, green and blue.
    """
    from PIL import ImageChops

    width, height = small.width - abs(left), small.height - up
    if width < 1 or height < 1:
        return [0] * 256
    one, other = (max(left, 0), up), (max(-left, 0), 0)
    boxes = ((x, y, x + width, y + height) for x, y in (one, other))
    red, green, blue = ImageChops.difference(*(small.crop(box) for box in boxes)).split()
    return ImageChops.lighter(ImageChops.lighter(red, green), blue).histogram()


def _contrast(counts: list[int]) -> int:
    """Give what cells of different yarns differ by: among neighbours the largest difference but for a two-hundredth."""
    left = sum(counts) // 200
    for value in range(255, 0, -1):
        left -= counts[value]
        if left < 0:
            return value
    return 0


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
