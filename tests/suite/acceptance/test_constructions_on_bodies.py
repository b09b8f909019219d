"""Every construction made to measure for a small and a large body; tests/bench/all_constructions.py runs all.

Each is solved, written and knitted by the proof, which raises what it cannot knit. The two bodies are chosen by their
chest alone: the 10th smallest and the 10th largest of the 300.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import errors, mended, written
from survey import rows
from survey_garments import CHANGES, is_for, made_to_measure, of_survey, of_tables, of_young

from wale.problems.show import show

BY_CHEST = sorted(rows(), key=lambda row: (Fraction(row["chest_cm"]), row["body_id"]))
BODIES = {"small": BY_CHEST[9], "large": BY_CHEST[-10]}


BY_REPEATS = "hat in a motif, within 1.5 cm"
"""A repeat is 4.14 cm wide and 3 cm of it lie within the tolerance, so about a quarter of heads is refused."""


@pytest.mark.parametrize("size", BODIES)
@pytest.mark.parametrize("construction", [name for name in CHANGES if name != BY_REPEATS and is_for(name, "adults")])
def test_it_is_solved_written_and_proven(construction: str, size: str) -> None:
    done = written(made_to_measure(construction, of_survey(BODIES[size])))
    assert done.proof is not None, show(done.problems, done.sources, colour=False, width=120)


YOUNG = [name for name in CHANGES if is_for(name, "babies") and not name.startswith(("socks", "mitt"))]
"""Feet and hands of children stand in no table."""


@pytest.mark.parametrize("group", ["children", "babies"])
@pytest.mark.parametrize("construction", [name for name in YOUNG if name != BY_REPEATS])
def test_the_youngest_and_the_oldest_have_it_too(construction: str, group: str) -> None:
    """The oldest child, 82.6 cm round the chest, and the youngest baby, 40.6 cm (docs/sizes.md)."""
    body = of_tables()[group][-1 if group == "children" else 0]
    assert body["bust"] == {"children": Fraction("82.55"), "babies": Fraction("40.64")}[group]
    done = written(made_to_measure(construction, body))
    assert done.proof is not None, show(done.problems, done.sources, colour=False, width=120)


@pytest.mark.parametrize(("survey", "construction"), [
    ("children", "tube in a motif round the waist"),
    ("children", "tube round the upper arm"),
    ("infants", "tube round the upper arm"),
    ("infants", "hat with ear flaps"),
])  # fmt: skip
def test_children_of_the_survey_have_what_needs_their_measures_alone(survey: str, construction: str) -> None:
    """Every 40th of them: a measure that was not taken is asked for, never made up."""
    needed = {"tube in a motif round the waist": "waist", "hat with ear flaps": "head"}.get(construction, "upper-arm")
    for body in of_young(survey)[::40]:
        done = written(made_to_measure(construction, body))
        assert (done.proof is not None) == (needed in body), show(done.problems, done.sources, colour=False, width=120)
        assert errors(done) == ([] if needed in body else ["E210"])


@pytest.mark.parametrize("size", BODIES)
def test_a_head_between_two_repeats_is_refused_and_mended_by_the_way_out(size: str) -> None:
    """40 sts are 13.8 cm: head - 2.5 cm, in sts, lies more than 1.5 cm from every multiple of 12 sts."""
    body = of_survey(BODIES[size])
    wish = body["head"] - Fraction(5, 2)
    repeat = 12 * Fraction(138, 400)
    assert min(wish % repeat, repeat - wish % repeat) > Fraction(3, 2)
    text = made_to_measure(BY_REPEATS, body)
    (found,) = [one for one in written(text).problems if one.is_error]
    assert found.code == "E301"
    assert written(mended(text, found.fixes[0])).proof is not None


def test_the_two_bodies_differ_by_many_sizes() -> None:
    small, large = (of_survey(row)["bust"] for row in BODIES.values())
    assert large - small > 30
