"""A raglan from the neck down, in the round: yoke, division, and sleeves worked from the held stitches.

Sources: eight stitches gained in each increase round, two at each of four lines:
http://cs.oswego.edu/~ebozak/knit/ck-patterns/aran/part22.html; front and back as wide as each other at the neck, no
stitch of the lowered front neck: our choice. All counts agree by
after - before = 8 increases - 2 sleeves + 4 underarms, where a sleeve is what is held and its underarm.
"""

from __future__ import annotations

from wale.constructions.phases import phase, spread
from wale.course import Course, Final, Loop, Number, Part, Passage, rounds

_GAIN = "(k to 1 st before the marker, m1R, k1, slip the marker, k1, m1L) 4 times, k to the end."
RAGLAN = Course(
    form="raglan to WIDTH over LENGTH",
    options=("sleeves WIDTH", "underarm WIDTH"),
    example="raglan to bust over armhole-depth, sleeves upper-arm, underarm 5 cm",
    to="to",
    modulus=2,
    least=24,
    why="front and back alike",
    fixed=(
        Number("sleeve", "2 * floor({sleeves} * {sts_per_cm} / 2 + 1 / 2)", "sts"),
        Number("under", "2 * floor({underarm} * {sts_per_cm} / 2 + 1 / 2)", "sts"),
        Number("rounds", "floor({over} * {rows_per_cm} + 1 / 2)", "rounds"),
        Number("most", "min({rounds} - 1, floor(({sleeve} - {under} - 2) / 2))", "times"),
    ),
    step=8,
    offset="4 * {under} - 2 * {sleeve}",
    most="{most}",
    most_why="increases that fit in the rounds, and that leave two stitches of a sleeve at the neck",
    numbers=(
        Number("gains", "({after} - {before} + 2 * {sleeve} - 4 * {under}) / 8", "times"),
        Number("held", "{sleeve} - {under}", "sts"),
        Number("cap", "{held} - 2 * {gains}", "sts"),
        Number("back", "({before} - 2 * {cap}) / 2", "sts"),
        Number("start", "floor({back} / 2)", "sts"),
        Number("all", "{before} + 8 * {gains}", "sts"),
        Number("shaped", "{rounds} - 1", "rounds"),
        *spread("{shaped}", "{gains}"),
    ),
    parts=(
        Part(
            "yoke",
            (
                Passage(
                    "about",
                    "Raglan, from the middle of the back, the neck as high in front as behind; front and back lie "
                    "between the sleeves:",
                    is_remark=True,
                ),
                Passage(
                    "markers",
                    "k{start}, place a marker, k{cap}, place a marker, k{back}, place a marker, k{cap}, place a "
                    "marker, k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                ),
                *phase("early", _GAIN, "{before}", 8, is_late=False),
                *phase("late", _GAIN, "{before} + 8 * {early}", 8, is_late=True),
                Passage("all", "There are {all!sts}."),
            ),
            is_shaped=True,
        ),
        Part(
            "divide",
            (
                Passage("about", "Body and sleeves part:", is_remark=True),
                Passage(
                    "divide",
                    "k to the marker, remove the marker, put the next {held} sts on a holder, remove the marker, "
                    "cast on {under} sts, k to the marker, remove the marker, put the next {held} sts on a holder, "
                    "remove the marker, cast on {under} sts, k to the end. {after!sts}.",
                    "Next round",
                    rounds("{after}", "1"),
                ),
            ),
            folds="underarm",
        ),
    ),
)
_LOSE = "k1, k2tog, k to the last 3 sts, ssk, k1."
SLEEVES = Course(
    form="sleeves to WIDTH over LENGTH",
    options=("cuff LENGTH",),
    example="sleeves to wrist over 42 cm, cuff 6 cm",
    follows="raglan to WIDTH over LENGTH",
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
                        Passage("start", "Knit {lead!sts}; the round starts here."),
                        *phase("early", _LOSE, "{sleeve}", -2, is_late=False),
                        *phase("late", _LOSE, "{sleeve} - 2 * {early}", -2, is_late=True),
                        Passage("cuff", "Work {cuff_rounds} rounds in 1x1 rib.", made=rounds("{end}", "{cuff_rounds}")),
                        Passage("off", "Bind off all {end!sts} in {yarn}, loosely in rib."),
                    ),
                ),
            ),
            is_aside=True,
        ),
    ),
    final=Final("ends", is_drawn=False),
)
