"""Ways out where no stitch counts fit: other widths in the place of those that clash, each solved with all sizes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import Neck
from wale.draft.jointly import Jointly, solve_jointly
from wale.draft.lay_out import lay_out
from wale.draft.layout import Layout
from wale.draft.stating import at
from wale.draft.variants import bracketed_lengths, grain, with_values
from wale.draft.widths import neck_key, width_model
from wale.measure import Measure
from wale.problems.problem import Edit, Fix
from wale.shaping.gauge import nearest
from wale.solve.exact import solved_soon
from wale.solve.model import Model, Rule
from wale.spec import Spec

MOST = 3
"""So many widths are offered."""


class _Width(Struct, frozen=True):
    """A width that was asked for: where it was written, its unknown without the size, and what its stitches measure."""

    measure: Measure
    key: str
    gauge: Fraction
    taken: int = 0
    scale: Fraction = Fraction(1)


def other_widths(spec: Spec, layouts: Sequence[Layout], rules: Sequence[Rule]) -> list[Fix]:
    """Give the widths that come nearest to those that clash, one line changed at a time."""
    model = width_model(spec, layouts)
    fixes = []
    # pieces made as another have its lines: each is offered once
    for width in {width.measure.span: width for width in _widths(layouts)}.values():
        if any(rule.kind == "tolerance" and rule.terms[0][1].startswith(f"{width.key}@") for rule in rules):
            values = _nearest(spec, model, width)
            if values and _suits(with_values(spec, width.measure.span, values, "length")):
                words = bracketed_lengths(values, spec.units)
                fixes.append(Fix(f"write `{words}` for `{width.measure.words}`", (Edit(width.measure.span, words),)))
    return fixes[:MOST]


def _suits(spec: Spec) -> bool:
    found = [lay_out(spec, piece) for piece in spec.pieces]
    layouts = [layout for layout, problems in found if layout is not None and not problems]
    return len(layouts) == len(found) and isinstance(solve_jointly(spec, layouts), Jointly)


def _widths(layouts: Sequence[Layout]) -> Iterator[_Width]:
    for layout in layouts:
        if layout.neck is not None and isinstance(layout.neck.action, Neck):
            yield _Width(layout.neck.action.width, neck_key(layout), layout.levels[-1].swatch.washed.stitches)
        for level in layout.levels:
            if not level.measure.is_count:
                yield _Width(level.measure, level.key, level.swatch.washed.stitches, level.taken, level.scale)


def _nearest(spec: Spec, model: Model, width: _Width) -> list[Fraction]:
    """Give the width of each size that is best where this one may be anything; those that were possible stay."""
    loose = [
        rule for rule in model.rules if rule.kind != "tolerance" or not rule.terms[0][1].startswith(f"{width.key}@")
    ]
    loosened = Model(model.unknowns, tuple(loose), model.wishes)
    found = solved_soon(loosened)
    if found is None:
        return []
    values, step = [], grain(spec.units)
    for size in range(len(spec.sizes)):
        wish = width.measure.at(size)
        got = (found.values[at(width.key, spec, size)] - width.taken) / width.gauge / width.scale
        values.append(wish if abs(got - wish) <= spec.width_tolerance else nearest(got / step) * step)
    return values
