"""Where the numbers of a pattern stand: each text of the document in reading order, with what it speaks of.

`walked` hands every text that may hold a number to a visitor and puts what it gives back in the text's place, so that
one walk serves to find the numbers and to link them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from wale.explain.charting import row_figures
from wale.explain.dimensions import dimension_scope, finished_scope, yarn_scope
from wale.pattern import (
    Bullets,
    Caution,
    Chart,
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
_SIZES = re.compile(r"Sizes? ([^:]+):")
_FIGURE = re.compile(r"\d")
_ORIGIN = re.compile(r"[A-Z][a-z]+: ")
"""A note of where a motif comes from, in its author's words."""
_ROW_TOLD = re.compile(r"[^()]*\(row \d+\)")
_YARN = re.compile(r"(\S+) \(#[0-9a-f]{6}\)")


class Spoken(Struct, frozen=True):
    """What a text speaks of.

    Attributes:
        scope: beginnings of addresses, the closest first; numbers of other addresses do not occur.
        sizes: indexes of the sizes that it is for; of a row of a table, those of its cells.
        exact: the address of each number in order, where the text's form tells it; "" where it does not.
        kind: a class of `structure.CLASSES` to which all its numbers belong.
        any_size: each number is of some size or other, as the words tell.
        is_made: an output makes the text itself, so that what comes back is not printed.
    """

    scope: tuple[str, ...] = ()
    sizes: tuple[int, ...] = ()
    exact: tuple[str, ...] = ()
    kind: str = ""
    is_made: bool = False
    any_size: bool = False


Visitor = Callable[[tuple[str, ...], Spoken], tuple[str, ...]]
"""Takes a text, or the cells of a row, one a size, and what they speak of; gives the texts to print."""


class Walk(Struct, frozen=True):
    """A walk over a pattern of some printed sizes."""

    spec: Spec
    plan: Plan
    sizes: tuple[int, ...]
    visit: Visitor

    def say(self, text: str, *scope: str, exact: Sequence[str] = (), kind: str = "", sizes: Sequence[int] = ()) -> str:
        """Visit a text; one without a figure is passed over."""
        if not _FIGURE.search(text):
            return text
        return self.visit((text,), Spoken(scope, tuple(sizes) or self.sizes, tuple(exact), kind))[0]

    def made(self, text: str, *, exact: Sequence[str], sizes: Sequence[int] = ()) -> None:
        """Visit a text that an output makes of a chart."""
        self.visit((text,), Spoken((), tuple(sizes) or self.sizes, tuple(exact), is_made=True))

    def any_size(self, text: str, *scope: str) -> str:
        """Visit a text that tells of some sizes by name, one after the other."""
        return self.visit((text,), Spoken(scope, self.sizes, any_size=True))[0]

    def row(self, cells: Sequence[str], *scope: str) -> tuple[str, ...]:
        """Visit the cells of a row, one a size."""
        return self.visit(tuple(cells), Spoken(scope, self.sizes))


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
    if head in ("piece", "band"):
        parts = _piece(walk, section.parts, owner)
    else:
        scopes = {"measurements": ("estimate",), "materials": ("yarn", "swatch", "needles"), "gauge": ("swatch",)}
        scope = scopes.get(section.id, ("",))
        parts = tuple(_part(walk, part, section.id, number, scope) for number, part in enumerate(section.parts, 1))
    return replace(section, parts=parts)


def _part(walk: Walk, part: Part, section: str, number: int, scope: tuple[str, ...]) -> Part:
    match part:
        case Paragraph():
            return _paragraph(walk, part, *((f"care[{number}]",) if section == "care" else scope))
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
            return _chart(walk, part)
        case Schematic():
            return _schematic(walk, part)
        case Drawing() | Drawings():
            return part


def _paragraph(walk: Walk, one: Paragraph, *scope: str, sizes: Sequence[int] = ()) -> Paragraph:
    strong = walk.say(one.strong, *scope, sizes=sizes)
    return replace(one, strong=strong, text=walk.say(one.text, *scope, sizes=sizes))


def _item(walk: Walk, one: Paragraph, section: str, place: int, scope: tuple[str, ...]) -> Paragraph:
    if section == "gauge":
        return _paragraph(walk, one, one.address, "needles")
    if section == "materials":
        return _paragraph(walk, one, "needles")
    if section == "assumptions":
        held = [number for number, each in enumerate(walk.spec.assumptions, 1) if each.holds(walk.sizes)]
        if place > len(held):
            return _paragraph(walk, one, "weight")
        return _paragraph(walk, one, f"assumption[{held[place - 1]}]")
    if section in ("joining", "making-up"):
        return _paragraph(walk, one, *_named(walk, one.text))
    if section == "charts":
        return _paragraph(walk, one, one.address)
    return _paragraph(walk, one, *scope)


def _named(walk: Walk, text: str) -> list[str]:
    """The addresses of the pieces that a step of making up names, else of all."""
    words = text.lower()
    pieces = [one.name for one in walk.plan.pieces if re.search(rf"\b{re.escape(one.name.lower())}\b", words)]
    scope = []
    for name in pieces or [one.name for one in walk.plan.pieces]:
        first = f"{name}.shoulders.stitches" if "shoulder" in words else f"{name}.edge"
        scope += [first, f"{name}.hem.sewn-row", f"{name}.cast-on", *_levels(walk, name), f"{name}.pom-pom"]
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


