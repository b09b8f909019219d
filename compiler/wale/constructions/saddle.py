"""Saddle shoulders from the hem up, in the round: body and sleeves are joined, straps run from the sleeves to the neck.

The body narrows first, then the sleeves, up to the strap; each strap is worked back and forth, and the last stitch of
each row together with stitches of the front or the back, until the shoulders are used up.

Sources: joined in the round from the hem up, the strap built up from the top of the sleeve between front and back:
https://www.carolfeller.com/2009/09/seamless-saddle-shoulder/,
https://wartybobbles.blog/2012/02/06/seamless-hybrid-sweater-brain-teasers/. A body stitch at each end of every second
row makes the strap longer than the shoulder, so some rows take two: as many as the gauge asks for, at most one in three
(docs/maths.md#saddle-shoulders; the even spread is our choice). A body stitch lost at each end of every round: common
practice, no source.
"""

from __future__ import annotations

from wale.constructions.phases import phase, spread
from wale.course import Bound, Course, Loop, Made, Number, Part, Passage, rounds, starts_after

_NARROW = "k1, ssk, k to 3 sts before the marker, k2tog, k1, slip the marker"
_PASS = "k to the marker, slip the marker"
_BODY = f"{_NARROW}, {_PASS}, {_NARROW}, k to the end."
_SLEEVES = f"{_PASS}, {_NARROW}, {_PASS}, k1, ssk, k to the last 3 sts, k2tog, k1."


def _row(number: int, take: str, lost: int, gone: int) -> Passage:
    """A row of a strap: `lost` stitches are gone after it, `gone` of them at the right end."""
    side, work = ("WS", "p") if number % 2 else ("RS", "k")
    made = Made("{strap}", f"{{there}} - {lost}", sides=(side,), waiting=f"{{wide}} - {gone}")
    return Passage(f"row-{number}", f"sl1, {work}{{inner}}, {take}, turn.", f"Row {number} ({side})", (made,))


