"""A model in numbers: unknowns by position, rules and costs as whole numbers, domains narrowed.

Unknown i of the model has number i; partial sums of long sums follow. The cost of an assignment is the sum of
`squares` plus `constant`, divided by `scale`; all three are exact integers over the common denominator of the wishes.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import lcm

from msgspec import Struct
from msgspec.structs import replace

from wale.solve.costs import Factor, Square
from wale.solve.domains import Linear, Narrowing, Store, Terms
from wale.solve.model import Model, Rule, Wish
from wale.solve.sums import RunningSums


class Network(Struct, frozen=True):
    """A model ready to be solved.

    Attributes:
        declared: how many numbers are unknowns of the model; the rest are partial sums.
        store: narrowed domains by number.
        rules: rules of at most three terms, definitions of partial sums included; what was asked of a single unknown is
            left out, its domain holds it.
        squares: costs of at most three terms.
        constant: cost that no unknown changes.
        scale: what integer costs are divided by.
    """

    declared: int
    store: Store
    rules: tuple[Linear, ...]
    squares: tuple[Square, ...]
    constant: int
    scale: int

    def factors(self, with_order: bool) -> list[Factor]:
        """Gather the rules and costs over more than one unknown by scope; order rules only if asked."""
        by_scope: dict[tuple[int, ...], Factor] = {}
        for rule in self.rules:
            if len(rule.terms) > 1 and (with_order or not rule.is_order):
                scope = tuple(sorted(rule.scope))
                by_scope.setdefault(scope, Factor(scope)).rules.append(rule)
        for square in self.squares:
            if len(square.terms) > 1:
                scope = tuple(sorted(number for _, number in square.terms))
                by_scope.setdefault(scope, Factor(scope)).squares.append(square)
        return list(by_scope.values())

    def order_factors(self) -> list[Factor]:
        """Give the order rules over more than one unknown, each on its own."""
        return [
            Factor(tuple(sorted(rule.scope)), [rule]) for rule in self.rules if rule.is_order and len(rule.terms) > 1
        ]


class Clash(Exception):
    """Narrowing alone shows that there is no solution; `origin` is the bit set of the rules it needed."""

    def __init__(self, origin: int) -> None:
        self.origin = origin


def build(model: Model, chosen: Iterable[int] | None = None) -> Network:
    """Number a model and narrow its domains.

    Args:
        model: unknowns, rules, wishes.
        chosen: positions of the rules to use, without any wish; None for the whole model.

    Raises:
        Clash: narrowing leaves some unknown no value.
    """
    numbers = {unknown.key: number for number, unknown in enumerate(model.unknowns)}
    positions = range(len(model.rules)) if chosen is None else chosen
    rules = [_linear(model.rules[position], 1 << position, numbers) for position in positions]
    squares, constant, scale = _squares(model.wishes if chosen is None else (), numbers)
    store = Store([range(u.lower, u.upper + 1) for u in model.unknowns], [0] * len(numbers))
    if not all(store.domains):
        raise Clash(0)
    for rule in rules:
        if not rule.terms and not rule.admits(0):
            raise Clash(rule.origin)
    # rules on one unknown first: they cut the generous bounds, blame stays with them, and they need no second look
    _narrow(store, [rule for rule in rules if len(rule.terms) == 1])
    rules = [rule for rule in rules if len(rule.terms) > 1]
    _narrow(store, rules)
    sums = RunningSums(store, [rule.terms for rule in rules] + [square.terms for square in squares])
    if sums.definitions:
        squares = [Square(sums.rewrite(square.terms), square.constant, square.weight) for square in squares]
        rules = [*sums.definitions, *(_rewritten(rule, sums) for rule in rules)]
        _narrow(store, rules, range(len(numbers), len(store.domains)))
    return Network(len(numbers), store, tuple(rules), tuple(squares), constant, scale)


def _narrow(store: Store, rules: list[Linear], changed: Iterable[int] | None = None) -> None:
    clash = Narrowing(rules, len(store.domains)).run(store, changed)
    if clash is not None:
        raise Clash(clash)


def _rewritten(rule: Linear, sums: RunningSums) -> Linear:
    terms = sums.rewrite(rule.terms)
    return rule if terms is rule.terms else replace(rule, terms=terms)


def _linear(rule: Rule, origin: int, numbers: dict[str, int]) -> Linear:
    factors: dict[int, int] = {}
    for factor, key in rule.terms:
        factors[numbers[key]] = factors.get(numbers[key], 0) + factor
    terms = tuple((factor, number) for number, factor in sorted(factors.items()) if factor)
    return Linear(terms, rule.lower, rule.upper, abs(rule.modulus), rule.residue, origin, rule.kind == "order")


def _squares(wishes: Iterable[Wish], numbers: dict[str, int]) -> tuple[list[Square], int, int]:
    """Scale wishes to whole numbers over one denominator."""
    parts: list[tuple[Terms, int, int, int]] = []
    scale = 1
    for wish in wishes:
        if wish.weight < 0:
            raise ValueError("the weight of a wish is negative")
        shared = lcm(wish.constant.denominator, *(factor.denominator for factor, _ in wish.terms))
        factors: dict[int, int] = {}
        for factor, key in wish.terms:
            whole = factor.numerator * (shared // factor.denominator)
            factors[numbers[key]] = factors.get(numbers[key], 0) + whole
        terms = tuple((factor, number) for number, factor in sorted(factors.items()) if factor)
        below = wish.weight.denominator * shared * shared
        scale = lcm(scale, below)
        parts.append(
            (terms, wish.constant.numerator * (shared // wish.constant.denominator), wish.weight.numerator, below)
        )
    squares, fixed = [], 0
    for terms, constant, weight, below in parts:
        square = Square(terms, constant, weight * (scale // below))
        if not terms:
            fixed += square.cost(0)
        elif weight:
            squares.append(square)
    return squares, fixed, scale
