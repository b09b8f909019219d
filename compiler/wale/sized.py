"""A spec and a plan cut down to some of their sizes, for outputs that hold no others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from wale.measure import Combine, Constant, Measure, Term
from wale.plan import BandPlan, CollarPlan, CrownPlan, Girth, Level, PiecePlan, Plan, Section, Top
from wale.spec import Assumption, Spec

One = TypeVar("One", bound=Struct)
Kept = TypeVar("Kept")

BY_SIZE: dict[type[Struct], tuple[str, ...]] = {
    Level: ("counts", "wishes"),
    Section: (
        "rows",
        "wishes",
        "position",
        "schedules",
        "chart_start",
        "even_change",
        "centre",
        "even_start",
        "numbers",
    ),
    Girth: ("rows",),
    Top: (
        *("neck", "shoulder", "neck_rows", "centre", "steps", "slope_rows", "groups", "placket_rows", "corner"),
        *("neck_wishes", "depth_wishes", "slope_wishes", "placket_wishes"),
    ),
    CrownPlan: ("start", "rounds", "decrease_rounds", "final"),
    BandPlan: ("stitches", "rows", "hole_rows", "holes", "marked", "mitres", "hood"),
    CollarPlan: ("base", "gaps", "ends", "sides"),
}
"""The fields of a plan's records that hold one value a size."""


def of_sizes(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Spec, Plan]:
    """Give the spec and plan of some sizes (indexes, in order) alone; the models that were solved stay whole."""
    if list(sizes) == list(range(len(plan.sizes))):
        return spec, plan
    noted = tuple(_assumption(one, sizes) for one in spec.assumptions if one.holds(sizes))
    lines = _Lines(sizes)
    pieces = tuple(_piece(lines.cut(one), sizes) for one in plan.pieces)
    bands = tuple(_band(one, sizes) for one in plan.bands)
    solved = tuple((name, _of(values, sizes)) for name, values in plan.solved)
    own = {name: lines.cut(getattr(spec, name)) for name in ("pieces", "joins", "bands")}
    cut = Plan(_of(plan.sizes, sizes), pieces, bands, solved, plan.models)
    return replace(spec, sizes=_of(spec.sizes, sizes), assumptions=noted, **own), cut


class _Lines:
    """Cuts the measures that lines ask for down to some sizes; a record that stands in two places stays one."""

    def __init__(self, sizes: Sequence[int]) -> None:
        self.sizes = sizes
        self._cut: dict[int, tuple[object, object]] = {}

    def cut(self, value: Kept) -> Kept:
        """Give a record, or records, with all their measures cut; what holds none is the same as before."""
        if id(value) not in self._cut:
            # the record is kept beside the one that stands for it, for its id to stay its own
            self._cut[id(value)] = value, self._made(value)
        return self._cut[id(value)][1]  # type: ignore[return-value]

    def _made(self, value: object) -> object:
        if isinstance(value, Measure):
            return replace(value, term=_term(value.term, self.sizes))
        if isinstance(value, tuple):
            made = tuple(self.cut(one) for one in value)
            return made if any(new is not old for new, old in zip(made, value, strict=True)) else value
        if isinstance(value, dict):
            return {key: self.cut(one) for key, one in value.items()}
        if isinstance(value, Struct):
            fields = {name: getattr(value, name) for name in value.__struct_fields__}
            changed = {name: new for name, old in fields.items() if (new := self.cut(old)) is not old}
            return replace(value, **changed) if changed else value
        return value


def _term(term: Term, sizes: Sequence[int]) -> Term:
    if isinstance(term, Constant):
        return Constant(_of(term.values, sizes))
    if isinstance(term, Combine):
        return replace(term, left=_term(term.left, sizes), right=_term(term.right, sizes))
    return term


def _band(band: BandPlan, sizes: Sequence[int]) -> BandPlan:
    picked = tuple((name, _of(counts, sizes)) for name, counts in band.picked)
    collar = None if band.collar is None else _cut(band.collar, sizes)
    return replace(_cut(band, sizes), picked=picked, collar=collar)


def _of(values: Sequence[Any], sizes: Sequence[int]) -> tuple[Any, ...]:
    return tuple(values[size] for size in sizes)


def _cut(one: One, sizes: Sequence[int]) -> One:
    found = {name: getattr(one, name) for name in BY_SIZE[type(one)]}
    return replace(one, **{name: _of(values, sizes) for name, values in found.items() if values})


def _piece(piece: PiecePlan, sizes: Sequence[int]) -> PiecePlan:
    return replace(
        piece,
        levels=tuple(_cut(level, sizes) for level in piece.levels),
        sections=tuple(_cut(section, sizes) for section in piece.sections),
        top=None if piece.top is None else _cut(piece.top, sizes),
        crown=None if piece.crown is None else _cut(piece.crown, sizes),
        marks=tuple((name, _of(rows, sizes)) for name, rows in piece.marks),
        holders=_of(piece.holders, sizes) if piece.holders else (),
        joined=tuple((name, _of(counts, sizes)) for name, counts in piece.joined),
        hole_rows=_of(piece.hole_rows, sizes) if piece.hole_rows else (),
        girths=tuple(replace(_cut(one, sizes), level=_cut(one.level, sizes)) for one in piece.girths),
    )


def _assumption(one: Assumption, sizes: Sequence[int]) -> Assumption:
    values = one.values if len(one.values) <= 1 else _of(one.values, sizes)
    return replace(one, values=values, sources=_of(one.sources, sizes) if one.sources else ())
