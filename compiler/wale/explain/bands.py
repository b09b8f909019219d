"""Reasons of picked-up bands."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.armholes import rows_edge
from wale.draft.bands import ARMHOLES, STRAIGHT, armhole_floor, front_rows
from wale.draft.mitres import mitred_neck
from wale.draft.pocket_edges import POCKET
from wale.draft.seams import FRONT_EDGE, seams_of
from wale.explain.book import Book, known, show
from wale.explain.cords import cord_reasons
from wale.explain.counts import gauge_input
from wale.explain.even import even_reasons
from wale.explain.holes import hole_reasons
from wale.explain.insets import held_stitches
from wale.explain.measures import measure_inputs, wish_input
from wale.explain.mitres import mitre_reasons
from wale.explain.reason import Input
from wale.materials import Swatch
from wale.measure import Measure
from wale.plan import BandPlan
from wale.shaping.gauge import nearest
from wale.shaping.pickup import along_rows, hypotenuse
from wale.shaping.rib import rib_rule
from wale.spec import Band
from wale.write.context import Context


def band_reasons(book: Book, at: Context, band: Band, plan: BandPlan) -> None:
    """Tell the numbers of a band: stitches along each edge, all of them, rounds and rib repeats."""
    size, swatch = at.size, book.spec.swatches[band.swatch]
    gauge = gauge_input(swatch.name, swatch.washed.stitches, swatch.washed.span, "sts")
    exact: list[int] = []
    for name, edge in band.edges:
        exact += EDGES[edge](book, size, band, plan, name, len(exact), gauge)
    multiple = band.rib.multiple
    modulus, rest = (1, 0) if multiple is None else rib_rule(*multiple, in_round=not plan.is_flat)
    given = {
        "picked": known("stitches along all edges", sum(exact), "sts along all edges"),
        "rib": Input("stitches of a rib", modulus, f"{modulus} sts of a rib", band.rib.span),
    }
    template, rules = "{rib} * floor({picked} / {rib} + 1 / 2)", (f"{band.rib.texture}: a multiple of {modulus}",)
    if rest:
        given["rest"] = Input("knit sts that close the rib", rest, f"{rest} knit sts", band.rib.span)
        template = "{rib} * floor(({picked} - {rest}) / {rib} + 1 / 2) + {rest}"
        rules = (f"rib: a multiple of {modulus} plus {rest}",)
    total = plan.stitches[size]
    spans = (band.span, band.rib.span)
    book.reckon(f"{plan.name}.stitches", size, total, "sts", template, given, spans=spans, rules=rules)
    counted = (f"{plan.name}.stitches", total)
    if band.rib.multiple is not None:
        _repeats(book, at, band, plan, counted)
    _rounds(book, size, band, plan, swatch)
    if plan.hood and band.hood is not None:
        _hood(book, at, band, band.hood, plan, gauge)
    if plan.mitres:
        mitre_reasons(book, size, band, plan)
    last = counted if not plan.mitres else (f"{plan.name}.mitre.left", plan.last(size))
    cord_reasons(book, plan.name, size, band.cord, last, band.span)
    if plan.holes:
        hole_reasons(book, size, band, plan)


def _hood(book: Book, at: Context, band: Band, measure: Measure, plan: BandPlan, gauge: Input) -> None:
    """Tell the stitches of a hood, and how its first row comes to them."""
    size, wide, spans = at.size, plan.hood[at.size], (*measure.inputs, band.rib.span)
    given = {"wish": wish_input(measure, measure.at(size)), "gauge": gauge}
    template = "2 * floor({wish} / 2 + 1 / 2)" if measure.is_count else "2 * floor({wish} * {gauge} / 2 + 1 / 2)"
    if measure.is_count:
        del given["gauge"]
    rules = ("an even number, for its halves are joined stitch by stitch",)
    book.reckon(f"{plan.name}.hood", size, wide, "sts", template, given, spans=spans, rules=rules)
    before, after = (f"{plan.name}.stitches", plan.stitches[size]), (f"{plan.name}.hood", wide)
    evened = int(wide > before[1])
    given = {
        "rounds": known(f"{plan.name}.rounds", plan.rows[size], "rows"),
        "first": known("rows that widen it", evened, "rows that widen it"),
    }
    book.reckon(f"{plan.name}.rows", size, plan.rows[size] - evened, "rows", "{rounds} - {first}", given, spans=spans)
    if evened:
        even_reasons(book, at, f"{plan.name}.evened", before, after, band.rib.span)


def _neck(book: Book, size: int, band: Band, plan: BandPlan, name: str, begin: int, gauge: Input) -> tuple[int, ...]:
    """Side, centre and side of one neck, or those of half a neck; gives them before the rib's multiple is met."""
    piece = book.plan.piece(name)
    assert piece is not None and piece.top is not None
    top, swatch = piece.top, piece.sections[-1].swatch
    body = book.spec.swatches[swatch].washed
    steps = top.steps[size]
    slant = sum((hypotenuse(step / body.stitches, 2 / body.rows) for step in steps), Fraction(0))
    straight = top.neck_rows[size] - 2 * len(steps)
    per_cm = Fraction(gauge.value or 0)
    side = nearest((slant + straight / body.rows) * per_cm)
    seam = seams_of(book.spec, piece)[1]
    across = max(0, top.centre[size] - seam)
    centre = nearest(across / body.stitches * per_cm)
    rows = gauge_input(swatch, body.rows, body.span, "rows")
    sts = gauge_input(swatch, body.stitches, body.span, "sts")
    given = {
        "slant": Input(f"{name}.neck.step[1]", slant, f"{show(slant)} cm along the steps"),
        "straight": known(f"{name}.neck.rows", straight, "straight rows"),
        "rows": rows,
        "gauge": gauge,
    }
    template = "floor(({slant} + {straight} / {rows}) * {gauge} + 1 / 2)"
    spans = (band.span,)
    rules = ["one stitch for each stitch's width of the edge (docs/maths.md#pick-up-along-rows)"]
    address = f"{plan.name}.picked[{{}}]"
    flat = {"centre": known(f"{name}.neck.centre", across, "sts"), "sts": sts, "gauge": gauge}
    parts: tuple[str, ...] = ("side", "centre", "side")
    if piece.half is not None:
        mine = [told for told, _ in plan.picked[begin:] if told.endswith(f"of the {name} neck")]
        parts = tuple("centre" if told.startswith("the centre") else "side" for told in mine)
    for index, part in enumerate(parts, begin):
        if part == "centre":
            _centre(book, size, plan, index, flat, centre, rules, band)
            continue
        got = plan.picked[index][1][size]
        told, more = template, dict(given)
        if got != side:
            more["more"] = known("for a rib that mirrors", abs(got - side), "for a rib that mirrors at the mitre")
            told += " + {more}" if got > side else " - {more}"
        book.reckon(address.format(index + 1), size, got, "sts", told, more, spans=spans, rules=rules)
    if band.mitred and name == mitred_neck(band, {one.name: one for one in book.plan.pieces}):
        return tuple(plan.picked[index][1][size] for index in range(begin, begin + len(parts)))
    return tuple(side if part == "side" else centre for part in parts)


