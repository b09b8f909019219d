"""N608: uneven steps between sizes.

What: how much a width grows from one size to the next, against how much was asked.
Why: whole repeats and stitches can make one size nearly the same as its neighbour and the next one much larger.
Limit: 1 cm between the step got and the step asked; our choice. Made-to-measure bodies are no steps, and a rib, whose
multiple is small and which gives, is left out.
Example: whole repeats of 24 sts. Instead: half repeats, `centred`, or a smaller repeat.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from wale.actions import EDGINGS
from wale.plan import Level, Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.spec import Spec

MOST = Fraction(1)


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Note each level with an uneven step, once where pieces share its line."""
    problems, seen = [], set()
    for piece in plan.pieces:
        ribs = {section.first for section in piece.sections if section.kind in EDGINGS}
        for index, level in enumerate(piece.levels):
            if index in ribs:
                continue
            key = (level.label, level.measure.span, level.counts)
            words = _uneven(spec, level)
            if words and key not in seen:
                problems.append(
                    Problem(
                        "N608",
                        f"{level.address} grows unevenly from size to size: {'; '.join(words)}",
                        (Label(level.measure.span, "this width"),),
                        help="A smaller repeat, part repeats (`half repeats`, `centred`) or another ease help.",
                    )
                )
            seen.add(key)
    return problems


def _uneven(spec: Spec, level: Level) -> list[str]:
    if level.wishes is None:
        return []
    words = []
    graded = [index for index, size in enumerate(spec.sizes) if not size.made_to_measure]
    for small, large in pairwise(graded):
        got, asked = level.width(large) - level.width(small), level.wishes[large] - level.wishes[small]
        if abs(got - asked) > MOST:
            names = f"{spec.sizes[small].name} to {spec.sizes[large].name}"
            words.append(f"{names} {length_words(got, spec.units)} where {length_words(asked, spec.units)} was asked")
    return words
