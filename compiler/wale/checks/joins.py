"""E504, E505, W609 and W612: joins that cannot be made as written, or were forgotten, and stitches never bound off.

What: a three-needle bind-off of shoulders that are bound off in steps; a sleeve set in where no body has an underarm;
shoulders, sides and sleeves that no line joins; a piece whose last stitches stay on the needle.
Why: a three-needle bind-off needs live stitches; the underarm says how long the armhole is; an edge without a seam
leaves the garment open.
Example: `shoulders slope 3 cm, bound off in steps` in a back whose shoulder seam says `three-needle bind-off`.
Instead: `short rows`, which keep the stitches live, or another seam.
"""

from __future__ import annotations

from wale.actions import BindOff
from wale.armholes import UNDERARM
from wale.checks.ring_shapes import bodies_of
from wale.plan import PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.spec import Seam, SetIn, SewnOn, Spec
from wale.write.courses import final_of

LIVE = ("top", "shoulders")


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at each seam, then for edges without one."""
    problems = [found for join in spec.joins if isinstance(join, Seam) for found in _live(plan, join)]
    problems += [found for join in spec.joins if isinstance(join, SetIn) for found in _armhole(spec, plan, join)]
    problems += _unjoined(spec, plan)
    return [*problems, *_left_on(spec, plan)]


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


def _armhole(spec: Spec, plan: Plan, join: SetIn) -> list[Problem]:
    """A sleeve's top is sewn between the underarm and the shoulder, so a body needs the mark; a cap's see `caps`."""
    bodies, sleeve = bodies_of(plan), plan.piece(join.piece)
    without = [piece for piece in bodies if UNDERARM not in [name for name, _ in piece.marks]]
    if sleeve is None or not without or join.edge == "cap":
        return []
    body, size = without[0], 0
    top, level = body.top, sleeve.levels[-1]
    assert top is not None
    edge = level.width(size) / 2
    below = edge + top.slope_rows[size] / body.sections[-1].rows_per_cm
    return [
        Problem(
            "E505",
            f"the {join.piece} is set into armholes, and the {body.name} has no `mark {UNDERARM}`",
            (Label(join.span, "into which armhole?"), Label(body.span, "no underarm here")),
            help=f"The {join.piece}'s top is {length_words(level.width(size), spec.units)} in size {plan.sizes[size]}, "
            f"so its armhole starts {length_words(below, spec.units)} below the end of the last even rows: end a line "
            f"`work to …` there and write `mark {UNDERARM}` below it.",
        )
    ]


def _left_on(spec: Spec, plan: Plan) -> list[Problem]:
    """Pieces that end without a bind-off, shoulders or a crown, and whose live stitches nothing joins."""
    used = {name for join in spec.joins if isinstance(join, Seam) for name, edge in join.edges if edge in LIVE}
    problems = []
    for piece in plan.pieces:
        if piece.top is not None or piece.crown is not None or piece.name in used:
            continue
        if piece.name in {join.piece for join in spec.joins if isinstance(join, SewnOn) and join.is_inset}:
            continue
        if any(isinstance(step.action, BindOff) for step in piece.steps) or (
            piece.holders or (piece.sections and final_of(piece.sections[-1]) is not None)
        ):
            continue
        problems.append(
            Problem(
                "W612",
                f"the {piece.name} is never bound off: its last stitches stay on the needle",
                (Label(piece.span, "ends without `bind off`"),),
                help="Write `bind off` as its last line; or join the live stitches, or say in a `note` what becomes of "
                "them.",
            )
        )
    return problems


def _unjoined(spec: Spec, plan: Plan) -> list[Problem]:
    bodies = bodies_of(plan)
    if sum(piece.make for piece in bodies) < 2:
        return []
    joined = {pair for join in spec.joins if isinstance(join, Seam) for pair in join.edges}
    set_in = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    sewn_on = {join.piece for join in spec.joins if isinstance(join, SewnOn)}
    problems = []
    for edge in ("shoulders", "sides"):
        loose = [piece for piece in bodies if (piece.name, edge) not in joined]
        if loose:
            names = " and ".join(piece.name for piece in loose)
            problems.append(_open(loose[0], f"the {edge} of {names}", _EXAMPLES[edge]))
    for piece in plan.pieces:
        if piece.in_round or piece.top is not None or piece.name in sewn_on:
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
