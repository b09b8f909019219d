"""The grammar of a line, built once per process when the first line is parsed."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lark import Lark


@cache
def line_parser() -> Lark:
    """Give the parser of one logical line."""
    from importlib.resources import files

    from lark import Lark

    grammar = (files("wale.grammar") / "wale.lark").read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", lexer="basic", maybe_placeholders=False)
