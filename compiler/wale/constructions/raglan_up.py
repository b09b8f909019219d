"""A raglan from the hem up, in the round: body and sleeves are joined, and narrow at four lines up to the neck.

Sources: body, sleeves and their order in the round, decreases at both sides of each line:
https://knitty.com/ISSUEspring06/PATTttwist.html; eight stitches in each such round:
http://cs.oswego.edu/~ebozak/knit/ck-patterns/aran/part22.html. A raglan lies flat where every second round is one of
them; slower at the underarm and faster towards the neck: our choice, no source.
"""

from __future__ import annotations

from wale.constructions.phases import phase, spread
from wale.course import Bound, Course, Number, Part, Passage, rounds, starts_after

LEFT = 4
"""Stitches that each of the four parts keeps at least: those of the raglan lines, and a decrease at either end."""
_LOSE = "(k to 3 sts before the marker, k2tog, k1, slip the marker, k1, ssk) 4 times, k to the end."
RAGLAN_UP = Course(
    form="raglan up to WIDTH over LENGTH",
    example="raglan up to neck-base over armhole-depth",
    to="to",
    is_joined=True,
    least=32,
    fixed=(Number("rounds", "floor({over} * {rows_per_cm} + 1 / 2)", "rounds"),),
    step=8,
    bounds=(
        Bound(1, -1, "", "-8", "a raglan loses eight stitches at least"),
        Bound(1, -1, "-8 * ({rounds} - 2)", "", "a round loses eight stitches, and there are no more rounds"),
        Bound(1, -1, f"4 * {LEFT}", "", f"{LEFT} stitches of each sleeve are left at the neck", arm=4),
        Bound(1, 1, f"4 * {LEFT}", "", f"{LEFT} stitches of front and back are left at the neck", arm=-4),
    ),
    numbers=(
        Number("half", "{before} / 2 - {arm}", "sts"),
        Number("rest", "floor({half} / 2)", "sts"),
        Number("ahead", "{before} - {rest}", "sts"),
        Number("losses", "({before} - {after}) / 8", "times"),
        Number("arm_left", "{arm} - 2 * {losses}", "sts"),
        Number("half_left", "{half} - 2 * {losses}", "sts"),
        Number("shaped", "{rounds} - 2", "rounds"),
        *spread("{shaped}", "{losses}"),
    ),
    parts=(
        Part(
            "yoke",
            (
                Passage("about", "Raglan; rounds begin in the middle of the back:", is_remark=True),
                starts_after("ahead"),
                Passage(
                    "markers",
                    "k{rest}, place a marker, k{arm}, place a marker, k{half}, place a marker, k{arm}, place a marker, "
                    "k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                    marks=("{rest}", "{arm}", "{half}", "{arm}"),
                ),
                *phase("late", _LOSE, "{before}", -8, is_late=True),
                *phase("early", _LOSE, "{before} - 8 * {late}", -8, is_late=False),
                Passage(
                    "unmarked",
                    "(k to the marker, remove the marker) 4 times, k to the end. {after!sts}.",
                    "Next round",
                    rounds("{after}", "1"),
                ),
            ),
            is_shaped=True,
        ),
    ),
)
