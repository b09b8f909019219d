"""Reasons of what a section's rows hold: shaping schedules, chart rows and columns, rows left to work plain."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Fabric, Shape
from wale.draft.motifs import leader_of, placing_level
from wale.draft.repeats import kind_at, matching_axes, round_start
from wale.explain.book import Book, both_ends, charted, end_stitches, known, show
from wale.explain.reason import Input, Unit
from wale.explain.side_edges import cut_schedule
from wale.materials import Motif
from wale.plan import Level, Section
from wale.write.context import Context
from wale.write.rows import shaping_rows
from wale.write.side_edges import below_top, is_cut, top_rows

TAPER = "shorter intervals first, the first shaping row counts as one of them (docs/maths.md#taper)"


def row_reasons(book: Book, at: Context, section: Section, index: int) -> None:
    """Tell the derived numbers of a section, but for even changes and ribs."""
    if section.schedules:
        _schedule(book, at, section)
        cut_schedule(book, at, section)
    if section.kind == "bound":
        _bound(book, at, section)
    plain = _plain(book, at, section, index)
    if at.motif(section) is not None:
        _chart(book, at, section, index, plain)
        if section.schedules:
            _starts(book, at, section)


def _schedule(book: Book, at: Context, section: Section) -> None:
    action, size, name = section.step.action, at.size, section.address
    assert isinstance(action, Shape)
    first, last = at.piece.levels[section.first], at.piece.levels[section.last]
    before, after, rows = first.counts[size], last.counts[size], section.rows[size]
    low, high = sorted((known(first.address, before, "sts"), known(last.address, after, "sts")), key=_value)
    schedule, spans, unit = section.schedules[size], (action.span,), 1 if action.any_row else 2
    steps = schedule.steps
    rules = [TAPER, "on any row" if action.any_row else "on right-side rows only, so on every 2nd row at most"]
    ends = {"high": high, "low": low}
    both = "({high} - {low}) / 2" if at.piece.ends_shaped > 1 else "{high} - {low}"
    book.reckon(f"{name}.shapings", size, steps, "times", both, ends, spans=spans, rules=rules[1:])
    if not schedule.first:
        return
    given = {"rows": known(f"{name}.rows", rows, "rows"), "steps": known(f"{name}.shapings", steps, "shapings")}
    pairs = "floor({rows} / 2)" if unit == 2 else "{rows}"
    short = f"floor({pairs} / {{steps}})"
    interval = f"2 * {short}" if unit == 2 else short
    start = f"{interval} - 1" if unit == 2 else interval
    book.reckon(f"{name}.first", size, schedule.first, "row", start, given, spans=spans, rules=rules)
    longer = f"mod({pairs}, {{steps}})"
    quotient = (rows // unit // steps) * unit
    for number, (every, times) in enumerate(schedule.then, 1):
        is_short = every == quotient
        how = interval if is_short else f"{interval} + {unit}"
        often = f"{{steps}} - {longer} - 1" if is_short else longer
        book.reckon(f"{name}.interval[{number}]", size, every, "rows", how, given, spans=spans, rules=rules)
        book.reckon(f"{name}.times[{number}]", size, times, "times", often, given, spans=spans, rules=rules)


def _bound(book: Book, at: Context, section: Section) -> None:
    """The stitches bound off at each side, and those left after the first of both rows."""
    first, last = at.piece.levels[section.first], at.piece.levels[section.last]
    size, name, spans = at.size, section.address, (section.step.action.span,)
    low, high = known(first.address, first.counts[size], "sts"), known(last.address, last.counts[size], "sts")
    rules = ("as many at each side, each at the start of a row",)
    how = "({below} - {above}) / 2" if at.piece.ends_shaped > 1 else "{below} - {above}"
    given = {"below": low, "above": high}
    book.reckon(f"{name}.each", size, at.bound_off(section), "sts", how, given, spans=spans, rules=rules)
    given = {"below": low, "each": known(f"{name}.each", at.bound_off(section), "sts bound off")}
    after = at.first_count(section) - at.bound_off(section)
    book.reckon(f"{name}.after-first", size, after, "sts", "{below} - {each}", given, spans=spans)


def _value(one: Input) -> Fraction:
    return Fraction(one.value or 0)


def _plain(book: Book, at: Context, section: Section, index: int) -> int:
    """Tell the rows of a section that its line says to work, and give them."""
    size, rows, piece = at.size, section.rows[at.size], at.piece
    changes = [one[size] for one in (section.even_start, section.even_change) if one is not None]
    evened = sum(bool(change) for change in changes)
    unit: Unit = "rounds" if piece.in_round else "rows"
    given = {"rows": known(f"{section.address}.rows", rows, unit)}
    address, spans = f"{section.address}.plain", (section.step.action.span,)
    if piece.top is not None and index == len(piece.sections) - 1:
        given["top"] = known(f"{piece.name}.top.rows", top_rows(at), "rows of the top")
        plain = below_top(at, section) - evened
        template = "max(0, {rows} - {top})"
        if evened:
            given["even"] = Input("row of the even change", 1, "1 row of the even change")
            template += " - {even}"
        book.reckon(address, size, plain, "rows", template, given, spans=spans)
        return plain
    if is_cut(at, section):
        plain = below_top(at, section)
        given["above"] = known("rows told with the neck", rows - plain, "rows told with the neck")
        book.reckon(address, size, plain, "rows", "{rows} - {above}", given, spans=spans)
        return plain
    in_others = any(any(one) for one in (section.even_start, section.even_change) if one is not None)
    if not evened and in_others:
        book.reckon(address, size, rows, unit, "{rows}", given, spans=spans)
    if evened:
        words = "row of the even change" if evened == 1 else "rows of the even changes"
        given["even"] = Input(words, evened, f"{evened} {words}")
        book.reckon(address, size, rows - evened, unit, "{rows} - {even}", given, spans=spans)
        return rows - evened
    return rows


def _chart(book: Book, at: Context, section: Section, index: int, plain: int) -> None:
    motif, size, name = at.motif(section), at.size, section.address
    assert motif is not None and section.chart_start is not None and section.fabric is not None
    fit = section.fabric.fit
    spans = (section.fabric.span, fit.span, section.step.action.span)
    given = {
        "period": known(
            f"rows of {motif.name}", motif.charted(at.piece.in_round), f"chart rows of {motif.name}", motif.span
        )
    }
    earlier = [one for one in at.piece.sections[:index] if one.fabric == section.fabric]
    first = at.chart_row(section, 1)
    unit: Unit = "round" if at.piece.in_round else "row"
    if earlier:
        below = earlier[-1]
        given["start"] = known(f"{below.address}.chart-first", at.chart_row(below, 1), "as its first chart row")
        given["rows"] = known(f"{below.address}.rows", below.rows[size], f"{at.rows_word} below")
        template = "mod({start} - 1 + {rows}, {period}) + 1"
    elif fit.meets is not None:
        template = _meets(at, section, motif, given)
    else:
        template, given = "1", {}
    book.reckon(f"{name}.chart-first", size, first, unit, template, given, spans=spans)
    if section.kind == "crown" and at.piece.crown is not None:
        later = int(at.first_count(section) != at.piece.crown.start[size])
        given = {
            "start": known(f"{name}.chart-first", first, "as first chart row"),
            "even": known("rounds that even stitches out", later, "rounds before it"),
            "period": charted(motif, at.piece.in_round),
        }
        template = "mod({start} - 1 + {even}, {period}) + 1"
        book.reckon(f"{name}.chart-from", size, at.chart_row(section, 1 + later), unit, template, given, spans=spans)
    covered = section.rows[size] if section.kind == "crown" else plain
    if covered:
        given = {
            "start": known(f"{name}.chart-first", first, "as first chart row"),
            "rows": known(f"{name}.plain" if plain != section.rows[size] else f"{name}.rows", covered, at.rows_word),
            "period": known(
                f"rows of {motif.name}", motif.charted(at.piece.in_round), f"chart rows of {motif.name}", motif.span
            ),
        }
        template = "mod({start} - 1 + {rows} - 1, {period}) + 1"
        book.reckon(f"{name}.chart-last", size, at.chart_row(section, covered), unit, template, given, spans=spans)
        # Begun at row 1 the whole chart is told at once; else its first part comes before it.
        whole = (first - 1 + covered) // motif.charted(at.piece.in_round) - (first > 1)
        if whole > 0:
            template = "floor(({start} - 1 + {rows}) / {period})" + (" - 1" if first > 1 else "")
            book.reckon(f"{name}.chart-times", size, whole, "times", template, given, spans=spans)
    if not earlier:
        _centre(book, at, section, section.fabric, motif)
        columns(book, at, section, name, at.first_count(section), at.piece.levels[section.first].address)


def _meets(at: Context, section: Section, motif: Motif, given: dict[str, Input]) -> str:
    """The chart row that lets the last row of this fabric meet another piece's row at a mark."""
    assert section.fabric is not None and section.fabric.fit.meets is not None
    name, mark = section.fabric.fit.meets
    other, size = at.plan.piece(name), at.size
    assert other is not None
    begins = next(i for i, one in enumerate(other.sections) if one.fabric and one.fabric.motif == motif.name)
    start = other.sections[begins].chart_start
    assert start is not None
    own = sum(one.rows[size] for one in at.piece.sections if one.fabric == section.fabric)
    given["start"] = known(f"{other.sections[begins].address}.chart-first", start[size] + 1, f"as the {name} begins")
    given["rows"] = known(f"{name}.{mark}.rows", dict(other.marks)[mark][size], f"rows of the {name} to {mark}")
    given["below"] = known(f"{name} below the chart", other.rows_to(begins, size), "rows below its chart")
    given["own"] = known(f"{at.piece.name} in {motif.name}", own, f"rows of the {at.piece.name} in chart")
    return "mod({start} - 1 + {rows} - {below} - {own}, {period}) + 1"


