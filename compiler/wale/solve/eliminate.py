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

from collections.abc import Mapping, Sequence
from math import prod

from msgspec import Struct, field

from wale.solve.costs import Factor, Group, Key, Table, by_size, combine, join, tabulate


class _Step(Struct):
    """One unknown on the way: the tables in its bucket, the messages made from them, factors kept as they are."""

    number: int
    tables: list[Table]
    messages: list[Table]
    direct: list[Factor] = field(default_factory=list)


class Refuted(Exception):
    """No assignment within the limit; `origin` is the bit set of the rules that were needed to see it."""

    def __init__(self, origin: int) -> None:
        self.origin = origin


class Unsure(Exception):
    """Patience ran out before an assignment was found or excluded."""


def cheapest(group: Group, limit: int, size: int = 200_000, patience: int | None = None) -> dict[int, int]:
    """Give the cheapest assignment that costs at most `limit`.

    Args:
        group: what to solve.
        limit: largest cost of interest, >= 0.
        size: most rows of one table; larger ones are split or left to the search.
        patience: most values that the search tries; None for all that it takes.

    Raises:
        Refuted: there is none.
        Unsure: not known after so many values.
    """
    tables, direct = _tables(group, limit, size)
    steps = _eliminate(group, tables, limit, size)
    for factor in direct:
        # the search assigns the last eliminated unknown first, so the first step in the scope completes it
        next(step for step in steps if step.number in factor.scope).direct.append(factor)
    found = _search(group, steps, limit, patience)
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
        scope, rows = combine(step.number, by_size(step.tables), room)
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
        table = tabulate(factor, group, limit)
        if not table.rows:
            raise Refuted(_origin(table.origin, factor.scope, group))
        tables.append(table)
    return tables, direct


def _origin(origin: int, scope: Sequence[int], group: Group) -> int:
    for number in scope:
        origin |= group.reasons[number]
    return origin


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
            message = join(number, part, room)
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


def _search(group: Group, steps: list[_Step], limit: int, patience: int | None) -> dict[int, int] | None:
    """Assign the unknowns from the last eliminated to the first, bounded by the messages."""
    tried = 0
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
        if tried == patience:
            raise Unsure
        tried += 1
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
