"""Ways out where no rows fit: lengths that would do, in cm and as edits; each edit was solved with all sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import Crown, Neck, Placket, Shape, Shoulders
from wale.draft.layout import Layout, SectionDraft
from wale.draft.lengths import lowest_of_neck
from wale.draft.stating import at
from wale.draft.variants import bracketed, bracketed_lengths, grain, round_down, round_up, solved, with_values
from wale.draft.widths import neck_key, width_wish
from wale.measure import Measure
from wale.problems.problem import Edit, Fix
from wale.quantity import length_words
from wale.shaping.crown import least_rounds
from wale.shaping.taper import least_rows
from wale.solve.model import Conflict, Rule
from wale.spec import Spec

STEPS = 5
"""So often an offered length is moved on by what lengths are rounded to before it is given up."""
Values = tuple[Fraction, ...]


class Garment(Struct, frozen=True):
    """What a conflict of rows is about.

    Attributes:
        counts: solved stitches by unknown key.
        widths: solved widths in cm by address, one mapping a size.
    """

    spec: Spec
    layouts: Sequence[Layout]
    counts: Mapping[str, int]
    widths: Sequence[Mapping[str, Fraction]]

    @property
    def sizes(self) -> range:
        """All sizes by number."""
        return range(len(self.spec.sizes))

    def told(self, length: Fraction) -> str:
        """Print a length of cm in the pattern's unit."""
        return length_words(length, self.spec.units, trim=False)

    def length(self, section: SectionDraft, size: int) -> Fraction:
        """Give the length in cm that a section which is no `work to` asks for."""
        rows = section.swatch.washed.rows
        if section.measure is None:
            return section.fixed / rows
        value = section.measure.at(size, self.widths[size])
        return value / rows if section.measure.is_count else value

    def reach(self, layout: Layout, end: int, size: int) -> Fraction:
        """Give the length in cm from the fold to the end of section `end` - 1, as the lines ask for it."""
        total = Fraction(0)
        for section in layout.sections[layout.measured_from(end - 1) : end]:
            if section.kind == "aside":
                continue
            wished = self.length(section, size)
            counted = section.measure is not None and section.measure.is_count
            total = wished if section.to and not counted else total + wished
        return total


def ways_out(garment: Garment, conflict: Conflict, size: int) -> tuple[str, tuple[Fix, ...]]:
    """Give what the lines come to in one size, in a sentence, and lengths that would do."""
    joined = any(rule.kind == "join" for rule in conflict.rules)
    ways = (_armhole, _sides, _longer, _top) if joined else (_odd_rows, _work_to, _longer, _deeper, _top)
    words: dict[str, None] = {}
    fixes: dict[Fix, None] = {}
    for rule in conflict.rules:
        for way in ways:
            for said, fix in way(garment, rule, size):
                if said:
                    words[said] = None
                if fix is not None:
                    fixes[fix] = None
    return " ".join(words), tuple(fixes)


Ways = Iterator[tuple[str, Fix | None]]


def offer(garment: Garment, measure: Measure, values: Sequence[Fraction], title: str, sign: int = 1) -> Fix | None:
    """Give the fix that writes values for a measure, moved on by `sign` steps until all sizes solve, or None."""
    step = sign * grain(garment.spec.units)
    for number in range(STEPS):
        tried = tuple(value + number * step for value in values)
        if any(value <= 0 for value in tried):
            return None
        if solved(with_values(garment.spec, measure.span, tried, "length")) is not None:
            words = bracketed_lengths(tried, garment.spec.units)
            return Fix(title.replace("{}", words), (Edit(measure.span, words),))
    return None


def needed(garment: Garment, measure: Measure, wanted: Callable[[int], Fraction]) -> Values:
    """Give what all sizes need, rounded up: one value where one was written, else one a size."""
    values = [round_up(wanted(size), garment.spec.units) for size in garment.sizes]
    old = [measure.at(size, garment.widths[size]) for size in garment.sizes]
    if measure.is_count or len(set(old)) == 1:
        return (max(values),) * len(values)
    return tuple(max(value, round_up(before, garment.spec.units)) for value, before in zip(values, old, strict=True))


def _sections(garment: Garment, rule: Rule) -> Iterator[tuple[Layout, int, SectionDraft]]:
    """The section that a rule speaks of last, in the first piece that has it."""
    last = rule.terms[-1][1].rsplit("@", 1)[0]
    for layout in garment.layouts:
        for index, section in enumerate(layout.sections):
            if section.key == last:
                yield layout, index, section
                return


def _odd_rows(garment: Garment, rule: Rule, size: int) -> Ways:
    """A written count that is odd: one less and one more."""
    if rule.kind != "exact" or len(rule.terms) != 1 or not rule.lower or rule.lower % 2 == 0:
        return
    for _, _, section in _sections(garment, rule):
        measure = section.measure
        if measure is None or measure.dimension != "rows" or section.kind == "crown":
            continue
        for change in (-1, 1):
            rows = [measure.at(one) + change for one in garment.sizes]
            if min(rows) > 0 and solved(with_values(garment.spec, measure.span, rows, "rows")) is not None:
                words = bracketed(rows, "rows")
                yield "", Fix(f"write `{words}`", (Edit(measure.span, words),))


