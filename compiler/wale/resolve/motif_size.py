"""Whether a motif is written larger than it needs to be."""

from __future__ import annotations

from collections.abc import Mapping

from wale.materials import Motif
from wale.motifs.size import counted, size_words
from wale.motifs.symmetry import smallest
from wale.parse.tree import Block, Statement
from wale.problems.problem import Edit, Fix
from wale.resolve import motif_changes
from wale.resolve.context import Context
from wale.resolve.shapes import Line
from wale.source import Span


def note_smaller(
    context: Context, motif: Motif, block: Block, bars: list[Statement], lines: Mapping[str, list[Line]]
) -> None:
    """Note a motif whose repeat holds a smaller one, for stitch counts fit that more often.

    Where repeats are shifted only the stitches are looked at: fewer rows with another shift are no easier to follow.
    """
    if motif.wedge:
        return
    width, period = smallest(motif.tiling)
    if width == motif.width and (motif.shift or period == motif.period):
        return
    stitches, rows = counted(width, "st"), counted(period, "row")
    parts = ([stitches] if width < motif.width else []) + ([rows] if period < motif.period else [])
    place = lines["repeat"][0].span if "repeat" in lines and bars else block.head.span
    context.report(
        "N254",
        f"the motif `{motif.name}` repeats after {' and '.join(parts)} already; it is written with "
        f"{counted(motif.width, 'st')} and {counted(motif.period, 'row')}",
        place,
        f"holds a repeat of {stitches}, {rows}",
        "The smaller repeat fits more stitch counts. Leave it as it is if the larger one is meant to stay whole.",
        fixes=_cut(block, bars, lines, motif, (width, period)),
    )


def _cut(
    block: Block, bars: list[Statement], lines: Mapping[str, list[Line]], motif: Motif, size: tuple[int, int]
) -> list[Fix]:
    """Give the edit that writes the smaller repeat: of rows that are typed, without a shift or other changes."""
    width, height = size
    above = bars[: len(bars) - height]
    before = [statement for statement in (block.head, *block.body) if bars and statement.span.end <= bars[0].span.start]
    plain = before and all(not (one.trivia.above or one.trivia.trailing) for one in (*above, before[-1]))
    if any(keyword in lines for keyword in motif_changes.LINES) or not bars or motif.shift or (above and not plain):
        return []
    repeat = lines["repeat"][0]
    place = repeat.head.number("N1").span.to(repeat.options["N2 rows"].number("N2").span)
    edits = [Edit(place, size_words(width, height))]
    if above:
        edits.append(Edit(Span(place.file, before[-1].span.end, above[-1].span.end), ""))
    if width < motif.width:
        marks = {yarn: mark for yarn, mark in motif.marks}
        for number, statement in enumerate(reversed(bars[len(above) :])):
            cells = " ".join(marks[yarn] for yarn in motif.rows[number][-width:])
            edits.append(Edit(statement.span, f"| {cells} |"))
    return [Fix(f"write the repeat of {size_words(width, height)}", tuple(edits))]
