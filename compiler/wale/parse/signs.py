"""Control characters that no line may hold, wherever they hide.

Bidirectional controls can make a line look other than it is read; NUL and its like have no business in a text.
Source: Unicode Technical Standard 55, "Unicode Source Code Handling", section 3 (from memory).
"""

from __future__ import annotations

import re
import unicodedata

from wale.problems.problem import Edit, Fix, Label, Problem
from wale.source import Source, Span

_REFUSED = re.compile(
    "[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f-\\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]|\\r(?!\\n|$)"
)
_LABELLED = 5


def refused(source: Source) -> tuple[list[Problem], list[int]]:
    """Give one problem for each line that holds refused characters, and the offsets of all of them."""
    offsets = [match.start() for match in _REFUSED.finditer(source.text)]
    lines: dict[int, list[int]] = {}
    for offset in offsets:
        lines.setdefault(source.place(offset)[0], []).append(offset)
    return [_problem(source, found) for found in lines.values()], offsets


def _problem(source: Source, offsets: list[int]) -> Problem:
    spans = [Span(source.name, offset, offset + 1) for offset in offsets]
    names = [_name(source.text[offset]) for offset in offsets[:_LABELLED]]
    more = f" and {len(offsets) - 1} more" if len(offsets) > 1 else ""
    return Problem(
        "E110",
        f"the line holds a hidden control character, {names[0]}{more}",
        tuple(Label(span, name) for span, name in zip(spans, names, strict=False)),
        help="Take it out: it can make a line look other than it is read.",
        fixes=(Fix("take hidden characters out", tuple(Edit(span, "") for span in spans), "unsafe"),),
    )


def _name(sign: str) -> str:
    name = unicodedata.name(sign, "")
    return f"U+{ord(sign):04X}" + (f" {name.lower()}" if name else "")
