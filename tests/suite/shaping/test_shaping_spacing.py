"""Even spacing: sums, evenness and symmetry for any count; each printed row is knitted again by hand."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from wale.shaping.phrases import Phrase, Plain, Repeat, Shaped, expand, fold, merge
from wale.shaping.spacing import (
    EvenRow,
    decrease_flat,
    decrease_round,
    distribute,
    distribute_in_blocks,
    increase_flat,
    increase_round,
    increase_simply,
)

counts = st.integers(1, 120)
totals = st.integers(0, 600)


def knit(phrases: Iterable[Phrase], change: int) -> tuple[int, int]:
    """Work a printed row on a pretended needle: stitches used up, stitches made."""
    used = made = 0
    for phrase in phrases:
        if isinstance(phrase, Repeat):
            inner = knit(phrase.phrases, change)
            used, made = used + inner[0] * phrase.times, made + inner[1] * phrase.times
        elif isinstance(phrase, Plain):
            used, made = used + phrase.stitches, made + phrase.stitches
        else:
            used, made = used + (2 if change < 0 else 0) * phrase.times, made + phrase.times
    return used, made


def check(row: EvenRow, stitches: int, count: int) -> None:
    assert row.shapings == count and len(row.gaps()) == count + 1
    assert row.stitches_before == stitches and row.stitches_after == stitches + row.change * count
    assert knit(row.phrases(), row.change) == (stitches, stitches + row.change * count)
    flat: list[Phrase] = [Plain(row.gaps()[0])]
    for gap in row.gaps()[1:]:
        flat += [Shaped(1), Plain(gap)]
    assert expand(row.phrases()) == tuple(merge(flat))


@pytest.mark.parametrize(
    ("total", "gaps", "spread"),
    [
        (7, 3, (2, 3, 2)),
        (6, 4, (2, 1, 1, 2)),  # halves go towards the middle, so that both ends are alike
        (5, 4, (1, 2, 1, 1)),  # an odd total over an even number of gaps has no symmetry
        (0, 2, (0, 0)),
    ],
)
def test_distribute_by_hand(total: int, gaps: int, spread: tuple[int, ...]) -> None:
    assert distribute(total, gaps) == spread


@given(totals, counts)
def test_distribute_is_even_and_mirrors_where_it_can(total: int, gaps: int) -> None:
    spread = distribute(total, gaps)
    assert sum(spread) == total and len(spread) == gaps and max(spread) - min(spread) <= 1
    if total % 2 == 0 or gaps % 2:
        assert spread == spread[::-1]


@given(totals, counts)
def test_distribute_never_strays_from_the_straight_line(total: int, gaps: int) -> None:
    done = 0
    for i, part in enumerate(distribute(total, gaps), 1):
        done += part
        assert abs(2 * (done * gaps - total * i)) <= gaps


@given(totals, counts)
def test_blocks_hold_the_same_gaps_in_three_runs(total: int, gaps: int) -> None:
    spread = distribute_in_blocks(total, gaps)
    assert sorted(spread) == sorted(distribute(total, gaps))
    assert sum(a != b for a, b in pairwise(spread)) <= 2


@given(st.integers(2, 500), counts)
def test_decreases_in_the_round(stitches: int, count: int) -> None:
    assume(stitches >= 2 * count)
    for blocks in (False, True):
        row = decrease_round(stitches, count, blocks=blocks)
        check(row, stitches, count)
        # Round the join the last gap runs into the first.
        gaps = (*row.gaps()[1:-1], row.gaps()[0] + row.gaps()[-1])
        assert max(gaps) - min(gaps) <= 1


@given(st.integers(2, 500), counts, st.integers(0, 4))
def test_decreases_flat_keep_the_edges(stitches: int, count: int, edge: int) -> None:
    assume(stitches - 2 * edge >= 2 * count)
    for blocks in (False, True):
        row = decrease_flat(stitches, count, edge=edge, blocks=blocks)
        check(row, stitches, count)
        gaps = list(row.gaps())
        assert gaps[0] >= edge and gaps[-1] >= edge
        inner = [gaps[0] - edge, *gaps[1:-1], gaps[-1] - edge]
        assert max(inner) - min(inner) <= 1


@given(st.integers(1, 500), counts)
def test_increases(stitches: int, count: int) -> None:
    assume(stitches > count)
    for row in (increase_round(stitches, count), increase_round(stitches, count, blocks=True)):
        check(row, stitches, count)
        assert row.gaps()[-1] == 0 and max(row.gaps()[:-1]) - min(row.gaps()[:-1]) <= 1
    for sections in (increase_flat(stitches, count), increase_flat(stitches, count, blocks=True)):
        check(sections, stitches, count)
        assert min(sections.gaps()) >= 1 and max(sections.gaps()) - min(sections.gaps()) <= 1


@given(st.integers(1, 500), counts)
def test_increases_with_half_ends_mirror(stitches: int, count: int) -> None:
    assume(stitches > count)
    row = increase_flat(stitches, count, half_ends=True)
    check(row, stitches, count)
    gaps = row.gaps()
    assert min(gaps) >= 1 and abs(gaps[0] - gaps[-1]) <= 1
    # An end is half of stitches / count, within half a stitch.
    assert all(abs(2 * count * gap - stitches) <= count for gap in (gaps[0], gaps[-1]))
    if stitches % 2 == 0 or count % 2 == 0:
        assert gaps == gaps[::-1]
    if count > 1:
        assert max(gaps[1:-1]) - min(gaps[1:-1]) <= 1


@given(st.integers(1, 500), counts)
def test_simple_increases_leave_a_short_rest(stitches: int, count: int) -> None:
    assume(stitches >= count)
    row = increase_simply(stitches, count)
    if row is not None:
        check(row, stitches, count)
        assert row.gaps()[-1] <= min(row.gaps()[:-1])
        assert len({*row.gaps()[:-1:2]}) <= 1 and len({*row.gaps()[1:-1:2]}) <= 1


def test_edges_are_printed_in_the_repeat_where_that_is_shorter() -> None:
    # 26 sts less 4: sections of 5, 5, 6, 5, 5; each decrease takes one stitch from either side: 4, 3, 4, 3, 4 plain.
    row = decrease_flat(26, 4)
    assert row.gaps() == (4, 3, 4, 3, 4)
    assert row.phrases() == (Repeat((Plain(4), Shaped(1), Plain(3), Shaped(1)), 2), Plain(4))
    # 40 sts less 4: five sections of 8; the edges are one longer than the 6 between.
    assert decrease_flat(40, 4).phrases() == (Plain(1), Repeat((Plain(6), Shaped(1)), 4), Plain(7))


@given(st.lists(st.sampled_from([(Plain(2), Shaped(1)), (Plain(3), Shaped(1)), (Shaped(2), Plain(1))]), max_size=30))
def test_folding_loses_nothing(units: list[tuple[Phrase, ...]]) -> None:
    assert expand(fold(units)) == expand(phrase for unit in units for phrase in unit)


@given(st.lists(st.sampled_from([(Plain(1), Shaped(1)), (Plain(2), Shaped(1)), (Shaped(2), Plain(1))]), max_size=24))
def test_no_repeat_stands_in_another(units) -> None:
    repeats = [phrase for phrase in fold(units) if isinstance(phrase, Repeat)]
    assert not [one for one in repeats if any(isinstance(phrase, Repeat) for phrase in one.phrases)]


def test_folding() -> None:
    a, b = (Plain(1), Shaped(1)), (Plain(2), Shaped(1))
    # 7 words: a, a, b three times; 15 with each pair of a folded by itself.
    assert fold([a, a, b] * 3) == (Repeat((*a, *a, *b), 3),)
    assert fold([(Shaped(1),)] * 6) == (Shaped(6),)
    # b, a repeats as often as a, b does; the one that starts earlier stands.
    assert fold([a, b, a, b, a]) == (Repeat((*a, *b), 2), *a)


def test_decreases_stand_close_when_no_more_plain_stitches_are_left() -> None:
    # 11 sts, edges of 1: 9 less 3 pairs leave 3 plain ones, one after each decrease.
    assert decrease_flat(11, 3).phrases() == (Plain(1), Repeat((Shaped(1), Plain(1)), 3), Plain(1))


@pytest.mark.parametrize(
    "call",
    [
        lambda: distribute(3, 0),
        lambda: distribute(-1, 2),
        lambda: distribute_in_blocks(3, 0),
        lambda: decrease_round(9, 5),
        lambda: decrease_round(9, 0),
        lambda: decrease_flat(11, 5),
        lambda: increase_round(4, 5),
        lambda: increase_flat(4, 4),
        lambda: increase_simply(4, 0),
    ],
)
def test_impossible_counts_are_refused(call: object) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=r".+"):
        call()