def _centre(book: Book, at: Context, section: Section, fabric: Fabric, motif: Motif) -> None:
    """The motif column on the centre line: an axis, or what follows from the right edge."""
    assert section.centre is not None
    centre, size, piece = section.centre[at.size], at.size, at.piece
    level = placing_level(piece, fabric)
    kind = kind_at(fabric.fit, level.label)
    middle = Fraction(level.counts[size] - level.edges - 1, 2)
    axes = matching_axes(motif, fabric.fit.axis)
    fitting = [axis for axis in axes if axis.denominator == middle.denominator]
    leader = leader_of(book.spec, piece) if fabric.fit.seams == "unbroken" else None
    if piece.half is not None:
        given = _at_opening(book, at, section, motif)
        sign = "+" if piece.half.hand == "left" else "-"
        template = f"mod({{centre}} {sign} ({{count}} - 1 - ({{whole}} - 1) / 2), {{width}})"
        why = "the motif stands as on the whole piece, side to side with it"
    elif leader is not None:
        given = _over_the_seam(book, leader, level, fabric, motif, size)
        template, why = "mod({centre} + ({count} + {other} - {edges}) / 2, {width})", "the motif runs on over the seam"
    elif not piece.is_tube and kind not in ("whole", "half", "edge") and fitting:
        given = {"axis": Input(f"axis of {motif.name}", fitting[0], f"column {show(fitting[0])}", motif.span)}
        template, why = "{axis}", "a mirror axis of the motif stands on the centre line"
    else:
        start = Fraction(round_start(motif, fabric.fit, piece.is_tube))
        if not piece.is_tube and kind in ("whole", "half") and axes:
            start = axes[0] if axes[0].denominator == 1 else axes[0] + Fraction(1, 2)
        given = {
            "start": Input(f"first column of {motif.name}", start, f"column {show(start)} at the edge", motif.span),
            "count": known(level.address, level.counts[size], "sts"),
            "edges": both_ends(piece, level.edges),
            "width": known(f"stitches of {motif.name}", motif.width, f"sts of {motif.name}", motif.span),
        }
        template, why = "mod({start} + ({count} - {edges} - 1) / 2, {width})", "the motif starts at the right edge"
        if piece.is_tube and fabric.fit.at_plainest:
            why = "rounds start at the column whose yarn changes in the fewest rows"
    if piece.steek is not None:
        template = f"mod({template} - 1 / 2, {{width}})"
        given = given | {"width": known(f"stitches of {motif.name}", motif.width, f"sts of {motif.name}", motif.span)}
        why += ", half a stitch from that of the round, whose first sts of the steek are one more than its last"
    rules = (why, "columns count from 0 at the right here; a half lies between two stitches")
    book.reckon(f"{section.address}.centre", size, centre, "column", template, given, spans=(fabric.span,), rules=rules)


