"""The solver against trying every assignment, on random small models."""

from __future__ import annotations

from functools import partial

import pytest
from brute import enumerate_best, random_model
from hypothesis import given, settings
from hypothesis import strategies as st

from wale.solve import conflict, exact
from wale.solve.model import Conflict, Model, Solution


def check(model: Model) -> bool:
    """Compare with every assignment; say whether the model can be solved."""
    answer, expected = exact.solve(model), enumerate_best(model)
    assert exact.feasible(model) == (expected is not None)
    if expected is None:
        assert isinstance(answer, Conflict)
        assert enumerate_best(model, answer.rules) is None
        for dropped in answer.rules:
            assert enumerate_best(model, [rule for rule in answer.rules if rule is not dropped]) is not None
        return False
    assert isinstance(answer, Solution)
    assert (answer.cost, tuple(answer.values[unknown.key] for unknown in model.unknowns)) == expected
    return True


@pytest.mark.parametrize("start", range(0, 600, 50))
def test_random_models_agree_with_every_assignment(start: int) -> None:
    solved = sum(check(random_model(seed)) for seed in range(start, start + 50))
    # about half of the models have no solution, so both answers are tried in every batch
    assert 10 <= solved <= 45


@given(st.integers(min_value=10_000, max_value=10**9))
@settings(max_examples=60, deadline=None)
def test_any_model_agrees_with_every_assignment(seed: int) -> None:
    check(random_model(seed))


@pytest.mark.parametrize("size", [8, 30])
def test_tables_too_large_to_keep_change_no_answer(size: int, monkeypatch: pytest.MonkeyPatch) -> None:
    small = partial(exact.cheapest, size=size)
    monkeypatch.setattr(exact, "cheapest", small)
    monkeypatch.setattr(exact, "marginals", partial(exact.marginals, size=size))
    monkeypatch.setattr(conflict, "cheapest", small)
    monkeypatch.setattr(conflict, "_PATIENCE", 0)
    assert any([check(random_model(seed)) for seed in range(2000, 2100)])


def test_the_same_model_gives_the_same_answer() -> None:
    for seed in range(40):
        assert exact.solve(random_model(seed)) == exact.solve(random_model(seed))
