"""What a length or a count is wished to be, for every size.

Lengths are cm, exact; a `Span` is where it was asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.source import Span

Dimension = Literal["length", "stitches", "rows", "number"]
Operation = Literal["+", "-", "*", "/", "min", "max"]

MOST_CM = 1000
"""Largest length in cm, of one line or of a whole piece: nothing in a garment is larger."""


class Constant(Struct, frozen=True):
    """Known before solving: one value a size (cm, or a count)."""

    values: tuple[Fraction, ...]


class Solved(Struct, frozen=True):
    """A value that the solver gives: `back.bust` is the finished width of that level in cm."""

    address: str
    span: Span


class Combine(Struct, frozen=True):
    """Two terms and an operation; folded to `Constant` by `resolve` where both sides are known."""

    op: Operation
    left: Term
    right: Term


Term = Constant | Solved | Combine


class Measure(Struct, frozen=True):
    """A wished length or an exact count, for every size.

    Attributes:
        words: the text in the file, for formulas in print.
        inputs: spans of the lines that its value comes from (lets, sizes, ease), itself first.
        names: measures named in it, in order (`("bust",)` for `bust/2`); levels take their name from the first.
    """

    term: Term
    dimension: Dimension
    span: Span
    words: str
    inputs: tuple[Span, ...] = ()
    names: tuple[str, ...] = ()

    @property
    def is_count(self) -> bool:
        """Whether it was written as stitches or rows and is kept exactly."""
        return self.dimension in ("stitches", "rows")

    def waits_for(self) -> tuple[str, ...]:
        """Addresses of solved values in it."""
        return tuple(dict.fromkeys(_addresses(self.term)))

    def at(self, size: int, solved: Mapping[str, Fraction] | None = None) -> Fraction:
        """Give its value for a size.

        Raises:
            KeyError: a solved value that it waits for is not in `solved`.
        """
        return _value(self.term, size, solved or {})


def _addresses(term: Term) -> list[str]:
    if isinstance(term, Solved):
        return [term.address]
    if isinstance(term, Combine):
        return _addresses(term.left) + _addresses(term.right)
    return []


def _value(term: Term, size: int, solved: Mapping[str, Fraction]) -> Fraction:
    if isinstance(term, Constant):
        return term.values[size]
    if isinstance(term, Solved):
        return solved[term.address]
    return calculate(term.op, _value(term.left, size, solved), _value(term.right, size, solved))


def calculate(op: Operation, left: Fraction, right: Fraction) -> Fraction:
    """Give the result of one operation on exact numbers; the divisor is known not to be 0."""
    match op:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case "/":
            return left / right
        case "min":
            return min(left, right)
        case "max":
            return max(left, right)
