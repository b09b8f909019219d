"""Motif rows: cells in columns, the rows of a wedge about its middle."""

from __future__ import annotations

from unicodedata import combining, east_asian_width

WIDEST, MOST = 8, 200
"""Marks of more columns, and rows of more cells, are not aligned; no motif is read with so many stitches."""


def cell_rows(rows: list[str], is_wedge: bool) -> list[str]:
    """Give the rows of one motif with their bars.

    Args:
        rows: what stands between the bars, the top row first.
        is_wedge: shorter rows are centred; else cells are counted from the left.
    """
    marks = [row.split() for row in rows]
    width = max((columns for row in marks for mark in row if (columns := _columns(mark)) <= WIDEST), default=1)
    most = max((len(row) for row in marks if len(row) <= MOST), default=0)
    return [f"| {_row(row, width, most, is_wedge)} |" for row in marks]


def _row(marks: list[str], width: int, most: int, is_wedge: bool) -> str:
    if len(marks) > MOST:
        return " ".join(marks)
    missing = (most - len(marks)) * (width + 1)
    before = missing // 2 if is_wedge else 0
    cells = " ".join(mark + " " * (width - _columns(mark)) for mark in marks)
    return " " * before + cells + " " * (missing - before)


def _columns(mark: str) -> int:
    """Give the columns that a mark takes on a page of equal widths. Source: Unicode Standard Annex 11."""
    return sum(0 if combining(sign) else 2 if east_asian_width(sign) in "WF" else 1 for sign in mark)
