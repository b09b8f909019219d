"""The pattern document as HTML for a medium: the one road to the web page and to the printed one.

Parts become blocks, each with its finished pictures and unique ids; a template sets them. Nothing is added to the
pattern's words but names of landmarks, captions of pictures and the headings of measure tables.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache, partial
from importlib import resources
from math import ceil, inf
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.outputs import alike
from wale.outputs import chart as charts
from wale.outputs import drawing as drawings
from wale.outputs import schematic as schematics
from wale.outputs.chart_grid import StartGroup, start_groups
from wale.outputs.svg import text_width
from wale.pattern import LINK, Chart, Drawing, Drawings, Paragraph, Part, Pattern, Schematic, Table, unlinked

if TYPE_CHECKING:
    from jinja2 import Template
    from markupsafe import Markup

Medium = Literal["screen", "a4", "letter"]

_SCREEN_CHART = charts.Room(width=4000.0, height=4000.0, cell=3.5)
_SCREEN_WIDE = charts.Room(width=4000.0, height=4000.0, cell=2.6)
# The height that a chart and its legend may take below a section's and its own heading, by paper.
_PRINT_HEIGHT = {"a4": 226.0, "letter": 208.0}
_PRINT_WIDTH = 168.0
_PRINT_CELL = 4.6
# The front page: mm for title, sizes, about, drawing and lines of contents, beside margins and the heading of those, by
# paper; sizes of type and what a line takes of them; a line of contents; the least and largest height of the drawing.
_FRONT = {"a4": 224.0, "letter": 206.0}
_TITLE, _LEAD, _LEADING = 10.6, 4.2, 1.45
_CONTENTS_LINE = 6.6
_FRONT_LEAST, _FRONT_TALLEST = 40.0, 115.0
# A line of the legend: mm, characters, and characters that a start takes beside its text.
_LEGEND_LINE = 5.2
_LEGEND_CHARACTERS = 95
_START_CHARACTERS = 20
# A table of more rows may be split over pages; one of more characters across is set smaller, and one of no more than
# the last figure keeps each cell on one line.
_WHOLE_ROWS = 10
_DENSE_CHARACTERS = 105
_TIGHT_CHARACTERS = 130
# A table so narrow that it fits twice into a page of so many em, with space between, is set in columns: of about
# twelve rows, and never more than thirty. A caption of so many characters keeps to one line.
_PAGE_EM = 51.0
_BESIDE = 1.6
_COLUMN_ROWS = 12
_LINE = 100
_DENSE_SIZE = 0.84
_LONGEST_COLUMN = 30
# Padding of a cell in em, as in base.css.
_PAD = 0.7
_FIGURE_PAD = 0.5
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
_FIGURE = re.compile(r"[-–−]?[\d.,½¼¾×/ –−+-]*\d[\d.,½¼¾/]*( ?[a-zA-Z%″]{1,4})?|[–—-]|")
_BRACKETS = re.compile(r"(?:[\d.½¼¾–−-]+|[A-Z0-9]+) \([^()]*\)")
_SHORT = 28
_NO_BREAK = "\u00a0"


def slug(address: str) -> str:
    """The id that an address gets where it is the first of its kind, for links to it."""
    plain = re.sub(r"[^a-z0-9]+", "-", address.lower()).strip("-") or "part"
    return f"p-{plain}" if plain[0].isdigit() else plain


class Ids:
    """Hands out ids that are unique on the page and safe in a link: the slug of an address, numbered if taken."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def make(self, address: str) -> str:
        """An id for `address`; a second one of the same slug gets `-2`, and so on."""
        plain = slug(address)
        name, n = plain, 1
        while name in self._taken:
            n += 1
            name = f"{plain}-{n}"
        self._taken.add(name)
        return name


class Block(Struct, frozen=True):
    """A part as the template sees it: which macro sets it, the part, its id, and what was made for it."""

    kind: str
    part: Part
    ident: str
    made: dict[str, Any]


def prose(text: str) -> Markup:
    """`text` escaped; what stands between backticks as code, size brackets kept from ugly breaks.

    "161 (173, 185)" stays whole, a long one its head, by no-break spaces: they cost a typesetter nothing.
    """
    from markupsafe import Markup, escape

    def set_part(part: str, is_code: bool) -> str:
        return f"<code>{escape(part)}</code>" if is_code else str(escape(_BRACKETS.sub(_held, part)))

    def set_link(found: re.Match[str]) -> str:
        return f'<a class="n" href="#{slug(found[1])}">{found[2]}</a>'

    made = "".join(set_part(part, is_code) for part, is_code in code_parts(text))
    return Markup(LINK.sub(set_link, made))


def code_parts(text: str) -> list[tuple[str, bool]]:
    """`text` cut at its pairs of backticks: each part, and whether it stood between them."""
    parts = text.split("`")
    if len(parts) % 2 == 0:
        return [(text, False)]
    return [(part, bool(number % 2)) for number, part in enumerate(parts) if part]


