"""A motif's symmetries in a knitter's words, for the chart's caption."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.motifs.frieze import bands
from wale.motifs.size import counted
from wale.motifs.symmetry import find
from wale.motifs.tiling import Tiling

Axes = tuple[Fraction, ...]


class Figure(Struct, frozen=True):
    """A number of the words: a name for it, what was found, and what makes the printed number of it.

    Places are found as in `Symmetry`, from 0; a stitch or row is told counted from 1, a gap by the one before it.
    """

    name: str
    found: Fraction
    added: Fraction
    unit: Literal["column", "row", "sts", "rows"]


def in_words(motif: Tiling, axes: Axes | None = None) -> str:
    """Say about which stitches and rows a motif mirrors or turns, counted as on its chart; "" where about none.

    Args:
        axes: of stitches that lean or have an upper end, the columns about which they mirror; nothing else is told.
    """
    return _told(motif, axes)[0]


def figures(motif: Tiling, axes: Axes | None = None) -> tuple[Figure, ...]:
    """Give the numbers of `in_words` in their order."""
    return _told(motif, axes)[1]


@lru_cache(maxsize=64)
def _told(motif: Tiling, axes: Axes | None) -> tuple[str, tuple[Figure, ...]]:
    found = find(motif)
    if axes is not None:
        mirrors = tuple(one for one in axes if one < found.width)
        found = replace(found, mirrors=mirrors, glides=(), flips=(), slides=(), turns=())
    said, numbers = [], list[Figure]()
    if found.mirrors:
        said.append(f"mirrors about {_places(found.mirrors, 'stitch', 'stitches')}")
        numbers += _placed("axis", found.mirrors, "column")
    elif found.glides:
        said.append(f"shows its mirror image {counted(found.glides[0][1], 'row')} higher")
        numbers.append(_count("glide", found.glides[0][1], "rows"))
    # One or two rows mirror from top to bottom whatever they are.
    if found.flips and found.period > 2:
        said.append(f"mirrors from top to bottom about {_places(found.flips, 'row', 'rows')}")
        numbers += _placed("flip", found.flips, "row")
    elif found.slides and found.period > 2:
        said.append(f"mirrors from top to bottom {counted(found.slides[0][1], 'st')} along")
        numbers.append(_count("slide", found.slides[0][1], "sts"))
    elif found.turns and not said:
        column, row = found.turns[0]
        said.append(f"is the same after half a turn about {_one(column, 'stitch')}, {_one(row, 'row')}")
        numbers += [*_placed("turn.column", (column,), "column"), *_placed("turn.row", (row,), "row")]
    sentences = [f"It {' and '.join(said)}."] if said else []
    if said and found.width < motif.width:
        sentences.append(f"It repeats after {counted(found.width, 'st')} already.")
        numbers.append(_count("least", found.width, "sts"))
    words, rows = _of_bands(motif) if axes is None else ([], [])
    return " ".join([*sentences, *words]), (*numbers, *rows)


def _count(name: str, value: int, unit: Literal["sts", "rows"]) -> Figure:
    return Figure(name, Fraction(value), Fraction(0), unit)


def _placed(name: str, places: Sequence[Fraction], unit: Literal["column", "row"]) -> list[Figure]:
    """Number places as `_places` tells them: those of stitches or rows first."""
    return [
        Figure(f"{name}[{number}]", place, Fraction(1, place.denominator), unit)
        for number, place in enumerate(sorted(places, key=lambda place: place.denominator), 1)
    ]


_ALONE = {
    "p1m1": "mirror",
    "p11m": "mirror from top to bottom",
    "p11g": "mirror from top to bottom half a repeat along",
    "p2": "are the same after half a turn",
    "p2mg": "mirror, and from top to bottom half a repeat along",
    "p2mm": "mirror both ways",
}
_FEW = 4


def _of_bands(motif: Tiling) -> tuple[list[str], list[Figure]]:
    """What each of a few bands of two or more rows does as a border by itself."""
    height = len(motif.rows)
    parts = bands(motif)
    told = [band for band in parts if band.group in _ALONE and band.last > band.first]
    if not told or not 2 <= len(parts) <= _FEW:
        return [], []
    ends = [(band, band.first, band.last % height) for band in told]
    words = [f"rows {first + 1} to {last + 1} {_ALONE[band.group]}" for band, first, last in ends]
    rows = [Fraction(row) for _, first, last in ends for row in (first, last)]
    return [f"Bands by themselves: {'; '.join(words)}."], _placed("band.row", rows, "row")


def _places(places: Sequence[Fraction], one: str, more: str) -> str:
    """`stitches 1 and 7`, `the gaps after stitches 3 and 9`, `stitch 3 and the gap after stitch 6`."""
    whole = [place for place in places if place.denominator == 1]
    gaps = [place for place in places if place.denominator == 2]
    if len(whole) == 2:
        return f"{more} {whole[0] + 1} and {whole[1] + 1}"
    if len(gaps) == 2:
        return f"the gaps after {more} {_before(gaps[0])} and {_before(gaps[1])}"
    return " and ".join(_one(place, one) for place in (*whole, *gaps))


def _one(place: Fraction, kind: str) -> str:
    return f"{kind} {place + 1}" if place.denominator == 1 else f"the gap after {kind} {_before(place)}"


def _before(gap: Fraction) -> int:
    """The chart's number of the stitch or row before a gap."""
    return int(gap + Fraction(1, 2))
