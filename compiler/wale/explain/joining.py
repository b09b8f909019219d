"""Reasons of the stitches that pieces hold for another one, and of those that it begins with."""

from __future__ import annotations

from wale.draft.joining import hold_of, joining_of, underarm_key
from wale.explain.book import Book, known
from wale.explain.counts import sts_gauge, wished_count
from wale.plan import PiecePlan


def joining_reasons(book: Book, piece: PiecePlan, size: int) -> None:
    """Tell what a piece holds, and what it takes of others."""
    spec = next(one for one in book.spec.pieces if one.name == piece.name)
    action, joining, level = hold_of(spec), joining_of(spec), piece.levels[-1]
    if action is not None:
        underarm, rest = piece.holders[size][:2]
        sides = len(piece.holders[size]) // 2
        key, gauge = underarm_key(book.layouts[piece.name]), sts_gauge(book, level)
        wish, address = action.underarm.at(size), f"{piece.name}.hold"
        wished_count(book, size, f"{address}.underarm", key, underarm, "sts", action.underarm, wish, action.span, gauge)
        given = {
            "all": known(level.address, level.counts[size], "sts"),
            "underarm": known(f"{address}.underarm", underarm, "sts"),
        }
        template = "{all} - {underarm}" if sides == 1 else f"{{all}} / {sides} - {{underarm}}"
        book.reckon(f"{address}.rest", size, rest, "sts", template, given, spans=(action.span,))
    if joining is not None:
        for name, counts in dict(piece.joined).items():
            given = {"held": known(f"{name}.hold.rest", counts[size], "sts")}
            book.reckon(f"{piece.name}.join.{name}", size, counts[size], "sts", "{held}", given, spans=(joining.span,))