def _chart(walk: Walk, chart: Chart) -> Chart:
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
    notes = tuple(_note(walk, note, name) for note in chart.notes)
    words = tuple(
        (
            walk.say(label, kind="chart row"),
            walk.say(text, exact=[f"{name}[{number}].{one}" for one in row_figures(text)]),
        )
        for number, (label, text) in enumerate(chart.words, 1)
    )
    return replace(chart, notes=notes, words=words)


def _row(walk: Walk, name: str, label: str, text: str) -> tuple[str, str]:
    addresses = [f"{name}.{figure}" for figure in row_figures(text)]
    return walk.say(label, kind="chart row"), walk.say(text, exact=addresses)


def _note(walk: Walk, text: str, name: str) -> str:
    if _ORIGIN.match(text):
        return walk.say(text, kind="note")
    if "irror" in text:
        return walk.say(text, f"{name}.axis")
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
            walk.made(told, exact=(f"{begins}.chart-first",), sizes=sizes[:1])


def _schematic(walk: Walk, drawn: Schematic) -> Schematic:
    dimensions = []
    for one in drawn.dimensions:
        scope = dimension_scope(walk.plan, drawn.name, one.name)
        walk.say(one.name, kind="name")
        dimensions.append(replace(one, values=walk.row(one.values, *scope)))
    return replace(drawn, dimensions=tuple(dimensions))


def _piece(walk: Walk, parts: Sequence[Part], owner: str) -> tuple[Part, ...]:
    """The lines of a piece or band, each by its slot; after a shaping stands the table of its rows."""
    made: list[Part] = []
    section = ""
    for part in parts:
        if isinstance(part, Steps):
            made.append(replace(part, items=tuple(_line(walk, one, owner) for one in part.items)))
            section = part.items[-1].address.removesuffix(".measured")
        elif isinstance(part, Table):
            rows = (
                tuple(
                    walk.say(cell, exact=(address,))
                    for cell, address in zip(row, _shaping(section, place), strict=True)
                )
                for place, row in enumerate(part.rows, 1)
            )
            made.append(replace(part, rows=tuple(rows)))
        elif isinstance(part, Bullets):
            made.append(replace(part, items=tuple(_starts(walk, one, section) for one in part.items)))
        elif isinstance(part, Paragraph):
            made.append(_paragraph(walk, part, f"{owner}.make"))
        else:
            made.append(part)
    return tuple(made)


def _shaping_row(walk: Walk, row: Sequence[str], section: str, place: int) -> tuple[str, ...]:
    addresses = _shaping(section, place)
    return tuple(walk.say(cell, exact=(address,)) for cell, address in zip(row, addresses, strict=True))


def _shaping(section: str, place: int) -> tuple[str, ...]:
    return tuple(f"{section}.shaping[{place}].{what}" for what in ("row", "stitches", "column", "column-ws"))


def _starts(walk: Walk, one: Paragraph, section: str) -> Paragraph:
    """The shaping rows of one size: "XS: 3: 137 sts, 11/1; 7: ..."."""
    size = walk.plan.sizes.index(one.strong.rstrip(":"))
    walk.say(one.strong, kind="size")
    exact = [address for place in range(1, one.text.count(";") + 2) for address in _shaping(section, place)]
    return replace(one, text=walk.say(one.text, exact=exact, sizes=(size,)))


def _line(walk: Walk, one: Paragraph, owner: str) -> Paragraph:
    """A line of a piece: what stands closest to its slot, what all lines share, and last the whole piece."""
    sizes, slot = _sizes_of(walk, one.strong), one.address
    parts = slot.split(".")
    scope = [".".join(parts[:length]) for length in range(len(parts), 1, -1)]
    above, last = slot.rpartition(".")[0], parts[-1]
    if last in ("right", "wrong") and "rib" in parts[-2]:
        inside = [f"{above}.{what}" for what in ("knit", "purl", "repeats", "knit")]
        edges = [f"{owner}.edge"] if one.text.count(", ") > 3 else []
        return replace(one, text=walk.say(one.text, exact=[*edges, *inside, *edges], sizes=sizes))
    if last == "first":
        return replace(one, text=walk.say(one.text, exact=(f"{above}.shaping[1].column",), sizes=sizes))
    if last == "measured":
        scope = [f"{above}.position", f"{above}.on-needles"]
    elif parts[1:2] == ["top"]:
        scope = _top_scope(owner, slot, scope)
    motifs = [name for motif in walk.spec.motifs for name in (f"chart.{motif}", f"chart.{motif}-round")]
    shared = ["needles", f"{owner}.edge", *(f"{name}.{what}" for name in motifs for what in ("width", "top-row"))]
    shared.append(owner)
    return _paragraph(walk, one, *scope, *shared, sizes=sizes)


def _top_scope(owner: str, slot: str, scope: list[str]) -> list[str]:
    """Lines of neck and shoulders speak of both, each first of its own."""
    neck = [f"{owner}.neck.step", f"{owner}.neck"]
    shoulders = [f"{owner}.shoulders.group", f"{owner}.shoulders"]
    if slot == f"{owner}.top":
        return [f"{slot}.row", f"{slot}.chart-row"]
    if slot == f"{owner}.top.measured":
        return scope
    first = shoulders if slot.endswith((".turns", ".steps", ".close", ".off")) else neck
    return [*scope, *first, *neck, *shoulders]


def _sizes_of(walk: Walk, lead: str) -> tuple[int, ...]:
    names = sizes_told(lead)
    return tuple(size for size in walk.sizes if walk.plan.sizes[size] in names) or walk.sizes


def sizes_told(lead: str) -> tuple[str, ...]:
    """Give the names of the sizes that a line is for, as its lead says; empty where it is for all."""
    found = _SIZES.match(lead)
    return tuple(found[1].split(", ")) if found is not None else ()
