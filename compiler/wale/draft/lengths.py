"""Row counts of all pieces and sizes as one model, once the stitches are solved. See docs/maths.md#lengths."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil

from msgspec import Struct

from wale.actions import Coursed, Crown, Neck, Placket, Shape, Shoulders
from wale.draft.caps import fit_cap
from wale.draft.courses import course_rows
from wale.draft.layout import Layout, SectionDraft
from wale.draft.linked import RowBuilder, whole
from wale.draft.plackets import LEAST, least_foot, placket_key
from wale.draft.sharing import own_from
from wale.draft.stating import FITTED, at, counts_within, within
from wale.draft.widths import front_sts, neck_key, shoulder_key
from wale.measure import Measure
from wale.quantity import length_words
from wale.shaping.crown import least_rounds
from wale.shaping.taper import least_rows
from wale.solve.model import Model, Rule, Wish
from wale.spec import Seam, SetIn, Spec

ROOM = 20
"""Room in cm beyond twice a wish, within which rows are looked for."""
Counts = Mapping[str, int]
Widths = Sequence[Mapping[str, Fraction]]


class LengthDraft(Struct, frozen=True):
    """The row counts of a garment, and the rules among them that rest on stitches (see `RowBuilder.forms`)."""

    model: Model
    forms: Mapping[Rule, tuple[Rule, ...]]


def length_model(spec: Spec, layouts: Sequence[Layout], counts: Counts, widths: Widths) -> Model:
    """State the row counts of a garment; arguments as of `length_draft`."""
    return length_draft(spec, layouts, counts, widths).model


def length_draft(spec: Spec, layouts: Sequence[Layout], counts: Counts, widths: Widths) -> LengthDraft:
    """State the row counts of a garment, and what in them rests on stitches.

    Args:
        counts: solved stitches by unknown key.
        widths: solved finished widths in cm by address, one mapping a size.
    """
    levels = {f"{layout.piece.name}.{level.label}": level for layout in layouts for level in layout.levels}
    build = RowBuilder(levels=levels)
    own = list(zip(layouts, own_from(layouts), strict=True))
    for size in range(len(spec.sizes)):
        for layout, start in own:
            for index, section in enumerate(layout.sections[start:], start):
                _section(build, spec, layout, index, section, size, counts, widths)
            if layout.neck is not None and layout.shoulders is not None:
                _top(build, spec, layout, size, counts, widths)
        _joins(build, spec, layouts, size, counts)
    _orders(build, spec, own, widths)
    return LengthDraft(build.model(), build.forms)


def slope_key(layout: Layout) -> str:
    """Key of the rows of the shoulder slope."""
    assert layout.shoulders is not None
    return f"{layout.shoulders.address}.rows"


def depth_key(layout: Layout) -> str:
    """Key of the rows of the neck."""
    assert layout.neck is not None
    return f"{layout.neck.address}.rows"


def _most_rows(measure: Measure, gauge: Fraction, size: int, widths: Widths) -> int:
    """Bound an unknown generously: twice its wish and more, far outside every tolerance."""
    wish = measure.at(size, widths[size])
    return int(wish) if measure.is_count else (2 * max(ceil(wish), 0) + ROOM) * ceil(gauge)


def _most(section: SectionDraft, size: int, widths: Widths) -> int:
    """Bound the rows of a section."""
    if section.measure is not None:
        return _most_rows(section.measure, section.swatch.washed.rows, size, widths)
    return FITTED * ceil(section.swatch.washed.rows) if section.kind == "shape" else section.fixed


def _bounded(
    build: RowBuilder,
    spec: Spec,
    key: str,
    measure: Measure,
    size: int,
    gauge: Fraction,
    widths: Widths,
    least: int = 0,
) -> None:
    """Wish for a length of one unknown, or fix it where rows were written."""
    terms = ((1, key),)
    if measure.is_count:
        rows = int(measure.at(size))
        build.rule("exact", f"{rows} rows as written", terms, (measure.span,), lower=rows, upper=rows)
        return
    wish = measure.at(size, widths[size])
    why = within(spec.length_tolerance, wish, spec.units)
    lower, upper = counts_within(wish, spec.length_tolerance, gauge)
    rule = build.rule("tolerance", why, terms, (measure.span, *measure.inputs), lower=max(least, lower), upper=upper)
    wished = ((1 / gauge, key),)
    build.rests_on_measure(rule, wished, spec.length_tolerance, measure, spec, size)
    build.wishes.setdefault(Wish(wished, -wish, spec.weight(*measure.names)))


def _section(
    build: RowBuilder,
    spec: Spec,
    layout: Layout,
    index: int,
    section: SectionDraft,
    size: int,
    counts: Counts,
    widths: Widths,
) -> None:
    if isinstance(section.step.action, Coursed):
        course_rows(build, spec, layout, section, size, counts)
        return
    key = at(section.key, spec, size)
    span, measure = section.step.action.span, section.measure
    build.unknown(key, 0, _most(section, size, widths))
    if measure is None and section.kind != "shape":
        why = "one turning row" if section.kind == "turning" else f"{section.fixed} rows, one for each side"
        build.rule("exact", why, ((1, key),), (span,), lower=section.fixed, upper=section.fixed)
        return
    chart = isinstance(section.step.action, Crown) and section.step.action.chart is not None
    if measure is None:
        pass  # fitted: its rows follow from the join
    elif section.to and not measure.is_count:
        _cumulative(build, spec, layout, index, section, size, widths)
    elif section.kind == "facing" and measure.is_count:
        # Kept exactly on the front; a flat facing is odd, so that its turning row is a wrong-side row.
        rows = int(measure.at(size))
        rows -= (rows - section.parity[1]) % section.parity[0]
        build.rule("exact", f"{rows} rows as written", ((1, key),), (measure.span,), lower=rows, upper=rows)
    elif not chart:
        _bounded(build, spec, key, measure, size, section.swatch.washed.rows, widths)
    if measure is not None and section.kind == "front" and not measure.is_count:
        facing = layout.sections[index - 2]
        gauge, other = section.swatch.washed.rows, facing.swatch.washed.rows
        build.wishes.setdefault(Wish(((1 / gauge, key), (-1 / other, at(facing.key, spec, size))), Fraction(0)))
    modulus, residue = section.parity
    action = section.step.action
    evened = section.evens + (section.kind != "shape" and section.first != section.last)
    if evened:
        why = f"{evened} row{'s' * (evened > 1)} for stitches that are gained or lost evenly"
        build.rule("shaping", why, ((1, key),), (span,), lower=evened)
    elif any(one.evens for one in layout.sections[index + 1 : index + 2]):
        why = "a row at least, for those above it change the stitches"
        build.rule("shaping", why, ((1, key),), (span,), lower=1)
    if section.kind == "shape" and isinstance(action, Shape):
        ends = [at(layout.levels[index].key, spec, size) for index in (section.last, section.first)]
        change = abs(counts[ends[0]] - counts[ends[1]])
        steps, edges = change // layout.ends_shaped, "both edges" if layout.ends_shaped > 1 else "the side"
        least = least_rows(steps, any_row=action.any_row)
        why = f"{change} sts at {edges} take {steps} shaping rows, so {least} rows at least"
        rule = build.rule("shaping", why, ((1, key),), (span,), lower=least)
        each, many = (2 if action.any_row else 1), 2 // layout.ends_shaped
        grown, shrunk = ([(each, key), (-sign * many, ends[0]), (sign * many, ends[1])] for sign in (1, -1))
        build.rests(rule, (grown, 0, None), (shrunk, 0, None))
    if isinstance(action, Crown) and section.kind == "crown":
        _crown_rounds(build, spec, layout, action, key, counts, size)
    if modulus > 1:
        why = "the section ends on a wrong-side row" if residue == 0 else "the turning row is a wrong-side row"
        build.rule("parity", why, ((1, key),), (span,), modulus=modulus, residue=residue)


def _crown_rounds(
    build: RowBuilder, spec: Spec, layout: Layout, crown: Crown, key: str, counts: Counts, size: int
) -> None:
    top = at(layout.levels[-1].key, spec, size)
    stitches, terms = counts[top], ((1, key),)
    if crown.chart is not None:
        chart = spec.motifs[crown.chart].rows
        rows = len(chart) + (1 if stitches != crown.wedges * len(chart[0]) else 0)
        build.rests(build.rule("exact", f"the chart takes {rows} rounds", terms, (crown.span,), lower=rows, upper=rows))
        return
    least = least_rounds(stitches, crown.wedges)
    why = f"{crown.wedges} wedges of {stitches // crown.wedges} sts take {least} decrease rounds"
    rule = build.rule("shaping", why, terms, (crown.span,), lower=least)
    # least = stitches / wedges, rounded up, less 1
    build.rests(rule, (((crown.wedges, key), (-1, top)), -crown.wedges, None))


def _running(layout: Layout, index: int, spec: Spec, size: int) -> tuple[tuple[Fraction, str], ...]:
    """Terms of the length from the fold to the end of a section, in cm."""
    counted = layout.sections[layout.measured_from(index) : index + 1]
    return tuple((1 / one.swatch.washed.rows, at(one.key, spec, size)) for one in counted if one.kind != "aside")


def _cumulative(
    build: RowBuilder, spec: Spec, layout: Layout, index: int, section: SectionDraft, size: int, widths: Widths
) -> None:
    assert section.measure is not None
    wish = section.measure.at(size, widths[size])
    terms = _running(layout, index, spec, size)
    scaled, low, high = whole(terms, wish - spec.length_tolerance, wish + spec.length_tolerance)
    start = layout.measured_from(index)
    measured = (
        f"the {layout.sections[start].folds}" if start > layout.fold else "the fold" if layout.fold else "the cast-on"
    )
    tolerance = length_words(spec.length_tolerance, spec.units, 2)
    why = f"{length_words(wish, spec.units, 2, trim=False)} from {measured}, within {tolerance}"
    spans = (section.measure.span, *section.measure.inputs)
    rule = build.rule("tolerance", why, scaled, spans, lower=low, upper=high)
    build.rests_on_measure(rule, terms, spec.length_tolerance, section.measure, spec, size)
    build.wishes.setdefault(Wish(terms, -wish, spec.weight(*section.measure.names)))


def _top(build: RowBuilder, spec: Spec, layout: Layout, size: int, counts: Counts, widths: Widths) -> None:
    assert layout.neck is not None and layout.shoulders is not None
    neck, shoulders = layout.neck.action, layout.shoulders.action
    assert isinstance(neck, Neck) and isinstance(shoulders, Shoulders)
    gauge = layout.sections[-1].swatch.washed.rows
    depth, slope = at(depth_key(layout), spec, size), at(slope_key(layout), spec, size)
    build.unknown(depth, 0, _most_rows(neck.depth, gauge, size, widths))
    build.unknown(slope, 0, _most_rows(shoulders.slope, gauge, size, widths))
    _bounded(build, spec, depth, neck.depth, size, gauge, widths, 2)
    _bounded(build, spec, slope, shoulders.slope, size, gauge, widths)
    for key, span in ((depth, neck.span), (slope, shoulders.span)):
        build.rule("parity", "neck and slope take pairs of rows", ((1, key),), (span,), modulus=2)
    if neck.curve == "V":
        across, half = at(neck_key(layout), spec, size), layout.piece.half is not None
        # the first row takes the band of a half or the foot of a placket whole, and where there is none a stitch
        band = front_sts(layout)
        if neck.placket is not None:
            band = least_foot(neck.placket, layout.levels[-1].swatch.washed.stitches, size)
        band = max(0, band - 1)
        wide = (counts[across] - band) * (2 if half else 1)
        why = f"a V of {wide} sts loses one at each side on every 2nd row at most"
        rule = build.rule("shaping", why, ((1, depth),), (neck.span,), lower=wide + 2)
        build.rests(rule, (((1, depth), (-2 if half else -1, across)), 2 - (2 if half else 1) * band, None))
    shoulder, edge = at(shoulder_key(layout), spec, size), layout.piece.edge.stitches
    most = 2 * (counts[shoulder] - edge - 1)
    why = f"a shoulder holds at most {most // 2} turns"
    rule = build.rule("shaping", why, ((1, slope),), (shoulders.span,), upper=max(0, most))
    # a shoulder has two stitches or more, so with one edge stitch there is never less than none
    build.rests(rule, *([(((1, slope), (-2, shoulder)), None, -2 * (edge + 1))] if edge <= 1 else []))
    # the neck of a half that opens at the left begins on a wrong-side row, and its rows begin with a right-side one
    halved = 2 if layout.piece.half is not None else 0
    opening, whole = [depth], "neck"
    if neck.placket is not None:
        opening.append(_placket(build, spec, layout, neck.placket, size, widths))
        whole = "neck with its placket"
    for keys, span, spare, what, lowest in (
        (opening, neck.span, halved, whole, lowest_of_neck(spec, layout, size, counts)),
        ([slope], shoulders.span, 2, "slope", len(layout.sections) - 1),
    ):
        within = layout.sections[lowest:]
        why = f"the {what} lies inside the rows of the last line before it"
        if len(within) > 1:
            why = f"the {what} begins within the {len(within)} lines before it, which shape no more than the sides"
        if within[0].evens:
            why, spare = f"{why}, above the row of the even change", spare + 2
        terms = [(1, at(one.key, spec, size)) for one in within]
        spans = (span, *(one.step.action.span for one in within[::-1]))
        build.rule("shaping", why, (*terms, *((-1, key) for key in keys)), spans, lower=spare)


def _placket(build: RowBuilder, spec: Spec, layout: Layout, placket: Placket, size: int, widths: Widths) -> str:
    """State the rows of a placket, and give their unknown."""
    key, gauge = at(placket_key(layout), spec, size), layout.sections[-1].swatch.washed.rows
    build.unknown(key, LEAST, _most_rows(placket.length, gauge, size, widths))
    _bounded(build, spec, key, placket.length, size, gauge, widths, LEAST)
    build.rule("parity", "a placket takes pairs of rows", ((1, key),), (placket.span,), modulus=2)
    return key


def lowest_of_neck(spec: Spec, layout: Layout, size: int, counts: Counts) -> int:
    """Give the index of the lowest section in which a neck may begin: from there on the sides alone are shaped.

    Below it are other fabrics, stitches that are gained or lost evenly or at the sides, and rows told one by one.
    """
    index = len(layout.sections) - 1
    while index and not layout.sections[index].evens:
        one, below = layout.sections[index], layout.sections[index - 1]
        ends = [counts[at(layout.levels[place].key, spec, size)] for place in (below.first, below.last)]
        sides_alone = below.kind in ("shape", "bound") or (below.kind == "work" and below.first == below.last)
        if not sides_alone or ends[1] > ends[0] or (below.fabric, below.swatch) != (one.fabric, one.swatch):
            break
        index -= 1
    return index


def _joins(build: RowBuilder, spec: Spec, layouts: Sequence[Layout], size: int, counts: Counts) -> None:
    flat = {layout.piece.name: layout for layout in layouts if not layout.piece.in_round}
    bodies = [layout for layout in flat.values() if layout.neck is not None]
    for join in spec.joins:
        if isinstance(join, Seam) and any(edge == "sides" for _, edge in join.edges):
            for one, other in pairwise(bodies):
                _equal_sides(build, spec, one, other, join, size)
        elif isinstance(join, SetIn) and join.edge == "top" and join.piece in flat:
            for body in bodies:
                _armhole(build, spec, flat[join.piece], body, join, size, counts)
        elif isinstance(join, SetIn) and join.edge == "cap" and join.piece in flat:
            fit_cap(build, spec, flat[join.piece], [(one, slope_key(one)) for one in bodies], join, size, counts)


def _rows_of(layout: Layout, spec: Spec, size: int, first: int, last: int) -> dict[str, int]:
    """Give the rows of a side by their unknowns; short rows that are worked aside do not reach it."""
    return {at(one.key, spec, size): 1 for one in layout.sections[first:last] if one.kind != "aside"}


def _equal_sides(build: RowBuilder, spec: Spec, one: Layout, other: Layout, join: Seam, size: int) -> None:
    ends = [("sides", len(one.sections), len(other.sections))]
    mark_one, mark_other = dict(one.marks), dict(other.marks)
    ends += [(name, mark_one[name], mark_other[name]) for name in mark_one if name in mark_other]
    for name, end_one, end_other in ends:
        terms = _rows_of(one, spec, size, one.fold, end_one)
        for key in _rows_of(other, spec, size, other.fold, end_other):
            terms[key] = terms.get(key, 0) - 1
        left = tuple((factor, key) for key, factor in terms.items() if factor)
        if left:
            why = f"joined {name} have the same rows"
            build.rule("join", why, left, (join.span, one.piece.span, other.piece.span), lower=0, upper=0)


def _armhole(
    build: RowBuilder, spec: Spec, sleeve: Layout, body: Layout, join: SetIn, size: int, counts: Counts
) -> None:
    marks = dict(body.marks)
    if "underarm" not in marks:
        return
    top = sleeve.levels[-1]
    gauge, rows = top.swatch.washed.stitches, body.sections[-1].swatch.washed.rows
    width = (counts[at(top.key, spec, size)] - top.taken) / gauge
    terms = [(2 / rows, key) for key in _rows_of(body, spec, size, marks["underarm"], len(body.sections))]
    terms.append((-2 / rows, at(slope_key(body), spec, size)))
    slack = 1 / gauge + 1 / rows
    scaled, low, high = whole(terms, width - slack, width + slack)
    wide = length_words(width, spec.units, trim=False)
    why = f"the sleeve's top, {wide}, is twice the armhole edge (underarm to slope)"
    rule = build.rule("join", why, scaled, (join.span, top.measure.span), lower=low, upper=high)
    taken = top.taken / gauge
    build.rests(rule, whole([*terms, (-1 / gauge, at(top.key, spec, size))], -slack - taken, slack - taken))


def _orders(build: RowBuilder, spec: Spec, own: Sequence[tuple[Layout, int]], widths: Widths) -> None:
    """Lengths never shrink from size to size where their own wish doesn't."""
    graded = [size for size, one in enumerate(spec.sizes) if not one.made_to_measure]
    for layout, start in own:
        for index, section in enumerate(layout.sections[start:], start):
            measure = section.measure
            if measure is None:
                continue
            wishes = {size: measure.at(size, widths[size]) for size in graded}
            for small, large in pairwise(graded):
                if wishes[small] > wishes[large]:
                    continue
                if section.to:
                    longer, shorter = (_running(layout, index, spec, size) for size in (large, small))
                    both = (*longer, *((-factor, key) for factor, key in shorter))
                    terms, _, _ = whole(both, Fraction(0), Fraction(0))
                else:
                    terms = ((1, at(section.key, spec, large)), (-1, at(section.key, spec, small)))
                why = "a length never shrinks where its wish doesn't"
                rule = build.rule("order", why, terms, (spec.sizes[large].span,), lower=0)
                if measure.waits_for():
                    build.rests(rule)
