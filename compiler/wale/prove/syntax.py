"""The parser of a printed line, made once per process when the first line is read.

Its tables ship beside the grammar for the one version of lark that wrote them; with any other version it is built
anew. After a change of the grammar: `python -m wale.prove.syntax > tables.tmp && mv tables.tmp
grammar/instruction_tables.py`.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lark import Lark

STARTS = ["line", "chart_row"]


@cache
def instruction_parser() -> Lark:
    """Give the parser of one instruction line or of a chart's row in words."""
    from importlib import import_module

    import lark

    tables = import_module("wale.grammar.instruction_tables")
    if lark.__version__ != tables.LARK:
        return built_parser()
    return lark.Lark.load({"data": tables.DATA, "memo": tables.MEMO})


def built_parser() -> Lark:
    """Build the parser from the grammar."""
    from lark import Lark

    return Lark(grammar_text(), parser="lalr", lexer="contextual", start=STARTS, maybe_placeholders=False)


@cache
def hand_parser() -> Lark:
    """Give the parser of a line typed in by hand."""
    from lark import Lark

    return Lark(grammar_text("rows"), parser="lalr", lexer="contextual", start=["hand"], maybe_placeholders=False)


def grammar_text(name: str = "instructions") -> str:
    """Give the text of a grammar: of `instructions`, or of `rows` typed in by hand."""
    from importlib.resources import files

    return (files("wale.grammar") / f"{name}.lark").read_text(encoding="utf-8")


def digest(grammar: str) -> str:
    """Give the mark by which tables are known to belong to a grammar."""
    from hashlib import sha256

    return sha256(grammar.encode()).hexdigest()


def tables_module() -> str:
    """Give the Python text of the module of tables for the present grammar and lark."""
    import lark
    from lark.grammar import Rule
    from lark.lexer import TerminalDef

    data, memo = built_parser().memo_serialize([TerminalDef, Rule])
    return (
        '"""Tables of `instructions.lark`, written by `python -m wale.prove.syntax`; not for editing."""\n\n'
        "# ruff: noqa\n# fmt: off\n"
        f"LARK = {lark.__version__!r}\nDIGEST = {digest(grammar_text())!r}\nDATA = {data!r}\nMEMO = {memo!r}\n"
    )


if __name__ == "__main__":
    print(tables_module(), end="")
