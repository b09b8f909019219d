"""The finished garment laid flat, each part filled with its fabric stitch by stitch.

A body shows its front, the back behind it in the neck, sleeves hanging from the tips of the shoulders, and bands.
A piece in the round stands by itself with its crown and pom-pom. Works on exact cm; floats only in what is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import groupby
from math import cos, pi, radians, sin

from msgspec import Struct
from msgspec.structs import replace

from wale.actions import EDGINGS, Crown, PomPom, Rib, Tassel
from wale.draft.pocket_edges import POCKET
from wale.materials import Motif
from wale.pattern import Drawing, DrawnPart
from wale.plan import PiecePlan, Plan, Section
from wale.pockets import place_of
from wale.sewn import FRONT_EDGE
from wale.spec import PLACKET_EDGES, SetIn, SewnOn, Spec
from wale.write.drawn_bands import lapel
from wale.write.openings import openings
from wale.write.outline import (
    Layer,
    Point,
    band_edge,
    height,
    inner,
    layers,
    neck_edge,
    outline,
    side_seam,
    slope,
    straightened,
)

ARM_ANGLE = 50.0
"""Degrees below the level at which sleeves are drawn; only how it looks."""
CORNERS = 24
"""Corners of the polygon that stands for a pom-pom."""

Tile = tuple[tuple[str, ...], ...]
Place = Callable[[Point], tuple[float, float]]


class _Fill(Struct, frozen=True):
    """What a part is filled with: tile, stitch in cm, lower left corner of the tile on the piece, and its words."""

    tile: Tile
    cell: tuple[Fraction, Fraction]
    origin: Point
    words: str


def drawing(spec: Spec, plan: Plan, size: int) -> Drawing | None:
    """Give the drawing of one size, or None where nothing is knitted to draw."""
    shown = [piece for piece in plan.pieces if layers(piece, size)]
    if not shown:
        return None
    bodies = sorted((one for one in shown if one.top is not None), key=lambda one: _neck_rows(one, size))
    joined = next((piece for piece in shown if piece.joined), None)
    if joined is not None:
        return _joined(spec, plan, joined, size)
    if not bodies:
        return _alone(spec, shown[0], size)
    front = bodies[-1]
    fronts = [one for one in bodies if one.half is not None] or [front]
    names = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    sleeves = [piece for piece in shown if piece.name in names and piece.top is None]
    parts: list[DrawnPart] = []
    for piece in [one for one in bodies if one not in fronts]:
        parts += _flat(spec, piece, size)
        parts += _band(spec, plan, piece, size)
    for piece in sleeves[:1]:
        for side in (-1, 1):
            parts += _sleeve(spec, piece, _shoulder(front, size), size, side)
    for piece in fronts:
        parts += _flat(spec, piece, size)
        parts += _pockets(spec, plan, piece, size)
        parts += _pocket_edges(spec, plan, piece, size)
    bands = [
        part
        for piece in fronts
        for part in (
            *_buttoned(spec, plan, piece, size),
            *_band(spec, plan, piece, size),
            *_front_band(spec, plan, piece, size),
        )
    ]
    words = [_described(spec, front, size, "body" if len(bodies) > 1 else front.name)]
    words += [_described(spec, piece, size, "two sleeves") for piece in sleeves[:1]]
    sewn_on = [piece for piece in shown if piece.name in {join.piece for join in _sewn_on(spec, fronts)}]
    words += [_described(spec, piece, size, piece.name) for piece in sewn_on]
    words += [f"{band.name} in {spec.swatches[band.swatch].yarns[0]}" for band in spec.bands if bands]
    return Drawing((*parts, *bands), f"{spec.title} laid flat, size {plan.sizes[size]}: {'; '.join(words)}")


def _neck_rows(piece: PiecePlan, size: int) -> int:
    return piece.top.neck_rows[size] if piece.top is not None else 0


def _alone(spec: Spec, piece: PiecePlan, size: int) -> Drawing:
    parts = _flat(spec, piece, size)
    words = _described(spec, piece, size, piece.name)
    for step in piece.steps:
        if isinstance(step.action, PomPom):
            parts.append(_pom_pom(spec, piece, size, step.action))
            words += f"; pom-pom in {step.action.yarn}"
        elif isinstance(step.action, Tassel):
            parts.append(_tassel(spec, piece, size, step.action))
            words += f"; tassel in {step.action.yarn}"
    if piece.is_from_above:
        parts = [_upside_down(part) for part in parts]
    return Drawing(tuple(parts), f"{spec.title} laid flat, size {spec.sizes[size].name}: {words}")


def _upside_down(part: DrawnPart) -> DrawnPart:
    """A part as it is worn, where it was drawn as it is worked: from its upper end."""
    origin = None if part.origin is None else (part.origin[0], -part.origin[1] - len(part.tile) * part.cell[1])
    return replace(part, outline=tuple((x, -y) for x, y in part.outline), tile=part.tile[::-1], origin=origin)


def _sewn_on(spec: Spec, pieces: Sequence[PiecePlan]) -> list[SewnOn]:
    """Give the joins that sew pockets onto some pieces."""
    names = [piece.name for piece in pieces]
    return [join for join in spec.joins if isinstance(join, SewnOn) and join.onto in names and not join.is_inset]


def _pockets(spec: Spec, plan: Plan, piece: PiecePlan, size: int) -> list[DrawnPart]:
    """The pockets on a piece: in its middle, at both sides of it, or beside its opening."""
    parts: list[DrawnPart] = []
    for join in _sewn_on(spec, [piece]):
        pocket, place = plan.piece(join.piece), place_of(plan, join, size)
        if pocket is None or place is None:
            continue
        edge, signs = Fraction(0), [-1, 1]
        if piece.half is not None:
            edge, signs = inner(piece, size), [1 if piece.half.hand == "left" else -1]
        aside = edge + place.aside + max(level.width(size) for level in pocket.levels) / 2
        for across in {sign * aside if join.aside is not None else Fraction(0): None for sign in signs}:
            parts += _flat(spec, pocket, size, place.up, across)
    return parts


def _pocket_edges(spec: Spec, plan: Plan, piece: PiecePlan, size: int) -> list[DrawnPart]:
    """The ribs over the openings of inset pockets."""
    parts: list[DrawnPart] = []
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        if (piece.name, POCKET) not in band.edges:
            continue
        cell = (1 / planned.sts_per_cm, 1 / planned.rows_per_cm)
        fill = _Fill(((spec.yarns[spec.swatches[band.swatch].yarns[0]].colour,),), cell, (Fraction(0), Fraction(0)), "")
        for (left, low), (right, _) in openings(spec, plan, piece, size):
            top = low + planned.depth(size)
            corners = ((left, low), (right, low), (right, top), (left, top))
            parts.append(_part(corners, fill, lambda point: (float(point[0]), float(point[1]))))
    return parts


def _flat(
    spec: Spec, piece: PiecePlan, size: int, low: Fraction = Fraction(0), across: Fraction = Fraction(0)
) -> list[DrawnPart]:
    """A piece as it lies, its centre line at x = `across` and its lower edge at y = `low`."""
    return [
        _part(outline(run), fill, lambda point: (float(point[0] + across), float(point[1] + low)))
        for run, fill in _fabrics(spec, piece, size)
    ]


def _joined(spec: Spec, plan: Plan, yoke: PiecePlan, size: int) -> Drawing:
    """A yoke on the pieces that it joins, its sleeves hanging from both ends of its lower edge."""
    names = dict.fromkeys(name for name, _ in yoke.joined)
    sleeve, body = (piece for name in names if (piece := plan.piece(name)) is not None)
    low = height(body, size)
    parts: list[DrawnPart] = []
    for side in (-1, 1):
        parts += _sleeve(spec, sleeve, (layers(yoke, size)[0].edge[0][0], low), size, side)
    parts += _flat(spec, body, size) + _flat(spec, yoke, size, low)
    words = [_described(spec, piece, size, name) for piece, name in ((body, body.name), (sleeve, "two sleeves"))]
    words.append(_described(spec, yoke, size, yoke.name))
    return Drawing(tuple(parts), f"{spec.title} laid flat, size {plan.sizes[size]}: {'; '.join(words)}")


def _shoulder(body: PiecePlan, size: int) -> Point:
    """The tip of a shoulder."""
    return layers(body, size)[-1].edge[1][0], height(body, size) - slope(body, size)


def _sleeve(spec: Spec, piece: PiecePlan, at: Point, size: int, side: int) -> list[DrawnPart]:
    """A sleeve folded along its centre line, its top against the armhole, turned about a shoulder's tip or the like.

    Args:
        at: the point, on the right of the page.
        side: 1 for the sleeve at the right of the page, -1 at the left.
    """
    turn = side * (90.0 - ARM_ANGLE)
    top = height(piece, size)
    tip = (float(side * at[0]), float(at[1]))
    across, up = cos(radians(turn)), sin(radians(turn))

    def place(point: Point) -> tuple[float, float]:
        x, y = float(point[0]), float(point[1] - top)
        return tip[0] + x * across - y * up, tip[1] + x * up + y * across

    parts = []
    for run, fill in _fabrics(spec, piece, size):
        edge = [(-side * x, y) for layer in run for x, y in layer.edge]
        half = straightened([*edge, (Fraction(0), run[-1].top), (Fraction(0), run[0].bottom)])
        parts.append(_part(half, fill, place, turn))
    return parts


def _part(points: Sequence[Point], fill: _Fill, place: Place, turn: float = 0.0) -> DrawnPart:
    cell = float(fill.cell[0]), float(fill.cell[1])
    return DrawnPart(tuple(place(point) for point in points), fill.tile, cell, place(fill.origin), turn)


def _fabrics(spec: Spec, piece: PiecePlan, size: int) -> list[tuple[list[Layer], _Fill]]:
    """Neighbouring layers of one fabric, with what fills them."""
    runs = groupby(layers(piece, size), key=lambda layer: _look(piece, layer.section))
    result = []
    for _, members in runs:
        run = list(members)
        result.append((run, _fill(spec, piece, run[0], size)))
    return result


def _look(piece: PiecePlan, section: Section) -> tuple[object, ...]:
    """What must agree for two sections to be drawn as one."""
    kind = section.kind if section.kind in ("front", *EDGINGS) else ""
    own = piece.crown.step if piece.crown is not None and section.kind == "crown" and not _in_pattern(piece) else None
    return kind, section.swatch, section.fabric, own


def _in_pattern(piece: PiecePlan) -> bool:
    action = piece.crown.step.action if piece.crown is not None else None
    return isinstance(action, Crown) and action.manner == "in pattern"


def _fill(spec: Spec, piece: PiecePlan, layer: Layer, size: int) -> _Fill:
    section = layer.section
    swatch = spec.swatches[section.swatch]
    cell = (1 / swatch.washed.stitches, 1 / swatch.washed.rows)
    own_crown = section.kind == "crown" and not _in_pattern(piece)
    fabric, start, centre = section.fabric, section.chart_start, section.centre
    action = section.step.action
    if isinstance(action, Rib) and action.purls is not None:
        columns = action.columns(swatch.yarns[0])
        tile = (tuple(spec.yarns[name].colour for name in columns),)
        return _Fill(tile, cell, (Fraction(0), layer.bottom), f"corrugated rib ({swatch.yarns[0]} and {action.purls})")
    if own_crown or fabric is None or fabric.motif is None or start is None or centre is None:
        yarn = _crown_yarn(spec, section) if own_crown else swatch.yarns[0]
        return _Fill(((spec.yarns[yarn].colour,),), cell, (Fraction(0), layer.bottom), yarn)
    motif = spec.motifs[fabric.motif]
    # Column 0 is the tile's last; its middle lies `centre` stitches to the right of the centre line. A round with a
    # steek has its middle half a stitch to the right of that of the piece.
    middle = centre[size] + (Fraction(1, 2) if piece.steek is not None else 0)
    left = (middle + Fraction(1, 2) - motif.width) * cell[0] + _kept(piece, size, cell[0])
    yarns = swatch.yarns[0] if motif.is_texture else " and ".join(name for name, _ in motif.marks)
    origin = (left, layer.bottom - start[size] * cell[1])
    return _Fill(motif_tile(spec, motif, swatch.yarns[0]), cell, origin, f"{motif.name} ({yarns})")


def _kept(piece: PiecePlan, size: int, stitch: Fraction) -> Fraction:
    """Give where the stitch that keeps its place lies: on the centre line, or at the opening of a half piece."""
    if piece.half is None:
        return Fraction(0)
    seam = piece.levels[-1].taken - side_seam(piece)
    x = inner(piece, size) + (Fraction(1, 2) - seam) * stitch
    return x if piece.half.side == "right" else -x


def motif_tile(spec: Spec, motif: Motif, yarn: str) -> Tile:
    """Give the colours of one period of a motif, bottom row first, left to right; a texture is worked in `yarn`."""
    columns = tuple(reversed(range(motif.width)))
    shown = {
        name: _lit(spec.yarns[yarn].colour, DEEP.get(name, 8)) if motif.is_texture else spec.yarns[name].colour
        for name, _ in motif.marks
    }
    return tuple(tuple(shown[motif.cell(one, row)] for one in columns) for row in range(motif.period))


DEEP = {"purl": 6, "yo": 3}
"""Light on stitches of a texture that lie deeper, or are holes, in eighths (our choice)."""


def _lit(colour: str, eighths: int) -> str:
    """Give a colour (`#rrggbb`) in less light."""
    return "#" + "".join(f"{int(colour[at : at + 2], 16) * eighths // 8:02x}" for at in (1, 3, 5))


def _crown_yarn(spec: Spec, section: Section) -> str:
    """The yarn of a plain crown, or the one that a crown's chart shows most."""
    action = section.step.action
    assert isinstance(action, Crown)
    if action.chart is not None:
        cells = [yarn for row in spec.motifs[action.chart].rows for yarn in row]
        return max(dict.fromkeys(cells), key=cells.count)
    return action.yarn if action.yarn is not None else spec.swatches[section.swatch].yarns[0]


