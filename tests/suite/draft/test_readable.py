"""Between two row counts that miss a length by as much, the one whose shaping reads more easily."""

from __future__ import annotations

import pytest
from support import PLAIN, planned

SPEC = (
    'wale 1\n\npattern "Panel"\n\n'
    + PLAIN
    + """
sizes {sizes}

piece panel, worked flat
    edge    0 sts each side
    cast on 20 cm in plain
    shape   to {width} over {length}
    bind off
"""
)


def rows(width: str, length: str, sizes: str = "one") -> tuple[int, ...]:
    """Give the rows of the shaping, in each size."""
    return planned(SPEC.format(sizes=sizes, width=width, length=length)).pieces[0].sections[0].rows


@pytest.mark.parametrize(
    ("width", "expected"),
    [
        # 7.5 cm are 21 rows; 20 and 22 both miss by 1 / 2.8 cm. From 40 to 48 sts are 4 shapings: 22 rows are 11 pairs,
        # so one interval of 2 pairs, the first, and three of 3: on row 3, then every 6th. 20 rows: 2 and 2 of them.
        ("24 cm", 22),
        # 6 shapings: 22 rows are 1 of 1 pair and 5 of 2: on row 1, then every 4th; 20 rows: 2 of 1 and 4 of 2
        ("26 cm", 22),
        # 5 shapings: 20 rows are 5 of 2 pairs; 22 rows would be 4 of 2 and one of 3
        ("25 cm", 20),
        # 7 shapings: 20 rows are 4 of 1 pair and 3 of 2, 22 rows 3 and 4: both alike, so the smaller
        ("27 cm", 20),
    ],
)
def test_fewer_intervals_are_taken(width: str, expected: int) -> None:
    assert rows(width, "7.5 cm") == (expected,)


def test_a_nearer_count_is_kept_though_it_reads_worse() -> None:
    # 7.4 cm are 20.72 rows: 20 miss by 0.72, 22 by 1.28
    assert rows("24 cm", "7.4 cm") == (20,)


def test_the_same_intervals_in_all_sizes_come_next() -> None:
    # two shapings: 8.5 cm are 23.8 rows, 24 are two of 6 pairs, so every 12th. In size two 22 rows are one of 5 and one
    # of 6 pairs, then every 12th too; 20 rows would be every 10th
    assert rows("22 cm", "8.5 (7.5) cm", "one two") == (24, 22)
    assert rows("22 cm", "7.5 cm") == (20,)
