"""Searches that are given up: no answer is not the answer no."""

from __future__ import annotations

import pytest

from wale.solve.costs import Group, gather
from wale.solve.eliminate import Unsure, cheapest
from wale.solve.model import Model, Rule, Unknown
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
