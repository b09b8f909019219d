"""Textured edges of pieces and bands: `rib`, `garter`, `seed`, `moss`, `rolled`."""

from __future__ import annotations

from wale.actions import EDGINGS, Rib, Texture
from wale.measure import Measure
from wale.resolve.amounts import NEEDLE_FORMS, needle_mm, whole
from wale.resolve.shapes import Line, Shape
from wale.resolve.workshop import Workshop

_NEEDLES = tuple(f"on {form}" for form in NEEDLE_FORMS)
_CORRUGATED = "corrugated with YARN"
_OPTIONS = {kind: ("RIB", "twisted", _CORRUGATED, *_NEEDLES) if kind == "rib" else _NEEDLES for kind in EDGINGS}
LINES = {kind: Shape({f"{kind} DEPTH": options}, once=False) for kind, options in _OPTIONS.items()}
HOOD = "DEPTH deep"
IN_FRONT = "DEPTH in front"
OPEN = "open in front"
OVERLAP = "overlap N sts"
BAND_LINES: dict[str, Shape] = {
    **{kind: Shape({f"{kind} DEPTH": (*options, "mitred", "folded", OPEN)}) for kind, options in _OPTIONS.items()},
    "hood": Shape({"hood WIDTH wide": (HOOD, OVERLAP)}),
    "shawl": Shape({"shawl collar DEPTH": (IN_FRONT, "RIB", "garter", *_NEEDLES)}),
}
CORD = "bind off with a cord of N sts"
CORDS = (2, 6)
"""Fewest and most stitches of a cord; common practice, no source."""
_REPEATS = {"garter": (1, 0), "seed": (1, 1), "moss": (1, 1), "rolled": (1, 0)}
"""Knit and purl stitches of a repeat across of each texture but the rib's, whose line says them."""


def read_edging(shop: Workshop, line: Line, in_round: bool = True) -> Rib | None:
    """Give an edging with its stitches and needle."""
    depth = shop.length(line, "DEPTH")
    if line.keyword in _REPEATS:
        knit, purl = _REPEATS[line.keyword]
    elif "RIB" in line.options:
        knit, purl = (int(part) for part in line.options["RIB"].text("RIB").split("x"))
    else:
        shop.context.report(
            "E206",
            "this `rib` line does not say which rib",
            line.span,
            "1x1, 2x2?",
            f"Write `{shop.context.cut(line.span)}, 2x2`.",
        )
        return None
    needles = [match for form, match in line.options.items() if form.startswith("on ")]
    if len(needles) > 1:
        shop.context.report("E205", "two needles stand in one line", needles[1].span, "the second one")
        return None
    needle = needle_mm(shop.context, needles[0]) if needles else None
    purls = shop.yarn(line.options[_CORRUGATED].name("YARN")) if _CORRUGATED in line.options else None
    if depth is None or (needles and needle is None) or (_CORRUGATED in line.options and purls is None):
        return None
    kind: Texture = line.keyword  # type: ignore[assignment]
    return Rib(depth, knit, purl, needle, line.span, kind, "twisted" in line.options, purls)


def read_hood(shop: Workshop, line: Line) -> tuple[Rib, Measure] | None:
    """Give a hood as plain rows, and its width, or None after reporting what is wrong."""
    if HOOD not in line.options:
        help = f"Write `{shop.context.cut(line.head.span)}, 32 cm deep`."
        shop.context.report("E206", "this `hood` line does not say how deep the hood is", line.span, "how deep?", help)
        return None
    width = shop.known(shop.width(line))
    depth = shop.known(shop.names.scope.measure(line.options[HOOD].value("DEPTH"), "length", "rows"))
    return (Rib(depth, 1, 0, None, line.span, "rolled"), width) if width and depth else None


def read_collar(shop: Workshop, line: Line) -> tuple[Rib, Measure | None] | None:
    """Give a shawl collar as an edging as deep as it is behind, and its depth in front where the line says it."""
    depth, options = shop.known(shop.length(line, "DEPTH")), line.options
    if ("RIB" in options) == ("garter" in options):
        is_double = "RIB" in options
        told = "two of them" if is_double else "garter, 1x1?"
        help = (
            "Leave one of them out."
            if is_double
            else f"Write `{shop.context.cut(line.span)}, garter`, or a rib, `1x1`."
        )
        message = "this `shawl collar` line does not say in which one stitch the collar is worked"
        shop.context.report("E206", message, line.span, told, help)
        return None
    needles = [match for form, match in options.items() if form.startswith("on ")]
    if len(needles) > 1:
        shop.context.report("E205", "two needles stand in one line", needles[1].span, "the second one")
        return None
    needle = needle_mm(shop.context, needles[0]) if needles else None
    front = None
    if IN_FRONT in options:
        front = shop.known(shop.names.scope.measure(options[IN_FRONT].value("DEPTH"), "length", "rows"))
    if depth is None or (needles and needle is None) or (IN_FRONT in options and front is None):
        return None
    if "garter" in options:
        return Rib(depth, *_REPEATS["garter"], needle, line.span, "garter"), front
    knit, purl = (int(part) for part in options["RIB"].text("RIB").split("x"))
    return Rib(depth, knit, purl, needle, line.span), front


def read_cord(shop: Workshop, line: Line) -> int:
    """Give the stitches of the cord with which a line binds off, 0 after reporting what is wrong."""
    number = line.head.number("N")
    count = whole(shop.context, number)
    if count is None:
        return 0
    if not CORDS[0] <= count <= CORDS[1]:
        help = f"A cord has {CORDS[0]} to {CORDS[1]} stitches; 3 are usual."
        shop.context.report("E223", f"a cord of {count} stitches is none", number.span, "beyond the bounds", help)
        return 0
    return count
