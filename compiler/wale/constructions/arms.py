"""Sleeves of seamless pullovers that are worked from the neck down: what is held for them, and how they are worked."""

from __future__ import annotations

from wale.constructions.phases import phase, spread
from wale.course import Course, Final, Girth, Loop, Number, Part, Passage, rounds, starts_after

ARMS = (
    Number("sleeve", "2 * floor({sleeves} * {sts_per_cm} / 2 + 1 / 2)", "sts"),
    Number("under", "2 * floor({underarm} * {sts_per_cm} / 2 + 1 / 2)", "sts"),
    Number("rounds", "floor({over} * {rows_per_cm} + 1 / 2)", "rounds"),
)
"""The sleeve where it parts from the body, what of it lies under the arm, and the rounds of the yoke."""


def parting(words: str) -> Part:
    """Give the round on which body and sleeves part; lengths are measured from it on."""
    return Part(
        "divide",
        (
            Passage("about", "Body and sleeves part:", is_remark=True),
            Passage("divide", words, "Next round", rounds("{after}", "1")),
        ),
        folds="underarm",
    )


_LOSE = "k1, k2tog, k to the last 3 sts, ssk, k1."
SLEEVES = Course(
    form="sleeves to WIDTH over LENGTH",
    options=("cuff LENGTH",),
    example="sleeves to wrist over 42 cm, cuff 6 cm",
    follows=("raglan to WIDTH over LENGTH", "yoke to WIDTH over LENGTH"),
    numbers=(
        Number("wrist", "2 * floor({to} * {sts_per_cm} / 2 + 1 / 2)", "sts"),
        Number("losses", "max(1, ({sleeve} - {wrist}) / 2)", "times"),
        Number("end", "{sleeve} - 2 * {losses}", "sts"),
        Number("cuff_rounds", "floor({cuff} * {rows_per_cm} + 1 / 2)", "rounds"),
        Number("taper", "max({losses}, floor({over} * {rows_per_cm} + 1 / 2) - {cuff_rounds})", "rounds"),
        Number("lead", "{held} + {under} / 2", "sts"),
        Number("ends", "2 * {end}", "sts"),
        *spread("{taper}", "{losses}"),
    ),
    parts=(
        Part(
            "sleeves",
            (
                Loop(
                    "2",
                    (),
                    (
                        Passage("about", "Sleeve {n}:", is_remark=True),
                        Passage("take", "Take up the {held} held sts."),
                        Passage("pick", "Pick up and knit {under!sts} along the underarm."),
                        starts_after("lead"),
                        *phase("early", _LOSE, "{sleeve}", -2, is_late=False),
                        *phase("late", _LOSE, "{sleeve} - 2 * {early}", -2, is_late=True),
                        Passage(
                            "cuff",
                            "Work {cuff_rounds!rounds} in 1x1 rib.",
                            made=rounds("{end}", "{cuff_rounds}"),
                            fabric="rib 1x1",
                        ),
                        Passage("off", "Bind off all {end!sts} in {yarn}, loosely in rib."),
                    ),
                ),
            ),
            is_aside=True,
            girths=(
                Girth("sleeve", "sleeve", "sleeves", "0"),
                Girth("cuff", "end", "to", "{taper} + {cuff_rounds}", is_edge=True),
            ),
        ),
    ),
    final=Final("ends", is_drawn=False),
)
