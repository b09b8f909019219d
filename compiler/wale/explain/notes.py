"""Reasons of the numbers in assumptions, cautions and care: values that were taken, and constants as published."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from wale.checks.care import care
from wale.draft.widths import EVEN_STEPS
from wale.explain.bodies import formula
from wale.explain.book import Book, constant
from wale.explain.reason import Input
from wale.explain.structure import covered, masks
from wale.published import rows_of, sources
from wale.quantity import show_length, units_in_text
from wale.source import Span
from wale.spec import Assumption

ESTIMATE = {
    "factor": "factor",
    "constant": "constant",
    "spread": "spread_cm",
    "least-bust": "bust_min",
    "most-bust": "bust_max",
}
FIGURE = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.]*[A-Za-z])")
_NAMED = re.compile(r"`([a-z-]+)`")


def note_reasons(book: Book) -> None:
    """Tell the numbers of the assumptions, of the weights, of estimates and of the care."""
    for number, one in enumerate(book.spec.assumptions, 1):
        if one.values:
            _taken(book, f"assumption[{number}]", one)
        words = units_in_text(f"{one.text} {one.origin()}", book.spec.units)
        _constants(book, f"assumption[{number}]", words, one.origin(), (one.span,) if one.span is not None else ())
    weights: list[tuple[str, Fraction, tuple[Span, ...]]] = [("even-steps", EVEN_STEPS, ())]
    weights += [(name, weight, (span,)) for name, (weight, span) in book.spec.preferences.items()]
    for name, weight, spans in dict.fromkeys(weights):
        shown = f"{float(weight):g}"
        constant(book, f"weight.{name}", Fraction(weight), "", "weight of a squared deviation", *spans, shown=shown)
    constant(book, "weight.else", 1, "", "weight of a squared deviation")
    for number, text in enumerate(care(book.spec), 1):
        _constants(book, f"care[{number}]", text, "common practice, or as published where it names its source", ())
    _estimates(book)


def _estimates(book: Book) -> None:
    """The figures of the rules by which measures are estimated, lengths as the pattern prints them."""
    for row in rows_of("estimates"):
        for part, column in ESTIMATE.items() if row["group"] == book.spec.group else ():
            if row[column] in ("", "0"):
                continue
            value, unit, shown = Fraction(row[column]), "", row[column]
            if part != "factor":
                unit = "cm"
                shown = show_length(value, book.spec.units, len(shown.partition(".")[2]))
            name, source = f"estimate.{row['measure']}.{part}", sources()[row["source"]]
            constant(book, name, value, unit, f"{part} of the estimate", source=source, shown=shown)


def _taken(book: Book, name: str, one: Assumption) -> None:
    """The value that was taken: by its rule from the body, or the default itself, which is one for all sizes."""
    measure, spans = _NAMED.search(one.text), (one.span,) if one.span is not None else ()
    is_default = len(one.values) == 1
    for size in book.sizes[:1] if is_default else book.sizes:
        value = one.values[0] if is_default else one.values[size]
        source = one.sources[size] if one.sources else one.source
        if one.sources and not source:
            continue
        template, given = "{it}", {"it": Input("default", value, f"{show_length(value, 'cm')} cm", one.span, source)}
        if not is_default and measure is not None:
            template, given = formula(book.spec.sizes[size], value, measure[1], source)
        shown = show_length(value, book.spec.units).removesuffix(".0")
        whose = None if is_default else size
        book.reckon(f"{name}.value", whose, value, "cm", template, given, spans=spans, shown=shown)


def _constants(book: Book, name: str, text: str, source: str, spans: Iterable[Span]) -> None:
    """Each figure of a text, once, as it stands there."""
    what = "as its source tells it"
    for start, end, _ in sorted(covered(masks(book.spec), text), reverse=True):
        text = text[:start] + " " * (end - start) + text[end:]
    for number, figure in enumerate(dict.fromkeys(FIGURE.findall(text)), 1):
        address = f"{name}.figure[{number}]"
        constant(book, address, Fraction(figure), "", what, *spans, source=source, shown=figure)
