"""Bands over the stitches that wait where a pocket is inset."""

from __future__ import annotations

from wale.plan import BandPlan, PiecePlan, Plan
from wale.pockets import slots_of
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
    plan = Plan(spec.size_names, tuple(pieces.values()), ())
    slots = [slots_of(plan, spec.joins, pieces[name], size) for size in range(len(spec.sizes))]
    return [(f"{HELD} of the {name} pocket", [one[0].stitches for one in slots])]


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
        return []
    texture = band.rib.texture
    ends = f"no {band.rib.knit}x{band.rib.purl} rib with its knit sts at both ends"
    ends = ends if texture == "rib" else f"no odd number, as {texture} needs that is alike at both ends"
    message = f"the {held[size]} sts of the {names[0]} pocket are {ends}"
    other = "write another rib" if texture == "rib" else "work the edge in garter"
    help = f"Cast the lining on with such a count, as `{plan.stitches[size]} sts`, or {other}."
    return [problem("E503", message, band.rib.span, help=help, size=spec.size_names[size])]
