"""Passages of old books, typed in: the stitches stated in `worked_examples.csv` are those on the needles."""

from __future__ import annotations

import csv
import re
from functools import cache

import pytest
from support import ROOT

from wale.knitting import Knitted, knit_pattern
from wale.prove.trial import Trial
from wale.source import Source

DATA = ROOT / "tests" / "data"
BOOKS = sorted(path.stem for path in (DATA / "books").glob("*.txt"))
POINTS: dict[str, tuple[str, str, str, tuple[tuple[int, ...], ...]]] = {
    "W084": ("crowns-and-toes", "Crown of eight wedges", "", ((80,), (72,), (8,))),
    "W085": ("crowns-and-toes", "Crown of nine wedges", "", ((18,), (12,))),
    "W086": ("helmet", "One-piece helmet", "", ((98,), (84,), (70,), (56,), (42,), (28,))),
    "W090": ("mitten-top", "Top", "large", ((30,), (6,))),
    "W091": ("mitten-top", "Thumb", "large", ((18,), (14,), (10,), (5,))),
    "W092": ("childs-mitten", "Child's mitten", "", ((54,), (26, 21, 27))),
    "W093": ("service-sock", "Service sock", "", ((68,), (61,), (31,))),
    "W095": ("service-sock", "Service sock", "", ((25, 30, 25), (15, 30, 15))),
    "W096": ("service-sock", "Service sock", "", ((11, 22, 11), (8, 16, 8), (2, 4, 2))),
    "W098": ("knickerbocker-stocking", "Knickerbocker stocking", "", ((28,), (16,))),
    "W099": ("knickerbocker-stocking", "Knickerbocker stocking", "", ((27, 25, 27),)),
    "W102": ("heels", "Heel of 32", "", ((18,),)),
    "W105": ("heels", "Dutch heel", "", ((36,), (12,))),
    "W106": ("crowns-and-toes", "Round toe", "", ((72,), (64,), (56,), (48,), (40,), (32,), (24,))),
}
"""For each worked example: file, piece and size, and the counts at its points in order, between markers or in all.

Each count but those of stitches that the row does not name stands in the example.
"""
UNNAMED = {("W092", 26), ("W092", 27), ("W095", 30), ("W096", 11), ("W096", 8), ("W096", 2)}
"""Stitches beside those that the example is about."""


