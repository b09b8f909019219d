"""Motifs for the tests: any tiling in two or three colours, and the cells of its fabric."""

from math import lcm

from hypothesis import strategies as st

from wale.motifs.tiling import Tiling

YARNS = ("rye", "flour", "bran")


def drawn(*lines: str, shift: int = 0) -> Tiling:
    """Give a motif typed as on a chart, its top row first: `-` is rye, `x` flour, `o` bran."""
    return Tiling(tuple(tuple(YARNS["-xo".index(mark)] for mark in line) for line in reversed(lines)), shift)


def shown(motif: Tiling) -> list[str]:
    """Give a motif's rows as `drawn` takes them."""
    return ["".join("-xo"[YARNS.index(yarn)] for yarn in row) for row in reversed(motif.rows)]


@st.composite
def tilings(draw, widest: int = 5, tallest: int = 4, colours: int = 2, even: bool = False):
    """Any motif, shifted or not; `even` ones have an even number of stitches and rows."""
    width, height = draw(st.integers(1, widest)), draw(st.integers(1, tallest))
    if even:
        width, height = 2 * width, 2 * height
    cell = st.sampled_from(YARNS[:colours])
    row = st.lists(cell, min_size=width, max_size=width).map(tuple)
    rows = tuple(draw(st.lists(row, min_size=height, max_size=height)))
    return Tiling(rows, draw(st.integers(0, width - 1)))


def same(one: Tiling, other: Tiling) -> bool:
    """Say whether two motifs cover the fabric alike, cell for cell, over a common multiple of their repeats."""
    width, height = lcm(one.width, other.width), lcm(one.period, other.period)
    return all(one.cell(x, y) == other.cell(x, y) for x in range(width) for y in range(height))
