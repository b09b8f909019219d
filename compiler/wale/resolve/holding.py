"""The lines by which pieces go on into one another: stitches that are held, and a piece that begins with them."""

from __future__ import annotations

from wale.actions import Hold, Joining
from wale.resolve.shapes import Line, Shape
from wale.resolve.workshop import Workshop

_UNDERARM = "underarm WIDTH"
LINES = {
    "hold": Shape({"hold": (_UNDERARM,)}),
    "join": Shape({"join PIECE1 with PIECE2 in SWATCH": ()}),
}


def read_hold(shop: Workshop, line: Line, in_round: bool) -> Hold | None:
    """Give stitches that are held."""
    if _UNDERARM not in line.options:
        shop.context.report(
            "E206",
            "this `hold` line does not say how wide the underarm is",
            line.span,
            "how wide?",
            "Write `hold, underarm 4 cm`: those stitches are grafted, the others go into the next piece.",
        )
        return None
    underarm = shop.names.scope.measure(line.options[_UNDERARM].value("WIDTH"), "length", "stitches")
    underarm = shop.known(underarm)
    return Hold(underarm, line.span) if underarm is not None else None


def read_joining(shop: Workshop, line: Line, in_round: bool) -> Joining | None:
    """Give the beginning of a piece with the stitches of others."""
    body, sleeve = line.head.name("PIECE1"), line.head.name("PIECE2")
    known = [shop.context.knows("piece", name) for name in (body, sleeve)]
    swatch = shop.swatch(line.head.name("SWATCH"), in_round, "piece")
    if swatch is None or not all(known):
        return None
    return Joining(body.text, sleeve.text, swatch.name, line.span)
