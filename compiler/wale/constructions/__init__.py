"""Every course that a line of a piece can ask for. A further one is a file of its own and its name here."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Coursed
from wale.constructions.arms import SLEEVES
from wale.constructions.heels import HEEL_FLAP
from wale.constructions.mittens import THUMB, THUMB_GUSSET
from wale.constructions.raglan import RAGLAN
from wale.constructions.raglan_up import RAGLAN_UP
from wale.constructions.raised_back import RAISED_BACK
from wale.constructions.saddle import SADDLE
from wale.constructions.shawls import TRIANGLE
from wale.constructions.square_heel import HEEL_SQUARE
from wale.constructions.toes import TOE, TOP
from wale.constructions.yoke import YOKE
from wale.course import Course
from wale.materials import Swatch

COURSES: dict[str, Course] = {
    one.form: one
    for one in (
        HEEL_FLAP,
        HEEL_SQUARE,
        TOE,
        TOP,
        THUMB_GUSSET,
        THUMB,
        RAGLAN,
        RAGLAN_UP,
        RAISED_BACK,
        SADDLE,
        YOKE,
        SLEEVES,
        TRIANGLE,
    )
}
"""By the form of their line."""


def given(action: Coursed, swatch: Swatch, size: int) -> dict[str, Fraction]:
    """Give what a course's line says in one size, in cm, and the gauge."""
    gauge = swatch.washed
    found = {"sts_per_cm": gauge.stitches, "rows_per_cm": gauge.rows}
    for name, measure in action.given.items():
        per_cm = {"stitches": gauge.stitches, "rows": gauge.rows}.get(measure.dimension, Fraction(1))
        found[name] = measure.at(size) / per_cm
    return found
