"""Half pieces: `piece left-front, as back, left half`, and their mirror images."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec.structs import replace

from wale.actions import BAND_LOOKS, CastOn, Fabric, FrontBand, Half
from wale.measure import Constant, Measure
from wale.parse.tree import Block
from wale.resolve.amounts import whole
from wale.resolve.buttonholes import LINES as BUTTONHOLE_LINES
from wale.resolve.buttonholes import read_buttonholes
from wale.resolve.shapes import Line, Shape
from wale.resolve.workshop import Workshop
from wale.spec import Piece

HANDS: dict[str, Literal["left", "right"]] = {"left half": "left", "right half": "right"}
MIRRORED = "mirrored"
HALVES = (*HANDS, MIRRORED)
"""Options of a piece's head that make it half of another, or the mirror image of a half."""
LINES = {
    "opening": Shape({"opening WIDTH": ()}),
    "front": Shape({f"front band N sts in {texture}": () for texture in BAND_LOOKS}),
    **BUTTONHOLE_LINES,
}
"""Lines that make no step of a piece and that only a half has."""
BAND_STS = (3, 40)
"""Fewest and most stitches of a front band: a buttonhole of a stitch has one at either side of it (our choice)."""
OWN = ("opening", "front", "buttonholes", "neck", "note", "knitted")
"""Lines that a half may have of its own; all else is that of the whole piece."""
OWN_MIRRORED = ("buttonholes", "note", "knitted")
"""Lines that the mirror image of a half may have of its own."""


def read_half(
    shop: Workshop, block: Block, head: Line, base: Piece | None, lines: list[Line]
) -> Half | Literal[False] | None:
    """Give what makes a piece a half, None where nothing does, or False after reporting what is wrong."""
    asked = [option for option in HALVES if option in head.options]
    opening, front, buttons = (next((line for line in lines if line.keyword == word), None) for word in LINES)
    if not asked:
        if base is not None and base.half is not None:
            return _refused(shop, "E515", "a piece made as a half is its mirror image", head, "Add `, mirrored` to it.")
        strange = opening or front or buttons
        if strange is not None:
            help = "Make the piece a half, such as `piece left-front, as back, left half`, or leave this line out."
            message = "an `opening` lies between two halves of a piece"
            if strange is not opening:
                message = f"a `{strange.keyword}` line belongs to a half of a piece, which has a front edge"
            return _refused(shop, "E517", message, strange, help)
        return None
    if len(asked) > 1:
        return _refused(shop, "E515", "a piece is one half, or the mirror image of one", head, "Leave one option out.")
    if "as PIECE" in head.options and base is None:
        return False
    own = OWN_MIRRORED if asked[0] == MIRRORED else OWN
    strange = next((line for line in lines if line.keyword not in own), None)
    if strange is not None:
        words = ", ".join(f"`{word}`" for word in own)
        message = f"a `{strange.keyword}` line is none of a half piece's own: both halves have those of the whole piece"
        help = f"Of its own it may have {words}. Write the line in the whole piece, or give this piece no half."
        return _refused(shop, "E516", message, strange, help)
    if asked[0] == MIRRORED:
        if base is None or base.half is None:
            help = "Write `piece right-front, as left-front, mirrored`, the other one being `as back, left half`."
            return _refused(shop, "E515", "only a half piece has a mirror image that is another piece", head, help)
        mirrored = replace(base.half, hand="right" if base.half.hand == "left" else "left", span=head.span, holes=None)
        return _buttoned(shop, mirrored, buttons)
    if base is None or base.half is not None or base.in_round:
        help = f"Write `as back, {asked[0]}` with a piece `back` that is worked flat."
        return _refused(shop, "E515", "a half is made as a whole piece that is worked flat", head, help)
    name = head.head.name("NAME").text
    if front is not None:
        if opening is not None:
            message = "a band that is worked along fills the opening itself, so there is none to write"
            return _refused(shop, "E517", message, opening, "Leave out the `opening` line, or the `front band` line.")
        band = _front_band(shop, front)
        if band is None:
            return False
        half = Half(HANDS[asked[0]], base.name, name, _overlap(shop, base, band, front), head.span, band)
        return _buttoned(shop, half, buttons)
    if opening is None:
        shop.context.missing(block, "an `opening` line, or a `front band` line", "opening 2.5 cm")
        return False
    gap = shop.known(shop.names.scope.measure(opening.head.value("WIDTH"), "length", least="zero"))
    return (
        _buttoned(shop, Half(HANDS[asked[0]], base.name, name, gap, head.span), buttons) if gap is not None else False
    )


def _front_band(shop: Workshop, line: Line) -> FrontBand | None:
    """Read a band that is worked along with a half."""
    stitches = whole(shop.context, line.head.number("N"))
    if stitches is None:
        return None
    if not BAND_STS[0] <= stitches <= BAND_STS[1]:
        message = f"a front band has {BAND_STS[0]} to {BAND_STS[1]} sts"
        help = "5 to 12 sts are usual; a wider one is picked up in a `band` block."
        shop.context.report("E223", message, line.span, f"{stitches} sts", help)
        return None
    return FrontBand(stitches, line.form.split()[-1], line.span)


def _overlap(shop: Workshop, base: Piece, band: FrontBand, line: Line) -> Measure:
    """Give the opening of halves whose bands lie on each other: less than 0 by the width of a band.

    The width is reckoned at the gauge of the last fabric of the whole piece, where the bust is.
    """
    named = [step.action.swatch for step in base.steps if isinstance(step.action, CastOn | Fabric)]
    wide = band.stitches / shop.swatches[named[-1]].washed.stitches
    term = Constant(tuple(Fraction(-wide) for _ in shop.names.scope.names))
    return Measure(term, "length", line.span, f"-{band.stitches} sts of the band")


def _buttoned(shop: Workshop, half: Half, line: Line | None) -> Half | Literal[False]:
    """Give a half its buttonholes, where it has a band for them."""
    if line is None:
        return half
    if half.band is None:
        message = f"the {half.hand} half has no front band to button"
        help = "Write `front band 8 sts in garter`, or these buttonholes in the `band` block that is picked up."
        return _refused(shop, "E518", message, line, help)
    holes = read_buttonholes(shop, line)
    if holes is None:
        return False
    if half.band.stitches < holes.each + 2:
        message = (
            f"a buttonhole of {holes.each} sts leaves no stitch at each side in a band of {half.band.stitches} sts"
        )
        return _refused(shop, "E518", message, line, "Write a wider band, or smaller buttonholes.")
    return replace(half, holes=holes)


def _refused(shop: Workshop, code: str, message: str, line: Line, help: str) -> Literal[False]:
    shop.context.report(code, message, line.span, "here", help)
    return False
