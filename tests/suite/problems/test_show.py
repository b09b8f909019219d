"""How problems look in a terminal and as data."""

import re
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wale.problems.export import as_json
from wale.problems.nearest import nearest, there_are
from wale.problems.problem import Edit, Fix, Label, Problem, problem
from wale.problems.show import show
from wale.source import Source, Span


def span(text: str, word: str, file: str = "a.wale") -> Span:
    return Span(file, text.index(word), text.index(word) + len(word))


def shown(text: str, found: Problem, width: int = 80) -> list[str]:
    return show([found], {"a.wale": Source("a.wale", text)}, colour=False, width=width).splitlines()


def test_several_places_help_and_fix() -> None:
    text = "wale 1\nlet a = 3\n\nlet b = a + 10cm\n"
    found = Problem(
        "E120",
        "`10cm` runs together",
        (Label(span(text, "10cm"), "two words"), Label(span(text, "let a = 3"), "the other")),
        help="Write two words.",
        fixes=(Fix("write `10 cm`", (Edit(span(text, "10cm"), "10 cm"),), "safe"),),
        size="M",
    )
    assert shown(text, found) == [
        "error[E120]: `10cm` runs together",
        "  at a.wale:4:13, size M",
        "    2  let a = 3",
        "       ~~~~~~~~~ the other",
        "    :",
        "    4  let b = a + 10cm",
        "                   ^^^^ two words",
        "  help: Write two words.",
        "   fix: write `10 cm`",
        "    4> let b = a + 10 cm",
    ]


def test_places_in_two_files() -> None:
    texts = {"a.wale": "yarn rye\n", "b.wale": "x\nyarn rye\n"}
    found = Problem("E117", "twice", (Label(Span("b.wale", 7, 10), "again"), Label(Span("a.wale", 5, 8), "first")))
    lines = show([found], {name: Source(name, text) for name, text in texts.items()}, colour=False, width=80)
    assert lines.splitlines()[1:] == [
        "  at b.wale:2:6",
        "    2  yarn rye",
        "            ^^^ again",
        "  and a.wale:1:6",
        "    1  yarn rye",
        "            ~~~ first",
    ]


@pytest.mark.parametrize(
    ("before", "cells"),
    [("abc ", 4), ("編む ", 5), ("e\u0301a ", 3), ("\t", 4), ("ab\t", 4), ("\u202eab ", 4), ("𝒳 ", 2)],
)
def test_marks_stand_under_the_word_whatever_is_before_it(before: str, cells: int) -> None:
    text = f"{before}oops rest\n"
    lines = shown(text, problem("E117", "m", span(text, "oops"), "here"))
    assert lines[3] == " " * (7 + cells) + "^^^^ here"


def test_long_lines_are_cut_around_the_place() -> None:
    text = "a " * 200 + "oops " + "b " * 200
    lines = shown(text, problem("E117", "m", span(text, "oops")), width=60)
    assert all(len(line) <= 60 for line in lines)
    at = lines[3].index("^")
    assert lines[2][at : at + 4] == "oops"
    assert lines[3].count("^") == 4


@pytest.mark.parametrize("sign", ["a", "編", "\t", "e\u0301"])
def test_of_a_line_without_end_only_the_marked_part_is_shown(sign: str) -> None:
    text = sign * 50_000 + "oops" + sign * 50_000
    lines = shown(text, problem("E117", "m", span(text, "oops")), width=60)
    before = lines[2][: lines[2].index("oops")]
    cells = sum({"編": 2, "\u0301": 0}.get(one, 1) for one in before)
    assert lines[3].index("^") == cells and lines[3].count("^") == 4
    assert lines[2].count("…") == 2 and len(lines[2]) <= 120


def test_no_sign_steers_the_terminal() -> None:
    text = "a\x1b[31m \u202e oops\n"
    lines = show(
        [problem("E110", "a \x1b here", span(text, "oops"), "\x07")],
        {"a.wale": Source("a.wale", text)},
        colour=False,
        width=80,
    )
    assert not [sign for sign in lines if unicodedata.category(sign) in ("Cc", "Cf") and sign != "\n"]


