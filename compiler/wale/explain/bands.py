"""Reasons of picked-up bands."""

from __future__ import annotations

from fractions import Fraction

from wale.armholes import rows_edge
from wale.draft.band_ends import goes_up
from wale.draft.bands import ARMHOLES, STRAIGHT, armhole_floor, front_rows
from wale.draft.opened import opens
from wale.draft.pocket_edges import POCKET
from wale.explain.book import Book, known
from wale.explain.collars import collar_reasons
from wale.explain.cords import cord_reasons
from wale.explain.counts import gauge_input
from wale.explain.even import even_reasons
from wale.explain.holes import hole_reasons
from wale.explain.insets import held_stitches
from wale.explain.measures import measure_inputs, wish_input
from wale.explain.mitres import mitre_reasons
from wale.explain.neck_bands import neck_reasons, opened_reasons
from wale.explain.reason import Input
from wale.materials import Swatch
from wale.measure import Measure
from wale.plan import BandPlan
from wale.sewn import FRONT_EDGE
from wale.shaping.gauge import nearest
from wale.shaping.pickup import along_rows, pick_up_ratio
from wale.shaping.rib import rib_rule
from wale.spec import PLACKET_EDGES, Band
from wale.write.context import Context
from wale.write.drawn_bands import is_drawn


def band_reasons(book: Book, at: Context, band: Band, plan: BandPlan) -> None:
    """Tell the numbers of a band: stitches along each edge, all of them, rounds and rib repeats."""
    size, swatch = at.size, book.spec.swatches[band.swatch]
    gauge = gauge_input(swatch.name, swatch.washed.stitches, swatch.washed.span, "sts")
    exact: list[int] = []
    pieces = {piece.name: piece for piece in book.plan.pieces}
    if opens(band, pieces):
        exact += opened_reasons(book, size, band, plan, gauge)
    else:
        if band.end and not goes_up(band, pieces):
            exact.append(_end(book, size, band, plan, 0, gauge))
        for name, edge in band.edges:
            exact += EDGES[edge](book, size, band, plan, name, len(exact), gauge)
        if band.end and goes_up(band, pieces):
            exact.append(_end(book, size, band, plan, len(exact), gauge))
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
    if plan.collar is not None:
        collar_reasons(book, size, band, plan, plan.collar)
    else:
        _rounds(book, size, band, plan, swatch)
    if plan.hood and band.hood is not None:
        _hood(book, at, band, band.hood, plan, gauge)
    if is_drawn(plan):
        _laid_flat(book, size, plan, swatch)
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
    template += _more(given, got - exact)
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
        template += _more(given, got - found)
        rules = ("one stitch for each stitch's width of the edge (docs/maths.md#pick-up-along-rows)",)
        address = f"{plan.name}.picked[{number + 1}]"
        book.reckon(address, size, got, "sts", template, given, spans=(band.span,), rules=rules)
        exact.append(found)
    return tuple(exact)


def _more(given: dict[str, Input], more: int) -> str:
    """Tell what a rib's multiple adds to a count, or takes from it: an input, and the end of the count's formula."""
    if not more:
        return ""
    given["more"] = known("for the rib's multiple", abs(more), "for the rib's multiple")
    return " + {more}" if more > 0 else " - {more}"


def _placket(book: Book, size: int, band: Band, plan: BandPlan, name: str, begin: int, gauge: Input) -> tuple[int, ...]:
    """One edge of a placket, by the ratio of gauges."""
    piece = book.plan.piece(name)
    assert piece is not None and piece.top is not None
    ratio = pick_up_ratio(Fraction(gauge.value or 0), piece.sections[-1].rows_per_cm)
    rows = known(f"{name}.placket.rows", piece.top.placket_rows[size], "rows of the placket")
    return _along(book, size, band, plan, begin, rows, ratio)


def _end(book: Book, size: int, band: Band, plan: BandPlan, begin: int, gauge: Input) -> int:
    """The end of another band, by the ratio of gauges."""
    other = next(one for one in book.plan.bands if one.name == band.end)
    ratio = pick_up_ratio(Fraction(gauge.value or 0), other.rows_per_cm)
    rows = known(f"{band.end}.rounds", other.rows[size], f"rows of the {band.end}")
    return _along(book, size, band, plan, begin, rows, ratio)[0]


def _along(
    book: Book, size: int, band: Band, plan: BandPlan, index: int, rows: Input, ratio: Fraction
) -> tuple[int, ...]:
    exact, got = along_rows(int(rows.value or 0), ratio), plan.picked[index][1][size]
    words = f"{ratio.numerator} sts for {ratio.denominator} rows"
    given, template = {"rows": rows, "ratio": Input("sts for a row", ratio, words)}, "floor({rows} * {ratio} + 1 / 2)"
    template += _more(given, got - exact)
    rules = ("sts along rows by the ratio of gauges (docs/maths.md#pick-up-along-rows)",)
    address = f"{plan.name}.picked[{index + 1}]"
    book.reckon(address, size, got, "sts", template, given, spans=(band.span,), rules=rules)
    return (exact,)


EDGES = {
    **dict.fromkeys(PLACKET_EDGES, _placket),
    "neck": neck_reasons,
    FRONT_EDGE: _front,
    ARMHOLES: _armhole,
    POCKET: held_stitches,
}
"""By edge: what tells its stitches."""


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


def _laid_flat(book: Book, size: int, plan: BandPlan, swatch: Swatch) -> None:
    """Tell the measures of a hood or a collar that its schematic shows."""
    across = gauge_input(swatch.name, swatch.washed.stitches, swatch.washed.span, "sts")
    up = gauge_input(swatch.name, swatch.washed.rows, swatch.washed.span, "rows")
    name, rows = plan.name, plan.rows[size]
    if plan.hood:
        given = {"sts": known(f"{name}.hood", plan.hood[size], "sts"), "gauge": across}
        half = plan.hood[size] / plan.sts_per_cm / 2
        book.reckon(f"{name}.hood.half", size, half, "cm", "{sts} / {gauge} / 2", given, spans=(plan.span,))
    else:
        given = {"sts": known(f"{name}.stitches", plan.stitches[size], "sts"), "gauge": across}
        along = plan.stitches[size] / plan.sts_per_cm
        book.reckon(f"{name}.along", size, along, "cm", "{sts} / {gauge}", given, spans=(plan.span,))
    given = {"rows": known(f"{name}.rounds", rows, "rows"), "gauge": up}
    book.reckon(f"{name}.depth", size, rows / plan.rows_per_cm, "cm", "{rows} / {gauge}", given, spans=(plan.span,))
    if plan.collar is not None:
        front = plan.collar.front(size)
        given = {"rows": known(f"{name}.collar.front", front, "rows in front"), "gauge": up}
        deep = front / plan.rows_per_cm
        book.reckon(f"{name}.collar.depth", size, deep, "cm", "{rows} / {gauge}", given, spans=(plan.span,))


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
