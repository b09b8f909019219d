"""A motif's symmetries in a knitter's words, for the chart's caption."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.motifs.frieze import bands
from wale.motifs.size import counted
from wale.motifs.symmetry import find
from wale.motifs.tiling import Tiling


def in_words(motif: Tiling) -> str:
    """Say about which stitches and rows a motif mirrors or turns, counted as on its chart; "" where about none."""
    found = find(motif)
    said = []
    if found.mirrors:
        said.append(f"mirrors about {_places(found.mirrors, 'stitch', 'stitches')}")
    elif found.glides:
        said.append(f"shows its mirror image {counted(found.glides[0][1], 'row')} higher")
    # One or two rows mirror from top to bottom whatever they are.
    if found.flips and found.period > 2:
        said.append(f"mirrors from top to bottom about {_places(found.flips, 'row', 'rows')}")
    elif found.slides and found.period > 2:
        said.append(f"mirrors from top to bottom {counted(found.slides[0][1], 'st')} along")
    elif found.turns and not said:
        column, row = found.turns[0]
        said.append(f"is the same after half a turn about {_one(column, 'stitch')}, {_one(row, 'row')}")
    sentences = [f"It {' and '.join(said)}."] if said else []
    if said and found.width < motif.width:
        sentences.append(f"It repeats after {counted(found.width, 'st')} already.")
    return " ".join([*sentences, *_of_bands(motif)])


_ALONE = {
    "p1m1": "mirror",
    "p11m": "mirror from top to bottom",
    "p11g": "mirror from top to bottom half a repeat along",
    "p2": "are the same after half a turn",
    "p2mg": "mirror, and from top to bottom half a repeat along",
    "p2mm": "mirror both ways",
}
_FEW = 4


def _of_bands(motif: Tiling) -> list[str]:
    """What each of a few bands of two or more rows does as a border by itself."""
    height = len(motif.rows)
    parts = bands(motif)
    told = [
        f"rows {band.first + 1} to {band.last % height + 1} {_ALONE[band.group]}"
        for band in parts
        if band.group in _ALONE and band.last > band.first
    ]
    return [f"Bands by themselves: {'; '.join(told)}."] if told and 2 <= len(parts) <= _FEW else []


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