def test_unknown_file_and_no_place() -> None:
    assert show([problem("E117", "m", Span("gone.wale", 3, 4))], {}, colour=False, width=80) == (
        "error[E117]: m\n  at gone.wale\n"
    )
    assert show([Problem("E117", "m", size="S")], {}, colour=False, width=80) == "error[E117]: m\n  in size S\n"
    assert show([], {}, colour=False, width=80) == ""


def test_colour_adds_nothing_but_colour() -> None:
    text = "let b = 10cm\n"
    found = problem("E120", "m", span(text, "10cm"), "two words", help="Write two.")
    sources = {"a.wale": Source("a.wale", text)}
    coloured = show([found], sources, colour=True, width=80)
    assert "\x1b[" in coloured
    bare = re.sub(r"\x1b\[[0-9;]*m", "", coloured)
    assert bare.splitlines() == show([found], sources, colour=False, width=80).splitlines()


@settings(max_examples=150, deadline=None)
@given(st.text(), st.integers(0, 40), st.integers(0, 40), st.integers(0, 200))
def test_any_text_can_be_shown_and_exported(text: str, start: int, end: int, width: int) -> None:
    place = Span("a.wale", min(start, end), max(start, end))
    found = problem("E117", text, place, text, help=text, fixes=(Fix(text, (Edit(place, text),)),))
    sources = {"a.wale": Source("a.wale", text)}
    assert show([found], sources, colour=False, width=width).startswith("error[E117]:")
    assert as_json([found], sources)[0]["message"] == text


def test_export_counts_places_each_way() -> None:
    text = "a\nx 𝒳 oops\n"  # the letter before the word is one code point and two UTF-16 units
    fix = Fix("mend", (Edit(span(text, "oops"), "fine"),), "safe")
    found = problem("E117", "m", span(text, "oops"), "here", help="h", fixes=(fix,), size="M")
    place = {
        "file": "a.wale",
        "start": 6,
        "end": 10,
        "from": {"line": 2, "column": 5, "utf16": 5},
        "to": {"line": 2, "column": 9, "utf16": 9},
    }
    assert as_json([found], {"a.wale": Source("a.wale", text)}) == [
        {
            "code": "E117",
            "severity": "error",
            "title": "A word or number stands where it does not fit",
            "message": "m",
            "help": "h",
            "size": "M",
            "labels": [{"place": place, "text": "here"}],
            "fixes": [{"title": "mend", "grade": "safe", "edits": [{"place": place, "text": "fine"}]}],
        }
    ]


def test_export_of_an_unknown_file_keeps_offsets() -> None:
    (row,) = as_json([problem("E117", "m", Span("gone", 3, 4))], {})
    assert row["labels"] == [{"place": {"file": "gone", "start": 3, "end": 4, "from": None, "to": None}, "text": ""}]


@pytest.mark.parametrize(
    ("word", "near"),
    [("peice", "piece"), ("Yarn", "yarn"), ("swach", "swatch"), ("uper-arm", "upper-arm"), ("sise", "sizes")],
)
def test_nearest(word: str, near: str) -> None:
    known = ["pattern", "yarn", "swatch", "motif", "sizes", "body", "piece", "join", "band", "upper-arm"]
    assert nearest(word, known)[0] == near
    assert nearest(word, reversed(known)) == nearest(word, known)


def test_nearest_gives_nothing_where_nothing_is_near() -> None:
    assert nearest("zzz", ["piece", "yarn"]) == ()
    assert nearest("", ["piece"]) == ()
    assert nearest("piece", ["piece"]) == ()
    assert nearest("a" * 100_000, ["a" * 99_999]) == ()
    assert len(nearest("bust1", [f"bust{i}" for i in range(9)], 2)) == 2


def test_the_names_that_there_are_are_told_for_none_one_and_many() -> None:
    assert there_are("S", []) == "There is none."
    assert there_are("S", ["one"]) == "There is only one."
    assert there_are("smal", ["small", "large"]) == "There are small, large. Perhaps small?"
    assert there_are("XL", ["small", "large"]) == "There are small, large."
