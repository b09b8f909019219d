"""Where the numbers of a chart stand: its size, where pieces start, notes, and its rows in words."""

from __future__ import annotations

import re

from msgspec.structs import replace

from wale.explain.charting import row_figures
from wale.explain.walk import Walk
from wale.materials import Motif
from wale.motifs.words import figures, in_words
from wale.pattern import Chart
from wale.write.charts import figures_told
from wale.write.multiples import multiples

_ROW_TOLD = re.compile(r"[^()]*\(row \d+\)")
_FIGURE = re.compile(r"\d+")
_ORIGIN = re.compile(r"[A-Z][a-z]+: ")
"""A note of where a motif comes from, in its author's words."""


def chart_place(walk: Walk, chart: Chart) -> Chart:
    """Visit the texts of a chart, those that an output makes of it among them."""
    from wale.outputs.chart import describe
    from wale.outputs.chart_grid import start_groups

    name = f"chart.{chart.name}"
    if not chart.flat and not walk.spec.motifs[chart.name].wedge:
        name += "-round"
    walk.say(chart.name, kind="name")
    walk.made(f"{len(chart.rows[0])} stitches, {len(chart.rows)} rows", exact=(f"{name}.width", f"{name}.rows"))
    walk.made(describe(chart), exact=("", f"{name}.width", "", f"{name}.rows"))
    for group in start_groups(chart):
        _start(walk, group.column, group.text)
    notes = tuple(_note(walk, note, walk.spec.motifs[chart.name], name) for note in chart.notes)
    words = tuple(
        (
            walk.say(label, kind="row"),
            walk.say(text, exact=[f"{name}[{number}].{one}" for one in row_figures(text)]),
        )
        for number, (label, text) in enumerate(chart.words, 1)
    )
    return replace(chart, notes=notes, words=words)


def _row(walk: Walk, name: str, label: str, text: str) -> tuple[str, str]:
    addresses = [f"{name}.{figure}" for figure in row_figures(text)]
    return walk.say(label, kind="row"), walk.say(text, exact=addresses)


def _note(walk: Walk, text: str, motif: Motif, name: str) -> str:
    if _ORIGIN.match(text):
        return walk.say(text, kind="note")
    if text == in_words(*motif.captioned):
        return walk.say(text, exact=[f"{name}.{one.name}" for one in figures(*motif.captioned)])
    for number, one in enumerate(multiples(walk.plan, motif, name == f"chart.{motif.name}-round"), 1):
        if text == one.words():
            parts = ("step", *(["rest"] if one.rest else []), *(["edges"] if one.edges else []))
            return walk.say(text, exact=[f"{name}.multiple[{number}].{part}" for part in parts])
    if text == figures_told(motif, motif.charted(name == f"chart.{motif.name}-round")):
        return walk.say(text, exact=[f"{name}.lace[{number}]" for number in range(1, len(_FIGURE.findall(text)) + 1)])
    return walk.say(text, f"{name}.motif-rows", f"{name}.shift", f"{name}.rows")


def _start(walk: Walk, column: int, text: str) -> None:
    """The column where pieces start ("back XS, M; sleeve L (row 5)"): that of the first, and each one's chart row."""
    names = sorted((piece.name for piece in walk.plan.pieces), key=lambda name: -len(name))
    for number, entry in enumerate(text.split("; ")):
        piece = walk.plan.piece(next(name for name in names if entry.startswith(name)))
        assert piece is not None
        begins = next(one.address for one in piece.sections if one.fabric is not None and one.fabric.motif is not None)
        for place, told in enumerate(_ROW_TOLD.findall(entry.removeprefix(piece.name)) or [entry]):
            mine = re.split(r"[ ,]+", told.split("(")[0])
            sizes = [size for size in walk.sizes if walk.plan.sizes[size] in mine] or list(walk.sizes)
            if not number and not place:
                walk.made(f"Start in column {column}", exact=(f"{begins}.column",), sizes=sizes[:1])
            head, _, row = told.partition("(")
            walk.say(head, kind="size")
            walk.made(row, exact=(f"{begins}.chart-first",), sizes=sizes[:1])
