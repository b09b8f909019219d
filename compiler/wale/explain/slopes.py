"""Reasons of the decreases of a V neck."""

from __future__ import annotations

from collections.abc import Sequence

from wale.explain.book import Book, known
from wale.plan import Top
from wale.shaping.neck import slope_runs
from wale.source import Span
from wale.write.context import Context
from wale.write.neck_edges import INSIDE

SLOPE = "one stitch in the point, or two; decreases spread evenly, the closer ones first (docs/maths.md#v-neck)"


def slope_reasons(book: Book, at: Context, top: Top, spans: Sequence[Span]) -> None:
    """Tell the decreases of a V's side: the rows from one to the next, and how often."""
    size, name = at.size, f"{at.piece.name}.neck"
    pairs = known("pairs of rows for them", len(top.steps[size]), "pairs of rows")
    side = known(f"{name}.side", sum(top.steps[size]), "decreases a side")
    edge = {"inside": known("sts outside the decreases", INSIDE, "edge st")}
    book.reckon(f"{name}.inside", size, INSIDE, "sts", "{inside}", edge, spans=spans)
    least, rest = "floor(({pairs} - 1) / ({side} - 1))", "mod({pairs} - 1, {side} - 1)"
    for number, (interval, times) in enumerate(slope_runs(top.steps[size]), 1):
        wider = interval // 2 > (len(top.steps[size]) - 1) // (sum(top.steps[size]) - 1)
        given = {"pairs": pairs, "side": side}
        every = f"2 * {least}" + (" + 2" if wider else "")
        often = rest if wider else f"{{side}} - 1 - {rest}"
        rules = (SLOPE,)
        book.reckon(f"{name}.interval[{number}]", size, interval, "rows", every, given, spans=spans, rules=rules)
        book.reckon(f"{name}.interval[{number}].times", size, times, "times", often, given, spans=spans, rules=rules)
