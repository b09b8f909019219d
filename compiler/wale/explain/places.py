"""Where the numbers of a pattern stand: each text of the document in reading order, with what it speaks of.

`walked` hands every text that may hold a number to a visitor and puts what it gives back in the text's place, so that
one walk serves to find the numbers and to link them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from wale.explain.chart_places import chart_place
from wale.explain.dimensions import dimension_scope, finished_scope, yarn_scope
from wale.explain.piece_places import piece_places
from wale.explain.walk import Visitor, Walk, paragraph
from wale.pattern import (
    Bullets,
    Caution,
    Chart,
    Charts,
    Definitions,
    Drawing,
    Drawings,
    Paragraph,
    Part,
    Pattern,
    Schematic,
    Steps,
    Table,
)
from wale.pattern import Section as Headed
from wale.plan import Plan
from wale.spec import Spec

EXPANDED = ("whole-charts", "rows", "looks")
"""Sections that are printed only when asked for: rows, stitches and pictures, which follow from the lines."""
_YARN = re.compile(r"(\S+) \(#[0-9a-f]{6}\)")


def walked(pattern: Pattern, spec: Spec, plan: Plan, sizes: Sequence[int], visit: Visitor) -> Pattern:
    """Visit every text of a pattern in the order of the text output, and give the pattern with what comes back."""
    walk = Walk(spec, plan, tuple(sizes), visit)
    walk.say(pattern.title, kind="title")
    walk.say(pattern.about, kind="title")
    if pattern.drawing is not None:
        walk.say(pattern.drawing.words, kind="name")
    return replace(pattern, sections=tuple(_section(walk, one) for one in pattern.sections))


def _section(walk: Walk, section: Headed) -> Headed:
    head, _, owner = section.id.partition("-")
    if section.id in EXPANDED:
        return section
    if section.id == "test-knit":
        return replace(section, parts=tuple(_sheet(walk, part) for part in section.parts))
    if section.id == "version":
        return replace(section, parts=tuple(_authored(walk, part) for part in section.parts))
    if head in ("piece", "band"):
        parts = piece_places(walk, section.parts, owner)
    else:
        scopes = {"measurements": ("estimate",), "materials": ("yarn", "swatch", "needles"), "gauge": ("swatch",)}
        scope = scopes.get(section.id, ("",))
        parts = tuple(_part(walk, part, section.id, number, scope) for number, part in enumerate(section.parts, 1))
    return replace(section, parts=parts)


def _authored(walk: Walk, part: Part) -> Part:
    """Visit what the author wrote about the version."""
    if isinstance(part, Bullets):
        return replace(part, items=tuple(replace(one, text=walk.say(one.text, kind="note")) for one in part.items))
    assert isinstance(part, Paragraph)
    return replace(part, text=walk.say(part.text, kind="title"))


def _part(walk: Walk, part: Part, section: str, number: int, scope: tuple[str, ...]) -> Part:
    match part:
        case Paragraph():
            return paragraph(walk, part, *((f"care[{number}]",) if section == "care" else scope))
        case Steps() | Bullets():
            made = [_item(walk, one, section, place, scope) for place, one in enumerate(part.items, 1)]
            return replace(part, items=tuple(made))
        case Definitions():
            return _definitions(walk, part, section)
        case Table():
            return _table(walk, part, section)
        case Caution():
            return replace(part, text=walk.any_size(part.text, "ring", "floats", "gauge", "yarn", ""))
        case Chart():
            return chart_place(walk, part)
        case Schematic():
            return _schematic(walk, part)
        case Drawing() | Drawings() | Charts():
            return part


def _item(walk: Walk, one: Paragraph, section: str, place: int, scope: tuple[str, ...]) -> Paragraph:
    if section == "gauge":
        return paragraph(walk, one, one.address, "needles")
    if section == "materials":
        return paragraph(walk, one, "needles")
    if section == "assumptions":
        held = [number for number, each in enumerate(walk.spec.assumptions, 1) if each.holds(walk.sizes)]
        if place > len(held):
            return paragraph(walk, one, "weight")
        return paragraph(walk, one, f"assumption[{held[place - 1]}]")
    if section in ("joining", "making-up"):
        return paragraph(walk, one, *_named(walk, one.text))
    if section == "charts":
        return paragraph(walk, one, one.address)
    return paragraph(walk, one, *scope)


def _named(walk: Walk, text: str) -> list[str]:
    """The addresses of the pieces that a step of making up names, else of all."""
    words = text.lower()
    pieces = [one.name for one in walk.plan.pieces if re.search(rf"\b{re.escape(one.name.lower())}\b", words)]
    scope = []
    for name in pieces or [one.name for one in walk.plan.pieces]:
        first = f"{name}.shoulders.stitches" if "shoulder" in words else f"{name}.edge"
        first = f"{name}.hold" if "underarm" in words else first
        scope += [
            *([f"{name}.eased"] if "cap of each" in words else []),
            first,
            f"{name}.sewn-on",
            f"{name}.hem.sewn-row",
            f"{name}.cast-on",
            *_levels(walk, name),
            f"{name}.pom-pom",
            f"{name}.tassel",
        ]
    return [*scope, *(f"{one.name}.edge" for one in walk.plan.pieces)]


def _levels(walk: Walk, name: str) -> list[str]:
    piece = walk.plan.piece(name)
    assert piece is not None
    return [level.address for level in piece.levels]


def _definitions(walk: Walk, part: Definitions, section: str) -> Definitions:
    if section == "abbreviations":
        return replace(part, items=tuple((walk.say(a, kind="term"), walk.say(b, kind="term")) for a, b in part.items))
    items = []
    for term, meaning in part.items:
        scope = (f"yarn.{term}.count", f"yarn.{term}.metres-per-100g", f"yarn.{term}", "yarn.per")
        items.append((walk.say(term, kind="name"), walk.say(meaning, *scope)))
    return replace(part, items=tuple(items))


def _table(walk: Walk, table: Table, section: str) -> Table:
    walk.say(table.caption, kind="name")
    rows = []
    for row in table.rows:
        if len(row) != len(walk.sizes) + 1 or table.header[1:] != _names(walk):
            rows.append(_pair(walk, table.header, row))
            continue
        scope = _row_scope(walk, row[0], section)
        label = walk.say(row[0], *scope, kind="address" if section == "assumptions" else "")
        rows.append((label, *walk.row(row[1:], *scope)))
    note = walk.say(table.note, "estimate" if section == "measurements" else "colour")
    return replace(table, rows=tuple(rows), note=note)


def _sheet(walk: Walk, part: Part) -> Part:
    """A part of the sheet for a test knit: gauges and measures as planned, and numbered lines for remarks."""
    if isinstance(part, Paragraph):
        return replace(part, text=walk.say(part.text, kind="example"))
    assert isinstance(part, Table)
    walk.say(part.caption, kind="name")
    mine = [size for size, name in enumerate(walk.plan.sizes) if name in part.caption.split(", ")] or walk.sizes
    rows = []
    for first, told, *rest in part.rows:
        if part.header[0] == "fabric":
            addresses = (f"gauge.{first}.stitches", f"gauge.{first}.rows")
            rows.append((walk.say(first, kind="name"), walk.say(told, exact=addresses), *rest))
        elif part.header[0] == "measure":
            rows.append((first, walk.say(told, *finished_scope(walk.plan, first), sizes=mine), *rest))
        else:
            rows.append((walk.say(first, kind="step" if not part.header[0] else "name"), walk.say(told), *rest))
    return replace(part, rows=tuple(rows))


def _names(walk: Walk) -> tuple[str, ...]:
    return tuple(walk.plan.sizes[size] for size in walk.sizes)


def _pair(walk: Walk, header: Sequence[str], row: Sequence[str]) -> tuple[str, ...]:
    """A row on two yarns, "rye (#8a5a2b) and flour (#efe6d2)": how their colours stand apart to each kind of eyes."""
    name = f"colour.{'.'.join(_YARN.findall(row[0]))}"
    addresses = ("", *(f"{name}.{head.removeprefix('in ').replace(' ', '-')}" for head in header[1:]))
    return tuple(walk.say(cell, exact=(one,)) for cell, one in zip(row, addresses, strict=True))


def _row_scope(walk: Walk, label: str, section: str) -> tuple[str, ...]:
    if section == "materials":
        return yarn_scope(walk.spec, label)
    if section == "assumptions":
        address, _, unit = label.rpartition(", ")
        rows = address if unit == "sts" else f"{address}.rows"
        return (f"{rows}.deviation", rows, address)
    return finished_scope(walk.plan, label)


def _schematic(walk: Walk, drawn: Schematic) -> Schematic:
    dimensions = []
    for one in drawn.dimensions:
        scope = dimension_scope(walk.plan, drawn.name, one.name)
        walk.say(one.name, kind="name")
        dimensions.append(replace(one, values=walk.row(one.values, *scope)))
    return replace(drawn, dimensions=tuple(dimensions))