def _front(book: Book, size: int, band: Band, plan: BandPlan, name: str, begin: int, gauge: Input) -> tuple[int, ...]:
    """The front edge of a half piece, by the ratio of gauges."""
    piece = book.plan.piece(name)
    assert piece is not None
    runs = front_rows(piece, Fraction(gauge.value or 0), size)
    given: dict[str, Input] = {}
    terms = []
    for number, (rows, ratio) in enumerate(runs):
        given[f"rows{number}"] = known(f"rows of the front edge, run {number + 1}", rows, "rows")
        given[f"ratio{number}"] = Input("sts for a row", ratio, f"{ratio.numerator} sts for {ratio.denominator} rows")
        terms.append(f"floor({{rows{number}}} * {{ratio{number}}} + 1 / 2)")
    exact = sum(along_rows(rows, ratio) for rows, ratio in runs)
    got, template = plan.picked[begin][1][size], " + ".join(terms)
    more = got - exact
    if more:
        given["more"] = known("for the rib's multiple", abs(more), "for the rib's multiple")
        template += " + {more}" if more > 0 else " - {more}"
    rules = ("sts along rows by the ratio of gauges (docs/maths.md#pick-up-along-rows)",)
    address = f"{plan.name}.picked[{begin + 1}]"
    book.reckon(address, size, got, "sts", template, given, spans=(band.span,), rules=rules)
    return (exact,)


