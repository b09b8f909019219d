"""What is printed for what is typed, case by case; each result stays when it is laid out again."""

import re
from pathlib import Path

import pytest

from wale.format import format_source
from wale.source import Source

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "format.md").read_text("utf-8")


def laid(text, to_newest=False):
    found, problems = format_source(Source("a.wale", text), lambda name: None, to_newest)
    assert found is not None, problems
    return found


def printed(text):
    once = laid(text).text
    assert laid(once).text == once
    return once


CASES = {
    "one blank line between blocks, one at most inside, none below a head": (
        "wale 1\npiece a, worked flat\n\n\n  work 2 cm\n\n\n\n  bind off\njoin\n\n\n",
        "wale 1\n\npiece a, worked flat\n    work 2 cm\n\n    bind off\n\njoin\n",
    ),
    "a keyword alone widens no column": (
        "wale 1\npiece a, worked flat\n  rib 2 cm ,  2x2\n  bind off\n",
        "wale 1\n\npiece a, worked flat\n    rib 2 cm, 2x2\n    bind off\n",
    ),
    "two words of one keyword": (
        "wale 1\npiece a, worked flat\n  cast   on 2 cm in b\n  work 3 cm\n  bind off , loosely\n",
        "wale 1\n\npiece a, worked flat\n    cast on 2 cm in b\n    work    3 cm\n    bind off, loosely\n",
    ),
    "arithmetic": (
        "wale 1\nlet a=2*( b+c )/ 2 - max( d ,  -1.5 cm )\n".replace("b+c", "b + c"),
        "wale 1\n\nlet a = 2 * (b + c)/2 - max(d, -1.5 cm)\n",
    ),
    "a division is not drawn together to a fraction": (
        "wale 1\nlet a = 2 / 8\nlet b = hip / 2/3\nlet c = hip / 2 / 3\nlet d = hip / 5 1/2\nlet e = 1 / hip\n",
        "wale 1\n\nlet a = 2 / 8\nlet b = hip / 2/3\nlet c = hip/2/3\nlet d = hip / 5 1/2\nlet e = 1 / hip\n",
    ),
    "lists of sizes that stand together": (
        "wale 1\nsizes S M L\n  measure bust 86 (94, 104) cm\n  measure wrist 15.5 (16, 16) cm\n"
        "  measure hip 9 (-10, 111 1/2) cm\n  ease bust 1 (2, 3) cm, hip 1 cm\n\n  measure head 5 (6, 7) cm\n",
        "wale 1\n\nsizes S M L\n"
        "    measure bust    86 ( 94,     104) cm\n"
        "    measure wrist 15.5 ( 16,      16) cm\n"
        "    measure hip      9 (-10, 111 1/2) cm\n"
        "    ease    bust 1 (2, 3) cm, hip 1 cm\n"
        "\n"
        "    measure head  5 (6, 7) cm\n",
    ),
    "lists of another number of sizes, or in another column, stand for themselves": (
        "wale 1\nlet a = 1 (20, 3) cm\nlet b = 100 (2) cm\nlet c = 2 * 300 (4, 5) cm\n",
        "wale 1\n\nlet a = 1 (20, 3) cm\nlet b = 100 (2) cm\nlet c = 2 * 300 (4, 5) cm\n",
    ),
    "cells as wide as the widest mark": (
        "wale 1\nmotif a\n  key |  -  | b, |ry| c\n  |- ry -|\n  | ry  - - |\n  | - - |\n",
        "wale 1\n\nmotif a\n    key |-| b, |ry| c\n    | -  ry -  |\n    | ry -  -  |\n    | -  -     |\n",
    ),
    "the rows of a wedge about its middle": (
        "wale 1\nmotif a\n  |x|\n  |x x x x|\n  |x x x x x|\n  wedge\n",
        "wale 1\n\nmotif a\n    |     x     |\n    |  x x x x  |\n    | x x x x x |\n    wedge\n",
    ),
    "comments at the ends of lines": (
        "wale 1 -- first\npiece a, worked flat -- head\n  work 2 cm -- one\n  work 300 cm\n"
        "  -- between\n  mark b   -- two\n\n  bind off -- three\n",
        "wale 1  -- first\n\npiece a, worked flat  -- head\n    work 2 cm  -- one\n    work 300 cm\n"
        "    -- between\n    mark b     -- two\n\n    bind off  -- three\n",
    ),
    "a long line moves no other comment": (
        f'wale 1\npiece a, worked flat\n  note "{"x" * 80}" -- long\n  work 2 cm -- short\n',
        f'wale 1\n\npiece a, worked flat\n    note "{"x" * 80}"  -- long\n    work 2 cm  -- short\n',
    ),
    "comments go with what stands below, and end a block when they are indented": (
        "-- file\nwale 1\n--head\npiece a, worked flat\n-- line\n  work 2 cm\n  -- last\n\n-- next\n\njoin\n"
        "  -- of join\n-- end\n",
        "-- file\nwale 1\n\n--head\npiece a, worked flat\n    -- line\n    work 2 cm\n    -- last\n\n-- next\n\njoin\n"
        "    -- of join\n\n-- end\n",
    ),
    "`let` lines stand together or apart": (
        "wale 1\nlet a = 1\n-- of b\nlet bcd = 2 -- two\n\nlet e = 3\njoin\nlet f = 4\n",
        "wale 1\n\nlet a   = 1\n-- of b\nlet bcd = 2  -- two\n\nlet e = 3\n\njoin\n\nlet f = 4\n",
    ),
    "a broken line is put on one": (
        "wale 1\nlet a = max(1,\n   2)\nsizes S\n  ease bust 1 cm,\n      hip 2 cm\n",
        "wale 1\n\nlet a = max(1, 2)\n\nsizes S\n    ease bust 1 cm, hip 2 cm\n",
    ),
    "comments in a broken line keep their lines": (
        "wale 1\nsizes S\n  ease bust 1 cm,   -- one\n      -- between\n\n      hip  2 cm -- two\n  measure hip 3 cm\n",
        "wale 1\n\nsizes S\n    ease    bust 1 cm,  -- one\n            -- between\n            hip 2 cm    -- two\n"
        "    measure hip 3 cm\n",
    ),
    "a line too far to the right is not drawn into the one above": (
        "wale 1\npiece a, worked flat\n  work 2 cm\n      work 3 cm\n",
        "wale 1\n\npiece a, worked flat\n    work 2 cm\n         work 3 cm\n",
    ),
    "lines in a column of their own, and tabs": (
        "wale 1\npiece a, worked flat\n    work 2 cm\n  work 3 cm\n\tbind off\n",
        "wale 1\n\npiece a, worked flat\n    work 2 cm\n    work 3 cm\n    bind off\n",
    ),
    "line ends, byte order mark, spaces at the end, no end of the last line": (
        "\ufeffwale 1  \r\n\r\n\r\njoin\r\n  seam sides\t",
        "wale 1\n\njoin\n    seam sides\n",
    ),
    "no more than comments": ("-- a\n\n\n  -- b\n\n", "-- a\n\n-- b\n"),
    "nothing": ("", ""),
    "blank lines alone": ("\n \n", ""),
    "what a construction is given takes a column, and its blocks stay at the left edge": (
        "wale 1\nmake  a as bag -- mine\n  give width=2 cm\n  give   b = x\nconstruction bag\n takes width\n"
        " takes swatch   b=x\npiece c, worked flat\n  cast on width in b\n",
        "wale 1\n\nmake a as bag  -- mine\n    give width = 2 cm\n    give b     = x\n\nconstruction bag\n"
        "    takes width\n    takes swatch b = x\n\npiece c, worked flat\n    cast on width in b\n",
    ),
    "colours": ("wale 1\nyarn a\n  colour #8A5A2B\n", "wale 1\n\nyarn a\n    colour #8a5a2b\n"),
    "names that look like keywords of two words": (
        "wale 1\npiece a, worked flat\n  bind off / 2\n  work 1 cm\n",
        "wale 1\n\npiece a, worked flat\n    bind off/2\n    work 1 cm\n",
    ),
}


