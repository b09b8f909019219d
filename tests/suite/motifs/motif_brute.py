"""Symmetries by trying every isometry of a small fabric, cell for cell; the group by a published chart."""

from fractions import Fraction
from functools import cache

Moves = dict[tuple[int, int], set[tuple[int, int]]]
WAYS = ((1, 1), (-1, 1), (1, -1), (-1, -1))


@cache
def moves_of(width: int, height: int) -> list[tuple[int, int, int, int, list[int]]]:
    """Every (e, d, a, b) that takes cell (x, y) to (e x + a, d y + b), with the cell number that each one takes."""
    return [
        (e, d, a, b, [(d * y + b) % height * width + (e * x + a) % width for y in range(height) for x in range(width)])
        for e, d in WAYS
        for a in range(width)
        for b in range(height)
    ]


@cache
def tables_of(width: int, height: int) -> list[tuple[int, int, int, int, tuple[list[int], list[int]]]]:
    """The same on fabrics as bits: what each value of the lower and of the upper eight cells becomes."""
    found = []
    for e, d, a, b, places in moves_of(width, height):
        halves = []
        for start in (0, 8):
            part = places[start : start + 8]
            halves.append(
                [sum((value >> bit & 1) << place for bit, place in enumerate(part)) for value in range(1 << len(part))]
            )
        found.append((e, d, a, b, (halves[0], halves[1])))
    return found


def moves_of_bits(bits: int, width: int, height: int) -> Moves:
    """Give the moves that leave a two-coloured fabric of up to 16 cells as it is."""
    found: Moves = {way: set() for way in WAYS}
    low, high = bits & 255, bits >> 8
    for e, d, a, b, (lower, upper) in tables_of(width, height):
        if lower[low] | upper[high] == bits:
            found[e, d].add((a, b))
    return found


def moves_of_cells(cells: list[str], width: int, height: int) -> Moves:
    """Give the moves that leave a fabric as it is, cells row by row from the lower right."""
    found: Moves = {way: set() for way in WAYS}
    for e, d, a, b, places in moves_of(width, height):
        if all(cells[place] == cell for cell, place in zip(cells, places, strict=True)):
            found[e, d].add((a, b))
    return found


def size_of(moves: Moves, width: int, height: int) -> tuple[int, int]:
    """Give the stitches and rows of the smallest repeat that stands straight."""
    return (
        min([a for a, b in moves[1, 1] if b == 0 and a] + [width]),
        min([b for a, b in moves[1, 1] if a == 0 and b] + [height]),
    )


def axes_of(moves: Moves, width: int, height: int) -> tuple[set, set, set]:
    """Give the mirror columns, mirror rows and half-turn centres within the smallest straight repeat."""
    across, up = size_of(moves, width, height)
    return (
        {Fraction(a + i * width, 2) % across for a, b in moves[-1, 1] if b == 0 for i in (0, 1)},
        {Fraction(b + j * height, 2) % up for a, b in moves[1, -1] if a == 0 for j in (0, 1)},
        {
            (Fraction(a + i * width, 2) % across, Fraction(b + j * height, 2) % up)
            for a, b in moves[-1, -1]
            for i in (0, 1)
            for j in (0, 1)
        },
    )


def glides_of(moves: Moves, width: int, height: int) -> tuple[set, set]:
    """Give the axes of glides (column or row, and how far along) that do not lie on mirrors: the non-trivial ones."""
    across, up = size_of(moves, width, height)
    mirrors, flips, _ = axes_of(moves, width, height)
    glides = {(Fraction(a + i * width, 2) % across, b % up) for a, b in moves[-1, 1] for i in (0, 1)}
    slides = {(Fraction(b + j * height, 2) % up, a % across) for a, b in moves[1, -1] for j in (0, 1)}
    return {one for one in glides if one[0] not in mirrors}, {one for one in slides if one[0] not in flips}


def group_of(moves: Moves, width: int, height: int) -> str:
    """Give the wallpaper group by the recognition chart for plane periodic patterns.

    Columns of the chart: highest turn, reflections, glides that are not trivial; pmg has parallel reflection axes, cmm
    perpendicular ones. Source: http://www.york.ac.uk/depts/maths/histstat/symmetry/symmetry.htm
    """
    mirrors, flips, turns = axes_of(moves, width, height)
    glides, slides = glides_of(moves, width, height)
    reflects, glide = bool(mirrors or flips), bool(glides or slides)
    if not turns:
        return {(False, False): "p1", (True, False): "pm", (False, True): "pg", (True, True): "cm"}[reflects, glide]
    if reflects and glide:
        return "cmm" if mirrors and flips else "pmg"
    return {(False, False): "p2", (True, False): "pmm", (False, True): "pgg"}[reflects, glide]
