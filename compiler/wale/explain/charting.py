"""Reasons of the numbers of charts: size, repeat, shift, runs of a colour in the words, and strands to catch."""

from __future__ import annotations

import re
from itertools import accumulate

from wale.actions import Crown
from wale.checks.floats import Float, long_floats, most_stitches
from wale.checks.resting import CARRIED, gathered, overs
from wale.checks.safety import longest_strand, young
from wale.explain.book import Book, constant, known, show
from wale.explain.counts import gauge_input
from wale.explain.reason import Input
from wale.materials import Motif
from wale.motifs.words import figures
from wale.source import Span
from wale.write.charts import charts, lace_figures
from wale.write.multiples import multiples
from wale.write.strands import rest_address

_ROW = re.compile(
    r"(?P<open>\((?!as row)(?!\d+ sts?\)))|(?P<close>\) (?:twice|(?P<times>\d+) times))|begun (?P<along>\d+) sts? along"
    r"|as row \d+|cable (?P<cable>\d+) (?:left|right)(?: \((?P<part>\d+) sts?\))?"
    r"|(?P<one>yo|ssk|ssp|sssk|s2kp|[kp]2tog|k3tog)(?! in )"
    r"|(?:k|p|sl)(?P<stitches>\d+)\b|(?P<run>\d+) [^,()\s]+"
)

_FOUND = {
    "glide": "rows up to the mirror image",
    "slide": "sts along to the mirror image",
    "least": "sts after which each row repeats",
}


def chart_reasons(book: Book) -> None:
    """Tell the numbers of each chart that the pattern holds."""
    for motif, in_round in charted(book):
        name = chart_name(motif, in_round)
        _size(book, motif, name, in_round)
        _multiples(book, motif, name, in_round)
        _lace(book, motif, name, in_round)
    found = long_floats(book.spec, book.plan)
    for one in found:
        _float(book, one)
    for name in dict.fromkeys(one.swatch for one in found):
        limit = most_stitches(book.spec, book.spec.swatches[name])
        constant(book, f"floats.limit.{name}", limit, "sts", "most sts that a strand may pass")
    strand = longest_strand(book.spec, book.plan) if young(book.spec) else None
    if strand is not None:
        swatch = strand.swatch
        gauge = gauge_input(swatch.name, swatch.washed.stitches, swatch.washed.span, "sts")
        given = {"run": known("sts that the longest strand passes", strand.stitches, "sts passed"), "gauge": gauge}
        book.reckon("floats.longest", None, strand.length_cm, "cm", "{run} / {gauge}", given, spans=(strand.span,))


def _multiples(book: Book, motif: Motif, name: str, in_round: bool) -> None:
    for number, one in enumerate(multiples(book.plan, motif, in_round), 1):
        address, given = f"{name}.multiple[{number}]", {"width": known(f"{name}.width", motif.width, "sts")}
        template = "{width}" if one.step == motif.width else "{width} / 2"
        book.reckon(f"{address}.step", None, one.step, "sts", template, given, spans=(motif.span,))
        if one.rest:
            constant(book, f"{address}.rest", one.rest, "", "sts that make both sides alike", motif.span)
        if one.edges:
            constant(book, f"{address}.edges", one.edges, "sts", f"{one.outside} sts, outside the motif")


def _lace(book: Book, motif: Motif, name: str, in_round: bool) -> None:
    """Tell the figures of the note on lace, in its order."""
    told: list[tuple[int, str, int]] = []
    for stretches, rows in lace_figures(motif, motif.charted(in_round) if not motif.wedge else 0).items():
        told += [(row, "row of lace", row) for row in rows]
        ends = [(column, what) for pair in stretches for column, what in zip(pair, ("first", "last"), strict=True)]
        told += [(column, f"{what} column that is worked or left with the others", rows[0]) for column, what in ends]
    for number, (value, words, row) in enumerate(told, 1):
        constant(book, f"{name}.lace[{number}]", value, "", words, motif.row_spans[(row - 1) % len(motif.rows)])