@pytest.mark.parametrize(("typed", "wanted"), CASES.values(), ids=CASES)
def test_what_is_printed(typed, wanted):
    assert printed(typed) == wanted


def test_long_lines_are_broken_after_commas_and_then_in_sums():
    options = ", ".join(f"option-number-{i}" for i in range(8))
    text = printed(f"wale 1\npiece a, worked flat\n  bind off\n  mark b, {options}\n")
    assert text == (
        "wale 1\n\npiece a, worked flat\n    bind off\n"
        "    mark b, option-number-0, option-number-1, option-number-2, option-number-3, option-number-4,\n"
        "         option-number-5, option-number-6, option-number-7\n"
    )
    terms = " + ".join(f"{'length' * 4}-{i}" for i in range(5))
    text = printed(f"wale 1\nlet a = {terms}\n")
    assert text == (
        "wale 1\n\nlet a = lengthlengthlengthlength-0 + lengthlengthlengthlength-1 + lengthlengthlengthlength-2\n"
        "        + lengthlengthlengthlength-3 + lengthlengthlengthlength-4\n"
    )


BROKEN = [
    "piece b, worked flat\n\n\n  work   2 (3,\n     -- odd\n  work 3 cm   -- kept\n",
    "yarn   c\n  colour   #zzz\n  count 2/8 Nm\n",
    "work   3 cm\n   bind off\n",
    "pattern   “M”\n  about   'x'\n",
    "let   d = 2 (\n",
    "join\n  seam   5cm\n",
]


