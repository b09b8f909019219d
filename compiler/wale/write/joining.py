"""Pieces that go on into one another: holding their stitches, beginning with those of others, grafting what is left."""

from __future__ import annotations

from collections.abc import Sequence

from wale.actions import Joining
from wale.plan import PiecePlan, Plan
from wale.write.context import Context, needle_text
from wale.write.lines import Line, Part, Sts


def hold_lines(at: Context, slot: str) -> list[Line]:
    """Write how the stitches of a piece are held."""
    parts: list[Part] = ["from the start of the round put "]
    for place, count in enumerate(at.piece.holders[at.size]):
        parts += [", " if place else "", Sts(count), "" if place % 2 else " (underarm)"]
    return [at.line(slot, "Hold", *parts, " each on a holder of its own. Cut the yarn.")]


def joining_lines(at: Context, action: Joining, slot: str) -> list[Line]:
    """Write how a piece begins with the stitches of others."""
    swatch = at.spec.swatches[action.swatch]
    parts: list[Part] = [f"slip onto one {needle_text(swatch.needle_mm)} circular needle "]
    for place, (name, counts) in enumerate(at.piece.joined):
        parts += [", " if place else "", counts[at.size], f" held sts of the {name}"]
    count = at.piece.levels[0].counts[at.size]
    parts += [": ", count, f" sts. Join {swatch.yarns[0]} and work in the round; mark its start."]
    arm = action.sleeve
    order = (
        f"Note (not proven): a {arm} lies at each side of the {action.body}, their underarms side by side; as the "
        f"round runs, a {arm} comes first, then the front, the other {arm}, and the back. So the round starts where "
        "the back ends."
    )
    return [at.remark(f"{slot}.order", order), at.line(slot, "Join", *parts)]


def grafting(plan: Plan, sizes: Sequence[int]) -> list[str]:
    """Say which underarms are grafted."""
    found = []
    for piece in plan.pieces:
        action = joining_action(piece)
        body = plan.piece(action.body) if action is not None else None
        if action is None or body is None:
            continue
        first, *rest = (str(body.holders[size][0]) for size in sizes)
        counts = first if all(one == first for one in rest) else f"{first} ({', '.join(rest)})"
        found.append(
            f"Graft the {counts} underarm sts of each {action.sleeve} to those of the {action.body} with a tail of the "
            "yarn, and draw the small holes at both ends of the underarm together."
        )
    return found


def joining_action(piece: PiecePlan) -> Joining | None:
    """Give how a piece begins with others, or None."""
    return next((step.action for step in piece.steps if isinstance(step.action, Joining)), None)
