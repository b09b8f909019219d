"""A smallest set of rules that clash.

Deletion filter: start from a set of rules that cannot hold together and try to do without each, last declared first; a
rule is dropped if the rest still clash, and then all that the new refutation did not need is dropped with it. In the end
every rule left is needed: without it the others can hold.
"""

from __future__ import annotations

from collections.abc import Iterable

from wale.solve.domains import Narrowing, Store
from wale.solve.eliminate import Group, Refuted, cheapest, gather
from wale.solve.model import Conflict, Model
from wale.solve.network import Clash, Network, build

_PATIENCE = 60


def smallest_conflict(model: Model) -> Conflict:
    """Give a smallest set of clashing rules of a model that has no solution.

    Dropping any one of them makes the rest solvable. The bounds of unknowns are not members: if they alone leave no
    value the conflict is empty.

    Raises:
        ValueError: the model can be solved.
    """
    core = refute(model, range(len(model.rules)))
    if core is None:
        raise ValueError("the rules can all hold")
    needed: set[int] = set()
    while open_rules := [position for position in core if position not in needed]:
        tried = open_rules[-1]
        rest = refute(model, [position for position in core if position != tried])
        if rest is None:
            needed.add(tried)
        else:
            core = rest
    return Conflict(tuple(model.rules[position] for position in core))


def refute(model: Model, chosen: Iterable[int]) -> list[int] | None:
    """Try to show that rules cannot hold together.

    Args:
        model: its wishes do not matter.
        chosen: positions of the rules in the model.

    Returns:
        Positions of some of the rules, ascending, that already clash; None if all `chosen` can hold together.
    """
    try:
        network = build(model, chosen)
        for with_order in (False, True):
            _satisfy(network, with_order)
    except (Clash, Refuted) as clash:
        return [position for position in range(clash.origin.bit_length()) if clash.origin >> position & 1]
    return None


def _satisfy(network: Network, with_order: bool) -> None:
    """Find values for every group of unknowns.

    Raises:
        Refuted: some group has none.
    """
    store = network.store
    for numbers, factors in gather(network.factors(with_order), range(len(store.domains))):
        if not factors or _dive(
            store.copy(), numbers, Narrowing([r for f in factors for r in f.rules], len(store.domains))
        ):
            continue
        domains = {number: store.domains[number] for number in numbers}
        prices = {number: dict.fromkeys(store.domains[number], 0) for number in numbers}
        reasons = {number: store.reasons[number] for number in numbers}
        cheapest(Group(numbers, domains, prices, factors, reasons), 0)


def _dive(store: Store, numbers: list[int], narrowing: Narrowing) -> bool:
    """Look for any solution by guessing middle values and narrowing, with few retreats; say whether one was found."""
    stack = [store]
    for _ in range(_PATIENCE + len(numbers)):
        if not stack:
            return False
        store = stack.pop()
        guess = min(
            (n for n in numbers if len(store.domains[n]) > 1), key=lambda n: (len(store.domains[n]), n), default=None
        )
        if guess is None:
            return True
        domain = store.domains[guess]
        middle = domain[len(domain) // 2]
        without, fixed = store.copy(), store
        without.domains[guess] = [value for value in domain if value != middle]
        fixed.domains[guess] = [middle]
        for branch in (without, fixed):
            if narrowing.run(branch, [guess]) is None:
                stack.append(branch)
    return False
