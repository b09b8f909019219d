"""The lossless tree of one file: what `parse` gives and `resolve` reads.

Generic on purpose: `keyword item* (, item+)*`. What a statement means is decided in `resolve`. Each node carries its
span; comments and blank lines belong to the statement below them, a trailing comment to its own line.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from wale.source import Source, Span


@dataclass(frozen=True, slots=True)
class Name:
    """A word: a measure, a yarn, an option, or a dotted solved value such as `back.bust`."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Number:
    """An exact number with its unit word (None without one), e.g. `5 1/2 inch`, `12 sts`."""

    value: Fraction
    unit: str | None
    span: Span
    unit_span: Span | None = None


@dataclass(frozen=True, slots=True)
class PerSize:
    """`18 (19, 20, 20) cm`: one value a size, one unit for all."""

    values: tuple[Fraction, ...]
    unit: str | None
    span: Span
    value_spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Ratio:
    """`2/8` without spaces, with its unit word: a pair in `count 2/8 Nm`, a fraction in arithmetic."""

    over: int
    under: int
    unit: str | None
    span: Span


@dataclass(frozen=True, slots=True)
class Negative:
    """Unary minus glued to its operand."""

    operand: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Binary:
    """Two operands and `+`, `-`, `*` or `/`."""

    op: Literal["+", "-", "*", "/"]
    left: Expr
    right: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Call:
    """`max(a, b)` or `min(a, b)`; the name is checked in `resolve`."""

    name: Name
    arguments: tuple[Expr, ...]
    span: Span


Expr = Name | Number | PerSize | Ratio | Negative | Binary | Call


@dataclass(frozen=True, slots=True)
class Small:
    """A reserved small word: in on to over at with and of per into along from as."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Text:
    """A string on one line, without its quotes."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Colour:
    """`#rrggbb`, lower case."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Bars:
    """What stands from bar to bar, without the bars; `span` covers the inside."""

    text: str
    span: Span


@dataclass(frozen=True, slots=True)
class Equals:
    """The sign `=`."""

    span: Span


Item = Expr | Small | Text | Colour | Bars | Equals


@dataclass(frozen=True, slots=True)
class Trivia:
    """Comments and blank lines above a statement (verbatim lines), and the comment at its end.

    `inner` holds the comments that stand between the lines of a continued statement, in order.
    """

    above: tuple[str, ...] = ()
    trailing: str = ""
    inner: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Statement:
    """One logical line. A motif row is a statement with an empty keyword and one `Bars` item."""

    keyword: Name
    items: tuple[Item, ...]
    options: tuple[tuple[Item, ...], ...]
    span: Span
    trivia: Trivia = field(default=Trivia())


@dataclass(frozen=True, slots=True)
class Block:
    """A block head (pattern, yarn, swatch, motif, sizes, body, piece, join, band) and its indented lines."""

    head: Statement
    body: tuple[Statement, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Tree:
    """A whole file. Lines that could not be read are left out here and stand in the problems.

    `tail` holds the comments and blank lines below the last statement; `dropped` the places of what was left out.
    """

    source: Source
    edition: Statement | None
    parts: tuple[Block | Statement, ...]
    tail: tuple[str, ...] = ()
    dropped: tuple[Span, ...] = ()
