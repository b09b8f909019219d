"""Reasons of the stitches that bands pick up along necks."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.draft.mitres import mitred_neck
from wale.draft.opened import BEHIND, ENDS
from wale.explain.book import Book, known, show
from wale.explain.counts import gauge_input
from wale.explain.reason import Input
from wale.plan import BandPlan
from wale.sewn import seams_of
from wale.shaping.gauge import nearest
from wale.shaping.pickup import hypotenuse
from wale.spec import Band

RULE = "one stitch for each stitch's width of the edge (docs/maths.md#pick-up-along-rows)"
CENTRE = "floor({centre} / {sts} * {gauge} + 1 / 2)"
SIDE = "floor(({slant} + {straight} / {rows}) * {gauge} + 1 / 2)"
Counted = tuple[Mapping[str, Input], int]
"""What a count follows from, and the count."""


def neck_reasons(
    book: Book, size: int, band: Band, plan: BandPlan, name: str, begin: int, gauge: Input
) -> tuple[int, ...]:
    """Side, centre and side of one neck, or those of half a neck; gives them before the rib's multiple is met."""
    piece = book.plan.piece(name)
    assert piece is not None and piece.top is not None
    parts: tuple[str, ...] = ("side", "centre", "side")
    if piece.half is not None:
        mine = [told for told, _ in plan.picked[begin:] if told.endswith(f"of the {name} neck")]
        parts = tuple("centre" if told.startswith("the centre") else "side" for told in mine)
    found = {"side": _side_of(book, size, name, gauge), "centre": _centre_of(book, size, name, gauge)}
    for index, part in enumerate(parts, begin):
        _part(book, size, band, plan, index, part, found[part])
    if band.mitred and name == mitred_neck(band, {one.name: one for one in book.plan.pieces}):
        return tuple(plan.picked[index][1][size] for index in range(begin, begin + len(parts)))
    return tuple(found[part][1] for part in parts)


def opened_reasons(book: Book, size: int, band: Band, plan: BandPlan, gauge: Input) -> tuple[int, ...]:
    """The parts of a band that opens in front, from there to there; gives them before the rib's multiple is met."""
    exact: list[int] = []
    for index, (told, counts) in enumerate(plan.picked):
        if told == BEHIND or told.startswith(ENDS):
            exact.append(counts[size])
            _end(book, size, band, plan, index, gauge)
            continue
        name = next(name for name, _ in band.edges if told.endswith(f"of the {name} neck"))
        part = "centre" if told.startswith("the centre") else "side"
        found = (_centre_of if part == "centre" else _side_of)(book, size, name, gauge)
        _part(book, size, band, plan, index, part, found)
        exact.append(found[1])
    return tuple(exact)


def _side_of(book: Book, size: int, name: str, gauge: Input) -> Counted:
    piece = book.plan.piece(name)
    assert piece is not None and piece.top is not None
    top, swatch = piece.top, piece.sections[-1].swatch
    body = book.spec.swatches[swatch].washed
    steps = top.own_steps(size)
    slant = sum((hypotenuse(step / body.stitches, 2 / body.rows) for step in steps), Fraction(0))
    straight = top.depth_rows(size) - 2 * len(steps)
    given = {
        "slant": Input(f"{name}.neck.step[1]", slant, f"{show(slant)} cm along the steps"),
        "straight": known(f"{name}.neck.rows", straight, "straight rows"),
        "rows": gauge_input(swatch, body.rows, body.span, "rows"),
        "gauge": gauge,
    }
    return given, nearest((slant + straight / body.rows) * Fraction(gauge.value or 0))


def _centre_of(book: Book, size: int, name: str, gauge: Input) -> Counted:
    piece = book.plan.piece(name)
    assert piece is not None and piece.top is not None
    swatch = piece.sections[-1].swatch
    body = book.spec.swatches[swatch].washed
    across = max(0, piece.top.own_centre(size) - seams_of(book.spec, piece)[1])
    if piece.top.has_placket:
        across -= piece.top.centre[size]
    given = {
        "centre": known(f"{name}.neck.centre", across, "sts"),
        "sts": gauge_input(swatch, body.stitches, body.span, "sts"),
        "gauge": gauge,
    }
    return given, nearest(across / body.stitches * Fraction(gauge.value or 0))


def _part(book: Book, size: int, band: Band, plan: BandPlan, index: int, part: str, found: Counted) -> None:
    """Tell a side or a centre, and what the rib's multiple or a mitre adds to it."""
    given, exact = dict(found[0]), found[1]
    got, template = plan.picked[index][1][size], CENTRE if part == "centre" else SIDE
    if got != exact:
        why = "for the rib's multiple" if part == "centre" else "for a rib that mirrors at the mitre"
        given["more"] = known(why, abs(got - exact), why)
        template += " + {more}" if got > exact else " - {more}"
    address = f"{plan.name}.picked[{index + 1}]"
    book.reckon(address, size, got, "sts", template, given, spans=(band.span,), rules=(RULE,))


def _end(book: Book, size: int, band: Band, plan: BandPlan, index: int, gauge: Input) -> None:
    """Tell what is picked up beside the middle of the front neck, and behind it where the ends overlap."""
    told, counts = plan.picked[index]
    address, spans = f"{plan.name}.picked[{index + 1}]", (band.span, band.rib.span)
    lap = Input("sts that overlap", band.overlap, f"{band.overlap} sts that overlap", band.rib.span)
    if told == BEHIND:
        book.reckon(address, size, counts[size], "sts", "{lap}", {"lap": lap}, spans=spans)
        before = (band.overlap + 1) // 2
        begin = f"{plan.name}.overlap"
        book.reckon(begin, size, before, "sts", "floor(({lap} + 1) / 2)", {"lap": lap}, spans=spans)
        return
    name = next(name for name, _ in band.edges if told.endswith(f"of the {name} neck"))
    given, _ = _centre_of(book, size, name, gauge)
    first = f"floor(({CENTRE}) / 2) + floor(({{lap}} + 1) / 2)"
    template = first if told.startswith(ENDS[0]) else f"{CENTRE} - {first.replace(' + floor', ' - floor')}"
    rules = (RULE, "half of the middle at either end, and half of what overlaps")
    book.reckon(address, size, counts[size], "sts", template, {**given, "lap": lap}, spans=spans, rules=rules)
