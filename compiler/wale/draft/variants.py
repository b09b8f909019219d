"""A spec with one line changed, and whether it can be solved: every way out that is offered was tried like this."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from fractions import Fraction
from math import ceil, floor

from wale.draft.jointly import Jointly, solve_jointly
from wale.draft.layout import lay_out
from wale.draft.widths import width_model
from wale.solve.exact import feasible
from wale.source import Span
from wale.spec import Action, Constant, Fabric, Measure, Piece, Spec, Step

HALF = Fraction(1, 2)
"""Lengths that are offered are rounded to so many cm."""


def solved(spec: Spec) -> Jointly | None:
    """Give the counts of a spec, or None where it has none."""
    layouts = []
    for piece in spec.pieces:
        layout, problems = lay_out(spec, piece)
        if layout is None or problems:
            return None
        layouts.append(layout)
    if not feasible(width_model(spec, layouts)):
        return None
    found = solve_jointly(spec, layouts)
    return found if isinstance(found, Jointly) else None


def with_actions(spec: Spec, change: Callable[[Action], Action]) -> Spec:
    """Give the spec with the actions of all pieces changed."""

    def changed(piece: Piece) -> Piece:
        return replace(piece, steps=tuple(Step(step.address, change(step.action)) for step in piece.steps))

    return replace(spec, pieces=tuple(changed(piece) for piece in spec.pieces))


def with_fit(spec: Spec, place: Span, **changes: object) -> Spec:
    """Give the spec with the motif of one line placed otherwise."""

    def change(action: Action) -> Action:
        if isinstance(action, Fabric) and action.fit.span == place:
            return replace(action, fit=replace(action.fit, **changes))  # type: ignore[arg-type]
        return action

    return with_actions(spec, change)


def with_measures(spec: Spec, change: Callable[[Measure], Measure]) -> Spec:
    """Give the spec with its measures changed."""

    def changed(action: Action) -> Action:
        found = {one.name: getattr(action, one.name) for one in fields(action)}
        measures = {name: change(value) for name, value in found.items() if isinstance(value, Measure)}
        return replace(action, **measures)  # type: ignore[arg-type]

    return with_actions(spec, changed)


def with_values(spec: Spec, place: Span, values: Sequence[Fraction]) -> Spec:
    """Give the spec with other values in the place of one measure."""

    def change(measure: Measure) -> Measure:
        return replace(measure, term=Constant(tuple(values))) if measure.span == place else measure

    return with_measures(spec, change)


@dataclass(frozen=True, slots=True)
class _Unlike(Exception):
    """A measure depends on an ease in another way than by a factor."""


def with_ease(spec: Spec, name: str, more: Sequence[Fraction]) -> Spec | None:
    """Give the spec with an ease larger by `more` cm, one a size; None where it is not plain what that changes."""
    place = spec.sizes[0].ease_spans.get(name)
    if place is None or any(size.ease_spans.get(name) != place for size in spec.sizes):
        return None

    def change(measure: Measure) -> Measure:
        if not any(
            one.file == place.file and one.start <= place.start and place.end <= one.end for one in measure.inputs
        ):
            return measure
        factor = ease_factor(spec, measure, name)
        if factor is None:
            raise _Unlike
        assert isinstance(measure.term, Constant)
        values = (value + factor * extra for value, extra in zip(measure.term.values, more, strict=True))
        return replace(measure, term=Constant(tuple(values)))

    sizes = tuple(
        replace(size, ease={**size.ease, name: size.ease[name] + extra})
        for size, extra in zip(spec.sizes, more, strict=True)
    )
    try:
        return replace(with_measures(spec, change), sizes=sizes)
    except _Unlike:
        return None


def ease_factor(spec: Spec, measure: Measure, name: str) -> Fraction | None:
    """Give the factor by which a measure is body + ease of `name` (1/2 for `bust/2`), None where it is another sum."""
    if not isinstance(measure.term, Constant):
        return None
    finished = [size.measures[name].value + size.ease[name] for size in spec.sizes if name in size.measures]
    if len(finished) < len(spec.sizes) or any(value <= 0 for value in finished):
        return None
    factors = {value / whole for value, whole in zip(measure.term.values, finished, strict=True)}
    return factors.pop() if len(factors) == 1 and measure.names == (name,) else None


def round_up(value: Fraction) -> Fraction:
    """Round up to the half centimetre."""
    return ceil(value / HALF) * HALF


def round_down(value: Fraction) -> Fraction:
    """Round down to the half centimetre."""
    return floor(value / HALF) * HALF


def short(value: Fraction) -> str:
    """Say a number as briefly as it is exact to the hundredth."""
    return f"{float(value):g}"


def bracketed(values: Sequence[Fraction], unit: str) -> str:
    """Write values as the language does: `28 cm`, or `28 (29, 30) cm` where they differ."""
    first, *rest = (short(value) for value in values)
    more = f" ({', '.join(rest)})" if any(one != first for one in rest) else ""
    return f"{first}{more} {unit}"


def told_of(spec: Spec, sizes: Sequence[int], values: Mapping[int, Fraction]) -> str:
    """Say values of some sizes in words, once where they are alike."""
    said = [f"{short(values[size])} cm" for size in sizes]
    return (
        said[0]
        if len(set(said)) == 1
        else ", ".join(f"{one} in size {spec.sizes[size].name}" for size, one in zip(sizes, said, strict=True))
    )
