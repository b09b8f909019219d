"""E401: a side of a neck on which fewer stitches are left than the decreases of one of its rows take.

What: beside a neck that begins among the armholes' decreases, or a V or scoop that goes up to narrow shoulders, a row
works a decrease inside its edge stitches at either end, each two stitches and its edge.
Why: on fewer stitches the two decreases would take the same ones.
Example: 5 sts, decreased inside 1 edge st at both ends, which take 6. Instead: a narrower neck or a wider back.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate

from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.spec import Spec
from wale.write import half_tops
from wale.write.context import Context
from wale.write.neck_edges import INSIDE
from wale.write.side_edges import ENDS, End, side_gone, side_shaped, top_rows
from wale.write.tops import side_count, stepped_off

DECREASED = 2
"""Stitches that a decrease works to one."""


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at the sides of each neck; the first row of a piece that is too narrow is told."""
    problems = []
    for piece in plan.pieces:
        contexts = (Context(spec, plan, piece, size) for size in range(len(plan.sizes)))
        found = next((one for at in contexts if (one := _narrow(at)) is not None), None)
        if found is not None:
            problems.append(found)
    return problems


def _narrow(at: Context) -> Problem | None:
    top = at.piece.top
    if top is None or top.neck_step is None:
        return None
    for row, taken, left in _rows(at):
        if left < taken:
            size = at.plan.sizes[at.size]
            sts = "st is" if left == 1 else "sts are"
            message = (
                f"row {row} of the top of {at.piece.name} decreases over {taken} sts, and {left} {sts} left of a side"
            )
            help = "Make the neck narrower or less deep, or the piece wider there; or shape the armholes by less."
            return Problem("E401", message, (Label(top.neck_step.action.span, "this neck"),), help, size=size)
    return None


def _rows(at: Context) -> Iterator[tuple[int, int, int]]:
    """Give each row of the sides that decreases: itself, the stitches that its decreases take, and those to work."""
    top, half = at.piece.top, at.piece.half
    assert top is not None
    rows = top_rows(at)
    gone = (0, *accumulate(top.steps[at.size]))
    begin = rows - top.neck_rows[at.size] + 3 if half is None else half_tops.neck_row(at) + 2
    for end in ENDS:
        if half is not None and half.side != end:
            continue
        # the right side of a whole piece is worked a row ahead of the left one
        first = begin - (half is None and end == "right")
        for row in range(first, rows + 1):
            pair, odd = divmod(row - first, 2)
            shaped = top.is_sloped and not odd and pair < len(top.steps[at.size]) and top.steps[at.size][pair]
            taken = (INSIDE + DECREASED if shaped else 0) + (at.edge + DECREASED if side_shaped(at, end, row) else 0)
            if taken:
                yield row, taken, _left(at, end, row, gone[min((row - 1 - first) // 2 + 1, len(gone) - 1)])


def _left(at: Context, end: End, row: int, gone: int) -> int:
    """Give the stitches of a side that are worked on a row, as the row before leaves them."""
    top, rows = at.piece.top, top_rows(at)
    assert top is not None
    if at.piece.half is not None:
        off = half_tops.shoulder_gone(at, row - 1) + half_tops.waiting(at, row - 1)
        whole = top.shoulder[at.size] + sum(top.steps[at.size]) + side_gone(at, end, rows)
    else:
        off, whole = stepped_off(at, end, row - 1, rows) + _waiting(at, end, row - 1), side_count(at)
    return whole - gone - off - side_gone(at, end, row - 1)


def _waiting(at: Context, end: End, row: int) -> int:
    """Give the stitches of a shoulder that short rows leave unworked up to a row."""
    top = at.piece.top
    assert top is not None
    if top.manner != "short rows" or not top.slope_rows[at.size]:
        return 0
    start = top_rows(at) - top.slope_rows[at.size] + (end == "left")
    return sum(top.groups[at.size][:-1][: max(0, (row - start) // 2 + 1)])
