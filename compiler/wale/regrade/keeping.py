"""Lines that keep the counts of a garment, or the repeats of its motif, at another gauge.

Widths are counts / gauge: with `counts` each line of the fabric that changes is given the stitches and rows it had;
with `motif` its widths become those of as many repeats, and its lengths stay. Where one line asks for several counts, a
cast-on in a facing or for a rib and the fabric above it, the uppermost is kept, and those below are counted to fit.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from wale.actions import BindSides, Crown, Hem, Neck, Rib, Shape, Shoulders, Work
from wale.materials import Gauge, Motif
from wale.measure import Measure
from wale.parse.tree import Tree
from wale.plan import Level, PiecePlan, Plan, Section
from wale.problems.problem import Edit, Problem
from wale.quantity import in_unit, round_half_up, to_base, unit_word
from wale.regrade.text import length_list, size_list
from wale.source import Source, Span
from wale.spec import Spec

_TO = re.compile(r"\bto\s+\Z")
_FITTED = re.compile(r",\s*fitted\b")
_NAMED = re.compile(r",\s*named\s")


class Take(Struct, frozen=True):
    """What a swatch becomes: its new name, gauge and motif."""

    name: str
    gauge: Gauge
    motif: Motif | None


def kept_counts(tree: Tree, spec: Spec, plan: Plan, takes: Mapping[str, Take]) -> list[Edit]:
    """Write the counts that a plan has into the lines of the fabrics that change."""
    edits: dict[Span, Edit] = {}
    # what halves are half of is written in lengths
    whole = {piece.half.whole for piece in plan.pieces if piece.half is not None}
    for piece in plan.pieces:
        by_length = piece.half is not None or piece.name in whole
        wide = _widths(tree, spec.units, piece, takes, by_length=by_length)
        long = _lengths(tree.source, spec.units, piece, takes)
        for edit in (*wide, *long, *_tops(spec.units, piece, takes, by_length=by_length)):
            edits.setdefault(edit.span, edit)
    return list(edits.values())


def kept_repeats(tree: Tree, spec: Spec, plan: Plan, takes: Mapping[str, Take]) -> list[Edit]:
    """Write the widths of as many repeats as a plan has into the lines of the motifs that change."""
    edits: dict[Span, Edit] = {}
    for piece in plan.pieces:
        for level in _deciding(piece):
            if level.swatch in takes and spec.swatches[level.swatch].motif is not None:
                take = takes[level.swatch]
                goals = [repeats_goal(spec, level, take, size) for size in range(len(plan.sizes))]
                edit = _wide(spec.units, level, take, goals)
                if edit is not None:
                    edits.setdefault(edit.span, edit)
    return list(edits.values())


def repeats_goal(spec: Spec, level: Level, take: Take, size: int) -> Fraction:
    """Give the stitches of a level that hold as many repeats of the new motif as it has of the old one."""
    name = spec.swatches[level.swatch].motif
    if name is None or take.motif is None:
        return Fraction(level.counts[size])
    return level.edges + Fraction((level.counts[size] - level.edges) * take.motif.width, spec.motifs[name].width)


def not_kept(old: Plan, new: Plan, takes: Mapping[str, Take]) -> Problem | None:
    """Say where a new plan has other counts than the old one in the fabrics that change; None where it has them all."""
    for piece in old.pieces:
        other = new.piece(piece.name)
        if other is None:
            return _lost(piece.name, "the piece is gone")
        deciding = _deciding(piece)
        for level, again in zip(piece.levels, other.levels, strict=False):
            if level.swatch in takes and level in deciding and level.counts != again.counts:
                return _differs(level.address, old.sizes, level.counts, again.counts, "sts")
        for section, twin in zip(piece.sections, other.sections, strict=False):
            if section.swatch in takes and section.kind != "facing" and section.rows != twin.rows:
                return _differs(section.address, old.sizes, section.rows, twin.rows, "rows")
        if piece.top is not None and other.top is not None and piece.levels[-1].swatch in takes:
            for what in ("neck", "shoulder", "neck_rows", "placket_rows", "slope_rows"):
                first, second = getattr(piece.top, what), getattr(other.top, what)
                if first != second:
                    unit = "rows" if what.endswith("rows") else "sts"
                    return _differs(f"{piece.name}.{what.replace('_', '-')}", old.sizes, first, second, unit)
    return None


def other_repeats(old: Plan, new: Plan, spec: Spec, takes: Mapping[str, Take]) -> Problem | None:
    """Say where a new plan has more or fewer repeats than the old one; None where there are as many.

    Of another motif fewer than two stitches are free: its axis may ask for the other parity, or for a balance stitch;
    so they are in a half, whose opening stays as wide. Else every stitch is kept.
    """
    for piece in old.pieces:
        other = new.piece(piece.name)
        deciding = _deciding(piece)
        for level, again in zip(piece.levels, other.levels if other is not None else (), strict=False):
            if level not in deciding or level.swatch not in takes or spec.swatches[level.swatch].motif is None:
                continue
            take = takes[level.swatch]
            goals = [repeats_goal(spec, level, take, size) for size in range(len(old.sizes))]
            is_same = take.motif is not None and take.motif.name == spec.swatches[level.swatch].motif
            least = 1 if is_same and piece.half is None else 2
            for size, goal in enumerate(goals):
                if abs(again.counts[size] - goal) >= least:
                    wanted = tuple(round_half_up(one) for one in goals)
                    return _differs(level.address, old.sizes, wanted, again.counts, "sts")
    return None


def _differs(address: str, sizes: Sequence[str], old: Sequence[int], new: Sequence[int], unit: str) -> Problem:
    at = next((index for index, pair in enumerate(zip(old, new, strict=True)) if pair[0] != pair[1]), 0)
    return _lost(address, f"{new[at]} {unit} in size {sizes[at]}, not {old[at]}")


def _lost(address: str, why: str) -> Problem:
    return Problem(
        "E314",
        f"what was to be kept does not come out at {address}: {why}",
        help="Keep the lengths, or write the counts into the file by hand and check it.",
    )


def _deciding(piece: PiecePlan) -> tuple[Level, ...]:
    """Give the level that each line of a piece is there for: the last in a motif, else the last.

    Facings, ribs and other edges below and above it are made to fit.
    """
    charted = [one for one in piece.sections if one.fabric is not None and one.fabric.motif is not None]
    in_motif = {piece.levels[index].address for one in charted for index in (one.first, one.last)}
    found: dict[Span, Level] = {}
    for level in piece.levels:
        before = found.get(level.measure.span)
        if before is None or before.address not in in_motif or level.address in in_motif:
            found[level.measure.span] = level
    return tuple(found.values())


def _widths(tree: Tree, units: str, piece: PiecePlan, takes: Mapping[str, Take], *, by_length: bool) -> list[Edit]:
    shapes = {
        step.action.width.span: step.action for step in piece.steps if isinstance(step.action, Shape) and not by_length
    }
    bound = {one.step.action.width.span: one for one in piece.sections if isinstance(one.step.action, BindSides)}
    edits: list[Edit | None] = []
    for level in _deciding(piece):
        if level.swatch not in takes or level.measure.is_count:
            continue
        if level.measure.span in bound:
            edits.append(_bound(units, piece, bound[level.measure.span], takes, shapes))
            continue
        shape = shapes.get(level.measure.span)
        if shape is None:
            goals = [Fraction(count) for count in level.counts]
            edits.append(_wide(units, level, takes[level.swatch], goals))
            continue
        edits.append(Edit(level.measure.span, _counts(level.counts, "sts")))
        if level.measure.names and not _NAMED.search(tree.source.cut(shape.span)):
            place = replace(shape.span, start=shape.span.end)
            edits.append(Edit(place, f", named {level.measure.names[0]}"))
    return [edit for edit in edits if edit is not None]


def _bound(
    units: str, piece: PiecePlan, section: Section, takes: Mapping[str, Take], shapes: Mapping[Span, Shape]
) -> Edit:
    """Write what is bound off at each side: in stitches above a line that is written so, else as a length."""
    assert isinstance(section.step.action, BindSides)
    below, above = piece.levels[section.first], piece.levels[section.last]
    each = [(one - two) // piece.ends_shaped for one, two in zip(below.counts, above.counts, strict=True)]
    counted = below.measure.is_count or below.measure.span in shapes
    gauge = takes[above.swatch].gauge.stitches
    words = _counts(each, "sts") if counted else length_list([one / gauge for one in each], units)
    return Edit(section.step.action.width.span, words)


def _wide(units: str, level: Level, take: Take, goals: Sequence[Fraction]) -> Edit | None:
    """Add to a width, or take from it, what makes it the width of so many stitches; to the tenth of a millimetre."""
    measure = level.measure
    # a facing is narrower than the width that its line asks for
    scale = Fraction(1)
    if level.wishes is not None and not measure.waits_for() and measure.at(0):
        scale = level.wishes[0] / measure.at(0)
    widths = [(goal - level.taken) / take.gauge.stitches / scale for goal in goals]
    if measure.is_count:
        return Edit(measure.span, _counts([round_half_up(goal) for goal in goals], "sts"))
    if measure.waits_for() or not measure.names:
        return Edit(measure.span, length_list(widths, units))
    more = [width - measure.at(size) for size, width in enumerate(widths)]
    hundredths = [round_half_up(one, 100) for one in more]
    if not any(hundredths):
        return None
    place = replace(measure.span, start=measure.span.end)
    if max(hundredths) <= 0:
        return Edit(place, f" - {length_list([-one for one in more], units)}")
    if min(hundredths) >= 0:
        return Edit(place, f" + {length_list(more, units)}")
    less = ceil(-in_unit(min(more), units))
    added = [one + to_base(Fraction(less), units) for one in more]
    return Edit(place, f" - {less} {unit_word(units, str(less))} + {length_list(added, units)}")


def _lengths(source: Source, units: str, piece: PiecePlan, takes: Mapping[str, Take]) -> list[Edit]:
    edits = []
    for section in piece.sections:
        measure = section.measure
        if _is_fitted(section) and section.swatch in takes:
            edits += _fitted(source, section)
            continue
        if measure is None or measure.is_count or section.swatch not in takes or section.kind == "facing":
            continue
        edits.append(_long(source, units, piece, section, measure, takes))
    return edits


def _is_fitted(section: Section) -> bool:
    return isinstance(section.step.action, Shape) and section.step.action.over is None


def _fitted(source: Source, section: Section) -> list[Edit]:
    """Write the rows of a cap that was fitted to its armhole in the place of that word."""
    span = section.step.action.span
    found = _FITTED.search(source.text, span.start, span.end)
    if found is None:
        return []
    place = replace(span, start=found.start(), end=found.end())
    return [Edit(place, f" over {_counts(section.rows, 'rows')}")]


def _long(
    source: Source, units: str, piece: PiecePlan, section: Section, measure: Measure, takes: Mapping[str, Take]
) -> Edit:
    action, rows = section.step.action, _counts(section.rows, "rows")
    if isinstance(action, Hem):
        facing = next(one for one in piece.sections if one.step is section.step and one.kind == "facing")
        if facing.swatch not in takes:
            gauge = takes[section.swatch].gauge.rows
            return Edit(measure.span, length_list([each / gauge for each in section.rows], units))
    assert isinstance(action, Hem | Rib | Work | Shape | Crown)
    span = measure.span
    if isinstance(action, Work) and action.to:
        before = _TO.search(source.text[action.span.start : span.start])
        if before is not None:
            span = replace(span, start=action.span.start + before.start())
    return Edit(span, rows)


def _tops(units: str, piece: PiecePlan, takes: Mapping[str, Take], *, by_length: bool) -> list[Edit]:
    if piece.top is None or piece.levels[-1].swatch not in takes:
        return []
    edits: list[tuple[Measure, Sequence[int], str]] = []
    widths: list[Measure] = []
    for step in (piece.top.neck_step, piece.top.shoulder_step):
        action = step.action if step is not None else None
        if isinstance(action, Neck):
            depth = [piece.top.depth_rows(size) for size in range(len(piece.top.neck))]
            widths += [action.width] if by_length else []
            edits += [] if by_length else [(action.width, piece.top.neck, "sts")]
            edits += [(action.depth, depth, "rows")]
            if action.placket is not None:
                edits += [(action.placket.width, piece.top.centre, "sts")]
                edits += [(action.placket.length, piece.top.placket_rows, "rows")]
        elif isinstance(action, Shoulders):
            edits += [(action.slope, piece.top.slope_rows, "rows")]
    if piece.half is not None and piece.half.band is None:
        widths.append(piece.half.opening)
    kept = [Edit(measure.span, _counts(counts, unit)) for measure, counts, unit in edits if not measure.is_count]
    level = piece.levels[-1]
    factor = level.sts_per_cm / takes[level.swatch].gauge.stitches
    return [*kept, *(_scaled(units, one, factor, len(level.counts)) for one in widths if not one.is_count)]


def _scaled(units: str, measure: Measure, factor: Fraction, sizes: int) -> Edit:
    """Make a length as much longer as a stitch is wider, so that it comes to the same stitches."""
    return Edit(measure.span, length_list([measure.at(size) * factor for size in range(sizes)], units))


def _counts(counts: Sequence[int], unit: str) -> str:
    return size_list([str(count) for count in counts], unit)
