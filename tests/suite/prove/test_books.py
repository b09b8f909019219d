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
