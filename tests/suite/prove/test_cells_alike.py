"""Chart, chart in words, chart of every stitch and the proven fabric: the same colours, cell for cell.

The fabric is knitted from the printed lines and the printed chart. Rows that are told in words are read back here by
a reader of their own.
"""

from __future__ import annotations

import re

import pytest
from prove_patterns import FILES, NAMES, STRANDED, compiled
from test_floats_proven import knitted

from wale.driver import Compiled
from wale.pattern import Chart
from wale.prove.fabric import Fabric, Row
from wale.write.whole_charts import whole_charts

BRACKET = re.compile(r"\(([^()]+)\) (?:(twice)|([0-9]+) times)")
TIMED = re.compile(r"([0-9]+) (\S.*)")
BESIDE = re.compile(r" \(as row [0-9]+(?:, begun [0-9]+ sts? along)?\)$")


def read_back(text: str) -> list[str]:
    """Give the stitches that words tell in working order: "2 rye, (1 flour, ssk in rye) twice"."""
    told = BRACKET.sub(lambda found: ", ".join([found[1]] * (2 if found[2] else int(found[3]))), text)
    names = []
    for run in re.split(r", |; past the gap: ", told):
        timed = TIMED.fullmatch(run)
        names += [timed[2]] * int(timed[1]) if timed else [run]
    return names


def test_words_are_read_back_as_a_knitter_does():
    """By hand: 1 rye, flour and rye two times over, an ssk in flour."""
    told = read_back("1 rye, (1 flour, 2 rye) twice, ssk in flour; past the gap: 1 rye")
    assert told == ["rye", "flour", "rye", "rye", "flour", "rye", "rye", "ssk in flour", "rye"]


def in_words(chart: Chart, number: int) -> list[str]:
    """Give a row of a chart as its words tell it, from the right."""
    label, text = chart.words[number - 1]
    assert re.fullmatch(rf"(Row|Round) {number}( \((RS|WS)\))?", label)
    names = read_back(BESIDE.sub("", text))
    return names[::-1] if label.endswith("(WS)") else names


def drawn(chart: Chart, number: int) -> list[str]:
    """Give a row of a chart as it is drawn, from the right."""
    return [chart.colours[cell].name for cell in chart.rows[number - 1][::-1] if cell >= 0]


def small_charts(done: Compiled) -> dict[tuple[str, bool], Chart]:
    """Give the printed charts of motifs, by motif and whether they are worked flat."""
    parts = [part for section in done.pattern.sections for part in section.parts]
    return {(part.name, part.flat): part for part in parts if isinstance(part, Chart)}


def plain_yarn(cell: str) -> str:
    return cell.rpartition(" in ")[2]


def check_motif_charts(done: Compiled) -> None:
    """A chart's words are its cells, and its cells are those of the motif as typed and tiled."""
    for (name, flat), chart in small_charts(done).items():
        motif = done.spec.motifs[name]
        for number in range(1, len(chart.rows) + 1):
            cells = drawn(chart, number)
            assert in_words(chart, number) == cells, (name, flat, number)
            if not motif.wedge:
                assert cells == [motif.cell(column, number - 1) for column in range(len(cells))], (name, number)


def by_chart(done: Compiled, fabric: Fabric, row: Row) -> list[tuple[str, ...]]:
    """Give the yarns of a row by the small chart, those of the edge by the spec; () for a stitch of a plain row.

    A steek lies over the end of the round, in the row's yarns by turns, the gauge's first one outermost.
    Where shoulders are bound off in steps the outermost stitch is the edge's until the first step takes it away.
    """
    if not row.chart:
        return [()] * len(row.ops)
    piece = done.plan.piece(fabric.piece)
    chart = small_charts(done)[row.chart, not piece.in_round]
    cells = drawn(chart, (row.chart_row - 1) % len(chart.rows) + 1)
    edge = 0 if piece.in_round else piece.edge.stitches
    right = edge if row.part != "left" else 0
    left = row.stitches - (edge if row.part != "right" else 0)
    if piece.half is not None and row.number >= fabric.neck_row:
        # the edge at the opening is bound off with the neck
        right, left = (right, row.stitches) if piece.half.hand == "left" else (0, left)
    stepped = piece.top is not None and piece.top.manner == "steps"
    steek = piece.steek.stitches if piece.steek is not None else 0
    own = [yarn for yarn in done.spec.swatches[piece.sections[-1].swatch].yarns if yarn in cells]
    told = []
    for at in range(len(row.ops)):
        along = (at + steek // 2) % row.stitches
        if along < steek:
            told.append((own[along % len(own)],))
            continue
        cell = cells[row.column(at) % len(cells)]
        inner = right <= row.waiting + at < left
        told.append((cell,) if inner else (piece.edge.yarn, cell) if stepped else (piece.edge.yarn,))
    return told


def check_cells(done: Compiled, monkeypatch: pytest.MonkeyPatch) -> int:
    """Compare each charted row of each piece and size; give how many stitches were compared."""
    check_motif_charts(done)
    made = {(one.piece, one.size): one for one in knitted(done, monkeypatch)}
    wholes = {one.name: one for one in whole_charts(done.spec, done.plan, done.sizes)}
    compared = 0
    for (piece, size), fabric in made.items():
        whole = wholes.pop(f"{piece}, size {size}", None)
        if whole is None:
            assert not any(row.chart for row in fabric.rows)
            continue
        first = max(row.number for row in fabric.rows) - len(whole.rows)
        rows: dict[int, list[Row]] = {}
        for row in fabric.rows:
            rows.setdefault(row.number, []).append(row)
        for number in range(1, len(whole.rows) + 1):
            place = piece, size, first + number
            parts = sorted(rows[first + number], key=lambda row: ("", "right", "left").index(row.part))
            yarns = [fabric.colour(row, at) for row in parts for at in range(len(row.ops))]
            assert [plain_yarn(cell) for cell in drawn(whole, number)] == yarns, place
            assert in_words(whole, number) == drawn(whole, number), place
            told = [cell for row in parts for cell in by_chart(done, fabric, row)]
            assert all(mine in cell for cell, mine in zip(told, yarns, strict=True) if cell), place
            compared += sum(map(bool, told))
    assert not wholes
    return compared


@pytest.mark.parametrize("name", STRANDED)
def test_examples_in_all_sizes(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    assert check_cells(compiled(name), monkeypatch) > 1000


@pytest.mark.parametrize("name", sorted(set(NAMES) - set(FILES)))
def test_each_construct_in_all_sizes(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    done = compiled(name)
    assert (check_cells(done, monkeypatch) > 1000) == bool(small_charts(done))
