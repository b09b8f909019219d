"""Afterthought heels and thumbs: a row of waste yarn where they will be, taken out when the rest is done.

Source: half of the stitches in waste yarn, the loops below and above it taken up, a wedge worked like a toe:
http://cozyspirityarns.blogspot.com/2011/04/starting-forethought-heel.html. A thumb over a fifth of the hand, so that
two fifths go round it: common practice, no source; at the side of the hand, where a wedge top has its decreases.
"""

from __future__ import annotations

from msgspec.structs import replace

from wale.constructions.heels import START
from wale.constructions.toes import WEDGE, WEDGE_NUMBERS, WEDGE_WHY
from wale.course import Course, Final, Number, Part, Passage, rounds, starts_after

LOOPS = "Heel, of the loops on both sides of the waste yarn; above it, take the half loops at the two ends for one:"
AFTERTHOUGHT_HEEL = Course(
    form="afterthought heel",
    in_motif=True,
    modulus=4,
    least=24,
    why="a heel takes half of the stitches, as many at each side of its middle",
    numbers=(Number("heel", "{before} / 2", "sts"), Number("half", "{heel} / 2", "sts")),
    parts=(
        Part(
            "waste",
            (
                Passage("about", "The heel's place, over half of the round:", is_remark=True),
                Passage(
                    "row",
                    "k the next {heel!sts} in waste yarn, put them back and work them again, k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                    when="1 - {motif}",
                ),
                replace(START[1], when="1 - {motif}"),
                Passage(
                    "middle",
                    "Slip the last {half!sts} of the round back, knit them and the next {half!sts} in waste yarn, and "
                    "put these {half!sts} back.",
                    when="{motif}",
                ),
            ),
            folds="heel",
        ),
    ),
)
AFTERTHOUGHT_THUMB = Course(
    form="afterthought thumb",
    in_motif=True,
    modulus=2,
    least=24,
    why="the back as wide as the palm",
    numbers=(
        Number("held", "floor({before} / 5 + 1 / 2)", "sts"),
        Number("cast", "{held}", "sts"),
        Number("lead", "floor({before} / 4) - floor({held} / 2)", "sts"),
        Number("opened", "1", "rows"),
    ),
    parts=(
        Part(
            "waste",
            (
                Passage("about", "The thumb's place:", is_remark=True),
                Passage(
                    "row",
                    "k{lead}, k the next {held!sts} in waste yarn, put them back and work them again, k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                    when="1 - {motif}",
                ),
                Passage(
                    "place",
                    "On the next round, after {lead!sts}, k the next {held!sts} in waste yarn, put them back and go "
                    "on.",
                    when="{motif}",
                ),
            ),
        ),
    ),
)
HEEL_WEDGE = Course(
    form="heel wedge",
    follows=("afterthought heel",),
    modulus=4,
    why=WEDGE_WHY,
    # its loops, which are not the toe's stitches where the gauge changed between them
    numbers=(Number("before", "2 * {heel}", "sts"), *WEDGE_NUMBERS),
    parts=(
        Part(
            "wedge",
            (
                Passage("heel", LOOPS, is_remark=True),
                Passage("open", "Take out the waste yarn: {heel!sts} below and {heel} above."),
                starts_after("quarter"),
                *WEDGE,
                starts_after("end", "end"),
                Passage("graft", "Graft {side!sts} to {side!sts}."),
            ),
            is_aside=True,
        ),
    ),
    final=Final("left", is_drawn=False),
)
