"""A piece laid flat in exact cm: its sections as layers, each with its right edge; the left edge mirrors it.

x = 0 is the piece's centre line, y = 0 the fold or the cast-on; facing and turning row lie behind and are left out.
Edge stitches are in the seams and not drawn. A round is laid flat, half its stitches in front.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import Half
from wale.course import rows_made
from wale.plan import Level, PiecePlan, Section, Top
from wale.write.courses import part_of

Point = tuple[Fraction, Fraction]
HIDDEN = ("facing", "turning", "aside")
"""Kinds of sections that are folded to the inside, or lie beside the length of a piece."""


class Layer(Struct, frozen=True):
    """One visible section: from `bottom` to `top`, `edge` its right edge upwards (for a neck, on to the centre)."""

    section: Section
    bottom: Fraction
    top: Fraction
    edge: tuple[Point, ...]
    half: Half | None = None
    inner: Fraction = Fraction(0)


def inner(piece: PiecePlan, size: int) -> Fraction:
    """Give the distance in cm from the centre line of the body to the front edge of a half piece; 0 of other pieces."""
    return piece.half.opening.at(size) / 2 if piece.half is not None else Fraction(0)


def band_edge(piece: PiecePlan, size: int) -> tuple[Point, Point] | None:
    """Give the line in cm between a half piece and the band worked along with it, up to its neck; None without one."""
    if piece.half is None or piece.half.band is None:
        return None
    x = inner(piece, size) + piece.half.band.stitches / _stitches_per_cm(piece)
    top = neck_edge(piece, size)[-1][1] if piece.top is not None else height(piece, size)
    return (x, Fraction(0)), (x, top)


def half_width(piece: PiecePlan, level: Level, size: int) -> Fraction:
    """Give the distance in cm from the centre line to the edge, laid flat."""
    if piece.half is not None:
        return inner(piece, size) + level.width(size)
    return level.width(size) / (4 if piece.is_tube else 2)


def layers(piece: PiecePlan, size: int) -> tuple[Layer, ...]:
    """Give the visible sections from the bottom up."""
    found: list[Layer] = []
    bottom = Fraction(0)
    for section in piece.sections:
        if section.kind in HIDDEN:
            continue
        top = bottom + section.length(size)
        first = half_width(piece, piece.levels[section.first], size)
        last = half_width(piece, piece.levels[section.last], size) if section.kind == "shape" else first
        edge: tuple[Point, ...] = ((first, bottom), (last, top))
        if piece.joined and section.kind != "course":
            edge = ((first, bottom), (_next_width(piece, section, size), top))
        elif section.kind == "bound":
            over = half_width(piece, piece.levels[section.last], size)
            edge = ((first, bottom), (over, bottom), (over, top))
        elif section.kind == "crown" and piece.crown is not None:
            edge = _crown_edge(piece, section, size, first, bottom)
        elif section.kind == "course":
            edge = _course_edge(piece, section, size, first, bottom)
        elif piece.top is not None and section is piece.sections[-1]:
            edge = _top_edge(piece, size, first, last, bottom, top)
        found.append(Layer(section, bottom, top, edge, piece.half, inner(piece, size)))
        bottom = top
    return tuple(found)


def _next_width(piece: PiecePlan, section: Section, size: int) -> Fraction:
    """Give half the width of what follows a section of a yoke: it narrows like a cone, its stitches by steps."""
    after = piece.sections[piece.sections.index(section) + 1 :]
    return half_width(piece, piece.levels[after[0].first if after else section.last], size)


def height(piece: PiecePlan, size: int) -> Fraction:
    """Give the length in cm from the fold or cast-on to the piece's highest point."""
    return sum((one.length(size) for one in piece.sections if one.kind not in HIDDEN), Fraction(0))


def slope(piece: PiecePlan, size: int) -> Fraction:
    """Give the drop in cm from the high point of the shoulder to its tip; 0 without shoulders."""
    return piece.top.slope_rows[size] / piece.sections[-1].rows_per_cm if piece.top is not None else Fraction(0)


def mark_height(piece: PiecePlan, name: str, size: int) -> Fraction | None:
    """Give the height in cm of a mark, or None where the piece has no such mark."""
    rows = dict(piece.marks).get(name)
    if rows is None:
        return None
    done, result = rows[size], Fraction(0)
    for section in piece.sections:
        here = min(done, section.rows[size])
        done -= here
        if section.kind not in HIDDEN:
            result += here / section.rows_per_cm
    return result


