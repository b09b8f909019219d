"""A conflict of the solver as a problem report: the lines that clash, the numbers, and ways out that were tried."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec.structs import replace

from wale.actions import Shape
from wale.draft import length_ways
from wale.draft.layout import Layout, LevelDraft, SectionDraft
from wale.draft.length_ways import Garment
from wale.draft.lengths import length_model
from wale.draft.repeat_ways import looser_widths, nearest_counts, other_counts, tell, ways_out
from wale.draft.stating import within
from wale.draft.variants import tried_tolerances
from wale.draft.width_ways import other_courses, other_eases, other_widths
from wale.draft.widths import width_wish
from wale.problems.problem import Fix, Label, Problem
from wale.quantity import length_words, show_decimal
from wale.shaping.gauge import nearest
from wale.shaping.taper import least_rows
from wale.solve.exact import feasible
from wale.solve.model import Conflict, Rule
from wale.source import Span
from wale.spec import Spec

RANKS = {"shaping": 0, "join": 0, "order": 2, "parity": 3}
"""Which rules of a conflict are shown first; those not named stand between."""


def of_widths(spec: Spec, layouts: Sequence[Layout], conflict: Conflict) -> Problem:
    """Explain why no stitch counts hold together."""
    size = _size(spec, conflict.rules)
    levels = {level.key: level for layout in layouts for level in layout.levels}
    repeats = [rule for rule in conflict.rules if rule.kind == "repeat" and _key(rule) in levels]
    kinds = {rule.kind for rule in conflict.rules}
    if repeats and kinds == {"repeat", "tolerance"}:
        return _repeat(spec, layouts, levels[_key(repeats[0])], repeats[0], size, conflict)
    if "shaping" in kinds:
        shaped = _shaping(spec, layouts, conflict, size)
        if shaped is not None:
            return shaped
    if "order" in kinds:
        fixes = tuple(other_widths(spec, layouts, conflict.rules))
        return _clash("E302", "the sizes cannot grow from one to the next", conflict, spec, size, fixes=fixes)
    counts = other_counts(spec, layouts, conflict.rules)
    widths = [
        *other_courses(spec, conflict.rules),
        *other_widths(spec, layouts, conflict.rules),
        *other_eases(spec, layouts, conflict.rules),
    ]
    words = looser_widths(spec) or ("Written counts are kept exactly." if counts else "")
    if not words and widths:
        words = "Each way out below was solved with all sizes."
    fixes = (*counts, *widths)
    return _clash("E303", "no stitch counts fit all of these lines", conflict, spec, size, words, fixes)


def of_lengths(
    spec: Spec,
    layouts: Sequence[Layout],
    conflict: Conflict,
    counts: Mapping[str, int],
    widths: Sequence[Mapping[str, Fraction]],
) -> Problem:
    """Explain why no row counts hold together."""
    size = _size(spec, conflict.rules)
    words, fixes = length_ways.ways_out(Garment(spec, layouts, counts, widths), conflict, size)
    kinds = {rule.kind for rule in conflict.rules}
    joins = [rule for rule in conflict.rules if rule.kind == "join"]
    if kinds == {"exact", "parity"}:
        message = "an odd number of rows does not fit: each section worked flat ends on a wrong-side row"
        return _clash(
            "E303", message, conflict, spec, size, words or "Write an even number of rows, or a length.", fixes
        )
    for tolerance in tried_tolerances(spec.units) if "shaping" not in kinds else ():
        looser = replace(spec, length_tolerance=max(tolerance, spec.length_tolerance))
        if feasible(length_model(looser, layouts, counts, widths)):
            words = f"{words} {length_ways.tolerance_words(tolerance, spec.units)}".strip()
            break
    words = words if fixes or words else "Change one of these lines."
    if joins:
        message = f"joined edges cannot agree: {joins[0].why}"
        return _clash("E501", message, conflict, spec, size, words, fixes)
    if "shaping" in kinds:
        rule = next(rule for rule in conflict.rules if rule.kind == "shaping")
        return _clash("E401", f"too few rows: {rule.why}", conflict, spec, size, words, fixes)
    reached = next((rule for rule in conflict.rules if len(rule.terms) > 1), None)
    if reached is not None and kinds <= {"tolerance", "exact", "parity"}:
        message = f"the lines before `work to` do not add up to it: {reached.why}"
        return _clash("E406", message, conflict, spec, size, words, fixes)
    return _clash("E303", "no row counts fit all of these lines", conflict, spec, size, words, fixes)


def _repeat(
    spec: Spec, layouts: Sequence[Layout], level: LevelDraft, rule: Rule, size: int, conflict: Conflict
) -> Problem:
    """No count of the repeat comes within the tolerance: the nearest counts and the ways out."""
    wish, gauge, units = width_wish(level, size), level.swatch.washed.stitches, spec.units
    wished = length_words(wish, units, 2, trim=False)
    exact = wish * gauge + level.taken
    down, up = nearest_counts(exact, rule.modulus, rule.residue)
    told = f"{tell(level, down, wish, units)}, {tell(level, up, wish, units)}"
    tolerance = next((one for one in conflict.rules if one.kind == "tolerance"), rule)
    allowed = level.fabric.fit.tolerance if level.fabric and level.fabric.fit.tolerance else spec.width_tolerance
    labels = (
        Label(rule.spans[0], told),
        Label(tolerance.spans[0], f"{wished} is {show_decimal(exact, 1)} sts at this gauge"),
    )
    low, high = (down - level.taken) / gauge, (up - level.taken) / gauge
    name = spec.sizes[size].name
    alone = (
        f"another ease, for size {name} alone: a finished width up to "
        f"{length_words(low + allowed, units, 2, trim=False)} takes {down} sts, from "
        f"{length_words(high - allowed, units, 2, trim=False)} on {up} sts"
    )
    found = ways_out(spec, layouts, level, size)
    solved_for = "with all sizes" if found else "for the stitches of all sizes (other lines clash over rows)"
    fixes = (*(found or ways_out(spec, layouts, level, size, rows_too=False)), Fix(alone, grade="show"))
    message = f"no count with {rule.why} comes {within(allowed, wish, units)}: {told}"
    help = f"Each way out below but the last was solved {solved_for}; its numbers are those of size {name}."
    if len(fixes) == 1:
        help = (
            "Neither part repeats nor a wider tolerance alone helps all sizes; the way out below is for this size only."
        )
    return Problem("E301", message, labels, help, fixes, name)


def _shaping(spec: Spec, layouts: Sequence[Layout], conflict: Conflict, size: int) -> Problem | None:
    """The stitches cannot change in the rows that are there: how many rows, or what length, they need."""
    rule = next(rule for rule in conflict.rules if rule.kind == "shaping")
    for layout in layouts:
        for section in layout.sections:
            action = section.step.action
            if not isinstance(action, Shape) or action.span not in rule.spans or section.measure is None:
                continue
            ends = [_nearest_count(layout.levels[index], size) for index in (section.first, section.last)]
            change = abs(ends[1] - ends[0])
            steps = change // 2
            rows = least_rows(steps, any_row=action.any_row)
            there = (rule.upper or 0) // 2 * (1 if action.any_row else 2)
            if rows <= there:
                continue  # they fit; what clashes is another rule, such as a repeat with the parity of a shaping
            length = rows / section.swatch.washed.rows
            ways = f"Shape over {rows} rows ({length_words(length, spec.units, trim=False)}) or more"
            if not action.any_row and least_rows(steps, any_row=True) <= there + 1:
                ways += ", or write `on any row`"
            ways += "; or let the two widths lie closer together."
            message = f"{change} sts from {ends[0]} to {ends[1]} take {steps} shaping rows, so {rows} rows: {there} fit"
            labels = (Label(action.span, f"at most {there} rows here"), *_labels(conflict.rules, action.span))
            fixes = _over(spec, layouts, section)
            return Problem("E401", message, labels, ways, fixes, spec.sizes[size].name)
    return None


def _over(spec: Spec, layouts: Sequence[Layout], section: SectionDraft) -> tuple[Fix, ...]:
    """The length over which a shaping can be worked, where that solves."""
    measure, action = section.measure, section.step.action
    if measure is None or measure.waits_for() or not isinstance(action, Shape):
        return ()
    layout = next(one for one in layouts if section in one.sections)

    def needed(size: int) -> Fraction:
        ends = [_nearest_count(layout.levels[index], size) for index in (section.first, section.last)]
        rows = least_rows(abs(ends[1] - ends[0]) // 2, any_row=action.any_row)
        return rows / section.swatch.washed.rows

    garment = Garment(spec, layouts, {}, [{} for _ in spec.sizes])
    fix = length_ways.offer(garment, measure, length_ways.needed(garment, measure, needed), "write `over {}` or more")
    return (fix,) if fix is not None else ()


def _nearest_count(level: LevelDraft, size: int) -> int:
    if level.measure.is_count:
        return int(level.measure.at(size))
    return nearest(width_wish(level, size) * level.swatch.washed.stitches + level.taken)


def _clash(
    code: str, message: str, conflict: Conflict, spec: Spec, size: int, help: str = "", fixes: tuple[Fix, ...] = ()
) -> Problem:
    labels = _labels(conflict.rules) or (Label(spec.sizes[size].span),)
    return Problem(code, message, labels, help or "Change one of these lines.", fixes, spec.sizes[size].name)


def _labels(rules: Iterable[Rule], *without: Span) -> tuple[Label, ...]:
    labels: dict[tuple[Span, str], Label] = {}
    for rule in sorted(rules, key=lambda rule: RANKS.get(rule.kind, 1)):
        if rule.spans and rule.spans[0] not in without:
            labels.setdefault((rule.spans[0], rule.why), Label(rule.spans[0], rule.why))
    return tuple(labels.values())


def _key(rule: Rule) -> str:
    return rule.terms[0][1].rsplit("@", 1)[0]


def _size(spec: Spec, rules: Sequence[Rule]) -> int:
    """The size that a conflict is about: the first that its rules name."""
    names = spec.size_names
    return min((names.index(key.rsplit("@", 1)[1]) for rule in rules for _, key in rule.terms), default=0)
