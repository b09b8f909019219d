"""Half pieces: `piece left-front, as back, left half`, and their mirror images."""

from __future__ import annotations

from typing import Literal

from msgspec.structs import replace

from wale.actions import Half
from wale.parse.tree import Block
from wale.resolve.shapes import Line
from wale.resolve.workshop import Workshop
from wale.spec import Piece

HANDS: dict[str, Literal["left", "right"]] = {"left half": "left", "right half": "right"}
MIRRORED = "mirrored"
HALVES = (*HANDS, MIRRORED)
"""Options of a piece's head that make it half of another, or the mirror image of a half."""
OWN = ("opening", "neck", "note", "knitted")
"""Lines that a half may have of its own; all else is that of the whole piece."""
OWN_MIRRORED = ("note", "knitted")
"""Lines that the mirror image of a half may have of its own."""


def read_half(
    shop: Workshop, block: Block, head: Line, base: Piece | None, lines: list[Line]
) -> Half | Literal[False] | None:
    """Give what makes a piece a half, None where nothing does, or False after reporting what is wrong."""
    asked = [option for option in HALVES if option in head.options]
    opening = next((line for line in lines if line.keyword == "opening"), None)
    if not asked:
        if base is not None and base.half is not None:
            return _refused(shop, "E515", "a piece made as a half is its mirror image", head, "Add `, mirrored` to it.")
        if opening is not None:
            help = "Make the piece a half, such as `piece left-front, as back, left half`, or leave this line out."
            return _refused(shop, "E517", "an `opening` lies between two halves of a piece", opening, help)
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
        return replace(base.half, hand="right" if base.half.hand == "left" else "left", span=head.span)
    if base is None or base.half is not None or base.in_round:
        help = f"Write `as back, {asked[0]}` with a piece `back` that is worked flat."
        return _refused(shop, "E515", "a half is made as a whole piece that is worked flat", head, help)
    if opening is None:
        shop.context.missing(block, "an `opening` line", "opening 2.5 cm")
        return False
    gap = shop.known(shop.names.scope.measure(opening.head.value("WIDTH"), "length", least="zero"))
    name = head.head.name("NAME").text
    return Half(HANDS[asked[0]], base.name, name, gap, head.span) if gap is not None else False


def _refused(shop: Workshop, code: str, message: str, line: Line, help: str) -> Literal[False]:
    shop.context.report(code, message, line.span, "here", help)
    return False
