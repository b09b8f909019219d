"""Charts of whole pieces, one a size: every stitch and row with its colour, shaping and outline.

Drawn on request: a pullover's back has some forty thousand stitches. What a row is made of comes from the same facts
that the proof holds against the knitted fabric.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from wale.pattern import Chart, ChartColour
from wale.plan import Plan
from wale.prove.facts import Motifs, PieceFacts, RowFact
from wale.spec import Spec
from wale.write.charts import mark
from wale.write.context import Context
from wale.write.facts import motif_cells, piece_facts
from wale.write.half_tops import neck_gone
from wale.write.said import said
from wale.write.side_edges import side_gone, top_count, top_rows
from wale.write.tops import stepped_off

SHAPINGS = {"ssk": "\\", "k2tog": "/", "m1L": "valley", "m1R": "peak", "m1p": "upright"}
"""Marks of the shapings, that of the stitch's yarn beside it: no mark of a yarn is among them."""
WAITING = "At the shoulders a cell without a stitch is one that waits for the end of the short rows."

Cell = tuple[str, str]
"""A stitch: its yarn, and its shaping or ""."""


def whole_charts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Chart, ...]:
    """Give a chart of each piece that has a motif, in each of the sizes, from its first charted row on."""
    charts = []
    motifs = motif_cells(spec)
    for size in sizes:
        by_name = {fact.piece: fact for fact in piece_facts(spec, plan, (size,))}
        for piece in plan.pieces:
            if any(row.chart and not row.yarn for row in by_name[piece.name].rows):
                charts.append(_chart(Context(spec, plan, piece, size), by_name[piece.name], motifs))
    return tuple(charts)


def _chart(at: Context, fact: PieceFacts, motifs: Motifs) -> Chart:
    first = next(row.number for row in fact.rows if row.chart)
    flat = not at.piece.in_round
    if flat and first % 2 == 0:
        first -= 1
    rows: dict[int, dict[int, Cell]] = {}
    before = fact.cast_on
    for row in fact.rows:
        if row.number >= first:
            rows.setdefault(row.number, {}).update(_worked(at, row, before, fact, motifs))
        before = row.stitches
    right = min(min(cells) for cells in rows.values())
    width = max(max(cells) for cells in rows.values()) - right + 1
    legend, colours = _legend(at, rows.values())
    grid = tuple(
        tuple(legend[cells[place]] if place in cells else -1 for place in range(right + width - 1, right - 1, -1))
        for _, cells in sorted(rows.items())
    )
    kind = "Row" if flat else "Round"
    notes = [f"{kind} 1 here is {kind.lower()} {first} of the piece, counted from the cast-on."] if first > 1 else []
    if any(any(row.waiting) for row in fact.rows):
        notes.append(WAITING)
    is_whole = flat and at.piece.half is None
    middle = (width % 2) / 2 - right if is_whole else 0.0
    if is_whole:
        where = f"through column {-right + 1}" if width % 2 else f"between columns {-right} and {-right + 1}"
        notes.append(f"The broken line is the centre of the piece, {where}.")
    swatch = at.swatch(at.piece.sections[-1])
    return Chart(
        f"{at.piece.name}, size {at.plan.sizes[at.size]}",
        grid,
        colours,
        float(swatch.washed.rows / swatch.washed.stitches),
        flat,
        None,
        (),
        _words(grid, colours, flat),
        tuple(notes),
        middle,
    )


def _worked(at: Context, row: RowFact, before: int, fact: PieceFacts, motifs: Motifs) -> Iterator[tuple[int, Cell]]:
    """Give the stitches that a row works, by their place leftwards from the piece's centre (the centre stitch is 0)."""
    spans = list(_spans(at, row, fact, motifs))
    for number, (start, yarns) in enumerate(spans):
        low = row.waiting[0] if number == 0 else 0
        high = len(yarns) - (row.waiting[1] if number == len(spans) - 1 else 0)
        crowned = at.piece.crown is not None and len(yarns) < row.stitches < before
        for place, yarn in enumerate(yarns):
            if low <= place < high:
                ends = (number == 0, number == len(spans) - 1)
                shaping = _shaping(row, before, place, len(yarns), ends)
                yield start + place, (yarn, "k2tog" if crowned and place == len(yarns) - 1 else shaping)


