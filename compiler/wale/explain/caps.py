"""Reasons of what is eased in where a sleeve cap is sewn into its armhole."""

from __future__ import annotations

from fractions import Fraction

from wale.armholes import cap_edges
from wale.explain.book import Book, known
from wale.spec import SetIn


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
