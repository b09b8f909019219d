"""Reasons of what is eased in where a sleeve cap is sewn into its armhole, and of where a pocket is sewn on."""

from __future__ import annotations

from fractions import Fraction

from wale.armholes import cap_edges
from wale.explain.book import Book, known
from wale.explain.counts import rows_gauge, sts_gauge
from wale.explain.measures import wish_input
from wale.plan import PiecePlan
from wale.pockets import place_of
from wale.spec import SetIn, SewnOn


def cap_reasons(book: Book, name: str, size: int) -> None:
    """Tell both edges and their difference, for a sleeve that is set in by its cap."""
    for join in book.spec.joins:
        if isinstance(join, SetIn) and join.edge == "cap" and join.piece == name:
            cap, armhole = cap_edges(book.plan, join, size)
            given = {
                "cap": known(f"edge of the {name}'s cap", cap, "cm along the rows of the cap"),
                "armhole": known("edge of the armhole", armhole, "cm along the rows of front and back"),
            }
            rules, spans = ("each row counts by its slant, what is bound off by its width",), (join.span,)
            eased, how = max(Fraction(0), cap - armhole), "max({cap} - {armhole}, 0)"
            book.reckon(f"{name}.eased", size, eased, "cm", how, given, spans=spans, rules=rules)


def pocket_reasons(book: Book, piece: PiecePlan, size: int) -> None:
    """Tell where a pocket lies on its piece."""
    for join in book.spec.joins:
        place = place_of(book.plan, join, size) if isinstance(join, SewnOn) and join.piece == piece.name else None
        if place is None or not isinstance(join, SewnOn) or join.is_inset:
            continue
        name, spans, section = f"{piece.name}.sewn-on", (join.up.span, join.span), place.section
        gauge, start = rows_gauge(book, section), section.position[size] - section.length(size)
        given = {
            "below": known("rows below that section", place.below, "rows"),
            "wish": wish_input(join.up, join.up.at(size)),
            "start": known("cm below that section", start, "cm below it"),
            "gauge": gauge,
        }
        how = "{below} + floor(({wish} - {start}) * {gauge} + 1 / 2)"
        book.reckon(f"{name}.rows", size, place.rows, "rows", how, given, spans=spans)
        rows = {"rows": known(f"{name}.rows", place.rows, "rows"), **given}
        del rows["wish"]
        book.reckon(f"{name}.up", size, place.up, "cm", "{start} + ({rows} - {below}) / {gauge}", rows, spans=spans)
        if join.aside is not None:
            width, spans = sts_gauge(book, place.level), (join.aside.span, join.span)
            given = {"wish": wish_input(join.aside, join.aside.at(size)), "gauge": width}
            how = "floor({wish} * {gauge} + 1 / 2)"
            book.reckon(f"{name}.stitches", size, place.stitches, "sts", how, given, spans=spans)
            given = {"sts": known(f"{name}.stitches", place.stitches, "sts"), "gauge": width}
            book.reckon(f"{name}.aside", size, place.aside, "cm", "{sts} / {gauge}", given, spans=spans)