def strand_reasons(book: Book) -> None:
    """Tell how long yarns rest, and how far strands pass over a round's end."""
    resting = gathered(book.spec, book.plan)
    if resting:
        what = "highest rest for which a yarn is carried up"
        constant(book, "rests.limit", CARRIED, "cm", what, source="knitting.about.com, carrying yarn in stripes")
    for one, _ in resting:
        motif, swatch, name = book.spec.motifs[one.motif], book.spec.swatches[one.swatch], rest_address(one)
        spans = (motif.row_spans[one.last - 1],)
        given = {
            "after": known(f"next row with {one.yarn}, repeats counted on", one.after, "as next row"),
            "last": known(f"row with {one.yarn} before it", one.last, "as row before"),
        }
        book.reckon(f"{name}.rows", None, one.rows, "rows", "{after} - {last} - 1", given, spans=spans)
        gauge = gauge_input(swatch.name, swatch.washed.rows, swatch.washed.span, "rows")
        given = {"rows": known(f"{name}.rows", one.rows, "rows"), "gauge": gauge}
        book.reckon(f"{name}.length", None, one.length_cm, "cm", "{rows} / {gauge}", given, spans=spans)
    for number, over in enumerate(overs(book.spec, book.plan), 1):
        given = {
            "ended": known(
                f"sts after the last {over.yarn} of the round, size {book.plan.sizes[over.size]}", over.ended
            ),
            "begun": known(f"sts before the first {over.yarn} of the next", over.stitches - over.ended),
        }
        book.reckon(
            f"overs.{number}.stitches", None, over.stitches, "sts", "{ended} + {begun}", given, spans=(over.span,)
        )


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
    given = {"rows": known(f"{name}.rows", whole, "rows")}
    book.reckon(f"{name}.top-row", None, whole, "row", "{rows}", given, spans=spans)
    for one in figures(*motif.captioned) if not motif.wedge else ():
        where = f"{one.unit} counted from 0" if one.added else _FOUND[one.name]
        found = {"it": Input(f"found in {motif.name}", one.found, f"{show(one.found)} ({where})", motif.span)}
        template = f"{{it}} + {one.added}" if one.added else "{it}"
        book.reckon(f"{name}.{one.name}", None, one.found + one.added, one.unit, template, found, spans=spans)
    shift = motif.shift % motif.width
    if shift:
        given = {
            "shift": Input(f"shift of {motif.name}", motif.shift, f"{motif.shift} sts as written", motif.span),
            "width": known(f"{name}.width", motif.width, "sts"),
        }
        book.reckon(f"{name}.shift", None, shift, "sts", "mod({shift}, {width})", given, spans=spans)


def row_figures(text: str) -> list[str]:
    """Give what each figure of a chart row in words is: "run[2]", "times[1]", "along"; rows referred to left out.

    Example: "3 rye, (1 flour, 1 rye) twice, 2 flour" is run[1], run[2], run[3], run[6].
    """
    found, run, times, opened = [], 0, 0, 0
    for one in _ROW.finditer(text):
        if one["open"]:
            opened = run
        elif _length(one):
            run += 1
            if _figure(one):
                found.append(f"run[{run}]")
        elif one["close"]:
            if one["times"]:
                times += 1
                found.append(f"times[{times}]")
            run += (run - opened) * (int(one["times"] or 2) - 1)
        elif one["along"]:
            found.append("along")
    return found


def _figure(one: re.Match[str]) -> str:
    return one["run"] or one["stitches"] or one["part"] or one["times"] or one["along"] or ""


def _length(one: re.Match[str]) -> int:
    """How many stitches words tell, 0 where they tell none."""
    return int(one["run"] or one["stitches"] or one["part"] or one["cable"] or (1 if one["one"] else 0))


