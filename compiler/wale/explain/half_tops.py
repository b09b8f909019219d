"""Reasons of the neck and shoulder of a half piece, and of the chart row on which any top begins."""

from __future__ import annotations

from collections.abc import Sequence

from wale.explain.book import Book, known
from wale.explain.even import runs
from wale.explain.reason import Input
from wale.explain.slopes import slope_reasons
from wale.plan import Top
from wale.source import Span
from wale.write.context import Context
from wale.write.half_tops import last_row, late, neck_row, slope_row
from wale.write.side_edges import below_top, top_rows, top_section

HALF = "the neck of both halves and what lies between them runs like that of one piece (docs/maths.md#halves)"
LATE = "the half on which rows start at the neck on the right side is worked a row later (docs/maths.md#halves)"


def half_neck_reasons(book: Book, at: Context, top: Top) -> None:
    """Tell what is bound off at first, and each step."""
    assert top.neck_step is not None
    size, name, spans = at.size, f"{at.piece.name}.neck", (top.neck_step.action.span,)
    steps, side = top.steps[size], sum(top.steps[size])
    given = {
        "sts": known(f"{name}.stitches", top.neck[size], "sts of half the neck"),
        "side": known(f"{name}.side", side, "sts in steps"),
    }
    book.reckon(f"{name}.side", size, side, "sts", "{side}", {"side": given["side"]}, spans=spans, rules=(HALF,))
    book.reckon(f"{name}.centre", size, top.centre[size], "sts", "{sts} - {side}", given, spans=spans, rules=(HALF,))
    if top.is_sloped:
        slope_reasons(book, at, top, spans)
        return
    for number, (step, times) in enumerate(runs(steps), 1):
        one = {"step": Input("step of the curve", step, f"{step} sts a step")}
        book.reckon(f"{name}.step[{number}]", size, step, "sts", "{step}", one, spans=spans, rules=(HALF,))
        often = {"times": Input("equal steps", times, f"{times} in a row")}
        book.reckon(f"{name}.step[{number}].times", size, times, "times", "{times}", often, spans=spans)


def half_place_reasons(book: Book, at: Context, top: Top) -> None:
    """Tell the rows of the top on which a half's neck and shoulder stand."""
    assert top.neck_step is not None and top.shoulder_step is not None
    size, piece, name = at.size, at.piece.name, f"{at.piece.name}.top"
    spans = (top.neck_step.action.span, top.shoulder_step.action.span)
    rows, slope = top_rows(at), top.slope_rows[size]
    depth = known(f"{piece}.neck.rows", top.neck_rows[size], "neck rows")
    drop = known(f"{piece}.shoulders.rows", slope, "rows of slope")
    template = "max({depth}, {drop}) + 2" if slope else "{depth} + 2"
    book.reckon(f"{name}.rows", size, rows, "rows", template, {"depth": depth, "drop": drop}, spans=spans)
    height = known(f"{name}.rows", rows, "rows of the top")
    later, rules = known("rows later", late(at), "row later"), (LATE,)

    def row(label: str, value: int, template: str, **given: Input) -> None:
        whole = {"all": height, "late": later, **given}
        book.reckon(f"{name}.{label}", size, value, "row", template, whole, spans=spans, rules=rules)

    row("neck-row", neck_row(at), "{all} - {depth} + {late}", depth=depth)
    row("step-row", neck_row(at) + 2, "{all} - {depth} + {late} + 2", depth=depth)
    if slope:
        row("turn-row", slope_row(at), "{all} - {drop} + {late}", drop=drop)
        row("off-row", slope_row(at) + 1, "{all} - {drop} + {late} + 1", drop=drop)
        row("last", last_row(at), "{all} + {late}")
        row("off", last_row(at) + 1, "{all} + {late} + 1")
    else:
        book.reckon(f"{name}.last", size, rows, "row", "{all}", {"all": height}, spans=spans)
    chart_row_reason(book, at, spans)


def chart_row_reason(book: Book, at: Context, spans: Sequence[Span]) -> None:
    """Tell the chart row on which the top begins."""
    size, name = at.size, f"{at.piece.name}.top"
    section = top_section(at)
    motif = at.motif(section)
    if motif is None:
        return
    start = below_top(at, section) + 1
    chart = {
        "start": known(f"{section.address}.chart-first", at.chart_row(section, 1), "as first chart row"),
        "rows": known(f"{section.address}.plain", start - 1, "rows below"),
        "period": known(
            f"rows of {motif.name}", motif.charted(at.piece.in_round), f"chart rows of {motif.name}", motif.span
        ),
    }
    template = "mod({start} - 1 + {rows}, {period}) + 1"
    book.reckon(f"{name}.chart-row", size, at.chart_row(section, start), "row", template, chart, spans=spans)
