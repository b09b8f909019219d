"""W602 and N603: two yarns of a row that are too alike in lightness.

What: the difference of L* between the yarns that meet in a row of a motif.
Why: colours of one lightness run together at a distance, however different their hues (stranded knitters compare them
in a grey photograph: https://www.deviantstitches.com/2012/05/finding-contrast.html).
Limits: a warning below 20, a note below 30; our choice, no published figure was found.
Example: #8a5a2b with #7a6a4a. Instead: a darker or a lighter yarn for one of the two.
"""

from __future__ import annotations

from itertools import combinations

from wale.checks.used import motifs_worked
from wale.colour import ALIKE_BELOW, CLOSE_BELOW, lightness
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.spec import Spec


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn once for each pair of yarns."""
    pairs: dict[tuple[str, ...], str] = {}
    for worked in motifs_worked(spec, plan):
        for row in worked.motif.rows:
            for pair in combinations(sorted(set(row)), 2):
                pairs.setdefault(pair, worked.motif.name)
    problems = []
    for (first, second), motif in pairs.items():
        one, other = spec.yarns[first], spec.yarns[second]
        if not (one.colour and other.colour):
            continue
        light = (lightness(one.colour), lightness(other.colour))
        apart = abs(light[0] - light[1])
        if apart >= CLOSE_BELOW:
            continue
        code, words = ("W602", "will hardly tell") if apart < ALIKE_BELOW else ("N603", "may tell but faintly")
        problems.append(
            Problem(
                code,
                f"{first} and {second} are alike in lightness (L* {light[0]:.0f} and {light[1]:.0f}): {motif} {words}",
                (Label(one.span, f"{one.colour}"), Label(other.span, f"{other.colour}")),
                help="Look at both yarns in a grey photograph; take one darker or one lighter if they run together.",
            )
        )
    return problems
