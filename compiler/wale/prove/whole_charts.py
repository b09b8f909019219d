"""Charts of every stitch of a piece, held against the knitted stitches."""

from __future__ import annotations

from collections.abc import Iterator

from wale.prove.fabric import INC, LEFT_DEC, LEFT_INC, RIGHT_DEC, RIGHT_INC, Contradiction, Fabric, Finding, Row, insist
from wale.prove.facts import Motifs, PieceFacts, PrintedWhole, RowFact

_NAMES = {LEFT_DEC: "ssk in ", RIGHT_DEC: "k2tog in ", LEFT_INC: "m1L in ", RIGHT_INC: "m1R in ", INC: "m1p in "}
_PARTS = {"": 0, "right": 0, "left": 1}

Knitted = tuple[Row, RowFact]


def check_whole(chart: PrintedWhole, fabric: Fabric, fact: PieceFacts, motifs: Motifs) -> Iterator[Finding]:
    """See that a chart draws each stitch, from its first row on, in its yarn and shaping, over the same columns.

    A stitch stands over the one below where its motif's column says so: in a run of rows of one chart, all do.
    """
    rows: dict[int, list[Knitted]] = {}
    for row, planned in zip(fabric.rows, fact.rows, strict=True):
        rows.setdefault(row.number, []).append((row, planned))
    number = chart.first - 1
    try:
        last = max(rows)
        insist(chart.first + len(chart.rows) - 1 == last, f"the piece ends with row {last}")
        shift: tuple[str, int] | None = None
        for number, cells in enumerate(chart.rows, chart.first):
            knitted = sorted(rows[number], key=lambda pair: _PARTS[pair[0].part])
            drawn = [cell for cell in cells if cell]
            made = [name for row, planned in knitted for name in _names(row, planned, fabric)]
            insist(len(drawn) == len(made), f"{len(made)} sts are worked, {len(drawn)} are drawn")
            if drawn != made:
                place = next(at for at, (one, other) in enumerate(zip(drawn, made, strict=True)) if one != other)
                insist(False, f"stitch {place + 1} from the right is {made[place]}, not {drawn[place]}")
            shift = _shift(cells, knitted, fabric, motifs, shift)
    except Contradiction as error:
        yield Finding(chart.piece, chart.size, number, "chart of every stitch", str(error))


def _names(row: Row, planned: RowFact, fabric: Fabric) -> Iterator[str]:
    """Name each stitch of a row from the right: its yarn, and its shaping at an edge or in a crown's wedge."""
    is_shaped = planned.shaped or (fabric.crown >= 0 and len(planned.runs) > 1)
    for place, look in enumerate(row.ops):
        yarn = fabric.colour(row, place)
        yield f"{_NAMES[look]}{yarn}" if is_shaped and look in _NAMES else yarn


def _shift(
    cells: tuple[str, ...],
    knitted: list[Knitted],
    fabric: Fabric,
    motifs: Motifs,
    before: tuple[str, int] | None,
) -> tuple[str, int] | None:
    """Give chart and column less place of a row's stitches, the same at both its ends and as in the row below."""
    first, last = knitted[0][0], knitted[-1][0]
    if not first.chart or 0 <= fabric.crown < first.number or not first.ops or not last.ops:
        return None
    places = [place for place, cell in enumerate(cells) if cell]
    width = len(motifs[first.chart][first.chart_row - 1])
    right = (first.column(0) - places[0]) % width
    left = (last.column(len(last.ops) - 1) - places[-1]) % width
    insist(right == left, "the stitches of both ends do not stand in one row of the chart")
    insist(
        before is None or before[0] != first.chart or before[1] == right, "the stitches do not stand over each other"
    )
    return first.chart, right