def _shaping(row: RowFact, before: int, place: int, count: int, ends: tuple[bool, bool]) -> str:
    """Name the shaping of a stitch: at both edges, inside the edge stitches, as it looks from the right side.

    Args:
        ends: whether its run of stitches has the right end of the row, and the left one.
    """
    at_right = ends[0] and place == row.edges[0] + row.inside[0]
    if not row.shaped or not (at_right or (ends[1] and place == count - 1 - row.edges[1] - row.inside[1])):
        return ""
    if row.shaped != "both" and at_right != (row.shaped == "right"):
        return ""
    if row.stitches > before and not row.part:
        return "m1p" if row.side == "WS" else "m1L" if at_right else "m1R"
    return "ssk" if at_right else "k2tog"


def _half_place(at: Context, row: RowFact) -> int:
    """Give the place of a half piece's rightmost stitch; the stitches at the opening stay where they are."""
    piece, half = at.piece, at.piece.half
    assert half is not None
    within = row.number - (piece.total_rows(at.size) - (top_rows(at) if piece.top is not None else 0))
    in_top = piece.top is not None and within > 0
    if half.side == "right":
        return -row.stitches - (neck_gone(at, within) if in_top else 0)
    return neck_gone(at, within) if in_top else 0


def _spans(at: Context, row: RowFact, fact: PieceFacts, motifs: Motifs) -> Iterator[tuple[int, list[str]]]:
    """Give the runs of stitches that hang together in a row: their place, and the yarn of each, from the right."""
    if row.chart:
        tile = motifs[row.chart][row.chart_row - 1]
        parts = [[tile[(first + n) % len(tile)] for n in range(length)] for first, length in row.runs]
    else:
        tile = row.columns or (row.yarn,)
        parts = [[tile[(n - row.edges[0]) % len(tile)] for n in range(row.stitches)]]
    right, left = row.edges
    edge = list(row.steek) or [fact.edge_yarn] * (right + left)
    if right:
        parts[0][:right] = edge[:right]
    if left:
        parts[-1][-left:] = edge[right:]
    piece, half = at.piece, at.piece.half
    if half is not None:
        yield _half_place(at, row), parts[0]
        return
    done = piece.total_rows(at.size) - (top_rows(at) if piece.top is not None else 0)
    if piece.top is None or row.number <= done:
        crown = piece.crown
        if crown is not None and len(parts) == crown.wedges > 1:
            wide = crown.start[at.size] // crown.wedges
            yield from ((number * wide - crown.start[at.size] // 2, part) for number, part in enumerate(parts))
        else:
            lacks = row.bound if row.side == "RS" else 0
            yield lacks - (row.stitches + lacks) // 2, [yarn for part in parts for yarn in part]
        return
    rows, count, within = top_rows(at), top_count(at), row.number - done
    right_off = stepped_off(at, "right", within, rows) + side_gone(at, "right", within)
    left_off = stepped_off(at, "left", within, rows) + side_gone(at, "left", within)
    low, high = right_off - count // 2, count - left_off - count // 2
    if row.part == "left":
        yield high - row.stitches, parts[0]
    elif row.part == "right" or len(parts) == 1:
        yield low, parts[0]
    else:
        yield low, parts[0]
        yield high - len(parts[1]), parts[1]


def _legend(at: Context, rows: Iterable[dict[int, Cell]]) -> tuple[dict[Cell, int], tuple[ChartColour, ...]]:
    """Number the kinds of cells that occur: plain ones first, as the yarns come, then shapings."""
    kinds = {cell for row in rows for cell in row.values()}
    yarns = [yarn for yarn in at.spec.yarns if any(cell[0] == yarn for cell in kinds)]
    order = sorted(kinds, key=lambda cell: (list(("", *SHAPINGS)).index(cell[1]), yarns.index(cell[0])))
    colours = tuple(
        ChartColour(
            f"{shaping} in {yarn}" if shaping else yarn,
            at.spec.yarns[yarn].colour,
            f"{SHAPINGS.get(shaping, '')} {mark(yarns.index(yarn))}".strip(),
        )
        for yarn, shaping in order
    )
    return {cell: number for number, cell in enumerate(order)}, colours


def _words(
    grid: tuple[tuple[int, ...], ...], colours: tuple[ChartColour, ...], flat: bool
) -> tuple[tuple[str, str], ...]:
    words = []
    for number, row in enumerate(grid, 1):
        wrong = flat and number % 2 == 0
        parts = [
            said([colours[cell].name for cell in part])
            for is_worked, part in groupby(row if wrong else row[::-1], lambda cell: cell >= 0)
            if is_worked
        ]
        if flat:
            words.append((f"Row {number} ({'WS' if wrong else 'RS'})", "; past the gap: ".join(parts)))
        else:
            words.append((f"Round {number}", said([colours[cell].name for cell in row[::-1] if cell >= 0])))
    return tuple(words)
