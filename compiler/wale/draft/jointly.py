"""Stitches first, then the rows that depend on them, yet never stitches that no rows suit.

The best stitches are found without rows. If no rows suit them, the rules on rows that clash join the stitches' model,
in the form in which the stitches are still open (`linked`), alike for all sizes; and so on until rows are found. Each
round solves a relaxation of both models together, so stitches that rows suit are the best of all such. A rule without
such a form is left out; if it is what clashes, the clash is reported though other stitches might do.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.draft.layout import Layout
from wale.draft.lengths import LengthDraft, length_draft
from wale.draft.readable import easier_to_read
from wale.draft.stating import at
from wale.draft.widths import width_model
from wale.solve.exact import solve
from wale.solve.model import Conflict, Model, Rule
from wale.spec import Spec

ROUNDS = 40
"""Most rounds; each adds a rule, and so far three have been enough."""


class Jointly(Struct, frozen=True):
    """Both models, and the counts that solve them.

    Attributes:
        widths: the stitches' model, with the rules on rows that it had to hear of.
        lengths: the rows' model for the stitches found.
        counts: stitches and rows by unknown key.
        solved: finished widths in cm by address, one mapping a size.
    """

    widths: Model
    lengths: Model
    counts: Mapping[str, int]
    solved: Sequence[Mapping[str, Fraction]]


class NoRows(Struct, frozen=True):
    """No rows suit the best stitches, nor any others: what clashes, and those stitches and widths."""

    conflict: Conflict
    counts: Mapping[str, int]
    solved: Sequence[Mapping[str, Fraction]]


def solve_jointly(spec: Spec, layouts: Sequence[Layout]) -> Jointly | NoRows | Conflict:
    """Give the cheapest stitches that rows suit, and the cheapest rows for them; a `Conflict` is one of stitches."""
    plain = model = width_model(spec, layouts)
    first: NoRows | None = None
    for _ in range(ROUNDS):
        stitches = solve(model)
        if isinstance(stitches, Conflict):
            if first is None:
                return stitches
            held = [rule for rule in stitches.rules if rule in plain.rules]
            return NoRows(Conflict((*first.conflict.rules, *held)), first.counts, first.solved)
        counts = {one.key: stitches.values[one.key] for one in plain.unknowns}
        solved = solved_widths(spec, layouts, counts)
        draft = length_draft(spec, layouts, counts, solved)
        rows = solve(draft.model)
        if not isinstance(rows, Conflict):
            rows = easier_to_read(spec, layouts, counts, draft.model, rows)
            return Jointly(model, draft.model, {**counts, **rows.values}, solved)
        first = first or NoRows(rows, counts, solved)
        wider = _told(model, draft, rows)
        if wider == model:
            break
        model = wider
    assert first is not None, "the first round finds rows or no rows"
    return first


def _told(model: Model, draft: LengthDraft, clash: Conflict) -> Model:
    """Tell the stitches' model of the rules on rows that clash, in all sizes; the same model if that says nothing."""
    if not any(draft.forms.get(rule) for rule in clash.rules):
        return model
    known, clashing = set(model.rules), {_alike(rule) for rule in clash.rules}
    more = [
        form
        for rule in draft.model.rules
        if _alike(rule) in clashing
        for form in draft.forms.get(rule, (rule,))
        if form not in known
    ]
    if not more:
        return model
    declared = {one.key for one in model.unknowns}
    used = {key for rule in more for _, key in rule.terms}
    rows = tuple(one for one in draft.model.unknowns if one.key in used and one.key not in declared)
    return Model((*model.unknowns, *rows), (*model.rules, *more), model.wishes)


def _alike(rule: Rule) -> tuple[str, tuple[str, ...]]:
    """What rules of several sizes have in common: kind and unknowns, sizes apart."""
    return rule.kind, tuple(key.rsplit("@", 1)[0] for _, key in rule.terms)


def solved_widths(spec: Spec, layouts: Iterable[Layout], counts: Mapping[str, int]) -> list[dict[str, Fraction]]:
    """Give the finished widths in cm of all levels by address, one mapping a size."""
    result: list[dict[str, Fraction]] = []
    for size in range(len(spec.sizes)):
        widths = {}
        for layout in layouts:
            for level in layout.levels:
                stitches = counts[at(level.key, spec, size)] - level.taken
                widths[f"{layout.piece.name}.{level.label}"] = stitches / level.swatch.washed.stitches
        result.append(widths)
    return result
