"""W604, N605, W611 and W261: a swatch that hardly can be as written, was never washed, or is none of its band.

What: rows per stitch of a fabric, and the stitches of stockinette against what its yarn usually gives.
Why: a slip in a count or unit changes every length of the garment, and so may the first wash.
Limits: 1.1 to 1.7 rows to a stitch in stockinette, 0.9 to 1.7 in stranded motifs, which come near to square (common
practice, no source); for the yarn the Craft Yarn Council's weight classes, a fifth beyond them (the fifth: our choice).
Example: `washed 27 sts and 83 rows in 10 cm`. Instead: measure again, in the middle, after washing.
"""

from __future__ import annotations

from fractions import Fraction

from wale.checks.used import swatches_of
from wale.materials import Gauge, Swatch
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import show_decimal
from wale.spec import Spec
from wale.yarn import classes_by_metres

RATIOS = {"stockinette": (Fraction(11, 10), Fraction(17, 10)), "motif": (Fraction(9, 10), Fraction(17, 10))}
BEYOND = Fraction(1, 5)
FOUR_INCHES = Fraction("10.16")


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at each swatch that is used."""
    problems = []
    for swatch in swatches_of(spec):
        for gauge in dict.fromkeys((swatch.washed, swatch.counted)):
            if gauge is not None and swatch.stitch in RATIOS:
                problems += _ratio(swatch, gauge)
        if not swatch.is_washed:
            problems.append(_unwashed(swatch))
        if swatch.stitch == "stockinette":
            problems += _class(spec, swatch)
    return [*problems, *_bands(spec, plan)]


def usual_ratio(swatch: Swatch) -> tuple[Fraction, Fraction] | None:
    """Give the least and greatest usual rows to a stitch of a swatch's fabric, None where no figure is known."""
    return RATIOS.get(swatch.stitch)


def _bands(spec: Spec, plan: Plan) -> list[Problem]:
    """Look at each band, which is known to be worked flat or in the round once its edges are."""
    is_flat = {band.name: band.is_flat for band in plan.bands}
    found = []
    for band in spec.bands:
        swatch = spec.swatches[band.swatch]
        if band.name in is_flat and swatch.in_round == is_flat[band.name]:
            needs, has = ("flat", "in the round") if swatch.in_round else ("in the round", "flat")
            why = f"the band {band.name} is worked {needs}, and the swatch `{swatch.name}` {has}"
            labels = (Label(band.span, "another tension"), Label(swatch.span, "the swatch"))
            help = "Knit a swatch the way the band is worked: stitches and rows differ."
            found.append(Problem("W261", why, labels, help=help))
    return found


def _unwashed(swatch: Swatch) -> Problem:
    return Problem(
        "W611",
        f"swatch {swatch.name} was never washed; its gauge off the needle is used",
        (Label(swatch.washed.span, "off the needle"),),
        help="Wash and dry it as the garment will be, measure again, and write such as "
        "`washed 40 sts = 13.6 cm, 40 rows = 12.2 cm`.",
    )


def _ratio(swatch: Swatch, gauge: Gauge) -> list[Problem]:
    low, high = RATIOS[swatch.stitch]
    ratio = gauge.rows / gauge.stitches
    if low <= ratio <= high:
        return []
    return [
        Problem(
            "W604",
            f"swatch {swatch.name} has {show_decimal(ratio, 2)} rows to a stitch; {show_decimal(low)} to "
            f"{show_decimal(high)} is usual",
            (Label(gauge.span, f"{show_decimal(ratio, 2)} rows to the width of a stitch"),),
            help="Count again: stitches across, rows upwards, and the unit. If it is right, nothing is wrong.",
        )
    ]


def _class(spec: Spec, swatch: Swatch) -> list[Problem]:
    yarn = spec.yarns[swatch.yarns[0]]
    classes = classes_by_metres(yarn.metres_per_100g / yarn.strands) if yarn.metres_per_100g else ()
    lows = [one.stitches[0] for one in classes]
    highs = [one.stitches[1] for one in classes]
    got = swatch.washed.stitches * FOUR_INCHES
    low = min((one for one in lows if one is not None), default=None) if None not in lows else None
    high = max((one for one in highs if one is not None), default=None) if None not in highs else None
    loose = low is not None and got < low * (1 - BEYOND)
    tight = high is not None and got > high * (1 + BEYOND)
    if not (loose or tight):
        return []
    usual = f"{show_decimal(low, 0) if low else 'any'} to {show_decimal(high, 0) if high else 'any'}"
    return [
        Problem(
            "N605",
            f"swatch {swatch.name} has {show_decimal(got, 0)} sts in 4 inches; a yarn like {yarn.name} usually gives "
            f"{usual}",
            (Label(swatch.washed.span, "this gauge"), Label(yarn.span, "this yarn")),
            help="Check the gauge, the yarn's count and its strands. Lace and felt are knitted loose on purpose.",
        )
    ]
