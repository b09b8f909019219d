"""Stitch counts of all pieces and sizes as one model: unknowns, rules and wishes.

Wish: (count - edges that seams take) / gauge is the finished width. See docs/maths.md#widths.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from wale.actions import Coursed, Crown, Neck, Shape
from wale.constructions import COURSES, given
from wale.draft.halves import halved
from wale.draft.joined import arm_key
from wale.draft.joining import state_joinings
from wale.draft.layout import Layout, LevelDraft, SectionDraft
from wale.draft.plackets import placket_of, state_foot
from wale.draft.repeats import kind_at, residue
from wale.draft.sharing import own_from, own_levels
from wale.draft.stating import FITTED, Builder, at, counts_within, most_stitches, state_width, within
from wale.formula import reckon
from wale.measure import MOST_CM, Measure
from wale.sewn import taken_in_front
from wale.shaping.rib import rib_rule
from wale.solve.model import Model, Wish
from wale.spec import Seam, Spec

EVEN_STEPS = Fraction(1, 20)
"""Weight of steps between sizes as even as those asked, on the lead width, beside 1 for a squared deviation in cm."""


def width_wish(level: LevelDraft, size: int) -> Fraction:
    """Finished width wished in cm at a level that was not written as a count."""
    return level.measure.at(size) * level.scale


def width_model(spec: Spec, layouts: Sequence[Layout]) -> Model:
    """State the stitch counts of a garment."""
    build = Builder()
    own = list(zip(layouts, own_levels(layouts), own_from(layouts), strict=True))
    for size in range(len(spec.sizes)):
        for layout, levels, start in own:
            for level in levels:
                _level(build, spec, layout, level, size)
            for section in layout.sections[start:]:
                if section.kind == "shape":
                    _shaping(build, spec, layout, section, size)
                elif section.kind == "bound":
                    _bound(build, spec, layout, section, size)
                elif isinstance(section.step.action, Coursed):
                    _course(build, spec, layout, section, size)
            if layout.neck is not None:
                _neck(build, spec, layout, size)
            if layout.crown is not None:
                _crown(build, spec, layout, size)
        _shoulder_seams(build, spec, layouts, size)
        _run_on(build, spec, layouts, size)
        state_joinings(build, spec, layouts, size)
    graded = [size for size, one in enumerate(spec.sizes) if not one.made_to_measure]
    keys = dict.fromkeys(key.rsplit("@", 1)[0] for key in build.unknowns)
    for key in keys:
        order(build, spec, graded, key, "a width never shrinks from size to size")
    _even_steps(build, spec, layouts, graded)
    return build.model()


def order(
    build: Builder,
    spec: Spec,
    graded: Sequence[int],
    key: str,
    why: str,
    only: Callable[[int, int], bool] | None = None,
) -> None:
    """Keep an unknown from shrinking between neighbouring sizes (those for which `only` holds)."""
    for small, large in pairwise(graded):
        if only is None or only(small, large):
            terms = ((1, at(key, spec, large)), (-1, at(key, spec, small)))
            build.rule("order", why, terms, (spec.sizes[large].span,), lower=0)


def _level(build: Builder, spec: Spec, layout: Layout, level: LevelDraft, size: int) -> None:
    key, measure = at(level.key, spec, size), level.measure
    build.unknown(key, 1, most_stitches(measure, level.swatch.washed.stitches, size))
    if level.is_joined:
        _repeat(build, spec, layout, level, key)
        return
    if measure.is_count:
        count = int(measure.at(size))
        build.rule("exact", f"{count} sts as written", ((1, key),), (measure.span,), lower=count, upper=count)
    else:
        wish, gauge = width_wish(level, size), level.swatch.washed.stitches
        tolerance = spec.width_tolerance
        if level.fabric is not None and level.fabric.fit.tolerance is not None:
            tolerance = level.fabric.fit.tolerance
        why = within(tolerance, wish, spec.units)
        lower, upper = counts_within(wish, tolerance, gauge, level.taken)
        lower = max(1, lower)
        most = _widest_rib(layout, level, wish * gauge + level.taken)
        if most is not None and most >= lower:
            why, upper = f"{why}, and a rib no wider than what it joins", min(upper, most)
        places = (measure.span, level.swatch.washed.span)
        build.rule("tolerance", why, ((1, key),), places, lower=lower, upper=upper)
        weight = spec.weight(level.label)
        build.wishes.setdefault(Wish(((1 / gauge, key),), -level.taken / gauge - wish, weight))
    _repeat(build, spec, layout, level, key)
    _evened(build, spec, layout, level, key, size)
    if level.rib is not None:
        modulus, left = rib_rule(*level.rib, in_round=layout.piece.in_round)
        words = f"rib: a multiple of {modulus}" + (f" plus {left}, edge stitches apart" if left else "")
        spans = (measure.span,)
        build.rule("repeat", words, ((1, key),), spans, modulus=modulus, residue=(left + level.edges) % modulus)


def _evened(build: Builder, spec: Spec, layout: Layout, level: LevelDraft, key: str, size: int) -> None:
    """Lead to a level by a row that gains stitches, or loses them: at most one beside each, one of each two.

    A flat row is plain at both ends, and a border of garter or a front band has no part in it.
    """
    if level.evened is None:
        return
    below, grows = level.evened
    beside, span = at(below, spec, size), (level.measure.span,)
    if grows is not None:
        sign, change = (1, "an increase") if grows else (-1, "a decrease")
        terms = ((sign, key), (-sign, beside))
        build.rule("shaping", f"the line asks for {change}", terms, span, lower=1)
    piece = layout.piece
    outside, ends = 2 * piece.edge.stitches if piece.edge.garter else front_sts(layout), 0 if piece.in_round else 1
    if grows is not False:
        why = "one row gains at most a stitch for each that it has"
        build.rule("shaping", why, ((2, beside), (-1, key)), span, lower=outside + ends)
    if grows is not True:
        why = "one row loses at most a stitch of each two"
        build.rule("shaping", why, ((2, key), (-1, beside)), span, lower=outside + 2 * ends)


def _widest_rib(layout: Layout, level: LevelDraft, exact: Fraction) -> int | None:
    """Give the largest count of a rib that is not wider than what it joins by a quarter of its multiple or more.

    Args:
        exact: stitches that plain fabric of its gauge would have there.

    A rib that is wider than what it joins flares (common practice, no source; the quarter is our choice).
    """
    if level.rib is None:
        return None
    modulus, left = rib_rule(*level.rib, in_round=layout.piece.in_round)
    most = ceil(exact + Fraction(modulus, 4)) - 1
    return most - (most - left - level.edges) % modulus


def _repeat(build: Builder, spec: Spec, layout: Layout, level: LevelDraft, key: str) -> None:
    fabric = level.fabric
    if fabric is None or fabric.motif is None or level.whole is not None:
        _parity(build, layout, level, key)
        return
    kind = kind_at(fabric.fit, level.label)
    carry = layout.carry if fabric.fit.seams == "unbroken" else 1
    rule = residue(spec.motifs[fabric.motif], fabric.fit, kind, level.edges, layout.piece.is_tube, carry)
    if rule is not None:
        build.rule(
            "repeat",
            rule.words,
            ((1, key),),
            (fabric.fit.span, level.measure.span),
            modulus=rule.modulus,
            residue=rule.residue,
        )
    _parity(build, layout, level, key)


def _parity(build: Builder, layout: Layout, level: LevelDraft, key: str) -> None:
    if level.linked is None:
        return
    size = key.rsplit("@", 1)[1]
    below = f"{level.linked}@{size}"
    if level.whole is None:
        terms = ((1, key), (-1, below))
        build.rule("parity", "shaping at both edges changes by 2", terms, (level.measure.span,), modulus=2)
        return
    under = next(one.whole for one in layout.levels if one.key == level.linked)
    tied = ((2, key), (-2, below), (-1, f"{level.whole}@{size}"), (1, f"{under}@{size}"))
    why = "the side of a half is shaped as both sides of the whole piece are"
    build.rule("join", why, tied, (level.measure.span,), lower=0, upper=0)


def most_shapings(spec: Spec, section: SectionDraft, size: int) -> int:
    """Give how many shaping rows a section can hold at its longest (generous where its length waits for a width)."""
    assert isinstance(section.step.action, Shape)
    if section.measure is None:
        rows = FITTED * floor(section.swatch.washed.rows)
    elif section.measure.is_count:
        rows = int(section.measure.at(size))
    else:
        waits = section.measure.waits_for()
        bounds = [section.measure.at(size, dict.fromkeys(waits, width)) for width in (Fraction(0), Fraction(MOST_CM))]
        length = max(bounds) + spec.length_tolerance
        rows = floor(length * section.swatch.washed.rows)
    return max(0, rows if section.step.action.any_row else rows // 2)


def _shaping(build: Builder, spec: Spec, layout: Layout, section: SectionDraft, size: int) -> None:
    low, high = layout.levels[section.first], layout.levels[section.last]
    each = layout.ends_shaped
    most = each * most_shapings(spec, section, size)
    terms = ((1, at(high.key, spec, size)), (-1, at(low.key, spec, size)))
    words = section.measure.words if section.measure is not None else "a fitted cap"
    why = f"at most {most // each} shaping rows fit in {words}"
    build.rule("shaping", why, terms, (section.step.action.span,), lower=-most, upper=most)


def _bound(build: Builder, spec: Spec, layout: Layout, section: SectionDraft, size: int) -> None:
    low, high = layout.levels[section.first], layout.levels[section.last]
    terms = ((1, at(low.key, spec, size)), (-1, at(high.key, spec, size)))
    why = "at least 1 st is bound off at each side"
    build.rule("shaping", why, terms, (section.step.action.span,), lower=layout.ends_shaped)


def _course(build: Builder, spec: Spec, layout: Layout, section: SectionDraft, size: int) -> None:
    """State what a course asks of the stitches that it begins and ends with."""
    action = section.step.action
    assert isinstance(action, Coursed)
    course, spans, name = COURSES[action.form], (action.span,), action.form.split()[0]
    before = at(layout.levels[section.first].key, spec, size)
    terms = ((1, before),)
    if course.modulus > 1:
        plus = f" plus {course.residue}" if course.residue else ""
        why = f"{course.why}: a multiple of {course.modulus}{plus}"
        build.rule("parity", why, terms, spans, modulus=course.modulus, residue=course.residue)
    if not course.follows:
        build.rule("shaping", f"a {name} takes {course.least} sts at least", terms, spans, lower=course.least)
    settled = course.settled(given(action, section.swatch, size))
    after = at(layout.after(section).key, spec, size) if course.to else before
    if course.to:
        why, both = f"each shaping round changes by {course.step}", ((1, after), (-1, before))
        residue = int(reckon(course.offset, settled)) % course.step
        build.rule("parity", why, both, spans, modulus=course.step, residue=residue)
    for bound in course.bounds:
        limits = {
            name: int(reckon(formula, settled))
            for name, formula in (("lower", bound.least), ("upper", bound.most))
            if formula
        }
        tied = ((bound.after, after), (bound.before, before), (bound.arm, at(arm_key(layout), spec, size)))
        # one between given lengths alone names the stitches below it, which do not count
        counted = [(factor, key) for factor, key in tied if factor] or [(0, before)]
        build.rule("shaping", bound.why, counted, spans, **limits)


def _neck(build: Builder, spec: Spec, layout: Layout, size: int) -> None:
    assert layout.neck is not None and isinstance(layout.neck.action, Neck)
    top = layout.levels[-1]
    neck, shoulder = neck_key(layout), shoulder_key(layout)
    measure, key, taken = neck_width(layout), at(neck, spec, size), neck_taken(spec, layout)
    gauge, half = top.swatch.washed.stitches, layout.piece.half
    build.unknown(at(shoulder, spec, size), 2, most_stitches(top.measure, gauge, size))
    state_width(build, spec, key, measure, size, gauge, "neck", "neck-width", taken)
    terms = ((1, at(top.key, spec, size)), (-1, key), (-layout.ends_shaped, at(shoulder, spec, size)))
    why = "neck and two equal shoulders make the whole width"
    if half is not None:
        why = "half the neck and a shoulder make the width of a half"
        same = ((1, at(shoulder, spec, size)), (-1, at(f"{half.whole}.shoulder-stitches", spec, size)))
        told = f"a half has a shoulder like those of the {half.whole}"
        build.rule("join", told, same, (half.span,), lower=0, upper=0)
    build.rule("join", why, terms, (layout.neck.action.span,), lower=0, upper=0)
    if (placket := placket_of(layout)) is not None:
        state_foot(build, placket, key, gauge, size)
    if half is not None and half.band is not None:
        why = "the front band is bound off where the neck begins"
        build.rule("shaping", why, ((1, key),), (half.band.span, layout.neck.action.span), lower=front_sts(layout))


def neck_width(layout: Layout) -> Measure:
    """Give the width of a piece's neck: of a half, what lies on this side of the opening."""
    assert layout.neck is not None and isinstance(layout.neck.action, Neck)
    width, half = layout.neck.action.width, layout.piece.half
    return width if half is None else halved(width, half)


