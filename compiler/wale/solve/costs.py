"""Tables of costs over a few unknowns: written out from rules and wishes, added up, an unknown minimised away.

A table lists the assignments of its scope that are possible, each with its cost (a whole number, >= 0).
All functions take a limit and leave out rows that are dearer.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from itertools import product
from operator import itemgetter
from typing import Any

from msgspec import Struct, field

from wale.solve.domains import Domain, Linear, Terms, components

Key = tuple[int, ...]


class Square(Struct, frozen=True):
    """A cost weight * (sum(factor * x) + constant)**2, all whole numbers, weight >= 0."""

    terms: Terms
    constant: int
    weight: int

    def cost(self, total: int) -> int:
        """Give the cost where the sum is `total`."""
        miss = total + self.constant
        return self.weight * miss * miss

    def total(self, values: Mapping[int, int]) -> int:
        """Give the cost of an assignment."""
        return self.cost(sum(factor * values[number] for factor, number in self.terms))


class Factor(Struct):
    """All rules and squares over the same unknowns.

    Attributes:
        scope: numbers of the unknowns, ascending.
        rules: rules over exactly these.
        squares: costs over exactly these.
        origin: bit set of the model's rules behind it.
    """

    scope: tuple[int, ...]
    rules: list[Linear] = field(default_factory=list)
    squares: list[Square] = field(default_factory=list)

    @property
    def origin(self) -> int:
        """Bit set of the model's rules behind it."""
        origin = 0
        for rule in self.rules:
            origin |= rule.origin
        return origin

    def cost(self, values: Mapping[int, int]) -> int | None:
        """Give the cost of an assignment, None where a rule is broken."""
        for rule in self.rules:
            if not rule.admits(sum(factor * values[number] for factor, number in rule.terms)):
                return None
        return sum(square.total(values) for square in self.squares)


class Table(Struct, eq=False):
    """Costs of the assignments of `scope` that are possible; what is missing is not. `least` is the lowest of them."""

    scope: tuple[int, ...]
    rows: dict[Key, int]
    origin: int
    least: int = 0


class Group(Struct, frozen=True):
    """A group of unknowns to be solved together.

    Attributes:
        numbers: the unknowns.
        domains: sorted values by number.
        prices: cost of each value by number, >= 0.
        factors: rules and costs that tie the unknowns.
        reasons: by number, bit set of the rules that narrowed its domain.
    """

    numbers: Sequence[int]
    domains: Mapping[int, Domain]
    prices: Mapping[int, Mapping[int, int]]
    factors: Sequence[Factor]
    reasons: Mapping[int, int]


def gather(factors: Sequence[Factor], numbers: Iterable[int]) -> list[tuple[list[int], list[Factor]]]:
    """Cut into groups that no factor ties together: numbers and factors of each."""
    groups = components([factor.scope for factor in factors], numbers)
    place = {number: which for which, members in enumerate(groups) for number in members}
    gathered: list[list[Factor]] = [[] for _ in groups]
    for factor in factors:
        gathered[place[factor.scope[0]]].append(factor)
    return list(zip(groups, gathered, strict=True))


