"""Sections of the plan: rows got, positions from the fold, shaping schedules and even changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from wale.actions import Shape
from wale.draft.courses import numbers
from wale.draft.layout import Layout, SectionDraft
from wale.draft.stating import at
from wale.plan import COURSED, Section
from wale.shaping.taper import Schedule, schedule
from wale.spec import Spec


def plan_sections(
    spec: Spec, layout: Layout, counts: Mapping[str, int], widths: Sequence[Mapping[str, Fraction]]
) -> tuple[Section, ...]:
    """Fill in a layout's sections."""
    sizes = range(len(spec.sizes))
    position = [Fraction(0)] * len(spec.sizes)
    result = []
    for index, draft in enumerate(layout.sections):
        rows = tuple(counts[at(draft.key, spec, size)] for size in sizes)
        if draft.folds:
            position = [Fraction(0)] * len(spec.sizes)
        if index >= layout.fold and draft.kind != "aside":
            position = [position[size] + rows[size] / draft.swatch.washed.rows for size in sizes]
        wishes = None
        if draft.measure is not None and not draft.measure.is_count:
            wishes = tuple(draft.measure.at(size, widths[size]) for size in sizes)
        change = tuple(
            counts[at(layout.levels[draft.last].key, spec, size)]
            - counts[at(layout.levels[draft.first].key, spec, size)]
            for size in sizes
        )
        start = None
        if draft.evens:
            ends = [layout.levels[draft.first].key, layout.levels[layout.sections[index - 1].last].key]
            start = tuple(counts[at(ends[0], spec, size)] - counts[at(ends[1], spec, size)] for size in sizes)
        result.append(
            Section(
                address(layout, draft),
                draft.kind,
                draft.step,
                rows,
                draft.swatch.washed.rows,
                draft.swatch.name,
                draft.first,
                draft.last,
                wishes,
                draft.to,
                tuple(position),
                draft.measure,
                draft.fabric,
                tuple(_schedule(draft, change[size] // layout.ends_shaped, rows[size]) for size in sizes)
                if draft.kind == "shape"
                else (),
                None,
                change if draft.kind not in ("shape", *COURSED) and draft.first != draft.last else None,
                even_start=start,
                numbers=tuple(numbers(layout, draft, counts, spec, size) for size in sizes),
                folds=draft.folds,
            )
        )
    return tuple(result)


def address(layout: Layout, draft: SectionDraft) -> str:
    """Name a section after its piece, also where the step is inherited from another."""
    return f"{layout.piece.name}.{draft.key.split('.', 1)[1]}"


def _schedule(draft: SectionDraft, steps: int, rows: int) -> Schedule:
    assert isinstance(draft.step.action, Shape)
    found = schedule(abs(steps), rows, any_row=draft.step.action.any_row)
    assert found is not None, "the length model keeps enough rows"
    return found
