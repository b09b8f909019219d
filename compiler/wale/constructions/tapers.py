"""Tubes that narrow or widen: sleeves at the start of their rounds, bodies at both sides.

Sources: two stitches in each shaping round beside its start, decreases on every so-manieth round, shorter intervals
first: http://designyourownsweater.blogspot.com/2007/01/sleeve.html. A stitch at either side of the start stays plain;
a body is shaped so at its start and half a round on: common practice, no source.
"""

from __future__ import annotations

from wale.constructions.phases import phase, spread
from wale.course import Bound, Course, Number, Part, Passage, rounds

LEFT = 8
"""Stitches that a tube keeps at least."""
_START = {-1: "k1, k2tog, k to the last 3 sts, ssk, k1.", 1: "k1, m1L, k to the last 1 st, m1R, k1."}
_SIDES = {
    -1: "k1, k2tog, k to 3 sts before the marker, ssk, k1, slip the marker, k1, k2tog, k to the last 3 sts, ssk, k1.",
    1: "k1, m1L, k to 1 st before the marker, m1R, k1, slip the marker, k1, m1L, k to the last 1 st, m1R, k1.",
}
"""Shaping rounds by whether stitches go or come."""
_ROUNDS = Number("rounds", "floor({over} * {rows_per_cm} + 1 / 2)", "rounds")


def _taper(word: str, sign: int, *, at_sides: bool) -> Course:
    """Give a course that loses (-1) or gains (1) stitches in its shaping rounds."""
    each, spare = (4, 2) if at_sides else (2, 0)
    half = each // 2
    least, most = (
        (f"{each}", f"{half} * ({{rounds}} - {spare})")
        if sign > 0
        else (
            f"-{half} * ({{rounds}} - {spare})",
            f"-{each}",
        )
    )
    change = "{after} - {before}" if sign > 0 else "{before} - {after}"
    shaping = (_SIDES if at_sides else _START)[sign]
    marker = Passage(
        "marker",
        "k{side}, place a marker, k to the end.",
        "Next round",
        rounds("{before}", "1"),
        marks=("{side}",),
    )
    end = Passage("end", "k to the marker, remove the marker, k to the end.", "Next round", rounds("{after}", "1"))
    where = "at both sides; the marker lies half a round from the start" if at_sides else "beside its start"
    about = Passage("about", f"The round {word}s {where}:", is_remark=True)
    return Course(
        form=f"{word} to WIDTH over LENGTH",
        way="at both sides" if at_sides else "",
        example=f"{word} to waist over 12 cm{', at both sides' if at_sides else ''}",
        to="to",
        least=LEFT,
        modulus=2,
        why="half of it lies at either side",
        fixed=(_ROUNDS,),
        step=each,
        bounds=(
            Bound(1, -1, least, most, f"a shaping round takes {each} stitches, and it is every second one at most"),
            Bound(1, 0, f"{LEFT}", "", f"{LEFT} stitches are left"),
        ),
        numbers=(
            Number("side", "{before} / 2", "sts"),
            Number("times", f"({change}) / {each}", "times"),
            Number("shaped", f"{{rounds}} - {spare}", "rounds"),
            *spread("{shaped}", "{times}"),
        ),
        parts=(
            Part(
                word,
                (
                    about,
                    *((marker,) if at_sides else ()),
                    *phase("early", shaping, "{before}", sign * each, is_late=False),
                    *phase("late", shaping, f"{{before}} + {sign * each} * {{early}}", sign * each, is_late=True),
                    *((end,) if at_sides else ()),
                ),
                is_shaped=True,
            ),
        ),
    )


TAPERS = tuple(
    _taper(word, sign, at_sides=at_sides) for word, sign in (("narrow", -1), ("widen", 1)) for at_sides in (False, True)
)
