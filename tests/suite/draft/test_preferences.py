"""`prefer`: the file weighs one wish against another."""

import pytest
from support import PLAIN, checked, codes, planned

SPEC = (
    'wale 1\n\npattern "Panel"\n{prefer}\n'
    + PLAIN
    + """
sizes one

let low  = 20 cm
let high = 24.5 cm

piece panel, worked flat
    edge    0 sts each side
    cast on low in plain
    shape   to high over 10 cm
    bind off
"""
)


def counts(prefer: str) -> tuple[int, int]:
    """Give the stitches below and above."""
    lines = "".join(f"    {line}\n" for line in prefer.splitlines())
    panel = planned(SPEC.format(prefer=lines)).pieces[0]
    return panel.levels[0].counts[0], panel.levels[1].counts[0]


@pytest.mark.parametrize(
    ("prefer", "expected"),
    [
        # 2 sts a cm: the wishes are exactly 40 and 49 sts, but shaping at both edges keeps parity. Moving either by one
        # stitch costs 0.5 cm squared = 0.25; between equals the smaller first count wins.
        ("", (39, 49)),
        # Moving the lower one now costs 4 x 0.25, the upper one 0.25: 48 and 50 are equally far, the smaller wins.
        ("prefer low 4", (40, 48)),
        ("prefer high 4", (39, 49)),
        ("prefer high 0.5", (40, 48)),
    ],
)
def test_the_dearer_wish_is_kept(prefer, expected):
    assert counts(prefer) == expected


def test_a_name_that_is_nowhere_is_a_problem():
    assert codes(checked(SPEC.format(prefer="    prefer brim 2\n"))) == ["E307"]


def test_a_wish_is_weighed_once():
    assert "E205" in codes(checked(SPEC.format(prefer="    prefer low 2\n    prefer low 3\n")))


def test_a_weight_is_more_than_nothing():
    assert "E222" in codes(checked(SPEC.format(prefer="    prefer low 0\n")))
