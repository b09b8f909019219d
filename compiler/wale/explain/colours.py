"""Reasons of how the colours of two yarns stand apart: in lightness, and as the colour library reckons them."""

from __future__ import annotations

from fractions import Fraction

from wale.colour import ALIKE_BELOW, CLOSE_BELOW, SAME_BELOW, SIGHTS, apart
from wale.explain.book import Book, constant, known
from wale.write.colours import told_pairs

PAGE = "docs/colour.md"


def colour_reasons(book: Book) -> None:
    """Tell the figures of the table of colours and its limits; loads the colour library where two yarns come close."""
    found = told_pairs(book.spec, book.plan)
    for name, limit in (("alike", ALIKE_BELOW), ("close", CLOSE_BELOW), ("same", SAME_BELOW)) if found else ():
        constant(book, f"colour.{name}-below", limit, "", "limit, our choice, no source", source=PAGE)
    for first, second in found:
        one, other = book.spec.yarns[first], book.spec.yarns[second]
        stand, name, spans = apart(one.colour, other.colour), f"colour.{first}.{second}", (one.span, other.span)
        lights = [Fraction(round(light * 1000), 1000) for light in stand.lights]
        high, low = max(lights), min(lights)
        given = {"high": known("L* of the lighter", high, "L*"), "low": known("L* of the darker", low, "L*")}
        shown = f"{stand.grey:.0f}"
        book.reckon(f"{name}.grey", None, high - low, "", "{high} - {low}", given, spans=spans, shown=shown)
        for eyes, seen in zip(("most-eyes", *SIGHTS.values()), (stand.difference, *stand.seen), strict=True):
            value = Fraction(round(seen * 1000), 1000)
            what = f"CIEDE2000 of {one.colour} and {other.colour}"
            constant(book, f"{name}.{eyes}", value, "", what, *spans, source=PAGE, shown=f"{seen:.0f}")
