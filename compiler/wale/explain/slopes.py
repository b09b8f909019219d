"""Reasons of the decreases of a V neck and of a scoop."""

from __future__ import annotations

from collections.abc import Sequence

from wale.actions import Neck
from wale.explain.book import Book, known
from wale.plan import Top
from wale.shaping.neck import slope_runs
from wale.source import Span
from wale.write.context import Context
from wale.write.neck_edges import INSIDE

SCOOP = "half of the neck in the centre; of a side half on every 2nd row, the others on every 4th (docs/maths.md#scoop)"
SLOPE = "one stitch in the point, or two; decreases spread evenly, the closer ones first (docs/maths.md#v-neck)"


def slope_reasons(book: Book, at: Context, top: Top, spans: Sequence[Span]) -> None:
    """Tell the decreases of a side: the rows from one to the next, and how often."""
    size, name = at.size, f"{at.piece.name}.neck"
    pairs = known("pairs of rows for them", len(top.own_steps(size)), "pairs of rows")
    side = known(f"{name}.side", sum(top.own_steps(size)), "decreases a side")
    edge = {"inside": known("sts outside the decreases", INSIDE, "edge st")}
    book.reckon(f"{name}.inside", size, INSIDE, "sts", "{inside}", edge, spans=spans)
    assert top.neck_step is not None and isinstance(top.neck_step.action, Neck)
    if top.neck_step.action.curve == "scoop":
        _scoop(book, at, top, spans)
        return
    least, rest = "floor(({pairs} - 1) / ({side} - 1))", "mod({pairs} - 1, {side} - 1)"
    for number, (interval, times) in enumerate(slope_runs(top.own_steps(size)), 1):
        wider = interval // 2 > (len(top.own_steps(size)) - 1) // (sum(top.own_steps(size)) - 1)
        given = {"pairs": pairs, "side": side}
        every = f"2 * {least}" + (" + 2" if wider else "")
        often = rest if wider else f"{{side}} - 1 - {rest}"
        rules = (SLOPE,)
        book.reckon(f"{name}.interval[{number}]", size, interval, "rows", every, given, spans=spans, rules=rules)
        book.reckon(f"{name}.interval[{number}].times", size, times, "times", often, given, spans=spans, rules=rules)


def _scoop(book: Book, at: Context, top: Top, spans: Sequence[Span]) -> None:
    """Tell the decreases of a scoop's side, those on every 2nd row and those on every 4th."""
    size, name = at.size, f"{at.piece.name}.neck"
    pairs = (max(1, top.depth_rows(size) - 2) - 1) // 2
    given = {
        "pairs": known("pairs of rows for them", pairs, "pairs of rows"),
        "side": known(f"{name}.side", sum(top.own_steps(size)), "decreases a side"),
    }
    quick = "max(ceil({side} / 2), 2 * {side} - {pairs})"
    for number, (interval, times) in enumerate(slope_runs(top.own_steps(size)), 1):
        every = {"every": known("rows from one to the next", interval, "rows on")}
        often = f"{quick} - 1" if interval == 2 else f"{{side}} - {quick}"
        book.reckon(f"{name}.interval[{number}]", size, interval, "rows", "{every}", every, spans=spans, rules=(SCOOP,))
        place = f"{name}.interval[{number}].times"
        book.reckon(place, size, times, "times", often, given, spans=spans, rules=(SCOOP,))
