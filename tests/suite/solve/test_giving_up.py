"""Searches that are given up: no answer is not the answer no."""

from __future__ import annotations

from fractions import Fraction

import pytest
from likeness import garment

from wale.solve import exact
from wale.solve.costs import Group, gather
from wale.solve.eliminate import Unsure, cheapest
from wale.solve.model import Conflict, Model, Rule, Unknown, Wish
from wale.solve.network import build


def group() -> Group:
    """Two unknowns from 0 to 9 whose sum is 7: eight assignments."""
    unknowns = (Unknown("a", 0, 9), Unknown("b", 0, 9))
    network = build(Model(unknowns, (Rule(((1, "a"), (1, "b")), "seven together", "join", 7, 7),), ()))
    store = network.store
    ((numbers, factors),) = gather(network.factors(with_order=False), range(len(store.domains)))
    prices = {number: dict.fromkeys(store.domains[number], 0) for number in numbers}
    domains, reasons = ({number: of[number] for number in numbers} for of in (store.domains, store.reasons))
    return Group(numbers, domains, prices, factors, reasons)


def test_a_search_that_may_try_nothing_finds_nothing() -> None:
    with pytest.raises(Unsure):
        cheapest(group(), 0, patience=1)


def test_one_that_may_try_a_value_each_finds_them() -> None:
    assert sum(cheapest(group(), 0, patience=2).values()) == 7


@pytest.mark.parametrize("seed", range(20))
def test_a_solution_that_is_found_soon_is_the_cheapest_one(seed: int) -> None:
    model = garment(seed)
    whole = exact.solve(model)
    assert exact.solved_soon(model) == (None if isinstance(whole, Conflict) else whole)


def test_one_that_takes_more_than_it_may_is_not_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven together, each as near to 5 as can be: no best value of both keeps the rule, so values are tried."""
    unknowns = (Unknown("a", 0, 9), Unknown("b", 0, 9))
    wishes = tuple(Wish(((Fraction(1), one),), Fraction(-5)) for one in "ab")
    model = Model(unknowns, (Rule(((1, "a"), (1, "b")), "seven together", "join", 7, 7),), wishes)
    found = exact.solved_soon(model)
    assert found is not None and (found.values, found.cost) == ({"a": 3, "b": 4}, 5)
    monkeypatch.setattr(exact, "PATIENCE", 1)
    assert exact.solved_soon(model) is None
