"""Reasons of finished measures in cm: lengths, widths, ease, what the schematics show."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import BindOff, Hem, Step
from wale.draft.layout import Layout
from wale.explain.book import Book, both_ends, known
from wale.explain.cords import cord_reasons
from wale.explain.counts import rows_gauge, sts_gauge
from wale.explain.reason import Input, Unit
from wale.plan import Level, PiecePlan
from wale.quantity import in_unit, show_signed
from wale.sewn import seams_of
from wale.write.context import Context
from wale.write.measurements import opening, side_seamed, worn_at


def length_reasons(book: Book, at: Context) -> None:
    """Tell the measures of a piece."""
    piece, size = at.piece, at.size
    layout = book.layouts[piece.name]
    _sections(book, at, layout)
    for level in piece.levels:
        _width(book, piece, level, size, level.label)
    for one in piece.girths:
        _width(book, piece, one.level, size, worn_at(book.spec, one.level))
    _marks(book, at)
    if piece.sections:
        last = piece.sections[-1]
        length = known(f"{last.address}.position", last.position[size], "cm")
        spans = (last.step.action.span,)
        book.reckon(
            f"{piece.name}.length", size, last.position[size], "cm", "{length}", {"length": length}, spans=spans
        )
        _all_rows(book, at)
    if piece.top is not None:
        _top(book, at)
    for step in piece.steps:
        if isinstance(step.action, Hem):
            _hem(book, piece, step, size)
        elif isinstance(step.action, BindOff):
            level = piece.levels[-1]
            given = {"sts": known(level.address, level.counts[size], "sts")}
            spans = (step.action.span,)
            book.reckon(f"{piece.name}.bind-off", size, level.counts[size], "sts", "{sts}", given, spans=spans)
            cord_reasons(
                book, piece.name, size, step.action.cord, (level.address, level.counts[size]), step.action.span
            )


def _all_rows(book: Book, at: Context) -> None:
    """All rows of a piece from its cast-on to its highest point."""
    piece, size = at.piece, at.size
    given = {
        f"part{number}": known(f"{one.address}.rows", one.rows[size], at.rows_word)
        for number, one in enumerate(piece.sections)
    }
    template, unit = " + ".join(f"{{{key}}}" for key in given), "rounds" if piece.in_round else "rows"
    spans = [one.step.action.span for one in piece.sections]
    book.reckon(f"{piece.name}.rows", size, piece.total_rows(size), unit, template, given, spans=spans)


def _sections(book: Book, at: Context, layout: Layout) -> None:
    size, before = at.size, Fraction(0)
    for index, section in enumerate(at.piece.sections):
        name, spans = section.address, (section.step.action.span,)
        rows = known(f"{name}.rows", section.rows[size], at.rows_word)
        gauge = rows_gauge(book, section)
        given = {"rows": rows, "gauge": gauge}
        length = section.length(size)
        if section.kind != "turning":
            book.reckon(f"{name}.length", size, length, "cm", "{rows} / {gauge}", given, spans=spans)
        if index < layout.fold:
            continue
        template = "{rows} / {gauge}"
        if index > layout.measured_from(index):
            given["before"] = known(f"{at.piece.sections[index - 1].address}.position", before, "cm")
            template = "{before} + {rows} / {gauge}"
        if section.kind == "aside":
            given, template = (
                {"before": known(f"{at.piece.sections[index - 1].address}.position", before, "cm")},
                "{before}",
            )
        before = section.position[size]
        book.reckon(f"{name}.position", size, before, "cm", template, given, spans=spans)
        swatch = book.spec.swatches[section.swatch]
        if swatch.counted is not None and section.kind in ("work", "shape", "bound"):
            given = {"washed": known(f"{name}.position", before, "cm washed"), "gauge": gauge}
            where = swatch.counted.span
            given["counted"] = known("rows/cm on the needles", swatch.counted.rows, "rows/cm on the needles", where, 3)
            needles = before * swatch.washed.rows / swatch.counted.rows
            template = "{washed} * {gauge} / {counted}"
            book.reckon(f"{name}.on-needles", size, needles, "cm", template, given, spans=spans)


def _width(book: Book, piece: PiecePlan, level: Level, size: int, measure: str) -> None:
    """A finished width, what it goes round, and the ease there, where the body has that measure."""
    given: dict[str, Input] = {"sts": known(level.address, level.counts[size], "sts"), "gauge": sts_gauge(book, level)}
    template = "{sts} / {gauge}"
    if level.taken:
        given["edges"] = both_ends(piece, level.taken)
        template = "({sts} - {edges}) / {gauge}"
    width, spans = level.width(size), (level.measure.span,)
    book.reckon(f"{level.address}.width", size, width, "cm", template, given, spans=spans)
    bodies = side_seamed(book.spec, book.plan)
    given = {"own": known(f"{level.address}.width", width, "cm")}
    template, girth = "{own}", width
    if piece in bodies:
        for number, other in enumerate(one for one in bodies if one is not piece):
            same = other.level(level.label)
            if same is not None:
                given[f"other{number}"] = known(f"{same.address}.width", same.width(size), "cm")
                template += f" + {{other{number}}}"
                girth += same.width(size)
        gap = opening(book.spec, book.plan, size)
        if gap:
            given["gap"] = known("opening between the halves", gap, "cm of opening")
            template, girth = f"{template} + {{gap}}", girth + gap
    elif not piece.is_tube and piece.make == 1:
        return
    book.reckon(f"{level.address}.around", size, girth, "cm", template, given, spans=spans)
    body = book.spec.sizes[size].measures.get(measure)
    if body is not None:
        where = body.span or book.spec.sizes[size].span
        bare = Input(f"{measure}, body", body.value, "", where, body.source, "cm of body")
        given = {"girth": known(f"{level.address}.around", girth, "cm"), "body": bare}
        ease = girth - body.value
        shown = show_signed(in_unit(ease, book.spec.units), 1)
        book.reckon(f"{level.address}.ease", size, ease, "cm", "{girth} - {body}", given, spans=spans, shown=shown)


def _marks(book: Book, at: Context) -> None:
    size, piece = at.size, at.piece
    spans = {step.action.span for step in piece.steps if step.address.endswith(tuple(f".{n}" for n, _ in piece.marks))}
    for name, rows in piece.marks:
        done = [0]
        for section in piece.sections:
            done.append(done[-1] + section.rows[size])
        index = done.index(rows[size])
        address = f"{piece.name}.{name}"
        given = {
            f"part{number}": known(f"{one.address}.rows", one.rows[size], at.rows_word)
            for number, one in enumerate(piece.sections[:index])
        }
        template = " + ".join(f"{{{key}}}" for key in given) or "0"
        unit: Unit = "rounds" if piece.in_round else "rows"
        book.reckon(f"{address}.rows", size, rows[size], unit, template, given, spans=sorted(spans))
        if not index:
            continue
        height = piece.sections[index - 1].position[size]
        below = {"below": known(f"{piece.sections[index - 1].address}.position", height, "cm")}
        book.reckon(f"{address}.height", size, height, "cm", "{below}", below, spans=sorted(spans))
        if name == "underarm" and piece.top is not None:
            last = piece.sections[-1]
            drop = piece.top.slope_rows[size] / last.rows_per_cm
            given = {
                "length": known(f"{piece.name}.length", last.position[size], "cm"),
                "slope": known(f"{piece.name}.shoulders.slope", drop, "cm of slope"),
                "mark": known(f"{address}.height", height, "cm to the mark"),
            }
            edge = last.position[size] - drop - height
            template = "{length} - {slope} - {mark}"
            book.reckon(f"{piece.name}.armhole-edge", size, edge, "cm", template, given, spans=sorted(spans))


def _hem(book: Book, piece: PiecePlan, step: Step, size: int) -> None:
    for kind in ("front", "facing"):
        for section in piece.sections:
            if section.kind == kind and section.step == step:
                given = {"length": known(f"{section.address}.length", section.length(size), "cm")}
                address, spans = f"{piece.name}.hem.depth", (step.action.span,)
                book.reckon(address, size, section.length(size), "cm", "{length}", given, spans=spans)
                return


def _top(book: Book, at: Context) -> None:
    piece, size, top = at.piece, at.size, at.piece.top
    assert top is not None and top.neck_step is not None and top.shoulder_step is not None
    last, level, name = piece.sections[-1], piece.levels[-1], piece.name
    sts, rows = sts_gauge(book, level), rows_gauge(book, last)
    neck, shoulders = (top.neck_step.action.span,), (top.shoulder_step.action.span,)
    taken, both = seams_of(book.spec, piece)[1], piece.ends_shaped > 1
    wide = (top.neck[size] - taken) / level.sts_per_cm
    given = {"sts": known(f"{name}.neck.stitches", top.neck[size], "sts"), "gauge": sts}
    template = "{sts} / {gauge}"
    if taken:
        given["edge"] = known("edge sts that a band takes up", taken, "edge sts", piece.edge.span)
        template = "({sts} - {edge}) / {gauge}"
    book.reckon(f"{name}.neck.width", size, wide, "cm", template, given, spans=neck)
    given = {"rows": known(f"{name}.neck.rows", top.depth_rows(size), "rows"), "gauge": rows}
    deep = top.depth_rows(size) / last.rows_per_cm
    book.reckon(f"{name}.neck.depth", size, deep, "cm", "{rows} / {gauge}", given, spans=neck)
    given = {"rows": known(f"{name}.shoulders.rows", top.slope_rows[size], "rows"), "gauge": rows}
    drop = top.slope_rows[size] / last.rows_per_cm
    book.reckon(f"{name}.shoulders.slope", size, drop, "cm", "{rows} / {gauge}", given, spans=shoulders)
    width = level.width(size)
    given = {
        "wide": known(f"{level.address}.width", width, "cm"),
        "neck": known(f"{name}.neck.width", wide, "cm of neck"),
    }
    half = (width - wide) / piece.ends_shaped
    template = "({wide} - {neck}) / 2" if both else "{wide} - {neck}"
    book.reckon(f"{name}.shoulders.width", size, half, "cm", template, given, spans=shoulders)