def _at_opening(book: Book, at: Context, section: Section, motif: Motif) -> dict[str, Input]:
    """What tells the column at the opening of a half piece: that on the centre line of the whole one."""
    piece, size = at.piece, at.size
    assert piece.half is not None
    whole = book.plan.piece(piece.half.whole)
    assert whole is not None
    same = whole.sections[piece.sections.index(section)]
    assert same.centre is not None
    centre, level, other = same.centre[size], piece.levels[section.first], whole.levels[section.first]
    said = f"column {show(centre)} on the centre line of the {whole.name}"
    return {
        "centre": Input(f"{same.address}.centre", centre, said),
        "count": known(level.address, level.counts[size], "sts"),
        "whole": known(other.address, other.counts[size], f"sts of the {whole.name}"),
        "width": known(f"stitches of {motif.name}", motif.width, f"sts of {motif.name}", motif.span),
    }


def _over_the_seam(book: Book, leader: str, level: Level, fabric: Fabric, motif: Motif, size: int) -> dict[str, Input]:
    """What tells the centre of a piece that goes on where another ends."""
    other = book.plan.piece(leader)
    assert other is not None
    same = next(one for one in other.sections if one.fabric is not None and one.fabric.motif == fabric.motif)
    assert same.fabric is not None and same.centre is not None
    before, address = placing_level(other, same.fabric), f"{same.address}.centre"
    centre, edges = same.centre[size], before.edges + level.edges
    return {
        "centre": Input(address, centre, f"column {show(centre)} on the centre line of the {leader}"),
        "count": known(level.address, level.counts[size], "sts"),
        "other": known(before.address, before.counts[size], f"sts of the {leader}"),
        "edges": known("edge sts of both pieces", edges, "edge sts of both pieces", other.edge.span),
        "width": known(f"stitches of {motif.name}", motif.width, f"sts of {motif.name}", motif.span),
    }


