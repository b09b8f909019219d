"""Reasons of the numbers of pockets that are inset: on which row, over which stitches."""

from __future__ import annotations

from wale.explain.book import Book, known
from wale.explain.counts import rows_gauge, sts_gauge
from wale.explain.measures import wish_input
from wale.explain.reason import Input
from wale.plan import BandPlan, PiecePlan
from wale.pockets import place_of, slots_of
from wale.spec import Band, SewnOn


def inset_reasons(book: Book, piece: PiecePlan, size: int) -> None:
    """Tell where the pockets of a piece are opened."""
    for join in book.spec.joins:
        if isinstance(join, SewnOn) and join.is_inset and join.onto == piece.name:
            _opening(book, piece, join, size)


def _opening(book: Book, piece: PiecePlan, join: SewnOn, size: int) -> None:
    place = place_of(book.plan, join, size)
    (slot,) = slots_of(book.plan, (join,), piece, size)
    assert place is not None
    name, section, spans = f"{piece.name}.inset.{slot.lining}", place.section, (join.up.span, join.span)
    start = section.position[size] - section.length(size)
    given = {
        "wish": wish_input(join.up, join.up.at(size)),
        "start": known("cm below that section", start, "cm below it"),
        "gauge": rows_gauge(book, section),
        "rows": known(f"{section.address}.rows", section.rows[size], "rows"),
    }
    evened = int(section.even_start is not None and section.even_start[size] != 0)
    given["evened"] = known("rows that even the stitches out at its start", evened, "rows that even the sts out")
    how = "max(2 * {evened}, min(2 * floor(({wish} - {start}) * {gauge} / 2 + 1 / 2), {rows} - 2)) + 1"
    rules = ("on a right-side row",)
    row = place.rows - place.below + 1
    book.reckon(f"{name}.row", size, row, "row", how, given, spans=spans, rules=rules)
    wide = known(f"{slot.lining}, its last sts", slot.stitches, "sts of the lining")
    count = known("sts on the needle", slot.before, "sts on the needle")
    sided = {"count": count, "sts": wide}
    if join.aside is not None:
        aside = {"wish": wish_input(join.aside, join.aside.at(size)), "gauge": sts_gauge(book, place.level)}
        how = "floor({wish} * {gauge} + 1 / 2)"
        book.reckon(f"{name}.aside", size, place.stitches, "sts", how, aside, spans=(join.aside.span,))
        sided["aside"] = known(f"{name}.aside", place.stitches, "sts beside it")
    for number, (first, template) in enumerate(zip(slot.places, _templates(piece, join), strict=True), 1):
        used = {key: one for key, one in sided.items() if f"{{{key}}}" in template}
        book.reckon(f"{name}.slot[{number}].first", size, first, "", template, used, spans=spans)
        last = first + slot.stitches - 1
        given = {"first": known(f"{name}.slot[{number}].first", first, "as its first st"), "sts": wide}
        book.reckon(f"{name}.slot[{number}].last", size, last, "", "{first} + {sts} - 1", given, spans=spans)
    book.reckon(f"{name}.stitches", size, slot.stitches, "sts", "{sts}", {"sts": wide}, spans=spans)


def _templates(piece: PiecePlan, join: SewnOn) -> tuple[str, ...]:
    """Give how the first stitch of each opening follows, counted from where right-side rows start."""
    if piece.half is not None:
        return ("{count} - {aside} - {sts} + 1",) if piece.half.hand == "left" else ("{aside} + 1",)
    if join.aside is None:
        return ("floor(({count} - {sts}) / 2) + 1",)
    return ("floor({count} / 2) - {aside} - {sts} + 1", "{count} - floor({count} / 2) + {aside} + 1")


def held_stitches(
    book: Book, size: int, band: Band, plan: BandPlan, name: str, begin: int, gauge: Input
) -> tuple[int, ...]:
    """The stitches that wait at a pocket, all of which its band takes; they need no gauge."""
    held = plan.picked[begin][1][size]
    given = {"held": known(f"sts of the {name} pocket on a holder", held, "held sts")}
    book.reckon(f"{plan.name}.picked[{begin + 1}]", size, held, "sts", "{held}", given, spans=(band.span,))
    return (held,)
