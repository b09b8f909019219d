"""Reasons of solved counts: stitches of levels, rows of sections, neck, shoulders and slope."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Neck, Shoulders
from wale.draft.layout import LevelDraft, SectionDraft
from wale.draft.lengths import depth_key, slope_key
from wale.draft.stating import at
from wale.draft.widths import neck_key, neck_taken, neck_width, shoulder_key
from wale.explain.book import Book, both_ends, known, show
from wale.explain.measures import measure_inputs, wish_input
from wale.explain.reason import Input, Unit
from wale.measure import Measure
from wale.plan import COURSED, Level, PiecePlan, Section
from wale.quantity import in_unit, show_signed
from wale.source import Span


def gauge_input(swatch: str, per_cm: Fraction, span: Span, what: str) -> Input:
    """Give a gauge as an input."""
    return Input(f"gauge of {swatch}, {what}/cm", per_cm, f"{show(per_cm, 3)} {what}/cm", span)


def sts_gauge(book: Book, level: Level) -> Input:
    """Give the stitch gauge of a level."""
    return gauge_input(level.swatch, level.sts_per_cm, book.spec.swatches[level.swatch].washed.span, "sts")


def rows_gauge(book: Book, section: Section) -> Input:
    """Give the row gauge of a section."""
    return gauge_input(section.swatch, section.rows_per_cm, book.spec.swatches[section.swatch].washed.span, "rows")


def count_reasons(book: Book, piece: PiecePlan, size: int) -> None:
    """Tell all solved counts of a piece."""
    layout = book.layouts[piece.name]
    for level, drawn in zip(piece.levels, layout.levels, strict=True):
        _level(book, piece, level, drawn, size)
    for one in piece.girths:
        if one.level.wishes is not None:
            got = known(f"{one.level.address}.width", one.level.width(size), "cm wide")
            off = one.level.deviation(size)
            _deviation(book, one.level.address, size, got, one.level.wishes[size], off, one.level.measure)
    for index, (section, draft) in enumerate(zip(piece.sections, layout.sections, strict=True)):
        _section(book, piece, section, draft, index, size)
    if piece.top is not None:
        _top(book, piece, size)


def _level(book: Book, piece: PiecePlan, level: Level, draft: LevelDraft, size: int) -> None:
    unknown, count = at(draft.key, book.spec, size), level.counts[size]
    if level.wishes is None:
        _written(book, level.address, count, "sts", level.measure, unknown, size)
        return
    wish = level.measure.at(size)
    given: dict[str, Input] = {"wish": wish_input(level.measure, wish), "gauge": sts_gauge(book, level)}
    template = "{wish} * {gauge}"
    if draft.scale != 1:
        percent = show((1 - draft.scale) * 100)
        given["scale"] = Input(
            "narrower facing", draft.scale, f"{show(draft.scale)} ({percent} % narrower)", piece.steps[0].action.span
        )
        template = "{wish} * {scale} * {gauge}"
    if level.taken:
        given["edges"] = both_ends(piece, level.taken)
        template += " + {edges}"
    book.reckon(
        level.address,
        size,
        count,
        "sts",
        template,
        given,
        exact=level.wishes[size] * level.sts_per_cm + level.taken,
        deviation=level.deviation(size),
        spans=level.measure.inputs,
        also=measure_inputs(book, level.measure, size),
        unknown=unknown,
    )
    got = known(f"{level.address}.width", level.width(size), "cm wide")
    _deviation(book, level.address, size, got, level.wishes[size], level.deviation(size), level.measure)


def _deviation(
    book: Book, address: str, size: int, got: Input, wish: Fraction, deviation: Fraction, measure: Measure
) -> None:
    """What was got less what was wished, to two decimals."""
    given = {"got": got, "wish": known("wished", wish, "cm wished")}
    shown = show_signed(in_unit(deviation, book.spec.units), 2)
    spans = measure.inputs
    book.reckon(f"{address}.deviation", size, deviation, "cm", "{got} - {wish}", given, spans=spans, shown=shown)


def _section(book: Book, piece: PiecePlan, section: Section, draft: SectionDraft, index: int, size: int) -> None:
    unknown, rows = at(draft.key, book.spec, size), section.rows[size]
    unit: Unit = "rounds" if piece.in_round else "rows"
    address, step = f"{section.address}.rows", section.step.action.span
    if section.kind in COURSED:
        told = Input("rows that its lines make", rows, f"{rows} {unit} that its lines make", step)
        book.reckon(address, size, rows, unit, "{rows}", {"rows": told}, spans=(step,), unknown=unknown)
        return
    if section.kind == "shape" and section.measure is None:
        told = Input("rows that fit the cap", rows, f"{rows} rows with which the cap fits its armhole", step)
        book.reckon(address, size, rows, unit, "{rows}", {"rows": told}, spans=(step,), unknown=unknown)
        return
    if section.measure is None:
        words = f"{rows} row that folds" if section.kind == "turning" else f"{rows} rows, one for each side"
        given = {"rows": Input("rows of its kind", rows, words, step)}
        book.reckon(address, size, rows, unit, "{rows}", given, spans=(step,), unknown=unknown)
        return
    spans = (*section.measure.inputs, step)
    if section.wishes is None:
        _written(book, address, rows, unit, section.measure, unknown, size)
        return
    wish = section.wishes[size]
    given = {"wish": wish_input(section.measure, wish), "gauge": rows_gauge(book, section)}
    template, exact = "{wish} * {gauge}", wish * section.rows_per_cm
    if section.to:
        before = section.position[size] - section.length(size)
        below = f"{piece.sections[index - 1].address}.position" if index else "length so far"
        given["before"] = Input(below, before, f"{show(before)} cm so far")
        template, exact = "({wish} - {before}) * {gauge}", (wish - before) * section.rows_per_cm
    book.reckon(
        address,
        size,
        rows,
        unit,
        template,
        given,
        exact=exact,
        deviation=section.deviation(size),
        spans=spans,
        also=measure_inputs(book, section.measure, size),
        unknown=unknown,
    )
    name, length = ("position", section.position) if section.to else ("length", None)
    got = known(f"{section.address}.{name}", length[size] if length else section.length(size), "cm long")
    _deviation(book, address, size, got, wish, section.deviation(size), section.measure)


def _written(book: Book, address: str, count: int, unit: Unit, measure: Measure, unknown: str, size: int) -> None:
    given = {"count": Input(measure.words, count, f"{count} {unit} as written", measure.span)}
    also = measure_inputs(book, measure, size)
    book.reckon(address, size, count, unit, "{count}", given, spans=measure.inputs, also=also, unknown=unknown)


def _top(book: Book, piece: PiecePlan, size: int) -> None:
    top, layout, name = piece.top, book.layouts[piece.name], piece.name
    assert top is not None and top.neck_step is not None and top.shoulder_step is not None
    neck, shoulders = top.neck_step.action, top.shoulder_step.action
    assert isinstance(neck, Neck) and isinstance(shoulders, Shoulders)
    level, last = piece.levels[-1], piece.sections[-1]
    gauges = {"sts": sts_gauge(book, level), "rows": rows_gauge(book, last)}
    wished: tuple[tuple[str, str, int, Unit, Measure, Fraction, Span], ...] = (
        (
            "neck.stitches",
            neck_key(layout),
            top.neck[size],
            "sts",
            neck_width(layout),
            top.neck_wishes[size],
            neck.span,
        ),
        ("neck.rows", depth_key(layout), top.depth_rows(size), "rows", neck.depth, top.depth_wishes[size], neck.span),
        (
            "shoulders.rows",
            slope_key(layout),
            top.slope_rows[size],
            "rows",
            shoulders.slope,
            top.slope_wishes[size],
            shoulders.span,
        ),
    )
    for label, key, count, unit, measure, wish, span in wished:
        taken = neck_taken(book.spec, layout) if label == "neck.stitches" else 0
        edge = known("edge sts that a band takes up", taken, "edge sts", piece.edge.span) if taken else None
        wished_count(book, size, f"{name}.{label}", key, count, unit, measure, wish, span, gauges[unit], edge)
    given: dict[str, Input] = {
        "all": known(level.address, level.counts[size], "sts"),
        "neck": known(f"{name}.neck.stitches", top.neck[size], "neck sts"),
    }
    unknown = at(shoulder_key(layout), book.spec, size)
    spans = (shoulders.span, neck.span)
    book.reckon(
        f"{name}.shoulders.stitches",
        size,
        top.shoulder[size],
        "sts",
        "({all} - {neck}) / 2" if piece.ends_shaped > 1 else "{all} - {neck}",
        given,
        spans=spans,
        unknown=unknown,
    )


def wished_count(
    book: Book,
    size: int,
    address: str,
    key: str,
    count: int,
    unit: Unit,
    measure: Measure,
    wish: Fraction,
    span: Span,
    gauge: Input,
    edge: Input | None = None,
) -> None:
    """Tell a solved count that is no level or section: what was wished, at which gauge."""
    unknown = at(key, book.spec, size)
    if measure.is_count:
        _written(book, address, count, unit, measure, unknown, size)
        return
    per_cm, taken = Fraction(gauge.value or 0), Fraction(edge.value or 0) if edge is not None else Fraction(0)
    given = {"wish": wish_input(measure, wish), "gauge": gauge, **({"edge": edge} if edge is not None else {})}
    book.reckon(
        address,
        size,
        count,
        unit,
        "{wish} * {gauge}" + (" + {edge}" if edge is not None else ""),
        given,
        exact=wish * per_cm + taken,
        deviation=(count - taken) / per_cm - wish,
        spans=(*measure.inputs, span),
        also=measure_inputs(book, measure, size),
        unknown=unknown,
    )
