"""W610: a swatch's weight and the loop disagree. W614: what a test knit weighed is far from its estimate.

What: the grams of the weighed swatch against those reckoned from its gauge and the yarn's length; the likely cause.
Why: the two ways do not know of each other; far apart, one of weight, counts, gauge and yarn count is wrong.
W614 holds the weight of a `knitted` line against the estimate of that piece in that size; the pattern takes what was
weighed.
Limit: 20 % of the larger; our choice. A cause is named where it would bring both within 10 % (our choice).
Example: `weight 24.5 g` for 14.5 g. Instead: weigh again without the needle, count again, read the yarn's label.
"""

from __future__ import annotations

import re
from fractions import Fraction

from wale.checks.used import swatches_of
from wale.materials import Swatch
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import show_decimal
from wale.spec import Spec
from wale.write.yarn_lengths import loop_grams

MOST = Fraction(20, 100)
NEAR = Fraction(10, 100)
LIGHT_G = 8
"""Below so many grams the scale's own half gram is over 6 %."""
_FOLDED = re.compile(r"([0-9]+)/([0-9]+)")


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each used swatch whose weight is far from the loop's, and of test knits far from their estimate."""
    problems = _of_test_knits(spec, plan)
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
                help=f"{likely_cause(spec, swatch, weighed / by_loop)} Check weight, stitches and rows of the swatch, "
                "its gauge, and the yarn's count and strands. The pattern asks for the larger of the two.",
            )
        )
    return problems


def _of_test_knits(spec: Spec, plan: Plan) -> list[Problem]:
    if not any(piece.knitted for piece in spec.pieces) and not any(band.knitted for band in spec.bands):
        return []
    from wale.write.as_knitted import knitted_of, place_names, test_knit

    problems = []
    for number, name in enumerate(place_names(plan)):
        for one in knitted_of(spec, name):
            ways = [way.middle for way in test_knit(spec, plan, number, one)[0].known]
            shares = [(abs(one.grams - way) / max(one.grams, way), way) for way in ways]
            apart, nearest = min(shares, default=(Fraction(0), Fraction(0)))
            if apart <= MOST:
                continue
            problems.append(
                Problem(
                    "W614",
                    f"{name}: {show_decimal(one.grams, 0)} g as knitted, about {show_decimal(nearest, 0)} g as "
                    f"estimated in size {one.size} ({show_decimal(apart * 100, 0)} % apart)",
                    (Label(one.span, "weighed"),),
                    help="Is it one piece, dry and without needles, in this size? The yarn is reckoned from what was "
                    "weighed; if it stands, check the swatch's weight and the yarn's count.",
                )
            )
    return problems


def likely_cause(spec: Spec, swatch: Swatch, ratio: Fraction) -> str:
    """Give the cause that would explain best that a swatch weighs `ratio` times what the loop says."""
    yarn = spec.yarns[swatch.yarns[0]]
    assert swatch.weight is not None
    for strands in (1, 2, 3, 4):
        if not yarn.held and strands != yarn.strands and _is_near(ratio, Fraction(strands, yarn.strands)):
            held = "one strand" if strands == 1 else f"{strands} strands together"
            return f"It weighs as if {held} of {yarn.name} had been knitted."
    if (folded := _FOLDED.search(yarn.count)) is not None and "tex" not in yarn.count and "den" not in yarn.count:
        fold, single = sorted(int(number) for number in folded.groups())
        if fold and _is_near(ratio, Fraction(single, fold) ** 2):
            return f"It weighs as if {yarn.count} were {single} strands of {fold}."
        if fold > 1 and _is_near(ratio, Fraction(1, fold)):
            return f"It weighs as if {yarn.name} were a single yarn of number {single}."
    if swatch.weight[0] < LIGHT_G:
        return f"A swatch below {LIGHT_G} g is hard to weigh: weigh a larger one."
    if not swatch.is_washed:
        return "Its gauge was never washed: fabric off the needle may not yet be at rest."
    if swatch.stitch != "stockinette" and swatch.motif is None:
        return f"The loop is reckoned as in plain knitting, and {swatch.stitch} may differ."
    if swatch.motif is not None and ratio > 1:
        return "Strands that are carried loosely, or woven in often, weigh more; or edges were weighed and not counted."
    if ratio > 1:
        return "It weighs more than its stitches: perhaps cast-on, edges or a needle were weighed and not counted."
    return "It weighs less than its stitches: perhaps stitches were counted that were not weighed."


def _is_near(ratio: Fraction, other: Fraction) -> bool:
    return abs(ratio - other) <= NEAR * other
