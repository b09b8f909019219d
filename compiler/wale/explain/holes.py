"""Reasons of the buttonholes of a band: how wide, on which row, and how far apart."""

from __future__ import annotations

from wale.explain.book import Book, known
from wale.explain.even import runs
from wale.explain.reason import Input
from wale.plan import BandPlan
from wale.shaping.collar import LAST
from wale.spec import Band

SPREAD = "what is left lies between the holes, equal stretches together (docs/maths.md#buttonholes)"


def hole_reasons(book: Book, size: int, band: Band, plan: BandPlan) -> None:
    """Tell the numbers of the rows on which buttonholes are bound off and closed."""
    holes, name = band.buttonholes, f"{plan.name}.holes"
    assert holes is not None
    spans, gaps, total = (holes.span,), plan.holes[size], plan.stitches[size]
    each = Input("sts of a buttonhole", holes.each, f"{holes.each} sts of a buttonhole", holes.span)
    number = Input("buttonholes", holes.number, f"{holes.number} buttonholes", holes.span)
    sts = known(f"{plan.name}.stitches", total, "sts")
    collar, below = plan.collar, plan.hole_rows[size] - 1
    whole = plan.rows[size] if collar is None else collar.front(size)
    rows = known(f"{plan.name}.{'rounds' if collar is None else 'collar.front'}", whole, "rows")
    book.reckon(f"{name}.each", size, holes.each, "sts", "{each}", {"each": each}, spans=spans)
    gone = {"sts": sts, "each": each, "number": number}
    left = total - holes.each * holes.number
    book.reckon(f"{name}.left", size, left, "sts", "{sts} - {number} * {each}", gone, spans=spans)
    half = {"rows": rows}
    middle = "2 * floor({rows} / 4 + 1 / 2) - 1"
    rules = ("in the middle of the band, on a right-side row",)
    book.reckon(f"{name}.rows-below", size, below, "rows", middle, half, spans=spans, rules=rules)
    above = {"rows": rows, "below": known(f"{name}.rows-below", below, "rows below")}
    # a collar has short rows and two rows that close them above its buttonholes
    after, template = (0, "{rows} - {below} - 2") if collar is None else (LAST, "{rows} - {below} - 2 - {closing}")
    if collar is not None:
        above["closing"] = known("rows that close the turns", LAST, "rows that close the turns")
    left = whole - below - 2 - after
    book.reckon(f"{name}.rows-above", size, left, "rows", template, above, spans=spans)
    for place, (gap, times) in enumerate(runs(gaps), 1):
        found = {"gap": Input("stitches between", gap, f"{gap} sts")}
        book.reckon(f"{name}.gap[{place}]", size, gap, "sts", "{gap}", found, spans=spans, rules=(SPREAD,))
        often = {"times": Input("equal stretches", times, f"{times} in a row")}
        book.reckon(f"{name}.times[{place}]", size, times, "times", "{times}", often, spans=spans)