def _held(found: re.Match[str]) -> str:
    group = found[0]
    if len(group) <= _SHORT:
        return group.replace(" ", _NO_BREAK)
    head, comma, rest = group.partition(", ")
    return f"{head.replace(' ', _NO_BREAK)}, {rest}" if comma and len(head) <= _SHORT else group


def size_line(sizes: tuple[str, ...]) -> str:
    """The sizes in the trade's brackets: "Sizes XS (S, M, L)"."""
    if len(sizes) < 2:
        return f"Size {sizes[0]}" if sizes else ""
    return f"Sizes {sizes[0]} ({', '.join(sizes[1:])})"


def figure_columns(table: Table) -> tuple[bool, ...]:
    """For each column of a table, whether all cells are numbers and set to the right; never the heading column."""
    return tuple(
        i > 0 and all(_FIGURE.fullmatch(unlinked(row[i])) for row in table.rows) and any(row[i] for row in table.rows)
        for i in range(len(table.header))
    )


def render(pattern: Pattern, medium: Medium, style: str) -> str:
    """The whole page: `style` is CSS put in its head. Pictures are inline, so the page needs no other file."""
    ids = Ids()
    for fixed in ("main", "contents", "contents-title"):
        ids.make(fixed)
    front = None
    if pattern.drawing is not None:
        front = _block(pattern.drawing, "drawing", ids, medium, pattern)
    sections = []
    for section in pattern.sections:
        ident = ids.make(section.id)
        title_id = ids.make(f"{section.id}-title")
        blocks = tuple(_block(part, section.id, ids, medium, pattern) for part in section.parts)
        sections.append({"id": ident, "title_id": title_id, "title": section.title, "blocks": blocks})
    return _template().render(
        pattern=pattern, medium=medium, style=style, front=front, sections=sections, sizes=size_line(pattern.sizes)
    )


