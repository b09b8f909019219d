"""A circular yoke from the neck down, in the round: three rounds of increases, and where body and sleeves part.

Source: the percentage yoke from the body up loses a quarter at half its depth, a third at three quarters, and two
fifths at the neck (E. Zimmermann's system as told at
https://www.scribd.com/document/471250318/jenjoycedesign-com-Percentage-Systems; the last from memory), so of 240
stitches 180, 120 and 72 are left. From the neck down the same: of all increases two sevenths at the neck, five
fourteenths at a quarter of the depth, and the rest at half of it.
"""

from __future__ import annotations

from wale.constructions.arms import ARMS, parting
from wale.course import Bound, Course, Number, Part, Passage, rounds


def _evenly(number: int, before: str) -> tuple[Passage, ...]:
    """The lines of an increase round: `groups` of so many stitches, the longer ones last."""
    gain, after = f"{{gain{number}}}", f"{before} + {{gain{number}}}"
    some, more = f"{{even{number}}}", f"{{over{number}}}"
    group, longer = f"k{{group{number}}}, m1", f"k{{longer{number}}}, m1"
    told = f"{{total{number}!sts}}."
    return (
        Passage(
            f"gain{number}",
            f"({group}) {some[:-1]}!times}}, ({longer}) {more[:-1]}!times}}. {told}",
            "Next round",
            rounds(after, "1"),
            when=more,
        ),
        Passage(
            f"gain{number}.even",
            f"({group}) {some[:-1]}!times}}. {told}",
            "Next round",
            rounds(after, "1"),
            when=f"{gain} * (1 - min(1, {more}))",
        ),
    )


def _numbers(number: int, before: str, gain: str) -> tuple[Number, ...]:
    """The numbers of an increase round over `before` stitches."""
    return (
        Number(f"gain{number}", gain, "times"),
        Number(f"group{number}", f"floor({before} / {{gain{number}}})", "sts"),
        Number(f"longer{number}", f"{{group{number}}} + 1", "sts"),
        Number(f"over{number}", f"mod({before}, {{gain{number}}})", "times"),
        Number(f"even{number}", f"{{gain{number}}} - {{over{number}}}", "times"),
        Number(f"total{number}", f"{before} + {{gain{number}}}", "sts"),
    )


def _plain(number: int, stitches: str) -> tuple[Passage, ...]:
    """The rounds between two of increases."""
    rest = f"{{rest{number}}}"
    return (Passage(f"rest{number}", f"Knit {rest[:-1]}!rounds}}.", made=rounds(stitches, rest), when=rest),)


YOKE = Course(
    form="yoke to WIDTH over LENGTH",
    options=("sleeves WIDTH", "underarm WIDTH"),
    example="yoke to bust over armhole-depth, sleeves upper-arm, underarm 5 cm",
    to="to",
    modulus=2,
    least=24,
    why="front and back alike",
    fixed=ARMS,
    step=2,
    offset="0",
    bounds=(
        Bound(1, -1, "14 + 4 * {under} - 2 * {sleeve}", "", "a yoke gains some stitches in each of its three rounds"),
        Bound(2, -9, "", "8 * {under} - 4 * {sleeve}", "no round gains more stitches than there are"),
        Bound(
            0, 0, "3 - {rounds}", "", "a yoke has its three rounds of increases, so it is three rounds deep at least"
        ),
        Bound(0, 0, "{under} + 2 - {sleeve}", "", "a sleeve is two stitches wider than its underarm at least"),
        Bound(1, 0, "2 * {under} + 4", "", "front and back keep two stitches beside the underarms at least"),
    ),
    numbers=(
        Number("held", "{sleeve} - {under}", "sts"),
        Number("all", "{after} + 2 * {sleeve} - 4 * {under}", "sts"),
        Number("gains", "{all} - {before}", "times"),
        *_numbers(1, "{before}", "floor({gains} * 2 / 7 + 1 / 2)"),
        *_numbers(2, "{total1}", "floor({gains} * 5 / 14)"),
        *_numbers(3, "{total2}", "{gains} - {gain1} - {gain2}"),
        Number("rest1", "max(0, floor({rounds} / 4) - 1)", "rounds"),
        Number("rest2", "max(0, floor({rounds} / 2) - 2 - {rest1})", "rounds"),
        Number("rest3", "{rounds} - 3 - {rest1} - {rest2}", "rounds"),
        Number("back", "{after} / 2 - {under}", "sts"),
        Number("start", "floor({back} / 2)", "sts"),
    ),
    parts=(
        Part(
            "yoke",
            (
                Passage(
                    "about",
                    "Yoke, front and back alike; rounds begin in the middle of the back:",
                    is_remark=True,
                ),
                *_evenly(1, "{before}"),
                *_plain(1, "{total1}"),
                *_evenly(2, "{total1}"),
                *_plain(2, "{total2}"),
                *_evenly(3, "{total2}"),
                *_plain(3, "{total3}"),
            ),
            is_shaped=True,
        ),
        parting(
            "k{start}, put the next {held} sts on a holder, cast on {under!sts}, k{back}, put the next {held} "
            "sts on a holder, cast on {under!sts}, k to the end. {after!sts}."
        ),
    ),
)
