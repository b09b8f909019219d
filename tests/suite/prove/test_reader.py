"""The reader: every printed line reads, brackets select, and what is not controlled is refused with its place."""

from __future__ import annotations

import pytest
from prove_patterns import NAMES, compiled

from wale.driver import Compiled
from wale.prove import words
from wale.prove.reader import Unreadable, lines_of, read, read_by_hand, read_chart_row, select
from wale.prove.syntax import digest, grammar_text
from wale.write.bands import band_lines
from wale.write.context import Context
from wale.write.document import merged_lines
from wale.write.facts import merged_band, printed
from wale.write.lines import Merged, merge
from wale.write.lines import select as select_lines
from wale.write.pieces import piece_lines


def text_of(lead: str, text: str) -> str:
    return f"{lead}: {text}" if lead else text


def controlled(lines: tuple[Merged, ...]) -> list[Merged]:
    return [one for one in lines if one.lines[0].is_instruction]


def groups(done: Compiled) -> list[tuple[tuple[Merged, ...], list[list[object]]]]:
    """The merged lines of every piece and band, and its lines size by size."""
    spec, plan = done.spec, done.plan
    assert spec is not None and plan is not None
    sizes = range(len(plan.sizes))
    found: list[tuple[tuple[Merged, ...], list[list[object]]]] = []
    for piece in plan.pieces:
        alone = [list(piece_lines(Context(spec, plan, piece, size))) for size in sizes]
        found.append((merged_lines(spec, plan, piece, sizes), alone))  # type: ignore[arg-type]
    for number, band in enumerate(spec.bands):
        contexts = [Context(spec, plan, plan.pieces[0], size) for size in sizes]
        alone = [list(band_lines(at, band, plan.bands[number])) for at in contexts]
        found.append((merged_band(spec, plan, number, sizes), alone))  # type: ignore[arg-type]
    return found


@pytest.mark.parametrize("name", NAMES)
def test_every_printed_line_and_chart_row_reads(name: str) -> None:
    done = compiled(name)
    page = printed(done.spec, done.plan, done.pattern, done.sizes)  # type: ignore[arg-type]
    steps = [line for piece in page.pieces for line in (piece.refer, *piece.steps) if line]
    assert len(steps) >= 4
    assert [read_by_hand(line).text for line in steps] == steps
    for _, rows in page.charts:
        assert [read_chart_row(*row).number for row in rows] == list(range(1, len(rows) + 1))


@pytest.mark.parametrize("name", NAMES)
def test_no_bracket_stands_in_a_bracket(name: str) -> None:
    done = compiled(name)
    page = printed(done.spec, done.plan, done.pattern, done.sizes)  # type: ignore[arg-type]
    for line in (line for piece in page.pieces for line in piece.steps):
        inside = [line[: place + 1].count("(") - line[: place + 1].count(")") for place in range(len(line))]
        assert max(inside, default=0) <= 1, line


@pytest.mark.parametrize("name", NAMES)
def test_selecting_a_size_from_brackets_reads_as_that_size_alone(name: str) -> None:
    done = compiled(name)
    assert done.plan is not None
    names = done.plan.sizes
    for merged, alone in groups(done):
        readings = [read_by_hand(text_of(*one.text(names))) for one in controlled(merged)]
        for size, lines in enumerate(alone):
            single = controlled(merge([lines]))  # type: ignore[list-item]
            expected = [select(read_by_hand(text_of(*one.text((names[size],)))), 0) for one in single]
            assert [instruction for _, instruction in lines_of(readings, names, size)] == expected


@pytest.mark.parametrize("name", NAMES)
def test_merging_loses_no_line(name: str) -> None:
    for merged, alone in groups(compiled(name)):
        for size, lines in enumerate(alone):
            assert list(select_lines(merged, size)) == lines


def test_figures_in_brackets_belong_to_their_sizes() -> None:
    reading = read(
        "Sizes S, M: Work 25 (27) rows in chart grist, chart rows 1 to 20, then all rows once, then 1 to 5 (7)."
    )
    assert reading.sizes == ("S", "M")
    assert select(reading, 0) == words.Work(25, False, words.Fabric("grist", ((1, 20, 0), (0, 0, 1), (1, 5, 0))))
    assert select(reading, 1) == words.Work(27, False, words.Fabric("grist", ((1, 20, 0), (0, 0, 1), (1, 7, 0))))
    assert lines_of([reading], ("XS", "S", "M"), 0) == []
    assert lines_of([reading], ("XS", "S", "M"), 2) == [(reading.text, select(reading, 1))]


def test_nested_repeats_keep_their_order() -> None:
    row = select(read("Next row (WS): decrease 4 sts evenly: ((p6, p2tog) 2 times, p1) 2 times. 30 sts."), 0)
    assert isinstance(row, words.EvenRow)
    pair = words.Repeat((words.Stitch("p", 6), words.Stitch("p2tog", 1)), 2)
    assert row.stitches == (words.Repeat((pair, words.Stitch("p", 1)), 2),)
    assert (row.side, row.grows, row.change, row.after) == ("WS", False, 4, 30)


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("Work some rows in chart grist.", "some rows"),
        ("Cast on 20 sts in rye on 3 mm needles", "its end"),
        ("Work 20 rows in chart grist, carefully.", ", carefully"),
        ("Knit on.", "Knit on"),
    ],
)
def test_other_wording_is_refused_with_its_place(line: str, place: str) -> None:
    with pytest.raises(Unreadable, match=f"from `{place}"):
        read(line)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("Work rows 1 to 6 (7) with this shaping.", "2 sizes"),
        ("Size M: Work rows 1 to 6 (7) with this shaping.", "names 1 sizes"),
        ("After row 6 (7) put the 51 (52, 53) sts on a holder.", "for 2 and for 3"),
        ("Size XXL: Work rows 1 to 6 with this shaping.", "no size XXL"),
    ],
)
def test_brackets_must_agree_with_the_sizes(line: str, why: str) -> None:
    with pytest.raises(Unreadable, match=why):
        lines_of([read(line)], ("S", "M", "L"), 0)


def test_the_shipped_tables_belong_to_the_grammar() -> None:
    from wale.grammar import instruction_tables

    assert digest(grammar_text()) == instruction_tables.DIGEST
