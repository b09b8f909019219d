"""Knitted cords, a few stitches round and round on two needles.

Common practice, no source.
"""

from __future__ import annotations

from wale.course import Course, Final, Number, Part, Passage, rounds

CORD = Course(
    form="cord over LENGTH",
    example="cord over 30 cm",
    begins="open",
    least=3,
    why="fewer make no cord",
    numbers=(Number("even", "max(1, floor({over} * {rows_per_cm} + 1 / 2))", "rounds"),),
    parts=(
        Part(
            "cord",
            (
                Passage(
                    "about",
                    "A cord, on two double-pointed needles: after each round push the stitches to the other end of the "
                    "needle without turning, and draw the yarn across behind them. That alone joins the rounds:",
                    is_remark=True,
                ),
                Passage("even", "Knit {even!rounds}.", made=rounds("{before}", "{even}")),
                Passage("off", "Bind off all {before!sts} in {yarn}."),
            ),
        ),
    ),
    final=Final("before", is_drawn=False),
)
