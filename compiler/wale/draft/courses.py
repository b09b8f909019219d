"""Courses once the stitches are known: their numbers, and the rows that follow from them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from msgspec.structs import replace

from wale.actions import Coursed
from wale.constructions import COURSES, given
from wale.course import rows_made
from wale.draft.builder import has_motif
from wale.draft.joined import arm_key
from wale.draft.layout import Layout, SectionDraft
from wale.draft.linked import RowBuilder
from wale.draft.stating import at
from wale.formula import reckon
from wale.measure import Measure
from wale.plan import Girth, Level, PiecePlan
from wale.spec import Spec


def numbers(
    layout: Layout, section: SectionDraft, counts: Mapping[str, int], spec: Spec, size: int
) -> dict[str, Fraction]:
    """Give the numbers of a course in one size, those of a course that it follows too; none for another section."""
    action = section.step.action
    if not isinstance(action, Coursed):
        return {}
    course, known = COURSES[action.form], dict[str, Fraction]()
    if course.follows:
        first = next(one for one in layout.sections if _form(one) in course.follows)
        known |= numbers(layout, first, counts, spec, size)
    known |= given(action, section.swatch, size)
    if course.is_joined:
        known["arm"] = Fraction(counts[at(arm_key(layout), spec, size)])
    if course.in_motif:
        known["motif"] = Fraction(has_motif(section.fabric))
    if course.in_garter:
        known["garter"] = Fraction(section.swatch.stitch == "garter")
    if course.to:
        known["after"] = Fraction(counts[at(layout.after(section).key, spec, size)])
    return course.worked_out(counts[at(layout.levels[section.first].key, spec, size)], known)


def course_rows(
    build: RowBuilder, spec: Spec, layout: Layout, section: SectionDraft, size: int, counts: Mapping[str, int]
) -> None:
    """State the rows of a course, which follow from its stitches."""
    action, key = section.step.action, at(section.key, spec, size)
    assert isinstance(action, Coursed)
    part = COURSES[action.form].parts[section.part]
    rows = len(rows_made(part, numbers(layout, section, counts, spec, size)))
    build.unknown(key, 0, rows)
    before = counts[at(layout.levels[section.first].key, spec, size)]
    why = f"{rows} rows follow from {before} sts"
    build.rests(build.rule("exact", why, ((1, key),), (action.span,), lower=rows, upper=rows))


def with_girths(spec: Spec, pieces: Iterable[PiecePlan]) -> tuple[PiecePlan, ...]:
    """Give the girths of what each piece's courses work aside."""
    return tuple(replace(piece, girths=tuple(_girths(spec, piece))) for piece in pieces)


def _girths(spec: Spec, piece: PiecePlan) -> Iterator[Girth]:
    asked: dict[str, tuple[str, Measure]] = {}
    for index, section in enumerate(piece.sections):
        if not isinstance(section.step.action, Coursed):
            continue
        owner, _, name = section.address.rpartition(".")
        asked |= {slot: (owner, measure) for slot, measure in section.step.action.given.items()}
        part = next(one for one in COURSES[section.step.action.form].parts if one.name == name)
        sizes, gauge = range(len(spec.sizes)), spec.swatches[section.swatch].washed.stitches
        for one in part.girths:
            owner, measure = asked[one.slot]
            level = Level(
                f"{owner}.{one.number}",
                one.label,
                tuple(int(section.numbers[size][one.number]) for size in sizes),
                0,
                gauge,
                None if measure.is_count else tuple(measure.at(size) for size in sizes),
                measure,
                section.swatch,
            )
            below = tuple(piece.rows_to(index, size) + int(reckon(one.rows, section.numbers[size])) for size in sizes)
            yield Girth(level, below, one.rows == "0", one.is_edge)


def _form(section: SectionDraft) -> str:
    return section.step.action.form if isinstance(section.step.action, Coursed) else ""
