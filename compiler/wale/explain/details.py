"""Reasons of the small numbers in a piece's lines: edge stitches, stitches of a rib, what one shaping row does."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Coursed, Hem, PomPom, Rib, Shape, Tassel
from wale.explain.book import Book, constant, known
from wale.explain.counts import rows_gauge
from wale.explain.courses import fixed_reasons
from wale.explain.reason import Input
from wale.measure import Measure
from wale.plan import BandPlan, PiecePlan, Section
from wale.shaping.gauge import nearest
from wale.source import Span
from wale.write.context import Context
from wale.write.sections import fold_pairs
from wale.write.textures import rows_of

EACH_SIDE = "1 at each end of the row"


def piece_details(book: Book, piece: PiecePlan) -> None:
    """Tell the small numbers of a piece, which hold for all sizes."""
    if not piece.in_round and piece.edge.stitches:
        said = Input("edge sts of each side", piece.edge.stitches, f"{piece.edge.stitches} on each side")
        span = piece.edge.span or piece.span
        book.reckon(f"{piece.name}.edge", None, piece.edge.stitches, "sts", "{edge}", {"edge": said}, spans=(span,))
    if piece.steek is not None:
        span = piece.steek.span
        said = Input("sts of the steek", piece.steek.stitches, f"{piece.steek.stitches} as written", span)
        for end, stitches, sign in zip(("first", "last"), piece.steek.ends, "+-", strict=True):
            rules = ("the round begins with the middle stitch, which is cut through",)
            name, template = f"{piece.name}.steek.{end}", f"({{steek}} {sign} 1) / 2"
            book.reckon(name, None, stitches, "sts", template, {"steek": said}, spans=(span,), rules=rules)
    make_detail(book, piece)
    for section in piece.sections:
        action = section.step.action
        if isinstance(action, Rib):
            rib_details(book, section.address, action, in_round=piece.in_round)
        if isinstance(action, Shape):
            _shaping_row(book, piece, section)
        if isinstance(action, Coursed):
            fixed_reasons(book, section)
        if section.kind == "crown" and piece.crown is not None:
            _wedges(book, section, piece.crown.wedges)
    if piece.top is not None and piece.top.shoulder_step is not None and piece.top.neck_step is not None:
        top = (piece.top.shoulder_step.action.span, piece.top.neck_step.action.span)
        constant(book, f"{piece.name}.top.row", 1, "row", "rows of the top are counted from its own row 1", *top)
        words = "a shoulder is stepped on one side only, so on every 2nd row"
        constant(book, f"{piece.name}.shoulders.every", 2, "rows", words, *top)
    for step in piece.steps:
        if isinstance(step.action, PomPom | Tassel):
            measure, what = _trim(step.action)
            for size in book.sizes:
                wish = measure.at(size)
                given = {"wide": Input(measure.words, wish, f"{measure.words} as written", measure.span)}
                spans = (step.action.span,)
                book.reckon(f"{piece.name}.{what}", size, wish, "cm", "{wide}", given, spans=spans)


def _trim(action: PomPom | Tassel) -> tuple[Measure, str]:
    """Give how large a pom-pom or tassel is, and the end of that number's address."""
    if isinstance(action, PomPom):
        return action.diameter, "pom-pom.diameter"
    return action.length, "tassel.length"


def make_detail(book: Book, one: PiecePlan | BandPlan) -> None:
    """Tell how often a piece or band is worked, where that is more than once."""
    if one.make > 1:
        given = {"make": Input("pieces to make", one.make, f"{one.make} as written", one.span)}
        book.reckon(f"{one.name}.make", None, one.make, "", "{make}", given, spans=(one.span,))


def rib_details(book: Book, name: str, rib: Rib, *, in_round: bool) -> None:
    """Tell the stitches of one repeat of an edge's texture, and its rows."""
    for what, count in (("knit", rib.knit), ("purl", rib.purl)) if rib.multiple is not None else ():
        given = {"sts": Input(f"{what} sts of a {rib.texture}", count, f"{count} {what} as written", rib.span)}
        book.reckon(f"{name}.{what}", None, count, "sts", "{sts}", given, spans=(rib.span,))
    if rib.texture == "rib":
        return
    cycle = len(rows_of(rib, in_round=in_round))
    constant(book, f"{name}.cycle", cycle, "rows", f"rows that {rib.texture} repeats", rib.span)


