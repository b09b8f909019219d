"""Schematics: each piece laid flat with its lettered measures, true to the solved stitches and rows.

A letter stands for one measure of the whole garment: where two pieces share it, in all sizes, they share its letter.
Ends of a dimension are the measured points; beside the outline the renderer finds room for the line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import EDGINGS
from wale.pattern import Dimension, Schematic
from wale.plan import Level, PiecePlan, Plan
from wale.spec import SetIn, Spec
from wale.write.context import length_text, unit
from wale.write.drawn_bands import band_lines, band_measures, band_outline, is_drawn
from wale.write.openings import openings
from wale.write.outline import (
    HIDDEN,
    Layer,
    Point,
    band_edge,
    half_width,
    height,
    inner,
    is_sloped,
    layers,
    mark_height,
    neck_edge,
    outline,
    slope,
)

MARK = Fraction(1, 10)
"""Length of an underarm mark as a part of half the width."""


class Measure(Struct, frozen=True):
    """One measure of one size: its ends on the piece and its value, all cm."""

    name: str
    start: Point
    end: Point
    value: Fraction


def schematics(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Schematic, ...]:
    """Give a schematic for each piece; pieces that are the same in all printed sizes share one.

    Args:
        sizes: indexes of the printed sizes; the middle one is drawn.
    """
    letters: dict[tuple[str, tuple[Fraction, ...]], str] = {}
    groups: dict[object, list[PiecePlan]] = {}
    for piece in plan.pieces:
        if any(one.kind not in HIDDEN for one in piece.sections):
            role = role_of(spec, piece)
            same = (role, *((measures(piece, size, role), outline(layers(piece, size))) for size in sizes))
            groups.setdefault(same, []).append(piece)
    result = []
    for pieces in groups.values():
        name = " and ".join(piece.name for piece in pieces)
        role = role_of(spec, pieces[0])
        found = [measures(pieces[0], size, role) for size in sizes]
        drawn = sizes[len(sizes) // 2]
        shape = outline(layers(pieces[0], drawn))
        lines = (*_lines(pieces[0], drawn), *openings(spec, plan, pieces[0], drawn))
        result.append(_schematic(spec, plan, name, sizes, found, (shape, lines), letters))
    for band in filter(is_drawn, plan.bands):
        found = [tuple(Measure(*one) for one in band_measures(band, size)) for size in sizes]
        drawn = sizes[len(sizes) // 2]
        laid = band_outline(band, drawn), band_lines(band, drawn)
        result.append(_schematic(spec, plan, band.name, sizes, found, laid, letters))
    return tuple(result)


def role_of(spec: Spec, piece: PiecePlan) -> str:
    """Give what a piece is in the garment, where that gives its measures their names: "sleeve", else ""."""
    return "sleeve" if piece.name in {join.piece for join in spec.joins if isinstance(join, SetIn)} else ""


def _schematic(
    spec: Spec,
    plan: Plan,
    name: str,
    sizes: Sequence[int],
    found: Sequence[tuple[Measure, ...]],
    laid: tuple[Sequence[Point], Sequence[tuple[Point, Point]]],
    letters: dict[tuple[str, tuple[Fraction, ...]], str],
) -> Schematic:
    """Letter the measures `found` in each size, and draw what is `laid` flat in the middle one: outline and lines."""
    dimensions = []
    for measure, *all_sizes in zip(found[len(sizes) // 2], *found, strict=True):
        values = tuple(one.value for one in all_sizes)
        letter = letters.setdefault((measure.name, values), letter_of(len(letters)))
        told = tuple(str(length_text(spec, value)) for value in values)
        dimensions.append(Dimension(letter, measure.name, _cm(measure.start), _cm(measure.end), told))
    shape, lines = tuple(map(_cm, laid[0])), tuple((_cm(start), _cm(end)) for start, end in laid[1])
    size = plan.sizes[sizes[len(sizes) // 2]]
    return Schematic(name.capitalize(), size, shape, lines, tuple(dimensions), unit(spec))


def _cm(point: Point) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def letter_of(number: int) -> str:
    """Give the letter of a measure, counted from 0: A to Z, then AA, AB and so on."""
    high, low = divmod(number, 26)
    return (letter_of(high - 1) if high else "") + chr(ord("A") + low)


def measures(piece: PiecePlan, size: int, role: str) -> tuple[Measure, ...]:
    """Give the measures of a piece in one size, widths first; `role` is that of `role_of`."""
    parts = layers(piece, size)
    wide = max(x for layer in parts for x, _ in layer.edge)
    found = (
        *_widths(piece, parts, size, role),
        *_lengths(piece, parts, size, wide),
        *_top(piece, size),
    )
    if piece.half is not None and piece.half.side == "left":
        return tuple(Measure(one.name, _flip(one.start), _flip(one.end), one.value) for one in found)
    return found


def _flip(point: Point) -> Point:
    return -point[0], point[1]


def _far(piece: PiecePlan, half: Fraction, size: int) -> Fraction:
    """Give where a piece ends at the left, if its right end lies at `half`: at the front edge of a half piece."""
    return -half if piece.half is None else inner(piece, size)


def _widths(piece: PiecePlan, parts: Sequence[Layer], size: int, role: str) -> Iterator[Measure]:
    for level, name, y in _named_levels(piece, parts, size, role):
        half = half_width(piece, level, size)
        yield Measure(name, (_far(piece, half, size), y), (half, y), level.width(size))


def level_names(spec: Spec, piece: PiecePlan, size: int) -> dict[str, str]:
    """Give the names of widths in a schematic, by the addresses of their levels."""
    named = _named_levels(piece, layers(piece, size), size, role_of(spec, piece))
    return {level.address: name for level, name, _ in named}


def _named_levels(
    piece: PiecePlan, parts: Sequence[Layer], size: int, role: str
) -> Iterator[tuple[Level, str, Fraction]]:
    """Give the levels that show, each with its name and the height in cm at which it is drawn."""
    high, labels = height(piece, size), [level.label for level in piece.levels]
    lengths = {one.name for one in (*_lengths(piece, parts, size, Fraction(0)), *_top(piece, size))}
    for index, level in enumerate(piece.levels):
        begins = [layer.bottom for layer in parts if layer.section.first == index]
        ends = [layer.top for layer in parts if layer.section.last == index]
        if not begins and not ends:
            continue
        y = min(begins) if begins else min(ends)
        if begins and ends:
            y = min(min(begins), min(ends))
        at_top = high in ends and piece.top is None and piece.crown is None
        if at_top and y:
            y = high
        name = _level_name(level.label, role, is_top=at_top and y > 0)
        if name.replace(" ", "-") in labels:
            name = level.label.replace("-", " ") if level.label != "cast-on" else level.label
        if name in lengths:
            name += " across"
        if level.label == "cast-on" and piece.is_from_above:
            name = "cast-on edge"
        yield level, _around(name) if piece.is_tube else name, y


def _level_name(label: str, role: str, *, is_top: bool) -> str:
    if role == "sleeve" and is_top:
        return "sleeve top"
    if label == "cast-on":
        return "cuff" if role == "sleeve" else "lower edge"
    return label.replace("-", " ")


def _around(name: str) -> str:
    """A width in the round; `body` is what a level is called that no measure names."""
    return "around" if name == "body" else f"{name} around"


def _lengths(piece: PiecePlan, parts: Sequence[Layer], size: int, wide: Fraction) -> Iterator[Measure]:
    high, zero = height(piece, size), Fraction(0)

    def upright(name: str, side: int, low: Fraction, top: Fraction) -> Measure:
        x = wide if side > 0 else _far(piece, wide, size)
        return Measure(name, (x, low), (x, top), top - low)

    hem = hem_depth(piece, size)
    if hem:
        yield upright("hem", 1, zero, hem)
    for layer in parts:
        if layer.section.kind in EDGINGS:
            yield upright(layer.section.kind, 1, layer.bottom, layer.top)
    for name, _ in piece.marks:
        mark = mark_height(piece, name, size)
        assert mark is not None
        yield upright(f"to {name}", -1, zero, mark)
        if name == "underarm" and piece.top is not None:
            yield upright("armhole edge", 1, mark, high - slope(piece, size))
    for layer in parts:
        if layer.section.kind == "crown":
            yield upright("to crown", -1, zero, layer.bottom)
            yield upright("crown", 1, layer.bottom, layer.top)
    if piece.anew is not None:
        start = piece.sections[piece.anew]
        place = next(layer.bottom for layer in parts if layer.section is start)
        yield upright(f"to {start.folds}", -1, zero, place)
        yield upright(f"from {start.folds}", -1, place, high)
        return
    yield upright("length to high point" if piece.top is not None else "length", -1, zero, high)


def _top(piece: PiecePlan, size: int) -> Iterator[Measure]:
    top, section = piece.top, piece.sections[-1]
    if top is None:
        return
    level, high = piece.levels[section.last], height(piece, size)
    gauge = level.sts_per_cm
    half = half_width(piece, level, size)
    neck = max(x for x, _ in neck_edge(piece, size))
    middle, begins = inner(piece, size), _far(piece, neck, size)
    depth, drop = top.depth_rows(size) / section.rows_per_cm, slope(piece, size)
    wide = top.neck[size] / gauge if piece.half is None else neck - middle
    yield Measure("neck width" if piece.half is None else "half the neck width", (begins, high), (neck, high), wide)
    yield Measure("neck depth", (middle, high - depth), (middle, high), depth)
    if top.has_placket:
        low = high - top.neck_rows[size] / section.rows_per_cm
        foot = top.centre[size] / gauge
        yield Measure("placket", (middle, low), (middle, high - depth), high - depth - low)
        across = (low + high - depth) / 2
        yield Measure("placket width", (-foot / 2, across), (foot / 2, across), foot)
    yield Measure("shoulder", (neck, high), (half, high), half - neck)
    if is_sloped(top):
        yield Measure("slope", (half, high - drop), (half, high), drop)


def hem_depth(piece: PiecePlan, size: int) -> Fraction:
    """Give how far a folded hem reaches up in cm: its front, else its facing; 0 without a hem."""
    for kind in ("front", "facing"):
        for section in piece.sections:
            if section.kind == kind:
                return section.length(size)
    return Fraction(0)


def _lines(piece: PiecePlan, size: int) -> Iterator[tuple[Point, Point]]:
    """The fold and the hem's upper edge, the end of a rib, the start of a crown, a front band, underarm marks."""
    parts = layers(piece, size)
    hem = hem_depth(piece, size)
    if hem:
        yield _across(parts, Fraction(0))
        yield _across(parts, hem)
    for layer in parts:
        if layer.section.kind in EDGINGS:
            yield _across(parts, layer.top)
        if layer.section.kind == "crown" or layer.section.folds:
            yield _across(parts, layer.bottom)
    band = band_edge(piece, size)
    if band is not None:
        yield band if piece.half is None or piece.half.side == "right" else (_flip(band[0]), _flip(band[1]))
    mark = mark_height(piece, "underarm", size)
    if mark is not None:
        half = width_at(parts, mark)
        for side in (-1, 1) if piece.half is None else (1 if piece.half.side == "right" else -1,):
            yield (side * half, mark), (side * half * (1 - MARK), mark)


def _across(parts: Sequence[Layer], y: Fraction) -> tuple[Point, Point]:
    half, left = width_at(parts, y), parts[0].half
    if left is None:
        return (-half, y), (half, y)
    side = 1 if left.side == "right" else -1
    return (side * parts[0].inner, y), (side * half, y)


def width_at(parts: Sequence[Layer], y: Fraction) -> Fraction:
    """Give half the width in cm at a height, below the neck and shoulders; 0 above the piece."""
    for layer in parts:
        for (x0, y0), (x1, y1) in zip(layer.edge, layer.edge[1:], strict=False):
            if y0 <= y <= y1 and y0 != y1:
                return x0 + (x1 - x0) * (y - y0) / (y1 - y0)
    return Fraction(0)
