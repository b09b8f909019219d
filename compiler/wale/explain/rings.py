"""Reasons of the rings that a garment is pulled on by: the girth pulled, and the part that it passes."""

from __future__ import annotations

from fractions import Fraction

from wale.checks.ring_shapes import CHEEKS, HOOD, neck_edge
from wale.checks.rings import Ring, rings
from wale.explain.book import Book, known
from wale.explain.reason import Input
from wale.materials import Swatch
from wale.plan import PiecePlan
from wale.quantity import show_decimal

PULLED = "width pulled / width at rest, as the swatch was"


def ring_reasons(book: Book) -> None:
    """Tell each ring in each size: finished girth, pulled girth, and the measure of the body.

    Those that may not go on are told in all sizes: every print cautions against them.
    """
    names = list(book.plan.sizes)
    for ring in rings(book.spec, book.plan):
        size, name = names.index(ring.size), ring_address(ring)
        if size not in book.sizes and ring.verdict != "too tight":
            continue
        _girth(book, ring, name, size)
        if ring.give is not None and ring.pulled_cm is not None:
            stretch = _stretch(book, ring)
            given = {"girth": known(f"{name}.girth", ring.girth_cm, "cm"), "stretch": stretch}
            template = "{girth} * {stretch}"
            book.reckon(f"{name}.pulled", size, ring.pulled_cm, "cm", template, given, spans=(ring.span,))
        if ring.part_cm is not None:
            body = book.spec.sizes[size].measures[ring.part]
            span = body.span or book.spec.sizes[size].span
            given = {"body": Input(f"body.{ring.part}", body.value, "", span, ring.source, f"cm of {ring.part}")}
            template = "{body}"
            if ring.share != 1:
                given["share"] = Input("share of the head", ring.share, f"{ring.share} {CHEEKS}")
                template = "{body} * {share}"
            book.reckon(f"{name}.passes", size, ring.part_cm, "cm", template, given, spans=(ring.span,))
        if ring.needed_cm is not None and ring.part_cm is not None and ring.verdict == "too tight":
            _would_do(book, ring, name, size)


def _would_do(book: Book, ring: Ring, name: str, size: int) -> None:
    """What a ring that is too tight gives and lacks, and what would do."""
    assert ring.give is not None and ring.part_cm is not None and ring.needed_cm is not None
    stretch, body = _stretch(book, ring), known(f"body.{ring.part}", ring.part_cm, f"cm of {ring.part}")
    girth = known(f"{name}.girth", ring.girth_cm, "cm")
    given = {"stretch": stretch}
    percent = show_decimal(ring.give * 100, 0)
    spans = (ring.span,)
    book.reckon(f"{name}.give", size, ring.give * 100, "%", "({stretch} - 1) * 100", given, spans=spans, shown=percent)
    given = {"body": body, "stretch": stretch}
    book.reckon(f"{name}.needed", size, ring.needed_cm, "cm", "{body} / {stretch}", given, spans=spans)
    given["girth"] = girth
    missing = ring.missing_cm or Fraction(0)
    book.reckon(f"{name}.missing", size, missing, "cm", "max(0, {body} / {stretch} - {girth})", given, spans=spans)
    give = (ring.needed_give or Fraction(0)) * 100
    given, percent = {"body": body, "girth": girth}, show_decimal(give, 0)
    template = "max(0, {body} / {girth} - 1) * 100"
    book.reckon(f"{name}.needed-give", size, give, "%", template, given, spans=spans, shown=percent)


def ring_address(ring: Ring) -> str:
    """Give the address of a ring: `ring.body.neck-opening`."""
    return f"ring.{ring.piece}.{ring.ring.replace(' ', '-')}"


def _girth(book: Book, ring: Ring, name: str, size: int) -> None:
    """The finished girth: of a level of a round piece or of a body, of a neck, of a band."""
    template, given = "{girth}", {"girth": known("finished girth of the ring", ring.girth_cm, "cm")}
    piece = book.plan.piece(ring.piece)
    bodies = [one for one in book.plan.pieces if one.top is not None]
    first = piece or (bodies[0] if bodies else None)
    levels = (*first.levels, *(one.level for one in first.girths)) if first is not None else ()
    level = next((one for one in levels if one.label == ring.ring), None)
    if level is not None and ring.piece == "body":
        widths = {}
        for number, one in enumerate(bodies):
            same = one.level(ring.ring)
            if same is not None:
                widths[f"part{number}"] = known(f"{same.address}.width", same.width(size) * one.make, "cm")
        if sum(one.value or 0 for one in widths.values()) == ring.girth_cm:
            template, given = " + ".join(f"{{{key}}}" for key in widths), widths
    elif level is not None and level.width(size) == ring.girth_cm:
        given = {"girth": known(f"{level.address}.width", ring.girth_cm, "cm")}
    elif ring.ring == "band":
        band = next(one for one in book.plan.bands if one.name == ring.piece)
        given = {
            "sts": known(f"{band.name}.{'mitre.left' if band.mitres else 'stitches'}", band.last(size), "sts"),
            "gauge": known("gauge of the band", band.sts_per_cm, "sts/cm", band.span, 3),
        }
        template = "{sts} / {gauge}"
    elif ring.ring == HOOD:
        band = next(one for one in book.plan.bands if one.name == ring.piece)
        given = {"sts": known(f"{band.name}.hood", band.hood[size], "sts")}
        given["gauge"] = known("gauge of the hood", band.sts_per_cm, "sts/cm", band.span, 3)
        template = "{sts} / {gauge}"
    elif ring.ring == "neck opening":
        template, given = _neck(book, bodies, size)
    book.reckon(f"{name}.girth", size, ring.girth_cm, "cm", template, given, spans=(ring.span,))


def _neck(book: Book, bodies: list[PiecePlan], size: int) -> tuple[str, dict[str, Input]]:
    """The shaped edges of all necks: centre, and on both sides the slant of the steps and the straight rows."""
    given = {}
    for number, piece in enumerate(bodies):
        edge = neck_edge(book.spec, piece, size)
        given[f"edge{number}"] = known(f"edge of the {piece.name}'s neck", edge, f"cm along the {piece.name}'s neck")
    return " + ".join(f"{{{key}}}" for key in given), given


def _stretch(book: Book, ring: Ring) -> Input:
    """How far the fabric or its edge gives, with the swatch that tells it."""
    assert ring.give is not None
    factor = 1 + ring.give
    found: Swatch | None = next(
        (one for one in book.spec.swatches.values() if factor in (one.stretch, one.edge_stretch)), None
    )
    where = found.span if found is not None else None
    whose = f"give of {found.name}" if found is not None else "give at rest"
    return Input(whose, factor, "", where, PULLED if ring.give else "", "pulled/at rest", 3)