def columns(book: Book, at: Context, section: Section, name: str, count: int, counted: str) -> None:
    """Tell the chart columns at which right-side and wrong-side rows of `count` stitches begin."""
    motif = at.motif(section)
    assert motif is not None and section.centre is not None and section.fabric is not None
    right, wrong = at.start_columns(section, count)
    opening = next(one for one in at.piece.sections if one.fabric == section.fabric)
    centre = section.centre[at.size]
    given = {
        "centre": Input(f"{opening.address}.centre", centre, f"column {show(centre)} on the centre line"),
        "count": known(counted, count, "sts"),
        "width": known(f"stitches of {motif.name}", motif.width, f"sts of {motif.name}", motif.span),
    }
    spans = (section.fabric.span, section.step.action.span)
    ends = zip((("column", right, "-"), ("column-ws", wrong, "+")), at.ends, strict=True)
    for place, ((label, value, sign), stitches) in enumerate(ends):
        given = given | {"edge": end_stitches(at.piece, stitches)}
        # stitches from the one that keeps its place to the end of the row
        far = {1: "({count} - 1) / 2", 2 - 2 * place: "{count} - 1"}.get(section.pivot, "0")
        template = f"mod({{centre}} {sign} ({far} - {{edge}}), {{width}}) + 1"
        book.reckon(f"{name}.{label}", at.size, value, "column", template, given, spans=spans)


def _starts(book: Book, at: Context, section: Section) -> None:
    """The table of shaping rows: row, stitches after it, columns."""
    size, name = at.size, section.address
    schedule = section.schedules[size]
    every = [interval for interval, times in schedule.then for _ in range(times)]
    assert isinstance(section.step.action, Shape)
    spans = (section.step.action.span,)
    rows = shaping_rows(at, section)
    before = known(at.piece.levels[section.first].address, at.first_count(section), "sts")
    sign = "+" if at.last_count(section) > at.first_count(section) else "-"
    each = "2 * " if at.piece.ends_shaped > 1 else ""
    for number, (row, count) in enumerate(rows, 1):
        mine = f"{name}.shaping[{number}]"
        if number == 1:
            given = {"row": known(f"{name}.first", row, "as the first shaping row")}
            book.reckon(f"{mine}.row", size, row, "row", "{row}", given, spans=spans)
        else:
            last = f"{name}.shaping[{number - 1}].row"
            given = {"row": known(last, rows[number - 2][0]), "every": known("interval", every[number - 2], "rows on")}
            book.reckon(f"{mine}.row", size, row, "row", "{row} + {every}", given, spans=spans)
        given = {"before": before, "shapings": known("shaping rows so far", number, "shapings")}
        book.reckon(f"{mine}.stitches", size, count, "sts", f"{{before}} {sign} {each}{{shapings}}", given, spans=spans)
        columns(book, at, section, mine, count, f"{mine}.stitches")
