"""Pieces beyond all bounds, and motifs that lack what a line asks of them."""

from __future__ import annotations

import pytest
from support import checked, errors, mended, planned

SHEET = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
motif crooked
    repeat 7 sts, 1 rows
    key |-| rye, |x| flour
    | x x - x - - - |
motif five
    repeat 5 sts, 1 rows
    key |-| rye, |x| flour
    | - - x - - |
motif steps
    repeat 6 sts, 1 rows
    key |-| rye, |x| flour
    | - x x - x - |
swatch some, worked flat
    motif five in rye, flour
    needle 3.5 mm
    washed 30 sts and 30 rows in 10 cm
sizes S M
piece panel, worked flat
    cast on {width} in plain
    {fabric}
    work {length}
    bind off
"""


def sheet(width: str = "30 cm", length: str = "20 cm", fabric: str = 'note "no motif"') -> str:
    return SHEET.format(width=width, length=length, fabric=fabric)


@pytest.mark.parametrize(
    ("width", "length"),
    [("10000 sts", "100000 rows"), ("2701 sts", "20 cm"), ("30 cm", "3802 rows"), ("30 (2701) sts", "10 cm")],
)
def test_counts_are_bound_by_what_they_come_to(width: str, length: str) -> None:
    """At 27 sts and 38 rows in 10 cm 2700 sts are 1000 cm, and 3800 rows."""
    assert errors(checked(sheet(width, length))) == ["E223"]


def test_the_bounds_themselves_are_not_beyond_them() -> None:
    assert planned(sheet("2700 sts", "2 cm")).pieces[0].levels[0].width(0) == 1000


def test_lengths_add_up() -> None:
    assert errors(checked(sheet(length="600 cm\n    work 600 cm"))) == ["E223"]
    assert errors(checked(sheet(length="to 900 cm\n    work to 990 cm"))) == []


def test_a_length_that_waits_for_a_width_is_bound_too() -> None:
    """30 cm are 81 sts at 27 sts in 10 cm, so 30 cm: 33 times that are 990 cm, 34 times 1020."""
    assert errors(checked(sheet("81 sts", "panel.cast-on * 33"))) == []
    assert errors(checked(sheet("81 sts", "panel.cast-on * 34"))) == ["E223"]
    assert errors(checked(sheet("81 sts", "10 cm\n    work panel.cast-on * 33"))) == []
    assert errors(checked(sheet("81 sts", "20 cm\n    work panel.cast-on * 33"))) == ["E223"]


def offered(fabric: str) -> str:
    text = sheet(fabric=f"work in {fabric}")
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert found.code == "E245"
    for fix in found.fixes:
        assert errors(checked(mended(text, fix))) == []
    return found.fixes[0].title if found.fixes else found.help


@pytest.mark.parametrize(
    ("fabric", "title"),
    [
        ("crooked on some, centred", "write `from the edge`"),
        ("crooked on some, centred on the first axis", "write `from the edge`"),
        ("crooked on some, centred, whole repeats", "Leave it out"),
        ("five on some, half repeats", "write `whole repeats`"),
        ("steps on some, centred on the gap", "write `from the edge`"),
    ],
)
def test_what_a_motif_lacks_is_told_with_what_to_write(fabric: str, title: str) -> None:
    assert offered(fabric).startswith(title)


def test_an_axis_on_the_other_place_is_offered() -> None:
    """Five stitches that mirror about the third have the other axis on a gap; six that mirror on a stitch do not."""
    assert errors(checked(sheet(fabric="work in five on some, centred on the gap"))) == []
    two = sheet(fabric="work in even on some, centred on the gap").replace(
        "motif steps", "motif even\n    repeat 4 sts, 1 rows\n    key |-| rye, |x| flour\n    | - x - - |\nmotif steps"
    )
    (found,) = [one for one in checked(two).problems if one.is_error]
    assert errors(checked(mended(two, found.fixes[0]))) == []


@pytest.mark.parametrize(
    ("motif", "words"), [("crooked", "`crooked` does not mirror, so it starts at the right edge"), ("five", "centred")]
)
def test_where_a_line_says_nothing_the_place_is_noted(motif: str, words: str) -> None:
    spec = checked(sheet(fabric=f"work in {motif} on some")).spec
    assert spec is not None
    assert any(words in one.text for one in spec.assumptions)


def test_lets_that_nest_too_deep_are_told_once() -> None:
    lets = "".join(f"let a{number} = a{number + 1} + 1 cm\n" for number in range(120)) + "let a120 = 1 cm\n"
    assert errors(checked(sheet().replace("sizes S M", f"{lets}sizes S M"))) == ["E223"]


def test_a_measure_that_the_table_lacks_is_no_slip_of_the_pen() -> None:
    text = sheet("wrist").replace("sizes S M", "sizes children 4 6\n    ease bust 4 cm")
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert (found.code, found.fixes) == ("E210", ()) and "the table for children has no `wrist`" in found.message
    assert "measure wrist" in found.help
    eased = text.replace("ease bust 4 cm", "ease wrist 4 cm")
    assert "has no `wrist`" in next(one for one in checked(eased).problems if one.is_error).message
    own = "body mine\n    measure bust 97 cm\n"
    (found,) = [one for one in checked(sheet("wrist").replace("sizes S M\n", own)).problems if one.is_error]
    assert "the body `mine` has no `wrist`" in found.message and "to the `body` block" in found.help
    (found,) = [one for one in checked(sheet().replace("sizes S M\n", f"{own}    ease wrist 4 cm\n")).problems]
    assert found.code == "E210" and "Measures here: bust." in found.help
    given = eased.replace("    ease wrist", "    measure wrist 13 (13.5) cm\n    ease wrist")
    assert errors(checked(given)) == []
