"""The form of a pattern file: headings, steps, wrapped lines, remarks, sizes and charts."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from prove_patterns import FILES, compiled
from support import EXAMPLES, ROOT, SPEC, world, written

from wale.driver import compile_spec
from wale.knitting import knit_pattern, remarks
from wale.outputs.text import render
from wale.prove.book import read_book
from wale.source import Source
from wale.write.facts import facts

BOOK = """Mill cap
Sizes small (large)
For the crew.

1. Cap

Note: any yarn will do.
Cast on 20 (24) sts. Join to a
round.
Knit 3 rounds.
Sides:
- Round 1: (k3, k2tog) 4 times,
  k0 (4). 16 (20) sts.
2. Size large: Knit 2
   rounds.

Making up

1. Weave in the ends.

Chart dots:
Row 1 (RS) 3 rye, 1 flour
Row 2 (WS) 1 flour,
    3 rye
"""
BROKEN = """Cap

Cast on 20 sts. Join to a round.
Round 1: (k3, k2tog) 4 times,
    k0 cunningly.
Round 2: k3. 15 sts.
"""


def knitted(text: str) -> list[tuple[str, int]]:
    """Knit a text and give its problems as (code, line)."""
    source = Source("cap.txt", text)
    found = knit_pattern(source).problems
    return [(one.code, source.place(one.labels[0].span.start)[0]) for one in found]


def test_a_file_is_taken_apart() -> None:
    book = read_book(BOOK)
    (cap,) = book.pieces
    assert book.sizes == ("small", "large")
    assert (cap.name, cap.number, cap.unread) == ("Cap", 5, ())
    assert [(step.number, step.label, step.reading is None) for step in cap.steps] == [
        (7, 0, True),
        (8, 0, False),
        (10, 0, False),
        (11, 0, True),
        (12, 0, False),
        (14, 2, False),
    ]
    assert cap.steps[4].text == "Round 1: (k3, k2tog) 4 times, k0 (4). 16 (20) sts."
    assert book.charts == ((21, "dots", (("Row 1 (RS)", "3 rye, 1 flour"), ("Row 2 (WS)", "1 flour, 3 rye"))),)
    assert book.prose == ("Making up",)


def test_sizes_are_knitted_from_their_brackets() -> None:
    small, large = knit_pattern(Source("cap.txt", BOOK)).trials
    assert [row.stitches for row in small.rows] == [20, 20, 20, 16]
    assert [row.stitches for row in large.rows] == [24, 24, 24, 20, 20, 20]


def test_brackets_without_a_line_of_sizes_are_numbered() -> None:
    assert read_book("Cap\n\nCast on 20 (24, 28) sts.\n").sizes == ("1", "2", "3")
    assert read_book("Cap\n\nCast on 20 sts.\n").sizes == ("",)


def test_a_pattern_without_headings_is_one_piece() -> None:
    book = read_book("Cast on 20 sts.\nKnit 2 rows.\n")
    assert [(piece.name, len(piece.steps)) for piece in book.pieces] == [("piece", 2)]
    titled = read_book("A scarf for the miller\nCast on 20 sts.\nKnit 2 rows.\n")
    assert [(len(piece.steps), piece.unread) for piece in titled.pieces] == [(2, ())]


def test_a_piece_begins_like_another_one() -> None:
    text = "Back\n\nCast on 20 sts.\nNote: soft.\nKnit 4 rows.\nBind off.\n\nFront\n\n"
    front = read_book(text + "Work steps 1 to 2 of the back, then go on with step 3.\nPurl 1 row.\n").pieces[1]
    assert [step.number for step in front.steps] == [3, 5, 11]
    missing = read_book(text + "Work steps 1 to 9 of the back, then go on with step 10.\nPurl 1 row.\n").pieces[1]
    assert [str(one.error) for one in missing.unread] == ["the back has no step 9"]


def test_pieces_of_one_name_are_told_apart() -> None:
    text = "Sleeve\n\nCast on 20 sts.\n\nSleeve\n\nCast on 22 sts.\nKnit 1 row.\n\nSleeve\n\nCast on 24 sts.\n"
    found = knit_pattern(Source("sleeves.txt", text))
    assert [(one.piece, one.cast_on) for one in found.trials] == [
        ("Sleeve", 20),
        ("Sleeve (2)", 22),
        ("Sleeve (3)", 24),
    ]
    assert found.problems == ()


def test_lines_end_as_the_machine_likes() -> None:
    text = BOOK.replace("\n", "\r\n") + "\x0c\r\nCast on 20\x0bsts.\r\n"
    found = knit_pattern(Source("cap.txt", text))
    assert [[row.stitches for row in one.rows[-1:]] for one in found.trials] == [[16], [20]]


def test_problems_stand_at_the_words_that_are_wrong() -> None:
    source = Source("cap.txt", BROKEN)
    first, second = knit_pattern(source).problems
    assert (first.code, source.cut(first.labels[0].span)) == ("E851", "cunningly.")
    assert first.labels[0].text == "expected here: `,`, `.`"
    assert (second.code, source.place(second.labels[0].span.start)) == ("E852", (6, 1))


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("Scarf\n\nA long one.\n", [("E854", 1)]),
        ("", [("E854", 1)]),
        ("Cap\n\nCast on 20 sts.\nKnit 3 rows. 21 sts.\n", [("E853", 4)]),
        ("Cap\n\nCast on 20 sts.\nRow 1: k19, k2tog.\nKnit 3 rows.\n", [("E852", 4)]),
        ("Sizes S (M)\n\nCap\n\nCast on 20 (22, 24) sts.\n", [("E855", 5)]),
        ("Sizes S (M)\n\nCap\n\nSize L: Cast on 20 sts.\n", [("E855", 5)]),
        ("Cap\n\nCast on 20 sts.\n\nChart a:\nRow 1 2 rye\nRow 3 2 rye\n", [("E856", 5)]),
        ("Cap\n\nCast on 20000000 sts.\nCast on 20 sts.\n", [("E851", 3)]),
    ],
)
def test_each_problem_has_its_code_and_line(text: str, problems: list[tuple[str, int]]) -> None:
    assert knitted(text) == problems


def test_a_slip_in_all_sizes_is_told_once() -> None:
    text = "Sizes S (M, L)\n\nCap\n\nCast on 20 (20, 22) sts.\nKnit 3 rows. 21 (21, 22) sts.\n"
    (one,) = knit_pattern(Source("cap.txt", text)).problems
    assert one.message == "Cap, size S, M: after row 3 there are 20 sts, not 21"


@pytest.mark.parametrize("name", FILES)
def test_the_text_of_a_compiled_pattern_is_knitted_as_it_is(name: str) -> None:
    done = compiled(name)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    found = knit_pattern(Source("made.txt", render(done.pattern)))
    assert found.problems == ()
    planned = {
        (one.piece.lower(), one.size): [row.stitches for row in one.rows]
        for one in facts(done.spec, done.plan, done.sizes).pieces
    }
    trials = {(one.piece.lower(), one.size): [row.stitches for row in one.rows] for one in found.trials}
    assert trials == planned


@pytest.mark.parametrize("name", ["sluice-hat", "weir-cardigan"])
def test_charts_of_every_stitch_are_left_out_and_named(name: str) -> None:
    """The lines do not speak of them, so what is knitted is the same with them as without."""
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    done = compile_spec(world(text), SPEC, (), ("charts",))
    assert done.pattern is not None
    printed = render(done.pattern)
    assert "Every stitch is drawn." in " ".join(printed.split())
    found = knit_pattern(Source("made.txt", printed))
    assert found.problems == ()
    assert "Charts of every stitch" in found.book.prose
    assert [one.rows for one in found.trials] == [
        one.rows
        for one in knit_pattern(Source("made.txt", render(written(text).pattern))).trials  # type: ignore[arg-type]
    ]


def test_a_compiled_pattern_edited_by_hand_is_held_to_its_words() -> None:
    done = compiled("sluice-hat")
    assert done.pattern is not None
    text = render(done.pattern)
    source = Source("made.txt", text.replace("k14, m1. 156 sts.", "k14, m1. 155 sts.", 1))
    assert source.text != text
    (one,) = knit_pattern(source).problems
    assert (one.code, "size medium" in one.message, "156 sts, not 155" in one.message) == ("E853", True, True)


def test_remarks_are_named() -> None:
    assert [step.text for step in remarks(read_book(BOOK))] == ["Note: any yarn will do.", "Sides:"]


WORDS = (
    "Cast on 20 sts.", "Round 1:", "Row 2 (WS):", "k6,", "(k2tog,", "k1)", "3 times", "to the end", ".", "\n", "\n\n",
    "Sizes S (M)", "Join to a round.", "turn", "Repeat rows 1 and 2", "4 (5)", "sts", "Chart a:", "Row 1 2 rye", "*",
    ")", "put the next 3 sts on a holder,", "Knit 3 rows.", "Work 9 rows in stockinette in rye.", "Note:", "é",
    "Bind off.", "\n\nCap\n\n", "\r\n", "\x0c", "    ", "- ", "3. ",
)  # fmt: skip


@given(st.lists(st.sampled_from(WORDS), max_size=40).map(" ".join) | st.text(max_size=200))
def test_no_text_breaks_it(text: str) -> None:
    source = Source("any.txt", text)
    for one in knit_pattern(source).problems:
        assert all(0 <= label.span.start <= label.span.end <= len(text) for label in one.labels)


@pytest.mark.parametrize("seed", range(6))
def test_no_damaged_pattern_breaks_it(seed: int) -> None:
    chooser = random.Random(seed)
    text = chooser.choice([path.read_text("utf-8") for path in sorted((ROOT / "tests/data/books").glob("*.txt"))])
    for _ in range(25):
        place = chooser.randrange(len(text))
        piece = chooser.choice(["", "9", "(", "\n", "k2tog, ", text[place : place + 40]])
        damaged = text[:place] + piece + text[place + chooser.randrange(12) :]
        found = knit_pattern(Source("any.txt", damaged))
        assert all(one.code.startswith("E85") for one in found.problems)