def _front_band(spec: Spec, plan: Plan, piece: PiecePlan, size: int) -> list[DrawnPart]:
    """The bands along the front edge of a half piece, as far as they fill its half of the opening, or its own."""
    parts = []
    along = band_edge(piece, size)
    if along is not None and piece.half is not None:
        (x, zero), (_, top) = along
        sign, section = 1 if piece.half.side == "right" else -1, piece.sections[-1]
        swatch = spec.swatches[section.swatch]
        front = sign * inner(piece, size)
        corners = ((front, zero), (sign * x, zero), (sign * x, top), (front, top))
        cell = (1 / swatch.washed.stitches, 1 / swatch.washed.rows)
        fill = _Fill(((spec.yarns[piece.edge.yarn or swatch.yarns[0]].colour,),), cell, (zero, zero), "")
        parts.append(_part(corners, fill, lambda point: (float(point[0]), float(point[1]))))
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        if piece.half is None or (piece.name, FRONT_EDGE) not in band.edges:
            continue
        wide = inner(piece, size) if piece.half.side == "right" else -inner(piece, size)
        top = neck_edge(piece, size)[-1][1] if piece.top is not None else height(piece, size)
        cell = (1 / planned.rows_per_cm, 1 / planned.sts_per_cm)
        colour = spec.yarns[spec.swatches[band.swatch].yarns[0]].colour
        zero = Fraction(0)
        corners = ((wide, zero), (wide, top), (zero, top), (zero, zero))
        fill = _Fill(((colour,),), cell, (zero, zero), "")
        if wide:
            parts.append(_part(corners, fill, lambda point: (float(point[0]), float(point[1]))))
        if planned.collar is not None and piece.top is not None:
            side = 1 if wide > 0 else -1
            folded = [(side * x, y) for x, y in lapel(piece, planned, size)]
            parts.append(_part(folded, fill, lambda point: (float(point[0]), float(point[1]))))
    return parts


