"""Every row of a piece in one size: side, stitches after it, chart row, and where it starts in the chart."""

from __future__ import annotations

from msgspec import Struct

from wale.plan import COURSED, Section
from wale.write.context import Context
from wale.write.courses import course_rows
from wale.write.half_tops import last_row, neck_gone, shoulder_gone
from wale.write.side_edges import ENDS, End, below_top, side_gone, top_count, top_rows
from wale.write.tops import side_count, stepped_off


class Row(Struct, frozen=True):
    """One row.

    Attributes:
        number: from 1 over the whole piece.
        section: address of its section; rows of neck and shoulders have `piece.top.left` or `.right` once divided.
        side: "RS", "WS" or "round".
        stitches: on the needle after it, short-row stitches that wait included.
        chart_row: from 1, None where plain.
        worked: stitches that a course works on it; None elsewhere.
        waiting: of those on the needle, how many at the right end it does not work.
        column: chart column (from 1) of its first motif stitch (after the row's own shaping), None where plain or
            divided.
    """

    number: int
    section: str
    side: str
    stitches: int
    chart_row: int | None = None
    column: int | None = None
    worked: int | None = None
    waiting: int = 0


def shaping_rows(at: Context, section: Section) -> tuple[tuple[int, int], ...]:
    """Give (row of the section, stitches after it) of each shaping row of a shape that lies below the neck."""
    change = at.each_shaping(section)
    start = at.first_count(section)
    rows = section.schedules[at.size].up_to(below_top(at, section)).rows()
    return tuple((row, start + change * number) for number, row in enumerate(rows, 1))


def piece_rows(at: Context) -> tuple[Row, ...]:
    """Expand a piece to its rows, bind-offs apart."""
    rows: list[Row] = []
    piece = at.piece
    for index, section in enumerate(piece.sections):
        start = len(rows)
        if section.kind in COURSED:
            rows += [
                Row(start + place, section.address, one.side, one.after, worked=one.worked, waiting=one.waiting)
                for place, one in enumerate(course_rows(at, section), 1)
            ]
            continue
        total = section.rows[at.size]
        counts = _counts(at, section)
        for row in range(1, below_top(at, section) + 1):
            side = "round" if piece.in_round else ("RS" if (start + row) % 2 else "WS")
            rows.append(_row(at, section, start + row, row, side, counts[row - 1]))
        if piece.top is not None and index == len(piece.sections) - 1:
            top = _top if piece.half is None else _half_top
            rows += top(at, section, len(rows) + 1, total - top_rows(at))
    return tuple(rows)


def _counts(at: Context, section: Section) -> list[int]:
    total, first = section.rows[at.size], at.first_count(section)
    counts = [first] * total
    if section.kind == "shape":
        for row, after in shaping_rows(at, section):
            counts[row - 1 :] = [after] * (total - row + 1)
    elif section.kind == "bound":
        counts = [first - at.bound_at(section, 1), at.last_count(section)]
    elif section.kind == "crown" and at.piece.crown is not None:
        crown = at.piece.crown
        changes = list(crown.decrease_rounds[at.size])
        if first != crown.start[at.size]:
            changes.insert(0, (1, crown.start[at.size]))
        for row, after in changes:
            counts[row - 1 :] = [after] * (total - row + 1)
    elif section.even_change is not None and counts:
        counts[-1] = at.last_count(section)
    return counts


def _row(at: Context, section: Section, number: int, row: int, side: str, after: int) -> Row:
    if at.motif(section) is None or section.kind == "crown":
        return Row(number, section.address, side, after)
    # An even change to the next fabric is plain; a shaping row's own stitches already stand at their new columns.
    count = at.first_count(section) if section.even_change is not None else after
    if section.kind == "bound" and row == 1:
        return Row(number, section.address, side, after, at.chart_row(section, row), at.column_after_binding(section))
    right, wrong = at.start_columns(section, count)
    return Row(number, section.address, side, after, at.chart_row(section, row), wrong if side == "WS" else right)


def _half_top(at: Context, section: Section, number: int, done: int) -> list[Row]:
    """Rows of the neck and shoulder of a half piece."""
    assert at.piece.half is not None
    side, count, is_plain = at.piece.half.side, top_count(at), at.motif(section) is None
    return [
        Row(
            number + row - 1,
            f"{at.piece.name}.top",
            "RS" if row % 2 else "WS",
            count - neck_gone(at, row) - shoulder_gone(at, row) - side_gone(at, side, row),
            None if is_plain else at.chart_row(section, done + row),
        )
        for row in range(1, last_row(at) + 1)
    ]


def _top(at: Context, section: Section, number: int, done: int) -> list[Row]:
    """Rows of neck and shoulders: across, then the left side, then the right side."""
    top, size = at.piece.top, at.size
    assert top is not None
    total, name = top_rows(at), at.piece.name
    first = total - top.neck_rows[size] + 1
    whole, half = top_count(at), side_count(at)
    plain = at.motif(section) is None

    def chart(row: int) -> int | None:
        return None if plain else at.chart_row(section, done + row)

    rows = []
    for row in range(1, first + 1):
        after = whole if row < first else 2 * half
        after -= sum(stepped_off(at, end, row, total) + side_gone(at, end, row) for end in ENDS)
        rows.append(Row(number + row - 1, f"{name}.top", "RS" if row % 2 else "WS", after, chart(row)))
    closing = {"steps": (2, 1), "short rows": (1, 0)}[top.manner] if top.slope_rows[size] else (0, 0)
    sides: tuple[tuple[End, int, int], ...] = (
        ("left", first + 2, total + closing[0]),
        ("right", first + 1, total + closing[1]),
    )
    for side, begin, end in sides:
        left = half
        steps = iter(top.steps[size])
        for row in range(first + 1, end + 1):
            if row >= begin and (row - begin) % 2 == 0:
                left -= next(steps, 0)
            after = left - stepped_off(at, side, row, total) - side_gone(at, side, row)
            rows.append(Row(number + row - 1, f"{name}.top.{side}", "RS" if row % 2 else "WS", after, chart(row)))
    return rows
