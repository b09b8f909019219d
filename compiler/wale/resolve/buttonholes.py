"""The `buttonholes` line of a band, picked up or worked along with a half piece."""

from __future__ import annotations

from wale.actions import Buttonholes
from wale.measure import Constant, Measure
from wale.resolve.amounts import whole
from wale.resolve.shapes import Line, Shape
from wale.resolve.workshop import Workshop
from wale.shaping.buttonholes import MARGIN

_HOLES, _FROM_ENDS = "buttonholes NUMBER of N sts", "first LENGTH from the ends"
LINES = {"buttonholes": Shape({_HOLES: (_FROM_ENDS,), "buttonholes NUMBER": (_FROM_ENDS,)})}
USUAL_HOLE = 2
"""Stitches of a buttonhole where the line does not say (common practice, no source)."""


def read_buttonholes(shop: Workshop, line: Line) -> Buttonholes | None:
    """Read how many buttonholes a band has, how wide, and where the outer ones lie."""
    context = shop.context
    number = whole(context, line.head.number("NUMBER"))
    each = whole(context, line.head.number("N")) if line.form == _HOLES else USUAL_HOLE
    if _FROM_ENDS in line.options:
        first = shop.known(shop.names.scope.measure(line.options[_FROM_ENDS].value("LENGTH"), "length"))
    else:
        usual = Constant(tuple(MARGIN for _ in shop.names.scope.names))
        first = Measure(usual, "length", line.span, "half an inch")
        context.assume(
            "The first and last buttonhole lie {} from the ends of the band; `first 2 cm from the ends` changes it.",
            "half an inch, https://slippedstitches.wordpress.com/tag/buttonholes/",
            line.span,
            (MARGIN,),
        )
    if number is None or each is None or first is None:
        return None
    if number > 100 or not 2 <= each <= 20:
        context.report(
            "E518", "a band has 1 to 100 buttonholes of 2 to 20 sts", line.span, "beyond the bounds",
            "2 or 3 sts are usual for a small button.",
        )  # fmt: skip
        return None
    return Buttonholes(number, each, first, line.span)
