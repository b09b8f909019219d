"""What a swatch of a rib or of garter does not go with is refused, for its rows would not be those of the gauge."""

from __future__ import annotations

import pytest
from support import checked, errors, written

GROUND = """wale 1

pattern "Cloth"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

swatch plain, {way}
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

swatch ground, {way}
    fabric {fabric} in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

sizes one

piece cloth, {way}
    cast on 50 cm in ground
{lines}
"""


def cloth(fabric: str, way: str, *lines: str) -> str:
    return GROUND.format(fabric=fabric, way=way, lines="\n".join(f"    {line}" for line in lines))


@pytest.mark.parametrize(
    ("way", "lines"),
    [
        ("in the round", ("work 20 cm", "bind off")),
        ("in the round", ("hem 3 cm, folded, purl ridge", "work in plain", "work 20 cm", "bind off")),
        ("in the round", ("rib 3 cm, 2x2", "crown 6 wedges over 8 cm, plain in rye")),
        ("worked flat", ("rib 3 cm, 2x2", "shape to 40 cm over 10 cm", "bind off")),
        ("worked flat", ("rib 3 cm, 2x2", "bind off 3 cm each side", "bind off")),
    ],
)
def test_a_rib_is_no_ground_for_other_rows(way: str, lines: tuple[str, ...]) -> None:
    """50 cm would be 100 or 101 sts, which nothing fits to a 2x2 rib."""
    done = checked(cloth("rib 2x2", way, *lines))
    assert errors(done) == ["E405"] and "a rib" in done.problems[0].message


def test_a_rib_line_in_its_own_swatch_stands() -> None:
    lines = ("rib 3 cm, 2x2", "work in plain", "work 10 cm", "work in ground", "rib 2 cm, 2x2", "bind off")
    assert written(cloth("rib 2x2", "in the round", *lines)).proof is not None


@pytest.mark.parametrize(
    ("way", "lines"),
    [
        ("in the round", ("work 10 cm", "heel flap", "work 10 cm", "toe wedge")),
        ("worked flat", ("work 10 cm", "raise bust 3 cm", "work 10 cm", "bind off")),
    ],
)
def test_a_course_in_stockinette_does_not_stand_in_garter(way: str, lines: tuple[str, ...]) -> None:
    """Its rows would be reckoned at the gauge of garter, and told in stockinette."""
    done = checked(cloth("garter", way, *lines))
    assert errors(done) == ["E405"] and "stockinette" in done.problems[0].message
    assert "work in" in done.problems[0].help


def test_ear_flaps_stand_on_a_hat_in_garter() -> None:
    lines = ("work 10 cm", "crown 6 wedges over 8 cm, plain in rye", "ear flaps over 8 cm")
    assert written(cloth("garter", "in the round", *lines)).proof is not None
