"""The back of a neck raised by short rows, in a round that begins in the middle of the back.

Sources: necks are 2 to 4 inches higher behind, turns spread evenly, across the shoulders:
http://countrywool.tripod.com/freepatterns/shrow.htm; the turns:
https://www.reginamoessmerdesign.com/pages/german-short-rows. The first turns at a fifth of the stitches from the middle
of the back, the last at three eighths at most: our choice (docs/maths.md#raised-back-of-the-neck).
"""

from __future__ import annotations

from wale.course import Bound, Course, Loop, Made, Number, Part, Passage, starts_after

_WIDER = Loop(
    "{pairs} - 1",
    (
        Number("even_row", "2 * {n}", "rows"),
        Number("odd_row", "2 * {n} + 1", "rows"),
        Number("knit", "2 * {first} + (2 * {n} - 1) * {each} - 1", "sts"),
        Number("purl", "{knit} + {each}", "sts"),
        Number("ahead", "{half} - {first} - {n} * {each}", "sts"),
    ),
    (
        Passage(
            "right",
            "sl1, k{knit}, turn.",
            "Row {even_row} (RS)",
            (Made("{knit} + 1", "{before}", sides=("RS",), waiting="{ahead} + {each}"),),
        ),
        Passage(
            "wrong",
            "sl1, p{purl}, turn.",
            "Row {odd_row} (WS)",
            (Made("{purl} + 1", "{before}", sides=("WS",), waiting="{ahead}"),),
        ),
    ),
)
RAISED_BACK = Course(
    form="raise back LENGTH",
    example="raise back 5 cm",
    at_back=True,
    modulus=2,
    least=30,
    why="the middle of the front lies opposite that of the back",
    fixed=(Number("pairs", "max(1, floor({back} * {rows_per_cm} / 2 + 1 / 2))", "times"),),
    bounds=(Bound(0, 1, "ceil(40 * {pairs} / 7)", "", "each short row turns a stitch further than the one before it"),),
    numbers=(
        Number("half", "{before} / 2", "sts"),
        Number("first", "floor({before} / 5)", "sts"),
        Number("each", "max(1, floor(({before} * 3 / 8 - {first}) / {pairs}))", "sts"),
        Number("out", "{half} + {first}", "sts"),
        Number("across", "2 * {first} - 1", "sts"),
        Number("rest", "{half} - {first} - ({pairs} - 1) * {each}", "sts"),
    ),
    parts=(
        Part(
            "rows",
            (
                Passage(
                    "about",
                    "Back of the neck, raised by short rows; after each turn draw the yarn tight over the slipped st,"
                    " so that both its legs lie on the needle, and work these as one when a row comes there again:",
                    is_remark=True,
                ),
                starts_after("half", "front"),
                Passage("turn", "k{out}, turn.", "Next round", (Made("{out}", "{before}"),)),
                Passage(
                    "first",
                    "sl1, p{across}, turn.",
                    "Row 1 (WS)",
                    (Made("{across} + 1", "{before}", sides=("WS",), waiting="{half} - {first}"),),
                ),
                _WIDER,
                Passage(
                    "end",
                    "sl1, k to the end.",
                    "Next row (RS)",
                    (Made("{before} - {rest}", "{before}", sides=("RS",), waiting="{rest}"),),
                ),
                Passage("join", "Join to a round."),
                starts_after("half"),
            ),
            is_aside=True,
        ),
    ),
)
