"""Reasons of the figures of a bind-off with a cord."""

from __future__ import annotations

from wale.explain.book import Book, known
from wale.explain.reason import Input
from wale.source import Span


def cord_reasons(book: Book, name: str, size: int, cord: int, last: tuple[str, int], span: Span) -> None:
    """Tell the figures of a bind-off with a cord."""
    if not cord:
        return
    written = {"cord": Input("sts of a cord", cord, f"{cord} sts as written", span)}
    book.reckon(f"{name}.bind-off.cord", size, cord, "sts", "{cord}", written, spans=(span,))
    given = {"cord": known(f"{name}.bind-off.cord", cord, "sts of the cord")}
    why = ("the last st of the cord is worked together with the next one on the needle",)
    book.reckon(f"{name}.bind-off.knit", size, cord - 1, "sts", "{cord} - 1", given, spans=(span,), rules=why)
    sts = {"sts": known(last[0], last[1], "sts")}
    book.reckon(f"{name}.bind-off.times", size, last[1], "times", "{sts}", sts, spans=(span,), rules=why)
