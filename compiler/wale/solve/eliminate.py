"""The cheapest assignment of one connected group of unknowns, by bucket elimination.

Input: small domains, a cost for each value, and factors (rules and square costs over the same few unknowns).
Output: the cheapest assignment whose cost is at most a limit, or None when there is none.

Unknowns are eliminated one by one. The tables that mention an unknown are joined, the unknown is minimised away, and
the result is a table over its neighbours: the least cost of everything eliminated so far. Costs are never negative: a
row that is dearer than the limit, together with the cheapest rows of all other tables, can be dropped. A join that
grows too large is split into parts that are minimised apart; their sum is then a lower bound of the true table. In both
cases a depth-first search runs back through the order, with the tables as its bound: where nothing was split the bound
is exact and the search goes straight to the optimum; elsewhere it backtracks until the bound proves the best assignment
found. Either way the answer is exact.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product
from math import prod
from operator import itemgetter
from typing import Any

from wale.solve.domains import Domain, Linear, Terms, components

Key = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Square:
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


@dataclass(slots=True)
class Factor:
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


@dataclass(slots=True, eq=False)
class Table:
    """Costs of the assignments of `scope` that are possible; what is missing is not. `least` is the lowest of them."""

    scope: tuple[int, ...]
    rows: dict[Key, int]
    origin: int
    least: int = 0


@dataclass(frozen=True, slots=True)
class Group:
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


@dataclass(slots=True)
class _Step:
    """One unknown on the way: the tables in its bucket, the messages made from them, factors kept as they are."""

    number: int
    tables: list[Table]
    messages: list[Table]
    direct: list[Factor] = field(default_factory=list)


class Refuted(Exception):
    """No assignment within the limit; `origin` is the bit set of the rules that were needed to see it."""

    def __init__(self, origin: int) -> None:
        self.origin = origin


def gather(factors: Sequence[Factor], numbers: Iterable[int]) -> list[tuple[list[int], list[Factor]]]:
    """Cut into groups that no factor ties together: numbers and factors of each."""
    groups = components([factor.scope for factor in factors], numbers)
    place = {number: which for which, members in enumerate(groups) for number in members}
    gathered: list[list[Factor]] = [[] for _ in groups]
    for factor in factors:
        gathered[place[factor.scope[0]]].append(factor)
    return list(zip(groups, gathered, strict=True))


def cheapest(group: Group, limit: int, size: int = 200_000) -> dict[int, int]:
    """Give the cheapest assignment that costs at most `limit`.

    Args:
        group: what to solve.
        limit: largest cost of interest, >= 0.
        size: most rows of one table; larger ones are split or left to the search.

    Raises:
        Refuted: there is none.
    """
    tables, direct = _tables(group, limit, size)
    steps = _eliminate(group, tables, limit, size)
    for factor in direct:
        # the search assigns the last eliminated unknown first, so the first step in the scope completes it
        next(step for step in steps if step.number in factor.scope).direct.append(factor)
    found = _search(group, steps, limit)
    if found is None:
        everything = 0
        for factor in group.factors:
            everything |= _origin(factor.origin, factor.scope, group)
        raise Refuted(everything)
    return found


def marginals(group: Group, limit: int, size: int = 200_000) -> dict[int, dict[int, int]] | None:
    """Give for each unknown and value the least cost of an assignment with that value, where it is at most `limit`.

    Elimination tells each table what lies behind it; a second pass, last eliminated first, tells what lies before it.

    Returns:
        Costs by number and value; None if a table grew larger than `size`.

    Raises:
        Refuted: no assignment costs at most `limit`.
    """
    tables, direct = _tables(group, limit, size)
    steps = _eliminate(group, tables, limit, size)
    if direct or any(len(step.messages) > 1 for step in steps):
        return None
    least: dict[int, dict[int, int]] = {number: {} for number in group.numbers}
    # by message: the least cost of everything that it does not cover
    outside: dict[int, dict[Key, int]] = {}
    for step in reversed(steps):
        [message] = step.messages
        before = outside.get(id(message), {(): 0})
        if not before:
            raise Refuted(0)
        room = limit - min(before.values())
        scope, rows = _combine(step.number, _by_size(step.tables), room)
        own = least[step.number]
        pick = [scope.index(number) for number in message.scope]
        parts: list[tuple[dict[Key, int], list[int], dict[Key, int]]] = [
            (table.rows, [scope.index(number) for number in table.scope], {}) for table in step.tables
        ]
        for key, cost in rows:
            rest = before.get(tuple([key[place] for place in pick]))
            if rest is None or cost + rest > limit:
                continue
            total = cost + rest
            if own.get(key[0], total) >= total:
                own[key[0]] = total
            for costs, places, around in parts:
                some = tuple([key[place] for place in places])
                without = total - costs[some]
                if around.get(some, without) >= without:
                    around[some] = without
        outside.update((id(table), part[2]) for table, part in zip(step.tables, parts, strict=True))
    return least


def _tables(group: Group, limit: int, size: int) -> tuple[list[Table], list[Factor]]:
    """Write out the factors that are small enough; give also the others."""
    tables: list[Table] = []
    direct: list[Factor] = []
    for factor in group.factors:
        widths = sorted(len(group.domains[number]) for number in factor.scope)
        if prod(widths[:-1]) > size:
            direct.append(factor)
            continue
        table = _tabulate(factor, group, limit)
        if not table.rows:
            raise Refuted(_origin(table.origin, factor.scope, group))
        tables.append(table)
    return tables, direct


def _origin(origin: int, scope: Sequence[int], group: Group) -> int:
    for number in scope:
        origin |= group.reasons[number]
    return origin


def _tabulate(factor: Factor, group: Group, limit: int) -> Table:
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


def _eliminate(group: Group, tables: list[Table], limit: int, size: int) -> list[_Step]:
    """Run through the unknowns, cheapest neighbourhood first."""
    widths = {number: len(group.domains[number]) for number in group.numbers}
    neighbours: dict[int, set[int]] = {number: set() for number in group.numbers}
    buckets: dict[int, list[Table]] = {number: [] for number in group.numbers}
    for table in tables:
        for number in table.scope:
            neighbours[number].update(table.scope)
            buckets[number].append(table)
    for number in group.numbers:
        neighbours[number].discard(number)

    def weight(number: int) -> tuple[int, int]:
        return prod([widths[other] for other in neighbours[number]]), number

    weights = {number: weight(number) for number in group.numbers}
    steps: list[_Step] = []
    room = limit - sum(table.least for table in tables)
    while weights:
        number = min(weights.values())[1]
        del weights[number]
        around = neighbours.pop(number)
        for other in around:
            neighbours[other] |= around
            neighbours[other] -= {number, other}
        for other in around:
            weights[other] = weight(other)
        bucket = buckets.pop(number)
        prices = Table((number,), {(value,): group.prices[number][value] for value in group.domains[number]}, 0)
        messages = []
        for part in _parts(number, prices, bucket, widths, size):
            room += sum(table.least for table in part)
            message = _join(number, part, room)
            message.origin |= group.reasons[number]
            _drop_dear(message, group, room)
            if not message.rows:
                raise Refuted(_origin(message.origin, message.scope, group))
            message.least = min(message.rows.values())
            room -= message.least
            messages.append(message)
            for other in message.scope:
                buckets[other].append(message)
        for table in bucket:
            for other in table.scope:
                if other != number:
                    buckets[other].remove(table)
        steps.append(_Step(number, [prices, *bucket], messages))
    return steps


def _drop_dear(message: Table, group: Group, limit: int) -> None:
    """Drop the rows that are too dear together with the prices of their own values, which are still to come."""
    prices = [group.prices[number] for number in message.scope]
    kept = {}
    for key, cost in message.rows.items():
        total = cost
        for price, value in zip(prices, key, strict=True):
            total += price[value]
        if total <= limit:
            kept[key] = cost
    message.rows = kept


def _parts(number: int, prices: Table, bucket: list[Table], widths: Mapping[int, int], size: int) -> list[list[Table]]:
    """Cut a bucket into parts whose joins stay small: usually one."""
    parts: list[tuple[set[int], list[Table]]] = [({number}, [prices])]
    for table in sorted(bucket, key=lambda table: (-len(table.scope), table.scope)):
        for scope, part in parts:
            union = scope.union(table.scope)
            if union == scope or prod([widths[other] for other in union]) <= size:
                scope |= union
                part.append(table)
                break
        else:
            parts.append((set(table.scope), [table]))
    return [part for _, part in parts]


def _combine(number: int, part: Sequence[Table], limit: int) -> tuple[tuple[int, ...], list[tuple[Key, int]]]:
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


def _by_size(tables: Iterable[Table]) -> list[Table]:
    return sorted(tables, key=lambda table: (len(table.scope), len(table.rows), table.scope))


def _join(number: int, part: list[Table], limit: int) -> Table:
    """Add the tables up and minimise the unknown away."""
    part = _by_size(part)
    scope, rows = _combine(number, part[:-1] or part, limit)
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


def _search(group: Group, steps: list[_Step], limit: int) -> dict[int, int] | None:
    """Assign the unknowns from the last eliminated to the first, bounded by the messages."""
    values: dict[int, int] = {}
    best: dict[int, int] | None = None
    root = sum(message.rows[()] for step in steps for message in step.messages if not message.scope)
    # one frame for each assigned unknown: its untried (bound, value) pairs, dearest first
    path = steps[::-1]
    frames = [_branches(group, path[0], values, root, limit)] if root <= limit else []
    while frames:
        step = path[len(frames) - 1]
        if not frames[-1] or frames[-1][-1][0] > limit:
            frames.pop()
            values.pop(step.number, None)
            continue
        bound, values[step.number] = frames[-1].pop()
        if len(frames) < len(path):
            frames.append(_branches(group, path[len(frames)], values, bound, limit))
            continue
        best, limit = dict(values), bound - 1
    return best


def _branches(group: Group, step: _Step, values: dict[int, int], bound: int, limit: int) -> list[tuple[int, int]]:
    for message in step.messages:
        bound -= message.rows[tuple([values[number] for number in message.scope])]
    branches = []
    for value in group.domains[step.number]:
        values[step.number] = value
        total = bound
        for table in step.tables:
            price = table.rows.get(tuple([values[number] for number in table.scope]))
            if price is None:
                break
            total += price
        else:
            for factor in step.direct:
                price = factor.cost(values)
                if price is None:
                    break
                total += price
            else:
                if total <= limit:
                    branches.append((total, value))
    values.pop(step.number)
    branches.sort(key=lambda branch: (-branch[0], -branch[1]))
    return branches
