"""Checks of fabric, fit and safety on the solved plan: one check a file, listed in `CHECKS`."""

from __future__ import annotations

from collections.abc import Callable

from wale.checks import (
    caps,
    colours,
    crown_floats,
    floats,
    joins,
    largest,
    lengths,
    neck_room,
    plackets,
    pockets,
    resting,
    rings,
    safety,
    steeks,
    steps,
    swatches,
    yarns,
)
from wale.plan import Plan
from wale.problems.problem import Problem
from wale.spec import Spec

CHECKS: tuple[Callable[[Spec, Plan], list[Problem]], ...] = (
    neck_room.check,
    largest.check,
    joins.check,
    caps.check,
    pockets.check,
    plackets.check,
    floats.check,
    crown_floats.check,
    resting.check,
    colours.check,
    swatches.check,
    rings.check,
    steeks.check,
    steps.check,
    lengths.check,
    yarns.check,
    safety.check,
)
"""Every check, in the order in which its problems are shown."""


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Run all checks on a solved plan."""
    return [found for one in CHECKS for found in one(spec, plan)]
