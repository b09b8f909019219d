"""The garment as it looks laid flat: each part filled with its motif in small knit stitches, outlines on top."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from wale.outputs.svg import figure, number, png_uri
from wale.pattern import Drawing, DrawnPart

_WIDE, _TALL = 8, 7
_FINE = 4
_MOST_PIXELS = 1600


def _shade(colour: str, share: float) -> tuple[int, int, int]:
    """`colour` darkened to `share` of its light, 0 to 1."""
    red, green, blue = (round(int(colour[i : i + 2], 16) * share) for i in (1, 3, 5))
    return red, green, blue


@lru_cache(maxsize=16)
def stitch_tile(tile: tuple[tuple[str, ...], ...]) -> bytes:
    """A motif as a PNG that repeats without a seam: each cell a knit stitch, two slanting legs that meet below.

    `tile` holds rows of `#rrggbb`, bottom row first. A leg reaches up behind the stitch above it, so rows are drawn
    from the bottom up; a further row below and above closes the repeat.
    """
    from PIL import Image, ImageDraw

    columns, rows = len(tile[0]), len(tile)
    fine = _FINE if columns * rows <= _MOST_PIXELS else 2
    w, h = _WIDE * fine, _TALL * fine
    image = Image.new("RGB", (columns * w, (rows + 2) * h))
    pen = ImageDraw.Draw(image)
    for r in range(-1, rows + 1):
        for c in range(columns):
            x, y = c * w, (rows - r) * h
            pen.rectangle((x, y, x + w - 1, y + h - 1), fill=_shade(tile[r % rows][c], 0.62))
    for r in range(-1, rows + 1):
        for c in range(columns):
            colour = tile[r % rows][c]
            x, y = c * w, (rows - r) * h
            _legs(pen, x, y, w, h, colour)
    image = image.crop((0, h, columns * w, (rows + 1) * h))
    image = image.resize((columns * _WIDE, rows * _TALL), Image.Resampling.BOX)
    out = BytesIO()
    image.quantize(64, dither=Image.Dither.NONE).save(out, "PNG", compress_level=6)
    return out.getvalue()


def _legs(pen: object, x: int, y: int, w: int, h: int, colour: str) -> None:
    from PIL import ImageDraw

    assert isinstance(pen, ImageDraw.ImageDraw)
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


def _part(part: DrawnPart, ident: str, left: float, top: float, scale: float, pad: float) -> str:
    points = [((x - left) * scale + pad, (top - y) * scale + pad) for x, y in part.outline]
    x0, y0 = min(x for x, _ in points), min(y for _, y in points)
    across, down = max(x for x, _ in points) - x0, max(y for _, y in points) - y0
    cell_wide, cell_tall = part.cell[0] * scale, part.cell[1] * scale
    wide, tall = len(part.tile[0]) * cell_wide, len(part.tile) * cell_tall
    picture = png_uri(stitch_tile(_settled(part.tile, across / cell_wide, down / cell_tall)))
    drawn = " ".join(f"{number(x - x0)},{number(y - y0)}" for x, y in points)
    # The pattern starts at the part's upper left corner, where all renderers agree on its origin.
    return (
        f'<g transform="translate({number(x0)} {number(y0)})"><defs><pattern id="{ident}-fill" '
        f'patternUnits="userSpaceOnUse" width="{number(wide)}" height="{number(tall)}"><image href="{picture}" '
        f'width="{number(wide)}" height="{number(tall)}" preserveAspectRatio="none"/></pattern></defs>'
        f'<polygon points="{drawn}" fill="url(#{ident}-fill)" stroke="#2b2b2b" stroke-width="0.45" '
        'stroke-linejoin="round"/></g>'
    )


def _settled(tile: tuple[tuple[str, ...], ...], across: float, up: float) -> tuple[tuple[str, ...], ...]:
    """`tile` turned so that, laid from the upper left of a part `across` by `up` stitches, it starts at the part's
    lower edge and stands centred."""
    columns, rows = len(tile[0]), len(tile)
    right, high = round((across - columns) / 2), round(up)
    return tuple(tuple(tile[(r + high) % rows][(c - right) % columns] for c in range(columns)) for r in range(rows))
