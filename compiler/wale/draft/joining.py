"""Pieces that go on into another one: which of their stitches are held, and the count that the other begins with.

A body in the round holds two underarms, one at each side, a sleeve one; the rest of both is the new round. In working
order that is a sleeve, the front, the other sleeve and the back, as a body's round begins with its first underarm.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from wale.actions import Coursed, Hold, Joining
from wale.draft.joined import arm_key
from wale.draft.layout import Layout
from wale.draft.stating import Builder, at, most_stitches, state_width
from wale.plan import PiecePlan
from wale.problems.problem import Problem, problem
from wale.spec import Piece, Spec

SLEEVES = 2
"""Sleeves of a garment."""


def joining_of(piece: Piece) -> Joining | None:
    """Give how a piece begins with others, or None."""
    return next((step.action for step in piece.steps if isinstance(step.action, Joining)), None)


def hold_of(piece: Piece) -> Hold | None:
    """Give how a piece leaves its stitches to another, or None."""
    return next((step.action for step in piece.steps if isinstance(step.action, Hold)), None)


def misjoined(spec: Spec) -> list[Problem]:
    """Refuse pieces that are joined but hold nothing, and held stitches that no piece takes up, or two do."""
    found: list[Problem] = []
    pieces = {piece.name: piece for piece in spec.pieces}
    taken: dict[str, Joining] = {}
    for action in filter(None, map(joining_of, spec.pieces)):
        for name, make in ((action.body, 1), (action.sleeve, SLEEVES)):
            piece = pieces[name]
            why, way_out = "", ""
            if name in taken:
                why, way_out = f"the stitches of the {name} are joined twice", "Name each piece once."
            elif hold_of(piece) is None:
                why = f"the {name} does not hold its stitches"
                way_out = f"End the piece {name} with a line such as `hold, underarm 4 cm`."
            elif piece.make != make:
                why = f"the {name} is made {piece.make} times, and {make} of it {'is' if make == 1 else 'are'} joined"
                way_out = "The body comes first and is made once, then the sleeve: `join body with sleeve in plain`."
                way_out += " A sleeve is `make 2`."
            taken[name] = action
            if why:
                found.append(problem("E440", why, action.span, "joined here", help=way_out))
    for piece in spec.pieces:
        held = hold_of(piece)
        if held is not None and piece.name not in taken:
            way_out = "Begin another piece with `join body with sleeve in plain`, or bind off here."
            message = f"no piece takes up the stitches that the {piece.name} holds"
            found.append(problem("E440", message, held.span, "held for nothing", help=way_out))
    return found


def underarm_key(layout: Layout) -> str:
    """Key of the stitches of one underarm."""
    return f"{layout.piece.name}.underarm-stitches"


def state_joinings(build: Builder, spec: Spec, layouts: Sequence[Layout], size: int) -> None:
    """Tie the counts of pieces that are joined: their underarms match, and what is left is the new round."""
    by_name = {layout.piece.name: layout for layout in layouts}
    for layout in layouts:
        action = joining_of(layout.piece)
        if action is None:
            continue
        body, sleeve = by_name[action.body], by_name[action.sleeve]
        one, other = (_underarm(build, spec, held, size) for held in (body, sleeve))
        below, arm = (at(held.levels[-1].key, spec, size) for held in (body, sleeve))
        joined, span = at(layout.levels[0].key, spec, size), (action.span,)
        build.rule(
            "join", "underarms that are grafted have the same stitches", ((1, one), (-1, other)), span, lower=0, upper=0
        )
        build.rule(
            "parity", "between two underarms front and back have the same stitches", ((1, below),), span, modulus=2
        )
        terms = ((1, joined), (-1, below), (-SLEEVES, arm), (2, one), (SLEEVES, other))
        build.rule("join", "the body and two sleeves make the round, less the underarms", terms, span, lower=0, upper=0)
        if any(isinstance(one.step.action, Coursed) for one in layout.sections):
            part = at(arm_key(layout), spec, size)
            build.unknown(
                part, 1, most_stitches(sleeve.levels[-1].measure, sleeve.levels[-1].swatch.washed.stitches, size)
            )
            why = "a sleeve brings what it has but its underarm"
            build.rule("join", why, ((1, part), (-1, arm), (1, other)), span, lower=0, upper=0)
        build.rule("shaping", "of a sleeve more is left than its underarm", ((1, arm), (-2, other)), span, lower=1)
        build.rule("shaping", "of a body more is left than its underarms", ((1, below), (-4, one)), span, lower=2)


def _underarm(build: Builder, spec: Spec, layout: Layout, size: int) -> str:
    action = hold_of(layout.piece)
    assert action is not None
    key = at(underarm_key(layout), spec, size)
    gauge = layout.levels[-1].swatch.washed.stitches
    state_width(build, spec, key, action.underarm, size, gauge, f"underarm of the {layout.piece.name}", "underarm")
    return key


def plan_holders(spec: Spec, layout: Layout, counts: Mapping[str, int]) -> tuple[tuple[int, ...], ...]:
    """Give what is put on each holder from the start of the round, in each size; nothing where a piece holds none."""
    if hold_of(layout.piece) is None:
        return ()
    sides = 2 if any(one.body == layout.piece.name for one in filter(None, map(joining_of, spec.pieces))) else 1
    found = []
    for size in range(len(spec.sizes)):
        underarm, count = (counts[at(key, spec, size)] for key in (underarm_key(layout), layout.levels[-1].key))
        found.append((underarm, count // sides - underarm) * sides)
    return tuple(found)


def with_joined(pieces: Sequence[PiecePlan]) -> tuple[PiecePlan, ...]:
    """Tell pieces that begin with others what they take of them: sleeve, front, sleeve, back, as the round runs."""
    held = {piece.name: piece.holders for piece in pieces}
    found = []
    for piece in pieces:
        action = next((step.action for step in piece.steps if isinstance(step.action, Joining)), None)
        if action is not None:
            sleeve = (action.sleeve, tuple(one[1] for one in held[action.sleeve]))
            front, back = ((action.body, tuple(one[place] for one in held[action.body])) for place in (1, 3))
            piece = replace(piece, joined=(sleeve, front, sleeve, back))
        found.append(piece)
    return tuple(found)
