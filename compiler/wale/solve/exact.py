"""The exact solver: the cheapest whole stitches and rows, or a smallest set of rules that clash.

1. `network` numbers the model, scales wishes to integers and narrows domains; long sums get partial sums (`sums`).
2. Rules of kind "order" are left out at first: they tie neighbouring sizes at every level into a grid, and the optimum
   without them nearly always keeps them. The rest falls into groups (often one per size), solved apart.
3. A group is solved by bucket elimination (`eliminate`) within a limit on its cost above a lower bound; the limit grows
   until an assignment fits. Dropping what is dearer than the limit cannot lose an optimum that is within it.
4. Order rules that the result breaks join in, and the groups they touch are solved again; what the parts cost alone
   (for every value) bounds what the whole may cost, so few values are left to try. A result that breaks none is
   the optimum of a relaxation and satisfies all rules, so it is the optimum.

Ties: every group minimises the single integer cost * T + sum(place of x_i in its domain * w_i), where the w_i are a
mixed radix in declaration order and T exceeds the largest such sum: the optimum is unique, whatever the method.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import count

from msgspec import Struct
from msgspec.structs import replace

from wale.solve.conflict import refute, smallest_conflict
from wale.solve.costs import Factor, Group, Square, gather
from wale.solve.domains import Domain, Narrowing, Store
from wale.solve.eliminate import Refuted, Unsure, cheapest, marginals
from wale.solve.model import Conflict, Model, Solution
from wale.solve.network import Clash, Network, build

PATIENCE = 20_000
"""Values that a search tries where it may be given up."""
LONGEST = 100_000
"""Values that the search for the cheapest assignment tries; a garment's seven sizes take about a hundred."""


def solve(model: Model) -> Solution | Conflict:
    """Give the cheapest assignment, between equals the smallest in declaration order.

    Args:
        model: unknowns, rules, wishes with weights >= 0.

    Returns:
        The solution with its exact cost, or, if no assignment keeps all rules, a smallest set of rules that clash
        (empty if the bounds of an unknown leave it no value).

    Raises:
        Unsure: not known after `LONGEST` values.
    """
    try:
        return _cheapest(model, LONGEST)
    except (Clash, Refuted):
        return smallest_conflict(model)


def solved_soon(model: Model) -> Solution | None:
    """Give the cheapest assignment, or None: there is none, or the search for it is given up."""
    if not feasible(model):
        return None
    try:
        return _cheapest(model, PATIENCE)
    except Unsure:
        return None


def feasible(model: Model) -> bool:
    """Say whether some assignment that keeps all rules is found; False also where the search for one is given up."""
    try:
        return refute(model, range(len(model.rules)), PATIENCE) is None
    except Unsure:
        return False


def _cheapest(model: Model, patience: int) -> Solution:
    network = build(model)
    values = _optimum(network, patience)
    total = network.constant + sum(square.total(values) for square in network.squares)
    named = {unknown.key: values[number] for number, unknown in enumerate(model.unknowns)}
    return Solution(named, Fraction(total, network.scale))


def _optimum(network: Network, patience: int) -> dict[int, int]:
    """Solve without order rules, then with those that the result breaks, until it breaks none."""
    factors = network.factors(with_order=False)
    pending = network.order_factors()
    solved: dict[tuple[tuple[int, ...], int], dict[int, int]] = {}
    first: _Round | None = None
    while True:
        values: dict[int, int] = {}
        groups = gather(factors, range(len(network.store.domains)))
        for numbers, some in groups:
            key = (tuple(numbers), len(some))
            if key not in solved:
                solved[key] = _solve_group(network, numbers, some, first, patience)
            values |= solved[key]
        first = first or _Round(groups, values)
        broken = [factor for factor in pending if factor.cost(values) is None]
        if not broken:
            return values
        pending = [factor for factor in pending if factor not in broken]
        factors += broken


class _Round(Struct, frozen=True):
    """What was solved without order rules: the groups and their optimum, a lower bound for later rounds."""

    groups: Sequence[tuple[Sequence[int], Sequence[Factor]]]
    values: Mapping[int, int]


class _Part(Struct, frozen=True):
    """A group of the first round, now tied to others: its least cost bounds what its values may cost."""

    numbers: Sequence[int]
    factors: Sequence[Factor]
    cost: int


def _solve_group(
    network: Network, numbers: Sequence[int], factors: Sequence[Factor], first: _Round | None, patience: int
) -> dict[int, int]:
    """Give the cheapest assignment of a group, between equals the smallest.

    Args:
        network: the whole.
        numbers: the unknowns of the group.
        factors: what ties them.
        first: what the round without order rules found; None in that round.
        patience: most values that a search tries.

    Raises:
        Refuted: there is none.
        Unsure: not known within the patience.
    """
    prices, unit = _prices(network, numbers)
    best = {number: min(prices[number], key=prices[number].__getitem__) for number in numbers}
    if all(factor.cost(best) == 0 for factor in factors):
        # the best value of each unknown, and no tie costs more: nothing can be cheaper
        return best
    scaled = {
        id(factor): Factor(factor.scope, factor.rules, [replace(s, weight=s.weight * unit) for s in factor.squares])
        for factor in factors
    }
    parts = [] if first is None else _parts(numbers, prices, scaled, first)
    if parts:
        # broken order rules are mended for little
        bound = sum(part.cost for part in parts)
        extra = bound // 8 + unit
    else:
        # nearly always enough: every third unknown takes its second choice
        bound = 0
        extra = sum(sorted(price.values())[1] for price in prices.values() if len(price) > 1) // 3 + unit
    ceiling = sum(max(price.values()) for price in prices.values())
    for factor in scaled.values():
        ceiling += sum(_dearest(square, network.store) for square in factor.squares)
    task = _Task(numbers, prices, list(scaled.values()), parts, len(network.store.domains))
    for attempt in count():
        limit = min(bound + extra, ceiling)
        try:
            return task.within(limit, network.store.copy(), patience)
        except Refuted:
            if limit == ceiling:
                raise
        # double a few times, then leap
        extra <<= max(1, attempt - 3) ** 2
    raise AssertionError("the ceiling ends the loop")


