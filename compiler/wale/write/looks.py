"""How the garment and its fabric look: each printed size laid flat, patches of the fabrics, and other motifs tried.

Printed only when asked for. Patches are whole repeats in the washed gauge, once in the yarns' colours and once in grey.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from wale.colour import luminance
from wale.materials import Motif, Swatch
from wale.pattern import Drawing, Drawings, DrawnPart, Part
from wale.plan import PiecePlan, Plan, Section
from wale.quantity import length_words, show_decimal
from wale.spec import Spec
from wale.write.colours import to_other_eyes
from wale.write.drawing import Tile, drawing, motif_tile
from wale.write.outline import HIDDEN

SIZES_NOTE = (
    "All sizes at one scale, seen from the right side, in the washed gauge and the colours of the yarns. Repeats of "
    "the motif are counted where it is widest, and upwards from its first row to its last."
)
PATCH_NOTE = (
    "Fabrics in the washed gauge, stitch by stitch, all at one scale, with rulers along the edges; beside each stands "
    "the same in grey, where colours that are equally light run together."
)
OTHERS_NOTE = (
    "The same garment, with its outline unchanged, in the other motifs and gauges of the swatches; only to look at: "
    "to knit one, let the spec work in it, and its stitches are counted anew."
)
LEAST_WIDE, MOST_WIDE = Fraction(5), Fraction(20)
"""A patch has two repeats, more below the first width (cm) and one where two are wider than the second."""


class _Cloth(Struct, frozen=True):
    """A motif in the gauge of a swatch."""

    motif: Motif
    swatch: Swatch


def looks(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Give the pictures of all printed sizes, of the motif fabrics, and of the garment in motifs not worked here."""
    drawn = tuple(_sized(spec, plan, size) for size in sizes)
    shown = tuple(one for one in drawn if one is not None)
    parts: list[Part] = [Drawings("The sizes", SIZES_NOTE, shown)] if shown else []
    worked = list(dict.fromkeys(_worked(spec, plan)))
    others = list(_others(spec, worked)) if worked else []
    if worked:
        patches = tuple(picture for one in (*worked, *others) for picture in patch(spec, one.motif, one.swatch))
        parts.append(Drawings("The fabrics", PATCH_NOTE, patches))
        parts.append(to_other_eyes(patches[: 2 * len(worked) : 2]))
    if others:
        size = sizes[len(sizes) // 2]
        tried = tuple(one for one in (_tried(spec, plan, cloth, size) for cloth in (worked[0], *others)) if one)
        parts.append(Drawings(f"Other motifs, size {plan.sizes[size]}", OTHERS_NOTE, tried))
    return tuple(parts)


def patch(spec: Spec, motif: Motif, swatch: Swatch) -> tuple[Drawing, Drawing]:
    """Draw about two repeats of a motif in a swatch's washed gauge, about as long: in colour and in grey."""
    cell = 1 / swatch.washed.stitches, 1 / swatch.washed.rows
    repeat = motif.width * cell[0]
    times = 1 if 2 * repeat > MOST_WIDE else max(2, ceil(LEAST_WIDE / repeat))
    across, period = times * repeat, motif.period * cell[1]
    up = min(max(1, round(across / period)) * motif.period, ceil(across * Fraction(3, 2) / cell[1])) * cell[1]
    outline = ((0.0, 0.0), (float(across), 0.0), (float(across), float(up)), (0.0, float(up)))
    tile = motif_tile(spec, motif, swatch.yarns[0])
    said = " by ".join(length_words(one, spec.units) for one in (repeat, period))
    name = f"{motif.name} on {swatch.name}"
    yarns = swatch.yarns[0] if motif.is_texture else " and ".join(yarn for yarn, _ in motif.marks)
    words = f"Patch of {name} in {yarns}, stitch by stitch, {times} repeat{'s' if times > 1 else ''} wide"
    pictures = []
    for colours, how, alike in ((tile, "", words), (in_grey(tile), ", in grey", f"{words}, in grey")):
        part = DrawnPart(outline, colours, (float(cell[0]), float(cell[1])), (0.0, 0.0))
        pictures.append(Drawing((part,), alike, f"{name}{how}: a repeat is {said}", spec.units))
    return pictures[0], pictures[1]


def in_grey(tile: Tile) -> Tile:
    """Give a tile with each colour as the grey of its luminance.

    Source: the transfer function of sRGB, IEC 61966-2-1, as in WCAG 2.1.
    """
    greys = {colour: _grey(colour) for row in tile for colour in row}
    return tuple(tuple(greys[colour] for colour in row) for row in tile)


def _grey(colour: str) -> str:
    light = luminance(colour)
    share = 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055
    return "#" + f"{round(255 * share):02x}" * 3


def _worked(spec: Spec, plan: Plan) -> Iterator[_Cloth]:
    """Motif fabrics of the pieces, in order."""
    for piece in plan.pieces:
        for section in piece.sections:
            if section.fabric is not None and section.fabric.motif is not None:
                yield _Cloth(spec.motifs[section.fabric.motif], spec.swatches[section.swatch])


def _others(spec: Spec, worked: Sequence[_Cloth]) -> Iterator[_Cloth]:
    """Motifs and gauges of swatches that no piece is worked in; a worked motif only as it is knitted, flat or not."""
    ways = {(one.motif.name, one.swatch.in_round) for one in worked}
    motifs = {name for name, _ in ways}
    for swatch in spec.swatches.values():
        if swatch.motif is None or _Cloth(spec.motifs[swatch.motif], swatch) in worked:
            continue
        if not spec.motifs[swatch.motif].wedge and (
            (swatch.motif, swatch.in_round) in ways or swatch.motif not in motifs
        ):
            yield _Cloth(spec.motifs[swatch.motif], swatch)


def _sized(spec: Spec, plan: Plan, size: int) -> Drawing | None:
    made = drawing(spec, plan, size)
    name = f"Size {plan.sizes[size]}"
    return replace(made, caption=_counted(spec, plan, size, name)) if made is not None else None


def _counted(spec: Spec, plan: Plan, size: int, name: str) -> str:
    """Say how many repeats a size has, on its front or else on its first piece."""
    topped = [piece for piece in plan.pieces if piece.top is not None]
    piece = max(topped, key=lambda one: _neck(one, size)) if topped else plan.pieces[0]
    sections = [one for one in piece.sections if _motif(one)]
    if not sections:
        return name
    motif = spec.motifs[_motif(sections[0])]
    alike = [one for one in sections if _motif(one) == motif.name]
    levels = [piece.levels[index] for one in alike for index in (one.first, one.last)]
    across = max(level.counts[size] - level.edges for level in levels)
    rows = sum(one.rows[size] for one in alike)
    way = "around" if piece.is_tube else "across"
    said = f"{name}: {motif.name} {_figure(across, motif.width)} times {way}, {_figure(rows, motif.period)} times up"
    if piece.top is None or not _motif(piece.sections[-1]):
        return said
    return f"{said}; the front neck cuts in after {_figure(rows - _neck(piece, size), motif.period)}"


def _neck(piece: PiecePlan, size: int) -> int:
    return piece.top.neck_rows[size] if piece.top is not None else 0


def _motif(section: Section) -> str:
    fabric = section.fabric
    return fabric.motif if fabric is not None and fabric.motif is not None and section.kind not in HIDDEN else ""


def _figure(count: int, of: int) -> str:
    return show_decimal(Fraction(count, of), 1).removesuffix(".0")


def _tried(spec: Spec, plan: Plan, cloth: _Cloth, size: int) -> Drawing | None:
    """Draw a size with all its motif fabric in another, a mirror axis of it on the centre line where it has one."""
    axes = cloth.motif.axes()
    centre = axes[0] if axes else Fraction(cloth.motif.width - 1, 2)

    def changed(section: Section) -> Section:
        if section.fabric is None or section.fabric.motif is None:
            return section
        fabric = replace(section.fabric, swatch=cloth.swatch.name, motif=cloth.motif.name)
        count = len(plan.sizes)
        return replace(
            section, swatch=cloth.swatch.name, fabric=fabric, chart_start=(0,) * count, centre=(centre,) * count
        )

    pieces = tuple(replace(one, sections=tuple(map(changed, one.sections))) for one in plan.pieces)
    made = drawing(spec, replace(plan, pieces=pieces), size)
    return replace(made, caption=f"In {cloth.motif.name} on {cloth.swatch.name}") if made is not None else None
