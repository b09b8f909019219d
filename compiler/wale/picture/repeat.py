"""The repeat of a picture that holds several: which distance across and up is the shortest that the cells bear out."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from wale.picture.grid import Lattice, aligned, clash, spread
from wale.picture.lags import distances, moved, small

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_CLASH = Fraction(1, 12)
"""Largest share of cells that may differ from their like where a motif is said to come again; our choice."""
MOST_CELLS = 1_000_000
"""Most cells of a whole picture that are compared; finer repeats are not looked for."""
_NEAR = 1.08
"""How many times larger a repeat may be that is weighed against the smallest; our choice."""


class Wanted(Struct, frozen=True):
    """What a motif shall be like.

    Attributes:
        stitches: of one repeat.
        rows: of one repeat, None where they follow from the picture.
        cell: height of a stitch / its width.
        most_rows: more are not allowed.
    """

    stitches: int
    rows: int | None
    cell: Fraction
    most_rows: int


def whole(image: Image, wanted: Wanted) -> Lattice:
    """Take the whole picture as one repeat."""
    return _lattice(image, wanted, 1.0, 1.0)


def find(image: Image, wanted: Wanted) -> Lattice:
    """Give the smallest repeat of a picture, the whole picture where it does not come again."""
    little = small(image)
    across = [lag / little.width for lag in _across(little, wanted)]
    up = [lag / little.height for lag in _up(little, 0)]
    tried = [_lattice(image, wanted, width, height) for width in (*across, 1.0) for height in (*up, 1.0)]
    found = _smallest(image, wanted, [one for one in tried if one.width < 1 or one.height < 1])
    if found is None:
        return whole(image, wanted)
    if found.height < 1:
        return found
    leaning = _leaning(image, little, wanted, found.width)
    return leaning or found


def _across(image: Image, wanted: Wanted) -> tuple[float, ...]:
    least = max(4, wanted.stitches // 2)
    return distances(lambda lag: moved(image, lag, 0), image.width, least)


def _up(image: Image, along: int) -> tuple[float, ...]:
    return distances(lambda lag: moved(image, along, lag), image.height, 4)


def _leaning(image: Image, little: Image, wanted: Wanted, width: float) -> Lattice | None:
    """Look for a repeat above that starts some stitches along, where none stands straight above."""
    if width >= 1:
        return None
    tried = []
    for shift in range(1, wanted.stitches):
        # What is above stands `shift` further left: the fixed part of `moved` is the lower right one.
        along = round(shift * width * little.width / wanted.stitches)
        heights = [lag / little.height for lag in _up(little, along)[:4]]
        tried += [_lattice(image, wanted, width, height, shift) for height in heights]
    return _smallest(image, wanted, tried)


def _lattice(image: Image, wanted: Wanted, width: float, height: float, shift: int = 0) -> Lattice:
    across = width * image.width / wanted.stitches
    rows = wanted.rows or max(1, round(height * image.height / (across * float(wanted.cell))))
    return Lattice(wanted.stitches, rows, width, height, shift)


def _smallest(image: Image, wanted: Wanted, tried: list[Lattice]) -> Lattice | None:
    """Give the smallest lattice that clashes no more than the best one, but for a third of a cell a repeat.

    Of lattices nearly as small the one with the purest cells is taken.
    """
    measured = []
    for one in tried:
        if one.stitches * one.rows / (one.width * one.height) > MOST_CELLS or one.rows > wanted.most_rows:
            continue
        if one.width * image.width < one.stitches or one.height * image.height < one.rows:
            continue
        share = clash(image, one)
        if share is not None:
            measured.append((one, share))
    if not measured:
        return None
    best = min(share for _, share in measured)
    if best > MOST_CLASH:
        return None
    fits = [one for one, share in measured if share <= best + Fraction(1, 3 * one.stitches * one.rows)]
    least = min(one.width * one.height for one in fits)
    near = [one for one in fits if one.width * one.height <= least * _NEAR]
    return max((aligned(image, one) for one in near), key=lambda one: spread(image, one))
