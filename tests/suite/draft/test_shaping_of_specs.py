"""Shaping through whole specs: schedules reckoned by hand, their printed words, edge stitches, and refusals.

By hand (docs/maths.md#taper): n = difference / 2 steps, q = 2 x (rows div 2n), the rest of the rows makes intervals of
q + 2, and the first shaping row is q - 1.
"""

from __future__ import annotations

import pytest
from support import PLAIN, checked, errors, planned, written

from wale.outputs import text as plain_text
from wale.shaping.taper import Schedule

SHEET = """wale 1
pattern "Wedge"
    use "mill-yarns.wale"
sizes one
    measure bust 100 cm
    ease bust 0 cm
piece back, worked flat
    edge 1 st each side in rye
    cast on {start} in plain
    shape to {end} over {over}
    bind off
join
    seam sides, mattress stitch
"""


def sheet(start: object, end: object, over: str) -> str:
    def told(width: object) -> str:
        return f"{width} sts" if isinstance(width, int) else str(width)

    return SHEET.format(start=told(start), end=told(end), over=over)


def schedule(text: str) -> Schedule:
    (section,) = planned(text).pieces[0].sections
    return section.schedules[0]


@pytest.mark.parametrize(
    ("start", "end", "rows", "first", "then"),
    [
        # 33 steps; 140 div 66 = 2, q = 4; 140 - 132 = 8, so 4 of 6; the first 4 is row 3
        (53, 119, 140, 3, ((4, 28), (6, 4))),
        # 14 steps; 104 div 28 = 3, q = 6; 104 - 84 = 20, so 10 of 8
        (44, 72, 104, 5, ((6, 3), (8, 10))),
        # 18 steps; 120 div 36 = 3, q = 6; 120 - 108 = 12, so 6 of 8
        (60, 96, 120, 5, ((6, 11), (8, 6))),
        # 20 steps; 130 div 40 = 3, q = 6; 130 - 120 = 10, so 5 of 8
        (50, 90, 130, 5, ((6, 14), (8, 5))),
        # downwards as upwards
        (119, 53, 140, 3, ((4, 28), (6, 4))),
        # 29 steps fill 58 rows: each right-side row
        (60, 118, 58, 1, ((2, 28),)),
    ],
)
def test_schedules(start: int, end: int, rows: int, first: int, then: tuple[tuple[int, int], ...]) -> None:
    found = schedule(sheet(start, end, f"{rows} rows"))
    assert (found.first, found.then, found.total_rows) == (first, then, rows)
    assert 2 * len(found.rows()) == abs(end - start)
    assert all(row % 2 == 1 for row in found.rows())
    assert found.rows()[-1] < rows


def test_the_printed_words() -> None:
    pattern = written(sheet(53, 119, "140 rows")).pattern
    assert pattern is not None
    words = " ".join(plain_text.render(pattern).split())
    assert "on row 3 from here, then on every 4th row 28 times, then on every 6th row 4 times" in words


def test_too_few_rows_are_refused_with_the_rows_needed() -> None:
    """58 sts at both edges are 29 shaping rows: 58 rows on right-side rows, 58 / 3.8 = 15.3 cm; 29 on any row."""
    done = checked(sheet(60, 118, "32 rows"))
    assert done.plan is None
    (found,) = done.problems
    assert found.code == "E401"
    assert "58 sts" in found.message and "29 shaping rows" in found.message
    assert "58 rows" in found.message and "32 fit" in found.message
    assert "58 rows (15.3 cm)" in found.help and "on any row" in found.help


def test_both_ways_out_of_too_few_rows_work() -> None:
    assert schedule(sheet(60, 118, "58 rows")).steps == 29
    found = schedule(sheet(60, 118, "32 rows, on any row"))
    assert found.steps == 29 and found.total_rows == 32


def test_one_row_less_than_needed_does_not_work() -> None:
    assert errors(checked(sheet(60, 118, "56 rows"))) == ["E401"]


def test_any_row_is_not_offered_where_it_does_not_help() -> None:
    (found,) = checked(sheet(60, 118, "20 rows")).problems
    assert found.code == "E401" and "on any row" not in found.help


def test_an_odd_difference_is_refused() -> None:
    """Both edges change together, so 60 to 119 cannot be."""
    done = checked(sheet(60, 119, "200 rows"))
    assert done.plan is None
    (found,) = done.problems
    assert found.code == "E303"
    assert any("2" in label.text and "both edges" in label.text for label in found.labels)


@pytest.mark.parametrize("edges", [0, 1, 3])
def test_edge_stitches_stand_outside_widths_and_shaping(edges: int) -> None:
    """20 cm and 40 cm at 27 sts in 10 cm are 54 and 108 sts; edges add the same to both, so 27 shaping rows stay."""
    text = sheet("20 cm", "40 cm", "120 rows").replace("1 st each side", f"{edges} sts each side")
    low, high = planned(text).pieces[0].levels
    assert (low.counts, high.counts) == ((54 + 2 * edges,), (108 + 2 * edges,))
    assert schedule(text).steps == 27


def test_parity_runs_through_shaping() -> None:
    """20.2 cm is 54.5 sts and 40 cm 108: one of them gives way, for both are odd or both even."""
    low, high = planned(sheet("20.2 cm", "40 cm", "120 rows")).pieces[0].levels
    assert (low.counts[0] - high.counts[0]) % 2 == 0
    best = min(
        ((a, b) for a in range(50, 62) for b in range(104, 116) if (a - b) % 2 == 0),
        key=lambda pair: ((pair[0] - 2) / 2.7 - 20.2) ** 2 + ((pair[1] - 2) / 2.7 - 40) ** 2,
    )
    assert (low.counts[0], high.counts[0]) == best


def test_the_length_leaves_room_for_the_shaping() -> None:
    """27 shaping rows need 54 rows; 13.5 cm is 51.3 rows, and 54 (14.2 cm) lies within the tolerance of 1.5 cm."""
    found = schedule(sheet("20 cm", "40 cm", "13.5 cm"))
    assert found.total_rows == 54 and found.steps == 27


def test_a_section_ends_on_a_wrong_side_row() -> None:
    """25 cm is 95 rows: 94 and 96 are as near, and even."""
    assert schedule(sheet("20 cm", "40 cm", "25 cm")).total_rows in (94, 96)


def test_an_odd_number_of_rows_is_refused() -> None:
    done = checked(sheet(60, 80, "41 rows"))
    assert done.plan is None
    (found,) = done.problems
    assert found.code == "E303" and any("wrong-side row" in label.text for label in found.labels)


SEVENS = f"""wale 1

pattern "Cloth"

{PLAIN}
yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif seven
    repeat 7 sts, 1 row
    key    |-| rye, |x| flour
    | - - x - x x - |

swatch sevens, worked flat
    motif  seven in rye, flour
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

sizes one

piece cloth, worked flat
    edge    0 sts each side
    cast on 42 cm in sevens
    work    in seven on sevens, whole repeats, tolerance 3 cm
    work    4 rows
    shape   to 37.5 cm over 2 cm
    bind off
"""


def test_rows_that_are_enough_are_not_said_to_be_too_few() -> None:
    """What clashes are the repeat and the two stitches of a row.

    42 cm are 84 sts, within 3 cm no other 7 k. 37.5 cm are 75: 70 or 77. 84 to 77 is odd, and a row takes 2; 84 to 70
    takes 14 rows, and 3.5 cm have 9. From 84 to 75 it would be 8 rows, which there are.
    """
    (found,) = [one for one in checked(SEVENS).problems if one.is_error]
    assert found.code == "E303" and "fit all of these lines" in found.message
