"""The marks that tell a chart's colours apart without colour: simple strokes, a path a sign."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import count, pairwise, product
from typing import TYPE_CHECKING

from wale.outputs.svg import INK, number

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw

Stroke = tuple[tuple[float, float], ...]

# Strokes in a square from -1 to 1 about the cell's centre, y down; then the pen's width, 1 being the square's half.
_SHAPES: dict[str, tuple[tuple[Stroke, ...], float]] = {
    "dot": ((((0, 0), (0, 0.02)),), 0.8),
    "cross": ((((-0.5, -0.5), (0.5, 0.5)), ((-0.5, 0.5), (0.5, -0.5))), 0.2),
    "ring": (
        (
            (
                (0.5, 0),
                (0.35, 0.35),
                (0, 0.5),
                (-0.35, 0.35),
                (-0.5, 0),
                (-0.35, -0.35),
                (0, -0.5),
                (0.35, -0.35),
                (0.5, 0),
            ),
        ),
        0.2,
    ),
    "bar": ((((-0.5, 0), (0.5, 0)),), 0.24),
    "upright": ((((0, -0.5), (0, 0.5)),), 0.24),
    "plus": ((((-0.5, 0), (0.5, 0)), ((0, -0.5), (0, 0.5))), 0.2),
    "slash": ((((-0.45, 0.5), (0.45, -0.5)),), 0.22),
    "backslash": ((((-0.45, -0.5), (0.45, 0.5)),), 0.22),
    "peak": ((((-0.5, 0.35), (0, -0.4), (0.5, 0.35)),), 0.2),
    "valley": ((((-0.5, -0.35), (0, 0.4), (0.5, -0.35)),), 0.2),
    "tent": ((((-0.5, 0.45), (0, -0.45), (0.5, 0.45)), ((0, -0.45), (0, 0.45))), 0.2),
    "west": ((((0.35, -0.5), (-0.4, 0), (0.35, 0.5)),), 0.2),
    "east": ((((-0.35, -0.5), (0.4, 0), (-0.35, 0.5)),), 0.2),
    "equals": ((((-0.5, -0.25), (0.5, -0.25)), ((-0.5, 0.25), (0.5, 0.25))), 0.2),
    "star": ((((-0.5, 0), (0.5, 0)), ((-0.3, -0.5), (0.3, 0.5)), ((-0.3, 0.5), (0.3, -0.5))), 0.18),
    "corner": ((((-0.35, -0.5), (-0.35, 0.45), (0.45, 0.45)),), 0.22),
    "tee": ((((-0.5, -0.45), (0.5, -0.45)), ((0, -0.45), (0, 0.5))), 0.22),
    "zed": ((((-0.4, -0.45), (0.4, -0.45), (-0.4, 0.45), (0.4, 0.45)),), 0.2),
    "box": ((((-0.45, -0.45), (0.45, -0.45), (0.45, 0.45), (-0.45, 0.45), (-0.45, -0.45)),), 0.2),
}
_NAMES = {
    ".": "dot", "•": "dot", "·": "dot", "x": "cross", "X": "cross", "×": "cross", "o": "ring", "O": "ring", "0": "ring",
    "-": "bar", "–": "bar", "−": "bar", "|": "upright", "+": "plus", "/": "slash", "\\": "backslash", "^": "peak",
    "v": "valley", "V": "valley", "#": "box", "=": "equals", "*": "star", "L": "corner", "T": "tee", "Z": "zed",
    "A": "tent", "<": "west", ">": "east",
}  # fmt: skip


def shapes(marks: Iterable[str]) -> tuple[str, ...]:
    """The name of the shape for each mark, no two alike; "" stays empty.

    A mark of several signs, a space between them, is drawn side by side; one that we don't know, or that an earlier one
    has taken, gets a shape not used yet.
    """
    asked = tuple(marks)
    known = tuple(_named(mark) for mark in asked)
    spare = (name for name in _all() if name not in known)
    taken: set[str] = set()
    found = []
    for mark, name in zip(asked, known, strict=True):
        found.append(name if not mark or (name and name not in taken) else next(spare))
        taken.add(name)
    return tuple(found)


def _named(mark: str) -> str:
    names = [sign if sign in _SHAPES else _NAMES.get(sign, "") for sign in mark.split()]
    return " ".join(names) if all(names) else ""


def _all() -> Iterator[str]:
    """All shapes, then all pairs of them, and so on."""
    return (" ".join(names) for length in count(1) for names in product(_SHAPES, repeat=length))


def _parts(shape: str) -> Iterator[tuple[tuple[Stroke, ...], float]]:
    """The strokes of a shape, and the width of their pen: several stand side by side, smaller."""
    names = shape.split()
    size = 1.0 if len(names) == 1 else 1.2 / len(names)
    for place, name in enumerate(names):
        strokes, width = _SHAPES[name]
        middle = (2 * place + 1) / len(names) - 1
        yield tuple(tuple((middle * 0.9 + x * size, y * size) for x, y in stroke) for stroke in strokes), width * size


def luminance(colour: str) -> float:
    """Relative luminance of `#rrggbb`, 0 to 1. Source: WCAG 2.2, "relative luminance"."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two `#rrggbb`, 1 to 21. Source: WCAG 2.2, "contrast ratio"."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def pen(colour: str) -> str:
    """The ink, dark or white, that stands out better on `colour`."""
    return max((INK, "#ffffff"), key=lambda ink: contrast(ink, colour))


def draw(on: ImageDraw, shape: str, colour: str, centre: tuple[float, float], half: float, bold: float = 1.0) -> None:
    """Draw `shape` once on a picture, as `path` does in SVG; lengths are pixels, strokes so many times as `bold`."""
    (x, y), ink = centre, pen(colour)
    for strokes, width in _parts(shape):
        thick = width * half * (1.0 if shape == "dot" else bold)
        for stroke in strokes:
            points = [(x + dx * half, y + dy * half) for dx, dy in stroke]
            on.line(points, fill=ink, width=max(1, round(thick)), joint="curve")
            for px, py in points:
                on.ellipse((px - thick / 2, py - thick / 2, px + thick / 2, py + thick / 2), fill=ink)


def path(shape: str, colour: str, centres: Iterable[tuple[float, float]], half: float) -> str:
    """SVG that draws `shape` at every centre, a path a sign; `half` is half the side of the square it stands in."""
    places = tuple(centres)
    return "".join(_path(strokes, width, pen(colour), places, half) for strokes, width in _parts(shape))


def _path(
    strokes: tuple[Stroke, ...], width: float, ink: str, centres: tuple[tuple[float, float], ...], half: float
) -> str:
    runs = [
        (
            stroke[0][0] * half,
            stroke[0][1] * half,
            "l"
            + " ".join(
                f"{number((bx - ax) * half)} {number((by - ay) * half)}" for (ax, ay), (bx, by) in pairwise(stroke)
            ),
        )
        for stroke in strokes
    ]
    drawn = "".join(f"M{number(x + dx)} {number(y + dy)}{rest}" for x, y in centres for dx, dy, rest in runs)
    return (
        f'<path d="{drawn}" fill="none" stroke="{ink}" stroke-width="{number(width * half)}" '
        'stroke-linecap="round" stroke-linejoin="round"/>'
    )
