"""Patterns of an old book, drawn as textures: the words of the chart are the book's rows, stitch by stitch.

T. de Dillmont, Encyclopedia of Needlework (1886), chapter Knitting, Project Gutenberg 20776, public domain. The book's
rows are those of rounds, all seen from the right side. Its "intake" is k2tog, its "slip 1, knit 1, pull slipped stitch
over" leans as ssk does, which stands for it here.
"""

from __future__ import annotations

import re

import pytest
from support import written

from wale.write.facts import printed

SPEC = """wale 1

pattern "From an old book"

yarn rye
    count  400 m per 100 g wool
    colour #8a5a2b

motif old
    repeat   WIDTH sts, HEIGHT rows
    stitches |-| knit, |o| purl, |y| yo, |/| k2tog, |s| ssk, |3| k3tog, |>| cable-6-right
ROWS

swatch tube, in the round
    motif  old in rye
    needle 3 mm
    washed 28 sts and 36 rows in 10 cm

sizes one

piece sampler, in the round
    cast on COUNT sts in tube
    work    in old on tube, whole repeats
    work    HEIGHT rounds
    bind off
"""
SHORT = [
    ("slip 1, knit 1, pull slipped stitch over", "ssk"),
    ("knit 2 together", "k2tog"),
    ("knit 3 together", "k3tog"),
    ("1 intake", "k2tog"),
    ("over", "yo"),
]
PIQUE_376 = (
    14,
    ["purl 7, knit 1, purl 1, knit 1, purl 1, knit 1, purl 1, knit 1"] * 2
    + ["knit 7, purl 1, knit 1, purl 1, knit 1, purl 1, knit 1, purl 1"] * 2,
    """
    | o - o - o - o - - - - - - - |
    | o - o - o - o - - - - - - - |
    | - o - o - o - o o o o o o o |
    | - o - o - o - o o o o o o o |""",
)
# "9th and 10th row: knit 2 over the 2 purled, purl 2 over the 2 knitted of the 8th row"; 11th and 12th as the first
PIQUE_377 = (
    4,
    ["knit 2, purl 2"] * 8 + ["purl 2, knit 2"] * 2 + ["knit 2, purl 2"] * 2 + ["purl 2, knit 2"] * 2,
    "\n    | - - o o |" * 2 + "\n    | o o - - |" * 2 + "\n    | - - o o |" * 2 + "\n    | o o - - |" * 8,
)
# the rows in fine thread: "3rd row", "5th row", "7th row", each with a plain one above
LACE_386 = (
    4,
    ["over, 1 intake, knit 2", "plain", "knit 1, over, 1 intake, knit 1", "plain", "knit 2, over, 1 intake", "plain"],
    """
    | - - - - |
    | / y - - |
    | - - - - |
    | - / y - |
    | - - - - |
    | - - / y |""",
)
LACE_390 = (
    4,
    [
        "over, slip 1, knit 1, pull slipped stitch over, knit 2",
        "knit 1, over, slip 1, knit 1, pull slipped stitch over, knit 1",
        "knit 2, over, slip 1, knit 1, pull slipped stitch over",
        "slip 1, knit 1, pull slipped stitch over, knit 2, over",
        "knit 2 together, over, knit 2",
        "knit 1, knit 2 together, over, knit 1",
        "knit 2 together, over, knit 2",
        "knit 2, knit 2 together, over",
    ],
    """
    | y / - - |
    | - - y / |
    | - y / - |
    | - - y / |
    | y - - s |
    | s y - - |
    | - s y - |
    | - - s y |""",
)
# the book ends its 8th row "purl 1, knit 1", which leaves a stitch of the 14 over: a misprint for knit 2
LACE_393 = (
    14,
    [
        "over, knit 1, over, knit 2, purl 3, knit 3 together, purl 3, knit 2",
        "knit 5, purl 7, knit 2",
        "over, knit 3, over, knit 2, purl 2, knit 3 together, purl 2, knit 2",
        "knit 7, purl 5, knit 2",
        "over, knit 5, over, knit 2, purl 1, knit 3 together, purl 1, knit 2",
        "knit 9, purl 3, knit 2",
        "over, knit 7, over, knit 2, knit 3 together, knit 2",
        "knit 11, purl 1, knit 2",
    ],
    """
    | - - o - - - - - - - - - - - |
    | - - 3 - - y - - - - - - - y |
    | - - o o o - - - - - - - - - |
    | - - o 3 o - - y - - - - - y |
    | - - o o o o o - - - - - - - |
    | - - o o 3 o o - - y - - - y |
    | - - o o o o o o o - - - - - |
    | - - o o o 3 o o o - - y - y |""",
)
# "3 stitches on to an auxiliary needle, and leave it hanging on the inside of the work; knit 3 and then knit the 3
# stitches on the extra needle", then "5 rows, in which you purl all the purled stitches and knit all the plain ones"
PLAIT_382 = (
    14,
    ["purl 4, plait, purl 4"] + ["purl 4, knit 6, purl 4"] * 5,
    "\n    | o o o o - - - - - - o o o o |" * 5 + "\n    | o o o o > > > > > > o o o o |",
)
PATTERNS = {
    "Piqué pattern, fig. 376": PIQUE_376,
    "Piqué pattern, fig. 377": PIQUE_377,
    "Knitting pattern with two kinds of thread, fig. 386": LACE_386,
    "Knitting pattern, fig. 390": LACE_390,
    "Knitting pattern, fig. 393": LACE_393,
    "Plaited stitch, fig. 382": PLAIT_382,
}


def of_the_book(row: str, width: int) -> list[str]:
    """The stitches of a row as the book tells it."""
    for old, ours in SHORT:
        row = row.replace(old, ours)
    found: list[str] = []
    for part in row.split(", "):
        work, _, count = part.partition(" ")
        if part == "plain":
            found += ["k"] * width
        elif part == "plait":
            found += ["cable 6 right"]
        else:
            found += [work[0]] * int(count) if count else [work]
    return found


def of_the_chart(text: str) -> list[str]:
    """The stitches of a row as the chart's words tell it, what stands in brackets so often."""
    text = re.sub(r" \(as row .*\)", "", text)
    while (group := re.search(r"\(([^()]*)\) (?:(twice)|(\d+) times)", text)) is not None:
        times = 2 if group[2] else int(group[3])
        text = text[: group.start()] + ", ".join([group[1]] * times) + text[group.end() :]
    found: list[str] = []
    for part in text.split(", "):
        run = re.fullmatch(r"([kp])(\d+)", part)
        found += [run[1]] * int(run[2]) if run is not None else [part]
    return found


@pytest.mark.parametrize("name", PATTERNS)
def test_the_words_are_the_books(name: str) -> None:
    """Compiled over four repeats in the round, and proven: no row changes the number of stitches."""
    width, rows, drawn = PATTERNS[name]
    text = SPEC.replace("ROWS", drawn.strip("\n")).replace("WIDTH", str(width)).replace("HEIGHT", str(len(rows)))
    done = written(text.replace("COUNT", str(4 * width)))
    assert done.spec is not None and done.pattern is not None and done.proof is not None and done.plan is not None
    ((_, words),) = printed(done.spec, done.plan, done.pattern, (0,)).charts
    assert [of_the_chart(told) for _, told in words] == [of_the_book(row, width) for row in rows]
    (piece,) = done.plan.pieces
    assert {count for row in piece.levels for count in row.counts} == {4 * width}
