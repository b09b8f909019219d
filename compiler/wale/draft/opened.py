"""Bands along the closed neck of a pullover that are worked flat: they open in the middle of the front."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wale.plan import PiecePlan
from wale.problems.problem import Problem, problem
from wale.spec import Band

Part = tuple[str, list[int]]
PIECES = 2
"""Pieces that a closed neck lies between."""
ENDS = ("the first part of the centre", "the last part of the centre")
"""How the names of the parts begin into which the middle of the front neck is divided."""
BEHIND = "the wrong side of the first sts picked up"
"""Where the stitches of an overlap are picked up."""


def opens(band: Band, pieces: Mapping[str, PiecePlan]) -> bool:
    """Say whether a band lies along the necks of whole pieces and is worked flat, as always above a placket."""
    flat = band.hood is not None or band.collar is not None or band.is_open or slit_of(band, pieces)
    return flat and all(edge == "neck" and pieces[name].half is None for name, edge in band.edges)


def slit_of(band: Band, pieces: Mapping[str, PiecePlan]) -> bool:
    """Say whether a placket opens a neck that a band lies along."""
    tops = [pieces[name].top for name, edge in band.edges if edge == "neck" and name in pieces]
    return any(top is not None and top.has_placket for top in tops)


def front_neck(band: Band, pieces: Mapping[str, PiecePlan]) -> PiecePlan | None:
    """Give the piece of the deeper one of two necks, of alike ones the first; None where there are not two."""
    names = dict.fromkeys(name for name, edge in band.edges if edge == "neck")
    tops = [(pieces[name], top) for name in names if (top := pieces[name].top) is not None]
    if len(tops) != PIECES or len(band.edges) != PIECES:
        return None
    first, second = ((top.has_placket, max(top.neck_rows)) for _, top in tops)
    return tops[0][0] if first >= second else tops[1][0]


def cannot_open(band: Band, pieces: Mapping[str, PiecePlan]) -> Problem | None:
    """Say why a band cannot be opened in front."""
    if not opens(band, pieces):
        whole = any(pieces[name].half is None for name, _ in band.edges)
        if band.is_open or (band.overlap and whole):
            message = f"the band {band.name} does not lie along a closed neck, in front of which it could open"
            help = "Leave the words `open in front` and `overlap` out: along halves it is open anyway."
            return problem("E405", message, band.rib.span, help=help)
        return None
    if front_neck(band, pieces) is None:
        message = f"the band {band.name} is to open in front and does not lie along the necks of two pieces"
        return problem("E405", message, band.rib.span, help="Pick it up `along front neck, back neck`.")
    if slit_of(band, pieces):
        return _needs_no_slit(band, pieces)
    return None


def _needs_no_slit(band: Band, pieces: Mapping[str, PiecePlan]) -> Problem | None:
    """Say why a band cannot lie along a neck that a placket opens."""
    if band.collar is not None or band.overlap or band.mitred:
        what = "is a shawl collar" if band.collar is not None else "overlaps in front"
        what = "is mitred" if band.mitred else what
        help = "Leave the placket out, or write a hood without `overlap`, or a plain rib, garter, seed or moss."
        message = f"the band {band.name} {what}, and a placket opens the neck that it lies along"
        return problem("E405", message, band.rib.span, help=help)
    return None


def opened_parts(band: Band, front: PiecePlan, necks: Mapping[str, Sequence[Part]]) -> list[Part]:
    """Give the parts of a band from the middle of the front neck over the back to where it began.

    Args:
        necks: by piece: one side, the centre and the other side, in picking order with the back first.
    """
    last_side, centre, first_side = (counts for _, counts in necks[front.name])
    back = next(parts for name, parts in necks.items() if name != front.name)
    neck = f"of the {front.name} neck"
    around = [(f"the first side {neck}", first_side), *back, (f"the last side {neck}", last_side)]
    if band.collar is not None:
        return around
    lap = band.overlap
    first = [count // 2 + (lap + 1) // 2 for count in centre]
    if max(centre) > 1:
        rest = [count - begun for count, begun in zip(centre, first, strict=True)]
        around = [(f"{ENDS[0]} {neck}", first), *around, (f"{ENDS[1]} {neck}", rest)]
    return [*around, (BEHIND, [lap] * len(first))] if lap else around


def overlap_too_wide(band: Band, parts: Sequence[tuple[str, Sequence[int]]]) -> Problem | None:
    """Say why the ends of a band cannot overlap so far: they do so over the straight middle of the front neck."""
    halves = [counts for name, counts in parts if name.startswith(ENDS)]
    if not band.overlap or (halves and min(map(min, halves)) > 0):
        return None
    message = f"the ends of {band.name} cannot overlap by {band.overlap} sts on the straight middle of the front neck"
    help = "Let them overlap less, or make the neck round or square and wider."
    return problem("E405", message, band.rib.span, help=help)
