"""Ear flaps of hats, picked up along the cast-on edge when the crown is done, in garter.

A fifth of the stitches for either flap, a fifth between them at the back and two fifths in front: common practice, no
source. Each narrows by two stitches on every second row to five.
"""

from __future__ import annotations

from wale.course import Course, Final, Loop, Made, Number, Part, Passage

EAR_FLAPS = Course(
    form="ear flaps over LENGTH",
    example="ear flaps over 7 cm",
    least=50,
    why="two flaps of nine stitches at least",
    numbers=(
        Number("flap", "2 * floor({before} / 10) + 1", "sts"),
        Number("gap", "floor({before} / 10)", "sts"),
        Number("losses", "({flap} - 5) / 2", "times"),
        Number("again", "{losses} - 1", "times"),
        Number("even", "max(0, 2 * floor({over} * {rows_per_cm} / 2 + 1 / 2) - 2 * {losses})", "rows"),
        Number("left", "5", "sts"),
        Number("ends", "2 * {left}", "sts"),
    ),
    parts=(
        Part(
            "flaps",
            fabric="garter",
            lines=(
                Loop(
                    "2",
                    (Number("from", "{gap} + 1 + ({n} - 1) * ({before} - 2 * {gap} - {flap})", "sts"),),
                    (
                        Passage(
                            "about",
                            "Ear flap {n}, from stitch {from} of the cast-on edge on; the round starts at the back:",
                            is_remark=True,
                        ),
                        Passage("pick", "Pick up and knit {flap!sts} along the cast-on edge."),
                        Passage("flat", "Work back and forth over these {flap!sts}."),
                        Passage("first", "knit.", "Next row (WS)", (Made("{flap}", "{flap}", sides=("WS",)),)),
                        Passage(
                            "even",
                            "Knit {even!rows}.",
                            made=(Made("{flap}", "{flap}", "{even}", ("RS", "WS")),),
                            when="{even}",
                        ),
                        Passage(
                            "lose",
                            "k1, ssk, k to the last 3 sts, k2tog, k1.",
                            "Row 1 (RS)",
                            (Made("{flap} - 2", "{flap} - 2", sides=("RS",)),),
                        ),
                        Passage("back", "knit.", "Row 2 (WS)", (Made("{flap} - 2", "{flap} - 2", sides=("WS",)),)),
                        Passage(
                            "again",
                            "Repeat rows 1 and 2 {again!times} more. {left!sts}.",
                            made=(
                                Made(
                                    "{flap} - 2 - 2 * ceil({i} / 2)",
                                    "{flap} - 2 - 2 * ceil({i} / 2)",
                                    "2 * {again}",
                                    ("RS", "WS"),
                                ),
                            ),
                            when="{again}",
                        ),
                        Passage("off", "Bind off all {left!sts} in {yarn}."),
                    ),
                ),
            ),
            is_aside=True,
        ),
    ),
    final=Final("ends", is_drawn=False),
    in_garter=True,
)
