"""What the proof measures: tables as printed, gauges, and where named widths and wished lengths stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Literal

from wale.pattern import Bullets, Chart, Paragraph, Part, Pattern, Schematic, Table
from wale.plan import Girth, Level, Plan
from wale.prove.facts import Gauge, LengthFact, LevelFact, PrintedSheet, PrintedTable, PrintedWhole
from wale.quantity import CM_PER_INCH
from wale.spec import Spec
from wale.write.context import Context
from wale.write.other_side import other_side
from wale.write.schematics import level_names

_FIRST = re.compile(r"(?:Row|Round) 1 here is (?:row|round) ([0-9]+) of the piece")
TABLES: tuple[tuple[str, Literal["finished", "deviations", "yarn"]], ...] = (
    ("Yarn needed", "yarn"),
    ("Finished measurements", "finished"),
    ("Chosen counts and deviations", "deviations"),
)


def printed_tables(plan: Plan, pattern: Pattern) -> tuple[PrintedTable, ...]:
    """Take the tables of lengths and the schematics' figures out of a printed pattern."""
    every = [*(piece.name for piece in plan.pieces), *(band.name for band in plan.bands)]
    return tuple(_tables(_printed_names(every, pattern), pattern))


def _printed_names(names: Iterable[str], pattern: Pattern) -> dict[str, str]:
    """Give names as a pattern prints them, by the same in small letters."""
    told = map(other_side, names) if pattern.hand == "left" else names
    return {name.lower(): name for name in told}


def _tables(names: Mapping[str, str], pattern: Pattern) -> Iterator[PrintedTable]:
    for part in (part for section in pattern.sections for part in section.parts):
        if isinstance(part, Schematic):
            pieces = tuple(names[one] for one in part.name.lower().split(" and "))
            rows = tuple((one.name, one.values) for one in part.dimensions)
            yield PrintedTable("schematic", _unit(part.unit), rows, pieces)
        elif isinstance(part, Table):
            for caption, kind in TABLES:
                if part.caption.startswith(caption):
                    unit = _unit("inches" if "inches" in part.caption else "cm")
                    yield PrintedTable(kind, unit, tuple((row[0], row[1:]) for row in part.rows))


def printed_sheets(plan: Plan, pattern: Pattern) -> tuple[PrintedSheet, ...]:
    """Take the sheets row by row out of a printed pattern."""
    every = [*(piece.name for piece in plan.pieces), *(band.name for band in plan.bands)]
    names = _printed_names(every, pattern)
    parts: list[Part] = [part for section in pattern.sections if section.id == "rows" for part in section.parts]
    found = []
    for title, lines in zip(parts[::2], parts[1::2], strict=True):
        assert isinstance(title, Paragraph) and isinstance(lines, Bullets)
        piece, _, size = title.strong.removesuffix(":").partition(", size ")
        told = tuple(f"{item.strong} {item.text}" for item in lines.items)
        found.append(PrintedSheet(names[piece.lower()], size, title.text, told))
    return tuple(found)


def printed_wholes(pattern: Pattern) -> tuple[PrintedWhole, ...]:
    """Take the charts of every stitch out of a printed pattern."""
    found = []
    for part in (part for section in pattern.sections for part in section.parts):
        if isinstance(part, Chart) and part.repeat is None:
            piece, _, size = part.name.partition(", size ")
            first = next((int(told[1]) for note in part.notes if (told := _FIRST.match(note))), 1)
            way = 1 if part.from_left else -1
            rows = tuple(
                tuple(part.colours[cell].name if cell >= 0 else "" for cell in row[::way]) for row in part.rows
            )
            found.append(PrintedWhole(piece, size, first, rows))
    return tuple(found)


def _unit(word: str) -> Fraction:
    return CM_PER_INCH if word == "inches" else Fraction(1)


def gauges(spec: Spec) -> dict[str, Gauge]:
    """Give the gauge of each swatch, in stitches and rows per cm."""
    return {
        name: Gauge(
            swatch.washed.stitches, swatch.washed.rows, swatch.counted.rows if swatch.counted is not None else None
        )
        for name, swatch in spec.swatches.items()
    }


def levels(at: Context) -> tuple[LevelFact, ...]:
    """Give where the named widths of a piece stand."""
    piece, size = at.piece, at.size
    drawn = level_names(at.spec, piece, size)
    return tuple(
        LevelFact(
            level.label,
            drawn.get(level.address, ""),
            _row(at, index, level),
            level.swatch,
            level.address,
            level.wishes[size] if level.wishes is not None else None,
        )
        for index, level in enumerate(piece.levels)
    ) + tuple(_girth(one, size) for one in piece.girths)


def _girth(girth: Girth, size: int) -> LevelFact:
    level, wishes = girth.level, girth.level.wishes
    return LevelFact(
        level.label,
        "",
        girth.rows[size] + girth.begins,
        level.swatch,
        level.address,
        wishes[size] if wishes is not None else None,
        girth.begins,
    )


def _row(at: Context, index: int, level: Level) -> int:
    """Give a row after which a level's stitches are on the needle: below a section that begins there, or atop one."""
    piece, size = at.piece, at.size
    begins = [number for number, one in enumerate(piece.sections) if one.first == index and one.rows[size]]
    begins.sort(key=lambda number: piece.sections[number].swatch != level.swatch)
    if begins:
        change = piece.sections[begins[0]].even_start
        return piece.rows_to(begins[0], size) + (1 if change is not None and change[size] else 0)
    ends = [number for number, one in enumerate(piece.sections) if one.last == index and one.rows[size]]
    return piece.rows_to(ends[0] + 1, size) if ends else 0


def lengths(at: Context) -> tuple[LengthFact, ...]:
    """Give the rows of a piece for which a length was wished."""
    piece, size = at.piece, at.size
    return tuple(
        LengthFact(
            section.address,
            piece.rows_to(index, size),
            piece.rows_to(index + 1, size),
            section.to,
            section.wishes[size],
        )
        for index, section in enumerate(piece.sections)
        if section.wishes is not None
    )
