"""Motifs that differ: the old chart beside the new one, changed cells framed, and the same in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from msgspec.structs import replace

from wale.compare.cells import Cell, MotifChange, Rows
from wale.compare.comparison import Comparison, Version
from wale.compare.numbers import Json
from wale.motifs.size import counted, size_words
from wale.pattern import Bullets, Chart, ChartColour, Charts, Paragraph, Part
from wale.write.charts import chart_words, mark

MOST_LINES = 40
"""Rows whose cells are told in words; the charts frame them all."""
BLANK = "#ffffff"
"""For a yarn that only the other version has."""


def motif_parts(found: Comparison, motif: MotifChange) -> tuple[Part, ...]:
    """Give what a motif's change is told with."""
    yarns = _yarns(found, motif)
    if motif.before is None or motif.after is None:
        is_new = motif.before is None
        version, rows = (found.new, motif.after) if is_new else (found.old, motif.before)
        assert rows is not None
        chart = _chart(f"{motif.name}, {'new' if is_new else 'gone'}", rows, (), version, motif.name, yarns)
        return (replace(chart, words=chart_words(yarns, chart.rows, chart.flat)),)
    old = [(one.row, one.column) for one in motif.cells if one.before is not None]
    new = [(one.row, one.column) for one in motif.cells if one.after is not None]
    pair = (
        _chart(f"{motif.name}, old", motif.before, old, found.old, motif.name, yarns),
        _chart(f"{motif.name}, new", motif.after, new, found.new, motif.name, yarns),
    )
    lines = tuple(_lines(motif))
    charts = Charts(f"Motif {motif.name}", " ".join(motif_words(motif)), pair)
    return (charts, Bullets(lines)) if lines else (charts,)


def motif_words(motif: MotifChange) -> Iterator[str]:
    """Say in sentences what changes of a motif as a whole."""
    if motif.before is None or motif.after is None:
        yield "It is new." if motif.before is None else "It is gone."
        return
    old, new = (size_words(_width(rows), len(rows)) for rows in (motif.before, motif.after))
    if old != new:
        yield f"The repeat is {new} instead of {old}; cells are held against each other from row 1, column 1 on."
    if motif.shifts[0] != motif.shifts[1]:
        yield f"The repeat above starts {counted(motif.shifts[1], 'st')} along instead of {motif.shifts[0]}."
    if motif.cells:
        count = len(motif.cells)
        yield f"{count} {'cell differs' if count == 1 else 'cells differ'}."


def _lines(motif: MotifChange) -> Iterator[Paragraph]:
    """Say row by row what the cells are and were."""
    assert motif.before is not None and motif.after is not None
    rows = [(row, list(cells)) for row, cells in groupby(motif.cells, lambda cell: cell.row)]
    for row, cells in rows[:MOST_LINES]:
        if row > min(len(motif.before), len(motif.after)):
            yield Paragraph("added." if row > len(motif.before) else "gone.", f"Row {row}:")
        else:
            yield Paragraph(f"{'; '.join(_runs(cells))}.", f"Row {row}:")
    if len(rows) > MOST_LINES:
        yield Paragraph(f"{counted(len(rows) - MOST_LINES, 'row')} more; the charts frame their cells.")


def _runs(cells: Sequence[Cell]) -> Iterator[str]:
    """Say what cells of a row that change alike are and were: "columns 3 and 4: rye, was flour"."""
    changes: dict[str, list[int]] = {}
    for cell in cells:
        changes.setdefault(_change(cell), []).append(cell.column)
    for change, columns in changes.items():
        yield f"{'column' if len(columns) == 1 else 'columns'} {_numbers(columns)}: {change}"


def _numbers(columns: Sequence[int]) -> str:
    """Put ascending numbers into words: "1, 3 and 4", "2 to 6 and 9"."""
    told: list[str] = []
    for _, run in groupby(enumerate(columns), lambda one: one[1] - one[0]):
        run_of = [column for _, column in run]
        told += [f"{run_of[0]} to {run_of[-1]}"] if len(run_of) > 2 else map(str, run_of)
    *most, last = told
    return f"{', '.join(most)} and {last}" if most else last


def _change(cell: Cell) -> str:
    if cell.before is None or cell.after is None:
        return "added" if cell.before is None else "gone"
    return f"{cell.after}, was {cell.before}"


def _yarns(found: Comparison, motif: MotifChange) -> tuple[str, ...]:
    """Name the yarns of both versions, so that each has one mark in both: by the motif's key, else as the plan does."""
    named = []
    for version in (found.new, found.old):
        known = version.garment.spec.motifs.get(motif.name) if version.garment is not None else None
        named += [yarn for yarn, _ in known.marks] if known is not None else []
    cells = {yarn for rows in (motif.after, motif.before) for row in rows or () for yarn in row}
    more = (one["name"] for version in (found.new, found.old) for one in version.plan["yarns"])
    return tuple(dict.fromkeys((*named, *(yarn for yarn in more if yarn in cells), *sorted(cells))))


def _chart(
    title: str,
    rows: Rows,
    changed: Sequence[tuple[int, int]],
    version: Version,
    motif: str,
    yarns: Sequence[str],
) -> Chart:
    wide = _width(rows)
    cells = tuple((-1,) * (wide - len(row)) + tuple(yarns.index(yarn) for yarn in row) for row in rows)
    colours = {one["name"]: one["colour"] for one in version.plan["yarns"]}
    swatch = next((one for one in version.plan["swatches"] if one["motif"] == motif), None)
    flat = swatch is not None and not swatch["in_round"]
    return Chart(
        title,
        cells,
        tuple(ChartColour(yarn, colours.get(yarn, BLANK), mark(at)) for at, yarn in enumerate(yarns)),
        1.0 if swatch is None else float(_exact(swatch, "rows_per_cm") / _exact(swatch, "stitches_per_cm")),
        flat,
        (1, wide, 1, len(cells)),
        changed=tuple(changed),
    )


def _exact(swatch: Json, name: str) -> Fraction:
    return Fraction(swatch[name]["exact"])


def _width(rows: Rows) -> int:
    return max((len(row) for row in rows), default=0)
