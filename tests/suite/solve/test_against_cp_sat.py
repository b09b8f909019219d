"""The solver against a general constraint solver, on models in the likeness of garments and on real ones."""

from __future__ import annotations

import pytest
from cp_sat import Undecided, disagreement, looseness
from likeness import garment, impossible
from real_models import NAMES, real_models

from wale.solve.exact import feasible, solve
from wale.solve.model import Conflict, Solution


@pytest.mark.parametrize("start", range(1000, 1500, 50))
def test_models_like_garments_have_the_same_optimum(start: int) -> None:
    solved = undecided = 0
    for seed in range(start, start + 50):
        model = garment(seed)
        answer = solve(model)
        try:
            assert disagreement(model, answer) == "", f"seed {seed}"
        except Undecided:
            undecided += 1
        assert feasible(model) == isinstance(answer, Solution), f"seed {seed}"
        solved += isinstance(answer, Solution)
    # both answers are tried in every batch
    assert 20 <= solved <= 48
    assert undecided <= 2


@pytest.mark.parametrize("start", range(1000, 1200, 40))
def test_conflicts_are_smallest(start: int) -> None:
    clashes = 0
    for seed in range(start, start + 40):
        model = impossible(seed)
        answer = solve(model)
        if isinstance(answer, Conflict):
            clashes += 1
            assert looseness(model, answer) == "", f"seed {seed}"
    # five batches: a hundred conflicts at least
    assert clashes >= 20


@pytest.mark.parametrize("name", NAMES)
def test_the_models_of_the_examples_have_the_same_optimum(name: str) -> None:
    for which, model in real_models(name).items():
        assert disagreement(model, solve(model)) == "", which
