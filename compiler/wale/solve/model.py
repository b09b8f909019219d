"""What the solver is told: whole-number unknowns, rules that hold, and wishes that cost.

Everything is exact: integers and Fractions, no floats. A construction adds unknowns, rules and wishes; it never rounds.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from wale.source import Span


class Unknown(Struct, frozen=True):
    """A count of stitches or rows, e.g. `back.bust@M`, within generous bounds (both included)."""

    key: str
    lower: int
    upper: int


class Rule(Struct, frozen=True):
    """A hard constraint: lower <= sum(factor * unknown) <= upper, and that sum = residue (mod modulus).

    Attributes:
        terms: (factor, key) pairs, one or more, keys different.
        why: the rule in knitting words, for a problem report ("whole repeats of 12 sts, balance 1, 2 edge sts").
        spans: lines of the spec that ask for it.
        kind: a word that ways out go by: "tolerance", "repeat", "parity", "join", "order", "shaping", "exact", ...
    """

    terms: tuple[tuple[int, str], ...]
    why: str
    kind: str
    lower: int | None = None
    upper: int | None = None
    modulus: int = 1
    residue: int = 0
    spans: tuple[Span, ...] = ()

    def holds(self, values: Mapping[str, int]) -> bool:
        """Say whether the rule holds for a full assignment."""
        total = sum(factor * values[key] for factor, key in self.terms)
        return (
            (self.lower is None or total >= self.lower)
            and (self.upper is None or total <= self.upper)
            and (total - self.residue) % self.modulus == 0
        )


class Wish(Struct, frozen=True):
    """A soft wish: costs weight * (sum(factor * unknown) + constant)**2."""

    terms: tuple[tuple[Fraction, str], ...]
    constant: Fraction
    weight: Fraction = Fraction(1)

    def cost(self, values: Mapping[str, int]) -> Fraction:
        """Give the exact cost of a full assignment."""
        miss = sum((factor * values[key] for factor, key in self.terms), self.constant)
        return self.weight * miss * miss


class Model(Struct, frozen=True):
    """Unknowns in declaration order (the last tie-break), rules and wishes."""

    unknowns: tuple[Unknown, ...]
    rules: tuple[Rule, ...]
    wishes: tuple[Wish, ...]


class Solution(Struct, frozen=True):
    """The cheapest assignment; between equals the smallest in declaration order."""

    values: Mapping[str, int]
    cost: Fraction


class Conflict(Struct, frozen=True):
    """A smallest set of rules that cannot hold together: dropping any one makes the rest solvable."""

    rules: tuple[Rule, ...] = ()
