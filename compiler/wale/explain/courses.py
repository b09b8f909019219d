"""Reasons of a course's numbers: its own formulas over the stitches that it begins with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wale.actions import Coursed
from wale.constructions import COURSES
from wale.course import Loop, Number, times
from wale.explain.book import Book, known
from wale.explain.reason import Input
from wale.formula import names
from wale.plan import Section
from wale.write.context import Context
from wale.write.courses import part_of


def course_reasons(book: Book, at: Context, section: Section) -> None:
    """Tell the numbers of a part of a course; those of the whole course with its first part."""
    action = section.step.action
    assert isinstance(action, Coursed)
    course, numbers, part = COURSES[action.form], section.numbers[at.size], part_of(section)
    owner = section.address.rsplit(".", 1)[0]
    if part is course.parts[0]:
        _tell(book, at, section, owner, course.numbers, numbers, owner)
    for line in part.lines:
        if not isinstance(line, Loop):
            continue
        for n, own in enumerate(times(line, numbers), 1):
            _tell(book, at, section, f"{section.address}.{line.passages[0].slot}[{n}]", line.numbers, own, owner)


def _tell(
    book: Book,
    at: Context,
    section: Section,
    address: str,
    told: Sequence[Number],
    numbers: Mapping[str, int],
    owner: str,
) -> None:
    level = at.piece.levels[section.first]
    mine = {one.name for one in told}
    for one in told:
        given: dict[str, Input] = {}
        for name in names(one.formula):
            where = level.address if name == "before" else f"{address if name in mine else owner}.{name}"
            given[name] = known(where.replace("_", "-"), numbers[name], "sts" if name == "before" else "")
        slot = f"{address}.{one.name}".replace("_", "-")
        spans = (section.step.action.span,)
        book.reckon(slot, at.size, numbers[one.name], one.unit, one.formula, given, spans=spans)
