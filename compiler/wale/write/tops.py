"""Instruction lines of necks and shoulders, which interleave in the last rows of a piece.

Rows of the top are numbered from 1, a right-side row. Seen from the right side, the right shoulder's armhole edge is
where right-side rows start; the left shoulder's is where they end. Right-shoulder turns stand on wrong-side rows,
left-shoulder turns on the right-side rows after them. See docs/maths.md#top.
"""

from __future__ import annotations

from itertools import groupby

from wale.plan import Section
from wale.write.context import Context
from wale.write.lines import Line, Part, Sts, Times
from wale.write.neck_edges import neck_edge
from wale.write.sections import in_words, measured
from wale.write.side_edges import (
    End,
    decrease_words,
    side_bound,
    side_edge_line,
    side_gone,
    side_shaped,
    top_count,
    top_rows,
)

PLACKET = (
    "These sts are the foot of the placket. Beside it both sides are worked straight; the neck begins with the first "
    "shaping at their neck edges."
)


def top_lines(at: Context, section: Section) -> list[Line]:
    """Write neck and shoulders of a flat piece."""
    top, size = at.piece.top, at.size
    assert top is not None
    rows, neck, slope = top_rows(at), top.neck_rows[size], top.slope_rows[size]
    address = f"{at.piece.name}.top"
    first = rows - neck + 1
    assert top_count(at) == 2 * side_count(at) + top.centre[size], "neck and shoulders make the whole width"
    lines = [
        at.line(
            address,
            "Neck and shoulders",
            "the next row is row 1 (RS) of the top",
            *_chart_row(at, section, section.rows[size] - rows + 1),
            f"; keep on in {in_words(at, section)}.",
        )
    ]
    shoulders: list[Line] = []
    if slope and top.manner == "short rows":
        shoulders.append(_turns(at, address, rows - slope))
    elif slope:
        shoulders.append(_bind_off_steps(at, address, rows - slope))
    neck_row = _neck_row(at, address, first, rows)
    placket = [at.remark(f"{address}.placket", PLACKET)] if top.has_placket else []
    # In the order of the rows: shoulders that begin above the neck row are told after it.
    if first > 1:
        before = at.line(f"{address}.before", "", "Work rows 1 to ", first - 1, " with this shaping.")
        lines += [*shoulders, before, neck_row, *placket]
    else:
        lines += [neck_row, *placket, *shoulders]
    lines += _side(at, address, "left", "RS", first, rows)
    lines += _side(at, address, "right", "WS", first, rows)
    return [*lines, *measured(at, section)]


def _neck_row(at: Context, address: str, row: int, rows: int) -> Line:
    """The row that divides the work, as its shoulders let it be worked."""
    top, size = at.piece.top, at.size
    assert top is not None
    # Stitches that the right side has lost by then are no longer there to be worked.
    work = side_count(at) - stepped_off(at, "right", row, rows) - side_gone(at, "right", row)
    turning = bool(top.slope_rows[size]) and top.manner == "short rows" and rows - top.slope_rows[size] < row
    stepping = stepped_off(at, "right", row, rows) - stepped_off(at, "right", row - 1, rows)
    parts: list[Part] = ["on row ", row, ": "]
    if turning:
        parts += ["work until ", work, " sts are on the right needle (unworked ones counted)"]
    else:
        bound, shaped = side_bound(at, "right", row), side_shaped(at, "right", row)
        parts += ["bind off ", Sts(bound), ", "] if bound else [f"{decrease_words(at, 'right', 'RS')}, "] * shaped
        # what the decrease and the edge sts outside it make is not worked again
        work -= (at.edge + 1) * shaped
        parts += ["after the shoulder's bind-off work " if stepping else "work ", work, " sts"]
    parts += [", bind off the next ", Sts(top.centre[size]), ", work to the "]
    if side_shaped(at, "left", row):
        parts.append(f"last {at.edge + 2} sts, {decrease_words(at, 'left', 'RS')}.")
    else:
        parts.append("turn." if turning else "end of the row.")
    return at.line(f"{address}.neck", "Neck row (RS)", *parts)


