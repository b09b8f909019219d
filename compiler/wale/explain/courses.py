"""Reasons of a course's numbers: its own formulas over the stitches that it begins with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from wale.actions import Coursed
from wale.constructions import COURSES
from wale.course import Loop, Number, times
from wale.explain.book import Book, constant, known
from wale.explain.course_lines import fixed_figures, owners_of
from wale.explain.reason import Input
from wale.formula import Values, names
from wale.plan import Section
from wale.write.context import Context
from wale.write.courses import part_of

_GIVEN = {
    "sts_per_cm": "stitches per cm",
    "rows_per_cm": "rows per cm",
    "arm": "stitches of a sleeve, its underarm apart",
}


def course_reasons(book: Book, at: Context, section: Section) -> None:
    """Tell the numbers of a part of a course; those of the whole course with its first part."""
    action = section.step.action
    assert isinstance(action, Coursed)
    course, numbers, part = COURSES[action.form], section.numbers[at.size], part_of(section)
    owner, owners = section.address.rsplit(".", 1)[0], owners_of(at.piece, section)
    tell = _Teller(book, at, section, numbers, owners)
    if part is course.parts[0]:
        tell.all((*course.fixed, *course.numbers), owner)
    for line in part.lines:
        if not isinstance(line, Loop):
            continue
        for own in times(line, numbers):
            address = f"{section.address}.{line.passages[0].slot}[{int(own[line.by])}]"
            given = {"n": known("which time these lines are told", own["n"], where=action.span)}
            book.reckon(f"{address}.n", at.size, int(own["n"]), "", "{n}", given, spans=(action.span,))
            mine = {**owners, **dict.fromkeys((one.name for one in line.numbers), address)}
            _Teller(book, at, section, own, mine).all(line.numbers, address)


def fixed_reasons(book: Book, section: Section) -> None:
    """Tell the figures that stand in the words of a part of a course, the same for all sizes."""
    action = section.step.action
    assert isinstance(action, Coursed)
    for address, figure in fixed_figures(section):
        constant(book, address, figure, "", f"told so by {action.form}, for all sizes", action.span)


class _Teller(Struct):
    """Tells numbers of a course; `owners` are the addresses that the names of others stand under."""

    book: Book
    at: Context
    section: Section
    numbers: Values
    owners: Mapping[str, str]

    def all(self, told: Sequence[Number], address: str) -> None:
        """Tell some numbers under an address."""
        for one in told:
            given = {name: self._input(name) for name in names(one.formula)}
            slot = f"{address}.{one.name}".replace("_", "-")
            spans = (self.section.step.action.span,)
            found, unit = int(self.numbers[one.name]), one.unit
            levels = (girth.level for girth in self.at.piece.girths)
            off = next((level.deviation(self.at.size) for level in levels if level.address == slot), None)
            self.book.reckon(slot, self.at.size, found, unit, one.formula, given, spans=spans, deviation=off)

    def _input(self, name: str) -> Input:
        piece, value = self.at.piece, self.numbers[name]
        ends = {"before": self.section.first, "after": self.section.first + 1}
        if name in ends:
            return known(piece.levels[ends[name]].address, value, "sts")
        if name in self.owners:
            return known(f"{self.owners[name]}.{name}".replace("_", "-"), value)
        return known(_GIVEN.get(name, name), value, where=self.section.step.action.span)
