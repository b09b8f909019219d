"""The pattern document as HTML for a medium: the one road to the web page and to the printed one.

Parts become blocks, each with its finished pictures and unique ids; a template sets them. Nothing is added to the
pattern's words but names of landmarks, captions of pictures and the headings of measure tables.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import cache, partial
from importlib import resources
from math import ceil
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from wale.outputs import alike, charted, tabled
from wale.outputs import drawing as drawings
from wale.outputs import schematic as schematics
from wale.outputs.ids import Ids, slug
from wale.outputs.setting import LARGE_MM, Setting
from wale.outputs.svg import enlarged, text_width
from wale.pattern import LINK, Bullets, Chart, Charts, Drawing, Drawings, Paragraph, Part, Pattern, Schematic, Table

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

_PRINT_WIDTH = 168.0
# The front page: mm for title, sizes, about, drawing and lines of contents, beside margins and the heading of those, by
# paper; sizes of type and what a line takes of them; a line of contents; the least and largest height of the drawing.
_FRONT = {"a4": 224.0, "letter": 206.0}
_TITLE, _LEAD, _LEADING = 10.6, 4.2, 1.45
_CONTENTS_LINE = 6.6
_FRONT_LEAST, _FRONT_TALLEST = 40.0, 115.0
# In large print: the front's sizes of type and its line of contents, how much larger a schematic is drawn, which then
# has its letters only, and drawings to compare, which stand two abreast.
_LARGE_TITLE, _LARGE_CONTENTS = 12.0, 7.7
_LARGER_SCHEMATIC = LARGE_MM / schematics.TEXT
_LARGER_DRAWINGS = LARGE_MM / alike.TEXT
_LARGE_ABREAST = 79.0
# A schematic stands beside its table where so many mm are left for it.
_LEAST_ABREAST = 85.0
_BRACKETS = re.compile(r"(?:[\d.½¼¾–−-]+|[A-Z0-9]+) \([^()]*\)")
_ROWS = re.compile(r"[^\w;]*\d+[^\w;]*: [^;]*\bsts, [^;]*/[^;]*; ")
_SHORT = 28
_NO_BREAK = "\u00a0"


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


def render(pattern: Pattern, setting: Setting, style: str) -> str:
    """The whole page: `style` is CSS put in its head. Pictures are inline, so the page needs no other file."""
    ids = Ids()
    for fixed in ("main", "contents", "contents-title"):
        ids.make(fixed)
    front = None
    if pattern.drawing is not None:
        front = _block(pattern.drawing, "drawing", ids, setting, pattern)
    sections = []
    for section in pattern.sections:
        ident = ids.make(section.id)
        title_id = ids.make(f"{section.id}-title")
        parts = _large(section.parts, pattern) if setting.is_large and setting.is_paper else section.parts
        blocks = tuple(_block(part, section.id, ids, setting, pattern) for part in parts)
        sections.append({"id": ident, "title_id": title_id, "title": section.title, "blocks": blocks})
    page = fillable().get_template("pattern.html.j2")
    return page.render(
        pattern=pattern,
        medium=setting.medium,
        style=style,
        front=front,
        sections=sections,
        sizes=size_line(pattern.sizes),
    )


def _large(parts: tuple[Part, ...], pattern: Pattern) -> Iterator[Part]:
    """Parts for large print on paper: wide tables in parts, the measures of a schematic as a table after it."""
    for part in parts:
        if isinstance(part, Table):
            yield from tabled.in_parts(part)
        elif isinstance(part, Schematic):
            yield part
            yield from tabled.in_parts(tabled.large_measures(part, pattern.sizes))
        else:
            yield part


@cache
def fillable() -> Environment:
    """Give the templates with what they ask for."""
    from wale.outputs.templates import environment

    found = environment()
    found.filters["prose"] = prose
    found.filters["slug"] = slug
    return found


def read_style(name: str) -> str:
    """A stylesheet of the package."""
    return resources.files(__package__).joinpath("styles", name).read_text("utf-8")


def _block(part: Part, section: str, ids: Ids, setting: Setting, pattern: Pattern) -> Block:
    if isinstance(part, Chart) and setting.is_paper:
        part = charted.without_long_words(part)
    kind = type(part).__name__.lower()
    makers: dict[str, Callable[[Any, str, Ids, Setting], dict[str, Any]]] = {
        "chart": charted.make,
        "charts": _make_charts,
        "schematic": partial(_make_schematic, sizes=pattern.sizes),
        "drawing": partial(_make_drawing, pattern=pattern),
        "drawings": _make_drawings,
        "table": tabled.make,
    }
    name = getattr(part, "name", "") or getattr(part, "title", "") or getattr(part, "caption", "")
    ident = ids.make(f"{section}-{name}" if name else f"{section}-{kind}")
    made: dict[str, Any]
    if isinstance(part, Paragraph):
        made = {"ids": _addresses((part,), ids)}
    elif kind in makers:
        made = makers[kind](part, ident, ids, setting)
    else:
        items = getattr(part, "items", ())
        made = {"ids": _addresses(items, ids)}
        if isinstance(part, Bullets):
            made["entries"] = tuple(map(_entries, part.items))
    return Block(kind, part, ident, made)


def _entries(item: Paragraph) -> tuple[str, ...]:
    """The parts of a line that lists rows with their stitches ("3: 61 sts, 1/11; 7: 63 sts, 12/12"), else nothing."""
    if not _ROWS.match(item.text):
        return ()
    *others, last = item.text.split("; ")
    return (*(f"{one};" for one in others), last)


def _addresses(items: tuple[Any, ...], ids: Ids) -> tuple[str, ...]:
    return tuple(ids.make(item.address) if isinstance(item, Paragraph) and item.address else "" for item in items)


def _safe(svg: str) -> Markup:
    from markupsafe import Markup

    return Markup(svg)


def _make_charts(charts: Charts, ident: str, ids: Ids, setting: Setting) -> dict[str, Any]:
    blocks = []
    for chart in charts.items:
        name = ids.make(f"{ident}-{chart.name}")
        blocks.append(Block("chart", chart, name, charted.make(chart, name, ids, setting)))
    return {"charts": tuple(blocks)}


def _make_drawing(drawing: Drawing, ident: str, ids: Ids, setting: Setting, pattern: Pattern) -> dict[str, Any]:
    tall = _front_tall(pattern, setting) if setting.is_paper else _FRONT_TALLEST
    return {"svg": _safe(drawings.render(drawing, ids.make(f"{ident}-picture"), height=tall))}


def _front_tall(pattern: Pattern, setting: Setting) -> float:
    """How tall the drawing on the front may be, mm, so that the whole contents stand on its page."""
    title, lead, line = (
        (_LARGE_TITLE, LARGE_MM, _LARGE_CONTENTS) if setting.is_large else (_TITLE, _LEAD, _CONTENTS_LINE)
    )
    words = ((pattern.title, title), (size_line(pattern.sizes), lead), (pattern.about, lead))
    above = sum(ceil(text_width(text, size) / _PRINT_WIDTH) * size * _LEADING for text, size in words)
    left = _FRONT[setting.medium] - above - len(pattern.sections) * line
    return min(_FRONT_TALLEST, max(_FRONT_LEAST, left))


def _make_drawings(drawings: Drawings, ident: str, ids: Ids, setting: Setting) -> dict[str, Any]:
    names = tuple(ids.make(f"{ident}-picture") for _ in drawings.items)
    wide, tall = alike.room(drawings.items)
    larger = 1.0
    if setting.is_large:
        wide, larger = max(wide, _LARGE_ABREAST), _LARGER_DRAWINGS
    room = wide / larger, tall / larger
    pictures = alike.render(drawings.items, names, room, is_shared=not setting.is_paper)
    return {"svgs": tuple(_safe(enlarged(one, larger)) for one in pictures), "width": wide}


def _make_schematic(
    schematic: Schematic, ident: str, ids: Ids, setting: Setting, sizes: tuple[str, ...]
) -> dict[str, Any]:
    name = ids.make(f"{ident}-picture")
    table = tabled.measures(schematic, sizes)
    beside = tabled.room_beside(table, _PRINT_WIDTH) if setting.is_paper and not setting.is_large else 0
    is_abreast = bool(table.rows) and beside >= _LEAST_ABREAST
    if setting.is_large:
        room = 146.0 / _LARGER_SCHEMATIC, 140.0 / _LARGER_SCHEMATIC
        picture = schematics.render(schematic, name, width=room[0], height=room[1], is_lettered=True)
        picture = enlarged(picture, _LARGER_SCHEMATIC)
    elif is_abreast:
        picture = schematics.render(schematic, name, width=beside)
    else:
        picture = schematics.render(schematic, name)
    return {
        "svg": _safe(picture),
        "is_abreast": is_abreast,
        "caption_id": ids.make(f"{ident}-caption"),
        "widths": tabled.set_widths(table, setting),
        "is_apart": setting.is_large and setting.is_paper,
    }
