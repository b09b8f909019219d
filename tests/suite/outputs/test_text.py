"""Plain text: complete, within its width, wide tables as sentences."""

from __future__ import annotations

import pytest
from outputs_sample import FLOUR, RYE, millrace

from wale.outputs import text
from wale.pattern import Chart, Paragraph, Pattern, Section, Steps, Table


def wrapped(words: str) -> str:
    return " ".join(words.split())


def of(*parts: object, width: int = 80) -> str:
    return text.render(Pattern("Sluice", "", ("M",), "A4", None, (Section("a", "A", parts),), "wale"), width)  # type: ignore[arg-type]


@pytest.mark.parametrize("width", [40, 60, 80])
def test_no_line_is_longer_than_the_width(width: int) -> None:
    assert max(map(len, text.render(millrace(), width).splitlines())) <= width


def test_all_parts_are_said() -> None:
    said = wrapped(text.render(millrace()))
    for words in (
        "Millrace Sizes XS (S, M, L, XL, 2XL, 3XL) A drop-shoulder pullover",
        "Drawing: The pullover laid flat",
        "5. Back",
        "3. Turning row (RS): Purl 1 row: this is the fold.",
        "PLEASE CHECK: The swatch was not stretched",
        "Start in column 12: back 2XL, 3XL.",
        "Row 28 (WS):",
        "The repeat above starts 6 sts along.",
        "Measured after washing, laid flat.",
        "k2tog: knit 2 together",
    ):
        assert words in said


def test_a_table_that_fits_has_aligned_columns() -> None:
    said = of(Table("Widths", ("cm", "M", "2XL"), (("Bust", "94", "118"), ("Neck opening", "8.5", "20"))))
    assert (
        "Widths:\n"
        "cm              M  2XL\n"
        "Bust           94  118\n"
        "Neck opening  8.5   20\n"
    ) in said  # fmt: skip


def test_a_table_that_does_not_fit_becomes_sentences() -> None:
    said = of(Table("Widths", ("cm", "M", "2XL"), (("Bust", "94", "118"), ("Neck opening", "8.5", ""))), width=20)
    assert "Widths (cm):\nBust: M 94, 2XL 118.\nNeck opening: M 8.5." in said


def test_in_sentences_a_size_that_is_a_figure_is_told_from_its_measure() -> None:
    said = of(Table("Widths", ("cm", "2", "10"), (("Bust, finished", "63", "81"),)), width=20)
    assert "size 2: 63, size" in " ".join(said.split()) and "size 10: 81." in " ".join(said.split())


def test_a_chart_without_words_is_read_as_it_is_worked() -> None:
    # Row 1 from right to left, row 2, a wrong-side row, from left to right; in the round all from right to left.
    rows = ((0, 0, 0, 1), (1, 1, 0, -1))
    flat = of(Chart("Mill", rows, (RYE, FLOUR), 1.0, True, (1, 4, 1, 2)))
    assert "Row 1: 1 flour, 3 rye.\nRow 2: 2 flour, 1 rye, 1 no stitch." in flat
    ring = of(Chart("Mill", rows, (RYE, FLOUR), 1.0, False, (1, 4, 1, 2)))
    assert "Round 2: 1 no stitch, 1 rye, 2 flour." in ring


def test_steps_are_numbered_from_their_start() -> None:
    said = of(Steps((Paragraph("Purl 1 row."), Paragraph("Knit 1 row.", "Next row:")), "Front", 21))
    assert "Front:\n21. Purl 1 row.\n22. Next row: Knit 1 row.\n" in said


def test_what_stands_between_backticks_is_quoted() -> None:
    note = Paragraph("A line `floats` changes it.")
    pattern = Pattern("Sluice", "", ("M",), "A4", None, (Section("a", "A", (note,)),), "wale")
    assert 'A line "floats" changes it.' in text.render(pattern)
