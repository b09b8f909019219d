"""How large a motif may be, and sizes in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

MOST_STITCHES, MOST_ROWS = 200, 400


def counted(number: int, unit: Literal["st", "row"]) -> str:
    """Give a number of stitches or rows in words, such as `1 st` or `6 sts`."""
    return f"{number} {unit}{'s' if number != 1 else ''}"


def size_words(stitches: int, rows: int) -> str:
    """Give a motif's size as a `repeat` line has it, such as `6 sts, 1 row`."""
    return f"{counted(stitches, 'st')}, {counted(rows, 'row')}"


def crowding(row: Sequence[str]) -> tuple[str, ...]:
    """Give the yarns of a row beyond the two of the most stitches, the first of equals before the others."""
    yarns = sorted(dict.fromkeys(row), key=lambda yarn: -row.count(yarn))
    return tuple(yarns[2:])