def _band(spec: Spec, plan: Plan, piece: PiecePlan, size: int) -> list[DrawnPart]:
    """The part of each band that stands along a piece's neck, as deep as it was knitted."""
    parts = []
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        if (piece.name, "neck") not in band.edges or piece.half is not None or planned.hood:
            continue
        edge = _above_placket(piece, neck_edge(piece, size), size)
        high, low, wide = edge[0][1], edge[-1][1], edge[0][0]
        depth = planned.depth(size)
        shrink = max(Fraction(0), (wide - depth) / wide)
        lift = (high - low - depth) / (high - low)
        inner = [(x * shrink, high - (high - y) * lift) for x, y in edge]
        outer = [*edge, *((-x, y) for x, y in reversed(edge))]
        ring = [*outer, *((-x, y) for x, y in inner), *reversed(inner)]
        cell = (1 / planned.sts_per_cm, 1 / planned.rows_per_cm)
        colour = spec.yarns[spec.swatches[band.swatch].yarns[0]].colour
        fill = _Fill(((colour,),), cell, (Fraction(0), low), "")
        parts.append(_part(straightened(ring), fill, lambda point: (float(point[0]), float(point[1]))))
    return parts


def _above_placket(piece: PiecePlan, edge: Sequence[Point], size: int) -> list[Point]:
    """Leave the slit out of a neck's edge."""
    if piece.top is None or not piece.top.has_placket:
        return list(edge)
    low = edge[0][1] - piece.top.depth_rows(size) / piece.sections[-1].rows_per_cm
    return [(x, y) for x, y in edge if y >= low]


