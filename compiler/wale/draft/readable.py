"""Between equals the rows that read more easily: fewest different intervals, then as in the size before.

A length often lies midway between two even row counts (12.5 cm at 28 rows in 10 cm are 35 rows: 34 or 36). The solver
takes the smaller; here the other one is taken where its shaping is easier to follow and the whole costs the same, which
is found by solving again with it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from wale.actions import Shape
from wale.draft.layout import Layout, SectionDraft
from wale.draft.sharing import own_from
from wale.draft.stating import at
from wale.shaping.taper import schedule
from wale.solve.exact import solved_soon
from wale.solve.model import Model, Rule, Solution
from wale.spec import Spec

Structure = tuple[int, ...]


def easier_to_read(
    spec: Spec, layouts: Sequence[Layout], counts: Mapping[str, int], model: Model, rows: Solution
) -> Solution:
    """Give rows of the same cost, shaping by shaping and size by size the one of two equals that reads more easily.

    Args:
        counts: solved stitches by unknown key.
        model: the rows' model for them.
        rows: its solution.
    """
    fixed: list[Rule] = []
    for section, every in _shapings(spec, layouts, counts):
        before: Structure | None = None
        for size in range(len(spec.sizes)):
            key, steps = at(section.key, spec, size), every[size]
            now = rows.values[key]
            other = _mirrored(model, key, now)
            if other is not None and _rank(section, steps, other, before) < _rank(section, steps, now, before):
                tried = Rule(((1, key),), "easier to read", "exact", other, other)
                again = solved_soon(Model(model.unknowns, (*model.rules, *fixed, tried), model.wishes))
                if again is not None and again.cost == rows.cost:
                    rows, now = again, other
            fixed.append(Rule(((1, key),), "chosen", "exact", now, now))
            before = _structure(section, steps, now)
    return rows


def _shapings(
    spec: Spec, layouts: Sequence[Layout], counts: Mapping[str, int]
) -> Iterator[tuple[SectionDraft, list[int]]]:
    """Give each shaping once, with its shaping rows in each size."""
    for layout, start in zip(layouts, own_from(layouts), strict=True):
        for section in layout.sections[start:]:
            if section.kind == "shape":
                ends = [layout.levels[index].key for index in (section.first, section.last)]
                sizes = range(len(spec.sizes))
                yield (
                    section,
                    [
                        abs(counts[at(ends[0], spec, n)] - counts[at(ends[1], spec, n)]) // layout.ends_shaped
                        for n in sizes
                    ],
                )


def _mirrored(model: Model, key: str, now: int) -> int | None:
    """Give the row count that misses the unknown's own wish by as much to the other side, if there is one."""
    for wish in model.wishes:
        if len(wish.terms) == 1 and wish.terms[0][1] == key:
            exact: Fraction = -wish.constant / wish.terms[0][0]
            other = 2 * exact - now
            return int(other) if other.denominator == 1 and other != now else None
    return None


def _structure(section: SectionDraft, steps: int, rows: int) -> Structure | None:
    assert isinstance(section.step.action, Shape)
    found = schedule(steps, rows, any_row=section.step.action.any_row) if rows >= 0 else None
    return None if found is None else tuple(interval for interval, _ in found.then)


def _rank(section: SectionDraft, steps: int, rows: int, before: Structure | None) -> tuple[int, bool]:
    """How hard a shaping reads: its different intervals, and whether they differ from those of the size before."""
    structure = _structure(section, steps, rows)
    if structure is None:
        return 3, True
    return len(structure), before is not None and structure != before
