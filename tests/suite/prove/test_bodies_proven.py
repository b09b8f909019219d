"""Pullovers of real bodies, compiled and proven: a seeded sample; tests/bench/all_proofs.py runs all 300."""

from __future__ import annotations

import random

import pytest
from support import SPEC, world
from survey import rows
from survey_pullover import CENTRED, WHOLE, pullover

from wale.driver import compile_spec

SEED = 20261125
BODIES = 10


@pytest.mark.parametrize("fit", [CENTRED, WHOLE])
def test_a_body_is_proven_or_refused_with_a_way_out(fit: str) -> None:
    proven = 0
    for row in random.Random(f"{SEED} {fit}").sample(rows(), BODIES):
        done = compile_spec(world(pullover([row], fit)), SPEC)
        if done.proof is None:
            errors = [problem for problem in done.problems if problem.is_error]
            assert errors and all(problem.fixes for problem in errors), row["body_id"]
            continue
        proven += 1
        # Back and front, two sleeves and a band: none of the figures is left unmeasured.
        outcome = done.proof.outcome
        assert {one.piece for one in outcome.measured} >= {"back", "front", "sleeve"}
        assert outcome.yarn_figures > 10 and not outcome.findings
    assert proven >= BODIES // 2
