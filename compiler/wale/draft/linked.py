"""Rules on rows that rest on stitches, as linear rules on both.

The length model takes the solved stitches for given. Where no rows suit them, the width model has to hear of it: each
such rule has here a form in which the stitches are still open. A form admits all that its rule admits, and no more.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil, floor, lcm

from msgspec import field

from wale.draft.layout import LevelDraft
from wale.draft.stating import Builder, at
from wale.measure import Combine, Constant, Measure, Solved, Term
from wale.solve.model import Rule
from wale.spec import Spec

Sum = tuple[tuple[Fraction, str], ...]


class RowBuilder(Builder):
    """Gathers the rules on rows.

    Attributes:
        levels: by address, for lengths that wait for a solved width.
        forms: for each rule that rests on stitches, linear rules on rows and stitches that say the same; none where it
            has no such form (`max` of a solved width, a crown's chart, a wish that may fall from size to size).
    """

    levels: Mapping[str, LevelDraft] = field(default_factory=dict)
    forms: dict[Rule, tuple[Rule, ...]] = field(default_factory=dict)

    def rests(self, rule: Rule, *forms: tuple[Sequence[tuple[int, str]], int | None, int | None]) -> None:
        """Note the forms of a rule: terms, lower and upper bound of each."""
        made = tuple(Rule(tuple(terms), rule.why, rule.kind, low, high, spans=rule.spans) for terms, low, high in forms)
        self.forms[rule] = tuple(dict.fromkeys((*self.forms.get(rule, ()), *made)))

    def rests_on_measure(
        self,
        rule: Rule,
        terms: Sequence[tuple[Fraction, str]],
        slack: Fraction,
        measure: Measure,
        spec: Spec,
        size: int,
    ) -> None:
        """Note the form of a rule that keeps a sum in cm within `slack` of a measure; none if it waits for no width."""
        if not measure.waits_for():
            return
        parts = linear(measure.term, size)
        if parts is None:
            self.rests(rule)
            return
        constant, factors = parts
        factored = dict((key, factor) for factor, key in terms)
        for address, factor in factors.items():
            level = self.levels[address]
            gauge, key = level.swatch.washed.stitches, at(level.key, spec, size)
            factored[key] = factored.get(key, Fraction(0)) - factor / gauge
            constant -= factor * level.taken / gauge
        self.rests(rule, whole([(f, key) for key, f in factored.items() if f], constant - slack, constant + slack))


def linear(term: Term, size: int) -> tuple[Fraction, dict[str, Fraction]] | None:
    """Give a term as a constant and factors of solved widths by address; None where it is no such sum."""
    match term:
        case Constant():
            return term.values[size], {}
        case Solved():
            return Fraction(0), {term.address: Fraction(1)}
        case Combine():
            left, right = linear(term.left, size), linear(term.right, size)
            if left is None or right is None or term.op in ("min", "max"):
                return None
            if term.op in ("+", "-"):
                sign = 1 if term.op == "+" else -1
                factors = dict(left[1])
                for address, factor in right[1].items():
                    factors[address] = factors.get(address, Fraction(0)) + sign * factor
                return left[0] + sign * right[0], factors
            if term.op == "*" and left[1]:
                left, right = right, left
            if (left[1] and right[1]) or (term.op == "/" and right[1]) or (term.op == "*" and left[1]):
                return None
            if term.op == "/":
                return left[0] / right[0], {address: factor / right[0] for address, factor in left[1].items()}
            return left[0] * right[0], {address: left[0] * factor for address, factor in right[1].items()}


def whole(
    terms: Sequence[tuple[Fraction, str]], low: Fraction, high: Fraction
) -> tuple[tuple[tuple[int, str], ...], int, int]:
    """Scale a rule in cm to whole numbers."""
    scale = lcm(*(factor.denominator for factor, _ in terms))
    scaled = tuple((factor.numerator * (scale // factor.denominator), key) for factor, key in terms)
    return scaled, ceil(low * scale), floor(high * scale)
