"""What goes at the sides of a piece in the rows of its top: a neck may begin before its armholes are shaped.

Rows of the top are numbered from 1, a right-side row; what lies below it is told with its section, what lies within it
is told beside the neck, for the knitter works both at the same time.
"""

from __future__ import annotations

from itertools import groupby, pairwise
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.plan import Section
from wale.write.context import Context
from wale.write.lines import Line, Ordinal, Part, Sts, Times

End = Literal["right", "left"]
ENDS: tuple[End, End] = ("right", "left")
SIDE_EDGE: dict[tuple[End, str], tuple[bool, str]] = {
    ("right", "RS"): (True, "ssk"),
    ("right", "WS"): (False, "ssp"),
    ("left", "RS"): (False, "k2tog"),
    ("left", "WS"): (True, "p2tog"),
}
"""By the end of a row as seen from the right side, and the row's side: whether rows start there, and the decrease."""


class SideWork(Struct, frozen=True):
    """The rows of the top on which one section changes one side, by `each` st; or after one of which it is marked."""

    rows: tuple[int, ...]
    each: int
    kind: Literal["bound", "shape", "mark"]
    mark: str = ""

    @property
    def then(self) -> tuple[tuple[int, int], ...]:
        """Give how its rows follow the first one: (rows from one to the next, times), neighbours different."""
        gaps = groupby(later - row for row, later in pairwise(self.rows))
        return tuple((gap, len(list(run))) for gap, run in gaps)


def top_rows(at: Context) -> int:
    """Rows of a piece that belong to neck and shoulders, from a right-side row on; they may begin in any section."""
    top = at.piece.top
    if top is None:
        return 0
    slope, neck = top.slope_rows[at.size], top.neck_rows[at.size]
    # the neck of a half piece may begin a row lower, on a wrong-side row
    return max(neck if at.piece.half is None else neck + 2, slope + 2 if slope else 0)


def begins_in_top(at: Context, section: Section) -> int:
    """Give the row of the top, from 1, that a section's first row is; 0 or less where it begins below the top."""
    index = at.piece.sections.index(section)
    return at.piece.rows_to(index, at.size) - at.piece.total_rows(at.size) + top_rows(at) + 1


def below_top(at: Context, section: Section) -> int:
    """Give the rows of a section that lie below the top."""
    rows = section.rows[at.size]
    return rows if at.piece.top is None else max(0, min(rows, 1 - begins_in_top(at, section)))


def is_cut(at: Context, section: Section) -> bool:
    """Say whether in some size a section, not the last, goes on into the top."""
    if section is at.piece.sections[-1]:
        return False
    sizes = range(len(at.plan.sizes))
    return any(below_top(replace(at, size=size), section) < section.rows[size] for size in sizes)


def top_section(at: Context) -> Section:
    """Give the section in which the top begins."""
    return next(one for one in at.piece.sections if begins_in_top(at, one) + one.rows[at.size] > 1)


def side_works(at: Context, end: End, after: int = 0) -> tuple[SideWork, ...]:
    """Give what goes at one end of the rows of the top above its row `after`, in order."""
    half, found = at.piece.half, []
    if half is not None and half.side != end:
        return ()
    for section in at.piece.sections:
        kind, first = section.kind, begins_in_top(at, section)
        if kind == "shape":
            found.append(SideWork(tuple(first + row - 1 for row in section.schedules[at.size].rows()), 1, kind))
        elif kind == "bound":
            found.append(SideWork((first if end == "right" else first + 1,), at.bound_off(section), kind))
    found += [SideWork((row,), 0, "mark", name) for name, row in marks_in_top(at)]
    above = (replace(one, rows=tuple(row for row in one.rows if row > after)) for one in found)
    return tuple(sorted((one for one in above if one.rows), key=lambda one: one.rows[0]))


def marks_in_top(at: Context) -> list[tuple[str, int]]:
    """Give the named places that lie above a row of the top, each with that row."""
    below = at.piece.total_rows(at.size) - top_rows(at)
    return [(name, rows[at.size] - below) for name, rows in at.piece.marks if rows[at.size] > below]


def is_straight(at: Context) -> bool:
    """Whether nothing goes at the sides of the top, which then lies in a last section that works even."""
    last = at.piece.sections[-1]
    return last.kind not in ("shape", "bound") and last.rows[at.size] >= top_rows(at)


def side_gone(at: Context, end: End, row: int) -> int:
    """Give the stitches that have gone at one side from the first row of the top up to one of its rows."""
    if is_straight(at):
        return 0
    return sum(one.each * sum(place <= row for place in one.rows) for one in side_works(at, end))


def side_shaped(at: Context, end: End, row: int) -> bool:
    """Say whether a row of the top is decreased at one side."""
    return not is_straight(at) and any(row in one.rows and one.kind == "shape" for one in side_works(at, end))


def side_bound(at: Context, end: End, row: int) -> int:
    """Give the stitches that a row of the top binds off at one side."""
    if is_straight(at):
        return 0
    return sum(one.each for one in side_works(at, end) if one.kind == "bound" and row in one.rows)


def top_count(at: Context) -> int:
    """Give the stitches with which the top begins."""
    last = at.piece.levels[-1].counts[at.size]
    return last + sum(side_gone(at, end, top_rows(at)) for end in ENDS)


def side_edge_line(at: Context, slot: str, lead: str, end: End, after: int) -> list[Line]:
    """Tell what goes at one side after a row of the top."""
    works = side_works(at, end, after)
    if not works:
        return []
    parts: list[Part] = ["at the same time, "]
    for number, work in enumerate(works):
        parts += ["; then "] if number else []
        parts += _clause(at, end, work)
    return [at.line(slot, lead, *parts, ".")]


def _clause(at: Context, end: End, work: SideWork) -> list[Part]:
    rows = work.rows
    if work.kind == "mark":
        return ["after row ", rows[0], f" mark it: {work.mark}"]
    if work.kind == "bound":
        return ["at the start of row ", rows[0], f" ({side_of(rows[0])}) bind off ", Sts(work.each)]
    sides = sorted({side_of(row) for row in rows})
    parts: list[Part] = [" and ".join(_decrease(at, end, side) for side in sides), ": on row ", rows[0]]
    for interval, times in work.then:
        parts += [", then on every ", Ordinal(interval), " row ", Times(times)]
    return parts


def _decrease(at: Context, end: End, side: str) -> str:
    where = "start" if SIDE_EDGE[end, side][0] else "end"
    return f"at the {where} of {side} rows work {decrease_words(at, end, side)}"


def decrease_words(at: Context, end: End, side: str) -> str:
    """Say a decrease inside the edge stitches, in working order."""
    starts, decrease = SIDE_EDGE[end, side]
    edge = [f"{at.edge} edge {'st' if at.edge == 1 else 'sts'}"] if at.edge else []
    return ", ".join([*edge, decrease] if starts else [decrease, *edge])


def side_of(row: int) -> str:
    """Give the side of a row of the top."""
    return "RS" if row % 2 else "WS"
