"""Heels and toes of German short rows, over half the stitches: two wedges, one ever shorter, one ever longer.

Sources: half of the stitches, two outer thirds left in turn and a middle third
(http://www.jriede.de/blog/2013/08/26/heel-week-day-one-german-short-row-sock-heels/); worked alike from either end of a
sock (https://jen-arnallculliford.squarespace.com/blog/2020/10/2/short-row-heels); two rounds between the wedges: common
practice, no source.
"""

from __future__ import annotations

from wale.constructions.heels import START
from wale.course import Course, Final, Made, Number, Part, Passage, rounds, starts_after

_RIGHT, _WRONG = ("RS",), ("WS",)
_DOUBLE = "ds, k to the double stitch"
_SHORTER = (
    Passage("first", "k{first}, turn.", "Next round", (Made("{first}", "{before}"),)),
    Passage(
        "second", "ds, p{second}, turn.", "Row 1 (WS)", (Made("{second} + 1", "{before}", sides=_WRONG, waiting="1"),)
    ),
    Passage("right", f"{_DOUBLE}, turn.", "Row 2 (RS)", (Made("{heel} - 3", "{before}", sides=_RIGHT, waiting="1"),)),
    Passage(
        "wrong",
        "ds, p to the double stitch, turn.",
        "Row 3 (WS)",
        (Made("{heel} - 4", "{before}", sides=_WRONG, waiting="2"),),
    ),
    Passage(
        "again",
        "Repeat rows 2 and 3 {again!times} more.",
        made=(Made("{heel} - 4 - {i}", "{before}", "2 * {again}", ("RS", "WS"), "2 + floor({i} / 2)"),),
    ),
    Passage(
        "last-right",
        f"{_DOUBLE}, turn.",
        "Next row (RS)",
        (Made("{heel} - 1 - 2 * {side}", "{before}", sides=_RIGHT, waiting="{side}"),),
    ),
    Passage("last", "ds, p to the end.", "Next row (WS)", (Made("{heel} - 1 - {side}", "{before}", sides=_WRONG),)),
)
"""The wedge whose rows get shorter; double stitches beside the gaps are worked as one when they are passed."""
_LONGER = (
    Passage("first", "k{middle}, turn.", "Next round", (Made("{middle}", "{before}"),)),
    Passage(
        "second",
        "ds, p{inner}, turn.",
        "Row 1 (WS)",
        (Made("{inner} + 1", "{before}", sides=_WRONG, waiting="{side}"),),
    ),
    Passage(
        "right",
        f"{_DOUBLE}, k2, turn.",
        "Row 2 (RS)",
        (Made("{inner} + 2", "{before}", sides=_RIGHT, waiting="{side}"),),
    ),
    Passage(
        "wrong",
        "ds, p to the double stitch, p2, turn.",
        "Row 3 (WS)",
        (Made("{inner} + 3", "{before}", sides=_WRONG, waiting="{side} - 1"),),
    ),
    Passage(
        "again",
        "Repeat rows 2 and 3 {again!times} more.",
        made=(Made("{inner} + 3 + {i}", "{before}", "2 * {again}", ("RS", "WS"), "{side} - 1 - floor({i} / 2)"),),
    ),
    Passage(
        "last-right",
        f"{_DOUBLE}, k2, turn.",
        "Next row (RS)",
        (Made("{first}", "{before}", sides=_RIGHT, waiting="1"),),
    ),
    Passage("last", "ds, p to the end.", "Next row (WS)", (Made("{heel}", "{before}", sides=_WRONG),)),
    START[0],
)
"""The wedge whose rows get longer."""


def _shorter(about: str, *before: Passage, is_aside: bool) -> Part:
    return Part(
        "shorter",
        (
            Passage("about", about, is_remark=True),
            *before,
            *_SHORTER,
            Passage("join", "Join to a round."),
            Passage("between", "Knit 2 rounds.", made=rounds("{before}", "2")),
        ),
        is_aside=is_aside,
    )


_NUMBERS = (
    Number("heel", "{before} / 2", "sts"),
    Number("side", "floor({heel} / 3)", "sts"),
    Number("first", "{heel} - 1", "sts"),
    Number("second", "{heel} - 3", "sts"),
    Number("again", "{side} - 2", "times"),
    Number("middle", "{heel} - {side}", "sts"),
    Number("inner", "{middle} - {side} - 1", "sts"),
    Number("half", "{heel} / 2", "sts"),
)
_WHY = "half of the stitches, as many at each side of its middle"
HEEL_SHORT = Course(
    form="heel short rows",
    modulus=4,
    least=24,
    why=f"a heel takes {_WHY}",
    numbers=_NUMBERS,
    parts=(
        _shorter(
            "Heel, over the first half of the round; double stitches are worked as one when they are passed:",
            is_aside=True,
        ),
        Part(
            "longer",
            (Passage("about", "Second half of the heel:", is_remark=True), *_LONGER, START[1]),
            folds="heel",
        ),
    ),
)
TOE_SHORT = Course(
    form="toe short rows",
    modulus=4,
    least=24,
    why=f"a toe takes {_WHY}",
    numbers=(*_NUMBERS, Number("lead", "{before} - {half}", "sts")),
    parts=(
        _shorter(
            "Toe, over the half of the round that is the sole; double stitches are worked as one when they are passed:",
            starts_after("lead"),
            is_aside=False,
        ),
        Part(
            "longer",
            (
                Passage("about", "Second half of the toe:", is_remark=True),
                *_LONGER,
                Passage("graft", "Graft {heel!sts} to {heel!sts}."),
            ),
            is_aside=True,
        ),
    ),
    final=Final("before", is_drawn=False),
)
