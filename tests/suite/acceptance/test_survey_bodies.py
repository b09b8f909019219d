"""Real bodies of a survey as made-to-measure pullovers: a seeded sample; tests/bench/all_bodies.py runs all 300."""

from __future__ import annotations

import random

import pytest
from support import checked, mended, planned
from survey import rows
from survey_pullover import CENTRED, WHOLE, fitting, misfits, pullover

SEED = 1784
SAMPLE = random.Random(SEED).sample(rows(), 60)


def test_sixty_bodies_side_by_side_fit_and_join() -> None:
    """Centred, no body need be refused: a count lies within 0.34 cm of every wish."""
    plan = planned(pullover(SAMPLE, CENTRED))
    assert plan.sizes == tuple(row["body_id"] for row in SAMPLE)
    for size, row in enumerate(SAMPLE):
        assert misfits(plan, row, size) == [], row["body_id"]


@pytest.mark.parametrize("row", SAMPLE[:24], ids=lambda row: row["body_id"])
def test_whole_repeats_fit_or_are_refused_rightly(row: dict[str, str]) -> None:
    text = pullover([row], WHOLE)
    done = checked(text)
    if done.plan is not None:
        assert misfits(done.plan, row) == []
        bust = done.plan.pieces[0].level("bust")
        assert bust is not None and bust.counts[0] in fitting(row)
        return
    assert fitting(row) == []
    (found,) = [one for one in done.problems if one.is_error]
    assert (found.code, found.size) == ("E301", row["body_id"])
    edits = [fix for fix in found.fixes if fix.edits]
    assert len(edits) >= 2
    assert planned(mended(text, edits[0])).pieces[0].level("bust") is not None


def test_the_sample_meets_refusals() -> None:
    """A repeat is 4.08 cm wide and 3 cm of it lie within the tolerance, so about a quarter is refused."""
    assert any(fitting(row) == [] for row in SAMPLE[:24])
    refused = [row for row in rows() if fitting(row) == []]
    assert 0.15 < len(refused) / 300 < 0.4
