"""Every course that a line of a piece can ask for. A further one is a file of its own and its name here."""

from __future__ import annotations

from wale.constructions.heels import HEEL_FLAP
from wale.constructions.toes import TOE, TOP
from wale.course import Course

COURSES: dict[str, Course] = {one.form: one for one in (HEEL_FLAP, TOE, TOP)}
"""By the words of their line."""