def neck_edge(piece: PiecePlan, size: int) -> tuple[Point, ...]:
    """Give the right half of the neck from the high point of the shoulder down to the end of its centre.

    Each step takes two rows, from the centre on; the rows left over are straight.
    """
    top = piece.top
    assert top is not None
    section = piece.sections[-1]
    stitch, row = 1 / _stitches_per_cm(piece), 1 / section.rows_per_cm
    high = height(piece, size)
    x, least = top.centre[size] * stitch / 2, inner(piece, size)
    if piece.half is not None:
        # a first bind-off may be narrower than the edge stitches that a band takes up, which lie outside the width
        x = half_width(piece, piece.levels[-1], size) - _beyond_centre(piece, size) * stitch
    y = high - top.neck_rows[size] * row
    points = [(max(least, x), y)]
    for step in top.steps[size]:
        x, y = x + step * stitch, y + 2 * row
        points.append((max(least, x), y))
    return (*([(x, high)] if y != high else []), *reversed(points))


def _beyond_centre(piece: PiecePlan, size: int) -> int:
    """Give the stitches of a half between its side seam and the centre of its neck."""
    assert piece.top is not None
    return sum(piece.top.steps[size]) + piece.top.shoulder[size] - side_seam(piece)


def side_seam(piece: PiecePlan) -> int:
    """Give the stitches of a half that its side seam takes up."""
    return min(piece.edge.stitches, piece.levels[-1].taken)


def outline(parts: Sequence[Layer]) -> tuple[Point, ...]:
    """Join neighbouring layers to one closed polygon, from the lower right upwards and round to the lower left.

    A half piece lies where it is worn, seen from the right side: x = 0 is the middle of the opening.
    """
    right = [point for layer in parts for point in layer.edge]
    half, within = parts[0].half, parts[0].inner
    if half is None:
        return straightened([*right, *((-x, y) for x, y in reversed(right))])
    closed = [*right, (within, right[-1][1]), (within, right[0][1])]
    # its side is at the right where it is the left half, as worn
    return straightened(closed if half.side == "right" else [(-x, y) for x, y in reversed(closed)])


def straightened(points: Sequence[Point]) -> tuple[Point, ...]:
    """Drop points of a closed polygon that repeat or lie on the straight line between their neighbours."""
    kept = [point for index, point in enumerate(points) if point != points[index - 1]]
    index = 0
    while index < len(kept) and len(kept) > 3:
        if _turns(kept[index - 1], kept[index], kept[(index + 1) % len(kept)]):
            index += 1
        else:
            kept.pop(index)
            index = max(index - 1, 0)
    return tuple(kept)


def _turns(before: Point, at: Point, after: Point) -> bool:
    return (at[0] - before[0]) * (after[1] - at[1]) != (at[1] - before[1]) * (after[0] - at[0])


def _stitches_per_cm(piece: PiecePlan) -> Fraction:
    return piece.levels[piece.sections[-1].last].sts_per_cm


def _crown_edge(piece: PiecePlan, section: Section, size: int, first: Fraction, bottom: Fraction) -> tuple[Point, ...]:
    """The sides of a crown: the stitches after each decrease round."""
    crown = piece.crown
    assert crown is not None
    stitch = 1 / piece.levels[section.last].sts_per_cm / 4
    points = [(first, bottom)]
    for number, stitches in crown.decrease_rounds[size]:
        points.append((stitches * stitch, bottom + number / section.rows_per_cm))
    last = crown.final[size] * stitch
    return (*points, (last, bottom + section.length(size)))


def _course_edge(piece: PiecePlan, section: Section, size: int, first: Fraction, bottom: Fraction) -> tuple[Point, ...]:
    """The sides of a course that is shaped: the stitches after each round; those of another stay straight."""
    top, part = bottom + section.length(size), part_of(section)
    last = half_width(piece, piece.levels[section.last], size)
    if not part.is_shaped:
        return (first, bottom), (last, bottom), (last, top)
    stitch = 1 / piece.levels[section.last].sts_per_cm / (4 if piece.is_tube else 2)
    rows = rows_made(part, section.numbers[size])
    points = [(one.after * stitch, bottom + number / section.rows_per_cm) for number, one in enumerate(rows, 1)]
    return (first, bottom), *points


def _top_edge(
    piece: PiecePlan, size: int, first: Fraction, last: Fraction, bottom: Fraction, top: Fraction
) -> tuple[Point, ...]:
    """The armhole edge up to the shoulder's tip, the slope, and the neck down to its centre."""
    assert piece.top is not None
    tip = top - slope(piece, size)
    return ((first, bottom), (last, tip), *neck_edge(piece, size))


def is_sloped(top: Top) -> bool:
    """Whether the shoulders slope in any size."""
    return any(top.slope_rows)