def word_reasons(book: Book) -> None:
    """Tell the figures of the charts in words: how long each run is, how often a group, how far along a row begins."""
    for chart in charts(book.spec, book.plan, book.sizes):
        motif = book.spec.motifs[chart.name]
        name = chart_name(motif, not chart.flat and not motif.wedge)
        for number, (_, text) in enumerate(chart.words, 1):
            spans = (motif.row_spans[(number - 1) % len(motif.rows)],)
            wrong = chart.flat and number % 2 == 0
            runs = _runs(text, sum(cell >= 0 for cell in chart.rows[number - 1]), wrong=wrong)
            figures = [int(_figure(one)) for one in _ROW.finditer(text) if _figure(one)]
            for figure, value in zip(row_figures(text), figures, strict=True):
                address = f"{name}[{number}].{figure}"
                if figure.startswith("run"):
                    low, high = runs[int(figure[4:-1]) - 1]
                    given = {"high": known("leftmost column", high, "as leftmost column")}
                    given["low"] = known("rightmost column", low, "as rightmost column")
                    book.reckon(address, None, value, "sts", "{high} - {low} + 1", given, spans=spans)
                else:
                    unit, words = (
                        ("sts", "sts further on in that row") if figure == "along" else ("times", "times alike")
                    )
                    given = {"it": known(words, value, words)}
                    book.reckon(address, None, value, unit, "{it}", given, spans=spans)


def _runs(text: str, width: int, *, wrong: bool) -> list[tuple[int, int]]:
    """The runs that a row in words tells, as columns (rightmost, leftmost) from 1."""
    lengths: list[int] = []
    opened = 0
    for one in _ROW.finditer(text):
        if one["open"]:
            opened = len(lengths)
        elif one["close"]:
            lengths += lengths[opened:] * (int(one["times"] or 2) - 1)
        elif _length(one):
            lengths.append(_length(one))
    ends = list(accumulate(lengths))
    assert ends[-1] == width, text
    spans = zip(ends, lengths, strict=True)
    return [(width - end + 1, width - end + long) if wrong else (end - long + 1, end) for end, long in spans]


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
    gauge = gauge_input(swatch.name, swatch.washed.stitches, swatch.washed.span, "sts")
    given = {"run": known(f"{name}.stitches", one.stitches, "sts passed"), "gauge": gauge}
    book.reckon(f"{name}.length", None, one.span_cm, "cm", "{run} / {gauge}", given, spans=spans)
    for number, column in enumerate(one.best, 1):
        what = "column whose catch lies apart from those of the rows below and above"
        constant(book, f"{name}.best[{number}]", column, "column", what, *spans)
    most = most_stitches(book.spec, swatch)
    for number, choice in enumerate(one.catch, 1):
        for place, at in enumerate(choice, 1):
            address = f"{name}.catch[{number}].{place}"
            catch_reason(book, address, name, one.stitches, (number, len(one.catch)), at, most, spans)


def catch_reason(
    book: Book,
    address: str,
    strand: str,
    stitches: int,
    catch: tuple[int, int],
    at: int,
    most: int,
    spans: tuple[Span, ...],
) -> None:
    """Tell where a strand that passes `stitches` sts is caught, of which at most `most` may stay uncaught.

    Args:
        address: of the catch.
        strand: the address of the strand.
        catch: which of how many.
        at: the stitch of the run.
    """
    number, number_of = catch
    given = {
        "run": known(f"{strand}.stitches", stitches, "sts passed"),
        "part": known("catch", number, "as catch"),
        "all": known("parts", number_of + 1),
    }
    off = at - number * (stitches + 1) // (number_of + 1)
    template = "floor({part} * ({run} + 1) / {all})" + (f" + {off}" if off > 0 else f" - {-off}" if off else "")
    limit = known("most sts uncaught", most, "sts uncaught")
    book.reckon(address, None, at, "sts", template, given, spans=spans, also=(limit,))
