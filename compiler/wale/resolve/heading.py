"""The `pattern` block: title, version, units, paper, tolerances, and the files to use."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from wale.measure import Dimension
from wale.parse.tree import Block, Text
from wale.resolve.amounts import positive
from wale.resolve.context import Context
from wale.resolve.shapes import Line, Shape
from wale.source import Span

HEAD = {"pattern": Shape({"pattern TEXT": ()})}
LINES = {
    "about": Shape({"about TEXT": ()}),
    "version": Shape({"version TEXT": (), "version NUMBER": ()}),
    "changes": Shape({"changes TEXT": ()}, once=False),
    "units": Shape({"units cm": (), "units inch": ()}),
    "paper": Shape({"paper A4": (), "paper letter": ()}),
    "use": Shape({"use TEXT": ()}, once=False),
    "tolerance": Shape({"tolerance lengths AMOUNT": (), "tolerance AMOUNT": ()}, once=False),
    "floats": Shape({"floats AMOUNT": ()}),
    "prefer": Shape({"prefer NAME NUMBER": ()}, once=False),
}


class Heading(Struct):
    """What the `pattern` block says."""

    title: str
    span: Span
    about: str = ""
    units: Literal["cm", "inch"] = "cm"
    paper: Literal["A4", "letter"] = "A4"
    used: list[Text] = field(default_factory=list)
    width_tolerance: Fraction | None = None
    length_tolerance: Fraction | None = None
    float_limit: tuple[Fraction, Dimension] | None = None
    preferences: dict[str, tuple[Fraction, Span]] = field(default_factory=dict)
    version: str = ""
    changes: list[str] = field(default_factory=list)


def read_heading(context: Context, block: Block) -> Heading | None:
    """Read the `pattern` block."""
    head = context.read(block.head, HEAD, "a file")
    lines, _ = context.read_body(block, LINES, "a `pattern` block")
    heading = Heading(head.head.text("TEXT") if head else "", block.head.span)
    first: dict[str, Line] = {}
    for line in (line for group in lines.values() for line in group):
        _take(context, heading, line, first.setdefault(line.form, line))
    wanted = [statement for statement in block.body if statement.keyword.text == "use"]
    unknown = [statement for statement in block.body if statement.keyword.text not in LINES]
    if context.is_damaged(block) or unknown or len(heading.used) < len(wanted):
        context.any_lost = True  # a file may have been meant that lends names
    return heading if head else None


def _take(context: Context, heading: Heading, line: Line, first: Line) -> None:
    match line.form:
        case "about TEXT":
            heading.about = line.head.text("TEXT")
        case "version TEXT":
            heading.version = line.head.text("TEXT")
        case "version NUMBER":
            number = line.head.number("NUMBER")
            positive(context, number, "number")
            heading.version = context.cut(number.span)
        case "changes TEXT":
            heading.changes.append(line.head.text("TEXT"))
        case "units inch":
            heading.units = "inch"
        case "paper letter":
            heading.paper = "letter"
        case "use TEXT":
            text = line.head.found["TEXT"][0]
            assert isinstance(text, Text)
            heading.used.append(text)
        case "tolerance AMOUNT":
            heading.width_tolerance = _tolerance(context, line, first)
        case "tolerance lengths AMOUNT":
            heading.length_tolerance = _tolerance(context, line, first)
        case "floats AMOUNT":
            found = positive(context, line.head.number("AMOUNT"), "length", "stitches")
            if found:
                kind: Dimension = "length" if found[1] == "length" else "stitches"
                heading.float_limit = (found[0], kind)
        case "prefer NAME NUMBER":
            _prefer(context, heading, line)


def _prefer(context: Context, heading: Heading, line: Line) -> None:
    name = line.head.name("NAME")
    found = positive(context, line.head.number("NUMBER"), "number")
    if name.text in heading.preferences:
        context.report(
            "E205",
            f"`{name.text}` is preferred twice",
            name.span,
            "the second time",
            "Keep one of the lines.",
            also=[(heading.preferences[name.text][1], "the first time")],
        )
    elif found:
        heading.preferences[name.text] = (found[0], name.span)


def _tolerance(context: Context, line: Line, first: Line) -> Fraction | None:
    if line is not first:
        context.twice(line, first)
        return None
    found = positive(context, line.head.number("AMOUNT"), "length")
    return found[0] if found else None
