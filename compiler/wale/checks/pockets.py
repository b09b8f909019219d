"""E511: a pocket that does not lie on its piece.

What: a pocket wider than the half of the piece beside the place that it is given, or that reaches into its neck or
over its end; one on a piece worked in the round, which has no middle; two of them on one place; a lining that is bound
off, or whose opening is not on even or shaped rows.
Why: it is sewn on by its sides and lower edge, stitch by stitch and row by row.
Example: a pocket 16 cm wide, 20 cm from the middle of a front of 50 cm. Instead: a place nearer to the middle.
"""

from __future__ import annotations

from wale.actions import BindOff
from wale.plan import PiecePlan, Plan
from wale.pockets import place_of, slots_of
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
    if not why:
        why, help = _made(spec, join, pocket)
    for size, name in enumerate(plan.sizes):
        place = place_of(plan, join, size)
        if why or place is None:
            break
        for room, what in zip(place.room, ("wide", "high"), strict=True):
            if room < 0:
                over = length_words(-room, spec.units)
                edge = "side" if what == "wide" else "lower or upper end" if join.is_inset else "neck or upper end"
                why = f"it reaches {over} beyond the {edge} of the {under.name} in size {name}"
                help = "Give it a place nearer to the middle or lower down, or make it smaller."
                break
        if join.is_inset and not why:
            why, help = _closed(spec, plan, join, size)
    if not why:
        return None
    message = f"the {pocket.name} does not lie {'behind' if join.is_inset else 'on'} the {under.name}: {why}"
    return Problem(
        "E511",
        message,
        (Label(join.span, "inset here" if join.is_inset else "sewn on here"), Label(pocket.span, "the pocket")),
        help,
    )


def _made(spec: Spec, join: SewnOn, pocket: PiecePlan) -> tuple[str, str]:
    """Say whether a pocket is made as often as there are places for it, one a half."""
    lines = [one for one in spec.joins if isinstance(one, SewnOn) and one.piece == pocket.name]
    halves = {piece.name for piece in spec.pieces if piece.half is not None}
    places = sum(1 if one.onto in halves or one.aside is None else 2 for one in lines)
    if places == pocket.make:
        return "", ""
    many = f"there {'is' if places == 1 else 'are'} {places} {'opening' if join.is_inset else 'place'}"
    many += f"{'' if places == 1 else 's'} for the {pocket.make} that {'is' if pocket.make == 1 else 'are'} made"
    return many, f"Write `make {places}` on the {pocket.name}'s line."


def _closed(spec: Spec, plan: Plan, join: SewnOn, size: int) -> tuple[str, str]:
    """Say why an inset pocket cannot be opened in a size, and what helps."""
    pocket, under, place = plan.piece(join.piece), plan.piece(join.onto), place_of(plan, join, size)
    assert pocket is not None and under is not None and place is not None
    (slot,) = [one for one in slots_of(plan, (join,), under, size)]
    edge = under.edge.stitches
    right, left = under.half.ends(edge) if under.half is not None else (edge, edge)
    name = plan.sizes[size]
    if any(isinstance(step.action, BindOff) for step in pocket.steps) or pocket.top is not None:
        return "its last stitches are no longer live", f"Leave the end of the {pocket.name} out, such as `bind off`."
    if place.section.kind not in ("work", "shape"):
        return f"it opens in a hem, an edge or where stitches are bound off in size {name}", "Give it another height."
    if any(first <= right or first + slot.stitches - 1 > slot.before - left for first in slot.places):
        return f"it reaches into the edge stitches or the band in size {name}", "Give it a place nearer to the middle."
    if len(slot.places) > 1 and slot.places[0] + slot.stitches > slot.places[1]:
        return f"the two openings meet in size {name}", "Give them a place farther from the middle."
    return "", ""


def _never(join: SewnOn, pocket: PiecePlan, under: PiecePlan) -> tuple[str, str]:
    """Say why it can lie there in no size, and what helps."""
    if under.in_round or pocket.in_round:
        return "only flat pieces are sewn on flat ones so far", "Work both of them flat."
    if pocket is under:
        return "it is the same piece", "Name the piece that the pocket is sewn onto last."
    if pocket.make > 2:
        return "there is room for two pockets", "Make fewer of them, or a piece of its own for each place."
    if (pocket.make == 2 or under.half is not None) and join.aside is None:
        return "nothing says how far from the middle", "Add `, 5 cm from the centre` to the line."
    if pocket.make == 1 and under.half is None and join.aside is not None:
        return "a single one lies in the middle", "Leave `from the centre` out, or write `make 2` on the pocket's line."
    return "", ""
