"""Charts as the templates set them: how large and in how many parts, legend, starts and words."""

from __future__ import annotations

from math import ceil, inf
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from wale.outputs import chart as charts
from wale.outputs.chart_grid import TEXT, StartGroup, start_groups
from wale.outputs.ids import Ids
from wale.outputs.setting import LARGE_MM, Setting
from wale.outputs.svg import enlarged
from wale.pattern import Chart

if TYPE_CHECKING:
    from markupsafe import Markup

_SCREEN_CHART = charts.Room(width=4000.0, height=4000.0, cell=3.5)
_SCREEN_WIDE = charts.Room(width=4000.0, height=4000.0, cell=2.6)
# The height that a chart and its legend may take below a section's and its own heading, by paper.
_PRINT_HEIGHT = {"a4": 226.0, "letter": 208.0}
_PRINT_WIDTH = 168.0
_PRINT_CELL = 4.6
# What a part's caption takes, mm, and narrower cells that may do with fewer pages.
_PRINT_CAPTION = 7.0
# So much more a first part may be tall before its legend goes over the page, mm.
_PRINT_SLACK = 4.0
_CLOSER_CELLS = (2.4, 2.3)
# Up to so many parts a chart keeps its legend on the page of its first.
_FEW_PARTS = 3
# A line of the legend: mm, characters, and characters that a start takes beside its text.
_LEGEND_LINE = 5.2
_LEGEND_CHARACTERS = 95
_START_CHARACTERS = 20
# Words of a chart: up to so many characters in two columns; characters to a line of those, mm of a line and a heading;
# a chart is set so small that its words fit on its page if its cells stay so tall.
_BRIEF_WORDS = 114
_WORDS_LINE = 57
_WORDS_TALL = 4.6
_WORDS_HEAD = 18.0
_LEAST_TALL = 2.3
_MOST_WORDS = 60_000
WORDS_ELSEWHERE = "Its words would fill dozens of pages; they stand in the web page and the text of this pattern."
# A chart of more parts on paper is printed as an overview.
_MOST_PARTS = 40
OVERVIEW = (
    "This is the whole, to find one's way: cell by cell it would fill {pages} pages. It stands so in the web page of "
    "this pattern, and the compiler writes it as one picture (compile with `--to svg` or `--to png`)."
)
PALE = "Pale cells are those of the next part: where parts meet, lay their broken lines on each other."
# In large print: the heights, the wished width of a cell, the most parts; a cell is never smaller than the type, and
# all of a chart is drawn larger by as much as its numbers are.
_LARGE_HEIGHT = {"a4": 212.0, "letter": 194.0}
_LARGE_CAPTION = 18.0
_LARGE_CELL = 8.0
_LARGE_PARTS = 120
_LARGER = LARGE_MM / TEXT
_LARGE_SAMPLE = 2.0


def make(chart: Chart, ident: str, ids: Ids, setting: Setting) -> dict[str, Any]:
    """Give what the template needs of a chart: parts, legend of what occurs, starts, notes and words."""
    used = charts.occurring(chart)
    groups = start_groups(chart)
    chart, room, is_sheet = _placed(chart, used, groups, setting)
    tiles = charts.tiles(chart, room, ids.make(f"{ident}-picture"))
    larger = _LARGE_SAMPLE if setting.is_large else 1.0
    legend_cells = tuple(
        (
            _safe(enlarged(charts.cell_sample(chart, index, ids.make(f"{ident}-cell")), larger)),
            chart.colours[index].name if index >= 0 else "no stitch",
        )
        for index in used
    )
    if chart.changed:
        sample = _safe(enlarged(charts.changed_sample(ids.make(f"{ident}-cell")), larger))
        legend_cells = (*legend_cells, (sample, "changed"))
    return {
        "tiles": tuple((tile, _safe(tile.svg)) for tile in tiles),
        "notes": (*chart.notes, PALE) if any(tile.pale for tile in tiles) else chart.notes,
        "legend": legend_cells,
        "is_legend_first": setting.is_paper
        and not setting.is_large
        and len(tiles) > 1
        and tiles[0].height > _beside_legend(chart, used, groups, setting) + _PRINT_SLACK,
        "starts": groups,
        "words_id": ids.make(f"{ident}-words"),
        "is_brief": _is_brief(chart) and not setting.is_large,
        "halves": _halves(chart.words) if is_sheet else (),
    }


