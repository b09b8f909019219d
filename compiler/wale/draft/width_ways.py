"""Ways out where no stitch counts fit: other widths in the place of those that clash, each solved with all sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from wale.actions import Coursed, Neck
from wale.constructions import COURSES
from wale.draft.jointly import Jointly, solve_jointly
from wale.draft.lay_out import lay_out
from wale.draft.layout import Layout
from wale.draft.stating import at
from wale.draft.variants import bracketed_lengths, grain, with_ease, with_values
from wale.draft.widths import neck_key, width_model
from wale.measure import Measure
from wale.problems.problem import Edit, Fix
from wale.shaping.gauge import nearest
from wale.solve.exact import feasible, solved_soon
from wale.solve.model import Model, Rule
from wale.source import Span
from wale.spec import Spec

MOST = 3
"""So many widths are offered."""
MOST_EASE = 40
"""By so many steps an ease is changed at most, each half a centimetre or a quarter inch."""


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


def other_courses(spec: Spec, rules: Sequence[Rule]) -> list[Fix]:
    """Give the lengths and widths of courses in the conflict that are nearest to those written and let all sizes fit.

    Only those that are no level of their own: the depth of a raglan, the girth of its sleeves.
    """
    fixes = (_other_course(spec, one) for one in _of_courses(spec, rules) if not one.is_count)
    return [fix for fix in fixes if fix is not None]


def _of_courses(spec: Spec, rules: Sequence[Rule]) -> Iterator[Measure]:
    """Give what the courses in a conflict are given beside the width after them."""
    spans = {span for rule in rules for span in rule.spans}
    for action in (step.action for piece in spec.pieces for step in piece.steps):
        if isinstance(action, Coursed) and any(_within(action.span, span) for span in spans):
            yield from (one for name, one in action.given.items() if name != COURSES[action.form].to)


def _within(line: Span, span: Span) -> bool:
    return line.file == span.file and line.start <= span.start <= line.end


def _other_course(spec: Spec, measure: Measure) -> Fix | None:
    """Give one more or one less in all sizes, from the half of the smallest to twice the largest."""
    step = grain(spec.units)
    wishes = [measure.at(size) for size in range(len(spec.sizes))]

    def values(steps: int) -> list[Fraction]:
        return [nearest(wish / step + steps) * step for wish in wishes]

    def changed(steps: int) -> Spec:
        return with_values(spec, measure.span, values(steps), "length")

    steps = _fewest(changed, ceil(max(wishes) / step), ceil(min(wishes) / 2 / step))
    if not steps:
        return None
    words = bracketed_lengths(values(steps), spec.units)
    return Fix(f"write `{words}` for `{measure.words}`", (Edit(measure.span, words),))


def other_eases(spec: Spec, layouts: Sequence[Layout], rules: Sequence[Rule]) -> list[Fix]:
    """Give the eases, one changed at a time by as much in all sizes, with which those widths fit that clash."""
    step, fixes = grain(spec.units), []
    keys = tuple(f"{rule.terms[0][1].rpartition('@')[0]}" for rule in rules if rule.kind == "tolerance")
    measures = [level.measure for layout in layouts for level in layout.levels if level.key in keys]
    measures += _of_courses(spec, rules)
    names = dict.fromkeys(name for measure in measures for name in measure.names)
    for name in (one for one in names if one in spec.sizes[0].ease_spans):

        def changed(steps: int, name: str = name) -> Spec | None:
            return with_ease(spec, name, [steps * step] * len(spec.sizes))

        steps = _fewest(changed, MOST_EASE, MOST_EASE)
        varied = changed(steps) if steps else None
        if varied is not None:
            place, eases = spec.sizes[0].ease_spans[name], [one.ease[name] for one in varied.sizes]
            words = bracketed_lengths(eases, spec.units)
            fixes.append(Fix(f"an ease of {words} ({name})", (Edit(place, words),)))
    return fixes


def _fewest(changed: Callable[[int], Spec | None], more: int, less: int) -> int:
    """Give the fewest steps up, else down, with which a spec can be solved, found by halving; 0 for none."""
    for sign, most in ((1, more), (-1, less)):
        low, high = 0, most
        if not _fits(changed(sign * high)):
            continue
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if _fits(changed(sign * middle)) else (middle, high)
        spec = changed(sign * high)
        if spec is not None and _suits(spec):
            return sign * high
    return 0


def _fits(spec: Spec | None) -> bool:
    """Say whether stitches can be found, whatever the rows."""
    found = [lay_out(spec, piece)[0] for piece in spec.pieces] if spec is not None else [None]
    layouts = [layout for layout in found if layout is not None]
    return spec is not None and len(layouts) == len(found) and feasible(width_model(spec, layouts))


def _suits(spec: Spec) -> bool:
    """Say whether stitches and rows are found; not where the search for the best stitches alone is given up."""
    found = [lay_out(spec, piece) for piece in spec.pieces]
    layouts = [layout for layout, problems in found if layout is not None and not problems]
    if len(layouts) < len(found) or solved_soon(width_model(spec, layouts)) is None:
        return False
    return isinstance(solve_jointly(spec, layouts), Jointly)


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
