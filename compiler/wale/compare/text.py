"""A comparison as text: by piece, one line a number that differs, folded where all sizes change alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec import Struct

from wale.compare.cells import MotifChange
from wale.compare.comparison import Comparison, Told
from wale.compare.numbers import Number
from wale.compare.wordings import Wording
from wale.compare.words import (
    LABELS,
    NONE,
    UNITS,
    by_part,
    figure,
    listed,
    material,
    of_no_part,
    place_words,
    step_of,
    summary,
    together,
    unit_of,
)

MOST_CELLS = 60
"""Cells of a motif that are told one by one."""


class Paint(Struct, frozen=True):
    """How words are painted: headings, the old, the new."""

    heading: Callable[[str], str] = str
    old: Callable[[str], str] = str
    new: Callable[[str], str] = str


def render(found: Comparison, *, colour: bool = False) -> str:
    """Give the text; it ends in a newline."""
    paint = _colours() if colour else Paint()
    blocks = [[_clean(line) for line in summary(found)]]
    for heading, lines in (*_parts(found, paint), *_rest(found, paint)):
        if lines:
            blocks.append([paint.heading(_clean(heading)), *(f"  {line}" for line in lines)])
    return "\n".join("".join(f"{line}\n" for line in block) for block in blocks)


def _colours() -> Paint:
    import click

    return Paint(
        lambda text: click.style(text, bold=True),
        lambda text: click.style(text, fg="red"),
        lambda text: click.style(text, fg="green"),
    )


def _clean(text: str) -> str:
    """Give words from a file without signs that steer a terminal."""
    return "".join(sign if sign.isprintable() else "?" for sign in text)


def _parts(found: Comparison, paint: Paint) -> Iterator[tuple[str, Sequence[str]]]:
    """Give the lines of each piece and band; pieces of which the same is told stand together."""
    told: dict[tuple[str, ...], list[str]] = {}
    for name, numbers, words in by_part(found):
        lines = [line for one in numbers for line in _number(one, name, found, paint)]
        lines += [_said(of, one, paint) for of, one in together(name, words)]
        told.setdefault(tuple(lines), []).append(name)
    for key, pieces in told.items():
        yield " and ".join(pieces), key


def _number(one: Number, name: str, found: Comparison, paint: Paint) -> Iterator[str]:
    """Give the line of a number, or one a size below it where they are words."""
    place = _clean(place_words(one.address, name))
    if not any(isinstance(value, str) for value in (*one.before, *one.after)):
        yield f"{place}: {changed(one, found, paint)}"
        return
    yield f"{place}: {LABELS[one.kind]}"
    for size, old, new in zip(found.sizes, one.before, one.after, strict=True):
        if old != new:
            yield f"  {_clean(size)}: {_arrow(figure(old, one, found), figure(new, one, found), paint)}"


def changed(one: Number, found: Comparison, paint: Paint | None = None) -> str:
    """Say how a number changes: in all sizes at once, or size by size where some stay.

    Example: "2 stitches fewer in each size: 131 (145, 161) → 129 (143, 159)".
    """
    paint = paint or Paint()
    pairs = list(zip(found.sizes, one.before, one.after, strict=True))
    differ = [(size, old, new) for size, old, new in pairs if old != new]
    label = f"{LABELS[one.kind]} " if one.kind in LABELS else ""
    unit = unit_of(one, found)
    if len(differ) == len(pairs):
        words = _arrow(listed(one.before, one, found), listed(one.after, one, found), paint) + unit
        alike = _alike(one, found)
        return f"{alike}: {label}{words}" if alike else f"{label}{words}"
    each = (f"{size} {_arrow(figure(old, one, found), figure(new, one, found), paint)}" for size, old, new in differ)
    return f"{label}{'; '.join(each)}{unit}"


def _arrow(old: str, new: str, paint: Paint) -> str:
    return f"{paint.old(_clean(old))} → {paint.new(_clean(new))}"


def _alike(one: Number, found: Comparison) -> str:
    """Say by how much a number changes where it does so by the same in each of several sizes, else ""."""
    step = step_of(one)
    if step is None or len(found.sizes) < 2:
        return ""
    words = UNITS.get(one.kind)
    told = figure(abs(step), one, found)
    what = f"{told} {words[abs(step) != 1]}" if words else f"{told}{unit_of(one, found)}"
    more = ("more", "less") if one.kind not in UNITS or one.kind == "grams" else ("more", "fewer")
    return f"{what} {more[step < 0]} in each size"


def _said(of: str, one: Wording, paint: Paint) -> str:
    place = f"{of}: " if of else ""
    if not one.what:
        return _clean(place) + (paint.new("new") if one.before is None else paint.old("gone"))
    if one.what == "row by row":
        return _clean(f"{place}some rows differ in sizes {one.after}")
    return f"{_clean(place)}{_clean(one.what)} {_arrow(one.before or NONE, one.after or NONE, paint)}"


def _rest(found: Comparison, paint: Paint) -> Iterator[tuple[str, Sequence[str]]]:
    """Give what is told of no piece: motifs, swatches, yarn, cautions, the pattern's own words."""
    for motif in found.motifs:
        yield f"motif {motif.name}", list(_motif(motif, paint))
    words = of_no_part(found)
    for of in dict.fromkeys(one.of for one in words if one.of):
        yield of, [_said("", one, paint) for one in words if one.of == of]
    yield "yarn", [f"{_clean(one.address)}: {changed(one, found, paint)}" for one in material(found)]
    yield "cautions and notes lost", [paint.old(_told(one)) for one in found.lost]
    yield "cautions and notes gained", [paint.new(_told(one)) for one in found.gained]
    yield "no longer assumed", [paint.old(_told(one)) for one in found.assumed_before]
    yield "now assumed", [paint.new(_told(one)) for one in found.assumed_after]
    yield "the pattern says", [_said("", one, paint) for one in words if not one.of]


def _told(one: Told) -> str:
    size = f", size {one.size}" if one.size else ""
    return _clean(f"{one.code}{size}: {one.message}" if one.code else one.message)


def _motif(motif: MotifChange, paint: Paint) -> Iterator[str]:
    if motif.before is None or motif.after is None:
        yield paint.new("new") if motif.before is None else paint.old("gone")
        return
    old, new = (f"{len(rows[0]) if rows else 0} sts, {len(rows)} rows" for rows in (motif.before, motif.after))
    if old != new:
        yield f"repeat {_arrow(old, new, paint)}"
    if motif.shifts[0] != motif.shifts[1]:
        yield f"next shifts {_arrow(str(motif.shifts[0]), str(motif.shifts[1]), paint)} sts"
    count = len(motif.cells)
    if count:
        differ = "cell differs" if count == 1 else "cells differ"
        yield f"{count} {differ}; rows count from the bottom, columns from the right"
    for row in dict.fromkeys(cell.row for cell in motif.cells[:MOST_CELLS]):
        cells = [cell for cell in motif.cells[:MOST_CELLS] if cell.row == row]
        told = (f"column {one.column} {_arrow(one.before or NONE, one.after or NONE, paint)}" for one in cells)
        yield f"row {row}: {'; '.join(told)}"
    if count > MOST_CELLS:
        yield f"and {count - MOST_CELLS} more"