def _parts(
    numbers: Sequence[int], prices: Mapping[int, Mapping[int, int]], scaled: Mapping[int, Factor], first: _Round
) -> list[_Part]:
    """Give the parts into which a group fell without order rules, with what they cost at least."""
    inside = set(numbers)
    parts = []
    for members, ties in first.groups:
        if members[0] in inside:
            own = [scaled[id(factor)] for factor in ties]
            cost = sum(prices[number][first.values[number]] for number in members)
            cost += sum(square.total(first.values) for factor in own for square in factor.squares)
            parts.append(_Part(members, own, cost))
    return parts


def _prices(network: Network, numbers: Sequence[int]) -> tuple[dict[int, dict[int, int]], int]:
    """Give the cost of each value above the cheapest of its unknown, ties included, and the unit T of costs."""
    domains = network.store.domains
    ties: dict[int, int] = {}
    unit = 1
    for number in reversed(numbers):
        ties[number] = unit if number < network.declared else 0
        if number < network.declared:
            unit *= len(domains[number])
    members = set(numbers)
    prices: dict[int, dict[int, int]] = {}
    for number in numbers:
        prices[number] = {value: place * ties[number] for place, value in enumerate(domains[number])}
    for square in network.squares:
        if len(square.terms) == 1 and square.terms[0][1] in members:
            factor, number = square.terms[0]
            price = prices[number]
            for value in price:
                price[value] += square.cost(factor * value) * unit
    for price in prices.values():
        least = min(price.values())
        for value in price:
            price[value] -= least
    return prices, unit


def _dearest(square: Square, store: Store) -> int:
    """Give a bound of what a square may cost."""
    ends = [(factor * store.domains[n][0], factor * store.domains[n][-1]) for factor, n in square.terms]
    return max(square.cost(sum(map(min, ends))), square.cost(sum(map(max, ends))))


class _Task:
    """A group with its prices and factors, to be solved within growing limits."""

    def __init__(
        self,
        numbers: Sequence[int],
        prices: dict[int, dict[int, int]],
        factors: list[Factor],
        parts: list[_Part],
        size: int,
    ) -> None:
        self.numbers = numbers
        self.prices = prices
        self.factors = factors
        self.parts = parts
        self.narrowing = Narrowing([rule for factor in factors for rule in factor.rules], size)

    def within(self, limit: int, store: Store, patience: int) -> dict[int, int]:
        """Give the cheapest assignment that costs at most `limit`: drop dear values, narrow, eliminate.

        Raises:
            Refuted: there is none.
            Unsure: not known within the patience.
        """
        self._drop_dear(limit, store)
        spare = limit - sum(part.cost for part in self.parts)
        for part in self.parts:
            if part.factors:
                # the other parts cost at least what they cost alone, so this one may exceed its own by the rest
                least = marginals(_group(part.numbers, part.factors, store, self.prices), part.cost + spare)
                if least is not None:
                    self._keep(store, {number: sorted(costs) for number, costs in least.items()})
        spent = self._drop_dear(limit, store)
        above: dict[int, dict[int, int]] = {}
        for number in self.numbers:
            price, domain = self.prices[number], store.domains[number]
            least_price = min([price[value] for value in domain])
            above[number] = {value: price[value] - least_price for value in domain}
        return cheapest(_group(self.numbers, self.factors, store, above), limit - spent, patience=patience)

    def _drop_dear(self, limit: int, store: Store) -> int:
        """Drop the values whose price alone breaks the limit, and what follows; give the least sum of prices."""
        while True:
            least = {number: min([self.prices[number][v] for v in store.domains[number]]) for number in self.numbers}
            spent = sum(least.values())
            kept = {}
            for number in self.numbers:
                price, room = self.prices[number], limit - spent + least[number]
                kept[number] = [value for value in store.domains[number] if price[value] <= room]
            if not self._keep(store, kept):
                return spent

    def _keep(self, store: Store, kept: Mapping[int, Domain]) -> bool:
        """Shrink domains and narrow; say whether any shrank."""
        changed = [number for number, values in kept.items() if len(values) < len(store.domains[number])]
        for number in changed:
            store.domains[number] = kept[number]
        if not all(store.domains[number] for number in changed) or self.narrowing.run(store, changed) is not None:
            raise Refuted(0)
        return bool(changed)


def _group(
    numbers: Sequence[int], factors: Sequence[Factor], store: Store, prices: Mapping[int, Mapping[int, int]]
) -> Group:
    domains = {number: store.domains[number] for number in numbers}
    return Group(numbers, domains, {number: prices[number] for number in numbers}, factors, dict.fromkeys(numbers, 0))
