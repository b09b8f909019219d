"""Bands over the stitches that wait where a pocket is inset."""

from __future__ import annotations

from wale.plan import BandPlan, PiecePlan, Plan
from wale.pockets import Slot, slots_of
from wale.problems.problem import Problem, problem
from wale.spec import Band, SewnOn, Spec

POCKET = "pocket"
"""The edge of a piece with an inset pocket."""
HELD = "the held sts"
"""How the name of its stitches begins."""


def has_pocket(spec: Spec, name: str) -> bool:
    """Say whether one pocket is inset in a piece, or two that mirror each other."""
    return sum(isinstance(join, SewnOn) and join.is_inset and join.onto == name for join in spec.joins) == 1


def held_parts(spec: Spec, pieces: dict[str, PiecePlan], name: str) -> list[tuple[str, list[int]]]:
    """The stitches that wait where a pocket is inset, one opening of a piece."""
    return [(f"{HELD} of the {name} pocket", [slot.stitches for slot in _slots(spec, pieces, name)])]


def _slots(spec: Spec, pieces: dict[str, PiecePlan], name: str) -> list[Slot]:
    """Give the pocket of a piece in each size, one opening or two."""
    plan = Plan(spec.size_names, tuple(pieces.values()), ())
    return [slots_of(plan, spec.joins, pieces[name], size)[0] for size in range(len(spec.sizes))]


def pocket_does_not_fit(spec: Spec, band: Band, plan: BandPlan, pieces: dict[str, PiecePlan]) -> list[Problem]:
    """A pocket's edge is worked over the stitches that wait, all of them and no more."""
    names = [name for name, edge in band.edges if edge == POCKET]
    if not names:
        return []
    if len(band.edges) > 1 or band.hood is not None or band.buttonholes is not None:
        help = "Write a `rib` along the pocket of one piece, and a band for each piece."
        return [problem("E405", f"the band {band.name} is more than a rib along one pocket", band.span, help=help)]
    ((_, held),) = held_parts(spec, pieces, names[0])
    size = next((at for at, (sts, got) in enumerate(zip(held, plan.stitches, strict=True)) if sts != got), None)
    if size is None:
        return _made_for_all(spec, band, pieces, names[0])
    texture = band.rib.texture
    ends = f"no {band.rib.knit}x{band.rib.purl} rib with its knit sts at both ends"
    ends = ends if texture == "rib" else f"no odd number, as {texture} needs that is alike at both ends"
    message = f"the {held[size]} sts of the {names[0]} pocket are {ends}"
    other = "write another rib" if texture == "rib" else "work the edge in garter"
    help = f"Cast the lining on with such a count, as `{plan.stitches[size]} sts`, or {other}."
    return [problem("E503", message, band.rib.span, help=help, size=spec.size_names[size])]


def _made_for_all(spec: Spec, band: Band, pieces: dict[str, PiecePlan], name: str) -> list[Problem]:
    """Each opening has its edge: the two of a whole piece are edged alike."""
    openings = len(_slots(spec, pieces, name)[0].places)
    if band.make == openings:
        return []
    told = (
        ("one opening", "Leave `make` out.") if openings == 1 else ("two openings", "Write `make 2` beside its name.")
    )
    often = "once" if band.make == 1 else "twice"
    message = f"the {name} has {told[0]}, and the band {band.name} along it is made {often}"
    return [problem("E223", message, band.span, help=told[1])]
