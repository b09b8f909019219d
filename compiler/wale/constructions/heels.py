"""Heels of socks, worked over half the stitches.

Sources: flap of half the stitches, as long as wide: T. de Dillmont, Encyclopedia of Needlework (1886), and
http://sara-vs-sarah.blogspot.com/2011/02/socks-education-part-41-taking-your.html; one stitch picked up along the flap
for two rows, and one in the corner: https://www.craicnyarn.com/single-post/2016/02/12/back-to-the-heel-i-worked-28rows-of-k1p1-rib-i-slipped-every-first-stitch-and-i-knit-into;
turn: https://forum.knittinghelp.com/t/math-for-turning-the-heel/52340.
"""

from __future__ import annotations

from wale.course import Course, Loop, Made, Number, Part, Passage, rounds, starts_after


def flat_row(slot: str, side: str, words: str, worked: str, row: str, waiting: str) -> Passage:
    """A row of a turn: `row` is its number, which is also how many stitches are gone after it."""
    made = Made(worked, f"{{heel}} - {row}", sides=(side,), waiting=waiting)
    return Passage(slot, words, f"Row {{{row.strip('{}')}}} ({side})" if "{" in row else f"Row {row} ({side})", (made,))


FLAP = Part(
    "flap",
    (
        Passage("about", "Heel flap, worked back and forth over half of the stitches:", is_remark=True),
        Passage("held", "Put the last {instep} sts on a holder."),
        Passage("over", "Work back and forth over these {heel} sts."),
        Passage("right", "(sl1, k1) {pairs!times}.", "Row 1 (RS)", (Made("{heel}", "{heel}", sides=("RS",)),)),
        Passage("wrong", "sl1, p to the end.", "Row 2 (WS)", (Made("{heel}", "{heel}", sides=("WS",)),)),
        Passage(
            "again",
            "Repeat rows 1 and 2 {more!times} more.",
            made=(Made("{heel}", "{heel}", "2 * {more}", ("RS", "WS")),),
        ),
    ),
    is_aside=True,
)
START = (
    Passage("join", "Join to a round."),
    starts_after("half"),
)
"""How the round goes on in the middle of the heel."""
_TURN = Part(
    "turn",
    (
        Passage("about", "Turn of the heel:", is_remark=True),
        flat_row("first", "RS", "sl1, k{first}, ssk, k1, turn.", "{first} + 3", "1", "0"),
        flat_row("second", "WS", "sl1, p5, p2tog, p1, turn.", "8", "2", "{spare}"),
        Loop(
            "{turns}",
            (
                Number("odd_row", "2 * {n} + 1", "rows"),
                Number("knit", "2 * {n} + 4", "sts"),
                Number("even_row", "2 * {n} + 2", "rows"),
                Number("purl", "2 * {n} + 5", "sts"),
                Number("rest", "{spare} - 2 * {n}", "sts"),
            ),
            (
                flat_row("right", "RS", "sl1, k{knit}, ssk, k1, turn.", "{knit} + 3", "{odd_row}", "{rest} + 2"),
                flat_row("wrong", "WS", "sl1, p{purl}, p2tog, p1, turn.", "{purl} + 3", "{even_row}", "{rest}"),
            ),
        ),
        Loop(
            "{odd}",
            (
                Number("odd_row", "2 * {turns} + 3", "rows"),
                Number("knit", "2 * {turns} + 6", "sts"),
                Number("even_row", "2 * {turns} + 4", "rows"),
                Number("purl", "2 * {turns} + 6", "sts"),
            ),
            (
                flat_row("last-right", "RS", "sl1, k{knit}, ssk, turn.", "{knit} + 2", "{odd_row}", "1"),
                flat_row("last-wrong", "WS", "sl1, p{purl}, p2tog, turn.", "{purl} + 2", "{even_row}", "0"),
            ),
        ),
        *START,
    ),
    folds="heel",
)
_SIDES = "k to the marker, slip the marker, k1, ssk, k to the end."
GUSSET = Part(
    "gusset",
    (
        Passage("about", "Gusset, in the round again, beginning in the middle of the sole:", is_remark=True),
        Passage(
            "pick-up",
            "k{half}, pick up and knit {picked!sts} along the flap, place a marker, k the {instep} held sts, place a"
            " marker, pick up and knit {picked!sts} along the flap, k{half}. {around!sts}.",
            "Next round",
            (Made("{around}", "{around}"),),
            marks=("{half} + {picked}", "{instep}"),
        ),
        Passage("plain", "knit.", "Round 1", (Made("{around}", "{around}"),)),
        Passage(
            "decrease",
            f"k to 3 sts before the marker, k2tog, k1, slip the marker, {_SIDES}",
            "Round 2",
            (Made("{around} - 2", "{around} - 2"),),
        ),
        Passage(
            "again",
            "Repeat rounds 1 and 2 {again!times} more. {before!sts}.",
            made=rounds("{around} - 2 - 2 * floor({i} / 2)", "2 * {again}"),
            when="{again}",
        ),
        Passage(
            "end",
            "k to the marker, remove the marker, k to the marker, remove the marker, k to the end.",
            "Next round",
            (Made("{before}", "{before}"),),
        ),
    ),
)
HALF = (
    Number("heel", "{before} / 2", "sts"),
    Number("instep", "{before} - {heel}", "sts"),
    Number("pairs", "{heel} / 2", "times"),
    Number("more", "{pairs} - 1", "times"),
)
"""Numbers of the flap."""
PICKED = (
    Number("picked", "{pairs} + 1", "sts"),
    Number("around", "2 * {half} + 2 * {picked} + {instep}", "sts"),
    Number("decreases", "({around} - {before}) / 2", "times"),
    Number("again", "{decreases} - 1", "times"),
)
"""Numbers of the gusset, over `pairs` of rows of the flap, `half` of the stitches left by the turn, and the instep."""
HEEL_FLAP = Course(
    form="heel flap",
    modulus=4,
    least=28,
    why="a heel takes half of the stitches, as many at each side of its middle",
    numbers=(
        *HALF,
        Number("first", "{heel} / 2 + 1", "sts"),
        Number("spare", "{heel} / 2 - 5", "sts"),
        Number("turns", "floor({spare} / 2)", "times"),
        Number("odd", "mod({spare}, 2)", "times"),
        Number("half", "{heel} / 2 - 1 - {turns} - {odd}", "sts"),
        *PICKED,
    ),
    parts=(FLAP, _TURN, GUSSET),
)
