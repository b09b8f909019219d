"""A spec and a plan cut down to some of their sizes, for outputs that hold no others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from wale.plan import BandPlan, CrownPlan, Girth, Level, PiecePlan, Plan, Section, Top
from wale.spec import Assumption, Spec

One = TypeVar("One", bound=Struct)

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
    BandPlan: ("stitches", "rows", "hole_rows", "holes", "marked", "mitres"),
}
"""The fields of a plan's records that hold one value a size."""


def of_sizes(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Spec, Plan]:
    """Give the spec and plan of some sizes (indexes, in order) alone.

    The measures of the spec's lines keep the values of all sizes: what was solved from them is in the plan.
    """
    if list(sizes) == list(range(len(plan.sizes))):
        return spec, plan
    noted = tuple(_assumption(one, sizes) for one in spec.assumptions if one.holds(sizes))
    pieces = tuple(_piece(one, sizes) for one in plan.pieces)
    bands = tuple(
        replace(_cut(one, sizes), picked=tuple((name, _of(counts, sizes)) for name, counts in one.picked))
        for one in plan.bands
    )
    solved = tuple((name, _of(values, sizes)) for name, values in plan.solved)
    cut = Plan(_of(plan.sizes, sizes), pieces, bands, solved, plan.models)
    return replace(spec, sizes=_of(spec.sizes, sizes), assumptions=noted), cut


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
        girths=tuple(replace(_cut(one, sizes), level=_cut(one.level, sizes)) for one in piece.girths),
    )


def _assumption(one: Assumption, sizes: Sequence[int]) -> Assumption:
    values = one.values if len(one.values) <= 1 else _of(one.values, sizes)
    return replace(one, values=values, sources=_of(one.sources, sizes) if one.sources else ())
