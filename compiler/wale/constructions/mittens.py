"""Mittens: the gusset of a thumb, and the thumb itself.

Source: "Child's Knitted Mittens", Handbook of Wool Knitting and Crochet (Needlecraft Publishing Co., 1918, Project
Gutenberg 26113): a stitch gained at both sides of one on every third round, until 21 of the thumb stand beside 53 of
the hand; they are held, and 7, a third of them, cast on over the gap. Three eighths of the hand for other sizes: our
choice, 21 of 54 being the book's. It stands at the side of the hand, where a wedge top has its decreases. The thumb's
end: http://www.knitty.com/issuewinter06/KSPATTmadriver.html.
"""

from __future__ import annotations

from wale.course import Course, Final, Number, Part, Passage, rounds

_OUT = "k to 2 sts before the marker, k2tog, slip the marker, k to the marker, slip the marker, ssk, k to the end."
THUMB_GUSSET = Course(
    form="thumb-gusset",
    modulus=2,
    least=24,
    why="the back as wide as the palm",
    numbers=(
        Number("lead", "floor({before} / 4)", "sts"),
        Number("gains", "floor(3 * {before} / 16)", "times"),
        Number("held", "2 * {gains} + 1", "sts"),
        Number("again", "{gains} - 2", "times"),
        Number("all", "{before} - 1 + {held}", "sts"),
        Number("cast", "2 * floor({held} / 6) + 1", "sts"),
        Number("hand", "{before} - 1 + {cast}", "sts"),
        Number("losses", "({cast} - 1) / 2", "times"),
        Number("more", "{losses} - 1", "times"),
        Number("opened", "0", "rows"),
    ),
    parts=(
        Part(
            "gusset",
            (
                Passage("about", "Thumb gusset, between two markers:", is_remark=True),
                Passage(
                    "first",
                    "k{lead}, place a marker, m1R, k1, m1L, place a marker, k to the end.",
                    "Round 1",
                    rounds("{before} + 2", "1"),
                    marks=("{lead}", "3"),
                ),
                Passage("plain", "knit.", "Rounds 2 and 3", rounds("{before} + 2", "2")),
                Passage(
                    "gain",
                    "k to the marker, slip the marker, m1R, k to the marker, m1L, slip the marker, k to the end.",
                    "Round 4",
                    rounds("{before} + 4", "1"),
                ),
                Passage(
                    "again",
                    "Repeat rounds 2 to 4 {again!times} more. {all!sts}.",
                    made=rounds("{before} + 4 + 2 * floor({i} / 3)", "3 * {again}"),
                    when="{again}",
                ),
                Passage("rest", "Knit 2 rounds.", made=rounds("{all}", "2")),
                Passage(
                    "hold",
                    "k to the marker, slip the marker, put the next {held} sts on a holder, cast on {cast!sts}, slip "
                    "the marker, k to the end. {hand!sts}.",
                    "Next round",
                    rounds("{hand}", "1"),
                ),
                Passage("even", "knit.", "Round 1", rounds("{hand}", "1"), when="{losses}"),
                Passage("lose", _OUT, "Round 2", rounds("{hand} - 2", "1"), when="{losses}"),
                Passage(
                    "lose-again",
                    "Repeat rounds 1 and 2 {more!times} more. {before!sts}.",
                    made=rounds("{hand} - 2 - 2 * floor({i} / 2)", "2 * {more}"),
                    when="{more}",
                ),
                Passage(
                    "end",
                    "k to the marker, remove the marker, k to the marker, remove the marker, k to the end.",
                    "Next round",
                    rounds("{before}", "1"),
                ),
            ),
        ),
    ),
)
_OPENED = (
    Passage("about", "Thumb:", is_remark=True),
    Passage("take", "Take up the {held} held sts.", when="1 - {opened}"),
    Passage("pick", "Pick up and knit {cast!sts} along the edge that was cast on.", when="1 - {opened}"),
    Passage("open", "Take out the waste yarn: {held!sts} below and {cast} above.", when="{opened}"),
)
_PLACES = ("thumb-gusset", "afterthought thumb")
THUMB = Course(
    form="thumb LENGTH",
    example="thumb 5 cm",
    follows=_PLACES,
    numbers=(
        Number("picked", "{held} + {cast}", "sts"),
        Number("surplus", "mod({picked}, 4)", "sts"),
        Number("round", "{picked} - {surplus}", "sts"),
        Number("even", "max(1, floor({thumb} * {rows_per_cm} + 1 / 2) - 3 - min(1, {surplus}))", "rounds"),
        Number("quarter", "{round} / 4", "sts"),
        Number("three", "3 * {quarter}", "sts"),
        Number("two", "2 * {quarter}", "sts"),
    ),
    parts=(
        Part(
            "thumb",
            (
                *_OPENED,
                Passage(
                    "fit",
                    "k2tog twice, k to the end. {round!sts}.",
                    "Next round",
                    rounds("{round}", "1"),
                    when="{surplus}",
                ),
                Passage("plain", "Knit {even!rounds}.", made=rounds("{round}", "{even}")),
                Passage("close", "(k2, k2tog) {quarter!times}. {three!sts}.", "Next round", rounds("{three}", "1")),
                Passage("closer", "(k1, k2tog) {quarter!times}. {two!sts}.", "Next round", rounds("{two}", "1")),
                Passage("top", "k2tog {quarter!times}. {quarter!sts}.", "Next round", rounds("{quarter}", "1")),
                Passage("draw", "Draw the yarn through the last {quarter!sts}."),
            ),
            is_aside=True,
        ),
    ),
    final=Final("quarter", is_drawn=True),
)
THUMB_CUFF = Course(
    form="thumb LENGTH",
    way="bound off",
    example="thumb 2 cm, bound off",
    follows=_PLACES,
    numbers=(
        Number("picked", "{held} + {cast}", "sts"),
        Number("even", "max(1, floor({thumb} * {rows_per_cm} + 1 / 2))", "rounds"),
    ),
    parts=(
        Part(
            "thumb",
            (
                *_OPENED,
                Passage("rib", "Work {even!rounds} in 1x1 rib.", made=rounds("{picked}", "{even}"), fabric="rib 1x1"),
                Passage("off", "Bind off all {picked!sts} in {yarn}, loosely in rib."),
            ),
            is_aside=True,
        ),
    ),
    final=Final("picked", is_drawn=False),
)
"""The thumb of a mitt: a cuff of rib; the stitches, two odd numbers, fill it."""
