"""What leaves a motif as it is: translations, mirrors, glides and half-turns of the whole fabric.

Knitted stitches are not square, so of the 17 wallpaper groups the nine without turns of 90, 60 or 120 degrees occur:
p1, p2, pm, pg, cm, pmm, pmg, pgg, cmm (notation of the International Tables for Crystallography).

Method: each row has a class (what it is up to a rotation), an offset in it and a period. A symmetry moves row y to row
y + b or b - y; it is there when the classes agree and the offsets leave one way along, a congruence for each row.
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd, lcm

from msgspec import Struct

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


class _Row(Struct, frozen=True):
    """A row's cells are those of `cells`, `offset` stitches further to the left, and come again after `period`."""

    cells: bytes
    offset: int
    period: int


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


class Cover:
    """The rows of a cover by class, and what maps them on one another."""

    def __init__(self, motif: Tiling) -> None:
        yarns = {yarn: number for number, yarn in enumerate(dict.fromkeys(c for row in motif.rows for c in row))}
        lines = [bytes(yarns[cell] for cell in motif.line(row)[::-1]) for row in range(len(motif.rows))]
        self.rows = [_row(line) for line in lines]
        # Column -c of a row, so that column 0 stays where it is.
        self.back = [_row(line[:1] + line[:0:-1]) for line in lines]
        self.shift = motif.shift

    def on(self, height: int, shift: int) -> Cover:
        """Give the same cover by its smallest repeat."""
        cover = object.__new__(Cover)
        cover.rows, cover.back, cover.shift = self.rows[:height], self.back[:height], shift
        return cover

    def lattice(self) -> tuple[int, int, int]:
        """Give rows, stitches along, and the stitches of the smallest repeat."""
        width = lcm(*(row.period for row in self.rows))
        rows = len(self.rows)
        for height in range(1, rows):
            if rows % height == 0 and (along := self.move(0, 0, height)) is not None:
                return height, along % width, width
        return rows, self.shift % width, width

    def first(self, across: int, over: int, height: int) -> tuple[int, int] | None:
        """Give one symmetry (a, b): column c goes to c + a, or a - c where `across`; row y to y + b, or b - y."""
        found = ((self.move(across, over, up), up) for up in range(height))
        return next(((along, up) for along, up in found if along is not None), None)

    def move(self, across: int, over: int, up: int) -> int | None:
        """Give how far along the rows go, or None where their cells do not agree."""
        along, step = 0, 1
        others, way = (self.back, -1) if across else (self.rows, 1)
        for number, row in enumerate(self.rows):
            times, inside = divmod(up - number if over else up + number, len(self.rows))
            other = others[inside]
            if other.cells != row.cells:
                return None
            # The other row's offset, shifts counted; a row read backwards is shifted the other way.
            need = way * (other.offset + way * self.shift * times - row.offset)
            common = gcd(step, row.period)
            if (need - along) % common:
                return None
            while (need - along) % row.period:
                along += step
            step = lcm(step, row.period)
        return along % step


def _row(cells: bytes) -> _Row:
    width, ring = len(cells), cells + cells
    period = ring.find(cells, 1)
    offset = min(range(period), key=lambda start: ring[start : start + width])
    return _Row(ring[offset : offset + width], offset, period)
