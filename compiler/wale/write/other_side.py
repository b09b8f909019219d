"""Names of pieces and bands that name a side, in a pattern for the left hand: `left-front` is printed `right-front`.

Seen in a mirror a cardigan's left front is worn at the right. Its address stays the file's, so that reasons are found.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TypeVar, cast

from msgspec import Struct
from msgspec.structs import replace

from wale.pattern import Paragraph
from wale.spec import Spec

SIDES = {"left": "right", "right": "left"}
NOTE = "Note (not proven):"
"""How an author's note begins, which stays as it was written."""
_KEPT = ("id", "address")
"""What is no printed text."""
Printed = TypeVar("Printed")


def other_side(name: str) -> str:
    """Give a name with its words `left` and `right` exchanged."""
    return "-".join(SIDES.get(word, word) for word in name.split("-"))


def exchanged(spec: Spec) -> dict[str, str]:
    """Give the names of pieces and bands that name a side, each with the one that is printed."""
    names = [*(piece.name for piece in spec.pieces), *(band.name for band in spec.bands)]
    return {name: other_side(name) for name in names if other_side(name) != name}


def renamed(printed: Printed, names: Mapping[str, str]) -> Printed:
    """Give a part of a document, or parts, with such names exchanged; addresses (`left-front.neck`) keep theirs."""
    if not names:
        return printed
    every = "|".join(map(re.escape, sorted({one for pair in names.items() for one in pair})))
    pattern = re.compile(rf"(?<![\w.-])(?:{every})(?![\w-]|\.\w)", re.IGNORECASE)
    return cast(Printed, _renamed(printed, pattern))


def _renamed(value: object, pattern: re.Pattern[str]) -> object:
    """Exchange names in a text, or in all texts of a record."""
    match value:
        case str():
            return pattern.sub(_other, value)
        case tuple() if value and not isinstance(value[0], int | float):
            return tuple(_renamed(one, pattern) for one in value)
        case Paragraph() if NOTE in value.text or NOTE in value.strong:
            return value
        case Struct():
            fields = {name: getattr(value, name) for name in value.__struct_fields__ if name not in _KEPT}
            return replace(value, **{name: _renamed(one, pattern) for name, one in fields.items()})
        case _:
            return value


def _other(found: re.Match[str]) -> str:
    name = other_side(found[0].lower())
    return name.capitalize() if found[0][0].isupper() else name
