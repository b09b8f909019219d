"""Sheets row by row, held against the knitted rows: side, chart row, start, what is due, and stitches."""

from __future__ import annotations

import re
from collections.abc import Iterator
from operator import ge

from wale.prove.fabric import INC, LEFT_DEC, LEFT_INC, RIGHT_DEC, RIGHT_INC, Contradiction, Fabric, Finding, Row, insist
from wale.prove.facts import PrintedSheet

_BEGIN = re.compile(r"begin with ([0-9]+) sts;.*")
_LINE = re.compile(
    r"(?P<number>[0-9]+)(?: (?P<side>RS|WS))?: (?:(?P<part>left|right) side: )?"
    r"(?:plain|chart row (?P<row>[0-9]+)(?: from column (?P<start>[0-9]+))?)(?:; (?P<due>.+))?; (?P<count>[0-9]+) sts"
)
_DUE = re.compile(
    r"(?P<shape>increase|decrease) 1 st at (?P<edge>each|the left|the right) edge"
    r"|bind off (?P<bound>[0-9]+)(?: for the neck)?"
    r"|(?P<even>[0-9]+) sts (?P<way>more|fewer)|turn; (?P<wait>[0-9]+) sts wait at this end|(?P<close>close the turns)"
)
_EDGES = {"each": [1, 1], "the right": [1, 0], "the left": [0, 1]}


def check_sheet(sheet: PrintedSheet, fabric: Fabric) -> Iterator[Finding]:
    """Hold a sheet against a piece; the first line that differs is told."""
    line, number = sheet.begin, 0
    try:
        begin = _BEGIN.fullmatch(sheet.begin)
        insist(begin is not None and int(begin[1]) == fabric.cast_on, f"it begins with {fabric.cast_on} sts")
        insist(len(sheet.lines) == len(fabric.rows), f"there are {len(fabric.rows)} rows, not {len(sheet.lines)}")
        before: Row | None = None
        part, entered = "", 0
        whole = fabric.rows[0]
        for line, row in zip(sheet.lines, fabric.rows, strict=True):
            number = row.number
            told = _LINE.fullmatch(line)
            insist(told is not None, "it is no line of a sheet")
            assert told is not None
            part = told["part"] or part
            _row(told, part, row)
            is_first = before is not None and before.part != row.part
            due = _opened(told["due"] or "", row, fabric)
            change = _due(due, row, whole if is_first else before)
            if is_first:
                entered += row.stitches - change
            else:
                stitches = fabric.cast_on if before is None else before.stitches
                insist(row.stitches == stitches + change, f"{stitches} sts become {row.stitches}")
            before = row
            whole = whole if row.part else row
        insist(entered in (0, whole.stitches), f"{whole.stitches} sts are divided at the neck, not {entered}")
    except Contradiction as error:
        yield Finding(sheet.piece, sheet.size, number, line, str(error))


def _row(told: re.Match[str], part: str, row: Row) -> None:
    insist(int(told["number"]) == row.number, f"it is row {row.number}")
    insist((told["side"] or "round") == row.side, f"it is a {row.side} row")
    insist(part == row.part, f"it belongs to the {row.part or 'whole'} side")
    insist(int(told["row"] or 0) == row.chart_row, f"it is worked in row {row.chart_row} of its chart (0: plain)")
    insist(int(told["start"] or 0) == row.start, f"it starts at column {row.start} (0: not told)")
    insist(int(told["count"]) == row.stitches, f"there are {row.stitches} sts after it")


def _opened(due: str, row: Row, fabric: Fabric) -> str:
    """Check which openings a line says are due on a row, and give what else it says."""
    said = due.split(", ") if due else []
    for words, found in (("work a buttonhole", fabric.band_holes), ("open a pocket", fabric.insets)):
        is_due = row.number in [number for number, *_ in found]
        insist((words in said) == is_due, f"`{words}` is due on another row")
        said = [one for one in said if one != words]
    return ", ".join(said)


def _due(due: str, row: Row, before: Row | None) -> int:
    """Check what a line says is due, and give the stitches that it says come (or go, negative)."""
    change, turned, closed = 0, 0, False
    for words in re.split(r", (?=bind|turn;|close)", due) if due else ():
        told = _DUE.fullmatch(words)
        insist(told is not None, f"`{words}` is nothing that can be due")
        assert told is not None
        if told["shape"]:
            grows = told["shape"] == "increase"
            kinds = (INC, LEFT_INC, RIGHT_INC) if grows else (LEFT_DEC, RIGHT_DEC)
            half = len(row.ops) // 2
            edges = [sum(map(side.count, kinds)) for side in (row.ops[:half], row.ops[half:])]
            wanted = _EDGES[told["edge"]]
            # lace in a chart has such stitches of its own; how many go in all, the stitches after the row tell
            fits = edges == wanted or (row.chart and all(map(ge, edges, wanted)))
            insist(bool(fits), f"the row does not {told['shape']} at {told['edge']} edge")
            change += sum(wanted) if grows else -sum(wanted)
        elif told["bound"]:
            change -= int(told["bound"])
        elif told["even"]:
            change += int(told["even"]) * (1 if told["way"] == "more" else -1)
        else:
            turned, closed = turned or int(told["wait"] or 0), closed or bool(told["close"])
    waits, waited = _waits(row), _waits(before) if before is not None else (0, 0)
    ends = {"": (0, 1), "right": (0,), "left": (1,)}[row.part]
    more = [waits[end] for end in ends if waits[end] > waited[end]]
    insist(more == ([turned] if turned else []), f"{' and '.join(map(str, more)) or 'no'} sts wait from a turn")
    insist(closed == any(waits[end] < waited[end] for end in ends), "turns are closed on another row")
    return change


def _waits(row: Row) -> tuple[int, int]:
    return row.waiting, row.stitches - row.waiting - len(row.ops)
