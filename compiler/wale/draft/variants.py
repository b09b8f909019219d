"""A spec with one line changed, and whether it can be solved: every way out that is offered was tried like this."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import TypeVar

from msgspec import Struct
from msgspec.structs import fields, replace

from wale.actions import Action, Coursed, Fabric, Neck, Step
from wale.draft.jointly import solved_widths
from wale.draft.lay_out import lay_out
from wale.draft.lengths import length_model
from wale.draft.widths import width_model
from wale.measure import Constant, Dimension, Measure
from wale.quantity import CM_PER_INCH, in_unit
from wale.solve.exact import feasible, solved_soon
from wale.source import Span
from wale.spec import Piece, Spec

Record = TypeVar("Record", bound=Struct)
_GRAINS = {"cm": Fraction(1, 2), "inch": CM_PER_INCH / 4}
_TOLERANCES = {
    "cm": (Fraction(2), Fraction(3), Fraction(5)),
    "inch": (CM_PER_INCH * 3 / 4, CM_PER_INCH * 5 / 4, CM_PER_INCH * 2),
}


def grain(units: str) -> Fraction:
    """Give what lengths that are offered are rounded to, in cm: half a centimetre or a quarter inch."""
    return _GRAINS[units]


def tried_tolerances(units: str) -> tuple[Fraction, ...]:
    """Give tolerances in cm that are tried in the place of the spec's, round in its unit, the smallest first."""
    return _TOLERANCES[units]


def solved(spec: Spec, *, rows_too: bool = True) -> Mapping[str, int] | None:
    """Give the best stitches of a spec by unknown, or None where there are none or (`rows_too`) no rows suit these."""
    layouts = []
    for piece in spec.pieces:
        layout, problems = lay_out(spec, piece)
        if layout is None or problems:
            return None
        layouts.append(layout)
    model = width_model(spec, layouts)
    found = solved_soon(model)
    if found is None:
        return None
    if not rows_too:
        return found.values
    rows = length_model(spec, layouts, found.values, solved_widths(spec, layouts, found.values))
    return found.values if feasible(rows) else None


def with_actions(spec: Spec, change: Callable[[Action], Action]) -> Spec:
    """Give the spec with the actions of all pieces changed."""

    def changed(piece: Piece) -> Piece:
        return replace(piece, steps=tuple(Step(step.address, change(step.action)) for step in piece.steps))

    return replace(spec, pieces=tuple(changed(piece) for piece in spec.pieces))


def with_fit(spec: Spec, place: Span, **changes: object) -> Spec:
    """Give the spec with the motif of one line placed otherwise."""

    def change(action: Action) -> Action:
        if isinstance(action, Fabric) and action.fit.span == place:
            return replace(action, fit=replace(action.fit, **changes))
        return action

    return with_actions(spec, change)


def with_measures(spec: Spec, change: Callable[[Measure], Measure]) -> Spec:
    """Give the spec with its measures changed."""

    def changed(action: Action) -> Action:
        if isinstance(action, Coursed):
            return replace(action, given={name: change(value) for name, value in action.given.items()})
        if isinstance(action, Neck) and action.placket is not None:
            action = replace(action, placket=_changed(action.placket, change))
        return _changed(action, change)

    return with_actions(spec, changed)


def _changed(record: Record, change: Callable[[Measure], Measure]) -> Record:
    found = {one.name: getattr(record, one.name) for one in fields(record)}
    measures = {name: change(value) for name, value in found.items() if isinstance(value, Measure)}
    return replace(record, **measures)


def with_values(spec: Spec, place: Span, values: Sequence[Fraction], dimension: Dimension) -> Spec:
    """Give the spec with other values, in cm or a count, in the place of one measure."""

    def change(measure: Measure) -> Measure:
        if measure.span != place:
            return measure
        return replace(measure, term=Constant(tuple(values)), dimension=dimension)

    return with_measures(spec, change)


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


def round_up(value: Fraction, units: str) -> Fraction:
    """Round cm up to the half centimetre or the quarter inch."""
    return ceil(value / grain(units)) * grain(units)


def round_down(value: Fraction, units: str) -> Fraction:
    """Round cm down to the half centimetre or the quarter inch."""
    return floor(value / grain(units)) * grain(units)


def short(value: Fraction) -> str:
    """Say a number as briefly as it is exact to the hundredth."""
    return f"{float(value):g}"


def bracketed(values: Sequence[Fraction], unit: str) -> str:
    """Write values as the language does: `28 cm`, or `28 (29, 30) cm` where they differ."""
    first, *rest = (short(value) for value in values)
    more = f" ({', '.join(rest)})" if any(one != first for one in rest) else ""
    return f"{first}{more} {unit}"


def bracketed_lengths(values: Sequence[Fraction], units: str) -> str:
    """Write lengths of cm as the language does, in the pattern's unit: `28 cm`, `11 (11.5, 12) inch`."""
    return bracketed([in_unit(value, units) for value in values], units)
