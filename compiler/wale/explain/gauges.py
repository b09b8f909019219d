"""Reasons of gauges, needles and what is said of swatches."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Rib
from wale.explain.book import Book, constant, known, show
from wale.explain.reason import Input
from wale.materials import Gauge, Swatch
from wale.needles import numbers_for
from wale.quantity import CM_PER_INCH, show_decimal
from wale.source import Span
from wale.write.materials import swatches_used
from wale.write.yarn_needed import SWATCH_CM

US_NUMBERS = "US number of a needle of that size (tables/needles.csv)"


def gauge_reasons(book: Book) -> None:
    """Tell the gauges, the needles and the size of a swatch."""
    for swatch in swatches_used(book.spec, book.plan):
        name = f"gauge.{swatch.name}"
        _gauge(book, name, swatch, swatch.washed, "washed")
        if swatch.counted is not None and swatch.is_washed:
            _gauge(book, f"{name}.counted", swatch, swatch.counted, "off the needle")
    needle_reasons(book)
    advice = "what a swatch should measure at least (common practice, no source)"
    constant(book, "swatch.side", Fraction(SWATCH_CM), "cm", advice, shown=_rough(book, Fraction(SWATCH_CM)))


def _gauge(book: Book, name: str, swatch: Swatch, gauge: Gauge, how: str) -> None:
    """Stitches and rows over 10 cm or 4 inches; from what was counted where that is told."""
    over = 4 * CM_PER_INCH if book.spec.units == "inch" else Fraction(10)
    constant(book, f"{name}.over", over, "cm", "the length that gauges are told over", shown=_rough(book, over))
    counts = gauge.over or (None, None)
    for what, unit, per_cm, count in (
        ("stitches", "sts", gauge.stitches, counts[0]),
        ("rows", "rows", gauge.rows, counts[1]),
    ):
        given = {"over": known(f"{name}.over", over, "cm")}
        template = "{per} * {over}"
        if count is not None:
            given["count"] = known(f"{unit} counted in {swatch.name}", count, unit, gauge.span)
            given["cm"] = known(f"their length, {how}", count / per_cm, "cm", gauge.span)
            template = "{count} / {cm} * {over}"
        else:
            given["per"] = Input(f"gauge of {swatch.name}", per_cm, f"{show(per_cm, 3)} {unit}/cm", gauge.span)
        shown = show_decimal(per_cm * over, 1).removesuffix(".0")
        address = f"{name}.{what}"
        book.reckon(address, None, per_cm * over, unit, template, given, spans=(gauge.span,), shown=shown)


def _rough(book: Book, value: Fraction) -> str:
    return show_decimal(value / CM_PER_INCH if book.spec.units == "inch" else value, 0)


def needles_of(book: Book) -> dict[Fraction, tuple[str, Span]]:
    """Give the needles that are printed, thinnest first, each with the line that names it first."""
    found: dict[Fraction, tuple[str, Span]] = {}
    for swatch in swatches_used(book.spec, book.plan):
        found.setdefault(swatch.needle_mm, (f"needle of {swatch.name}", swatch.span))
    ribs = [(one.step.action, piece.name) for piece in book.plan.pieces for one in piece.sections]
    ribs += [(band.rib, band.name) for band in book.spec.bands]
    for action, name in ribs:
        if isinstance(action, Rib) and action.needle_mm is not None:
            found.setdefault(action.needle_mm, (f"needle of the rib of {name}", action.span))
    return dict(sorted(found.items()))


def needle_reasons(book: Book) -> None:
    """Tell the size of each needle in mm, as its line writes it, and its US number."""
    for number, (size, (name, span)) in enumerate(needles_of(book).items(), 1):
        shown = show(size)
        given = {"size": Input(name, size, f"{shown} mm as written", span)}
        book.reckon(f"needles[{number}].mm", None, size, "mm", "{size}", given, spans=(span,), shown=shown)
        us = next((us for system, us in numbers_for(size) if system == "US"), None)
        if us is not None:
            words = us.replace(".5", " 1/2")
            value = Fraction(us)
            given = {"us": Input(f"US number of {shown} mm", value, f"US {words}", span, US_NUMBERS)}
            address = f"needles[{number}].us"
            book.reckon(address, None, value, "US", "{us}", given, spans=(span,), shown=words)
