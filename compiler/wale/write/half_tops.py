"""Neck and shoulder of a half piece, in the last rows of the piece.

Rows of the top are numbered from 1, a right-side row. The neck is bound off where rows start at the opening: on
wrong-side rows of the left half, on the right-side rows after them of the right one. So each half is worked as the
mirror image of the other, the right one a row later. See docs/maths.md#halves.
"""

from __future__ import annotations

from itertools import groupby
from typing import Literal

from wale.plan import Section
from wale.write.context import Context
from wale.write.lines import Line, Part, Sts, Times
from wale.write.neck_edges import neck_edge
from wale.write.sections import in_words, measured
from wale.write.side_edges import side_edge_line, top_rows

Side = Literal["RS", "WS"]


def late(at: Context) -> int:
    """Give by how many rows a half is worked later than the left one."""
    assert at.piece.half is not None
    return int(at.piece.half.hand == "right")


def sides(at: Context) -> tuple[Side, Side]:
    """Give the side of rows that start at the opening, and of those that start at the side edge."""
    return ("RS", "WS") if late(at) else ("WS", "RS")


def neck_row(at: Context) -> int:
    """Give the row of the top on which the neck begins."""
    assert at.piece.top is not None
    return top_rows(at) - at.piece.top.neck_rows[at.size] + late(at)


def slope_row(at: Context) -> int:
    """Give the row of the top on which the shoulder turns first; it is bound off first on the row after it."""
    assert at.piece.top is not None
    return top_rows(at) - at.piece.top.slope_rows[at.size] + late(at)


def last_row(at: Context) -> int:
    """Give the last row of the top."""
    top = at.piece.top
    assert top is not None
    return top_rows(at) + (late(at) if top.slope_rows[at.size] else 0)


def neck_gone(at: Context, row: int) -> int:
    """Give the stitches bound off for the neck up to a row of the top."""
    top, begin = at.piece.top, neck_row(at)
    assert top is not None
    return 0 if row < begin else top.centre[at.size] + sum(top.steps[at.size][: (row - begin) // 2])


def shoulder_gone(at: Context, row: int) -> int:
    """Give the stitches of a shoulder bound off in steps up to a row of the top."""
    top = at.piece.top
    assert top is not None
    if top.manner != "steps" or not top.slope_rows[at.size]:
        return 0
    return sum(top.groups[at.size][: max(0, (row - slope_row(at) - 1) // 2 + 1)])


def waiting(at: Context, row: int) -> int:
    """Give the stitches that short rows leave unworked at the side on a row of the top."""
    top = at.piece.top
    assert top is not None
    if top.manner != "short rows" or not top.slope_rows[at.size] or row >= last_row(at):
        return 0
    return sum(top.groups[at.size][:-1][: max(0, (row - slope_row(at)) // 2 + 1)])


def half_top_lines(at: Context, section: Section) -> list[Line]:
    """Write neck and shoulder of a half piece."""
    top, size, address = at.piece.top, at.size, f"{at.piece.name}.top"
    assert top is not None
    begins = section.rows[size] - top_rows(at) + 1
    chart: tuple[Part, ...] = () if at.motif(section) is None else (", chart row ", at.chart_row(section, begins))
    half = at.piece.half
    assert half is not None
    text = f"; keep on in {in_words(at, section)}."
    lines = [at.line(address, "Neck and shoulder", "the next row is row 1 (RS) of the top", *chart, text)]
    shoulder = _shoulder(at, address)
    told = [(neck_row(at), _neck(at, address)), *([(slope_row(at), shoulder)] if shoulder is not None else [])]
    lines += [line for _, line in sorted(told, key=lambda one: one[0])]
    lines[2:2] = side_edge_line(at, f"{address}.edge", "Side edge", half.side, 0)
    return [*lines, _end(at, address), *measured(at, section)]


def _neck(at: Context, address: str) -> Line:
    top, row, side = at.piece.top, neck_row(at), sides(at)[0]
    assert top is not None
    parts: list[Part] = ["at the start of row ", row, f" ({side}) bind off ", Sts(top.centre[at.size])]
    parts += neck_edge(at, side, row + 2)
    return at.line(f"{address}.neck", "Neck edge", *parts, ".")


def _shoulder(at: Context, address: str) -> Line | None:
    top, row, (far, near) = at.piece.top, slope_row(at), sides(at)
    assert top is not None
    if not top.slope_rows[at.size]:
        return None
    groups = top.groups[at.size]
    if top.manner == "short rows":
        first: list[Part] = ["at the end of row ", row, f" ({far}) leave the last ", Sts(groups[0])]
        first.append(" unworked and turn")
        words, more, slot, lead, groups = "; then on every 2nd row leave ", " more ", "turns", "Short rows", groups[:-1]
    else:
        first = ["at the start of row ", row + 1, f" ({near}) bind off ", Sts(groups[0])]
        words, more, slot, lead = "; then on every 2nd row bind off ", " ", "steps", "Shoulder"
    for group, times in [(size, len(list(run))) for size, run in groupby(groups[1:])]:
        first += [words, Sts(group), more, Times(times)]
    return at.line(f"{address}.{slot}", lead, *first, ".")


def _end(at: Context, address: str) -> Line:
    top = at.piece.top
    assert top is not None
    held, row = top.shoulder[at.size], last_row(at)
    if not top.slope_rows[at.size]:
        return at.line(f"{address}.close", "", "After row ", row, " put the ", held, " sts on a holder.")
    if top.manner == "short rows":
        text = f" ({sides(at)[0]}), work all "
        return at.line(
            f"{address}.close", "", "On row ", row, text, held, " sts, closing the turns; put them on a holder."
        )
    return at.remark(f"{address}.off", "After row ", row + 1, " all sts are bound off; fasten off.")
