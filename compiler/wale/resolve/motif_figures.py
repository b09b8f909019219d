"""Single figures on a ground: the `ground` and `place` lines of a motif."""

from __future__ import annotations

from msgspec.structs import replace

from wale.materials import Motif
from wale.motifs.compose import Figure, scattered
from wale.motifs.size import counted, size_words
from wale.motifs.tiling import Tiling
from wale.parse.tree import Block
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.context import Context
from wale.resolve.motif_kit import Kit
from wale.resolve.motif_parts import read_shift
from wale.resolve.motif_rows import read_size
from wale.resolve.shapes import Line, Shape
from wale.source import Span

LINES = {
    "ground": Shape({"ground YARN": ()}),
    "place": Shape({"place MOTIF": ("N1 sts along", "N2 rows up")}, once=False),
}


def scatter(kit: Kit, name: str, block: Block, lines: dict[str, list[Line]]) -> Motif | None:
    """Give single figures on a ground of one colour."""
    context = kit.context
    for keyword, example in (("repeat", "repeat 24 sts, 30 rows"), ("ground", "ground rye"), ("place", "place ear")):
        if keyword not in lines:
            context.missing(block, f"a `{keyword}` line", example)
            return None
    size = read_size(context, lines["repeat"][0], (24, 30))
    plain = kit.plain(lines["ground"][0].head.name("YARN"))
    places = lines["place"]
    found = [kit.motif(line.head.name("MOTIF")) for line in places]
    offsets = [_offset(context, line) for line in places]
    if size is None or plain is None:
        return None
    ground = plain[0]
    shift = read_shift(context, lines["next"][0], size[0]) if "next" in lines else 0
    motifs = [motif for motif in found if motif is not None]
    at = [offset for offset in offsets if offset is not None]
    if shift is None or len(motifs) < len(places) or len(at) < len(places):
        return None
    spans = [lines["ground"][0].span, *(line.span for line in places)]
    is_texture = kit.is_texture(spans, [plain[1], *(motif.is_texture for motif in motifs)])
    if is_texture is None:
        return None
    help = "Write a smaller `repeat`."
    if not kit.room.holds(context, name, *size, lines["repeat"][0].span, help):
        return None
    marks = {ground: ground}
    for line, motif in zip(places, motifs, strict=True):
        if not kit.room.holds(context, name, motif.width, len(motif.rows), line.span, help):
            return None
        for yarn, mark in motif.marks:
            marks.setdefault(yarn, mark)
    figures = [Figure(motif.rows, *offset) for motif, offset in zip(motifs, at, strict=True)]
    tiling = _laid(context, (*size, ground, shift), figures, places)
    if tiling is None:
        return None
    return Motif(
        name,
        block.head.span,
        tiling.rows,
        (spans[0],) * size[1],
        tuple(marks.items()),
        tiling.shift,
        is_texture=is_texture,
    )


def _offset(context: Context, line: Line) -> tuple[int, int] | None:
    along = whole(context, line.options["N1 sts along"].number("N1"), 0) if "N1 sts along" in line.options else 0
    up = whole(context, line.options["N2 rows up"].number("N2"), 0) if "N2 rows up" in line.options else 0
    return (along, up) if along is not None and up is not None else None


def _laid(
    context: Context, ground: tuple[int, int, str, int], figures: list[Figure], places: list[Line]
) -> Tiling | None:
    tiling, overlap = scattered(*ground, figures)
    if overlap is None:
        return tiling
    line, other = places[overlap.figure], places[overlap.other]
    itself = overlap.figure == overlap.other
    free = None if itself else _free(ground, figures, overlap.figure)
    context.report(
        "E248",
        f"the figure {'meets itself' if itself else 'and another one meet'} at stitch {overlap.column + 1} of row "
        f"{overlap.row + 1}",
        line.span,
        f"larger than the repeat of {size_words(*ground[:2])}" if itself else "this one is in the way",
        "Make the `repeat` larger."
        if itself
        else f"It would be free {counted(free, 'st')} along."
        if free is not None
        else "No place in these rows is free: make the `repeat` larger, or place it higher up.",
        fixes=[_move(line, free)] if free is not None else [],
        also=[] if itself else [(other.span, "the other one")],
    )
    return None


def _free(ground: tuple[int, int, str, int], figures: list[Figure], number: int) -> int | None:
    """Give the nearest column to which a figure can move without meeting those before it."""
    width, figure = ground[0], figures[number]
    if len(figure.rows) * len(figure.rows[0]) * width * (number + 1) > 1_000_000:
        return None
    for step in range(1, width):
        column = (figure.column + step) % width
        moved = [*figures[:number], replace(figure, column=column)]
        if scattered(*ground, moved)[1] is None:
            return column
    return None


def _move(line: Line, column: int) -> Fix:
    words = f"{counted(column, 'st')} along"
    option = line.options.get("N1 sts along")
    if option is not None:
        return Fix(f"write `{words}`", (Edit(option.span, words),))
    end = line.head.span.end
    return Fix(f"add `, {words}`", (Edit(Span(line.span.file, end, end), f", {words}"),))
