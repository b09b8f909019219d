"""Needle numbers against the published table, row by row."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from wale import needles

COLUMNS = {"US": "us", "UK": "uk_canada_old", "JP": "japan"}
with (Path(__file__).parents[2] / "data" / "needles.csv").open(encoding="utf-8", newline="") as _file:
    ROWS = list(csv.DictReader(_file))
PUBLISHED = [
    (system, row[column], Fraction(row["mm"]))
    for row in ROWS
    for system, column in COLUMNS.items()
    if row[column] and (row["mm"], row[column]) not in {("12.0", "17"), ("20.0", "35 or 36")}
]


@pytest.mark.parametrize(("system", "number", "mm"), PUBLISHED)
def test_published_number(system, number, mm):
    assert needles.needle_from_number(system, number).mm == mm


def test_nothing_else_is_known():
    known = {(system, number) for system in needles.SYSTEMS for number in needles.numbers_of(system)}
    assert known == {(system, number) for system, number, _ in PUBLISHED}


def test_every_size_has_its_row():
    published = {Fraction(row["mm"]) for row in ROWS}
    assert set(needles.sizes()) == published - {Fraction(12), Fraction(20)}  # of doubtful US numbers one size is taken


def test_the_other_sizes_of_disputed_numbers_are_published_too():
    others = {(row["mm"], row["us"]) for row in ROWS}
    assert {("12.0", "17"), ("20.0", "35 or 36")} <= others
    assert "12 or 12.75 mm" in needles.needle_from_number("US", "17").doubt
    assert "19 or 20 mm" in needles.needle_from_number("US", "35").doubt


def test_japanese_series():
    # Japanese sizes 0 to 15 are 2.1 + 0.3 n mm, but for 8 (4.5) and 13 (6), which are on it too
    for n in range(16):
        assert needles.needle_from_number("JP", str(n)).mm == Fraction(21 + 3 * n, 10)


@pytest.mark.parametrize(
    ("system", "number"), [("US", "17"), ("US", "19"), ("US", "35"), ("US", "1.5"), ("US", "2 1/2"), ("UK", "12")]
)
def test_disputed_numbers_tell(system, number):
    assert needles.needle_from_number(system, number).doubt


@pytest.mark.parametrize(
    "mm", ["2", "2.25", "2.75", "3.25", "3.5", "3.75", "4", "4.5", "5", "5.5", "6", "6.5", "8", "9", "10"]
)
def test_sizes_that_all_tables_agree_on_are_not_doubted(mm):
    shown = needles.show_needle(Fraction(mm))
    assert shown.startswith(f"{mm} mm (US ")
    number = shown.removesuffix(")").split("US ")[1]
    assert needles.needle_from_number("US", number) == needles.Needle(Fraction(mm))


def test_ways_to_write_a_half():
    assert {needles.needle_from_number("US", text).mm for text in ("10 1/2", "10.5")} == {Fraction("6.5")}


def test_zeros_count():
    assert [needles.needle_from_number("US", z).mm for z in ("0", "00", "000")] == [
        2,
        Fraction("1.75"),
        Fraction("1.5"),
    ]


@pytest.mark.parametrize(("system", "number"), [("US", "12"), ("EU", "4"), ("US", ""), ("US", "4 1/3"), ("us", "4")])
def test_unknown(system, number):
    assert needles.needle_from_number(system, number) is None


def test_size_without_a_number():
    assert needles.show_needle(Fraction("3.6")) == "3.6 mm"


@pytest.mark.parametrize(("mm", "answer"), [("0", False), ("0.5", True), ("3.5", True), ("50", True), ("350", False)])
def test_believable(mm, answer):
    assert needles.is_believable(Fraction(mm)) is answer


def test_the_document_tells_every_doubt():
    text = (Path(__file__).parents[3] / "docs" / "yarn.md").read_text(encoding="utf-8")
    doubts = [needles.needle_from_number(system, number).doubt for system, number, _ in PUBLISHED]
    assert all(doubt[1:] in text for doubt in doubts if doubt)
    assert sum(bool(doubt) for doubt in doubts) == 6
