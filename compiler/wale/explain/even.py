"""Reasons of rows that gain or lose stitches evenly, and of ribs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from wale.explain.book import Book, known
from wale.explain.reason import Input
from wale.shaping.phrases import Phrase, Plain, Repeat, Shaped
from wale.source import Span
from wale.write.context import Context
from wale.write.evenly import even_row

SPREAD = "as even as whole stitches allow, equal stretches together, the longer ones at the ends"


def even_reasons(
    book: Book, at: Context, name: str, before: tuple[str, int], after: tuple[str, int], span: Span
) -> None:
    """Tell the figures of a row that goes evenly from one count to another.

    Args:
        name: address of the row; figures of its stitches are `name.figure[1]` and so on, in reading order.
        before, after: address and count.
    """
    size, change = at.size, after[1] - before[1]
    low, high = sorted((before, after), key=lambda one: one[1])
    ends = {"high": known(high[0], high[1], "sts"), "low": known(low[0], low[1], "sts")}
    book.reckon(f"{name}.change", size, abs(change), "sts", "{high} - {low}", ends, spans=(span,))
    given = {"count": known(after[0], after[1], "sts")}
    book.reckon(f"{name}.after", size, after[1], "sts", "{count}", given, spans=(span,))
    inside = before[1] - 2 * at.border
    row = even_row(inside, change, in_round=at.piece.in_round)
    edge = 1 if change < 0 and not at.piece.in_round else 0
    gaps = _gaps(at, name, (before[0], inside), change, edge)
    for number, figure in enumerate(_figures(row.phrases()), 1):
        address, words = f"{name}.figure[{number}]", (SPREAD,)
        if isinstance(figure, Repeat | Shaped):
            given = {"times": Input("equal groups in a row", figure.times, f"{figure.times} in a row")}
            book.reckon(address, size, figure.times, "times", "{times}", given, spans=(span,), rules=words)
            continue
        template, given = _stretch(figure.stitches, gaps, edge)
        book.reckon(address, size, figure.stitches, "sts", template, given, spans=(span,), rules=words)


def _gaps(at: Context, name: str, before: tuple[str, int], change: int, edge: int) -> dict[str, Input]:
    """What the plain stitches of one stretch follow from."""
    count = abs(change)
    plain = before[1] - 2 * edge - (2 * count if change < 0 else 0)
    said = f"{plain} plain sts"
    stretches = count if at.piece.in_round else count + 1
    return {
        "plain": Input(f"{before[0]}, plain ones", plain, said),
        "stretches": known(f"{name}.change", stretches, "stretches"),
    }


def _stretch(stitches: int, gaps: dict[str, Input], edge: int) -> tuple[str, dict[str, Input]]:
    """Say a stretch as the short or the long one, at an end with its edge stitch, or two that meet."""
    plain, stretches = int(gaps["plain"].value or 0), int(gaps["stretches"].value or 1)
    short = plain // stretches
    base = "floor({plain} / {stretches})"
    forms = {short: base, short + 1: f"{base} + 1"}
    if edge:
        forms = {short + edge: f"{base} + {{edge}}", short + 1 + edge: f"{base} + 1 + {{edge}}", **forms}
    if stitches in forms:
        template = forms[stitches]
        extra = {"edge": Input("plain edge st", edge, "1 st at the edge")} if "{edge}" in template else {}
        return template, {**gaps, **extra}
    return "{stitches}", {"stitches": Input("stitches side by side", stitches, f"{stitches} sts side by side")}


def _figures(phrases: Sequence[Phrase]) -> Iterator[Phrase]:
    """Give what holds a printed figure, in reading order: stretches, and repeats after their content."""
    for phrase in phrases:
        if isinstance(phrase, Repeat):
            yield from _figures(phrase.phrases)
            yield phrase
        elif isinstance(phrase, Plain) or phrase.times > 1:
            yield phrase


def rib_reasons(
    book: Book, at: Context, name: str, counted: tuple[str, int], rib: tuple[int, int], edge: int, span: Span
) -> None:
    """Tell how often a rib is repeated.

    Args:
        counted: address and count of the stitches.
        edge: edge stitches of one side; worked in the round there are none, and no knit stitches close the row.
    """
    knit, purl = rib
    given = {
        "count": known(counted[0], counted[1], "sts"),
        "knit": Input("knit sts of a rib", knit, f"{knit} knit"),
        "purl": Input("purl sts of a rib", purl, f"{purl} purl"),
    }
    template = "{count} / ({knit} + {purl})"
    repeats = counted[1] // (knit + purl)
    if not at.piece.in_round or edge:
        given["edge"] = known("edge sts of one side", edge, "edge sts", at.piece.edge.span)
        template = "({count} - 2 * {edge} - {knit}) / ({knit} + {purl})"
        repeats = (counted[1] - 2 * edge - knit) // (knit + purl)
    book.reckon(f"{name}.repeats", at.size, repeats, "repeats", template, given, spans=(span,))


def runs(values: Sequence[int]) -> list[tuple[int, int]]:
    """Give equal neighbours as (value, how many)."""
    return [(value, len(list(run))) for value, run in groupby(values)]
