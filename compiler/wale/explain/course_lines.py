"""Where the numbers of a course's lines have their reasons: by its own words, figure by figure."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from msgspec import Struct

from wale.actions import Coursed
from wale.constructions import COURSES
from wale.course import Loop, Passage
from wale.explain.structure import TERMS
from wale.explain.tokens import groups
from wale.plan import PiecePlan, Plan, Section
from wale.write.courses import NUMBER, part_of

_FIGURE = re.compile(r"\d+")
_SAID = r"(?:\d+(?: \(\d+(?:, \d+)*\))?|once|twice)(?: (?:sts?|times?|rounds?|rows?)\b)?"
_INDEX = re.compile(r"(.*)\[\d+\]")


class CourseLine(Struct, frozen=True):
    """A line of a course: its words as written in the course, and where each of their numbers is told.

    Attributes:
        words: with `{name}` for numbers.
        owners: the address under which a number is told, by name; of one that is told elsewhere there is none.
        fixed: the address of figures that stand in the words; other lines with it have the first `passed` of them.
        sizes: for how many sizes it is printed.
    """

    words: str
    owners: Mapping[str, str]
    fixed: str
    passed: int
    sizes: int

    def addresses(self, text: str) -> list[str]:
        """Give the address of each number of the printed text, "" where none is known."""
        found = re.search(_as_pattern(self.words), text)
        assert found is not None
        names = [one[1] for one in NUMBER.finditer(self.words) if one[1] != "yarn"]
        places = {found.span(number): name for number, name in enumerate(names, 1)}
        result, passed = [], self.passed
        for group in groups(text, self.sizes):
            name = next((name for (start, end), name in places.items() if start <= group.start < end), None)
            if name is None:
                passed += 1
                result.append(f"{self.fixed}.fixed[{passed}]")
            else:
                owner = self.owners.get(name)
                result.append(f"{owner}.{name}".replace("_", "-") if owner is not None else "")
        return result


def course_line(plan: Plan, slot: str, text: str, sizes: int) -> CourseLine | None:
    """Give the line of a course that has an address and a text, or None where it is none.

    Args:
        sizes: for how many it is printed.
    """
    piece = plan.piece(slot.partition(".")[0])
    sections = piece.sections if piece is not None else ()
    section = next((one for one in sections if slot.startswith(f"{one.address}.")), None)
    if piece is None or section is None or not isinstance(section.step.action, Coursed):
        return None
    address, owners = section.address, owners_of(piece, section)
    end = slot.removeprefix(f"{address}.")
    times = _INDEX.fullmatch(end)
    passed = 0
    for passage, loop in _passages(section):
        same = passage.slot == (times[1] if times is not None else end)
        if same and re.search(_as_pattern(passage.words), text):
            if loop is not None and times is not None:
                own = f"{address}.{loop.passages[0].slot}{end[len(times[1]) :]}"
                owners |= dict.fromkeys(("n", *(one.name for one in loop.numbers)), own)
            return CourseLine(passage.words, owners, f"{address}.{passage.slot}", passed, sizes)
        passed += len(_FIGURE.findall(NUMBER.sub("", passage.words))) if same else 0
    return None


def owners_of(piece: PiecePlan, section: Section) -> dict[str, str]:
    """Give the address under which each number of a course is told, those of courses that it follows among them."""
    assert isinstance(section.step.action, Coursed)
    course, owner = COURSES[section.step.action.form], section.address.rsplit(".", 1)[0]
    owners = {one.name: owner for one in (*course.fixed, *course.numbers)}
    for other in piece.sections:
        if isinstance(other.step.action, Coursed) and other.step.action.form in course.follows:
            earlier, address = COURSES[other.step.action.form], other.address.rsplit(".", 1)[0]
            owners |= {one.name: address for one in (*earlier.fixed, *earlier.numbers) if one.name not in owners}
    return owners


def fixed_figures(section: Section) -> Iterator[tuple[str, int]]:
    """Give the figures that stand in the words of a part of a course, each with its address."""
    passed: Counter[str] = Counter()
    for passage, _ in _passages(section):
        words = NUMBER.sub("", passage.words)
        hidden = [one.span() for one in TERMS.finditer(words)]
        for one in _FIGURE.finditer(words):
            passed[passage.slot] += 1
            if not any(start <= one.start() < end for start, end in hidden):
                yield f"{section.address}.{passage.slot}.fixed[{passed[passage.slot]}]", int(one[0])


def _passages(section: Section) -> Iterator[tuple[Passage, Loop | None]]:
    for line in part_of(section).lines:
        if isinstance(line, Passage):
            yield line, None
        else:
            yield from ((passage, line) for passage in line.passages)


def _as_pattern(words: str) -> str:
    """Give a pattern of the printed text of some words, a group for each number."""
    parts, end = [], 0
    for one in NUMBER.finditer(words):
        parts += [re.escape(words[end : one.start()]), "[^,.]+?" if one[1] == "yarn" else f"({_SAID})"]
        end = one.end()
    return "".join([*parts, re.escape(words[end:])])
