"""A piece laid flat with its dimension lines, as SVG; the measures of each size stand in a table beside it.

Upright measures go to lanes left or right of the piece, level ones that lie on its lower or upper edge to lanes below
or above, with thin lines that lead to them; level ones inside and slanting ones stay where they are, their words moved
along the line until they touch no others. So no words overlap whatever the piece. Lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from msgspec import Struct

from wale.outputs.chart_grid import CHANGED
from wale.outputs.svg import GREY, INK, figure, label, number, text_width
from wale.pattern import Dimension, Schematic

TEXT = 3.0
_LANE = 5.4
_GAP = 2.6
_LINE = 1.15 * TEXT
_ACCENT = "#1d5560"
_OLD = f'fill="none" stroke="{CHANGED}" stroke-width="0.35" stroke-dasharray="1.8 1.1"'
"""How an old outline is drawn: thinner than a new one, and broken."""
_KEY = 9.0

Box = tuple[float, float, float, float]
Point = tuple[float, float]
Span = tuple[float, float]
Edge = tuple[Point, Point]


class _Line(Struct, frozen=True):
    """A dimension on the page: its ends, upright or not, its words."""

    start: Point
    end: Point
    words: str

    @property
    def is_upright(self) -> bool:
        return abs(self.start[0] - self.end[0]) < 0.01

    @property
    def is_level(self) -> bool:
        return abs(self.start[1] - self.end[1]) < 0.01


def render(
    schematic: Schematic, ident: str, *, width: float = 150.0, height: float = 120.0, is_lettered: bool = False
) -> str:
    """The schematic as SVG within `width` by `height` (mm), lanes included; `ident` is unique on the page.

    Its dimensions have letter and name, or where `is_lettered` the letter alone; the table tells the rest.
    """
    scale = _scale(schematic, width, height)
    left, _, _, top = _bounds((*schematic.outline, *schematic.before))

    def place(point: Point) -> Point:
        return (point[0] - left) * scale, (top - point[1]) * scale

    outline, before = ([place(point) for point in points] for points in (schematic.outline, schematic.before))
    is_compared = bool(before)
    lines = [
        _Line(place(d.start), place(d.end), d.letter if is_lettered and d.letter else _words(d, is_compared))
        for d in schematic.dimensions
    ]
    piece = _bounds([*outline, *before])
    sides = _sides(lines, _bounds(outline))
    edges = [*_sides_of(outline), *_sides_of(before), *((place(a), place(b)) for a, b in schematic.lines)]
    drawn, taken = _inside(sides["inside"], edges)
    boxes = [piece, *taken]
    for side in ("left", "right", "above", "below"):
        more, used = _lanes(sides[side], side, piece)
        drawn += more
        boxes += used
    x1, y1 = min(b[0] for b in boxes) - 1, min(b[1] for b in boxes) - 1
    x2, y2 = max(b[2] for b in boxes) + 1, max(b[3] for b in boxes) + 1
    key, key_box = _key(x1 + 1, y2) if is_compared else ("", (x1, y1, x2, y2))
    x2, y2 = max(x2, key_box[2]), max(y2, key_box[3])
    dashes = "".join(_run(place(a), place(b)) for a, b in schematic.lines)
    body = (
        f'<g transform="translate({number(-x1)} {number(-y1)})">'
        f'<polygon points="{_corners(outline)}" fill="#f4f2ec" stroke="{INK}" stroke-width="0.5" '
        'stroke-linejoin="round"/>'
        + (f'<polygon class="before" points="{_corners(before)}" {_OLD}/>' if before else "")
        + (
            f'<path d="{dashes}" fill="none" stroke="{INK}" stroke-width="0.3" stroke-dasharray="1.6 1.2"/>'
            if dashes
            else ""
        )
        + drawn
        + key
        + "</g>"
    )
    title = f"Schematic of {schematic.name}, size {schematic.size}" + (", old and new" if is_compared else "")
    words = ", ".join(_words(d, is_compared) for d in schematic.dimensions)
    desc = f"Outline with the dimensions {words}; values in the table."
    if is_compared:
        told = ", ".join(f"{d.name} was {d.values[0]}, is {d.values[1]}" for d in schematic.dimensions)
        desc = f"The old outline, broken, lies over the new one. What differs: {told or 'no measure with a name'}."
    return figure(x2 - x1, y2 - y1, body, ident=ident, title=title, desc=desc, kind="schematic")


def _words(dimension: Dimension, is_compared: bool) -> str:
    words = f"{dimension.letter} {dimension.name}".strip()
    return f"{words} {dimension.values[0]}, now {dimension.values[1]}" if is_compared else words


def _corners(points: list[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


def _key(x: float, y: float) -> tuple[str, Box]:
    """What the two outlines are, from an upper left corner on, and the room that it takes."""
    drawn, at, middle = "", x, y + _LANE / 2
    for words, look in (("new", f'fill="none" stroke="{INK}" stroke-width="0.5"'), ("old", _OLD)):
        drawn += f'<path d="{_run((at, middle), (at + _KEY, middle))}" {look}/>'
        drawn += label(at + _KEY + 1.2, middle, words, TEXT, anchor="start")
        at += _KEY + 3.6 + text_width(words, TEXT)
    return drawn, (x, y, at, y + _LANE)


def _bounds(points: list[Point] | tuple[Point, ...]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _run(a: Point, b: Point) -> str:
    return f"M{number(a[0])} {number(a[1])}L{number(b[0])} {number(b[1])}"


def _scale(schematic: Schematic, width: float, height: float) -> float:
    """mm on the page for a cm of the piece: three lanes a side are kept free."""
    x1, y1, x2, y2 = _bounds((*schematic.outline, *schematic.before))
    return min((width - 6 * _LANE) / (x2 - x1), (height - 4 * _LANE) / (y2 - y1))


def _sides(lines: list[_Line], piece: Box) -> dict[str, list[_Line]]:
    sides: dict[str, list[_Line]] = {name: [] for name in ("left", "right", "above", "below", "inside")}
    middle = (piece[0] + piece[2]) / 2
    for line in lines:
        x, y = (line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2
        if line.is_upright and _stays_inside(line, piece):
            sides["inside"].append(line)
        elif line.is_upright:
            sides["left" if x < middle - 0.01 else "right"].append(line)
        elif line.is_level and y >= piece[3] - 0.01:
            sides["below"].append(line)
        elif line.is_level and y <= piece[1] + 0.01:
            sides["above"].append(line)
        else:
            sides["inside"].append(line)
    return sides


def _stays_inside(line: _Line, piece: Box) -> bool:
    """Whether an upright measure lies well within the piece and is shorter than its words."""
    inside = piece[0] + 1 < line.start[0] < piece[2] - 1
    return inside and abs(line.start[1] - line.end[1]) < text_width(line.words, TEXT)


def _lanes(lines: list[_Line], side: str, piece: Box) -> tuple[str, list[Box]]:
    """Dimension lines beside the piece, short ones nearest, two in one lane where they and their words leave room."""
    upright = side in ("left", "right")
    axis = 1 if upright else 0
    edge = {"left": piece[0], "right": piece[2], "above": piece[1], "below": piece[3]}[side]
    out = -1 if side in ("left", "above") else 1
    lanes: list[list[Span]] = []
    drawn, boxes = "", []
    for line in sorted(lines, key=lambda one: (abs(one.start[axis] - one.end[axis]), one.start[axis], one.words)):
        low, high = sorted((line.start[axis], line.end[axis]))
        long = text_width(line.words, TEXT)
        middle = (low + high) / 2
        # A span shorter than its words has them level beside it, over as many lanes as they are long.
        is_short = upright and high - low < long + 1
        half = _LINE / 2 if is_short else long / 2
        words = (middle - half, middle + half)
        # Measures may stand end to end in a lane; words that reach beyond their span keep a distance.
        room = 0 if is_short else 1
        reach = (min(low, words[0] - room), max(high, words[1] + room))
        beyond = ceil((long + 1.2) / _LANE) if is_short else 0
        number_of = _free_lane(lanes, reach, words, beyond)
        lanes += [[] for _ in range(number_of + beyond + 1 - len(lanes))]
        lanes[number_of].append(reach)
        for lane in lanes[number_of + 1 : number_of + beyond + 1]:
            lane.append(words)
        at = edge + out * (_GAP + number_of * _LANE)
        words_at = at + out * 2.3
        if is_short:
            words_at = at + out * (1.2 + long / 2)
            drawn += _leads(line, (at + out, line.start[1]), (at + out, line.end[1]))
            drawn += _arrow((at, low), (at, high)) + label(words_at, middle, line.words, TEXT, bold=True)
            x1, x2 = sorted((at, at + out * (1.2 + long)))
            boxes.append((x1, reach[0], x2, reach[1]))
        elif upright:
            drawn += _leads(line, (at + out, line.start[1]), (at + out, line.end[1]))
            drawn += _arrow((at, low), (at, high)) + label(words_at, middle, line.words, TEXT, bold=True, turn=-90)
            boxes.append((min(at, words_at - TEXT), reach[0], max(at, words_at + TEXT), reach[1]))
        else:
            drawn += _leads(line, (line.start[0], at + out), (line.end[0], at + out))
            drawn += _arrow((low, at), (high, at)) + label(middle, words_at, line.words, TEXT, bold=True)
            boxes.append((reach[0], min(at, words_at - TEXT), reach[1], max(at, words_at + TEXT)))
    return drawn, boxes


def _free_lane(lanes: list[list[Span]], reach: Span, words: Span, beyond: int) -> int:
    """The nearest lane in which `reach` is free, and `words` in the next `beyond` ones."""

    def is_free(span: Span, number: int) -> bool:
        return number >= len(lanes) or all(_apart(span, other) for other in lanes[number])

    n = 0
    while not (is_free(reach, n) and all(is_free(words, n + more) for more in range(1, beyond + 1))):
        n += 1
    return n


def _apart(one: Span, other: Span) -> bool:
    return one[1] <= other[0] + 0.01 or other[1] <= one[0] + 0.01


def _leads(line: _Line, start: Point, end: Point) -> str:
    """Thin lines from the measured points to the dimension line."""
    return f'<path d="{_run(line.start, start)}{_run(line.end, end)}" fill="none" stroke="{GREY}" stroke-width="0.15"/>'


def _arrow(a: Point, b: Point) -> str:
    """A line with a slender arrow head at both ends."""
    long = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
    if long < 0.01:
        return ""
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    head = min(1.6, long / 3)
    heads = "".join(
        f"M{number(x)} {number(y)}L{number(x + s * ux * head - uy * 0.5)} {number(y + s * uy * head + ux * 0.5)}"
        f"L{number(x + s * ux * head + uy * 0.5)} {number(y + s * uy * head - ux * 0.5)}Z"
        for (x, y), s in ((a, 1), (b, -1))
    )
    return (
        f'<path d="{_run(a, b)}" fill="none" stroke="{_ACCENT}" stroke-width="0.3"/>'
        f'<path d="{heads}" fill="{_ACCENT}"/>'
    )


def _inside(lines: list[_Line], edges: Sequence[Edge]) -> tuple[str, list[Box]]:
    """Dimensions drawn where they are; their words slide along until they are free of all lines and of each other."""
    drawn = ""
    taken: list[Box] = []
    for line in sorted(lines, key=lambda one: (one.start[1] + one.end[1], one.words)):
        others = [(other.start, other.end) for other in lines if other is not line]
        box = _free_place(line, taken, [*edges, *others])
        taken.append(box)
        drawn += _arrow(min(line.start, line.end), max(line.start, line.end))
        drawn += (
            f'<rect x="{number(box[0])}" y="{number(box[1])}" width="{number(box[2] - box[0])}" '
            f'height="{number(box[3] - box[1])}" fill="#f4f2ec" fill-opacity="0.85"/>'
            + label((box[0] + box[2]) / 2, (box[1] + box[3]) / 2, line.words, TEXT, bold=True)
        )
    return drawn, taken


def _free_place(line: _Line, taken: list[Box], edges: Sequence[Edge]) -> Box:
    wide, tall = text_width(line.words, TEXT) + 0.6, _LINE
    off = tall / 2 + 0.5
    places = []
    if line.is_upright:
        x, low, high = line.start[0], max(line.start[1], line.end[1]), min(line.start[1], line.end[1])
        for y in (low + off + 0.6, high - off, low + off + tall, high - off - tall):
            places.append((x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2))
        for side in (1 + wide / 2, -1 - wide / 2):
            y = (low + high) / 2
            places.insert(0, (x + side - wide / 2, y - tall / 2, x + side + wide / 2, y + tall / 2))
    if line.is_level and abs(line.end[0] - line.start[0]) < wide:
        left, right = sorted((line.start[0], line.end[0]))
        y = line.start[1]
        for x in (right + 1 + wide / 2, left - 1 - wide / 2):
            places.append((x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2))
    for lift in (-off, off, -off - tall, off + tall, -off - 2 * tall, off + 2 * tall):
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            x = line.start[0] + share * (line.end[0] - line.start[0])
            y = line.start[1] + share * (line.end[1] - line.start[1]) + lift
            places.append((x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2))
    free = [box for box in places if not any(_overlap(box, other) for other in taken)]
    return next((box for box in free if not any(_crosses(box, edge) for edge in edges)), (*free, places[0])[0])


def _sides_of(outline: list[Point]) -> list[Edge]:
    """The sides of a closed outline, which words inside a piece are to keep clear of."""
    return list(zip(outline, [*outline[1:], *outline[:1]], strict=True))


def _crosses(box: Box, edge: Edge) -> bool:
    """Whether a line runs through a box: what is left of it between the box's sides, one after the other."""
    (x1, y1), (x2, y2) = edge
    first, last = 0.0, 1.0
    for start, way, low, high in ((x1, x2 - x1, box[0], box[2]), (y1, y2 - y1, box[1], box[3])):
        if way == 0:
            if not low < start < high:
                return False
            continue
        a, b = sorted(((low - start) / way, (high - start) / way))
        first, last = max(first, a), min(last, b)
    return first < last


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
