"""A table as a spreadsheet writes it (CSV, RFC 4180) taken apart into cells with their places.

Input: the text of a file. Output: its rows, blank ones left out, and what cannot be read. Nothing is known here of
what the cells mean.
"""

from __future__ import annotations

import re

from msgspec import Struct

from wale.problems.problem import Problem, problem
from wale.source import Source, Span

MOST_ROWS, MOST_CELLS = 200, 60
"""Rows of a table, and cells of a row."""

_QUOTED = re.compile(r'[ \t]*"((?:[^"]|"")*)"[ \t]*')
_PLAIN = re.compile(r"[^,\r\n]*")
_END = re.compile(r"\r?\n|\r")


class Cell(Struct, frozen=True):
    """One cell: its text without quotes and the spaces around it, and its place."""

    text: str
    span: Span


def rows_of(source: Source) -> tuple[list[list[Cell]], Problem | None]:
    """Give the rows of a table that have a cell that is not empty; they end where one cannot be read."""
    rows: list[list[Cell]] = []
    row: list[Cell] = []
    at, text = 0, source.text
    while True:
        quoted = _QUOTED.match(text, at)
        found = quoted or _PLAIN.match(text, at)
        assert found is not None
        if not quoted and found[0].lstrip().startswith('"'):
            return rows, _unread(Span(source.name, at, found.end()), "a cell in quotes is not closed")
        row.append(_cell(source, at, found.end(), quoted[1].replace('""', '"') if quoted else found[0]))
        at = found.end()
        if text.startswith(",", at):
            at += 1
            continue
        end = _END.match(text, at)
        if end is None and at < len(text):
            return rows, _unread(row[-1].span, "more stands behind the quotes that close a cell")
        if any(cell.text for cell in row):
            rows.append(row)
        if len(row) > MOST_CELLS or len(rows) > MOST_ROWS:
            what = f"{MOST_CELLS} cells in a row" if len(row) > MOST_CELLS else f"{MOST_ROWS} rows"
            return rows, _unread(row[0].span.to(row[-1].span), f"a table of sizes has at most {what}")
        if end is None:
            return rows, None
        row, at = [], end.end()


def _cell(source: Source, start: int, end: int, text: str) -> Cell:
    typed = source.text[start:end]
    first = start + len(typed) - len(typed.lstrip())
    return Cell(" ".join(text.split()), Span(source.name, first, max(first, start + len(typed.rstrip()))))


def _unread(span: Span, message: str) -> Problem:
    return problem("E290", message, span, "not read from here on", help="Save the table again as CSV, with commas.")
