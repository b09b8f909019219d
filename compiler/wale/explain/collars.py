"""Reasons of a shawl collar: its rows in front and behind, and where its short rows turn."""

from __future__ import annotations

from wale.draft.collars import back_wish, square_width
from wale.explain.book import Book, known, show
from wale.explain.counts import gauge_input
from wale.explain.measures import wish_input
from wale.explain.reason import Input
from wale.plan import BandPlan, CollarPlan
from wale.shaping.collar import LAST, LEAST
from wale.spec import Band

RULE = "short rows: docs/maths.md#shawl-collars"


def collar_reasons(book: Book, size: int, band: Band, plan: BandPlan, collar: CollarPlan) -> None:
    """Tell the rows and turns of a shawl collar."""
    name, spans = f"{plan.name}.collar", (band.rib.span,)
    swatch = book.spec.swatches[band.swatch]
    gauge = gauge_input(swatch.name, swatch.washed.rows, swatch.washed.span, "rows")
    front, pairs = collar.front(size), collar.pairs(size)
    pieces = {piece.name: piece for piece in book.plan.pieces}
    assert band.collar is not None
    wish = band.collar.front
    given = {"gauge": gauge, "least": Input("fewest rows", LEAST, f"{LEAST} rows at least")}
    if wish is None:
        across = square_width(book.spec, band, pieces, size)
        given["wish"] = known("width of the square neck", across, f"{show(across)} cm across the square neck")
    else:
        given["wish"] = wish_input(wish, wish.at(size))
    scaled = "{wish}" if wish is not None and wish.is_count else "{wish} * {gauge}"
    if scaled == "{wish}":
        del given["gauge"]
    template = f"max({{least}}, 2 * floor(({scaled} - 1) / 2 + 1 / 2) + 1)"
    rules: tuple[str, ...] = ("an odd number: the short rows begin with a right-side row", RULE)
    book.reckon(f"{name}.front", size, front, "rows", template, given, spans=spans, rules=rules)
    depth = band.rib.depth
    given = {"wish": wish_input(depth, depth.at(size)), "front": known(f"{name}.front", front, "rows in front")}
    if not depth.is_count:
        given["gauge"] = gauge
    scaled = "{wish}" if depth.is_count else "{wish} * {gauge}"
    template = f"max(1, floor(({scaled} - {{front}}) / 2 + 1 / 2))"
    book.reckon(f"{name}.pairs", size, pairs, "times", template, given, spans=spans, rules=(RULE,))
    per_row = plan.rows_per_cm
    off = plan.rows[size] / per_row - back_wish(band, plan, size) / per_row
    given = {"front": known(f"{name}.front", front, "rows in front"), "pairs": known(f"{name}.pairs", pairs, "pairs")}
    rows, template = plan.rows[size], "{front} + 2 * {pairs}"
    book.reckon(f"{plan.name}.rounds", size, rows, "rows", template, given, spans=spans, deviation=off)
    _turns(book, size, band, plan, collar)


def _turns(book: Book, size: int, band: Band, plan: BandPlan, collar: CollarPlan) -> None:
    name, spans, gaps = f"{plan.name}.collar", (band.rib.span,), collar.gaps[size]
    pairs, side, reach = len(gaps), collar.sides[size], sum(gaps)
    counted = known(f"{name}.pairs", pairs, "pairs")
    given = {"side": known("sts of a side of the front neck", side, "sts of a side of the neck"), "pairs": counted}
    rules = ("turns up to half of the neck's side, a stitch apart at least", RULE)
    template = "max({pairs}, floor({side} / 2 + 1 / 2))"
    book.reckon(f"{name}.reach", size, reach, "sts", template, given, spans=spans, rules=rules)
    over = known(f"{name}.reach", reach, "sts over which turns are spread")
    for end, beyond in zip(("right", "left"), collar.ends[size], strict=True):
        given = {
            "beyond": known(f"sts below the neck, {end}", beyond, "sts along the front below the neck"),
            "over": over,
        }
        book.reckon(
            f"{name}.{end}", size, beyond + reach, "sts", "{beyond} + {over}", given, spans=spans, rules=(RULE,)
        )
    turned = {"over": over, "pairs": counted}
    for gap, wider in ((gaps[-1], ""), (gaps[0], "wider-")):
        times = gaps[:-1].count(gap)
        if (wider and gap == gaps[-1]) or not times:
            continue
        template = "floor({over} / {pairs})" + (" + 1" if wider else "")
        book.reckon(f"{name}.{wider}gap", size, gap, "sts", template, turned, spans=spans, rules=(RULE,))
        template = "2 * mod({over}, {pairs})" if wider else "2 * ({pairs} - 1 - mod({over}, {pairs}))"
        book.reckon(f"{name}.{wider}rows", size, 2 * times, "rows", template, turned, spans=spans)
    if not plan.holes:
        given = {"front": known(f"{name}.front", collar.front(size), "rows in front")}
        book.reckon(f"{name}.below", size, collar.base[size], "rows", "{front} - 2", given, spans=spans)
    given = {"closing": known("rows that close the turns", LAST, "rows that close the turns")}
    book.reckon(f"{plan.name}.turns.closing", size, LAST, "rows", "{closing}", given, spans=spans, rules=(RULE,))