def neck_taken(spec: Spec, layout: Layout) -> int:
    """Give the stitches of a neck that lie outside its finished width: those that a band takes up in front."""
    return 0 if layout.piece.half is None else taken_in_front(spec, layout.piece)


def front_sts(layout: Layout) -> int:
    """Give the stitches of a half piece's front band, which are bound off where its neck begins; 0 without one."""
    half = layout.piece.half
    return half.band.stitches if half is not None and half.band is not None else 0


def neck_key(layout: Layout) -> str:
    """Key of the neck's stitch count."""
    assert layout.neck is not None
    if layout.piece.half is not None:
        return f"{layout.piece.half.owner}.neck-stitches"
    owner = layout.piece.name if layout.has_own_counts else layout.neck.address.split(".")[0]
    return f"{owner}.neck-stitches"


def shoulder_key(layout: Layout) -> str:
    """Key of one shoulder's stitch count."""
    return f"{layout.piece.name}.shoulder-stitches"


def _shoulder_seams(build: Builder, spec: Spec, layouts: Sequence[Layout], size: int) -> None:
    necked = {layout.piece.name: layout for layout in layouts if layout.neck is not None}
    for join in spec.joins:
        if isinstance(join, Seam):
            ends = [necked[piece] for piece, edge in join.edges if edge == "shoulders" and piece in necked]
            for one, other in pairwise(ends):
                terms = ((1, at(shoulder_key(one), spec, size)), (-1, at(shoulder_key(other), spec, size)))
                build.rule("join", "joined shoulders have the same stitches", terms, (join.span,), lower=0, upper=0)


