"""Reasons of the strands of a crown that are to be caught: how far each passes, and where it is caught."""

from __future__ import annotations

from collections.abc import Sequence

from wale.checks.crown_floats import CrownFloat, alike, crown_floats
from wale.checks.floats import most_stitches
from wale.explain.book import Book, constant, known
from wale.explain.charting import catch_reason


def crown_float_reasons(book: Book) -> None:
    """Tell the numbers of the list of strands in crowns, of all sizes: each has addresses of its own."""
    told: dict[str, int] = {}
    for group in alike(crown_floats(book.spec, book.plan)):
        one = group[0]
        name = f"crown-floats.{one.piece}.{book.plan.sizes[one.size]}.{one.round}"
        told[name] = told.get(name, 0) + 1
        if told[name] == 1:
            constant(book, f"{name}.round", one.round, "round", "the crown's round, 0 the one below it", one.span)
        _strand(book, f"{name}[{told[name]}]", group)


def _strand(book: Book, name: str, group: Sequence[CrownFloat]) -> None:
    one, spans = group[0], (group[0].span,)
    part = "wedge" if one.wedge else "round"
    for number, each in enumerate(group if one.wedge else (), 1):
        constant(book, f"{name}.wedge[{number}]", each.wedge, "", "a wedge at whose end it passes", *spans)
    given = {
        "ended": known(f"sts after the last {one.yarn} of the {part} that ends", one.before, "sts before"),
        "begun": known(f"sts before the first {one.yarn} after it", one.stitches - one.before, "sts after"),
    }
    if not one.wedge:
        book.reckon(f"{name}.before", None, one.before, "sts", "{ended}", given, spans=spans)
        book.reckon(f"{name}.after", None, one.stitches - one.before, "sts", "{begun}", given, spans=spans)
    book.reckon(f"{name}.stitches", None, one.stitches, "sts", "{ended} + {begun}", given, spans=spans)
    most = most_stitches(book.spec, book.spec.swatches[one.swatch])
    for number, at in enumerate(one.catch, 1):
        catch_reason(book, f"{name}.catch[{number}]", name, one.stitches, (number, len(one.catch)), at, most, spans)
