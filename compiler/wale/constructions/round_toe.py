"""The round toe of socks: decreases all round, ever fewer plain rounds between.

Source: T. de Dillmont, Encyclopedia of Needlework (1886): groups of ten stitches; two of each knitted together, then as
many plain rounds as stitches stand between two decreases, down to two. Eight groups, whose number of stitches follows
from the round's, so that 80 stitches make hers; and the last three rounds: our choice.
"""

from __future__ import annotations

from wale.course import Course, Final, Loop, Number, Part, Passage, rounds

TOE_ROUND = Course(
    form="toe round",
    modulus=8,
    least=24,
    why="eight groups of as many stitches",
    numbers=(Number("group", "{before} / 8", "sts"), Number("left", "8", "sts")),
    parts=(
        Part(
            "toe",
            (
                Passage("about", "Round toe, in eight groups of {group} sts:", is_remark=True),
                Loop(
                    "{group} - 3",
                    (Number("knit", "{group} - 1 - {n}", "sts"), Number("total", "8 * {knit} + 8", "sts")),
                    (
                        Passage("lose", "(k{knit}, k2tog) 8 times. {total!sts}.", "Next round", rounds("{total}", "1")),
                        Passage("plain", "Knit {knit} rounds.", made=rounds("{total}", "{knit}")),
                    ),
                    by="knit",
                ),
                Passage("close", "(k1, k2tog) 8 times. 16 sts.", "Next round", rounds("16", "1")),
                Passage("last", "knit.", "Next round", rounds("16", "1")),
                Passage("end", "k2tog 8 times. {left!sts}.", "Next round", rounds("{left}", "1")),
                Passage("draw", "Draw the yarn through the last {left!sts}."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("left", is_drawn=True),
)
