"""Reasons of the strands of a crown that are to be caught: how far each passes, and where it is caught."""

from __future__ import annotations

from wale.checks.crown_floats import CrownFloat, crown_floats
from wale.checks.floats import most_stitches
from wale.explain.book import Book, constant, known
from wale.explain.charting import catch_reasons


def crown_float_reasons(book: Book) -> None:
    """Tell the numbers of the list of strands in crowns, of all sizes: each has addresses of its own."""
    for one in crown_floats(book.spec, book.plan):
        _strand(book, one)


def _strand(book: Book, one: CrownFloat) -> None:
    name = f"crown-floats.{one.piece}.{book.plan.sizes[one.size]}.{one.round}"
    spans = (one.span,)
    constant(book, f"{name}.round", one.round, "round", "the crown's round", *spans)
    part = "round" if one.over_start else "wedge"
    given = {
        "ended": known(f"sts after the last {one.yarn} of the {part} that ends", one.before, "sts before"),
        "begun": known(f"sts before the first {one.yarn} after it", one.stitches - one.before, "sts after"),
    }
    book.reckon(f"{name}.stitches", None, one.stitches, "sts", "{ended} + {begun}", given, spans=spans)
    most = most_stitches(book.spec, book.spec.swatches[one.swatch])
    catch_reasons(book, name, one.stitches, one.catch, most, spans)
