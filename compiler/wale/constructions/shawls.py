"""Shawls from the nape down.

Triangle: four stitches gained on every right-side row, at both edges and beside the middle stitch: common practice, no
source. Crescent: a stitch gained at both ends of every row (https://rhyflowerknits.com/basic-top-down-crescent/).
"""

from __future__ import annotations

from wale.course import Course, Final, Made, Number, Part, Passage

_RS, _WS = ("RS",), ("WS",)


def back(slot: str, lead: str, stitches: str) -> tuple[Passage, Passage]:
    """Give a wrong-side row between two borders of garter, and the same where all is in garter."""
    made = (Made(stitches, stitches, sides=_WS),)
    return (
        Passage(slot, "k2, p to the last 2 sts, k2.", lead, made, when="1 - {garter}"),
        Passage(slot, "knit.", lead, made, when="{garter}"),
    )


TRIANGLE = Course(
    form="triangle over LENGTH",
    example="triangle over 60 cm",
    in_round=False,
    in_garter=True,
    modulus=2,
    residue=1,
    least=7,
    why="a middle stitch between two alike halves",
    numbers=(
        Number("pairs", "max(2, floor({over} * {rows_per_cm} / 2 + 1 / 2))", "times"),
        Number("again", "{pairs} - 2", "times"),
        Number("half", "({before} - 5) / 2", "sts"),
        Number("all", "{before} + 4 * {pairs}", "sts"),
    ),
    parts=(
        Part(
            "triangle",
            fabric="",
            lines=(
                Passage(
                    "about",
                    "Two halves with a marked middle stitch; laid out, the last row is the two lower sides:",
                    is_remark=True,
                ),
                Passage(
                    "first",
                    "k2, yo, k{half}, yo, place a marker, k1, yo, k to the last 2 sts, yo, k2.",
                    "Row 1 (RS)",
                    (Made("{before} + 4", "{before} + 4", sides=_RS),),
                    marks=("{half} + 4",),
                ),
                *back("back", "Row 2 (WS)", "{before} + 4"),
                Passage(
                    "gain",
                    "k2, yo, k to the marker, yo, slip the marker, k1, yo, k to the last 2 sts, yo, k2.",
                    "Row 3 (RS)",
                    (Made("{before} + 8", "{before} + 8", sides=_RS),),
                ),
                *back("over", "Row 4 (WS)", "{before} + 8"),
                Passage(
                    "again",
                    "Repeat rows 3 and 4 {again!times} more. {all!sts}.",
                    made=(
                        Made(
                            "{before} + 8 + 4 * ceil({i} / 2)",
                            "{before} + 8 + 4 * ceil({i} / 2)",
                            "2 * {again}",
                            (*_RS, *_WS),
                        ),
                    ),
                    when="{again}",
                ),
                Passage("off", "Bind off all {all!sts} in {yarn}, loosely."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("all", is_drawn=False),
)
CRESCENT = Course(
    form="crescent over LENGTH",
    example="crescent over 40 cm",
    in_round=False,
    in_garter=True,
    least=7,
    why="two borders of two stitches, and three between them",
    numbers=(
        Number("pairs", "max(2, floor({over} * {rows_per_cm} / 2 + 1 / 2))", "times"),
        Number("again", "{pairs} - 1", "times"),
        Number("all", "{before} + 4 * {pairs}", "sts"),
    ),
    parts=(
        Part(
            "crescent",
            fabric="",
            lines=(
                Passage("about", "A crescent; it takes its shape when it is laid out to dry:", is_remark=True),
                Passage(
                    "right",
                    "k2, yo, k to the last 2 sts, yo, k2.",
                    "Row 1 (RS)",
                    (Made("{before} + 2", "{before} + 2", sides=_RS),),
                ),
                *(
                    Passage(
                        "wrong",
                        f"k2, yo, {between} to the last 2 sts, yo, k2.",
                        "Row 2 (WS)",
                        (Made("{before} + 4", "{before} + 4", sides=_WS),),
                        when=when,
                    )
                    for between, when in (("p", "1 - {garter}"), ("k", "{garter}"))
                ),
                Passage(
                    "again",
                    "Repeat rows 1 and 2 {again!times} more. {all!sts}.",
                    made=(Made("{before} + 4 + 2 * {i}", "{before} + 4 + 2 * {i}", "2 * {again}", (*_RS, *_WS)),),
                ),
                Passage("off", "Bind off all {all!sts} in {yarn}, loosely."),
            ),
            is_shaped=True,
        ),
    ),
    final=Final("all", is_drawn=False),
)
