"""E511: a pocket that does not lie on its piece.

What: a pocket wider than the half of the piece beside the place that it is given, or that reaches into its neck or
over its end; one on a piece worked in the round, which has no middle; two of them on one place.
Why: it is sewn on by its sides and lower edge, stitch by stitch and row by row.
Example: a pocket 16 cm wide, 20 cm from the middle of a front of 50 cm. Instead: a place nearer to the middle.
"""

from __future__ import annotations

from wale.plan import PiecePlan, Plan
from wale.pockets import place_of
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.spec import SewnOn, Spec


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at each piece that is sewn onto another."""
    found = [_off(spec, plan, join) for join in spec.joins if isinstance(join, SewnOn)]
    return [one for one in found if one is not None]


def _off(spec: Spec, plan: Plan, join: SewnOn) -> Problem | None:
    pocket, under = plan.piece(join.piece), plan.piece(join.onto)
    if pocket is None or under is None:
        return None
    why, help = _never(join, pocket, under)
    for size, name in enumerate(plan.sizes):
        place = place_of(plan, join, size)
        if why or place is None:
            break
        for room, what in zip(place.room, ("wide", "high"), strict=True):
            if room < 0:
                over = length_words(-room, spec.units)
                edge = "side" if what == "wide" else "neck or upper end"
                why = f"it reaches {over} beyond the {edge} of the {under.name} in size {name}"
                help = "Give it a place nearer to the middle or lower down, or make it smaller."
                break
    if not why:
        return None
    message = f"the {pocket.name} does not lie on the {under.name}: {why}"
    return Problem("E511", message, (Label(join.span, "sewn on here"), Label(pocket.span, "the pocket")), help)


def _never(join: SewnOn, pocket: PiecePlan, under: PiecePlan) -> tuple[str, str]:
    """Say why it can lie there in no size, and what helps."""
    if under.in_round or pocket.in_round:
        return "only flat pieces are sewn on flat ones so far", "Work both of them flat."
    if pocket is under:
        return "it is the same piece", "Name the piece that the pocket is sewn onto last."
    if pocket.make > 2 or (under.half is not None and pocket.make > 1):
        most = "one pocket a half" if under.half is not None else "two pockets"
        return f"there is room for {most}", "Make fewer of them, or a piece of its own for each place."
    if (pocket.make == 2 or under.half is not None) and join.aside is None:
        return "nothing says how far from the middle", "Add `, 5 cm from the centre` to the line."
    if pocket.make == 1 and under.half is None and join.aside is not None:
        return "a single one lies in the middle", "Leave `from the centre` out, or write `make 2` on the pocket's line."
    return "", ""
