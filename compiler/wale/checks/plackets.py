"""W623: bands along a placket that are much narrower or wider than the slit that they are to fill.

Each band lies over the whole slit, one over the other, so each is as deep as the slit is wide (common practice, no
source); half a centimetre more or less is let pass (our choice).
"""

from __future__ import annotations

from fractions import Fraction

from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.spec import PLACKET_EDGES, Spec

SLACK = Fraction(1, 2)
"""How far a band's depth may be off, in cm."""


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each band along a placket that does not fill it, with the size in which it is farthest off."""
    problems = []
    sizes = range(len(plan.sizes))
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        piece = next((plan.piece(name) for name, edge in band.edges if edge in PLACKET_EDGES), None)
        if piece is None or piece.top is None:
            continue
        wide = [piece.top.centre[size] / piece.levels[-1].sts_per_cm for size in sizes]
        worst = max(sizes, key=lambda size: abs(planned.depth(size) - wide[size]))
        deep = planned.depth(worst)
        if abs(deep - wide[worst]) <= SLACK:
            continue
        told, asked = (length_words(one, spec.units) for one in (deep, wide[worst]))
        problems.append(
            Problem(
                "W623",
                f"{band.name} is {told} deep in size {plan.sizes[worst]}, and the placket that it fills {asked} wide",
                (Label(band.rib.span, "this depth"),),
                help=f"Make the band about {asked} deep, or the placket about {told} wide.",
            )
        )
    return problems
