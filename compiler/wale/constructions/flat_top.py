"""The flat top of a hat: a disc in eight segments, which closes as fast as a flat circle.

Source: a flat circle takes eight stitches on every other round, four a round
(http://www.woollywormhead.com/blog/2016/9/20/crown-shaping-masterclass). A round is 2 pi times as long as its radius,
so it is flat where a row is 4 / (2 pi) of a stitch high, 11 rows to 7 stitches; with fewer rows it is a shallow dome.
"""

from __future__ import annotations

from wale.constructions.segments import LAST, LOSE
from wale.course import Course, Final, Loop, Number, Part, Passage, rounds

TOP_FLAT = Course(
    form="top flat",
    modulus=8,
    least=16,
    why="eight segments of as many stitches",
    numbers=(Number("segment", "{before} / 8", "sts"), Number("left", "8", "sts")),
    parts=(
        Part(
            "top",
            (
                Passage(
                    "about",
                    "A flat top, in eight segments of {segment} sts. It lies across the head; the length counts it "
                    "from rim to middle, and the schematic draws it upright:",
                    is_remark=True,
                ),
                Loop(
                    "{segment} - 1",
                    (Number("knit", "{segment} - 1 - {n}", "sts"), Number("total", "8 * {knit} + 8", "sts")),
                    (
                        LOSE,
                        Passage("plain", "knit.", "Next round", rounds("{total}", "1"), when="{knit}"),
                        LAST,
                    ),
                    by="knit",
                ),
                Passage("draw", "Draw the yarn through the last {left!sts}."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("left", is_drawn=True),
)
