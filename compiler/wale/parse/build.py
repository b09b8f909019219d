"""From the grammar's raw tree of one line to nodes with exact numbers and places.

Input: lark's tree and a function that turns offsets in the line into a span. Output: a statement. A number that is none
raises `Unreadable`, which carries the problem.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from msgspec.structs import replace

from wale.parse import tree
from wale.problems.problem import Problem, problem
from wale.source import Span

Spanner = Callable[[int, int], Span]
MAX_DIGITS = 12


class Unreadable(Exception):
    """A line that parses but says no number; `problem` tells why."""

    def __init__(self, found: Problem) -> None:
        super().__init__(found.message)
        self.problem = found


def statement(raw: Any, span_of: Spanner) -> tree.Statement:
    """Build the statement of one line.

    Args:
        raw: lark's tree of the rule `start`.
        span_of: span of a half-open range of offsets in the parsed line.

    Raises:
        Unreadable: a number has too many digits or a fraction is none.
    """
    builder = _Builder(span_of)
    if raw.data == "row":
        cells = builder.item(raw.children[0])
        start = raw.children[0].start_pos
        return tree.Statement(
            tree.Name("", span_of(start, start)), (cells,), (), span_of(start, raw.children[0].end_pos)
        )
    keyword, *rest = raw.children
    items = [builder.item(child) for child in rest if getattr(child, "data", None) != "option"]
    options = tuple(
        tuple(builder.item(child) for child in option.children[1:])
        for option in rest
        if getattr(option, "data", None) == "option"
    )
    return tree.Statement(builder.name(keyword), tuple(items), options, span_of(keyword.start_pos, _end(raw)))


def _end(raw: Any) -> int:
    """Give the offset after the last token of a tree."""
    while hasattr(raw, "children"):
        raw = raw.children[-1]
    return int(raw.end_pos)


class _Builder:
    """Turns trees and tokens of one line into nodes."""

    def __init__(self, span_of: Spanner) -> None:
        self.span_of = span_of

    def token_span(self, token: Any) -> Span:
        return self.span_of(token.start_pos, token.end_pos)

    def name(self, token: Any) -> tree.Name:
        return tree.Name(str(token), self.token_span(token))

    def item(self, raw: Any) -> tree.Item:
        """Build one item of a statement or option."""
        if hasattr(raw, "data"):
            return self.expression(raw)
        span = self.token_span(raw)
        match raw.type:
            case "SMALL":
                return tree.Small(str(raw), span)
            case "TEXT":
                return tree.Text(str(raw)[1:-1], span)
            case "COLOUR":
                return tree.Colour(str(raw).lower(), span)
            case "BARS":
                return tree.Bars(str(raw)[1:-1], self.span_of(raw.start_pos + 1, raw.end_pos - 1))
            case _:
                return tree.Equals(span)

    def expression(self, raw: Any) -> tree.Expr:
        """Build a node of arithmetic."""
        parts = raw.children
        match raw.data:
            case "name":
                return self.name(parts[0])
            case "number":
                return self.number(parts[0], parts[1] if len(parts) > 1 else None)
            case "per_size":
                return self.per_size(parts)
            case "negative":
                return self.negative(parts)
            case "brackets":
                return replace(self.expression(parts[1]), span=self.span_of(parts[0].start_pos, parts[2].end_pos))
            case "call":
                opening = parts[0]
                name = tree.Name(str(opening)[:-1], self.span_of(opening.start_pos, opening.end_pos - 1))
                arguments = tuple(self.expression(part) for part in parts[1::2])
                return tree.Call(name, arguments, self.span_of(opening.start_pos, parts[-1].end_pos))
            case _:
                left, right = self.expression(parts[0]), self.expression(parts[2])
                return tree.Binary(str(parts[1]), left, right, left.span.to(right.span))  # type: ignore[arg-type]

    def number(self, plain: Any, unit: Any) -> tree.Number | tree.Ratio:
        tokens = plain.children
        end = unit if unit is not None else tokens[-1]
        span = self.span_of(tokens[0].start_pos, end.end_pos)
        word = None if unit is None else str(unit)
        value = self.value(tokens)
        if tokens[0].type == "RATIO":
            over, under = str(tokens[0]).split("/")
            return tree.Ratio(int(over), int(under), word, span)
        return tree.Number(value, word, span, None if unit is None else self.token_span(unit))

    def per_size(self, parts: list[Any]) -> tree.PerSize:
        plain, _, *rest = parts
        unit = None if rest[-1].type == "RPAR" else rest.pop()
        values, spans = [self.value(plain.children)], [self.tokens_span(plain.children)]
        for signed in rest[:-1:2]:
            tokens = [*signed.children[:-1], *signed.children[-1].children]
            values.append(self.value(tokens))
            spans.append(self.tokens_span(tokens))
        span = self.span_of(plain.children[0].start_pos, (rest[-1] if unit is None else unit).end_pos)
        return tree.PerSize(tuple(values), None if unit is None else str(unit), span, tuple(spans))

    def negative(self, parts: list[Any]) -> tree.Expr:
        sign, operand = self.token_span(parts[0]), self.expression(parts[1])
        if isinstance(operand, tree.PerSize):  # the sign belongs to the first size alone
            return replace(
                operand,
                values=(-operand.values[0], *operand.values[1:]),
                span=sign.to(operand.span),
                value_spans=(sign.to(operand.value_spans[0]), *operand.value_spans[1:]),
            )
        return tree.Negative(operand, sign.to(operand.span))

    def tokens_span(self, tokens: list[Any]) -> Span:
        return self.span_of(tokens[0].start_pos, tokens[-1].end_pos)

    def value(self, tokens: list[Any]) -> Fraction:
        """Give the exact value of `12`, `3.5`, `5 1/2`, `2/8`, each perhaps after a minus."""
        total, span = Fraction(0), self.tokens_span(tokens)
        for token in tokens:
            if any(len(part.replace(".", "")) > MAX_DIGITS for part in token.split("/")):
                raise Unreadable(
                    problem(
                        "E132",
                        f"a number has more than {MAX_DIGITS} digits",
                        self.token_span(token),
                        "too long for any knitting",
                        help="Write the number with fewer digits.",
                    )
                )
            if token.type == "RATIO" and int(token.split("/")[1]) == 0:
                raise Unreadable(
                    problem("E124", f"`{token}` divides by nothing", span, help="The lower number is 1 or more.")
                )
            if token.type != "NEG":
                total += Fraction(int(token) if token.isdecimal() else str(token))
        if tokens[0].type == "NEG":
            total = -total
        if len(tokens) > 1 and tokens[-1].type == "RATIO" and tokens[-2].type == "NUMBER":
            over, under = (int(part) for part in tokens[-1].split("/"))
            if over >= under or "." in tokens[-2]:
                raise Unreadable(
                    problem(
                        "E124",
                        f"`{tokens[-2]} {tokens[-1]}` is no whole number and part of one",
                        span,
                        "read as one number",
                        help="A mixed number is a whole number and a fraction below 1, as in `5 1/2 inch`.",
                    )
                )
        return total
