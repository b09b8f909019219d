"""E510 and W622: a sleeve cap that has no edge, or an edge that does not fit its armhole.

What: a cap set into armholes, where the sleeve or a body binds nothing off at its sides; the cap's edge against the
armhole's, both measured along the fabric, row by row.
Why: the cap is sewn into the armhole stitch by stitch and row by row, its surplus eased in over the top; a cap that is
shorter pulls, one that is much longer puckers.
Limit: as long as the armhole's edge, or up to about 1 in longer
(https://bygumbygolly.blogspot.com/2011/03/briar-rose-vintage-kal-knitted-sleeve.html); shorter by a stitch and a row
counts as equal (our choice).
Example: a cap of 30 cm in an armhole of 44 cm. Instead: more rows in the cap.
"""

from __future__ import annotations

from wale.armholes import cap_edges, has_bound_sides
from wale.draft.caps import EASED
from wale.plan import PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.spec import SetIn, Spec


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at each cap that is set in."""
    caps = [join for join in spec.joins if isinstance(join, SetIn) and join.edge == "cap"]
    return [found for join in caps for found in _cap(spec, plan, join)]


def _cap(spec: Spec, plan: Plan, join: SetIn) -> list[Problem]:
    sleeve = plan.piece(join.piece)
    pieces = [piece for piece in plan.pieces if piece is sleeve or piece.top is not None]
    without = [piece for piece in pieces if not has_bound_sides(piece)]
    if sleeve is None:
        return []
    if without:
        name = without[0].name
        return [
            Problem(
                "E510",
                f"the cap of {join.piece} is set into armholes, and {name} binds nothing off at its sides",
                (Label(join.span, "set in here"), Label(without[0].span, "no underarm here")),
                help=f"Write `bind off 3 cm each side` in {name} where the underarm is, and the shaping above it.",
            )
        ]
    return _far(spec, plan, join, sleeve)


def _far(spec: Spec, plan: Plan, join: SetIn, sleeve: PiecePlan) -> list[Problem]:
    slack = 1 / sleeve.levels[-1].sts_per_cm + 1 / sleeve.sections[-1].rows_per_cm
    words = []
    for size, name in enumerate(plan.sizes):
        cap, armhole = cap_edges(plan, join, size)
        if not -slack <= cap - armhole <= EASED:
            by = length_words(abs(cap - armhole), spec.units)
            words.append(f"{name} {by} {'longer' if cap > armhole else 'shorter'}")
    if not words:
        return []
    return [
        Problem(
            "W622",
            f"the edge of the {join.piece}'s cap does not fit the armhole's: {', '.join(words)}",
            (Label(join.span, "sewn together here"),),
            help=f"It should be as long as the armhole's edge, or up to {length_words(EASED, spec.units)} longer: "
            "write `fitted` for `over` in one line of the cap, or give it another width at its top or underarm.",
        )
    ]
