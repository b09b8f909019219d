"""Toy balls against the sphere, proof in all sizes, and what is refused."""

from fractions import Fraction
from itertools import pairwise
from math import pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import EXAMPLES, world

from wale.constructions.balls import BALL
from wale.course import rows_made
from wale.driver import check_spec, compile_spec

TEXT = (EXAMPLES / "millstone-ball.wale").read_text("utf-8")


@given(st.integers(5, 40), st.integers(15, 40), st.integers(115, 160))
def test_each_round_is_as_long_as_on_a_sphere(across, stitches, share):
    """By the true sine: a round whose middle is at an angle a has pi d sin a, to the nearest step of eight."""
    sts, rows = Fraction(stitches, 10), Fraction(stitches * share, 1000)
    numbers = BALL.worked_out(8, {"across": across, "sts_per_cm": sts, "rows_per_cm": rows})
    found = [row.after for row in rows_made(BALL.parts[0], numbers)]
    assert abs(len(found) - pi * across / 2 * float(rows)) < 4
    for number, one in enumerate(found):
        wanted = pi * across * float(sts) * sin(pi * (number + 0.5) / len(found))
        assert abs(one - wanted) < 12
    assert all(abs(one - other) in (0, 8) for one, other in pairwise([8, *found]))
    assert found[::-1][0] == 8 and max(found) % 8 == 0


@pytest.mark.parametrize("across", ["2 cm", "5 cm", "9 cm", "20 cm", "40 cm"])
@pytest.mark.parametrize("left", [False, True])
def test_it_is_proven_in_all_sizes(across, left):
    text = TEXT.replace("8 (12) cm", across)
    assert compile_spec(world(text), "a.wale", is_left_handed=left).proof is not None


@pytest.mark.parametrize(("old", "new"), [(", closed", ""), ("ball    across", "work    2 rounds\n    ball    across")])
def test_what_cannot_be_is_refused(old, new):
    problems = check_spec(world(TEXT.replace(old, new)), "a.wale").problems
    assert {one.code for one in problems if one.is_error} == {"E405"}
