"""Formulas of body measures that are reckoned: estimates from the bust, and what follows from other measures.

Each is read from the rule that the measure's source tells, and taken only where it gives the measure.
"""

from __future__ import annotations

import re
from fractions import Fraction

from wale.explain.book import Book, show
from wale.explain.reason import Input
from wale.spec import BodyMeasure, Size

_LINE = re.compile(r"bust × (?P<factor>[\d.]+)(?: \+ (?P<constant>[\d.]+) cm)?;")
_NECK = re.compile(
    r"(?P<name>[a-z-]+) (?P<rule>/ 3\.1416 \+ 6 cm|× 0\.45), kept within (?P<least>\d+)-(?P<most>\d+) cm"
)
_SUM = re.compile(r"(?P<one>[a-z-]+) \+ (?P<two>[a-z-]+);")
PI = Fraction(355, 113)


def formula(size: Size, value: Fraction, name: str, source: str) -> tuple[str, dict[str, Input]]:
    """Give the template and inputs that a measure of a body follows from; the figure itself where it is published."""
    for template, given in _forms(size, source):
        inputs = {key: one.value for key, one in given.items()}
        if None not in inputs.values():
            return template, given
    own = size.measures.get(name)
    return "{own}", {"own": Input(f"{name}, body", value, f"{show(value)} cm", own.span if own else None, source)}


def _forms(size: Size, source: str) -> list[tuple[str, dict[str, Input]]]:
    if (line := _LINE.match(source)) is not None and "bust" in size.measures:
        given = {"bust": body_input(size, "bust"), "factor": _fixed("factor of the bust", line["factor"], source)}
        if line["constant"] is None:
            return [("{bust} * {factor}", given)]
        given["constant"] = _fixed("constant in cm", line["constant"], source)
        return [("{bust} * {factor} + {constant}", given)]
    if (neck := _NECK.match(source)) is not None and neck["name"] in size.measures:
        given = {"base": body_input(size, neck["name"])}
        given |= {key: _fixed(f"{key} width in cm", neck[key], source) for key in ("least", "most")}
        if neck["rule"].startswith("×"):
            given["share"] = _fixed("share of the cross-back", "0.45", source)
            return [("min(max({base} * {share}, {least}), {most})", given)]
        given["pi"] = Input("pi", PI, "3.1416", None, "355/113")
        given["more"] = _fixed("breadth and opening in cm", "6", source)
        return [("min(max({base} / {pi} + {more}, {least}), {most})", given)]
    if (both := _SUM.match(source)) is not None and both["one"] in size.measures and both["two"] in size.measures:
        return [("{one} + {two}", {key: body_input(size, both[key]) for key in ("one", "two")})]
    return []


def _fixed(what: str, text: str, source: str) -> Input:
    return Input(what, Fraction(text), text, None, source)


def body_input(size: Size, name: str) -> Input:
    """Give a bare body measure as an input."""
    one: BodyMeasure = size.measures[name]
    return Input(f"{name}, body", one.value, "", one.span or size.span, one.source, f"cm of {name}")


def body_reasons(book: Book) -> None:
    """Tell the bare measures of each body: published, given, or reckoned from others."""
    for index in book.sizes:
        size = book.spec.sizes[index]
        for name, one in size.measures.items():
            template, given = formula(size, one.value, name, one.source if one.confidence == "estimated" else "")
            if template == "{own}":
                given = {"own": Input(f"{name}, body", one.value, "", one.span or size.span, one.source, "cm")}
            span = one.span or size.span
            book.reckon(f"body.{name}", index, one.value, "cm", template, given, spans=(span,))
