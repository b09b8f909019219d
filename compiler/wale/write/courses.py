"""Instruction lines of courses: what is told row by row."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from fractions import Fraction

from wale.actions import Coursed
from wale.constructions import COURSES
from wale.course import Final, MadeRow, Part, rows_made, told
from wale.plan import Section
from wale.write.context import Context
from wale.write.lines import Figure, Line, Rows, Sts, Times
from wale.write.lines import Part as Word

NUMBER = re.compile(r"{(\w+)(?:!(\w+))?}")
_FIGURES: dict[str | None, Callable[[int], Figure]] = {
    None: int,
    "sts": Sts,
    "times": Times,
    "rows": Rows,
    "rounds": lambda number: Rows(number, "round"),
}


def course_lines(at: Context, section: Section) -> list[Line]:
    """Write a part of a course."""
    lines = []
    for one in told(part_of(section), section.numbers[at.size]):
        words = one.passage.words.replace("{yarn}", at.swatch(section).yarns[0])
        lead, parts = (_words(text, one.numbers) for text in (one.passage.lead, words))
        slot = f"{section.address}.{one.slot}"
        lines.append(Line(slot, lead, parts, is_instruction=not one.passage.is_remark))
    return lines


def course_rows(at: Context, section: Section) -> tuple[MadeRow, ...]:
    """Give the rows of a part of a course, as planned."""
    return rows_made(part_of(section), section.numbers[at.size])


def part_of(section: Section) -> Part:
    """Give the part of a course that a section is."""
    assert isinstance(section.step.action, Coursed)
    course, name = COURSES[section.step.action.form], section.address.rsplit(".", 1)[1]
    return next(part for part in course.parts if part.name == name)


def final_of(section: Section) -> Final | None:
    """Give how a section ends its piece, or None where it does not."""
    action = section.step.action
    if not isinstance(action, Coursed) or part_of(section) is not COURSES[action.form].parts[-1]:
        return None
    return COURSES[action.form].final


def _words(text: str, numbers: Mapping[str, Fraction]) -> tuple[Word, ...]:
    parts: list[Word] = []
    end = 0
    for found in NUMBER.finditer(text):
        figure: Figure = _FIGURES[found[2]](int(numbers[found[1]]))
        parts += [text[end : found.start()], figure]
        end = found.end()
    return tuple(part for part in (*parts, text[end:]) if part != "")
