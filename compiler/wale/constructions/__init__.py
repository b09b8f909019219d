"""Every course that a line of a piece can ask for. A further one is a file of its own and its name here."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Coursed
from wale.constructions.afterthought import AFTERTHOUGHT_HEEL, AFTERTHOUGHT_THUMB, HEEL_WEDGE
from wale.constructions.arms import SLEEVES
from wale.constructions.balls import BALL
from wale.constructions.bust import BUST
from wale.constructions.cords import CORD
from wale.constructions.ear_flaps import EAR_FLAPS
from wale.constructions.flat_top import TOP_FLAT
from wale.constructions.half_circle import HALF_CIRCLE
from wale.constructions.heels import HEEL_FLAP
from wale.constructions.mittens import THUMB, THUMB_CUFF, THUMB_GUSSET
from wale.constructions.raglan import RAGLAN
from wale.constructions.raglan_up import RAGLAN_UP
from wale.constructions.raised_back import RAISED_BACK
from wale.constructions.round_toe import TOE_ROUND
from wale.constructions.saddle import SADDLE
from wale.constructions.shawls import CRESCENT, TRIANGLE
from wale.constructions.short_rows import HEEL_SHORT, TOE_SHORT
from wale.constructions.square_heel import HEEL_SQUARE
from wale.constructions.tapers import TAPERS
from wale.constructions.toes import TOE, TOE_UP, TOP
from wale.constructions.yoke import YOKE
from wale.course import Course
from wale.materials import Swatch

COURSES: dict[str, Course] = {
    one.line: one
    for one in (
        HEEL_FLAP,
        HEEL_SQUARE,
        HEEL_SHORT,
        AFTERTHOUGHT_HEEL,
        AFTERTHOUGHT_THUMB,
        HEEL_WEDGE,
        TOE,
        TOE_ROUND,
        TOE_SHORT,
        TOE_UP,
        TOP,
        TOP_FLAT,
        THUMB_GUSSET,
        THUMB,
        THUMB_CUFF,
        EAR_FLAPS,
        CORD,
        BALL,
        RAGLAN,
        RAGLAN_UP,
        RAISED_BACK,
        BUST,
        SADDLE,
        YOKE,
        SLEEVES,
        *TAPERS,
        TRIANGLE,
        CRESCENT,
        HALF_CIRCLE,
    )
}
"""By their line."""


def given(action: Coursed, swatch: Swatch, size: int) -> dict[str, Fraction]:
    """Give what a course's line says in one size, in cm, and the gauge."""
    gauge = swatch.washed
    found = {"sts_per_cm": gauge.stitches, "rows_per_cm": gauge.rows}
    for name, measure in action.given.items():
        per_cm = {"stitches": gauge.stitches, "rows": gauge.rows}.get(measure.dimension, Fraction(1))
        found[name] = measure.at(size) / per_cm
    return found
