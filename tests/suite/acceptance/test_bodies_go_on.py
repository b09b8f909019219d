"""Surveyed bodies: whatever is said to go on is reckoned again from the stitch counts and the survey's own figures.

Seeded samples of adults; tests/bench/all_rings.py runs all 300. Of children the survey took no chest, head, hand or
shoulders, of infants only the head up to about 6 months: the rest is "not known", however wide the garment.
"""

from __future__ import annotations

import random

import pytest
from survey import rows
from survey_pullover import EASE
from survey_rings import SNUG, adult_rings, faults_of_adults, faults_of_young, tubes, young

SAMPLE = random.Random(1811).sample(rows(), 24)


@pytest.mark.parametrize("ease", [EASE, SNUG], ids=["roomy", "snug"])
def test_no_adult_is_said_to_get_into_what_is_smaller_than_the_body(ease: str) -> None:
    plan, found = adult_rings(SAMPLE, ease)
    assert len({(ring.piece, ring.ring) for ring in found}) >= 9
    assert faults_of_adults(SAMPLE, plan, found) == []


def test_the_snug_sample_meets_both_answers() -> None:
    _, found = adult_rings(SAMPLE[:8], SNUG)
    verdicts = [ring.verdict for ring in found]
    assert verdicts.count("too tight") > 5 and verdicts.count("goes on") > 5


def test_of_children_nothing_is_said_that_was_not_measured() -> None:
    found = tubes(young("children"), "child_id", 130)
    assert len(found) == 3 * 300
    assert {ring.verdict for ring in found} == {"not known"}
    assert faults_of_young(young("children"), "child_id", 130, found) == []


@pytest.mark.parametrize("hat", [70, 80, 120])
def test_of_infants_only_the_hat_is_judged_where_the_head_was_measured(hat: int) -> None:
    found = tubes(young("infants"), "infant_id", hat)
    assert faults_of_young(young("infants"), "infant_id", hat, found) == []
    measured = [row for row in young("infants") if row["head_cm"]]
    assert 0 < len(measured) < 120
    assert sum(ring.verdict != "not known" for ring in found) == len(measured)


def test_a_hat_of_middling_width_meets_both_answers() -> None:
    """80 sts at 27 sts in 10 cm are 29.6 cm, 43.0 cm pulled: about an infant's head."""
    verdicts = {ring.verdict for ring in tubes(young("infants"), "infant_id", 80)}
    assert verdicts == {"goes on", "too tight", "not known"}