def examples() -> dict[str, dict[str, str]]:
    with (DATA / "worked_examples.csv").open(encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


@cache
def book(name: str) -> Knitted:
    path = DATA / "books" / f"{name}.txt"
    return knit_pattern(Source(path.name, path.read_text("utf-8")))


def trial(file: str, piece: str, size: str) -> Trial:
    (found,) = (one for one in book(file).trials if (one.piece, one.size) == (piece, size))
    return found


@pytest.mark.parametrize("name", BOOKS)
def test_a_passage_can_be_worked_and_agrees_with_itself(name: str) -> None:
    knitted = book(name)
    assert knitted.problems == ()
    assert all(one.stop is None and one.rows for one in knitted.trials)


@pytest.mark.parametrize("name", BOOKS)
def test_a_passage_names_its_source(name: str) -> None:
    text = (DATA / "books" / f"{name}.txt").read_text("utf-8")
    assert text.count("Source: ") == len(book(name).book.pieces)


@pytest.mark.parametrize("example", POINTS)
def test_the_counts_of_worked_examples_are_reached(example: str) -> None:
    file, piece, size, points = POINTS[example]
    row = examples()[example]
    told = {int(number) for number in re.findall(r"\d+", row["inputs"] + " " + row["expected"])}
    assert {count for point in points for count in point if (example, count) not in UNNAMED} <= told
    reached = iter([one.found for one in trial(file, piece, size).stated])
    assert all(point in reached for point in points), "the points do not come in this order"


def test_both_sizes_of_a_mitten_in_brackets() -> None:
    # W090: 27 [33] sts, 24 [30] then 6 [6]; W091: 16 [18], 12 [14], 8 [10], 4 [5].
    assert [one.found for one in trial("mitten-top", "Top", "small").stated] == [(24,), (6,), (6,)]
    assert [one.found for one in trial("mitten-top", "Thumb", "small").stated] == [(16,), (12,), (8,), (4,)]


def test_the_gap_of_a_thumb_is_cast_on_again() -> None:
    # W092: 54 sts and 20 increases make 74; 21 go on a holder, a third of them (7) is cast on: 60.
    assert (60,) in [one.found for one in trial("childs-mitten", "Child's mitten", "").stated]


def test_decreases_of_a_heel() -> None:
    # W098: 28 sts, 12 rows with a decrease each.
    rows = [row for row in trial("knickerbocker-stocking", "Knickerbocker stocking", "").rows if row.stitches < 28]
    assert [row.stitches for row in rows[:12]] == list(range(27, 15, -1))


def test_a_sock_goes_back_to_sixty_stitches_after_ten_decrease_rounds() -> None:
    rows = trial("service-sock", "Service sock", "").rows
    gusset = [row.stitches for row in rows[143:163]]
    # W095: 80 sts, two fewer on every second round, ten times.
    assert gusset == [80 - 2 * ((number + 1) // 2) for number in range(20)]


WHOLE: dict[tuple[str, str], tuple[int, ...]] = {
    # "decrease ... until there are 76 stitches", "until 70 remain", 25 either side of 20, "6 stitches", "38 stitches on
    # the needle", 12 added, "60 stitches on the needle"
    ("winter-costume", "Back and front of the sweater"): (76, 70, 25, 31, 38, 50, 60),
    ("winter-costume", "Sleeve"): (74, 56),
    ("winter-costume", "Skating-cap"): (136,),
    # "58 stitches on the needles", "18 stitches on 3 needles", "48 stitches on the hand", "15 stitches in all",
    # "19 stitches on needle", "16 stitches remaining", "18 stitches in all", "remaining 15", "14 stitches"
    ("glove", "Knitted glove"): (58, 18, 48, 15, 19, 16, 18, 15, 14),
    # "on the remaining 65 stitches", 13 cast on, 42 bound off for the sleeve
    ("childrens-sets", "Sweater of set no. 1"): (144, 65, 78, 36),
    # "remaining 43 stitches", "11 extra stitches", 26 bound off
    ("childrens-sets", "Jacket of set no. 2"): (104, 43, 54, 28),
    # "you should have 23 stitches on the needle", "you should then have 20"
    ("serviceable-sweater", "Left front"): (23, 20),
    # "the remaining 63 stitches"
    ("serviceable-sweater", "Back"): (63, 60),
    # "until 73 stitches remain"
    ("serviceable-sweater", "Sleeve"): (97, 73),
    # "leaving 79 stitches on your needle", "the remaining 31 stitches"
    ("sleeveless-sweater", "Back, to the neck"): (79, 31),
    # 34, 21 and 34 stitches; "the remaining 34 stitches"
    ("ladies-sweater", "Back and front"): (99, 89, 34, 64, 69, 86),
    ("ladies-sweater", "Sleeve"): (56, 47),
    # 18, 17, 21, 17 and 18 stitches
    ("babies-bootees", "Babies' long bootees"): (57, 57, 57, 21, 91),
}
"""Whole patterns of the handbook of 1918, and the stitches it tells, or that follow from those it tells, in order."""


@pytest.mark.parametrize(("file", "piece"), WHOLE)
def test_whole_patterns_of_a_book_come_to_its_counts(file: str, piece: str) -> None:
    worked = trial(file, piece, "")
    points = [(row.number, 0, row.stitches) for row in worked.rows]
    points += [(one.row, 1, sum(one.found)) for one in worked.stated]
    reached = iter([count for _, _, count in sorted(points)])
    assert all(count in reached for count in WHOLE[file, piece]), "the counts do not come in this order"


def knitted_from(text: str) -> Knitted:
    return knit_pattern(Source("passage.txt", text))


def test_a_pattern_row_of_bootees_gains_a_stitch_as_printed() -> None:
    # "knit 4, over, knit 3, * slip, narrow and bind, knit 3, over, knit 1, over, knit 3; repeat from * to end of row":
    # 7 and 5 x 10 stitches are 57, and 8 and 5 x 10 come off.
    row = "Row 1: k4, yo, k3, (sk2p, k3, yo, k1, yo, k3) 5 times."
    (found,) = knitted_from(f"Bootee\nCast on 57 sts.\n{row} 57 sts.\nBind off all sts.\n").problems
    assert found.code == "E853" and "there are 58 sts, not 57" in found.message


def test_a_glove_has_fourteen_stitches_where_its_book_counts_ten() -> None:
    # "until you have 10 stitches between the two widening points, and 58 stitches on the needles": 48 and 5 x 2 are 58,
    # and between the points are the 4 of before and those 10. Its thumb takes "7 stitches on each of 2 needles".
    stated = [one.found for one in trial("glove", "Knitted glove", "").stated]
    assert (44, 14) in stated


def test_the_knee_cap_picks_up_nine_stitches_too_many() -> None:
    # 105 stitches; the gore grows from 26 until 42 wait, and shrinks to 26 again. "Take up 23 stitches on the selvage
    # at each side ... you should have the original number of 35 stitches on each of the needles."
    text = (
        "Knee-cap\nCast on 35, 35 and 35 sts: 105 sts. Join to a round.\nPut the next 42 sts on a holder.\n"
        "Work back and forth over these 63 sts.\nRow 1: k to the last 2 sts, k2tog.\n"
        "Repeat row 1 until there are 26 sts.\n"
        "Next row: pick up and knit 23 sts along the side, k26, pick up and knit 23 sts along the side,"
        " k the 42 held sts. 105 sts.\nBind off all sts.\n"
    )
    (found,) = knitted_from(text).problems
    assert found.code == "E853" and "there are 114 sts, not 105" in found.message
