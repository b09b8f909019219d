"""The printed lines of a pattern, each with the words by which a reader finds it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from msgspec import Struct

from wale.pattern import (
    Bullets,
    Caution,
    Chart,
    Definitions,
    Drawing,
    Drawings,
    Paragraph,
    Part,
    Pattern,
    Schematic,
    Section,
    Steps,
    Table,
    unlinked,
)

FRONT = "Front page"


class Line(Struct, frozen=True):
    """One printed line.

    Attributes:
        section: title of its section.
        place: where in the section ("step 4"; "table Gauge, row back, M"), one line of a section each.
        text: its words.
        size: the size it is for, "" for all or for those in its brackets.
        is_step: it is an instruction.
    """

    section: str
    place: str
    text: str
    size: str = ""
    is_step: bool = False


def printed(pattern: Pattern) -> tuple[Line, ...]:
    """Give the lines of a pattern in the order of the print; drawn outlines have none, nor has what made the file."""
    front = [Line(FRONT, "title", pattern.title), Line(FRONT, "below the title", pattern.about)]
    found = [line for line in front if line.text]
    if pattern.drawing is not None:
        found.append(Line(FRONT, "drawing", pattern.drawing.words))
    for section in pattern.sections:
        found += _named_apart(_section(section, pattern.sizes))
    return tuple(found)


def _named_apart(lines: Iterator[Line]) -> Iterator[Line]:
    """Count places that share their words: "paragraph", "paragraph 2"."""
    met: dict[str, int] = {}
    for line in lines:
        number = met[line.place] = met.get(line.place, 0) + 1
        place = line.place if number == 1 else f"{line.place} ({number})"
        yield Line(line.section, place, unlinked(line.text), line.size, line.is_step)


def _section(section: Section, sizes: tuple[str, ...]) -> Iterator[Line]:
    is_work = section.id.startswith(("piece-", "band-"))
    for part in section.parts:
        for place, text, size in _part(part, sizes):
            if text:
                yield Line(section.title, place, text, size, is_work and isinstance(part, Steps))


def _part(part: Part, sizes: tuple[str, ...]) -> Iterator[tuple[str, str, str]]:
    """Give place, words and size of each line of a part."""
    match part:
        case Paragraph():
            yield "paragraph", _said(part), ""
        case Steps():
            title = f"{part.title}, " if part.title else ""
            for number, item in enumerate(part.items, part.start):
                yield f"{title}step {number}", _said(item), ""
        case Bullets():
            for number, item in enumerate(part.items, 1):
                yield f"point {number}", _said(item), ""
        case Definitions():
            for term, meaning in part.items:
                yield term, f"{term}: {meaning}", ""
        case Table():
            yield from _table(part, sizes)
        case Caution():
            yield part.title, part.text, ""
        case Chart():
            yield from _chart(part)
        case Schematic():
            rows = tuple((f"{one.letter} {one.name}", *one.values) for one in part.dimensions)
            yield from _table(Table(f"schematic {part.name}", (part.unit, *sizes), rows), sizes)
        case Drawing():
            yield "drawing", part.words, ""
        case Drawings():
            yield part.title, part.note, ""
            for one in part.items:
                yield one.caption or part.title, one.words, ""


def _said(paragraph: Paragraph) -> str:
    return f"{paragraph.strong} {paragraph.text}".strip()


def _table(table: Table, sizes: tuple[str, ...]) -> Iterator[tuple[str, str, str]]:
    """Give each cell below a size by itself, for it is one size's figure; all other cells of a row go together."""
    yield "table", table.caption, ""
    yield f"{table.caption}, head", " | ".join(table.header), ""
    for row in table.rows:
        together = [cell for head, cell in zip(table.header, row, strict=True) if head not in sizes]
        yield f"{table.caption}, {row[0]}, in words", " | ".join(together), ""
        for head, cell in zip(table.header, row, strict=True):
            if head in sizes:
                yield f"{table.caption}, {row[0]}, {head}", cell, head
    yield f"{table.caption}, note", table.note, ""


def _chart(chart: Chart) -> Iterator[tuple[str, str, str]]:
    where = f"chart {chart.name}"
    names = {-1: "no stitch", **{number: one.name for number, one in enumerate(chart.colours)}}
    yield where, ", ".join(f"{one.name} {one.mark}".strip() for one in chart.colours), ""
    for start in chart.starts:
        yield f"{where}, start of {start.text}", f"column {start.column}", ""
    for note in chart.notes:
        yield f"{where}, note", note, ""
    for label, text in chart.words:
        yield f"{where}, {label.removesuffix(':')}", text, ""
    for number in range(1, len(chart.rows) + 1):
        runs = (f"{len(list(run))} {names[cell]}" for cell, run in groupby(chart.worked(number)))
        yield f"{where}, drawn row {number}", ", ".join(runs), ""