def _armhole(book: Book, size: int, band: Band, plan: BandPlan, name: str, begin: int, gauge: Input) -> tuple[int, ...]:
    """What is bound off at the underarm, and the edge along the rows; the second piece's in the opposite order."""
    piece = book.plan.piece(name)
    assert piece is not None
    exact = []
    for number, (part, counts) in enumerate(plan.picked[begin:], begin):
        if not part.endswith(f"the {name} armhole"):
            break
        along = part.startswith(STRAIGHT)
        length, words = (
            (rows_edge(piece, size), "along the rows")
            if along
            else (armhole_floor(book.spec, piece, size), "bound off")
        )
        got, found = counts[size], nearest(length * Fraction(gauge.value or 0))
        given = {"edge": known(f"armhole of the {name}", length, f"cm {words}"), "gauge": gauge}
        template = "floor({edge} * {gauge} + 1 / 2)"
        if got != found:
            given["more"] = known("for the rib's multiple", abs(got - found), "for the rib's multiple")
            template += " + {more}" if got > found else " - {more}"
        rules = ("one stitch for each stitch's width of the edge (docs/maths.md#pick-up-along-rows)",)
        address = f"{plan.name}.picked[{number + 1}]"
        book.reckon(address, size, got, "sts", template, given, spans=(band.span,), rules=rules)
        exact.append(found)
    return tuple(exact)


EDGES = {"neck": _neck, FRONT_EDGE: _front, ARMHOLES: _armhole, POCKET: held_stitches}
"""By edge: what tells its stitches."""


def _centre(
    book: Book,
    size: int,
    plan: BandPlan,
    index: int,
    given: Mapping[str, Input],
    exact: int,
    rules: list[str],
    band: Band,
) -> None:
    got = plan.picked[index][1][size]
    template = "floor({centre} / {sts} * {gauge} + 1 / 2)"
    more = got - exact
    if more:
        given = {**given, "more": known("for the rib's multiple", abs(more), "for the rib's multiple")}
        template += " + {more}" if more > 0 else " - {more}"
    book.reckon(f"{plan.name}.picked[{index + 1}]", size, got, "sts", template, given, spans=(band.span,), rules=rules)


def _repeats(book: Book, at: Context, band: Band, plan: BandPlan, counted: tuple[str, int]) -> None:
    given = {
        "sts": known(counted[0], counted[1], "sts"),
        "knit": Input("knit sts of a rib", band.rib.knit, f"{band.rib.knit} knit"),
        "purl": Input("purl sts of a rib", band.rib.purl, f"{band.rib.purl} purl"),
    }
    rest = band.rib.knit if plan.is_flat else 0
    repeats = (counted[1] - rest) // (band.rib.knit + band.rib.purl)
    template = "({sts} - {knit}) / ({knit} + {purl})" if rest else "{sts} / ({knit} + {purl})"
    book.reckon(f"{plan.name}.repeats", at.size, repeats, "repeats", template, given, spans=(band.rib.span,))


def _rounds(book: Book, size: int, band: Band, plan: BandPlan, swatch: Swatch) -> None:
    measure, rounds = band.rib.depth, plan.rows[size]
    address, spans = f"{plan.name}.rounds", (*measure.inputs, band.rib.span)
    if measure.is_count:
        layers = 2 if plan.is_folded else 1
        asked = rounds // layers
        given = {"rounds": Input(measure.words, asked, f"{asked} rounds as written", measure.span)}
        template = "2 * {rounds}" if plan.is_folded else "{rounds}"
        book.reckon(address, size, rounds, "rounds", template, given, spans=spans)
        return
    wish = measure.at(size)
    given = {
        "wish": wish_input(measure, wish),
        "gauge": gauge_input(swatch.name, swatch.washed.rows, swatch.washed.span, "rounds"),
    }
    if plan.is_folded:
        template, rules = "2 * floor({wish} * {gauge} + 1 / 2)", ("folded: as many rounds inside as outside",)
        off = plan.depth(size) - wish
        book.reckon(address, size, rounds, "rounds", template, given, spans=spans, rules=rules, deviation=off)
        return
    book.reckon(
        address,
        size,
        rounds,
        "rounds",
        "{wish} * {gauge}",
        given,
        exact=wish * swatch.washed.rows,
        deviation=rounds / swatch.washed.rows - wish,
        spans=spans,
        rules=("the nearest whole round",),
        also=measure_inputs(book, measure, size),
    )
