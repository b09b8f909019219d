"""Where the numbers of a piece's or band's lines stand: lines by slot, shaping rows by the form of their table."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from wale.explain.course_lines import course_line
from wale.explain.walk import Walk, paragraph
from wale.pattern import Bullets, Paragraph, Part, Steps, Table

_BRACKETS = re.compile(r" \(\d+(?:, \d+)*\)")
"""Figures of further sizes."""
_SIZES = re.compile(r"Sizes? ([^:]+):")


def piece_places(walk: Walk, parts: Sequence[Part], owner: str) -> tuple[Part, ...]:
    """The lines of a piece or band, each by its slot; after a shaping stands the table of its rows."""
    made: list[Part] = []
    section = ""
    for part in parts:
        if isinstance(part, Steps):
            made.append(replace(part, items=tuple(_line(walk, one, owner) for one in part.items)))
            section = part.items[-1].address.removesuffix(".measured")
        elif isinstance(part, Table):
            rows = tuple(_shaping_row(walk, row, section, place) for place, row in enumerate(part.rows, 1))
            made.append(replace(part, rows=rows))
        elif isinstance(part, Bullets):
            made.append(replace(part, items=tuple(_starts(walk, one, section) for one in part.items)))
        elif isinstance(part, Paragraph):
            made.append(paragraph(walk, part, f"{owner}.make"))
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
    runs = _BRACKETS.sub("", one.text)
    above, last = slot.rpartition(".")[0], parts[-1]
    if last in ("right", "wrong") and "rib" in parts[-2]:
        often = f"{owner if above == f'{owner}.rib' else above}.repeats"
        inside = [f"{above}.knit", f"{above}.purl", often, f"{above}.knit"]
        edges = [f"{owner}.edge"] if runs.count(", ") > 3 else []
        return replace(one, text=walk.say(one.text, exact=[*edges, *inside, *edges], sizes=sizes))
    if last.startswith("texture["):
        inside = [f"{above}.{what}" for what in ("knit", "purl", "repeats")] if "(" in runs else []
        if inside and runs.count(", ") > 1:
            edges = [f"{owner}.edge"] if runs.count(", ") > 3 else []
            inside = [*edges, *inside, f"{above}.knit", *edges]
        strong = walk.say(one.strong, sizes=sizes)
        return replace(one, strong=strong, text=walk.say(one.text, owner, exact=inside, sizes=sizes))
    told = course_line(walk.plan, slot, one.text, len(sizes))
    if told is not None:
        exact = told.addresses(one.text)
        strong = walk.say(one.strong, *scope, owner, sizes=sizes)
        return replace(one, strong=strong, text=walk.say(one.text, *scope, owner, exact=exact, sizes=sizes, each=True))
    if last == "first":
        return replace(one, text=walk.say(one.text, exact=(f"{above}.shaping[1].column",), sizes=sizes))
    if last == "measured":
        scope = [f"{above}.position", f"{above}.on-needles"]
    elif parts[1:2] == ["top"]:
        scope = _top_scope(owner, slot, scope)
    motifs = [name for motif in walk.spec.motifs for name in (f"chart.{motif}", f"chart.{motif}-round")]
    shared = ["needles", f"{owner}.edge", *(f"{name}.{what}" for name in motifs for what in ("width", "top-row"))]
    shared.append(owner)
    return paragraph(walk, one, *scope, *shared, sizes=sizes)


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