def begins(book: Book, section: Section, size: int) -> None:
    """Tell with which of its rows a texture begins: its first, or the one after a row that evens the stitches out."""
    action = section.step.action
    if isinstance(action, Rib) and action.texture != "rib":
        evened = int(section.even_start is not None and section.even_start[size] != 0)
        given = {"evened": known("rows that even the stitches out below", evened, "rows below")}
        spans = (action.span,)
        book.reckon(f"{section.address}.begins", size, 1 + evened, "", "1 + {evened}", given, spans=spans)


def _shaping_row(book: Book, piece: PiecePlan, section: Section) -> None:
    """What one shaping row changes, and the stitches that it leaves at the end of the row."""
    spans, name = (section.step.action.span,), section.address
    given = {"side": known("sts at each end of a shaping row", 1, "st"), "ends": known("ends of a row", 2, "ends")}
    book.reckon(f"{name}.change", None, 2, "sts", "{side} * {ends}", given, spans=spans)
    edge = known(f"{piece.name}.edge", piece.edge.stitches, "edge sts", piece.edge.span)
    taken = {"edge": edge, "two": known("sts that k2tog takes", 2, "sts of k2tog")}
    address, left = f"{name}.left-decreasing", piece.edge.stitches + 2
    book.reckon(address, None, left, "sts", "{edge} + {two}", taken, spans=spans)


def hem_details(book: Book, piece: PiecePlan, size: int) -> None:
    """Tell the row to which a folded hem is sewn (or knitted): as high above the fold as the facing is deep."""
    for step in piece.steps:
        if not isinstance(step.action, Hem):
            continue
        facing, above = piece.sections[0], piece.sections[2]
        if step.action.fold != "purl ridge":
            _fold_pairs(book, piece, piece.sections[1], size, slipped=step.action.fold == "slipped")
        unit = "round" if piece.in_round else "row"
        gauge = rows_gauge(book, above)
        depth = facing.length(size)
        given = {"depth": known(f"{facing.address}.length", depth, "cm of facing"), "gauge": gauge}
        spans: tuple[Span, ...] = (step.action.span,)
        rules: tuple[str, ...] = ("the nearest row",)
        row, template = nearest(depth * above.rows_per_cm), "floor({depth} * {gauge} + 1 / 2)"
        if step.action.knitted_together and not piece.in_round:
            row = nearest(depth * above.rows_per_cm, 2, 1)
            template, rules = "2 * floor(({depth} * {gauge} - 1) / 2 + 1 / 2) + 1", ("the nearest right-side row",)
        book.reckon(f"{piece.name}.hem.sewn-row", size, Fraction(row), unit, template, given, spans=spans, rules=rules)
        return


def _fold_pairs(book: Book, piece: PiecePlan, turning: Section, size: int, *, slipped: bool) -> None:
    """Tell the eyelets or the slipped stitches of a fold, and the plain stitches beside them."""
    level, name, spans = piece.levels[turning.first], turning.address, (turning.step.action.span,)
    pairs, before, after = fold_pairs(Context(book.spec, book.plan, piece, size), turning)
    given = {
        "count": known(level.address, level.counts[size], "sts"),
        "ends": Input("plain sts at both ends, at least", 2 * before, f"{2 * before} plain sts at the ends"),
    }
    what, pair = ("slipped", "k1, sl1") if slipped else ("eyelets", "k2tog, yo")
    rules = (f"a pair takes 2 sts: {pair}",)
    book.reckon(
        f"{name}.{what}", size, pairs, "times", "floor(({count} - {ends}) / 2)", given, spans=spans, rules=rules
    )
    given = {**given, "pairs": known(f"{name}.{what}", pairs, "pairs")}
    for place, plain in (("before", before), ("after", after)):
        words = "{count} - 2 * {pairs} - {ends} / 2" if place == "after" else "{ends} / 2"
        book.reckon(f"{name}.{place}", size, plain, "sts", words, given, spans=spans)


def _wedges(book: Book, section: Section, wedges: int) -> None:
    """Tell how many wedges a crown has, and what its decrease round leaves and takes."""
    spans, name = (section.step.action.span,), section.address
    given = {"wedges": Input("wedges", wedges, f"{wedges} as written", section.step.action.span)}
    book.reckon(f"{name}.wedges", None, wedges, "wedges", "{wedges}", given, spans=spans)
    rules = ("one st fewer in each wedge",)
    book.reckon(f"{name}.change", None, wedges, "sts", "{wedges}", given, spans=spans, rules=rules)
    constant(book, f"{name}.left", 2, "sts", "k2tog takes the last two sts of the wedge", *spans)
