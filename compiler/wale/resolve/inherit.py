"""A piece made `as` another: the other's steps, with some replaced or added.

A keyword that stands once in both replaces by keyword, in its old place. One that stands more than once is replaced by
its name (`named …`, a level's or a mark's name). What the other lacks is added where such a step is usually worked.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from wale.actions import EDGINGS, BindSides, CastOn, Evenly, Mark, Shape, Step
from wale.resolve.context import Context
from wale.resolve.steps import EVENLY, ORDER, REPEATED
from wale.resolve.workshop import Placed
from wale.spec import Piece


def merge(context: Context, name: str, base: Piece, own: Sequence[Placed]) -> tuple[Step, ...] | None:
    """Give the steps of `name`: kept ones as they are, replaced and added ones with addresses of their own."""
    steps: list[Step | Placed] = list(base.steps)
    for placed in own:
        if placed.keyword == "note":
            steps.append(placed)
            continue
        again = [other for other in own if other.keyword == placed.keyword]
        old = [index for index, step in enumerate(steps) if _keyword(step) == placed.keyword]
        label = _label(placed)
        named = [index for index in old if label and _label_of_step(steps[index]) == label]
        if len(named) == 1 and (placed.keyword in REPEATED or placed.keyword == "mark"):
            steps[named[0]] = placed
        elif len(old) > 1 or len(again) > 1:
            _ambiguous(context, base, placed, len(old))
            return None
        elif old:
            steps[old[0]] = placed
        elif placed.keyword == "raise":
            why = f"this line of {name} has no place: no line of {base.name} says how high it lies"
            way = f"Give {name} lines of its own instead of `as {base.name}`, with this one where the short rows are."
            context.report("E405", why, placed.action.span, "added here", way)
            return None
        else:
            _insert(steps, placed)
    return _addressed(name, steps)


def _keyword(step: Step | Placed) -> str:
    if isinstance(step, Placed):
        return step.keyword
    if isinstance(step.action, Mark):
        return "mark"
    return step.address.partition(".")[2].partition("[")[0]


def _label(placed: Placed) -> str:
    if placed.label or not isinstance(placed.action, Shape | Evenly):
        return placed.label
    width = placed.action.width
    return width.names[0] if width is not None and width.names else ""


def _label_of_step(step: Step | Placed) -> str:
    if isinstance(step, Placed):
        return _label(step)
    if isinstance(step.action, Shape | Evenly | BindSides):
        return step.action.label
    return step.action.name if isinstance(step.action, Mark) else ""


def _ambiguous(context: Context, base: Piece, placed: Placed, times: int) -> None:
    keyword = placed.keyword
    span = placed.action.span
    if keyword == "shape":
        names = ", ".join(f"`{step.action.label}`" for step in base.steps if isinstance(step.action, Shape))
        way = f"Name the one that it replaces, such as `named waist`: {base.name} has {names or 'none'}."
    else:
        way = f"Give this piece lines of its own instead of `as {base.name}`."
    context.report(
        "E252",
        f"it is not clear which `{keyword}` line of {base.name} this one replaces",
        span,
        f"{base.name} has {times} of them" if times > 1 else "several stand here",
        way,
        also=[(step.action.span, "") for step in base.steps if _keyword(step) == keyword][:4],
    )


def _insert(steps: list[Step | Placed], placed: Placed) -> None:
    rank = ORDER.index(placed.keyword)
    later = [index for index, step in enumerate(steps) if ORDER.index(_keyword(step)) > rank]
    body = ("fabric", "work", "shape", *EVENLY, "bind-sides", "mark", *EDGINGS)
    if placed.keyword in body:
        later = [index for index in later if _keyword(steps[index]) not in body]
    steps.insert(later[0] if later else len(steps), placed)


def _addressed(name: str, steps: list[Step | Placed]) -> tuple[Step, ...]:
    counts: dict[str, int] = {}
    taken: dict[str, int] = {}
    found = []
    for step in steps:
        keyword = _keyword(step)
        counts[keyword] = counts.get(keyword, 0) + 1
        if isinstance(step, Placed):
            step = _own(name, step, counts[keyword], taken)
        elif isinstance(step.action, Shape | Evenly | BindSides):
            taken[step.action.label] = 1
        if isinstance(step.action, CastOn):
            names = (step.action.label, *step.action.width.names, "cast-on")
            taken[next(filter(None, names))] = 1
        found.append(step)
    return tuple(found)


def _own(name: str, placed: Placed, count: int, taken: dict[str, int]) -> Step:
    action = placed.action
    if isinstance(action, Mark):
        return Step(f"{name}.{action.name}", action)
    if isinstance(action, Shape | Evenly | BindSides):
        unnamed = {Shape: "shape", Evenly: "evenly", BindSides: "above-bind-off"}
        wanted = _label(placed) or unnamed[type(action)]
        taken[wanted] = taken.get(wanted, 0) + 1
        action = replace(action, label=wanted if taken[wanted] == 1 else f"{wanted}-{taken[wanted]}")
    numbered = placed.keyword in REPEATED
    return Step(f"{name}.{placed.keyword}[{count}]" if numbered else f"{name}.{placed.keyword}", action)
