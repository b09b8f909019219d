"""Lines of several sizes put together: each size still reads its own, in its own order."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import given
from hypothesis import strategies as st
from support import checked, errors

from wale.write.lines import Line, merge, select

BACK = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
sizes S M
    measure bust 84 (94) cm
    ease bust 0 cm
piece back, worked flat
    cast on   bust/2 in plain
    work      to 50 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope {slopes} cm, short rows
piece front, as back
    neck 18 cm wide, 8 cm deep
join
    seam back shoulders with front shoulders, three-needle bind-off
"""


def told(*slots: str) -> list[Line]:
    return [Line(slot, (), (f"{slot}.",)) for slot in slots]


def test_sizes_that_tell_the_same_slots_in_another_order_keep_their_own() -> None:
    """The neck comes first in one size, the shoulders in the other: the neck has two places."""
    first, second = told("neck", "turns", "left"), told("turns", "before", "neck", "left")
    merged = merge([first, second])
    assert [(one.slot, one.sizes) for one in merged] == [
        ("neck", (0,)),
        ("turns", (0, 1)),
        ("before", (1,)),
        ("neck", (1,)),
        ("left", (0, 1)),
    ]


@given(st.lists(st.lists(st.sampled_from("abcdef"), unique=True), min_size=1, max_size=4))
def test_each_size_reads_its_lines_in_its_order(sizes: Sequence[Sequence[str]]) -> None:
    lines = [told(*slots) for slots in sizes]
    merged = merge(lines)
    assert [list(select(merged, size)) for size in range(len(sizes))] == lines


def test_a_neck_may_begin_below_the_slope_in_one_size_and_above_it_in_the_other() -> None:
    """Neck 2 cm, slopes 1 and 3 cm: the neck row is told before the short rows in S, and after them in M."""
    assert errors(checked(BACK.format(slopes="1 (3)"))) == []
