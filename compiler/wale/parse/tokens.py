"""What the grammar's terminals are called in a knitter's words."""

from __future__ import annotations

from collections.abc import Iterable

MEASURE = "a measure or a number"

# In the order in which a list of what fits is read aloud; terminals with one name are said once.
_NAMES = {
    "WORD": MEASURE,
    "NUMBER": MEASURE,
    "RATIO": MEASURE,
    "CALL": MEASURE,
    "LPAR": MEASURE,
    "NEG": MEASURE,
    "SMALL": "a small word such as `in` or `over`",
    "TEXT": "a text in quotes",
    "COLOUR": "a colour",
    "BARS": "cells between bars",
    "EQUALS": "`=`",
    "RPAR": "`)`",
    "PLUS": "a sign such as `+` or `/`",
    "MINUS": "a sign such as `+` or `/`",
    "STAR": "a sign such as `+` or `/`",
    "SLASH": "a sign such as `+` or `/`",
    "COMMA": "a comma",
    "$END": "the end of the line",
}


def fitting(terminals: Iterable[str]) -> str:
    """Say what may stand at a place, e.g. "a comma or `)`".

    Args:
        terminals: names of the grammar's terminals, in any order.

    Returns:
        Words in a fixed order; where a whole new item may start, the list is cut to the kinds of item.
    """
    allowed = set(terminals)
    names = list(dict.fromkeys(name for terminal, name in _NAMES.items() if terminal in allowed))
    if "a text in quotes" in names:
        names = [MEASURE, "a small word such as `in` or `over`", "a text in quotes"]
    return " or ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))
