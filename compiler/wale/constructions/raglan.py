"""A raglan from the neck down, in the round: the yoke, and where body and sleeves part.

Sources: eight stitches gained in each increase round, two at each of four lines:
http://cs.oswego.edu/~ebozak/knit/ck-patterns/aran/part22.html; front and back as wide as each other at the neck, no
stitch of the lowered front neck: our choice. All counts agree by
after - before = 8 increases - 2 sleeves + 4 underarms, where a sleeve is what is held and its underarm.
"""

from __future__ import annotations

from wale.constructions.arms import ARMS, parting
from wale.constructions.phases import phase, spread
from wale.course import Bound, Course, Number, Part, Passage, rounds

_GAIN = "(k to 1 st before the marker, m1R, k1, slip the marker, k1, m1L) 4 times, k to the end."
RAGLAN = Course(
    form="raglan to WIDTH over LENGTH",
    options=("sleeves WIDTH", "underarm WIDTH"),
    example="raglan to bust over armhole-depth, sleeves upper-arm, underarm 5 cm",
    to="to",
    modulus=2,
    least=24,
    why="front and back alike",
    fixed=ARMS,
    step=8,
    offset="4 * {under} - 2 * {sleeve}",
    bounds=(
        Bound(1, -1, "8 + 4 * {under} - 2 * {sleeve}", "", "a raglan gains eight stitches at least"),
        Bound(
            1,
            -1,
            "",
            "8 * ({rounds} - 1) + 4 * {under} - 2 * {sleeve}",
            "a round gains eight stitches, and there are no more rounds",
        ),
        Bound(1, -1, "", "2 * {sleeve} - 8", "two stitches of each sleeve are left at the neck"),
        Bound(1, 1, "2 * {sleeve} + 16", "", "four stitches of front and back are left at the neck"),
    ),
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
                    "Raglan, from the middle of the back; front and back are alike, between the sleeves:",
                    is_remark=True,
                ),
                Passage(
                    "markers",
                    "k{start}, place a marker, k{cap}, place a marker, k{back}, place a marker, k{cap}, place a "
                    "marker, k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                    marks=("{start}", "{cap}", "{back}", "{cap}"),
                ),
                *phase("early", _GAIN, "{before}", 8, is_late=False),
                *phase("late", _GAIN, "{before} + 8 * {early}", 8, is_late=True),
                Passage("all", "There are {all!sts}."),
            ),
            is_shaped=True,
        ),
        parting(
            "k to the marker, remove the marker, put the next {held} sts on a holder, remove the marker, "
            "cast on {under} sts, k to the marker, remove the marker, put the next {held} sts on a holder, "
            "remove the marker, cast on {under} sts, k to the end. {after!sts}."
        ),
    ),
)