def _work_to(garment: Garment, rule: Rule, size: int) -> Ways:
    """`work to` less than what the lines above it come to."""
    if rule.kind != "tolerance":
        return
    for layout, index, section in _sections(garment, rule):
        measure = section.measure
        if not section.to or measure is None or measure.is_count:
            continue

        def above(one: int, layout: Layout = layout, index: int = index) -> Fraction:
            return garment.reach(layout, index, one)

        if all(above(one) <= measure.at(one, garment.widths[one]) for one in garment.sizes):
            continue
        where = f" in size {garment.spec.sizes[size].name}" if len(garment.sizes) > 1 else ""
        come, asked = garment.told(above(size)), garment.told(measure.at(size, garment.widths[size]))
        said = f"The lines above `work to {measure.words}` come to {come}{where}, and it asks for {asked}."
        yield said, offer(garment, measure, needed(garment, measure, above), "write `work to {}` or more")


def _armhole(garment: Garment, rule: Rule, size: int) -> Ways:
    """A sleeve's top that is not twice the armhole edge: another top, or another height of the underarm."""
    if rule.kind != "join":
        return
    sleeve = next((one for one in garment.layouts if one.levels[-1].measure.span in rule.spans), None)
    body = next((one for one in garment.layouts if one.neck is not None and "underarm" in dict(one.marks)), None)
    if sleeve is None or body is None or body.shoulders is None:
        return
    top, index = sleeve.levels[-1], dict(body.marks)["underarm"]
    action, last = body.shoulders.action, body.sections[-1]
    assert isinstance(action, Shoulders)
    slope = action.slope

    def drop(one: int) -> Fraction:
        value = slope.at(one, garment.widths[one])
        return value / last.swatch.washed.rows if slope.is_count else value

    def shoulder(one: int) -> Fraction:
        return garment.reach(body, len(body.sections), one) - drop(one)

    def edge(one: int) -> Fraction:
        return shoulder(one) - garment.reach(body, index, one)

    def width(one: int) -> Fraction:
        if not top.measure.is_count:
            return width_wish(top, one)
        return (top.measure.at(one) - top.taken) / top.swatch.washed.stitches

    where = f" in size {garment.spec.sizes[size].name}" if len(garment.sizes) > 1 else ""
    said = f"2 × the armhole edge is {garment.told(2 * edge(size))}{where}, the sleeve's top "
    yield f"{said}{garment.told(width(size))}.", None
    step = grain(garment.spec.units)
    tops = tuple(round((2 * edge(one)) / step) * step for one in garment.sizes)
    yield "", offer(garment, top.measure, tops, "make the sleeve's top {} wide")
    below = body.sections[index - 1] if index else None
    if below is not None and below.to and below.measure is not None:
        heights = tuple(round((shoulder(one) - width(one) / 2) / step) * step for one in garment.sizes)
        yield "", offer(garment, below.measure, heights, "start the armhole at {}: `work to {}`")


def _sides(garment: Garment, rule: Rule, size: int) -> Ways:
    """Two pieces whose sides are of different length: the length of one for the other."""
    if rule.kind != "join" or len(rule.spans) < 3:
        return
    pair = [one for span in rule.spans[1:3] for one in garment.layouts if one.piece.span == span]
    if len(pair) != 2:
        return
    ends = [len(one.sections) for one in pair]
    for name, index in pair[0].marks:
        if f"joined {name} " in f"{rule.why} " and name in dict(pair[1].marks):
            ends = [index, dict(pair[1].marks)[name]]
    told = [
        f"the {one.piece.name} {garment.told(garment.reach(one, end, size))}"
        for one, end in zip(pair, ends, strict=True)
    ]
    yield f"As written, {' and '.join(told)} come to the seam.", None
    for (one, end), (other, end_other) in (
        (_at(pair, ends, 0), _at(pair, ends, 1)),
        (_at(pair, ends, 1), _at(pair, ends, 0)),
    ):
        last = other.sections[end_other - 1] if end_other else None
        if last is not None and last.to and last.measure is not None:
            lengths = tuple(garment.reach(one, end, index) for index in garment.sizes)
            yield (
                "",
                offer(garment, last.measure, lengths, f"work the {other.piece.name} to {{}}, as the {one.piece.name}"),
            )


def _at(pair: Sequence[Layout], ends: Sequence[int], index: int) -> tuple[Layout, int]:
    return pair[index], ends[index]