@cache
def _template() -> Template:
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    def load(name: str) -> str:
        return resources.files(__package__).joinpath("templates", name).read_text("utf-8")

    environment = Environment(
        loader=FunctionLoader(load), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["prose"] = prose
    environment.filters["slug"] = slug
    return environment.get_template("pattern.html.j2")


def read_style(name: str) -> str:
    """A stylesheet of the package."""
    return resources.files(__package__).joinpath("styles", name).read_text("utf-8")


def _block(part: Part, section: str, ids: Ids, medium: Medium, pattern: Pattern) -> Block:
    if isinstance(part, Chart) and medium != "screen":
        part = _without_long_words(part)
    kind = type(part).__name__.lower()
    makers: dict[str, Callable[[Any, str, Ids, Medium], dict[str, Any]]] = {
        "chart": _make_chart,
        "schematic": partial(_make_schematic, sizes=pattern.sizes),
        "drawing": partial(_make_drawing, pattern=pattern),
        "drawings": _make_drawings,
        "table": _make_table,
    }
    name = getattr(part, "name", "") or getattr(part, "title", "") or getattr(part, "caption", "")
    ident = ids.make(f"{section}-{name}" if name else f"{section}-{kind}")
    if isinstance(part, Paragraph):
        made = {"ids": _addresses((part,), ids)}
    elif kind in makers:
        made = makers[kind](part, ident, ids, medium)
    else:
        items = getattr(part, "items", ())
        made = {"ids": _addresses(items, ids)}
    return Block(kind, part, ident, made)


def _addresses(items: tuple[Any, ...], ids: Ids) -> tuple[str, ...]:
    return tuple(ids.make(item.address) if isinstance(item, Paragraph) and item.address else "" for item in items)


def _safe(svg: str) -> Markup:
    from markupsafe import Markup

    return Markup(svg)


def _make_table(table: Table, ident: str, ids: Ids, medium: Medium) -> dict[str, Any]:
    runs = side_by_side(table)
    return {
        "figures": figure_columns(table),
        "caption_id": ids.make(f"{ident}-caption"),
        "part_ids": tuple(ids.make(f"{ident}-part") for _ in runs) if len(runs) > 1 else (),
        "runs": runs,
        "widths": _set_widths(table) if medium != "screen" else (),
        "classes": _table_classes(table),
    }


def side_by_side(table: Table) -> tuple[tuple[tuple[str, ...], ...], ...]:
    """The rows of a table in runs that are set beside one another: more than one for a long narrow table."""
    beside = min(int(_PAGE_EM / (sum(_widths(table)) + _BESIDE)), ceil(len(table.rows) / _COLUMN_ROWS))
    if beside < 2:
        return (table.rows,)
    long = min(ceil(len(table.rows) / beside), _LONGEST_COLUMN)
    return tuple(table.rows[at : at + long] for at in range(0, len(table.rows), long))


def _set_widths(table: Table) -> tuple[float, ...]:
    """Widths in em to set a table with, which saves the typesetter measuring each cell; none where it is too wide."""
    widths = _widths(table)
    room = _PAGE_EM / _DENSE_SIZE if _across(table) > _DENSE_CHARACTERS else _PAGE_EM
    return widths if sum(widths) <= room and _across(table) <= _TIGHT_CHARACTERS else ()


def _widths(table: Table) -> tuple[float, ...]:
    """Widths of a table's columns in em, each cell on one line: measured here, once, as upper bounds."""
    figures = figure_columns(table)
    return tuple(
        round(max(text_width(cell, 1) for cell in cells) + _PAD + figures[i] * _FIGURE_PAD, 2)
        for i, cells in enumerate(_columns(table))
    )


def _table_classes(table: Table) -> tuple[str, ...]:
    across = _across(table)
    asked = {
        "whole": len(table.rows) <= _WHOLE_ROWS,
        "dense": across > _DENSE_CHARACTERS,
        "tight": across <= _TIGHT_CHARACTERS,
        "line": len(table.caption) <= _LINE,
    }
    return tuple(name for name, is_so in asked.items() if is_so)


def _across(table: Table) -> int:
    """Characters across a table, each cell on one line."""
    return sum(max(map(len, cells)) + 1 for cells in _columns(table))


def _columns(table: Table) -> list[tuple[str, ...]]:
    """The cells of each column as they are printed, its heading first."""
    rows = (table.header, *table.rows)
    return [tuple(unlinked(row[i]) for row in rows) for i in range(len(table.header))]


def _make_drawing(drawing: Drawing, ident: str, ids: Ids, medium: Medium, pattern: Pattern) -> dict[str, Any]:
    tall = _FRONT_TALLEST if medium == "screen" else _front_tall(pattern, medium)
    return {"svg": _safe(drawings.render(drawing, ids.make(f"{ident}-picture"), height=tall))}


def _front_tall(pattern: Pattern, paper: Medium) -> float:
    """How tall the drawing on the front may be, mm, so that the whole contents stand on its page."""
    words = ((pattern.title, _TITLE), (size_line(pattern.sizes), _LEAD), (pattern.about, _LEAD))
    above = sum(ceil(text_width(text, size) / _PRINT_WIDTH) * size * _LEADING for text, size in words)
    return min(_FRONT_TALLEST, max(_FRONT_LEAST, _FRONT[paper] - above - len(pattern.sections) * _CONTENTS_LINE))


def _make_drawings(drawings: Drawings, ident: str, ids: Ids, medium: Medium) -> dict[str, Any]:
    names = tuple(ids.make(f"{ident}-picture") for _ in drawings.items)
    room = alike.room(drawings.items)
    pictures = alike.render(drawings.items, names, room, is_shared=medium == "screen")
    return {"svgs": tuple(map(_safe, pictures)), "width": room[0]}


def _make_schematic(
    schematic: Schematic, ident: str, ids: Ids, medium: Medium, sizes: tuple[str, ...]
) -> dict[str, Any]:
    picture = schematics.render(schematic, ids.make(f"{ident}-picture"))
    widths = _set_widths(_measures(schematic, sizes)) if medium != "screen" else ()
    return {"svg": _safe(picture), "caption_id": ids.make(f"{ident}-caption"), "widths": widths}


def _measures(schematic: Schematic, sizes: tuple[str, ...]) -> Table:
    """The table of a schematic's measures, to find its widths."""
    rows = tuple((one.letter, one.name, *one.values) for one in schematic.dimensions)
    return Table(schematic.name, ("Letter", "Measure", *sizes), rows)


def _without_long_words(chart: Chart) -> Chart:
    """A chart for paper: words that would fill dozens of pages are left to the page and the text."""
    if chart.repeat is not None and sum(len(text) for _, text in chart.words) <= _MOST_WORDS:
        return chart
    return replace(chart, words=(), notes=(*chart.notes, WORDS_ELSEWHERE))


def _make_chart(chart: Chart, ident: str, ids: Ids, medium: Medium) -> dict[str, Any]:
    used = charts.occurring(chart)
    groups = start_groups(chart)
    is_sheet = False
    if medium == "screen":
        room = _SCREEN_CHART if len(chart.rows[0]) <= 48 else _SCREEN_WIDE
    else:
        height = max(110.0, _PRINT_HEIGHT[medium] - _legend_height(chart, used, groups))
        left = height - _words_height(chart)
        is_sheet = bool(chart.words) and left >= len(chart.rows) * _LEAST_TALL
        height = left if is_sheet else height
        room = charts.Room(_PRINT_WIDTH, height, _PRINT_CELL)
        if (pages := charts.parts(chart, room)) > _MOST_PARTS:
            chart = replace(chart, notes=(*chart.notes, OVERVIEW.format(pages=pages)))
            room = charts.Room(_PRINT_WIDTH, height - 2 * _LEGEND_LINE, _PRINT_CELL, least=0.01)
    tiles = charts.tiles(chart, room, ids.make(f"{ident}-picture"))
    legend_cells = tuple(
        (
            _safe(charts.cell_sample(chart, index, ids.make(f"{ident}-cell"))),
            chart.colours[index].name if index >= 0 else "no stitch",
        )
        for index in used
    )
    return {
        "tiles": tuple((tile, _safe(tile.svg)) for tile in tiles),
        "notes": chart.notes,
        "legend": legend_cells,
        "starts": groups,
        "words_id": ids.make(f"{ident}-words"),
        "is_brief": _is_brief(chart),
        "halves": _halves(chart.words) if is_sheet else (),
    }


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
