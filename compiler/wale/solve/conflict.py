"""A smallest set of rules that clash.

Deletion filter: start from a set of rules that cannot hold together and try to do without each, last declared first;
a rule is dropped if the rest still clash, and then all that the new refutation did not need is dropped with it. In the
end every rule left is needed: without it the others can hold. Where that takes too long to see, the rule is kept: the
set still clashes, and may hold a rule too many.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import lcm

from wale.solve.costs import Group, gather
from wale.solve.domains import Linear, Narrowing, Store
from wale.solve.eliminate import Refuted, Unsure, cheapest
from wale.solve.model import Conflict, Model
from wale.solve.network import Clash, Network, build

_PATIENCE = 200
_TRIALS = 20_000
_MODULUS = 24


def smallest_conflict(model: Model) -> Conflict:
    """Give a smallest set of clashing rules of a model that has no solution.

    Dropping any one of them makes the rest solvable, as far as a bounded search sees. The bounds of unknowns are not
    members: if they alone leave no value the conflict is empty.

    Raises:
        ValueError: the model can be solved.
    """
    core = refute(model, range(len(model.rules)))
    if core is None:
        raise ValueError("the rules can all hold")
    needed: set[int] = set()
    while open_rules := [position for position in core if position not in needed]:
        tried = open_rules[-1]
        try:
            rest = refute(model, [position for position in core if position != tried], _TRIALS)
        except Unsure:
            rest = None
        if rest is None:
            needed.add(tried)
        else:
            core = rest
    return Conflict(tuple(model.rules[position] for position in core))


def refute(model: Model, chosen: Iterable[int], patience: int | None = None) -> list[int] | None:
    """Try to show that rules cannot hold together.

    Args:
        model: its wishes do not matter.
        chosen: positions of the rules in the model.
        patience: most values that a search tries; None for all that it takes.

    Returns:
        Positions of some of the rules, ascending, that already clash; None if all `chosen` can hold together.

    Raises:
        Unsure: not known within the patience.
    """
    try:
        network = build(model, chosen)
        _satisfy(network, with_order=False, patience=patience)
        if network.order_factors():
            _satisfy(network, with_order=True, patience=patience)
    except (Clash, Refuted) as clash:
        return [position for position in range(clash.origin.bit_length()) if clash.origin >> position & 1]
    return None


def _satisfy(network: Network, with_order: bool, patience: int | None) -> None:
    """Find values for every group of unknowns.

    Raises:
        Refuted: some group has none.
        Unsure: not known within the patience.
    """
    store = network.store
    for numbers, factors in gather(network.factors(with_order), range(len(store.domains))):
        if not factors or _dive(store.copy(), numbers, [rule for factor in factors for rule in factor.rules]):
            continue
        domains = {number: store.domains[number] for number in numbers}
        prices = {number: dict.fromkeys(store.domains[number], 0) for number in numbers}
        reasons = {number: store.reasons[number] for number in numbers}
        cheapest(Group(numbers, domains, prices, factors, reasons), 0, patience=patience)


def _dive(store: Store, numbers: Sequence[int], rules: Sequence[Linear]) -> bool:
    """Look for any solution by guesses and narrowing: first residues, then values, from the middle of domains.

    Returns:
        True if one was found, False if patience ran out.

    Raises:
        Refuted: all guesses failed; the rules that all failures needed together clash.
    """
    narrowing = Narrowing(rules, len(store.domains))
    moduli = dict.fromkeys(numbers, 1)
    for rule in rules:
        for number in rule.scope:
            moduli[number] = lcm(moduli[number], rule.modulus)
    stack, origin = [store], 0
    for _ in range(_PATIENCE + len(numbers)):
        if not stack:
            raise Refuted(origin)
        store = stack.pop()
        split = _split(store, numbers, moduli)
        if split is None:
            return True
        guess, chosen, others = split
        origin |= store.reasons[guess]
        for values in (others, chosen):
            branch = store.copy()
            branch.domains[guess] = values
            clash = narrowing.run(branch, [guess])
            if clash is None:
                stack.append(branch)
            else:
                origin |= clash
    return False


def _split(store: Store, numbers: Sequence[int], moduli: dict[int, int]) -> tuple[int, list[int], list[int]] | None:
    """Choose an unknown and cut its domain in two, the more promising part first; None if all have one value."""
    undecided = [number for number in numbers if len(store.domains[number]) > 1]
    for number in undecided:
        domain, modulus = store.domains[number], moduli[number]
        residue = domain[len(domain) // 2] % modulus
        others = [value for value in domain if value % modulus != residue]
        if modulus <= _MODULUS and others:
            return number, [value for value in domain if value % modulus == residue], others
    if not undecided:
        return None
    number = min(undecided, key=lambda number: (len(store.domains[number]), number))
    domain = store.domains[number]
    middle = domain[len(domain) // 2]
    return number, [middle], [value for value in domain if value != middle]
