"""Toy balls, in the round from tip to tip in eight segments.

A round at an angle a from the tip is 2 pi r sin a long, and the rounds lie half a great circle deep. For sin a stands
Bhaskara's fraction 16 u / (5 - 4 u), u = x (1 - x) of the way x from tip to tip
(https://en.wikipedia.org/wiki/Bhaskara_I's_sine_approximation_formula, within a sixth of a percent of the radius),
so that u = 5 y / (16 + 4 y) for a round of the share y of the widest one.
"""

from __future__ import annotations

from wale.constructions.segments import LAST, LOSE
from wale.course import Course, Final, Loop, Number, Part, Passage, rounds


def _below(stitches: str) -> str:
    """Rounds below the place where a segment would have so many stitches."""
    share = f"(({stitches}) / {{widest}})"
    return f"floor({{rounds}} / 2 - root({{rounds}} * {{rounds}} * max(0, 1 - 20 * {share} / (16 + 4 * {share}))) / 2)"


def _rounds(segment: str) -> str:
    """Rounds of so many stitches in a segment, from half a stitch less to half a stitch more, with the change."""
    return f"max(1, {_below(f'{segment} + 1 / 2')} - {_below(f'{segment} - 1 / 2')})"


BALL = Course(
    form="ball across WIDTH",
    example="ball across 9 cm",
    begins="closed",
    modulus=8,
    least=8,
    why="eight segments",
    numbers=(
        Number("first", "{before} / 8", "sts"),
        Number("widest", "max({first} + 1, floor({across} * {sts_per_cm} * 355 / 113 / 8 + 1 / 2))", "sts"),
        Number("rounds", "max(2 * {widest}, floor({across} * {rows_per_cm} * 355 / 226 + 1 / 2))", "rounds"),
        Number("tip", f"max(1, {_below('{first} + 1 / 2')})", "rounds"),
        Number("steps", "{widest} - {first}", "times"),
        Number("middle", f"max(1, {{rounds}} - 2 * {_below('{widest} - 1 / 2')})", "rounds"),
    ),
    parts=(
        Part(
            "ball",
            (
                Passage("about", "A ball in eight segments, from tip to tip:", is_remark=True),
                Passage("tip", "Knit {tip!rounds}.", made=rounds("{before}", "{tip}")),
                Loop(
                    "{steps}",
                    (
                        Number("knit", "{first} + {n} - 1", "sts"),
                        Number("total", "8 * {knit} + 8", "sts"),
                        Number("top", "max(0, {n} + 1 - {steps})", "times"),
                        Number(
                            "rest",
                            f"(1 - {{top}}) * {_rounds('({knit} + 1)')} + {{top}} * {{middle}} - 1",
                            "rounds",
                        ),
                    ),
                    (
                        Passage("gain", "(k{knit}, m1) 8 times. {total!sts}.", "Next round", rounds("{total}", "1")),
                        Passage("wider", "Knit {rest!rounds}.", made=rounds("{total}", "{rest}"), when="{rest}"),
                    ),
                    by="knit",
                ),
                Passage(
                    "stuff",
                    "Note (not proven): it narrows now; stuff it firmly and evenly while the opening is wide enough. "
                    "For small children stuffing must not come out, and nothing may be small enough to swallow: 16 CFR "
                    "1501 (US, toys for under 3 years) calls small what fits a cylinder 31.7 mm across; EN 71 (EU) has "
                    "rules for toys. Check the code in force, and ask a qualified person.",
                    is_remark=True,
                ),
                Loop(
                    "{steps}",
                    (
                        Number("left", "{widest} - {n}", "sts"),
                        Number("knit", "{left} - 1", "sts"),
                        Number("total", "8 * {left}", "sts"),
                        Number("end", "max(0, {n} + 1 - {steps})", "times"),
                        Number("rest", f"(1 - {{end}}) * {_rounds('{left}')} + {{end}} * {{tip}} - 1", "rounds"),
                    ),
                    (
                        LOSE,
                        LAST,
                        Passage("narrower", "Knit {rest!rounds}.", made=rounds("{total}", "{rest}"), when="{rest}"),
                    ),
                    by="left",
                ),
                Passage("draw", "Draw the yarn through the last {before!sts}."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("before", is_drawn=True),
)
