"""The garment as it looks laid flat: each part filled with its motif in small knit stitches, outlines on top."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from math import ceil, cos, floor, radians, sin
from typing import TYPE_CHECKING

from msgspec import Struct

from wale.outputs.svg import figure, number, png_uri
from wale.pattern import Drawing, DrawnPart

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageDraw import ImageDraw

_WIDE, _TALL = 5, 4
_FINE = 4
_MANY_STITCHES = 150_000
_MOST_PIXELS = 1500
# How light a colour is behind the legs, and a stitch on the whole.
_BACK, _MEAN = 0.62, 0.9

Tile = tuple[tuple[str, ...], ...]


def _shade(colour: str, share: float) -> tuple[int, int, int]:
    """`colour` darkened to `share` of its light, 0 to 1."""
    red, green, blue = (round(int(colour[i : i + 2], 16) * share) for i in (1, 3, 5))
    return red, green, blue


@lru_cache(maxsize=16)
def stitch_tile(tile: Tile, fine: int = 1) -> Image:
    """A motif as an indexed picture that repeats without a seam, 5 by 4 pixels a stitch: two legs that meet below.

    `tile` holds rows of `#rrggbb`, bottom row first; `fine` multiplies the pixels of a stitch. A leg reaches up behind
    the stitch above it and down over the one below, so each stitch looks as it and those two say; each such trio is
    drawn once.
    """
    from PIL import Image

    rows = len(tile)
    looks: dict[tuple[str, str, str], list[bytes]] = {}
    lines: list[bytes] = []
    for r in reversed(range(rows)):
        trios = list(zip(tile[(r + 1) % rows], tile[r], tile[r - 1], strict=True))
        cells = [looks.get(trio) or _look(looks, trio, fine) for trio in trios]
        lines += [b"".join(cell[y] for cell in cells) for y in range(_TALL * fine)]
    image = Image.frombytes("RGB", (len(tile[0]) * _WIDE * fine, rows * _TALL * fine), b"".join(lines))
    return image.quantize(64, dither=Image.Dither.NONE)


def _look(looks: dict[tuple[str, str, str], list[bytes]], trio: tuple[str, str, str], fine: int) -> list[bytes]:
    """The lines of pixels of a stitch, drawn and kept: `trio` is the colour above it, its own, and that below."""
    from PIL import Image, ImageDraw

    wide, tall = _WIDE * fine, _TALL * fine
    w, h = wide * _FINE, tall * _FINE
    image = Image.new("RGB", (w, 3 * h))
    pen = ImageDraw.Draw(image)
    for place, colour in enumerate(trio):
        pen.rectangle((0, place * h, w - 1, (place + 1) * h - 1), fill=_shade(colour, _BACK))
    for place in (2, 1, 0):
        _legs(pen, 0, place * h, w, h, trio[place])
    cell = image.crop((0, h, w, 2 * h)).resize((wide, tall), Image.Resampling.BOX).tobytes()
    looks[trio] = [cell[at : at + 3 * wide] for at in range(0, len(cell), 3 * wide)]
    return looks[trio]


@lru_cache(maxsize=16)
def cloth(tile: Tile, across: int, up: int, fine: int = 1) -> bytes:
    """A piece of fabric, `across` by `up` stitches, as a PNG; `tile` stands centred and starts at the lower edge.

    A stitch has `fine` times 5 by 4 pixels. A fabric of many has one pixel a stitch; one of more than `_MOST_PIXELS` a
    side, every second, third or further stitch.
    """
    from PIL import Image

    left = (across - len(tile[0])) // 2 % len(tile[0]) - len(tile[0])
    if across * up > _MANY_STITCHES:
        return _png(_specks(tile, across, up, -left))
    if len(tile[0]) > across:
        tile, left = tuple((row * 2)[-left : across - left] for row in tile[:up]), 0
    stitch = stitch_tile(tile[:up], fine)
    piece = Image.new("P", (across * _WIDE * fine, up * _TALL * fine))
    piece.putpalette(stitch.getpalette() or [])
    for x in range(left * _WIDE * fine, piece.width, stitch.width):
        piece.paste(stitch, (x, piece.height - stitch.height))
    for y in range(piece.height - 2 * stitch.height, -stitch.height, -stitch.height):
        piece.paste(piece.crop((0, piece.height - stitch.height, piece.width, piece.height)), (0, y))
    return _png(piece)


def _specks(tile: Tile, across: int, up: int, first: int) -> Image:
    """Fabric of one pixel for each stitch shown; `first` is the tile's column at the left edge."""
    from PIL import Image

    steps = [-(-count // _MOST_PIXELS) for count in (across, up)]
    colours = list(dict.fromkeys(colour for row in tile for colour in row))
    index = {colour: n for n, colour in enumerate(colours)}
    columns = [(first + c) % len(tile[0]) for c in range(0, across, steps[0])]
    shown = range(0, up, steps[1])
    content = b"".join(bytes(index[tile[r % len(tile)][c]] % 256 for c in columns) for r in reversed(shown))
    image = Image.frombytes("P", (len(columns), len(shown)), content)
    image.putpalette(b"".join(bytes(_shade(colour, _MEAN)) for colour in colours))
    return image


def _png(image: Image) -> bytes:
    out = BytesIO()
    # By its name, Pillow loads the one writer that this needs.
    out.name = "cloth.png"
    image.save(out, compress_level=6)
    return out.getvalue()


def _legs(pen: ImageDraw, x: int, y: int, w: int, h: int, colour: str) -> None:
    up, down = y - round(0.28 * h), y + h + round(0.12 * h)
    mid, gap = x + w / 2, w * 0.03
    for side, share in ((-1, 1.0), (1, 0.93)):
        outer = mid + side * (w / 2 - gap)
        pen.polygon(
            [
                (outer, up + 0.08 * h),
                (mid + side * w * 0.2, up + 0.02 * h),
                (mid + side * gap, down - 0.42 * h),
                (mid + side * gap, down),
                (mid + side * w * 0.16, down - 0.02 * h),
                (outer, up + 0.52 * h),
            ],
            fill=_shade(colour, share),
        )


def render(drawing: Drawing, ident: str, *, width: float = 120.0, height: float = 115.0) -> str:
    """The drawing as SVG, as large as `width` by `height` (mm) allow; its name is `drawing.words`."""
    xs = [x for part in drawing.parts for x, _ in part.outline]
    ys = [y for part in drawing.parts for _, y in part.outline]
    left, top = min(xs), max(ys)
    pad = 1.0
    scale = min((width - 2 * pad) / (max(xs) - left), (height - 2 * pad) / (top - min(ys)))
    body = "".join(_part(part, f"{ident}-{n}", left, top, scale, pad) for n, part in enumerate(drawing.parts, 1))
    wide, tall = (max(xs) - left) * scale + 2 * pad, (top - min(ys)) * scale + 2 * pad
    return figure(wide, tall, body, ident=ident, title=drawing.words, kind="drawing")


class Laid(Struct, frozen=True):
    """A part turned upright about its tiling's origin.

    Attributes:
        anchor: that origin in the drawing, cm.
        upright: the outline from there, cm.
        first, below: column and row of the tiling at its lower left corner, from the origin's.
        columns, rows: stitches that cover it.
    """

    anchor: tuple[float, float]
    upright: tuple[tuple[float, float], ...]
    first: int
    below: int
    columns: int
    rows: int


def laid(part: DrawnPart) -> Laid:
    """Find the stitches that cover a part."""
    wide, tall = part.cell
    anchor = part.origin or _centred(part)
    upright = tuple(_turned(x - anchor[0], y - anchor[1], -part.turn) for x, y in part.outline)
    xs, ys = [x for x, _ in upright], [y for _, y in upright]
    first, below = floor(min(xs) / wide), floor(min(ys) / tall)
    return Laid(anchor, upright, first, below, ceil(max(xs) / wide) - first, ceil(max(ys) / tall) - below)


def cut(
    part: DrawnPart, lies: Laid, ident: str, at: tuple[float, float], scale: float, fabric: str, line: float
) -> str:
    """A part as SVG: its outline, `line` mm thick, and `fabric` cut along it; its anchor comes to stand `at`, mm."""
    drawn = " ".join(f"{number(at[0] + x * scale)},{number(at[1] - y * scale)}" for x, y in lies.upright)
    turn = f' transform="rotate({number(-part.turn)} {number(at[0])} {number(at[1])})"' if part.turn else ""
    return (
        f'<g{turn}><clipPath id="{ident}-cut"><polygon points="{drawn}"/></clipPath><g clip-path="url(#{ident}-cut)">'
        f'{fabric}</g><polygon points="{drawn}" '
        f'fill="none" stroke="#2b2b2b" stroke-width="{number(line)}" stroke-linejoin="round"/></g>'
    )


def _part(part: DrawnPart, ident: str, left: float, top: float, scale: float, pad: float) -> str:
    wide, tall = part.cell
    lies = laid(part)
    columns, rows = lies.columns, lies.rows
    at = (lies.anchor[0] - left) * scale + pad, (top - lies.anchor[1]) * scale + pad
    x0, y0 = at[0] + lies.first * wide * scale, at[1] - (lies.below + rows) * tall * scale
    picture = png_uri(cloth(rolled(part.tile, lies.first, lies.below, columns), columns, rows))
    fabric = (
        f'<image href="{picture}" x="{number(x0)}" y="{number(y0)}" width="{number(columns * wide * scale)}" '
        f'height="{number(rows * tall * scale)}" preserveAspectRatio="none"/>'
    )
    return cut(part, lies, ident, at, scale, fabric, 0.45)


def _centred(part: DrawnPart) -> tuple[float, float]:
    """Where a tile's lower left corner stands when the tiling is centred and starts at the part's lower edge."""
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    columns = ceil((max(xs) - min(xs)) / part.cell[0])
    return min(xs) + (columns - len(part.tile[0])) // 2 * part.cell[0], min(ys)


def _turned(x: float, y: float, degrees: float) -> tuple[float, float]:
    """A point turned anticlockwise about the origin, y upwards."""
    angle = radians(degrees)
    return x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)


def rolled(tile: Tile, first: int, below: int, across: int) -> Tile:
    """`tile` rolled so that a cloth `across` stitches wide, on which it stands centred, begins with column `first` and
    row `below` of the tiling."""
    columns, rows = len(tile[0]), len(tile)
    shift = first + (across - columns) // 2
    return tuple(tuple(tile[(r + below) % rows][(c + shift) % columns] for c in range(columns)) for r in range(rows))
