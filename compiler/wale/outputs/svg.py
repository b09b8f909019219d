"""Small bricks of SVG shared by charts, schematics and drawings. Lengths are millimetres on the page."""

from __future__ import annotations

import re
from base64 import b64encode
from html import escape

from wale.outputs.fonts import SANS

INK = "#1a1a1a"
GREY = "#8c8c8c"
PNG = "data:image/png;base64,"
_NARROW = frozenset(" |il'.,:;Ift()[]/-!jr")
_WIDE = frozenset("mwMWOQ@%")


_SIDES = re.compile(r' (width|height)="([0-9.]+)mm"')


def enlarged(svg: str, by: float) -> str:
    """A picture with all that it holds so many times as large: only its sides on the page grow."""
    if by == 1:
        return svg
    return _SIDES.sub(lambda side: f' {side[1]}="{number(float(side[2]) * by)}mm"', svg, count=2)


def number(value: float) -> str:
    """`value` as a short decimal, at most two places: a hundredth of a millimetre."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def png_uri(content: bytes) -> str:
    """A PNG file as a data address."""
    return PNG + b64encode(content).decode("ascii")


def text_width(text: str, size: float) -> float:
    """The width of `text` set in the bold sans at `size`, rounded up by class of letter; mm if `size` is.

    Source: advance widths of Source Sans 3 SemiBold: narrow letters up to 0.40 em, wide ones up to 0.88 em,
    capitals up to 0.67 em, others up to 0.58 em.
    """
    em = 0.0
    for character in text:
        if character in _NARROW:
            em += 0.36
        elif character in _WIDE:
            em += 0.86
        elif character.isupper():
            em += 0.64
        else:
            em += 0.56
    return em * size


def label(
    x: float, y: float, text: str, size: float, *, anchor: str = "middle", bold: bool = False, turn: int = 0
) -> str:
    """A text whose middle line runs through (x, y); `turn` rotates it about that point, in degrees."""
    down = y + 0.34 * size
    weight = ' font-weight="600"' if bold else ""
    turned = f' transform="rotate({turn} {number(x)} {number(y)})"' if turn else ""
    return (
        f'<text x="{number(x)}" y="{number(down)}" font-size="{number(size)}" text-anchor="{anchor}"{weight}{turned}>'
        f"{escape(text)}</text>"
    )


def figure(width: float, height: float, body: str, *, ident: str, title: str, desc: str = "", kind: str) -> str:
    """A whole picture with its name (and description) for readers who cannot see it.

    `kind` is its CSS class. Title and description get ids made from `ident`, which is unique on the page.
    """
    named = f"{ident}-title" + (f" {ident}-desc" if desc else "")
    described = f'<desc id="{ident}-desc">{escape(desc)}</desc>' if desc else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{kind}" role="img" aria-labelledby="{named}" '
        f'width="{number(width)}mm" height="{number(height)}mm" viewBox="0 0 {number(width)} {number(height)}" '
        f'font-family="{SANS}" fill="{INK}"><title id="{ident}-title">{escape(title)}</title>{described}{body}</svg>'
    )