def _placed(
    chart: Chart, used: tuple[int, ...], groups: tuple[StartGroup, ...], setting: Setting
) -> tuple[Chart, charts.Room, bool]:
    """The chart with a note if only an overview of it is drawn, its room, and whether its words share its page."""
    larger, most = (_LARGER, _LARGE_PARTS) if setting.is_large else (1.0, _MOST_PARTS)
    if not setting.is_paper:
        common = _SCREEN_CHART if len(chart.rows[0]) <= 48 else _SCREEN_WIDE
        return chart, replace(common, cell=_LARGE_CELL, scale=larger) if setting.is_large else common, False
    if setting.is_large:
        height, is_sheet = _LARGE_HEIGHT[setting.medium], False
        room = charts.Room(_PRINT_WIDTH, height, _LARGE_CELL, LARGE_MM, larger)
        if charts.parts(chart, room) > 1:
            room = replace(room, height=height - _LARGE_CAPTION)
    else:
        height = _beside_legend(chart, used, groups, setting)
        left = height - _words_height(chart)
        is_sheet = bool(chart.words) and left >= len(chart.rows) * _LEAST_TALL
        room = _tall(chart, charts.Room(_PRINT_WIDTH, left if is_sheet else height, _PRINT_CELL), setting)
    if (pages := charts.parts(chart, room)) > most:
        chart = replace(chart, notes=(*chart.notes, OVERVIEW.format(pages=pages)))
        room = charts.Room(_PRINT_WIDTH, room.height - 2 * _LEGEND_LINE, _PRINT_CELL, least=0.01, scale=larger)
    return chart, room, is_sheet


def _beside_legend(chart: Chart, used: tuple[int, ...], groups: tuple[StartGroup, ...], setting: Setting) -> float:
    """The height that is left on a page for a chart above its legend, mm."""
    return max(110.0, _PRINT_HEIGHT[setting.medium] - _legend_height(chart, used, groups))


def _tall(chart: Chart, room: charts.Room, setting: Setting) -> charts.Room:
    """The room beside the legend, or a page's whole height where that saves pages and the legend can stand before."""
    full = replace(room, height=_PRINT_HEIGHT[setting.medium] - _PRINT_CAPTION)
    rooms = (full, *(replace(full, cell=cell) for cell in _CLOSER_CELLS))
    best = min(rooms, key=lambda one: charts.parts(chart, one))
    pages = charts.parts(chart, room)
    # the legend takes a page of its own then
    return best if pages > _FEW_PARTS and charts.parts(chart, best) + 1 < pages else room


def without_long_words(chart: Chart) -> Chart:
    """A chart for paper: words that would fill dozens of pages are left to the page and the text."""
    if chart.repeat is not None and sum(len(text) for _, text in chart.words) <= _MOST_WORDS:
        return chart
    return replace(chart, words=(), notes=(*chart.notes, WORDS_ELSEWHERE))


def _safe(svg: str) -> Markup:
    from markupsafe import Markup

    return Markup(svg)


def _legend_height(chart: Chart, used: tuple[int, ...], groups: tuple[StartGroup, ...]) -> float:
    """About what a chart's legend takes on paper, mm: lines of colours, of starts with their lead, and of notes."""
    lines = ceil(len(used) / 4) + sum(ceil(len(note) / _LEGEND_CHARACTERS) for note in chart.notes)
    if groups:
        lines += 1 + ceil(sum(len(group.text) + _START_CHARACTERS for group in groups) / _LEGEND_CHARACTERS)
    return (lines + 1) * _LEGEND_LINE


def _is_brief(chart: Chart) -> bool:
    return all(len(label) + len(text) <= _BRIEF_WORDS for label, text in chart.words)


def _halves(words: tuple[tuple[str, str], ...]) -> tuple[tuple[tuple[str, str], ...], ...]:
    """Words cut into two columns about equally long, the first the longer."""
    lines = [_word_lines(*row) for row in words]
    at = next(n for n in range(len(lines) + 1) if 2 * sum(lines[:n]) >= sum(lines))
    return words[:at], words[at:]


def _word_lines(label: str, text: str) -> int:
    return ceil((len(label) + len(text) + 1) / _WORDS_LINE)


def _words_height(chart: Chart) -> float:
    """About what a chart's words take on paper with their heading, mm."""
    lines = sum(_word_lines(*row) for row in chart.words)
    return _WORDS_HEAD + lines / 2 * _WORDS_TALL if _is_brief(chart) else inf
