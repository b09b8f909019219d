"""W610: a swatch's weight and the loop disagree.

What: the grams of the weighed swatch against those reckoned from its gauge and the yarn's length.
Why: the two ways do not know of each other; far apart, one of weight, counts, gauge and yarn count is wrong.
Limit: 20 % of the larger; our choice.
Example: `weight 24.5 g` for 14.5 g. Instead: weigh again without the needle, count again, read the yarn's label.
"""

from __future__ import annotations

from fractions import Fraction

from wale.checks.used import swatches_of
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import show_decimal
from wale.spec import Spec
from wale.write.yarn_lengths import loop_grams

MOST = Fraction(20, 100)


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each used swatch whose weight is far from the loop's."""
    problems = []
    for swatch in swatches_of(spec):
        by_loop = loop_grams(spec, swatch)
        if swatch.weight is None or by_loop is None:
            continue
        weighed = swatch.weight[0]
        apart = abs(weighed - by_loop) / max(weighed, by_loop)
        if apart <= MOST:
            continue
        problems.append(
            Problem(
                "W610",
                f"swatch {swatch.name} weighs {show_decimal(weighed)} g; by its gauge and yarn it should weigh about "
                f"{show_decimal(by_loop)} g ({show_decimal(apart * 100, 0)} % apart)",
                (Label(swatch.span, "weighed"), Label(spec.yarns[swatch.yarns[0]].span, "of this yarn")),
                help="Check weight, stitches and rows of the swatch, its gauge, and the yarn's count and strands. The "
                "pattern asks for the larger of the two.",
            )
        )
    return problems
