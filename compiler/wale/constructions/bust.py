"""Short rows at the bust of a front that is worked flat: more rows in its middle, none at its sides.

Sources: the turns: https://www.reginamoessmerdesign.com/pages/german-short-rows; that each lies nearer to the middle
than the one before it: common practice, no source. The first turns at an eighth of the stitches from the sides, the
last at a third at most: our choice.
"""

from __future__ import annotations

from wale.course import Bound, Course, Loop, Made, Number, Part, Passage

_ALL = "{before}"
_SHORTER = Loop(
    "{pairs} - 1",
    (
        Number("odd_row", "2 * {n} + 1", "rows"),
        Number("even_row", "2 * {n} + 2", "rows"),
        Number("edge", "{side} + {n} * {each}", "sts"),
        Number("across", "{before} - 2 * {edge} + {each} - 1", "sts"),
        Number("back", "{before} - 2 * {edge} - 1", "sts"),
    ),
    (
        Passage(
            "right",
            "sl1, k{across}, turn.",
            "Row {odd_row} (RS)",
            (Made("{across} + 1", _ALL, sides=("RS",), waiting="{edge} - {each}"),),
        ),
        Passage(
            "wrong",
            "sl1, p{back}, turn.",
            "Row {even_row} (WS)",
            (Made("{back} + 1", _ALL, sides=("WS",), waiting="{edge}"),),
        ),
    ),
)
BUST = Course(
    form="raise bust LENGTH",
    example="raise bust 4 cm",
    in_round=False,
    least=40,
    why="short rows need stitches to turn on",
    fixed=(Number("pairs", "max(1, floor({bust} * {rows_per_cm} / 2 + 1 / 2))", "times"),),
    bounds=(Bound(0, 1, "5 * {pairs} + 8", "", "each short row turns a stitch before the one below it"),),
    numbers=(
        Number("side", "ceil({before} / 8)", "sts"),
        Number("each", "max(1, floor(({before} / 3 - {side}) / {pairs}))", "sts"),
        Number("first", "{before} - {side}", "sts"),
        Number("second", "{first} - {side} - 1", "sts"),
        Number("last", "{side} + ({pairs} - 1) * {each}", "sts"),
        Number("extra", "2 * {pairs}", "rows"),
    ),
    parts=(
        Part(
            "rows",
            (
                Passage(
                    "about",
                    "Short rows at the bust; after each turn draw the yarn tight over the slipped st, so that both its "
                    "legs lie on the needle, and work these as one when a row comes there again:",
                    is_remark=True,
                ),
                Passage("first", "k{first}, turn.", "Row 1 (RS)", (Made("{first}", _ALL, sides=("RS",)),)),
                Passage(
                    "second",
                    "sl1, p{second}, turn.",
                    "Row 2 (WS)",
                    (Made("{second} + 1", _ALL, sides=("WS",), waiting="{side}"),),
                ),
                _SHORTER,
            ),
            is_aside=True,
        ),
        Part(
            "close",
            (
                Passage(
                    "right",
                    "sl1, k to the end.",
                    "Next row (RS)",
                    (Made("{before} - {last}", _ALL, sides=("RS",), waiting="{last}"),),
                ),
                Passage("wrong", "p to the end.", "Next row (WS)", (Made(_ALL, _ALL, sides=("WS",)),)),
            ),
        ),
    ),
)
