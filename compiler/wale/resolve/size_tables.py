"""A table of sizes from a CSV file beside the spec, as a published table is: sizes with their bare body measures.

The first row names the measures, each with its unit (`bust cm`); each further row is a size, its name first. An empty
cell is not known. Input: the text of the file. Output: the table, with the place of every figure.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from wale.parse.cells import Cell, rows_of
from wale.parse.tree import Text, Tree
from wale.quantity import dimension_of, to_base
from wale.resolve.context import Context
from wale.sizes import Body, Measured, SizeTable, measure_name
from wale.source import Span

if TYPE_CHECKING:
    from wale.resolve.imports import Load

ENDING = ".csv"
_WORD = re.compile(r"[^\W_]+(?:-[^\W_]+)*")
_FIGURE = re.compile(r"\d{1,6}(?:\.\d{1,6})?|(?:\d{1,6} )?\d{1,4}/\d{1,4}")
_EXAMPLE = "`size,bust cm,head cm`"


class FileTable(Struct, frozen=True):
    """A table of a file, and the place of each figure by size and measure."""

    table: SizeTable
    places: Mapping[tuple[str, str], Span]


def table_of_file(context: Context, name: Text, load: Load) -> FileTable | None:
    """Read the table of the file that a `sizes` line names; what is wrong with either is reported, and None given."""
    loaded = load(name)
    if loaded is None:
        context.any_lost = True
        return None
    if loaded[0].source.name.endswith(ENDING):
        return _read(context, loaded[0], name.text)
    way = 'Name a file that a spreadsheet wrote as CSV, such as `sizes from "crew.csv"`.'
    context.report("E290", f'"{name.text}" is no table of sizes', name.span, f"does not end in {ENDING}", way)
    return None


def _read(context: Context, tree: Tree, called: str) -> FileTable | None:
    """Read a table, `called` as the spec calls it, from its file's tree."""
    context.add_source(tree)
    rows, unread = rows_of(tree.source)
    if unread is not None:
        context.problems.append(unread)
        return None
    if len(rows) < 2 or len(rows[0]) < 2:
        _no_table(context, tree, rows)
        return None
    head, *body = rows
    measures = _measures(context, head)
    if measures is None:
        return None
    bodies: dict[str, Body] = {}
    places: dict[tuple[str, str], Span] = {}
    firsts: dict[str, Span] = {}
    sound = True
    for row in body:
        name = row[0]
        if not _is_row(context, head, row, firsts):
            sound = False
            continue
        firsts[name.text] = name.span
        known: dict[str, Measured] = {}
        for (measure, unit), cell in zip(measures, row[1:], strict=True):
            value = _value(context, cell, unit)
            sound = sound and (value is not None or not cell.text)
            if value is not None:
                known[measure] = Measured(value, f'given in "{called}"', "given")
                places[name.text, measure] = cell.span
        bodies[name.text] = Body(name.text, known)
    return FileTable(SizeTable("", "adults", called, tuple(bodies.values())), places) if sound else None


def _no_table(context: Context, tree: Tree, rows: list[list[Cell]]) -> None:
    """Report a file without rows or with one column: often another sign parts its cells."""
    first = rows[0][0] if rows else Cell("", Span(tree.source.name, 0, 0))
    sign = next((name for sign, name in ((";", "`;`"), ("\t", "tabs")) if sign in tree.source.cut(first.span)), "")
    context.report(
        "E290",
        f"the cells of this table are parted by {sign}" if sign else "the table has no sizes or no measures",
        first.span,
        "the first row",
        f"Save it as CSV with commas between the cells and points in the numbers; its first row reads {_EXAMPLE}, "
        "and each further row is a size.",
    )


def _measures(context: Context, head: list[Cell]) -> list[tuple[str, str]] | None:
    """Give measure and unit of each column."""
    found: list[tuple[str, str]] = []
    why = "" if head[0].text == "size" else "the first column is headed `size`"
    cell = head[0]
    for column in head[1:] if not why else ():
        cell = column
        name, _, unit = cell.text.rpartition(" ")
        measure = measure_name(name) or name
        if not _WORD.fullmatch(name) or dimension_of(unit) != "length":
            why = f"`{cell.text}` is no measure with its unit" if cell.text else "a column has no measure"
        elif measure in [known for known, _ in found]:
            why = f"the measure `{measure}` has two columns"
        if why:
            break
        found.append((measure, unit))
    if not why:
        return found
    help = f"The first row reads {_EXAMPLE}: a measure is one word, hyphens allowed, and its unit stands behind it."
    context.report("E291", why, cell.span, "not read", help)
    return None


def _is_row(context: Context, head: list[Cell], row: list[Cell], firsts: Mapping[str, Span]) -> bool:
    name, whole = row[0], row[0].span.to(row[-1].span)
    if name.text in firsts:
        also = [(firsts[name.text], "the first one")]
        way = "Leave one of them out."
        context.report("E207", f"the size `{name.text}` stands twice", name.span, "the second one", way, also=also)
    elif not _WORD.fullmatch(name.text):
        seen = f"`{name.text}` is no name of a size" if name.text else "a row has no size's name"
        context.report(
            "E293", seen, name.span, "the name", "It is one word or number, hyphens allowed: `XL`, `2-years`."
        )
    elif len(row) != len(head):
        seen = f"the row of size {name.text} has {len(row)} cells, the first row {len(head)}"
        way = "Each row has a cell for each measure; what is not known is an empty cell."
        context.report("E293", seen, whole, "cells too many or too few", way, also=[(head[0].span, "the first row")])
    else:
        return True
    return False


def _value(context: Context, cell: Cell, unit: str) -> Fraction | None:
    """Give a figure in cm; None for an empty cell and for one that is reported."""
    if not cell.text:
        return None
    value = Fraction(0)
    if _FIGURE.fullmatch(cell.text) and not cell.text.endswith("/0"):
        value = sum((Fraction(part) for part in cell.text.split()), value)
    if value > 0:
        return to_base(value, unit)
    way = "Write a number above 0, with a point before decimals: `86.5`, `34 1/2`. The unit stands in the first row."
    context.report("E292", f"`{cell.text}` is no length", cell.span, f"in {unit}", way)
    return None
