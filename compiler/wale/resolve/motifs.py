"""The `motif` block: written as rows, as another motif, stacked or scattered, then changed line by line.

Whatever the way, the result is a plain motif: rows and a shift.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from wale.materials import Motif, Yarn
from wale.motifs.size import size_words
from wale.parse.tree import Block
from wale.problems.problem import Edit, Fix
from wale.resolve import motif_changes, motif_figures, motif_made, motif_origin
from wale.resolve.context import Context
from wale.resolve.motif_changes import change
from wale.resolve.motif_kit import Kit
from wale.resolve.motif_room import Room
from wale.resolve.motif_rows import (
    count_colours,
    crowded_help,
    fit,
    is_bars,
    read_cells,
    read_key,
    read_size,
    read_stitches,
    whole_stitches,
)
from wale.resolve.motif_sheet import Sheet, in_order
from wale.resolve.motif_size import note_smaller
from wale.resolve.shapes import Line, Shape

HEAD = {"motif": Shape({"motif NAME": ("as MOTIF",)})}
LINES = {
    "repeat": Shape({"repeat N1 sts": ("N2 rows",)}),
    "key": Shape({"key CELL YARN": ()}, listed="CELL YARN"),
    "stitches": Shape({"stitches CELL STITCH": ()}, listed="CELL STITCH"),
    "wedge": Shape({"wedge": ()}),
    **motif_made.LINES,
    **motif_figures.LINES,
    **motif_changes.LINES,
    **motif_origin.LINES,
}


def read_motifs(context: Context, blocks: Mapping[str, Block], yarns: Mapping[str, Yarn]) -> dict[str, Motif]:
    """Read all motifs, those that others are made of first; broken ones are left out."""
    sheets = {name: _sheet(context, block) for name, block in blocks.items()}
    made: dict[str, Motif] = {}
    kit = Kit(context, yarns, made, Room())
    for name in in_order(context, sheets):
        motif = _read(kit, name, sheets[name])
        if motif is not None:
            made[name] = motif
    return {name: made[name] for name in blocks if name in made}


def _sheet(context: Context, block: Block) -> Sheet:
    head = context.read(block.head, HEAD, "a file")
    bars = [statement for statement in block.body if is_bars(statement)]
    rest = replace(block, body=tuple(statement for statement in block.body if not is_bars(statement)))
    lines, sound = context.read_body(rest, LINES, "a `motif` block")
    base = head.options["as MOTIF"].name("MOTIF") if head is not None and "as MOTIF" in head.options else None
    return Sheet(block, base, lines, bars, sound and head is not None)


def _read(kit: Kit, name: str, sheet: Sheet) -> Motif | None:
    """Read one motif; None when something in it is wrong or broken elsewhere."""
    if not sheet.sound or not _one_way(kit.context, name, sheet):
        return None
    lines, scatter = sheet.lines, "place" in sheet.lines or "ground" in sheet.lines
    if sheet.base is not None:
        motif = motif_made.as_another(kit, name, sheet.block, sheet.base)
    elif "stack" in lines:
        motif = motif_made.stack(kit, name, sheet.block, lines["stack"])
    elif scatter:
        motif = motif_figures.scatter(kit, name, sheet.block, lines)
    else:
        motif = _typed(kit, name, sheet)
    if motif is None:
        return None
    before = motif
    steps = [line for keyword in motif_changes.LINES for line in lines.get(keyword, ())]
    for line in sorted(steps, key=lambda line: line.span.start):
        if scatter and line.keyword == "next":
            continue
        if motif.wedge:
            kit.context.report(
                "E245",
                f"the motif `{name}` is a wedge, which stands alone: nothing can be `{line.keyword}` in it",
                line.span,
                "a wedge",
                "Take this line out, or the line `wedge`.",
            )
            return None
        changed = change(kit.context, motif, line, kit.room)
        if changed is None:
            return None
        motif = changed
    if (sheet.base is not None or "stack" in lines) and not _as_said(kit.context, lines, motif):
        return None
    if motif.is_texture and not whole_stitches(kit.context, name, motif.rows, motif.row_spans):
        return None
    _count_new_colours(kit, sheet, motif, before if sheet.bars else None)
    note_smaller(kit.context, motif, sheet.block, sheet.bars, lines)
    made_of = [kit.motifs[other.text] for other in sheet.names() if other.text in kit.motifs]
    return replace(motif, origin=motif_origin.origin(lines, made_of))


def _one_way(context: Context, name: str, sheet: Sheet) -> bool:
    """Say whether a motif is written in one way only."""
    ways = [(sheet.block.head.span, "as another motif")] if sheet.base is not None else []
    for keyword in ("key", "stitches", "stack", "ground", "place", "wedge"):
        if keyword in sheet.lines:
            ways.append((sheet.lines[keyword][0].span, _WAYS[keyword]))
    if sheet.bars:
        ways.append((sheet.bars[0].span, _WAYS["stitches" if "stitches" in sheet.lines else "key"]))
    other = next((way for way in ways if way[1] != ways[0][1]), None)
    if other is None:
        return True
    context.report(
        "E204",
        f"the motif `{name}` is written in two ways: {ways[0][1]}, and {other[1]}",
        other[0],
        other[1],
        "Give each its own `motif` block and name, and make one of the other.",
        also=[ways[0]],
    )
    return False


_WAYS = {
    "key": "as rows",
    "stitches": "as rows of stitches",
    "wedge": "as rows",
    "stack": "as bands",
    "ground": "as figures on a ground",
    "place": "as figures on a ground",
}


def _typed(kit: Kit, name: str, sheet: Sheet) -> Motif | None:
    context, lines, bars = kit.context, sheet.lines, sheet.bars
    sound = True
    for keywords, example in ((("repeat",), "repeat 12 sts, 14 rows"), (("key", "stitches"), "key |-| rye, |x| flour")):
        if not any(keyword in lines for keyword in keywords):
            context.missing(sheet.block, f"a `{keywords[0]}` line", example)
            sound = False
    if not bars:
        context.missing(sheet.block, "bar rows", "| - x - x |")
        sound = False
    is_texture = "stitches" in lines
    key = (
        read_stitches(context, lines["stitches"][0])
        if is_texture
        else read_key(context, lines["key"][0], kit.yarns)
        if "key" in lines
        else None
    )
    if key is None or not sound:
        return None
    wedge = "wedge" in lines
    rows = [read_cells(context, statement, number, key) for number, statement in enumerate(reversed(bars), 1)]
    read = tuple(row for row in rows if row is not None)
    if len(read) < len(rows) or not fit(context, lines["repeat"][0], bars, read, wedge):
        return None
    if not is_texture:
        count_colours(context, bars, read)
    spans = tuple(statement.span for statement in reversed(bars))
    marks = tuple((yarn, mark) for mark, yarn in key.items())
    return Motif(name, sheet.block.head.span, read, spans, marks, 0, wedge, is_texture=is_texture)


def _as_said(context: Context, lines: Mapping[str, list[Line]], motif: Motif) -> bool:
    """Say whether a motif made of others has the size that its `repeat` line, if any, asks for."""
    if "repeat" not in lines:
        return True
    line, own = lines["repeat"][0], (motif.width, len(motif.rows))
    size = read_size(context, line, own)
    if size is None or size == own:
        return size is not None
    wrote = size_words(*own)
    place = line.head.number("N1").span.to(line.options["N2 rows"].number("N2").span)
    context.report(
        "E242",
        f"the repeat says {size_words(*size)}, and the motif comes to {wrote}",
        place,
        f"made of these lines: {wrote}",
        "Mend the `repeat` line, or leave it out.",
        fixes=[Fix(f"write `{wrote}`", (Edit(place, wrote),))],
    )
    return False


def _count_new_colours(kit: Kit, sheet: Sheet, motif: Motif, typed: Motif | None) -> None:
    """Warn of a row of more than two colours where none of the motifs that it is made of has as many."""
    if motif.is_texture:
        return
    sources = [kit.motifs[name.text] for name in sheet.names() if name.text in kit.motifs]
    before = max((len(set(row)) for one in (*sources, *([typed] if typed else ())) for row in one.rows), default=0)
    number, row = max(enumerate(motif.rows, 1), key=lambda one: len(set(one[1])))
    if len(set(row)) > max(2, before):
        kit.context.report(
            "W243",
            f"row {number} of the motif `{motif.name}` has {len(set(row))} colours: {', '.join(dict.fromkeys(row))}",
            motif.row_spans[number - 1],
            f"{len(set(row))} colours in one row",
            crowded_help(row),
        )
