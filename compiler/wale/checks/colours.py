"""W602, N603, W615 and W616: two yarns of a row that are too alike, to all eyes, in grey, or to colour-blind ones.

What: the difference of L* and CIEDE2000 between the yarns that meet in a row of a motif, the latter also as simulated
for the three common kinds of colour blindness.
Why: colours of one lightness run together at a distance, however different their hues (stranded knitters compare them
in a grey photograph: https://www.deviantstitches.com/2012/05/finding-contrast.html).
Limits: in lightness a warning below 20, a note below 30; in CIEDE2000 a warning below 10; our choice, no published
figure was found.
Example: #8a5a2b with #7a6a4a. Instead: a darker or a lighter yarn for one of the two.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from wale.checks.used import Worked, motifs_worked
from wale.colour import ALIKE_BELOW, CLOSE_BELOW, SAME_BELOW, SIGHTS, Apart, apart, lightness
from wale.materials import Yarn
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.spec import Spec


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each pair of yarns once, in lightness and for colour-blind eyes."""
    problems = []
    for (first, second), motif in pairs(motifs_worked(spec, plan)).items():
        one, other = spec.yarns[first], spec.yarns[second]
        if abs(lightness(one.colour) - lightness(other.colour)) < CLOSE_BELOW:
            problems += _close(one, other, motif, apart(one.colour, other.colour))
    return problems


def pairs(worked: Sequence[Worked]) -> dict[tuple[str, str], str]:
    """Give the pairs of yarns that meet in a row, each with the first motif in which they do, in order."""
    found: dict[tuple[str, str], str] = {}
    for one in worked:
        for row in one.motif.rows:
            for first, second in combinations([yarn for yarn, _ in one.motif.marks if yarn in row], 2):
                if (second, first) not in found:
                    found.setdefault((first, second), one.motif.name)
    return found


def _close(one: Yarn, other: Yarn, motif: str, found: Apart) -> list[Problem]:
    names, light = f"{one.name} and {other.name}", f"L* {found.lights[0]:.0f} and {found.lights[1]:.0f}"
    labels = (Label(one.span, one.colour), Label(other.span, other.colour))
    if found.difference < SAME_BELOW:
        message = f"{names} are hardly different (CIEDE2000 {found.difference:.0f}, {light}): {motif} will not tell"
        return [Problem("W615", message, labels, help="Take another yarn for one of the two.")]
    code, words = ("W602", "will hardly tell") if found.grey < ALIKE_BELOW else ("N603", "may tell but faintly")
    message = f"{names} are alike in lightness ({light}): {motif} {words}"
    help = "Look at both yarns in a grey photograph; take one darker or one lighter if they run together."
    problems = [Problem(code, message, labels, help=help)]
    if found.blind:
        figures = ", ".join(
            f"{seen:.0f} to {name} ones"
            for name, seen in zip(SIGHTS.values(), found.seen, strict=True)
            if name in found.blind
        )
        eyes = " and ".join(found.blind)
        message = f"{names} are alike to {eyes} eyes (CIEDE2000 {found.difference:.0f} to most eyes, {figures})"
        help = "Take one darker or one lighter: a difference of lightness is seen by everyone."
        problems.append(Problem("W616", message, labels, help=help))
    return problems
