"""The marks that tell a chart's colours apart without colour: simple strokes, one path a colour."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
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
    "box": ((((-0.45, -0.45), (0.45, -0.45), (0.45, 0.45), (-0.45, 0.45), (-0.45, -0.45)),), 0.2),
}
_NAMES = {
    ".": "dot", "•": "dot", "·": "dot", "x": "cross", "X": "cross", "×": "cross", "o": "ring", "O": "ring", "0": "ring",
    "-": "bar", "–": "bar", "−": "bar", "|": "upright", "+": "plus", "/": "slash", "\\": "backslash", "^": "peak",
    "v": "valley", "V": "valley", "#": "box",
}  # fmt: skip


def shapes(marks: Iterable[str]) -> tuple[str, ...]:
    """The name of the shape for each mark; "" stays empty, a mark that we don't know gets a shape not used yet."""
    asked = tuple(marks)
    known = tuple(mark if mark in _SHAPES else _NAMES.get(mark, "") for mark in asked)
    free = [name for name in _SHAPES if name not in known] or list(_SHAPES)
    spare = iter(free * (len(asked) // len(free) + 1))
    return tuple(name or (next(spare) if mark else "") for mark, name in zip(asked, known, strict=True))


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
    strokes, width = _SHAPES[shape]
    x, y, thick, ink = *centre, width * half * (1.0 if shape == "dot" else bold), pen(colour)
    for stroke in strokes:
        points = [(x + dx * half, y + dy * half) for dx, dy in stroke]
        on.line(points, fill=ink, width=max(1, round(thick)), joint="curve")
        for px, py in points:
            on.ellipse((px - thick / 2, py - thick / 2, px + thick / 2, py + thick / 2), fill=ink)


def path(shape: str, colour: str, centres: Iterable[tuple[float, float]], half: float) -> str:
    """One SVG path that draws `shape` at every centre; `half` is half the side of the square it stands in."""
    strokes, width = _SHAPES[shape]
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
        f'<path d="{drawn}" fill="none" stroke="{pen(colour)}" stroke-width="{number(width * half)}" '
        'stroke-linecap="round" stroke-linejoin="round"/>'
    )