def side_count(at: Context) -> int:
    """Give the stitches between the neck's centre and either side of the piece where the top begins."""
    top = at.piece.top
    assert top is not None
    return top.shoulder[at.size] + sum(top.steps[at.size]) + side_gone(at, "right", top_rows(at))


def stepped_off(at: Context, side: str, row: int, rows: int) -> int:
    """Give the stitches of a shoulder that are bound off in steps up to a row of the top."""
    top, size = at.piece.top, at.size
    assert top is not None
    if top.manner != "steps" or not top.slope_rows[size]:
        return 0
    begin = rows - top.slope_rows[size] + (2 if side == "left" else 1)
    return sum(top.groups[size][: max(0, (row - begin) // 2 + 1)])


def _chart_row(at: Context, section: Section, row: int) -> tuple[Part, ...]:
    if at.motif(section) is None:
        return ()
    return (", chart row ", at.chart_row(section, row))


def _turns(at: Context, address: str, start: int) -> Line:
    """The short rows of both shoulders."""
    assert at.piece.top is not None
    groups = at.piece.top.groups[at.size][:-1]
    parts: list[Part] = ["on the right shoulder at the end of row ", start, " (WS), on the left at the end of row "]
    parts += [start + 1, " (RS), leave the last ", groups[0], " sts unworked and turn"]
    later = [(size, len(list(run))) for size, run in groupby(groups[1:])]
    for group, times in later:
        parts += ["; then on every 2nd row leave ", Sts(group), " more ", Times(times)]
    return at.line(f"{address}.turns", "Short rows", *parts, ".")


def _bind_off_steps(at: Context, address: str, start: int) -> Line:
    """The shoulders bound off in steps."""
    assert at.piece.top is not None
    groups = at.piece.top.groups[at.size]
    parts: list[Part] = [
        "on the right shoulder at the start of row ",
        start + 1,
        " (RS), on the left at the start of row ",
    ]
    parts += [start + 2, " (WS), bind off ", Sts(groups[0])]
    later = [(size, len(list(run))) for size, run in groupby(groups[1:])]
    for group, times in later:
        parts += ["; then on every 2nd row bind off ", Sts(group), " ", Times(times)]
    return at.line(f"{address}.steps", "Shoulders", *parts, ".")


def _side(at: Context, address: str, name: End, row_side: str, neck_row: int, rows: int) -> list[Line]:
    """One side of the neck, worked by itself to the shoulder."""
    first = neck_row + (2 if name == "left" else 1)
    top = at.piece.top
    assert top is not None
    slot = f"{address}.{name}"
    if name == "left":
        begin: list[Part] = ["go on over the sts after the neck, the others wait"]
    else:
        begin = ["join the yarn at the neck edge with row ", first, " (WS)"]
    begin += neck_edge(at, row_side, first)
    last = rows + 1 if name == "left" else rows
    lines = [at.line(slot, f"{name.capitalize()} side", *begin, ".")]
    lines += side_edge_line(at, f"{slot}.edge", f"{name.capitalize()} side edge", name, neck_row)
    held = top.shoulder[at.size]
    if top.slope_rows[at.size] and top.manner == "short rows":
        text = f" ({row_side}), work all "
        tail = " sts, closing the turns; put them on a holder."
        lines.append(at.line(f"{slot}.close", "", "On row ", last, text, held, tail))
    elif top.slope_rows[at.size]:
        off = rows + (2 if name == "left" else 1)
        lines.append(at.remark(f"{slot}.off", "After row ", off, " all sts of this side are bound off; fasten off."))
    else:
        lines.append(at.line(f"{slot}.close", "", "After row ", rows, " put the ", held, " sts on a holder."))
    return lines
