"""E504 and W609: joins that cannot be made as written, or were forgotten.

What: a three-needle bind-off of shoulders that are bound off in steps; shoulders, sides and sleeves that no line joins.
Why: a three-needle bind-off needs live stitches; an edge without a seam leaves the garment open.
Example: `shoulders slope 3 cm, bound off in steps` in a back whose shoulder seam says `three-needle bind-off`.
Instead: `short rows`, which keep the stitches live, or another seam.
"""

from __future__ import annotations

from wale.checks.rings import bodies_of
from wale.plan import PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.spec import Seam, SetIn, Spec


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at each seam, then for edges without one."""
    problems = [found for join in spec.joins if isinstance(join, Seam) for found in _live(plan, join)]
    problems += _unjoined(spec, plan)
    return problems


def _live(plan: Plan, join: Seam) -> list[Problem]:
    if not join.manner.startswith("three-needle"):
        return []
    for name, edge in join.edges:
        piece = plan.piece(name)
        if edge != "shoulders" or piece is None or piece.top is None or piece.top.manner != "steps":
            continue
        labels = [Label(join.span, "needs live stitches")]
        if piece.top.shoulder_step is not None:
            labels.append(Label(piece.top.shoulder_step.action.span, "binds them off"))
        return [
            Problem(
                "E504",
                f"the shoulders of {name} are bound off in steps, so a three-needle bind-off cannot join them",
                tuple(labels),
                help="Write `short rows` instead of `bound off in steps`, or join them with `mattress stitch`.",
            )
        ]
    return []


def _unjoined(spec: Spec, plan: Plan) -> list[Problem]:
    bodies = bodies_of(plan)
    if sum(piece.make for piece in bodies) < 2:
        return []
    joined = {pair for join in spec.joins if isinstance(join, Seam) for pair in join.edges}
    set_in = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    problems = []
    for edge in ("shoulders", "sides"):
        loose = [piece for piece in bodies if (piece.name, edge) not in joined]
        if loose:
            names = " and ".join(piece.name for piece in loose)
            problems.append(_open(loose[0], f"the {edge} of {names}", _EXAMPLES[edge]))
    for piece in plan.pieces:
        if piece.in_round or piece.top is not None:
            continue
        if piece.name in set_in:
            if (piece.name, "sides") not in joined:
                problems.append(_open(piece, f"the long edges of {piece.name}", _EXAMPLES["sleeves"]))
        elif not any(name == piece.name for name, _ in joined):
            problems.append(_open(piece, f"the piece {piece.name}", f"set {piece.name} top into armholes"))
    return problems


_EXAMPLES = {
    "shoulders": "seam back shoulders with front shoulders, three-needle bind-off",
    "sides": "seam sides, mattress stitch",
    "sleeves": "seam sides and sleeves, mattress stitch",
}


def _open(piece: PiecePlan, what: str, example: str) -> Problem:
    return Problem(
        "W609",
        f"no line joins {what}",
        (Label(piece.span, "left open"),),
        help=f"If it is to be joined, write `{example}` in the `join` block.",
    )
