"""Reasons of a placket: its rows and its foot, and what the neck has beside it."""

from __future__ import annotations

from wale.actions import Neck
from wale.draft.plackets import placket_key
from wale.explain.book import Book, known
from wale.explain.counts import rows_gauge, sts_gauge, wished_count
from wale.explain.measures import measure_inputs, wish_input
from wale.explain.reason import Input
from wale.plan import PiecePlan
from wale.write.context import Context

MIDDLE = "in the middle of the neck, as many of its stitches at either side (docs/maths.md#placket)"


def opening_rows(at: Context) -> Input:
    """Give the rows from the one that divides the work up, as an input."""
    top, name = at.piece.top, at.piece.name
    assert top is not None
    of = f"{name}.opening.rows" if top.has_placket else f"{name}.neck.rows"
    return known(of, top.neck_rows[at.size], "rows of neck and placket" if top.has_placket else "neck rows")


def placket_reasons(book: Book, at: Context) -> None:
    """Tell the numbers of a placket, where there is one."""
    piece, size, top = at.piece, at.size, at.piece.top
    if top is None or top.neck_step is None or not top.has_placket:
        return
    neck, name, layout = top.neck_step.action, f"{piece.name}.placket", book.layouts[piece.name]
    assert isinstance(neck, Neck) and neck.placket is not None
    placket, rows, foot = neck.placket, top.placket_rows[size], top.centre[size]
    by_rows, by_sts = rows_gauge(book, piece.sections[-1]), sts_gauge(book, piece.levels[-1])
    where, wish, span = f"{name}.rows", top.placket_wishes[size], placket.span
    wished_count(book, size, where, placket_key(layout), rows, "rows", placket.length, wish, span, by_rows)
    long = {"rows": known(where, rows, "rows"), "gauge": by_rows}
    length = rows / piece.sections[-1].rows_per_cm
    book.reckon(f"{name}.length", size, length, "cm", "{rows} / {gauge}", long, spans=(span,))
    both = {"neck": known(f"{piece.name}.neck.rows", top.depth_rows(size), "neck rows"), "placket": long["rows"]}
    opening = f"{piece.name}.opening.rows"
    book.reckon(opening, size, top.neck_rows[size], "rows", "{neck} + {placket}", both, spans=(neck.span,))
    _foot(book, piece, size, neck, foot)
    wide = {"sts": known(f"{name}.stitches", foot, "sts of its foot"), "gauge": by_sts}
    width = foot / piece.levels[-1].sts_per_cm
    book.reckon(f"{name}.width", size, width, "cm", "{sts} / {gauge}", wide, spans=(span,))
    if top.corner[size]:
        centre = known(f"{piece.name}.neck.centre", top.own_centre(size), "centre sts")
        given = {"centre": centre, "foot": wide["sts"]}
        book.reckon(f"{name}.corner", size, top.corner[size], "sts", "({centre} - {foot}) / 2", given, spans=(span,))


def _foot(book: Book, piece: PiecePlan, size: int, neck: Neck, foot: int) -> None:
    """Tell the stitches that are bound off at the foot."""
    assert neck.placket is not None and piece.top is not None
    width, name, span = neck.placket.width, f"{piece.name}.placket.stitches", neck.placket.span
    if width.is_count:
        given = {"count": Input(width.words, foot, f"{foot} sts as written", width.span)}
        book.reckon(name, size, foot, "sts", "{count}", given, spans=(span,), also=measure_inputs(book, width, size))
        return
    gauge = sts_gauge(book, piece.levels[-1])
    odd = piece.top.neck[size] % 2
    sts = known(f"{piece.name}.neck.stitches", piece.top.neck[size], "neck sts")
    given = {"wish": wish_input(width, width.at(size)), "gauge": gauge, "sts": sts}
    # the nearest count that is odd or even as that of the neck is
    template = "2 * floor({wish} * {gauge} / 2 + 1 / 2)" if not odd else "2 * floor({wish} * {gauge} / 2) + 1"
    if foot == 2 - odd:
        template = f"max({foot}, {template})"
    also = measure_inputs(book, width, size)
    book.reckon(name, size, foot, "sts", template, given, spans=(span,), rules=(MIDDLE,), also=also)
