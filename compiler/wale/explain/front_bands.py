"""Reasons of the numbers of a band that is worked along with a half piece, and of its buttonholes."""

from __future__ import annotations

from itertools import pairwise

from wale.actions import Rib
from wale.draft.front_bands import hole_pairs
from wale.explain.book import Book, constant, known
from wale.explain.even import runs
from wale.explain.reason import Input
from wale.plan import PiecePlan
from wale.write.front_bands import hole_place

SPREAD = (
    "one pair of rows for each hole, the pairs between them in equal stretches together (docs/maths.md#buttonholes)"
)


def front_band_details(book: Book, piece: PiecePlan) -> None:
    """Tell the stitches of a front band."""
    half = piece.half
    if half is None or half.band is None:
        return
    name, band = f"{piece.name}.front-band", half.band
    said = Input("sts of the front band", band.stitches, f"{band.stitches} as written", band.span)
    book.reckon(name, None, band.stitches, "sts", "{band}", {"band": said}, spans=(band.span,))
    if band.texture != "garter":
        words = f"{'1x1 rib' if band.texture == 'rib' else 'seed stitch'} repeats 2 sts, one of each kind"
        constant(book, f"{name}.kind", 1, "", words, band.span)
        given = {"band": known(name, band.stitches, "sts of the band")}
        book.reckon(
            f"{name}.repeats", None, band.stitches // 2, "times", "floor({band} / 2)", given, spans=(band.span,)
        )


def front_band_rows(book: Book, piece: PiecePlan, size: int) -> None:
    """Tell where buttonholes lie in the band, and on which rows they are worked."""
    half = piece.half
    if half is None or half.band is None:
        return
    for section in piece.sections:
        if isinstance(section.step.action, Rib) and section.step.action.multiple is None:
            level, beside = piece.levels[section.first], half.band.stitches
            given = {
                "count": known(level.address, level.counts[size], "sts"),
                "band": known(f"{piece.name}.front-band", beside, "sts of the band"),
            }
            value, spans = level.counts[size] - beside, (half.band.span,)
            name = f"{section.address}.between"
            book.reckon(name, size, value, "sts", "{count} - {band}", given, spans=spans)
    if half.holes is None:
        return
    holes = half.holes
    each = Input("sts of a buttonhole", holes.each, f"{holes.each} sts of a buttonhole", holes.span)
    band = known(f"{piece.name}.front-band", half.band.stitches, "sts of the band")
    name, spans, rows = f"{piece.name}.front-band.holes", (holes.span,), piece.hole_rows[size]
    before, middle = hole_place(half), ("in the middle of the band, an odd stitch at its outer edge",)
    for part, stitches in (("before", before), ("after", half.band.stitches - holes.each - before)):
        way = "ceil" if stitches * 2 > half.band.stitches - holes.each else "floor"
        given, template = {"band": band, "each": each}, f"{way}(({{band}} - {{each}}) / 2)"
        book.reckon(f"{name}.{part}", size, stitches, "sts", template, given, spans=spans, rules=middle)
    for part in ("each", "cast-on"):
        book.reckon(f"{name}.{part}", size, holes.each, "sts", "{each}", {"each": each}, spans=spans)
    pairs = known("pairs of rows up to the neck", hole_pairs(piece, size), "pairs of rows")
    below = Input("pairs of rows below the first", rows[0] // 2, f"{rows[0] // 2} pairs of rows")
    book.reckon(f"{name}.row", size, rows[0], "row", "2 * {below} + 1", {"below": below}, spans=spans, also=(pairs,))
    for place, (gap, times) in enumerate(runs([after - row for row, after in pairwise(rows)]), 1):
        between = {"gap": Input("pairs of rows between", gap // 2 - 1, f"{gap // 2 - 1} pairs of rows between")}
        book.reckon(
            f"{name}.every[{place}]", size, gap, "rows", "2 * ({gap} + 1)", between, spans=spans, rules=(SPREAD,)
        )
        often = {"times": Input("equal stretches", times, f"{times} in a row")}
        book.reckon(f"{name}.times[{place}]", size, times, "times", "{times}", often, spans=spans)