def _run_on(build: Builder, spec: Spec, layouts: Sequence[Layout], size: int) -> None:
    """Where two pieces are whole repeats together at several levels, the same stitches meet over the seam at each."""
    by_name = {layout.piece.name: layout for layout in layouts}
    for layout in layouts:
        if layout.has_own_counts and layout.follows is not None:
            pairs = list(zip(_asked(by_name[layout.follows]), _asked(layout), strict=False))
            for (one, other), (first, second) in pairwise(pairs):
                fabric = other.fabric
                if fabric is None or fabric.motif is None or second.fabric != fabric:
                    continue
                terms = ((1, first), (1, second), (-1, one), (-1, other))
                whole = tuple((factor, at(level.key, spec, size)) for factor, level in terms)
                why = "the same stitches of the motif meet over the side seams at each level"
                build.rule("repeat", why, whole, (fabric.fit.span,), modulus=2 * spec.motifs[fabric.motif].width)


def _asked(layout: Layout) -> list[LevelDraft]:
    levels = [level for level in layout.levels if level.fabric is not None and level.fabric.motif is not None]
    return [one for one in levels if one.fabric is not None and kind_at(one.fabric.fit, one.label) == "whole"]


def _crown(build: Builder, spec: Spec, layout: Layout, size: int) -> None:
    assert layout.crown is not None and isinstance(layout.crown.action, Crown)
    crown, top = layout.crown.action, layout.levels[-1]
    terms = ((1, at(top.key, spec, size)),)
    lower = crown.wedges * 3
    if crown.chart is not None:
        lower = crown.wedges * len(spec.motifs[crown.chart].rows[0])
        most = lower * 3 // 2
        why = f"{crown.wedges} wedges of the chart take {lower} sts, and one round loses a third at most: {most} sts"
        build.rule("shaping", why, terms, (crown.span,), upper=most)
    why = f"{crown.wedges} wedges need at least {lower} sts"
    build.rule("shaping", why, terms, (crown.span,), lower=lower)


def lead(layouts: Sequence[Layout]) -> LevelDraft:
    """Give the level whose steps between sizes should be even: the bust, else the first piece's last level."""
    levels = [level for layout in layouts for level in layout.levels]
    return next((level for level in levels if level.label == "bust"), layouts[0].levels[-1])


def _even_steps(build: Builder, spec: Spec, layouts: Sequence[Layout], graded: Sequence[int]) -> None:
    level = lead(layouts)
    step = 1 / level.swatch.washed.stitches
    for a, b, c in zip(graded, graded[1:], graded[2:], strict=False):
        terms = ((step, at(level.key, spec, a)), (-2 * step, at(level.key, spec, b)), (step, at(level.key, spec, c)))
        asked = Fraction(0)
        if not level.measure.is_count:
            asked = width_wish(level, a) - 2 * width_wish(level, b) + width_wish(level, c)
        build.wishes.setdefault(Wish(terms, -asked, spec.weight("even-steps", default=EVEN_STEPS)))
