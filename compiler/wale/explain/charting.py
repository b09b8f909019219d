"""Reasons of the numbers of charts: size, repeat, shift, runs of a colour in the words, and strands to catch."""

from __future__ import annotations

from itertools import groupby

from wale.actions import Crown
from wale.checks.floats import Float, long_floats, most_stitches
from wale.explain.book import Book, known, show
from wale.explain.reason import Input
from wale.materials import Motif


def chart_reasons(book: Book) -> None:
    """Tell the numbers of each chart that the pattern holds."""
    for motif, in_round in charted(book):
        name = chart_name(motif, in_round)
        _size(book, motif, name, in_round)
        for row in range(motif.charted(in_round) if not motif.wedge else len(motif.rows)):
            _runs(book, motif, f"{name}[{row + 1}]", row, wrong=not in_round and row % 2 == 1)
    for one in long_floats(book.spec, book.plan):
        _float(book, one)


def charted(book: Book) -> list[tuple[Motif, bool]]:
    """Give the motifs with a chart, each with whether it is worked in the round, as `write.charts` orders them."""
    found: dict[tuple[str, bool], None] = {}
    wedges: dict[str, None] = {}
    for piece in book.plan.pieces:
        for section in piece.sections:
            if section.fabric is not None and section.fabric.motif is not None:
                found[section.fabric.motif, piece.in_round] = None
        action = piece.crown.step.action if piece.crown is not None else None
        if isinstance(action, Crown) and action.chart is not None:
            wedges[action.chart] = None
    motifs = book.spec.motifs
    return [*((motifs[name], in_round) for name, in_round in found), *((motifs[name], True) for name in wedges)]


def chart_name(motif: Motif, in_round: bool) -> str:
    """Give the address of a chart: `chart.grist` worked flat, `chart.grist-round` in the round."""
    return f"chart.{motif.name}{'-round' if in_round else ''}"


def _size(book: Book, motif: Motif, name: str, in_round: bool) -> None:
    spans = (motif.span,)
    given = {"width": Input(f"stitches of {motif.name}", motif.width, f"{motif.width} sts a row", motif.row_spans[0])}
    book.reckon(f"{name}.width", None, motif.width, "sts", "{width}", given, spans=spans)
    rows = len(motif.rows)
    given = {"rows": Input(f"rows of {motif.name}", rows, f"{rows} rows as written", motif.span)}
    book.reckon(f"{name}.motif-rows", None, rows, "rows", "{rows}", given, spans=spans)
    whole = motif.charted(in_round) if not motif.wedge else rows
    given["times"] = Input("times until it stands as at first", whole // rows, f"{whole // rows} times")
    book.reckon(f"{name}.rows", None, whole, "rows", "{rows} * {times}", given, spans=spans)
    for number, axis in enumerate(motif.axes() if not motif.wedge else (), 1):
        given = {
            "axis": Input(f"mirror axis of {motif.name}", axis, f"column {show(axis)}, counted from 0", motif.span)
        }
        address, column = f"{name}.axis[{number}]", axis + 1
        book.reckon(address, None, column, "column", "{axis} + 1", given, spans=spans, shown=show(column, 1))
    shift = motif.shift % motif.width
    if shift:
        given = {
            "shift": Input(f"shift of {motif.name}", motif.shift, f"{motif.shift} sts as written", motif.span),
            "width": known(f"{name}.width", motif.width, "sts"),
        }
        book.reckon(f"{name}.shift", None, shift, "sts", "mod({shift}, {width})", given, spans=spans)


def _runs(book: Book, motif: Motif, name: str, row: int, *, wrong: bool) -> None:
    """The runs of one chart row as it is worked: from the right, or from the left on the wrong side."""
    width = len(motif.rows[row % len(motif.rows)])
    order = range(width - 1, -1, -1) if wrong else range(width)
    spans = (motif.row_spans[row % len(motif.rows)],)
    cells = [(_cell if motif.wedge else Motif.cell)(motif, column, row) for column in range(width)]
    runs = groupby(order, key=cells.__getitem__)
    for number, (yarn, run) in enumerate(runs, 1):
        columns = list(run)
        given = {
            "high": known(f"leftmost column of {yarn}", max(columns) + 1, "as leftmost column"),
            "low": known("rightmost column", min(columns) + 1, "as rightmost column"),
        }
        book.reckon(f"{name}.run[{number}]", None, len(columns), "sts", "{high} - {low} + 1", given, spans=spans)


def _cell(motif: Motif, column: int, row: int) -> str:
    line = motif.rows[row]
    return line[len(line) - 1 - column]


def _float(book: Book, one: Float) -> None:
    """Where a long strand lies, how many stitches it passes, and where it is caught."""
    motif, swatch = book.spec.motifs[one.motif], book.spec.swatches[one.swatch]
    name = f"floats.{one.motif}.{one.swatch}.{one.row}.{one.column}"
    spans = (motif.row_spans[(one.row - 1) % len(motif.rows)],)
    given = {
        "after": known(f"next column of {one.yarn}, repeats counted on", one.column + one.stitches, "as next column"),
        "first": known(f"first column that {one.yarn} passes", one.column, "as first column passed"),
    }
    book.reckon(f"{name}.stitches", None, one.stitches, "sts", "{after} - {first}", given, spans=spans)
    given = {"first": given["first"]}
    book.reckon(f"{name}.column", None, one.column, "column", "{first}", given, spans=spans)
    run = {"run": known(f"{name}.stitches", one.stitches, "sts passed")}
    limit = known("most sts uncaught", most_stitches(book.spec, swatch), "sts uncaught")
    for number, choice in enumerate(one.catch, 1):
        for place, stitch in enumerate(choice, 1):
            address = f"{name}.catch[{number}].{place}"
            if len(one.catch) > 1:
                given = {**run, "part": known("catch", number, "as catch"), "all": known("parts", len(one.catch) + 1)}
                book.reckon(address, None, stitch, "sts", "floor({part} * ({run} + 1) / {all})", given, spans=spans)
                continue
            off = stitch - (one.stitches + 1) // 2
            template = "floor(({run} + 1) / 2)" + (f" + {off}" if off > 0 else f" - {-off}" if off else "")
            book.reckon(address, None, stitch, "sts", template, run, spans=spans, also=(limit,))
