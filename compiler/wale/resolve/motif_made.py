"""Motifs made of other motifs: as another one, and bands stacked."""

from __future__ import annotations

from math import gcd, lcm

from msgspec.structs import replace

from wale.materials import Motif
from wale.motifs.compose import Band, stacked
from wale.motifs.size import MOST_STITCHES
from wale.motifs.tiling import Tiling
from wale.parse.tree import Block, Name
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.motif_kit import Kit
from wale.resolve.shapes import Line, Shape
from wale.source import Span

PLAIN = "stack plain in YARN"
LINES = {"stack": Shape({PLAIN: ("N rows",), "stack MOTIF": ("N times", "from the edge")}, once=False)}


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
    for _, own, _ in sound:
        for yarn, mark in own:
            marks.setdefault(yarn, mark)
    if len(sound) < len(lines):
        return None
    is_texture = kit.is_texture([line.span for line in lines], [part for _, _, part in sound])
    if is_texture is None:
        return None
    widths = [band.motif.width for band, _, _ in sound]
    heights = [len(band.motif.rows) * band.times for band, _, _ in sound]
    wide, place = _widest(widths, lines)
    if not kit.room.holds(kit.context, name, wide, sum(heights), place, _narrower(widths, lines, place)):
        return None
    tiling = stacked([band for band, _, _ in sound])
    spans = tuple(line.span for line, height in zip(lines, heights, strict=True) for _ in range(height))
    return Motif(name, block.head.span, tiling.rows, spans, tuple(marks.items()), is_texture=is_texture)


def _band(kit: Kit, line: Line) -> tuple[Band, tuple[tuple[str, str], ...], bool] | None:
    """Give a band, the marks of its cells, and whether it is a texture."""
    if line.form == PLAIN:
        plain = kit.plain(line.head.name("YARN"))
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
        if plain is None or not rows:
            return None
        return Band(Tiling(((plain[0],),)), rows, aligned=False), ((plain[0], plain[0]),), plain[1]
    motif = kit.motif(line.head.name("MOTIF"))
    times = whole(kit.context, line.options["N times"].number("N")) if "N times" in line.options else 1
    if motif is None or times is None:
        return None
    return Band(motif.tiling, times, "from the edge" not in line.options), motif.marks, motif.is_texture


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