def _longer(garment: Garment, rule: Rule, size: int) -> Ways:
    """A shaping or crown whose rows are too few: the length that they take."""
    if rule.kind != "shaping":
        return
    for layout, _, section in _sections(garment, rule):
        action, measure = section.step.action, section.measure
        if measure is None or not isinstance(action, Shape | Crown):
            continue

        def rows(one: int, layout: Layout = layout, section: SectionDraft = section) -> Fraction:
            return least(garment, layout, section, one) / section.swatch.washed.rows

        fix = offer(garment, measure, needed(garment, measure, rows), "write `over {}` or more")
        most = max(rows(one) for one in garment.sizes)
        what = "crown" if isinstance(action, Crown) else "shaping"
        where = ", in the largest size" if len(garment.sizes) > 1 else ""
        closer = "" if isinstance(action, Crown) else "; or let the two widths lie closer together"
        said = f"The {what} takes {garment.told(most)} at least{where}{closer}."
        yield said, fix


def least(garment: Garment, layout: Layout, section: SectionDraft, size: int) -> int:
    """Give the fewest rows in which a shaping or crown can be worked."""
    action = section.step.action
    ends = [garment.counts[at(layout.levels[index].key, garment.spec, size)] for index in (section.first, section.last)]
    if isinstance(action, Crown):
        return least_rounds(ends[-1], action.wedges)
    assert isinstance(action, Shape)
    return least_rows(abs(ends[1] - ends[0]) // 2, any_row=action.any_row)


def _deeper(garment: Garment, rule: Rule, size: int) -> Ways:
    """A V that is too shallow for its stitches: the depth that it takes."""
    for layout in garment.layouts if rule.kind == "shaping" else ():
        step = layout.neck
        if step is None or not isinstance(step.action, Neck) or step.action.curve != "V":
            continue
        if rule.lower is None or step.action.span not in rule.spans or f"{step.address}.rows@" not in rule.terms[-1][1]:
            continue
        gauge, depth = layout.sections[-1].swatch.washed.rows, step.action.depth
        half = 2 if layout.piece.half is not None else 1

        def rows(one: int, layout: Layout = layout, gauge: Fraction = gauge, half: int = half) -> Fraction:
            return (half * garment.counts[at(neck_key(layout), garment.spec, one)] + 3) / gauge

        most = max(rows(one) for one in garment.sizes)
        said = f"The V takes a depth of {garment.told(most)} at least; or make it narrower."
        yield said, offer(garment, depth, needed(garment, depth, rows), "write `{} deep` or more")
        return


def _top(garment: Garment, rule: Rule, size: int) -> Ways:
    """A neck or slope that is longer than the last line below it, or a neck than the lines that it may begin in."""
    if rule.kind != "shaping" or len(rule.terms) < 2:
        return
    for layout in garment.layouts:
        for step in (layout.neck, layout.shoulders):
            if step is None or step.action.span not in rule.spans:
                continue
            measure = step.action.depth if isinstance(step.action, Neck) else getattr(step.action, "slope", None)
            if measure is None:
                continue
            index, what = len(layout.sections), "neck" if isinstance(step.action, Neck) else "slope"
            lowest = [
                lowest_of_neck(garment.spec, layout, one, garment.counts) if what == "neck" else index - 1
                for one in garment.sizes
            ]
            room = [
                garment.reach(layout, index, one) - garment.reach(layout, lowest[one], one) for one in garment.sizes
            ]
            lines = index - lowest[size]
            said = f"The last {'line' if lines == 1 else f'{lines} lines'} below the {what} "
            said += f"{'is' if lines == 1 else 'are'} {garment.told(room[size])} long."
            lengths = tuple(
                round_down(min(one, measure.at(number)), garment.spec.units) for number, one in enumerate(room)
            )
            if measure.is_count:
                lengths = tuple(round_down(one, garment.spec.units) for one in room)
            values = lengths if len(set(room)) > 1 else (min(lengths),) * len(lengths)
            word = "{} deep" if isinstance(step.action, Neck) else "slope {}"
            if isinstance(step.action, Neck) and step.action.placket is not None:
                yield (
                    said,
                    _shorter(garment, step.action, step.action.placket, room, layout.sections[-1].swatch.washed.rows),
                )
            else:
                yield said, offer(garment, measure, values, f"write `{word}`", -1)
            return


def _shorter(
    garment: Garment, neck: Neck, placket: Placket, room: Sequence[Fraction], rows_per_cm: Fraction
) -> Fix | None:
    """Offer a placket as long as what the neck leaves of the lines below it."""
    per_cm = rows_per_cm if neck.depth.is_count else 1
    left = [max(Fraction(0), one - neck.depth.at(size) / per_cm) for size, one in enumerate(room)]
    if not placket.length.is_count:
        left = [min(one, placket.length.at(size)) for size, one in enumerate(left)]
    values = tuple(round_down(one, garment.spec.units) for one in left)
    values = values if len(set(room)) > 1 else (min(values),) * len(values)
    return offer(garment, placket.length, values, "write `over {}`", -1)


def tolerance_words(tolerance: Fraction, units: str) -> str:
    """Say which line lets lengths miss more."""
    return f"They fit with `tolerance lengths {bracketed_lengths([tolerance], units)}` in the `pattern` block."
