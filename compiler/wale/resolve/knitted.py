"""The `knitted` lines of pieces and bands: what a test knit weighed, and how long it took."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from wale.resolve.amounts import positive
from wale.resolve.shapes import Line, Shape
from wale.resolve.workshop import Workshop
from wale.spec import Knitted

LINES = {"knitted": Shape({"knitted WEIGHT in SIZE": ("N hours",)}, once=False)}
MOST_HOURS = 10_000


def read_knitted(shop: Workshop, lines: Iterable[Line]) -> tuple[Knitted, ...] | None:
    """Give the test knits of one piece or band; None where a line is wrong."""
    found: dict[str, Knitted] = {}
    sound = True
    for line in lines:
        one = _one(shop, line)
        if one is None:
            sound = False
        elif one.size in found:
            shop.context.report(
                "E205",
                f"`knitted` stands twice for the size {one.size}",
                line.span,
                "the second one",
                "Leave one of the two out, or name the size that it was knitted in.",
                also=[(found[one.size].span, "the first one")],
            )
            sound = False
        else:
            found[one.size] = one
    return tuple(found.values()) if sound else None


def _one(shop: Workshop, line: Line) -> Knitted | None:
    context = shop.context
    grams = positive(context, line.head.number("WEIGHT"), "weight")
    item = line.head.found["SIZE"][0]
    sizing = shop.names.sizing
    size, known = context.cut(item.span), sizing.all
    if sizing.sound and size not in [one.name for one in known]:
        context.report(
            "E216",
            f"this pattern has no size `{size}`",
            item.span,
            "no such size",
            f"Its sizes: {', '.join(one.name for one in known)}.",
        )
        return None
    hours: Fraction | None = None
    if "N hours" in line.options:
        number = line.options["N hours"].number("N")
        hours = number.value
        if not 0 < hours <= MOST_HOURS:
            context.report(
                "E223",
                f"a piece takes more than 0 and at most {MOST_HOURS} hours",
                number.span,
                "beyond the bounds",
                "Check the number.",
            )
            return None
    return Knitted(size, grams[0], hours, line.span) if grams is not None else None