def _buttoned(spec: Spec, plan: Plan, piece: PiecePlan, size: int) -> list[DrawnPart]:
    """The bands of a placket, one over the other in its slit."""
    along = [
        (band, planned)
        for band, planned in zip(spec.bands, plan.bands, strict=True)
        if {(piece.name, edge) for edge in PLACKET_EDGES} & set(band.edges)
    ]
    if not along or piece.top is None or not piece.top.has_placket:
        return []
    band, planned = min(along, key=lambda one: one[0].buttonholes is None)
    edge = neck_edge(piece, size)
    (wide, low), (_, top) = edge[-1], _above_placket(piece, edge, size)[-1]
    cell = (1 / planned.rows_per_cm, 1 / planned.sts_per_cm)
    fill = _Fill(((spec.yarns[spec.swatches[band.swatch].yarns[0]].colour,),), cell, (Fraction(0), low), "")
    corners = ((wide, low), (wide, top), (-wide, top), (-wide, low))
    return [_part(corners, fill, lambda point: (float(point[0]), float(point[1])))]


def _pom_pom(spec: Spec, piece: PiecePlan, size: int, action: PomPom) -> DrawnPart:
    radius = float(action.diameter.at(size)) / 2
    middle = float(height(piece, size)) + radius * 0.8
    angles = [2 * pi * corner / CORNERS for corner in range(CORNERS)]
    circle = tuple((radius * cos(angle), middle + radius * sin(angle)) for angle in angles)
    gauge = spec.swatches[piece.sections[-1].swatch].washed
    cell = (float(1 / gauge.stitches), float(1 / gauge.rows))
    return DrawnPart(circle, ((spec.yarns[action.yarn].colour,),), cell)


def _tassel(spec: Spec, piece: PiecePlan, size: int, action: Tassel) -> DrawnPart:
    """A tassel that hangs down from the top, wider where it is cut."""
    top, length = float(height(piece, size)), float(action.length.at(size))
    hanging = ((-0.4, top), (0.4, top), (0.8, top - length), (-0.8, top - length))
    gauge = spec.swatches[piece.sections[-1].swatch].washed
    cell = (float(1 / gauge.stitches), float(1 / gauge.rows))
    return DrawnPart(hanging, ((spec.yarns[action.yarn].colour,),), cell)


def _described(spec: Spec, piece: PiecePlan, size: int, name: str) -> str:
    """Say what a piece is worked in, from the bottom up."""
    words = dict.fromkeys(fill.words for _, fill in _fabrics(spec, piece, size))
    folded = any(section.kind == "facing" for section in piece.sections)
    hem = " with a folded hem" if folded else ""
    return f"{name} in {', then '.join(words)}{hem}"
