"""Tables as the templates set them: widths, columns of figures, long narrow ones side by side, wide ones in parts."""

from __future__ import annotations

import re
from itertools import pairwise
from math import ceil
from typing import Any

from msgspec.structs import replace

from wale.outputs.ids import Ids
from wale.outputs.setting import Setting
from wale.outputs.svg import text_width
from wale.pattern import Schematic, Table, unlinked

# A table of more rows may be split over pages; one of more characters across is set smaller, and one of no more than
# the last figure keeps each cell on one line.
_WHOLE_ROWS = 10
_DENSE_CHARACTERS = 105
_TIGHT_CHARACTERS = 130
# A table so narrow that it fits twice into a page of so many em, with space between, is set in columns: of about
# twelve rows, and never more than thirty. A caption of so many characters keeps to one line.
_PAGE_EM = 51.0
_BESIDE = 1.6
_COLUMN_ROWS = 12
_LINE = 100
_DENSE_SIZE = 0.84
# An em of a table, mm: 0.9 times 10.5 point.
_EM = 3.34
_LONGEST_COLUMN = 30
# Padding of a cell in em, as in base.css.
_PAD = 0.7
_FIGURE_PAD = 0.5
# In large print: em across a page of 168 mm at 18 point; the most that a column of headings, and one of words, keeps.
_LARGE_EM = 26.4
_LARGE_HEADING = 9.0
_LARGE_WORDS = 7.0
_FIGURE = re.compile(r"[-–−]?[\d.,½¼¾×/ –−+-]*\d[\d.,½¼¾/]*( ?[a-zA-Z%″]{1,4})?|[–—-]|")


def make(table: Table, ident: str, ids: Ids, setting: Setting) -> dict[str, Any]:
    """Give what the template needs of a table."""
    runs = (table.rows,) if setting.is_large else side_by_side(table)
    return {
        "figures": figure_columns(table),
        "caption_id": ids.make(f"{ident}-caption"),
        "part_ids": tuple(ids.make(f"{ident}-part") for _ in runs) if len(runs) > 1 else (),
        "runs": runs,
        "widths": set_widths(table, setting),
        "classes": _classes(table, setting),
    }


def measures(schematic: Schematic, sizes: tuple[str, ...]) -> Table:
    """The table of a schematic's measures."""
    columns = schematic.columns(sizes)
    rows = tuple((one.letter, one.name, *one.values) for one in schematic.dimensions)
    return Table(schematic.caption, ("Letter", "Measure", *columns), rows)


def room_beside(table: Table, across: float) -> float:
    """What a table leaves beside it of so many mm across, mm."""
    return across - (sum(_widths(table)) + _BESIDE) * _EM


def large_measures(schematic: Schematic, sizes: tuple[str, ...]) -> Table:
    """The same with letter and name in one column, which stays beside the figures of every size."""
    rows = tuple((f"{one.letter} {one.name}".strip(), *one.values) for one in schematic.dimensions)
    return Table(schematic.caption, ("Measure", *schematic.columns(sizes)), rows)


def in_parts(table: Table) -> tuple[Table, ...]:
    """A table for large print: in one if it fits the page, else columns in order in as few parts as do.

    Each part has the column of headings. Columns of words may wrap, figures never do.
    """
    head, *widths = _least_widths(table)
    groups = _groups(widths, _LARGE_EM - head)
    if len(groups) < 2:
        return (table,)
    return tuple(
        replace(
            table,
            caption=f"{table.caption}: {', '.join(table.header[one] for one in group)}",
            header=tuple(table.header[one] for one in (0, *group)),
            rows=tuple(tuple(row[one] for one in (0, *group)) for row in table.rows),
            note=table.note if group is groups[-1] else "",
        )
        for group in groups
    )


def _groups(widths: list[float], room: float) -> list[range]:
    """Columns (from 1) in runs that fit the room, as few as can be, and about even where that fits too."""
    groups: list[range] = []
    first = 0
    for column in range(1, len(widths) + 1):
        if column == len(widths) or sum(widths[first : column + 1]) > room:
            groups.append(range(first + 1, column + 1))
            first = column
    many = len(groups)
    ends = [len(widths) * n // many for n in range(many + 1)] if many else [0]
    even = [range(a + 1, b + 1) for a, b in pairwise(ends)]
    return even if all(sum(widths[one[0] - 1 : one[-1]]) <= room for one in even) else groups


def _least_widths(table: Table) -> list[float]:
    """What each column needs in large print, in em: figures whole, words by the longest of them."""
    figures = figure_columns(table)
    least = []
    for i, cells in enumerate(_columns(table)):
        whole = _widths(table)[i]
        longest = max((text_width(word, 1) for cell in cells for word in cell.split()), default=0.0) + _PAD
        most = _LARGE_WORDS if i else _LARGE_HEADING
        least.append(whole if figures[i] else min(whole, max(longest, most)))
    return least


def side_by_side(table: Table) -> tuple[tuple[tuple[str, ...], ...], ...]:
    """The rows of a table in runs that are set beside one another: more than one for a long narrow table."""
    beside = min(int(_PAGE_EM / (sum(_widths(table)) + _BESIDE)), ceil(len(table.rows) / _COLUMN_ROWS))
    if beside < 2:
        return (table.rows,)
    long = min(ceil(len(table.rows) / beside), _LONGEST_COLUMN)
    return tuple(table.rows[at : at + long] for at in range(0, len(table.rows), long))


def figure_columns(table: Table) -> tuple[bool, ...]:
    """For each column of a table, whether all cells are numbers and set to the right; never the heading column."""
    return tuple(
        i > 0 and all(_FIGURE.fullmatch(unlinked(row[i])) for row in table.rows) and any(row[i] for row in table.rows)
        for i in range(len(table.header))
    )


def set_widths(table: Table, setting: Setting) -> tuple[float, ...]:
    """Widths in em to set a table with, which saves the typesetter measuring each cell; none where it is too wide."""
    if not setting.is_paper:
        return ()
    widths, across = _widths(table), _across(table)
    if setting.is_large:
        return widths if sum(widths) <= _LARGE_EM else ()
    room = _PAGE_EM / _DENSE_SIZE if across > _DENSE_CHARACTERS else _PAGE_EM
    return widths if sum(widths) <= room and across <= _TIGHT_CHARACTERS else ()


def _widths(table: Table) -> tuple[float, ...]:
    """Widths of a table's columns in em, each cell on one line: measured here, once, as upper bounds."""
    figures = figure_columns(table)
    return tuple(
        round(max(text_width(cell, 1) for cell in cells) + _PAD + figures[i] * _FIGURE_PAD, 2)
        for i, cells in enumerate(_columns(table))
    )


def _classes(table: Table, setting: Setting) -> tuple[str, ...]:
    across = _across(table)
    asked = {
        "whole": len(table.rows) <= _WHOLE_ROWS,
        "dense": across > _DENSE_CHARACTERS and not setting.is_large,
        "tight": across <= _TIGHT_CHARACTERS and not (setting.is_large and setting.is_paper),
        "line": len(table.caption) <= _LINE and not setting.is_large,
    }
    return tuple(name for name, is_so in asked.items() if is_so)


def _across(table: Table) -> int:
    """Characters across a table, each cell on one line."""
    return sum(max(map(len, cells)) + 1 for cells in _columns(table))


def _columns(table: Table) -> list[tuple[str, ...]]:
    """The cells of each column as they are printed, its heading first."""
    rows = (table.header, *table.rows)
    return [tuple(unlinked(row[i]) for row in rows) for i in range(len(table.header))]
