"""Toes of socks and tops of mittens: four stitches less in each decrease round, two at each side.

A toe from its tip up gains them in the opposite order.

Source: on every other round, then on every round: http://gentlegull.blogspot.com/2012/02/; until a quarter of the
stitches are left: common practice, no source.
"""

from __future__ import annotations

from wale.course import Bound, Course, Final, Made, Number, Part, Passage, rounds, starts_after

_PAIR = "k to 3 sts before the marker, k2tog, k1, slip the marker, k1, ssk, "
WEDGE = (
    Passage("about", "Decreases at both sides, two stitches beside each marker:", is_remark=True),
    Passage(
        "markers",
        "k{quarter}, place a marker, k{half}, place a marker, k{quarter}.",
        "Next round",
        (Made("{before}", "{before}"),),
        marks=("{quarter}", "{half}"),
    ),
    Passage("decrease", f"{_PAIR}{_PAIR}k to the end.", "Round 1", (Made("{before} - 4", "{before} - 4"),)),
    Passage("plain", "knit.", "Round 2", (Made("{before} - 4", "{before} - 4"),)),
    Passage(
        "again",
        "Repeat rounds 1 and 2 {again!times} more. {middle!sts}.",
        made=rounds("{before} - 4 - 4 * ceil({i} / 2)", "2 * {again}"),
        when="{again}",
    ),
    Passage(
        "close",
        "Repeat round 1 {close!times}. {left!sts}.",
        made=rounds("{middle} - 4 * {i}", "{close}"),
        when="{close}",
    ),
)
"""The lines of a wedge, from the middle of one of its sides."""
WEDGE_NUMBERS = (
    Number("quarter", "{before} / 4", "sts"),
    Number("half", "{before} / 2", "sts"),
    Number("left", "max(8, 4 * ceil({before} / 16))", "sts"),
    Number("decreases", "({before} - {left}) / 4", "times"),
    Number("slow", "ceil({decreases} / 2)", "times"),
    Number("again", "{slow} - 1", "times"),
    Number("middle", "{before} - 4 * {slow}", "sts"),
    Number("close", "{decreases} - {slow}", "times"),
    Number("side", "{left} / 2", "sts"),
    Number("end", "{left} / 4", "sts"),
)
"""Its numbers."""
WEDGE_WHY = "as many stitches above as below, in two halves each"
TOE = Course(
    form="toe wedge",
    modulus=4,
    least=12,
    why=WEDGE_WHY,
    numbers=WEDGE_NUMBERS,
    parts=(
        Part(
            "toe",
            (
                *WEDGE,
                starts_after("end"),
                Passage("graft", "Graft {side!sts} to {side!sts}."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("left", is_drawn=False),
)
TOP = Course(
    form="top wedge",
    modulus=4,
    least=12,
    why=WEDGE_WHY,
    numbers=WEDGE_NUMBERS,
    parts=(Part("top", (*WEDGE, Passage("draw", "Draw the yarn through the last {left!sts}.")), is_shaped=True),),
    final=Final("left", is_drawn=True),
)
TOE_UP = Course(
    form="toe to WIDTH",
    example="toe to ankle",
    to="to",
    begins="closed",
    modulus=4,
    least=8,
    why=WEDGE_WHY,
    step=4,
    bounds=(Bound(1, -1, "8", "", "a toe gains eight stitches at least"),),
    numbers=(
        Number("half", "{before} / 2", "sts"),
        Number("gains", "({after} - {before}) / 4", "times"),
        Number("fast", "floor({gains} / 2)", "times"),
        Number("fast_again", "{fast} - 1", "times"),
        Number("slow", "{gains} - {fast}", "times"),
        Number("middle", "{before} + 4 * {fast}", "sts"),
    ),
    parts=(
        Part(
            "toe",
            (
                Passage("about", "Toe, from its tip; the first half of the round is the sole:", is_remark=True),
                Passage(
                    "marker",
                    "k{half}, place a marker, k{half}.",
                    "Next round",
                    rounds("{before}", "1"),
                    marks=("{half}",),
                ),
                Passage(
                    "gain",
                    "k1, m1L, k to 1 st before the marker, m1R, k1, slip the marker, k1, m1L, k to the last 1 st, m1R, "
                    "k1.",
                    "Round 1",
                    rounds("{before} + 4", "1"),
                ),
                Passage(
                    "fast",
                    "Repeat round 1 {fast_again!times} more. {middle!sts}.",
                    made=rounds("{before} + 4 + 4 * {i}", "{fast_again}"),
                    when="{fast_again}",
                ),
                Passage("plain", "knit.", "Round 2", rounds("{middle}", "1")),
                Passage(
                    "slow",
                    "Repeat rounds 1 and 2 {slow!times}. {after!sts}.",
                    made=rounds("{middle} + 4 * ceil({i} / 2)", "2 * {slow}"),
                ),
                Passage(
                    "end",
                    "k to the marker, remove the marker, k to the end.",
                    "Next round",
                    rounds("{after}", "1"),
                ),
            ),
            is_shaped=True,
        ),
    ),
)
