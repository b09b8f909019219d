"""Motifs made of other motifs: as another one, bands stacked, figures on a ground."""

from __future__ import annotations

from collections.abc import Mapping
from math import gcd, lcm

from msgspec import Struct
from msgspec.structs import replace

from wale.materials import Motif, Yarn
from wale.motifs.compose import Band, Figure, scattered, stacked
from wale.motifs.tiling import Tiling
from wale.parse.tree import Block, Name
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.context import Context
from wale.resolve.motif_changes import Room, read_shift
from wale.resolve.motif_rows import MOST_STITCHES, read_size
from wale.resolve.shapes import Line, Shape
from wale.source import Span

PLAIN = "stack plain in YARN"
LINES = {
    "stack": Shape({PLAIN: ("N rows",), "stack MOTIF": ("N times", "from the edge")}, once=False),
    "ground": Shape({"ground YARN": ()}),
    "place": Shape({"place MOTIF": ("N1 sts along", "N2 rows up")}, once=False),
}


class Kit(Struct, frozen=True):
    """What motifs are made from: the yarns, the motifs that are made so far, and the room left."""

    context: Context
    yarns: Mapping[str, Yarn]
    motifs: Mapping[str, Motif]
    room: Room

    def motif(self, name: Name) -> Motif | None:
        """Give a motif that another is made of; a wedge is reported, a broken one is silent."""
        found = self.motifs.get(name.text) if self.context.knows("motif", name) else None
        if found is not None and found.wedge:
            self.context.report(
                "E245",
                f"the motif `{name.text}` is a wedge, and of wedges no other motif is made",
                name.span,
                "a wedge",
                "Name a motif whose rows are of one length.",
                also=[(found.span, "the motif")],
            )
            return None
        return found

    def yarn(self, name: Name) -> str | None:
        """Give a yarn's name, or None where it is unknown or broken."""
        return name.text if self.context.knows("yarn", name) and name.text in self.yarns else None


def as_another(kit: Kit, name: str, block: Block, other: Name) -> Motif | None:
    """Give another motif under a name of its own."""
    found = kit.motif(other)
    if found is None:
        return None
    span = block.head.span
    if not kit.room.holds(kit.context, name, found.width, len(found.rows), span, ""):
        return None
    return replace(found, name=name, span=span, row_spans=(span,) * len(found.rows))


def stack(kit: Kit, name: str, block: Block, lines: list[Line]) -> Motif | None:
    """Give the bands above one another, the first line's lowest."""
    bands = [_band(kit, line) for line in lines]
    marks: dict[str, str] = {}
    sound = [one for one in bands if one is not None]
    for _, own in sound:
        for yarn, mark in own:
            marks.setdefault(yarn, mark)
    if len(sound) < len(lines):
        return None
    widths = [band.motif.width for band, _ in sound]
    heights = [len(band.motif.rows) * band.times for band, _ in sound]
    wide, place = _widest(widths, lines)
    if not kit.room.holds(kit.context, name, wide, sum(heights), place, _narrower(widths, lines, place)):
        return None
    tiling = stacked([band for band, _ in sound])
    spans = tuple(line.span for line, height in zip(lines, heights, strict=True) for _ in range(height))
    return Motif(name, block.head.span, tiling.rows, spans, tuple(marks.items()))


def _band(kit: Kit, line: Line) -> tuple[Band, tuple[tuple[str, str], ...]] | None:
    if line.form == PLAIN:
        yarn = kit.yarn(line.head.name("YARN"))
        if "N rows" not in line.options:
            end = Span(line.span.file, line.span.end, line.span.end)
            kit.context.report(
                "E206",
                "this `stack plain` line needs its rows",
                line.span,
                "how many rows?",
                f"Write such as `{kit.context.cut(line.span)}, 2 rows`.",
                fixes=[Fix("add `, 2 rows`", (Edit(end, ", 2 rows"),))],
            )
            return None
        rows = whole(kit.context, line.options["N rows"].number("N"))
        return (Band(Tiling(((yarn,),)), rows, aligned=False), ((yarn, yarn),)) if yarn and rows else None
    motif = kit.motif(line.head.name("MOTIF"))
    times = whole(kit.context, line.options["N times"].number("N")) if "N times" in line.options else 1
    if motif is None or times is None:
        return None
    return Band(motif.tiling, times, "from the edge" not in line.options), motif.marks


def _widest(widths: list[int], lines: list[Line]) -> tuple[int, Span]:
    """Give the stitches of all bands' common repeat, and the line with which they become too many."""
    wide = 1
    for width, line in zip(widths, lines, strict=True):
        wide = lcm(wide, width)
        if wide > MOST_STITCHES:
            return lcm(*widths), line.span
    return wide, lines[-1].span


def _narrower(widths: list[int], lines: list[Line], place: Span) -> str:
    at = next(index for index, line in enumerate(lines) if line.span == place)
    rest = lcm(*widths[:at], 1)
    fitting = [n for n in range(2, MOST_STITCHES + 1) if rest * n // gcd(rest, n) <= MOST_STITCHES]
    near = sorted(sorted(fitting, key=lambda n: (abs(n - widths[at]), n))[:3])
    return (
        f"The bands repeat after {', '.join(str(width) for width in widths)} sts, all of them together only after "
        f"{lcm(*widths)} sts. With a band of {' or '.join(str(n) for n in near)} sts here they would meet sooner; "
        "many rows come from `times`."
    )


def scatter(kit: Kit, name: str, block: Block, lines: dict[str, list[Line]]) -> Motif | None:
    """Give single figures on a ground of one colour."""
    context = kit.context
    for keyword, example in (("repeat", "repeat 24 sts, 30 rows"), ("ground", "ground rye"), ("place", "place ear")):
        if keyword not in lines:
            context.missing(block, f"a `{keyword}` line", example)
            return None
    size = read_size(context, lines["repeat"][0], (24, 30))
    ground = kit.yarn(lines["ground"][0].head.name("YARN"))
    places = lines["place"]
    found = [kit.motif(line.head.name("MOTIF")) for line in places]
    offsets = [_offset(context, line) for line in places]
    if size is None or ground is None:
        return None
    shift = read_shift(context, lines["next"][0], size[0]) if "next" in lines else 0
    motifs = [motif for motif in found if motif is not None]
    at = [offset for offset in offsets if offset is not None]
    if shift is None or len(motifs) < len(places) or len(at) < len(places):
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
        name, block.head.span, tiling.rows, (lines["ground"][0].span,) * size[1], tuple(marks.items()), tiling.shift
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
        f"larger than the repeat of {ground[0]} sts, {ground[1]} rows" if itself else "this one is in the way",
        "Make the `repeat` larger."
        if itself
        else f"It would be free {free} sts along."
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
    words = f"{column} sts along"
    option = line.options.get("N1 sts along")
    if option is not None:
        return Fix(f"write `{words}`", (Edit(option.span, words),))
    end = line.head.span.end
    return Fix(f"add `, {words}`", (Edit(Span(line.span.file, end, end), f", {words}"),))
