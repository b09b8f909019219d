"""Lengths that are offered where no rows fit: reckoned by hand, and each edit compiled.

Swatch plain: 27 sts and 38 rows in 10 cm.
"""

from __future__ import annotations

import pytest
from support import EXAMPLES, checked, errors, mended

from wale.problems.problem import Fix, Problem

SHEET = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
sizes S M
piece back, worked flat
    edge 1 st each side in rye
{lines}
    bind off
join
    seam sides
"""
MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
HAT = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")


def sheet(*lines: str) -> str:
    return SHEET.format(lines="\n".join(f"    {line}" for line in ("cast on 50 cm in plain", *lines)))


def refused(text: str) -> tuple[Problem, list[Fix]]:
    """Give the only error and its edits, each compiled."""
    (found,) = [one for one in checked(text).problems if one.is_error]
    edits = [fix for fix in found.fixes if fix.edits]
    assert [(fix.title, errors(checked(mended(text, fix)))) for fix in edits] == [(fix.title, []) for fix in edits]
    return found, edits


def written(fixes: list[Fix]) -> list[str]:
    return [edit.text for fix in fixes for edit in fix.edits]


def test_an_odd_count_is_offered_as_its_even_neighbours() -> None:
    found, edits = refused(sheet("work 7 rows"))
    assert found.code == "E303" and written(edits) == ["6 rows", "8 rows"]


def test_one_row_is_not_offered_as_none() -> None:
    assert written(refused(sheet("work 1 row"))[1]) == ["2 rows"]


def test_work_to_is_told_what_the_lines_above_come_to() -> None:
    """28 cm and `work to` 20."""
    found, edits = refused(sheet("work 20 cm", "work 8 cm", "work to 20 cm"))
    assert found.code == "E406" and "come to 28.0 cm in size S" in found.help and "asks for 20.0 cm" in found.help
    assert written(edits) == ["28 cm"]


def test_rows_that_were_written_count_by_their_gauge() -> None:
    """106 rows are 27.9 cm: 28 cm, rounded up to the half."""
    found, edits = refused(sheet("work 106 rows", "work to 20 cm"))
    assert "come to 27.9 cm" in found.help and written(edits) == ["28 cm"]


def test_each_size_is_offered_its_own_length_where_each_has_one() -> None:
    """S reaches 28 cm and asks for 20; M reaches 30 and asks for 32, which stays."""
    _, edits = refused(sheet("work 28 (30) cm", "work to 20 (32) cm"))
    assert written(edits) == ["28 (32) cm"]


def test_a_crown_is_told_its_length_and_no_tolerance() -> None:
    """24 sts a wedge lose 23: 23 rounds, at 36 in 13 cm 8.3 cm, so 8.5 cm; the larger size has as many or more."""
    found, edits = refused(HAT.replace("6 wedges over 9 cm", "6 wedges over 4 cm"))
    assert found.code == "E401" and "tolerance" not in found.help and "The crown takes 8.3 cm at least" in found.help
    assert written(edits) == ["8.5 cm"]


def test_a_shaping_is_told_its_length() -> None:
    """60 to 118 sts are 29 steps, 58 rows: 15.26 cm, so 15.5 cm."""
    found, edits = refused(sheet("shape to 118 sts over 3 cm").replace("cast on 50 cm", "cast on 60 sts"))
    assert found.code == "E401" and "58 rows (15.3 cm)" in found.help
    assert written(edits) == ["15.5 cm"]


def test_a_neck_is_no_deeper_than_the_lines_that_it_may_begin_in() -> None:
    """Above the garter, another fabric, lie 30 and 10 cm; above a row that gains stitches the last 10 cm alone."""
    top = ("neck 18 cm wide, 50 cm deep", "shoulders slope 2 cm")
    found, edits = refused(sheet("garter 3 cm", "work 30 cm", "work 10 cm", *top).replace("    bind off\n", ""))
    assert found.code == "E401" and "The last 2 lines below the neck are 40.0 cm long." in found.help
    assert written(edits) == ["40 cm"]
    found, edits = refused(
        sheet("work 30 cm", "increase evenly to 54 cm", "work 10 cm", *top).replace("    bind off\n", "")
    )
    assert found.code == "E401" and "The last line below the neck is 10.0 cm long." in found.help
    assert written(edits) == ["10 cm"]


def test_a_sleeve_is_told_twice_the_armhole_edge() -> None:
    """Underarm at 30 cm, shoulder at 50 - 3 = 47 cm: 17 cm of edge, twice 34 cm; a top of 44 cm starts at 25 cm."""
    text = f"""{
        sheet("work to 30 cm", "mark underarm", "work to 50 cm", "neck 18 cm wide, 2 cm deep", "shoulders slope 3 cm")
        .replace("    bind off", "")
        .replace("    seam sides", "    seam sides and sleeves")
    }
    set sleeve top into armholes