_TURN = "mod({i} - 1, 4) + 1"
_ROUND = "floor(({i} - 1) / 4)"
_CYCLES = Made(
    "{strap}",
    f"{{there}} - 8 - 6 * {_ROUND} - min(2 * ({_TURN}), {_TURN} + 2)",
    "4 * {cycles_again}",
    ("RS", "WS"),
    f"{{wide}} - 4 - 3 * {_ROUND} - floor(({_TURN}) / 2) - min(1, floor(({_TURN}) / 2))",
)
_SINGLES = Made(
    "{strap}",
    "{there} - 2 - 6 * {double} - {i}",
    "2 * {single}",
    ("RS", "WS"),
    "{wide} - 1 - 3 * {double} - floor({i} / 2)",
)
_STRAPS = Loop(
    "2",
    (
        Number("wide", "{half_left} - ({n} - 1) * {shoulder}", "sts"),
        Number("there", "2 * {strap} + 2 * {half_left} - 2 * ({n} - 1) * {shoulder}", "sts"),
        Number("to_strap", "{wide} + {strap} - 1", "sts"),
        Number("kept", "{wide} - {shoulder}", "sts"),
        Number("to_next", "{kept} + {strap} + ({n} - 1) * floor({kept} / 2)", "sts"),
    ),
    (
        Passage(
            "about",
            "Strap {n}, from the tip of its shoulder to the neck; at the end of each row its last st is worked together"
            " with one or two of the front or the back:",
            is_remark=True,
        ),
        Passage(
            "turn",
            "k{to_strap}, ssk, turn.",
            "Next round",
            (Made("{to_strap} + 1", "{there} - 1"),),
        ),
        _row(1, "p2tog", 2, 1),
        _row(2, "sssk", 4, 1),
        _row(3, "p3tog", 6, 3),
        _row(4, "ssk", 7, 3),
        _row(5, "p2tog", 8, 4),
        Passage("cycles", "Repeat rows 2 to 5 {cycles_again!times} more.", made=(_CYCLES,), when="{cycles_again}"),
        Passage("singles", "Repeat rows 4 and 5 {single!times} more.", made=(_SINGLES,), when="{single}"),
        Passage(
            "end",
            "k to the end.",
            "Next row (RS)",
            (Made("{there} - {wide} - {shoulder}", "{there} - 2 * {shoulder}", sides=("RS",), waiting="{kept}"),),
        ),
        Passage("join", "Join to a round."),
        starts_after("to_next"),
    ),
)
SADDLE = Course(
    form="saddles to WIDTH over LENGTH",
    options=("straps WIDTH", "shoulders WIDTH"),
    example="saddles to neck-base over armhole-depth, straps 8 cm, shoulders 10 cm",
    to="to",
    is_joined=True,
    least=48,
    fixed=(
        Number("rounds", "floor({over} * {rows_per_cm} + 1 / 2)", "rounds"),
        Number("narrow", "max(6, floor({straps} * {sts_per_cm} + 1 / 2) - 1)", "sts"),
        Number("shoulder", "max(4, floor({shoulders} * {sts_per_cm} + 1 / 2))", "sts"),
    ),
    step=4,
    bounds=(
        Bound(-1, 1, "4 + 4 * {shoulder} - 2 * {narrow}", "", "the body narrows by a stitch at each line", arm=-2),
        Bound(0, 0, "{narrow} + 3", "", "a sleeve narrows to its strap", arm=1),
        Bound(
            1, -1, "-4 * ({rounds} - 2 + {shoulder})", "", "body and sleeves narrow in turn, in the rounds there are"
        ),
        Bound(1, 0, "4 * {narrow}", "", "front and back keep a strap's width of stitches at the neck"),
    ),
    numbers=(
        Number("half", "{before} / 2 - {arm}", "sts"),
        Number("ahead", "2 * {arm} + {half}", "sts"),
        Number("strap", "{narrow} + mod({arm} - {narrow}, 2)", "sts"),
        Number("inner", "{strap} - 2", "sts"),
        Number("losses", "({arm} - {strap}) / 2", "times"),
        Number("body", "({before} - {after}) / 4 - {losses} - {shoulder}", "times"),
        Number("body_again", "{body} - 1", "times"),
        Number("half_left", "{half} - 2 * {body}", "sts"),
        Number("straight", "{rounds} - 2 - {body}", "rounds"),
        *spread("{straight}", "{losses}"),
        Number("even_pairs", "floor({shoulder} * {rows_per_cm} / {sts_per_cm} / 2 + 1 / 2)", "times"),
        Number("double", "min(floor(({shoulder} - 1) / 3), max(1, {shoulder} - {even_pairs}))", "times"),
        Number("cycles_again", "{double} - 1", "times"),
        Number("single", "{shoulder} - 1 - 3 * {double}", "times"),
        Number("sts", "2 * {strap} + 2 * {half_left}", "sts"),
    ),
    parts=(
        Part(
            "yoke",
            (
                Passage("about", "Saddle shoulders; the body narrows first, then the sleeves:", is_remark=True),
                starts_after("ahead"),
                Passage(
                    "markers",
                    "k{half}, place a marker, k{arm}, place a marker, k{half}, place a marker, k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                    marks=("{half}", "{arm}", "{half}"),
                ),
                Passage("body", _BODY, "Round 1", rounds("{before} - 4", "1")),
                Passage(
                    "body.again",
                    "Repeat round 1 {body_again!times} more.",
                    made=rounds("{before} - 4 - 4 * {i}", "{body_again}"),
                    when="{body_again}",
                ),
                *phase("late", _SLEEVES, "{before} - 4 * {body}", -4, is_late=True),
                *phase("early", _SLEEVES, "{before} - 4 * {body} - 4 * {late}", -4, is_late=False),
                Passage(
                    "unmarked",
                    "(k to the marker, remove the marker) 3 times, k to the end. {sts!sts}.",
                    "Next round",
                    rounds("{sts}", "1"),
                ),
            ),
            is_shaped=True,
        ),
        Part("straps", (_STRAPS,), is_aside=True),
    ),
)
