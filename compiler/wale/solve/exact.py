"""The exact solver: the cheapest whole stitches and rows, or a smallest set of rules that clash.

1. `network` numbers the model, scales wishes to integers and narrows domains; long sums get partial sums (`sums`).
2. Rules of kind "order" are left out at first: they tie neighbouring sizes at every level into a grid, and the optimum
   without them nearly always keeps them. The rest falls into groups (often one per size), solved apart.
3. A group is solved by bucket elimination (`eliminate`) within a limit on its cost above a lower bound; the limit grows
   until an assignment fits. Dropping what is dearer than the limit cannot lose an optimum that is within it.
4. Order rules that the result breaks join in, and the groups they touch are solved again. A result that breaks none is
   the optimum of a relaxation and satisfies all rules, so it is the optimum.

Ties: every group minimises the single integer cost * T + sum(place of x_i in its domain * w_i), where the w_i are a
mixed radix in declaration order and T exceeds the largest such sum: the optimum is unique, whatever the method.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from wale.solve.conflict import refute, smallest_conflict
from wale.solve.domains import Narrowing, Store
from wale.solve.eliminate import Factor, Group, Refuted, Square, cheapest, gather
from wale.solve.model import Conflict, Model, Solution
from wale.solve.network import Clash, Network, build


def solve(model: Model) -> Solution | Conflict:
    """Give the cheapest assignment, between equals the smallest in declaration order.

    Args:
        model: unknowns, rules, wishes with weights >= 0.

    Returns:
        The solution with its exact cost, or, if no assignment keeps all rules, a smallest set of rules that clash
        (empty if the bounds of an unknown leave it no value).
    """
    try:
        network = build(model)
        values = _optimum(network)
    except (Clash, Refuted):
        return smallest_conflict(model)
    total = network.constant + sum(square.total(values) for square in network.squares)
    named = {unknown.key: values[number] for number, unknown in enumerate(model.unknowns)}
    return Solution(named, Fraction(total, network.scale))


def feasible(model: Model) -> bool:
    """Say whether some assignment keeps all rules."""
    return refute(model, range(len(model.rules))) is None


def _optimum(network: Network) -> dict[int, int]:
    """Solve without order rules, then with those that the result breaks, until it breaks none."""
    factors = network.factors(with_order=False)
    pending = network.order_factors()
    solved: dict[tuple[tuple[int, ...], int], dict[int, int]] = {}
    values: dict[int, int] = {}
    while True:
        relaxed, values = values, {}
        for numbers, some in gather(factors, range(len(network.store.domains))):
            key = (tuple(numbers), len(some))
            if key not in solved:
                solved[key] = _solve_group(network, numbers, some, relaxed)
            values |= solved[key]
        broken = [factor for factor in pending if factor.cost(values) is None]
        if not broken:
            return values
        pending = [factor for factor in pending if factor not in broken]
        factors += broken


def _solve_group(
    network: Network, numbers: Sequence[int], factors: Sequence[Factor], relaxed: Mapping[int, int]
) -> dict[int, int]:
    """Give the cheapest assignment of a group, between equals the smallest.

    Args:
        network: the whole.
        numbers: the unknowns of the group.
        factors: what ties them.
        relaxed: the optimum without some of the factors, empty if unknown; its cost is a lower bound.

    Raises:
        Refuted: there is none.
    """
    prices, unit = _prices(network, numbers)
    if not factors:
        return {number: min(prices[number], key=prices[number].__getitem__) for number in numbers}
    factors = [
        Factor(f.scope, f.rules, [Square(s.terms, s.constant, s.weight * unit) for s in f.squares]) for f in factors
    ]
    ceiling = sum(max(price.values()) for price in prices.values())
    for factor in factors:
        ceiling += sum(_dearest(square, network.store) for square in factor.squares)
    narrowing = Narrowing([rule for factor in factors for rule in factor.rules], len(network.store.domains))
    if relaxed:
        # order rules were broken: mending them costs little above the relaxed optimum
        bound = sum(prices[number][relaxed[number]] for number in numbers)
        bound += sum(square.total(relaxed) for factor in factors for square in factor.squares)
        extra = bound // 32 + unit
    else:
        # nearly always enough: every third unknown takes its second choice
        bound = 0
        extra = sum(sorted(price.values())[1] for price in prices.values() if len(price) > 1) // 3 + unit
    growth = 2
    while True:
        limit = min(bound + extra, ceiling)
        try:
            return _within(limit, network.store.copy(), prices, numbers, factors, narrowing)
        except Refuted:
            if limit == ceiling:
                raise
        extra, growth = extra * growth, growth * growth


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


def _within(
    limit: int,
    store: Store,
    prices: dict[int, dict[int, int]],
    numbers: Sequence[int],
    factors: Sequence[Factor],
    narrowing: Narrowing,
) -> dict[int, int]:
    """Give the cheapest assignment that costs at most `limit`: drop dear values, narrow, eliminate."""
    spent = 0
    changed: list[int] | None = None
    while changed is None or changed:
        spent = sum(min([prices[number][value] for value in store.domains[number]]) for number in numbers)
        changed = []
        for number in numbers:
            price, domain = prices[number], store.domains[number]
            room = limit - spent + min([price[value] for value in domain])
            kept = [value for value in domain if price[value] <= room]
            if len(kept) < len(domain):
                store.domains[number] = kept
                changed.append(number)
                if not kept:
                    raise Refuted(0)
        if changed and narrowing.run(store, changed) is not None:
            raise Refuted(0)
    above: dict[int, dict[int, int]] = {}
    for number in numbers:
        price, domain = prices[number], store.domains[number]
        least = min([price[value] for value in domain])
        above[number] = {value: price[value] - least for value in domain}
    group = Group(numbers, {n: store.domains[n] for n in numbers}, above, factors, {n: 0 for n in numbers})
    return cheapest(group, limit - spent)