def tabulate(factor: Factor, group: Group, limit: int) -> Table:
    """Write out a factor; prices of values only help to drop rows, they are not part of the costs."""
    *heads, last = sorted(factor.scope, key=lambda number: (len(group.domains[number]), number))
    scope = (*heads, last)
    rules = [(rule, dict((n, f) for f, n in rule.terms)) for rule in factor.rules]
    bounded = [
        (rule, [by[n] for n in heads], by[last])
        for rule, by in rules
        if rule.lower is not None or rule.upper is not None
    ]
    residues = [(rule, [by[n] for n in heads], by[last]) for rule, by in rules if rule.modulus > 1]
    squares = [
        (square, [by[n] for n in heads], by[last])
        for square in factor.squares
        for by in [dict((n, f) for f, n in square.terms)]
    ]
    domain = group.domains[last]
    last_prices = group.prices[last]
    head_prices = [group.prices[number] for number in heads]
    rows: dict[Key, int] = {}
    for head in product(*(group.domains[number] for number in heads)):
        spent = 0
        for price, value in zip(head_prices, head, strict=True):
            spent += price[value]
        if spent > limit:
            continue
        start, stop = 0, len(domain)
        for rule, factors, own in bounded:
            total = sum(map(int.__mul__, factors, head))
            low = None if rule.lower is None else rule.lower - total
            high = None if rule.upper is None else rule.upper - total
            if own < 0:
                low, high, own = None if high is None else -high, None if low is None else -low, -own
            if low is not None:
                start = max(start, bisect_left(domain, -(-low // own)))
            if high is not None:
                stop = min(stop, bisect_right(domain, high // own))
        if start >= stop:
            continue
        values: Sequence[int] = domain[start:stop]
        for rule, factors, own in residues:
            want = rule.residue - sum(map(int.__mul__, factors, head))
            values = [value for value in values if (own * value - want) % rule.modulus == 0]
        sums = [(square, sum(map(int.__mul__, factors, head)), own) for square, factors, own in squares]
        room = limit - spent
        for value in values:
            cost = 0
            for square, total, own in sums:
                cost += square.cost(total + own * value)
            if cost + last_prices[value] <= room:
                rows[(*head, value)] = cost
    return Table(scope, rows, factor.origin, min(rows.values(), default=0))


def combine(number: int, part: Sequence[Table], limit: int) -> tuple[tuple[int, ...], list[tuple[Key, int]]]:
    """Add tables up that all mention an unknown: the scope, the unknown first, and the rows within the limit."""
    first, *rest = part
    place = first.scope.index(number)
    scope = (number, *first.scope[:place], *first.scope[place + 1 :])
    rows = [((key[place], *key[:place], *key[place + 1 :]), cost) for key, cost in first.rows.items()]
    for table in rest:
        extra, pick, index = _index(scope, table)
        joined = []
        for key, cost in rows:
            for more, price in index.get(pick(key), ()):
                total = cost + price
                if total > limit:
                    break
                joined.append((key + more, total))
        scope, rows = scope + extra, joined
    return scope, rows


def by_size(tables: Iterable[Table]) -> list[Table]:
    """Sort tables so that small ones are added up first."""
    return sorted(tables, key=lambda table: (len(table.scope), len(table.rows), table.scope))


def join(number: int, part: list[Table], limit: int) -> Table:
    """Add the tables up and minimise the unknown away."""
    part = by_size(part)
    scope, rows = combine(number, part[:-1] or part, limit)
    result: dict[Key, int] = {}
    if len(part) > 1:
        extra, pick, index = _index(scope, part[-1])
        scope += extra
        for key, cost in rows:
            tail = key[1:]
            for more, price in index.get(pick(key), ()):
                total = cost + price
                if total > limit:
                    break
                kept = tail + more
                if result.get(kept, total) >= total:
                    result[kept] = total
    else:
        for key, cost in rows:
            kept = key[1:]
            if cost <= limit and result.get(kept, cost) >= cost:
                result[kept] = cost
    origin = 0
    for table in part:
        origin |= table.origin
    return Table(scope[1:], result, origin)


def _index(scope: tuple[int, ...], table: Table) -> tuple[tuple[int, ...], Any, dict[Any, list[tuple[Key, int]]]]:
    """Sort a table's rows by what it shares with `scope`, cheapest first; give also how to pick that from a row."""
    shared = [number for number in table.scope if number in scope]
    extra = [number for number in table.scope if number not in scope]
    pick_shared = itemgetter(*(table.scope.index(number) for number in shared))
    places = [table.scope.index(number) for number in extra]
    index: dict[Any, list[tuple[Key, int]]] = {}
    for key, cost in table.rows.items():
        index.setdefault(pick_shared(key), []).append((tuple([key[place] for place in places]), cost))
    for entries in index.values():
        entries.sort(key=itemgetter(1))
    return tuple(extra), itemgetter(*(scope.index(number) for number in shared)), index
