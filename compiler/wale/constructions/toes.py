"""Toes of socks and tops of mittens: four stitches less in each decrease round, two at each side.

Source: on every other round, then on every round: http://gentlegull.blogspot.com/2012/02/; until a quarter of the
stitches are left: common practice, no source.
"""

from __future__ import annotations

from wale.course import Course, Final, Made, Number, Part, Passage, rounds

_PAIR = "k to 3 sts before the marker, k2tog, k1, slip the marker, k1, ssk, "
_LINES = (
    Passage("about", "Decreases at both sides, two stitches beside each marker:", is_remark=True),
    Passage(
        "markers",
        "k{quarter}, place a marker, k{half}, place a marker, k{quarter}.",
        "Next round",
        (Made("{before}", "{before}"),),
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
_NUMBERS = (
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
_WHY = "as many stitches above as below, in two halves each"
TOE = Course(
    form="toe wedge",
    modulus=4,
    least=12,
    why=_WHY,
    numbers=_NUMBERS,
    parts=(
        Part(
            "toe",
            (
                *_LINES,
                Passage("start", "Knit {end!sts}; the round starts here."),
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
    why=_WHY,
    numbers=_NUMBERS,
    parts=(Part("top", (*_LINES, Passage("draw", "Draw the yarn through the last {left!sts}.")), is_shaped=True),),
    final=Final("left", is_drawn=True),
)