piece sleeve, worked flat, make 2
    cast on 44 cm in plain
    work 40 cm
    bind off
"""
    found, edits = refused(text)
    assert found.code == "E501" and "2 × the armhole edge is 34.0 cm" in found.help and "top 44.0 cm" in found.help
    assert written(edits) == ["34 cm", "25 cm"]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("work      to body-length - slope - armhole", "work      to body-length - armhole - 9 cm", "E501"),
        ("neck-width wide, 8 cm deep", "neck-width wide, 38 cm deep", "E401"),
        ("to waist/2 over 10 cm", "to waist/2 over 1 cm", "E401"),
        ("work      to body-length - slope - armhole", "work      to 20 cm", "E406"),
    ],
)
def test_the_ways_out_of_a_whole_garment_compile(old: str, new: str, code: str) -> None:
    assert old in MILLRACE
    found, _ = refused(MILLRACE.replace(old, new))
    assert found.code == code


def test_sides_of_two_lengths_are_told() -> None:
    text = sheet("work to 50 cm", "neck 18 cm wide, 2 cm deep", "shoulders slope 3 cm").replace("    bind off\n", "")
    front = """piece front, worked flat
    cast on 50 cm in plain
    work to 40 cm
    neck 18 cm wide, 2 cm deep
    shoulders slope 3 cm
join"""
    found, edits = refused(text.replace("join", front))
    assert found.code == "E501" and "the back 50.0 cm and the front 40.0 cm" in found.help
    assert sorted(written(edits)) == ["40 cm", "50 cm"]


def test_written_stitches_that_clash_are_offered_as_their_neighbours() -> None:
    """60 to 119 cannot change by two at a time."""
    text = sheet("work 5 cm", "shape to 119 sts over 60 cm").replace("cast on 50 cm", "cast on 60 sts")
    found, edits = refused(text)
    assert found.code == "E303" and written(edits) == ["59 sts", "61 sts", "118 sts", "120 sts"]


def test_written_stitches_beside_a_repeat_are_offered_as_its_multiples() -> None:
    """12 k + 1 to balance + 2 edge stitches: 75 and 87 on either side of 80."""
    text = sheet("work in grist on easy, whole repeats", "work 5 cm").replace("50 cm in plain", "80 sts in easy")
    found, edits = refused(text)
    assert found.code == "E303" and written(edits) == ["75 sts", "87 sts"]


def test_ways_out_of_a_repeat_are_offered_beside_a_clash_of_rows() -> None:
    """A round of 51.5 cm: 144 sts (49.68 cm) and 156 (53.82) are 1.82 and 2.32 off; and no crown takes 1 cm."""
    text = HAT.replace("52 (56, 60) cm", "54 (54, 54) cm").replace("over 9 cm", "over 1 cm")
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert found.code == "E301" and "stitches of all sizes" in found.help
    (offered,) = [fix for fix in found.fixes if fix.title.startswith("a tolerance")]
    assert errors(checked(mended(text, offered))) == ["E401"]


def test_widths_are_offered_where_a_neck_is_wider_than_its_piece() -> None:
    """27 sts to 10 cm, 2 of them taken by the seams, and two shoulders of 2 sts at least.

    The piece may have 51.5 × 2.7 + 2 = 141 sts, so the neck 137: 50.7 cm, 50.5 to the half. Or the neck keeps to its
    58.5 cm at least, 158 sts, and the piece has 162, of which 160 are 59.3 cm: 59.5.
    """
    text = sheet("work to 50 cm", "neck 60 cm wide, 2 cm deep", "shoulders slope 2 cm").replace("    bind off\n", "")
    found, edits = refused(text)
    assert found.code == "E303" and written(edits) == ["50.5 cm", "59.5 cm"]
    found, edits = refused(text.replace("join\n    seam sides\n", "piece front, as back\njoin\n    seam sides\n"))
    assert written(edits) == ["50.5 cm", "59.5 cm"]
