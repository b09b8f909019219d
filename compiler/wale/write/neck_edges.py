"""How the edge of a neck is shaped where rows start at it, in words: bound off in steps, or decreased to a slope."""

from __future__ import annotations

from itertools import groupby

from wale.shaping.neck import slope_runs
from wale.write.context import Context
from wale.write.lines import Ordinal, Part, Sts, Times

INSIDE = 1
"""Stitches outside the decreases of a V, a firm edge to pick a band up along (common practice, no source)."""
DECREASES = {"RS": "ssk", "WS": "p2tog"}
"""Decreases that lean with the edge where rows start at it."""


def neck_edge(at: Context, side: str, first: int) -> list[Part]:
    """Tell what goes at the neck edge at the start of rows of a side; row `first` is the first that may be shaped."""
    top = at.piece.top
    assert top is not None
    steps = top.steps[at.size]
    if not any(steps):
        return []
    # nothing goes beside a placket
    beside = next(pair for pair, step in enumerate(steps) if step)
    steps, first = steps[beside:], first + 2 * beside
    if top.is_sloped:
        parts: list[Part] = [
            f"; at the start of {side} rows work ",
            INSIDE,
            f" edge st, {DECREASES[side]}: on row ",
            first,
        ]
        for interval, times in slope_runs(steps):
            parts += [", then on every ", Ordinal(interval), " row ", Times(times)]
        return parts
    parts = [f"; at the start of {side} rows, from row ", first, " on, bind off "]
    for number, (step, times) in enumerate((step, len(list(run))) for step, run in groupby(steps)):
        parts += ([", then "] if number else []) + [Sts(step), " ", Times(times)]
    return parts
