"""Half circles from the middle of the straight side outwards.

Source: twice as far out the edge is twice as long, so the stitches inside the borders are doubled whenever the rows
are: E. Zimmermann's rule, in half as at
https://rhyflowerknits.com/shawl-shaping-101-half-pi/ (9, 17, 29, 53, 101, 197 sts); two plain rows first: our choice.
"""

from __future__ import annotations

from wale.constructions.shawls import back
from wale.course import Course, Final, Loop, Made, Number, Part, Passage


def _row(slot: str, lead: str, words: str, stitches: str, side: str, when: str = "1") -> Passage:
    return Passage(slot, words, lead, (Made(stitches, stitches, sides=(side,)),), when)


HALF_CIRCLE = Course(
    form="half circle over LENGTH",
    example="half circle over 60 cm",
    in_round=False,
    in_garter=True,
    least=7,
    why="two borders of two stitches, and three between them",
    numbers=(
        Number("pairs", "max(2, floor({over} * {rows_per_cm} / 2 + 1 / 2))", "times"),
        Number("gains", "doublings({pairs})", "times"),
        Number("body", "{before} - 3", "sts"),
        Number("all", "power(2, {gains}) * {body} + 5", "sts"),
    ),
    parts=(
        Part(
            "half-circle",
            fabric="",
            lines=(
                Passage(
                    "about",
                    "A half circle; the stitches are doubled whenever the rows are. Rows are arcs round its middle; "
                    "the schematic draws them straight:",
                    is_remark=True,
                ),
                _row("first", "Row 1 (RS)", "knit.", "{before}", "RS"),
                *back("second", "Row 2 (WS)", "{before}"),
                Loop(
                    "{gains}",
                    (
                        Number("total", "power(2, {n}) * {body} + 5", "sts"),
                        Number("again", "min(power(2, {n}), {pairs} + 1 - power(2, {n})) - 1", "times"),
                        Number("start", "max(0, 2 - {n})", "times"),
                    ),
                    (
                        _row(
                            "begin",
                            "Next row (RS)",
                            "k1, (yo, k1) to the end. {total!sts}.",
                            "{total}",
                            "RS",
                            when="{start}",
                        ),
                        _row(
                            "gain",
                            "Next row (RS)",
                            "k3, (yo, k1) to the last 2 sts, k2. {total!sts}.",
                            "{total}",
                            "RS",
                            when="1 - {start}",
                        ),
                        *back("back", "Next row (WS)", "{total}"),
                        Passage(
                            "again",
                            "Repeat rows 1 and 2 {again!times}.",
                            made=(Made("{total}", "{total}", "2 * {again}", ("RS", "WS")),),
                            when="{again}",
                        ),
                    ),
                ),
                Passage("off", "Bind off all {all!sts} in {yarn}, loosely."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("all", is_drawn=False),
)
