"""What leaves a motif as it is: translations, mirrors, glides and half-turns of the whole fabric.

Knitted stitches are not square, so of the 17 wallpaper groups the nine without turns of 90, 60 or 120 degrees occur:
p1, p2, pm, pg, cm, pmm, pmg, pgg, cmm (notation of the International Tables for Crystallography).
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd

from msgspec import Struct

from wale.motifs.cover import Cover
from wale.motifs.tiling import Tiling

Centre = tuple[Fraction, Fraction]
Glide = tuple[Fraction, int]


class Symmetry(Struct, frozen=True):
    """The symmetries of a motif; places in stitches and rows from the lower right cell, which is 0.

    A whole number is the middle of a stitch or row, a half (n + 1/2) the gap after it. Axes lie in [0, width) and
    [0, period).

    Attributes:
        width: stitches of the smallest repeat.
        height: rows after which the motif stands again, perhaps `shift` stitches further to the left.
        shift: see `height`; 0 where it stands straight above.
        mirrors: columns about which left and right are alike.
        glides: columns about which they are alike so many rows higher or lower.
        flips: rows about which top and bottom are alike.
        slides: rows about which they are alike so many stitches along.
        turns: (column, row) about which half a turn changes nothing.
        group: the wallpaper group.
    """

    width: int
    height: int
    shift: int
    mirrors: tuple[Fraction, ...]
    glides: tuple[Glide, ...]
    flips: tuple[Fraction, ...]
    slides: tuple[Glide, ...]
    turns: tuple[Centre, ...]
    group: str

    @property
    def period(self) -> int:
        """Rows until the motif stands again at the same stitch."""
        return self.height * (self.width // gcd(self.width, self.shift))


def find(motif: Tiling) -> Symmetry:
    """Give all symmetries of a motif."""
    rows = Cover(motif)
    height, shift, width = rows.lattice()
    rows = rows.on(height, shift)
    # A lattice that leans mirrors in nothing, whatever its rows do.
    ways = ((1, 0), (0, 1), (1, 1)) if 2 * shift % width == 0 else ((1, 1),)
    *reflections, turn = (rows.first(across, over, height) for across, over in ways)
    mirror, flip = reflections or (None, None)
    if mirror is None and flip is None:
        turns = _turns(turn, width, height, shift) if turn is not None else ()
        return Symmetry(width, height, shift, (), (), (), (), turns, "p2" if turn is not None else "p1")
    mirrors, glides = _axes(mirror, width, height, shift, up=True)
    flips, slides = _axes(flip and flip[::-1], height, width, shift, up=False)
    turns = _turns(turn, width, height, shift) if turn is not None else ()
    return Symmetry(
        width, height, shift, mirrors, glides, flips, slides, turns, _group(bool(shift), mirrors, glides, flips, slides)
    )


def mirror_axes(motif: Tiling) -> tuple[Fraction, ...]:
    """Give the columns about which the fabric mirrors, in [0, width of the repeat as written)."""
    found = find(motif)
    return tuple(axis + found.width * copy for copy in range(motif.width // found.width) for axis in found.mirrors)


def smallest(motif: Tiling) -> tuple[int, int]:
    """Give the stitches and rows of the smallest repeat that needs no shift."""
    height, shift, width = Cover(motif).lattice()
    return width, height * (width // gcd(width, shift))


def _axes(
    found: tuple[int, int] | None, across: int, along: int, shift: int, up: bool
) -> tuple[tuple[Fraction, ...], tuple[Glide, ...]]:
    """Give the axes without and with a glide.

    Args:
        found: one such symmetry: (twice the axis, how far along it moves).
        across: the smallest step of the lattice across the axes, `along` that along them.
        shift: not 0 where the lattice is rhombic; it is half the width then.
        up: whether the axes are columns.
    """
    if found is None:
        return (), ()
    twice, move = found
    if not shift:
        axes = tuple(sorted(Fraction(twice + step, 2) % across for step in (0, across)))
        return (axes, ()) if move == 0 else ((), tuple((axis, along // 2) for axis in axes))
    # Rhombic: axes with and without a glide take turns; a repeat has two of each.
    step, span, glide = (shift, across, along) if up else (across, 2 * across, shift)
    first = twice if move == 0 else twice + step
    plain = tuple(sorted(Fraction(first + turn * span, 2) % span for turn in (0, 1)))
    gliding = tuple(sorted(Fraction(first + step + turn * span, 2) % span for turn in (0, 1)))
    return plain, tuple((axis, glide) for axis in gliding)


def _turns(found: tuple[int, int], width: int, height: int, shift: int) -> tuple[Centre, ...]:
    twice, double = found
    times = width // gcd(width, shift)
    centres = {
        (
            Fraction(twice + across * width + up * shift, 2) % width,
            Fraction(double + up * height, 2) % (height * times),
        )
        for up in range(2 * times)
        for across in (0, 1)
    }
    return tuple(sorted(centres, key=lambda centre: centre[::-1]))


def _group(
    rhombic: bool,
    mirrors: tuple[Fraction, ...],
    glides: tuple[Glide, ...],
    flips: tuple[Fraction, ...],
    slides: tuple[Glide, ...],
) -> str:
    across, over = bool(mirrors or glides), bool(flips or slides)
    if rhombic:
        return "cmm" if across and over else "cm"
    if not (across and over):
        return "pm" if mirrors or flips else "pg"
    return {2: "pmm", 1: "pmg", 0: "pgg"}[bool(mirrors) + bool(flips)]
