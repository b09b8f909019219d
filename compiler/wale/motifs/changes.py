"""One motif made from another: mirrored, flipped, turned, shifted, recoloured, doubled, bricked and dropped.

Each function is a change of the whole plane, so that laws such as "mirrored twice is the motif itself" hold cell for
cell, row shifts included. What the words mean follows the usual definitions of half drop, brick and 1/n drop
(docs/motifs.md gives them as formulas).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from wale.motifs.tiling import Tiling

Axis = Literal["gap", "stitch", "both stitches"]


def mirrored(motif: Tiling) -> Tiling:
    """Left and right change places: column c shows what was at column width - 1 - c."""
    return Tiling(tuple(row[::-1] for row in motif.rows), -motif.shift % motif.width)


def flipped(motif: Tiling) -> Tiling:
    """Top and bottom change places: row y shows what was at row height - 1 - y."""
    return Tiling(motif.rows[::-1], -motif.shift % motif.width)


def turned(motif: Tiling) -> Tiling:
    """Half a turn: mirrored and flipped."""
    return Tiling(tuple(row[::-1] for row in reversed(motif.rows)), motif.shift)


def shifted(motif: Tiling, stitches: int, rows: int = 0) -> Tiling:
    """Everything stands so many stitches further to the left and so many rows higher."""
    return Tiling(tuple(motif.line(row - rows, -stitches) for row in range(len(motif.rows))), motif.shift)


def recoloured(motif: Tiling, yarns: Mapping[str, str]) -> Tiling:
    """Each yarn that is named is replaced, all at once, so that two may change places."""
    return Tiling(tuple(tuple(yarns.get(yarn, yarn) for yarn in row) for row in motif.rows), motif.shift)


def doubled(motif: Tiling, axis: Axis) -> Tiling:
    """The motif and, at its left, its mirror image.

    About the gap no stitch is shared: 2 w stitches. About the stitch the two share the motif's left stitch: 2 w - 1.
    About both stitches they share its right stitch too, at the end of the repeat: 2 w - 2.
    """
    flat = motif.rectangle()
    end = flat.width - 1 if axis == "both stitches" and flat.width > 1 else flat.width
    start = 0 if axis == "gap" else 1
    return Tiling(tuple(row[start:end][::-1] + row for row in flat.rows))


def bricked(motif: Tiling) -> Tiling:
    """The repeat above starts half a repeat along; asks for an even width."""
    flat = motif.rectangle()
    return Tiling(flat.rows, flat.width // 2)


def dropped(motif: Tiling, parts: int) -> Tiling:
    """Each repeat stands 1/parts of the height lower than the one at its right; asks for a height that divides."""
    flat = motif.rectangle()
    height, width = len(flat.rows), flat.width
    step = height // parts
    return Tiling(
        tuple(
            tuple(cell for copy in reversed(range(parts)) for cell in flat.line(row + step * copy, 0, width))
            for row in range(height)
        )
    )


def offset(motif: Tiling, stitches: int) -> Tiling:
    """The repeat above starts so many stitches along, whatever it did before."""
    return Tiling(motif.rectangle().rows, stitches)
