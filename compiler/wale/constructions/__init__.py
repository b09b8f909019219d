"""Every course that a line of a piece can ask for. A further one is a file of its own and its name here."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import Coursed
from wale.constructions.heels import HEEL_FLAP
from wale.constructions.mittens import THUMB, THUMB_GUSSET
from wale.constructions.square_heel import HEEL_SQUARE
from wale.constructions.toes import TOE, TOP
from wale.course import Course
from wale.materials import Swatch

COURSES: dict[str, Course] = {one.form: one for one in (HEEL_FLAP, HEEL_SQUARE, TOE, TOP, THUMB_GUSSET, THUMB)}
"""By the words of their line."""


def course_numbers(action: Coursed, before: int, swatch: Swatch, size: int) -> dict[str, Fraction]:
    """Give the numbers of a course that begins with so many stitches, those of a course that it follows too."""
    course, given = COURSES[action.form], dict[str, Fraction]()
    if course.follows:
        given |= COURSES[course.follows].worked_out(before)
    if action.length is not None:
        given["length"] = action.length.at(size)
        given["gauge"] = Fraction(1) if action.length.is_count else swatch.washed.rows
    return course.worked_out(before, given)
