"""The words for a left-handed knitter, as the machine takes them: with left and right exchanged.

A left-handed knitter works each right-side row from its left end to its right end, and everything else as in a mirror:
what comes off the needles is the mirror image of what the machine knits from the same words with left and right
exchanged. So a piece that the machine knits from them agrees with the plan exactly where the left hand's piece is the
plan's mirror image. Stitches that are named by what is done (k2tog, ssk) keep their names, and lean the other way;
columns of charts count from where right-side rows begin, with either hand. Cables are named by how they lean.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal

from msgspec.structs import replace

from wale.prove import words
from wale.prove.fabric import Row
from wale.prove.facts import PrintedSheet, PrintedTable, PrintedWhole
from wale.prove.hand_words import Do, Group, HandLine, HandRow, Work
from wale.prove.words import Instruction, Repeat, Stitches

_LEANING = {"m1L": "m1R", "m1R": "m1L"}
"""Stitches whose names say how they lean."""
_OTHER: dict[str, Literal["left", "right"]] = {"left": "right", "right": "left"}
_PART = re.compile(r"(?<=: )(left|right)(?= side: )|\b(left|right)(?= edge\b)")
_NAME = re.compile(r"(?<![\w.-])\w+(?:-\w+)+(?![\w-]|\.\w)")
"""A name of several words that is no address."""
_MADE = re.compile(r"m1[LR](?= in )")
_CABLE = re.compile(r"(?<=cable )([2468]) (left|right)")


def is_left_handed(lines: Iterable[Instruction | HandLine]) -> bool:
    """Whether more of a piece's lines on neck and shoulders are for the left hand than for the right.

    The side worked first, the needle that fills, and the shoulder at which right-side rows begin tell it.
    """
    told: list[bool] = []
    sides: list[str] = []
    for line in lines:
        match line:
            case words.NeckSide():
                sides.append(line.name)
            case words.NeckRow(counted="left" | "right"):
                told.append(line.counted == "left")
            case words.ShoulderRows():
                told.append((line.left_side == "WS") is line.turns)
    told += [name == "right" for name in sides[:1]]
    return 2 * sum(told) > len(told)


def mirrored_row(row: Row) -> Row:
    """Give a knitted row with the sides of its neck exchanged."""
    return replace(row, part=_OTHER.get(row.part, ""))


def mirrored(line: Instruction | HandLine) -> Instruction | HandLine:
    """Give a line with left and right exchanged; twice is the line itself."""
    match line:
        case HandRow():
            return replace(line, works=_works(line.works))
        case words.ShoulderRows():
            return replace(line, right=line.left, right_side=line.left_side, left=line.right, left_side=line.right_side)
        case words.NeckSide():
            return replace(line, name=_OTHER[line.name])
        case words.SideEdge():
            return replace(line, name=_OTHER[line.name]) if line.name else line
        case words.NeckRow():
            return replace(line, counted=_OTHER.get(line.counted, ""))
        case words.ShapingRow():
            return replace(line, start=_LEANING.get(line.start, line.start), end=_LEANING.get(line.end, line.end))
        case words.EvenRow():
            return replace(line, stitches=_stitches(line.stitches))
        case words.Refer():
            return replace(line, piece=other_name(line.piece))
        case words.PickUp():
            return replace(line, picked=tuple((count, other_name(edge)) for count, edge in line.picked))
        case words.Gather():
            return replace(line, taken=tuple((count, other_name(piece)) for count, piece in line.taken))
        case words.DecreaseRound():
            return replace(line, shaped=_LEANING.get(line.shaped, line.shaped))
        case _:
            return line


def other_name(text: str) -> str:
    """Exchange the sides in names of pieces: the left front of a garment is the right one of its mirror image."""
    return _NAME.sub(lambda name: "-".join(_OTHER.get(word, word) for word in name[0].split("-")), text)


def mirrored_table(table: PrintedTable) -> PrintedTable:
    """Give a table with the sides in names of pieces exchanged."""
    rows = tuple((other_name(heading), cells) for heading, cells in table.rows)
    return replace(table, rows=rows, pieces=tuple(map(other_name, table.pieces)))


def _stitches(stitches: Stitches) -> Stitches:
    return tuple(
        Repeat(_stitches(one.stitches), one.times)
        if isinstance(one, Repeat)
        else replace(one, work=_LEANING.get(one.work, one.work))
        for one in stitches
    )


def _works(works: tuple[Work, ...]) -> tuple[Work, ...]:
    leans = {one.lower(): other.lower() for one, other in _LEANING.items()}
    return tuple(
        replace(one, works=_works(one.works))
        if isinstance(one, Group)
        else replace(one, work=leans.get(one.work, one.work))
        if isinstance(one, Do)
        else one
        for one in works
    )


def mirrored_sheet(sheet: PrintedSheet) -> PrintedSheet:
    """Give a sheet row by row with the sides of its neck, of edges and in its piece's name exchanged."""
    return replace(
        sheet,
        piece=other_name(sheet.piece),
        lines=tuple(_PART.sub(lambda found: _OTHER[found[0]], line) for line in sheet.lines),
    )


def mirrored_chart(words: Iterable[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """Give a chart's words with the leans of its cables exchanged."""
    return tuple((label, _CABLE.sub(lambda found: f"{found[1]} {_OTHER[found[2]]}", text)) for label, text in words)


def mirrored_whole(chart: PrintedWhole) -> PrintedWhole:
    """Give a chart of every stitch, whose rows are from the left, from the right, with leans exchanged."""
    rows = tuple(tuple(_MADE.sub(lambda found: _LEANING[found[0]], cell) for cell in row) for row in chart.rows)
    return replace(chart, piece=other_name(chart.piece), rows=rows)
