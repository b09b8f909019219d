"""From an opened picture to a motif: repeat, cells, yarns, symmetry, floats, and the shortest way to write it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import gcd
from typing import TYPE_CHECKING

from msgspec import Struct

from wale.motifs.size import MOST_ROWS, counted
from wale.motifs.symmetry import find as symmetries
from wale.motifs.tiling import Tiling
from wale.picture.floats import shortened
from wale.picture.grid import Lattice, cells, folded
from wale.picture.matching import Costs, Motif, costs, nearest
from wale.picture.repeat import Wanted, find, whole
from wale.picture.symmetry import Kind, singles, symmetric
from wale.refusals import refuse

if TYPE_CHECKING:
    from PIL.Image import Image


class Wish(Struct, frozen=True):
    """What is asked for.

    Attributes:
        stitches: of one repeat.
        rows: of one repeat, None where they follow from the picture.
        cell: height of a stitch / its width.
        is_whole: the picture is one repeat; no smaller one is looked for.
        mirror: a symmetry to force.
        float_limit: longest float in stitches, None for any.
    """

    stitches: int
    rows: int | None = None
    cell: Fraction = Fraction(1)
    is_whole: bool = False
    mirror: Kind | None = None
    float_limit: int | None = None


class Made(Struct, frozen=True):
    """A motif from a picture.

    Attributes:
        motif: rows from the bottom up, indexes of yarns.
        shift: stitches that the repeat above starts along to the left.
        across: repeats across the picture, `up` those up it; 1 where it is one.
        changed: cells of the repeat that are not the nearest yarn, for symmetry and for floats, and how many it has.
    """

    motif: Motif
    shift: int
    across: Fraction
    up: Fraction
    changed: tuple[int, int, int]


def make(name: str, image: Image, wish: Wish, colours: Sequence[str]) -> Made:
    """Make a motif from a picture.

    Args:
        name: of the picture, for refusals.
        image: in red, green and blue.
        wish: what is asked for.
        colours: of the yarns, `#rrggbb`.

    Raises:
        Refused: E223 the motif gets too many rows, E924 fewer pixels than cells, E925 floats cannot be kept so short.
    """
    wanted = Wanted(wish.stitches, wish.rows, wish.cell, MOST_ROWS)
    lattice = whole(image, wanted) if wish.is_whole else find(image, wanted)
    _check(name, image, lattice)
    table, shift = costs(folded(cells(image, lattice), lattice), colours), lattice.shift
    if wish.mirror is not None and shift:
        table, shift = _straight(table, shift), 0
    first = plain = nearest(table)
    orbits = singles(table)
    if wish.mirror is not None:
        plain, orbits = symmetric(table, wish.mirror)
    kept: Motif | None = plain
    if wish.float_limit is not None:
        kept = shortened(table, plain, orbits, wish.float_limit)
    if kept is None:
        assert wish.float_limit is not None
        raise refuse(
            "E925",
            f"no float of `{name}` can be kept within {counted(wish.float_limit, 'st')} by changing single stitches",
            "Ask for a longer --max-float, another --width, or leave --mirror out.",
        )
    changed = (_differing(first, plain), _differing(plain, kept), len(kept) * len(kept[0]))
    motif, shift = (kept, shift) if shift else _shortest(kept)
    return Made(motif, shift, _times(lattice.width), _times(lattice.height), changed)


def _check(name: str, image: Image, lattice: Lattice) -> None:
    if lattice.rows > MOST_ROWS:
        raise refuse(
            "E223",
            f"the motif of `{name}` would have {lattice.rows} rows, and a motif has at most {MOST_ROWS}",
            "Cut the repeat out of the picture, or ask for a smaller --width.",
        )
    width, height = lattice.width * image.width, lattice.height * image.height
    if width < lattice.stitches or height < lattice.rows:
        raise refuse(
            "E924",
            f"the repeat in `{name}` has {width:.0f} × {height:.0f} pixels, too few for "
            f"{counted(lattice.stitches, 'st')} and {counted(lattice.rows, 'row')}",
            "Take a larger picture, or ask for a smaller --width.",
        )


def _straight(table: Costs, shift: int) -> Costs:
    """Give so many repeats above one another that the next one stands straight above the first."""
    width = len(table[0])
    times = width // gcd(width, shift)
    return tuple(
        tuple(row[(column + shift * time) % width] for column in range(width)) for time in range(times) for row in table
    )


def _shortest(motif: Motif) -> tuple[Motif, int]:
    """Give a motif with as few rows as a shift allows."""
    found = symmetries(Tiling(tuple(tuple(map(str, row)) for row in motif)))
    return motif[: found.height], found.shift


def _differing(one: Motif, other: Motif) -> int:
    return sum(a != b for row, line in zip(one, other, strict=True) for a, b in zip(row, line, strict=True))


def _times(share: float) -> Fraction:
    return Fraction(round(10 / share), 10)
