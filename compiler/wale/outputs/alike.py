"""Drawings side by side at one scale, each fabric made once: one picture of it, cut for every part and size."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from wale.outputs.drawing import Laid, cloth, cut, laid, rolled
from wale.outputs.svg import figure, label, number, png_uri
from wale.pattern import Drawing, DrawnPart

_PAPER = 168.0
_GAP = 4.5
_TALLEST = 100.0
_LIFE_SIZE = 10.0
"""Millimetres on paper for a cm of fabric: nothing is drawn larger."""
_PAD = 1.0
_RULER = 6.0
TEXT = 2.6
"""Size of the figures of a ruler, mm."""
_LINE = 0.25
_DOTS = 12
"""Pixels to a mm on paper, 300 to the inch."""
_FINEST = 4
_UNITS = {"cm": (1.0, "cm"), "inch": (2.54, "in")}
"""Units of rulers: cm to one, and what is printed beside its figures."""

Fabric = tuple[tuple[tuple[str, ...], ...], tuple[float, float]]
"""What is drawn alike: tile and stitch."""


class _Sheet(Struct, frozen=True):
    """A fabric from the tile's first stitch and row on, large enough for each part that is cut from it."""

    ident: str
    columns: int
    rows: int


def _is_paired(drawings: Sequence[Drawing]) -> bool:
    """Whether each two belong together, as patches in colour and in grey do."""
    return any(one.ruler for one in drawings)


def room(drawings: Sequence[Drawing]) -> tuple[float, float]:
    """Give the width and height in mm that each drawing may take on paper: up to three abreast, pairs up to four."""
    count, many = len(drawings), 4 if _is_paired(drawings) else 3
    abreast = count if count < 4 else 2 if count == 4 else many
    return round(_PAPER / abreast - _GAP, 1), _TALLEST


def render(
    drawings: Sequence[Drawing], idents: Sequence[str], room: tuple[float, float], *, is_shared: bool
) -> tuple[str, ...]:
    """Draw all as SVG in frames of one size, at the largest common scale for which they fit.

    Args:
        idents: an id for each, unique on the page.
        room: width and height of a frame in mm.
        is_shared: the first picture holds the fabrics and the others point at it, as a page can; else each has them.
    """
    boxes = [_box(one) for one in drawings]
    ruled = _RULER if _is_paired(drawings) else 0.0
    wide, tall = max(box[2] - box[0] for box in boxes), max(box[3] - box[1] for box in boxes)
    free = room[0] - 2 * _PAD - ruled, room[1] - 2 * _PAD - ruled
    scale = min(free[0] / wide, free[1] / tall, _LIFE_SIZE)
    lies = [[laid(part) for part in one.parts] for one in drawings]
    sheets = _sheets(drawings, lies, f"{idents[0]}-fabric")
    kept = {fabric: _image(fabric, sheet, scale) for fabric, sheet in sheets.items()}
    frame = wide * scale + 2 * _PAD + ruled, tall * scale + 2 * _PAD + ruled
    pictures: list[str] = []
    for one, ident, box, places in zip(drawings, idents, boxes, lies, strict=True):
        body = f"<defs>{''.join(kept.values())}</defs>" if is_shared and not pictures else ""
        left = (wide - box[2] + box[0]) / 2 * scale + _PAD + ruled
        below = frame[1] - _PAD - ruled
        for number_, (part, lie) in enumerate(zip(one.parts, places, strict=True), 1):
            at = left + (lie.anchor[0] - box[0]) * scale, below - (lie.anchor[1] - box[1]) * scale
            fabric = part.tile, part.cell
            cloth_ = _placed(part, lie, sheets[fabric], at, scale, "" if is_shared else kept[fabric])
            body += cut(part, lie, f"{ident}-{number_}", at, scale, cloth_, _LINE)
        if one.ruler:
            body += _rulers(one.ruler, left, below, (box[2] - box[0]) * scale, (box[3] - box[1]) * scale, scale)
        pictures.append(figure(*frame, body, ident=ident, title=one.words, kind="drawing"))
    return tuple(pictures)


def _box(drawing: Drawing) -> tuple[float, float, float, float]:
    """Left, bottom, right and top, cm."""
    xs = [x for part in drawing.parts for x, _ in part.outline]
    ys = [y for part in drawing.parts for _, y in part.outline]
    return min(xs), min(ys), max(xs), max(ys)


def _sheets(drawings: Sequence[Drawing], lies: Sequence[Sequence[Laid]], ident: str) -> dict[Fabric, _Sheet]:
    """The fabrics, each as large as the largest part that is cut from it, from whole repeats on."""
    sheets: dict[Fabric, _Sheet] = {}
    for drawing, places in zip(drawings, lies, strict=True):
        for part, lie in zip(drawing.parts, places, strict=True):
            known = sheets.get((part.tile, part.cell), _Sheet(f"{ident}-{len(sheets) + 1}", 0, 0))
            columns = max(known.columns, lie.first % len(part.tile[0]) + lie.columns)
            rows = max(known.rows, lie.below % len(part.tile) + lie.rows)
            sheets[part.tile, part.cell] = _Sheet(known.ident, columns, rows)
    return sheets


def _image(fabric: Fabric, sheet: _Sheet, scale: float) -> str:
    """A fabric as an element of SVG, its upper left corner at the origin."""
    tile, (wide, tall) = fabric
    fine = min(max(round(wide * scale * _DOTS / 5), 1), _FINEST)
    picture = png_uri(cloth(rolled(tile, 0, 0, sheet.columns), sheet.columns, sheet.rows, fine))
    return (
        f'<image id="{sheet.ident}" href="{picture}" width="{number(sheet.columns * wide * scale)}" '
        f'height="{number(sheet.rows * tall * scale)}" preserveAspectRatio="none"/>'
    )


def _placed(part: DrawnPart, lie: Laid, sheet: _Sheet, at: tuple[float, float], scale: float, image: str) -> str:
    """The fabric where a part needs it: its lower left corner is that of a whole repeat."""
    wide, tall = part.cell[0] * scale, part.cell[1] * scale
    x = at[0] + (lie.first - lie.first % len(part.tile[0])) * wide
    y = at[1] - (lie.below - lie.below % len(part.tile) + sheet.rows) * tall
    place = f'x="{number(x)}" y="{number(y)}"'
    if not image:
        return f'<use href="#{sheet.ident}" {place}/>'
    return image.replace(f'id="{sheet.ident}"', place)


def _rulers(unit: str, left: float, below: float, wide: float, tall: float, scale: float) -> str:
    """A ruler below a patch and one at its left, in its unit: a tick each, a longer one with its figure each fifth."""
    length, word = _UNITS[unit]
    step = length * scale
    body = ""
    for count in range(int(wide / step + 0.001) + 1):
        at, is_long = left + count * step, count % 5 == 0 or unit == "inch"
        body += _tick(at, below + 0.5, at, below + (2.4 if is_long else 1.5))
        if is_long:
            body += label(at, below + 4.2, f"{count} {word}" if count else "0", TEXT)
    for count in range(1, int(tall / step + 0.001) + 1):
        at, is_long = below - count * step, count % 5 == 0 or unit == "inch"
        body += _tick(left - 0.5, at, left - (2.4 if is_long else 1.5), at)
        if is_long:
            body += label(left - 4.2, at, str(count), TEXT)
    return body


def _tick(x: float, y: float, to_x: float, to_y: float) -> str:
    return (
        f'<line x1="{number(x)}" y1="{number(y)}" x2="{number(to_x)}" y2="{number(to_y)}" '
        'stroke="#1a1a1a" stroke-width="0.25"/>'
    )