@pytest.mark.parametrize("broken", BROKEN)
def test_a_broken_block_stays_to_the_letter_and_the_others_are_laid_out(broken):
    found = laid(f"wale 1\n\npiece a, worked flat\n  work   2 cm\n\n{broken}\nyarn e\n  colour #FFFFFF\n")
    good = "wale 1\n\npiece a, worked flat\n    work 2 cm\n\n", "\nyarn e\n    colour #ffffff\n"
    assert found.text == broken.join(good)
    (kept,) = found.kept
    assert kept.start == found.text.index(broken) - len("    work 2 cm") + len("  work   2 cm")
    assert kept.end - kept.start == len(broken) - 1


def test_an_indented_line_under_nothing_stays():
    text = "   work  3 cm\n\nwale 1\n\njoin\n    seam sides\n"
    found = laid(text)
    assert found.text == text
    assert [(span.start, span.end) for span in found.kept] == [(0, 13), (15, 21)]  # the edition comes too late


def test_a_line_of_many_characters_keeps_its_block():
    block = f'piece a, worked flat\n  note "x",   {"a,  " * 800}a\n'
    text = f"wale 1\n{block}join\n"
    assert laid(text).text == text


def test_errors_of_names_keep_nothing_from_being_laid_out():
    assert laid("wale 1\npiece a, as nobody\n  wrok  2 cm\n").text == ("wale 1\n\npiece a, as nobody\n    wrok 2 cm\n")


@pytest.mark.parametrize("number", [2, 7])
def test_a_later_edition_is_refused(number):
    found, (problem,) = format_source(Source("a.wale", f"wale {number}\n  x\n"), lambda name: None, True)
    assert found is None
    assert problem.code == "E102"
    assert problem.message == f"the file is of edition {number}, and this compiler reads edition 1"


def test_what_would_grow_too_long_is_refused():
    text = "wale 1\n" + "join\n" * 4_000
    found, (problem,) = format_source(Source("a.wale", text), lambda name: None)
    assert found is None
    assert problem.code == "E130"


@pytest.mark.parametrize(
    "path", [*sorted(ROOT.glob("examples/*.wale")), *sorted(ROOT.glob("compiler/wale/starters/*.wale"))]
)
def test_the_examples_are_laid_out(path):
    text = path.read_text("utf-8")
    assert laid(text).text == text


def test_what_is_made_of_a_construction_below_stays_the_same():
    text = (ROOT / "compiler/wale/starters/construction.wale").read_text("utf-8")
    loose = text.replace("    ", "   ").replace("\n\n", "\n\n\n\n").replace("give depth ", "give   depth ")
    assert loose != text and printed(loose) == text


def test_the_page_shows_what_is_done():
    typed, wanted = (re.search(rf"```{kind}\n(.*?)```", PAGE, re.S)[1] for kind in ("typed", "wale"))
    found = laid(typed)
    assert (found.text, found.kept) == (wanted, ())
