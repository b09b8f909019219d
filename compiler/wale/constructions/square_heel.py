"""The square heel, also called Dutch heel: the flap's middle third is worked on as the sole of the heel.

Source: the sole strip is a third of the heel's stitches: N. Bush, Folk Socks (1994), as quoted at
http://curiousknitter.blogspot.com/2022/05/my-square-heel.html. The flap and the gusset are those of the round heel.
"""

from __future__ import annotations

from wale.constructions.heels import FLAP, GUSSET, HALF, PICKED, START, flat_row
from wale.course import Course, Loop, Number, Part, Passage

_TURN = Part(
    "turn",
    (
        Passage("about", "Turn of the heel, over its middle stitches:", is_remark=True),
        flat_row("first", "RS", "sl1, k{first}, ssk, turn.", "{first} + 2", "1", "0"),
        flat_row("second", "WS", "sl1, p{inner}, p2tog, turn.", "{strip}", "2", "{side} - 1"),
        Loop(
            "{side} - 1",
            (
                Number("odd_row", "2 * {n} + 1", "rows"),
                Number("even_row", "2 * {n} + 2", "rows"),
                Number("rest", "{side} - {n} - 1", "sts"),
            ),
            (
                flat_row("right", "RS", "sl1, k{inner}, ssk, turn.", "{strip}", "{odd_row}", "{rest} + 1"),
                flat_row("wrong", "WS", "sl1, p{inner}, p2tog, turn.", "{strip}", "{even_row}", "{rest}"),
            ),
        ),
        *START,
    ),
    folds="heel",
)
HEEL_SQUARE = Course(
    form="heel square",
    modulus=4,
    least=24,
    why="a heel takes half of the stitches, as many at each side of its middle",
    numbers=(
        *HALF,
        Number("strip", "2 * floor({heel} / 6 + 1 / 2)", "sts"),
        Number("inner", "{strip} - 2", "sts"),
        Number("side", "({heel} - {strip}) / 2", "sts"),
        Number("first", "{side} + {strip} - 2", "sts"),
        Number("half", "{strip} / 2", "sts"),
        *PICKED,
    ),
    parts=(FLAP, _TURN, GUSSET),
)
