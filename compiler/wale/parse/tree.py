"""The lossless tree of one file: what `parse` gives and `resolve` reads.

Generic on purpose: `keyword item* (, item+)*`. What a statement means is decided in `resolve`. Each node carries its
span; comments and blank lines belong to the statement below them, a trailing comment to its own line.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from wale.source import Source, Span


class Name(Struct, frozen=True):
    """A word: a measure, a yarn, an option, or a dotted solved value such as `back.bust`."""

    text: str
    span: Span


class Number(Struct, frozen=True):
    """An exact number with its unit word (None without one), e.g. `5 1/2 inch`, `12 sts`."""

    value: Fraction
    unit: str | None
    span: Span
    unit_span: Span | None = None


class PerSize(Struct, frozen=True):
    """`18 (19, 20, 20) cm`: one value a size, one unit for all."""

    values: tuple[Fraction, ...]
    unit: str | None
    span: Span
    value_spans: tuple[Span, ...]


class Ratio(Struct, frozen=True):
    """`2/8` without spaces, with its unit word: a pair in `count 2/8 Nm`, a fraction in arithmetic."""

    over: int
    under: int
    unit: str | None
    span: Span


class Negative(Struct, frozen=True):
    """Unary minus glued to its operand."""

    operand: Expr
    span: Span


class Binary(Struct, frozen=True):
    """Two operands and `+`, `-`, `*` or `/`."""

    op: Literal["+", "-", "*", "/"]
    left: Expr
    right: Expr
    span: Span


class Call(Struct, frozen=True):
    """`max(a, b)` or `min(a, b)`; the name is checked in `resolve`."""

    name: Name
    arguments: tuple[Expr, ...]
    span: Span


Expr = Name | Number | PerSize | Ratio | Negative | Binary | Call


class Small(Struct, frozen=True):
    """A reserved small word: in on to over at with and of per into along from as."""

    text: str
    span: Span


class Text(Struct, frozen=True):
    """A string on one line, without its quotes."""

    text: str
    span: Span


class Colour(Struct, frozen=True):
    """`#rrggbb`, lower case."""

    text: str
    span: Span


class Bars(Struct, frozen=True):
    """What stands from bar to bar, without the bars; `span` covers the inside."""

    text: str
    span: Span


class Equals(Struct, frozen=True):
    """The sign `=`."""

    span: Span


Item = Expr | Small | Text | Colour | Bars | Equals


class Trivia(Struct, frozen=True):
    """Comments and blank lines above a statement (verbatim lines), and the comment at its end.

    `inner` holds the comments that stand between the lines of a continued statement, in order.
    """

    above: tuple[str, ...] = ()
    trailing: str = ""
    inner: tuple[str, ...] = ()


class Statement(Struct, frozen=True):
    """One logical line. A motif row is a statement with an empty keyword and one `Bars` item."""

    keyword: Name
    items: tuple[Item, ...]
    options: tuple[tuple[Item, ...], ...]
    span: Span
    trivia: Trivia = field(default=Trivia())


class Block(Struct, frozen=True):
    """A block head (pattern, yarn, swatch, motif, sizes, body, piece, join, band,
    make, construction) and its indented lines."""

    head: Statement
    body: tuple[Statement, ...]
    span: Span


class Tree(Struct, frozen=True):
    """A whole file. Lines that could not be read are left out here and stand in the problems.

    `tail` holds the comments and blank lines below the last statement; `dropped` the places of what was left out.
    """

    source: Source
    edition: Statement | None
    parts: tuple[Block | Statement, ...]
    tail: tuple[str, ...] = ()
    dropped: tuple[Span, ...] = ()
