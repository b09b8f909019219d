"""Checks of the worked examples on shaping: even rows, tapers, necks, shoulders, crowns."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from itertools import pairwise

from worked import TIMES, Row, as_printed, example

from wale.shaping.buttonholes import buttonholes, margin
from wale.shaping.crown import crown, flat_disc_rate, hat_cast_on
from wale.shaping.gauge import nearest, stitches
from wale.shaping.neck import neck_steps
from wale.shaping.phrases import Plain, Repeat, Shaped
from wale.shaping.shoulders import shoulder_steps, slope_depth, steps_for_slope, turning_points
from wale.shaping.spacing import decrease_flat, decrease_round, increase_flat, increase_round, increase_simply
from wale.shaping.taper import Schedule, cast_on_at_edges, schedule, shapings


@example("W044")
def decreases_on_every_third_and_fourth(row: Row) -> None:
    before, after = (int(n) for n in row.given)
    count, many, size, few, larger = (int(n) for n in row.wanted)
    for blocks in (False, True):
        made = decrease_round(before, count, blocks=blocks)
        assert (made.stitches_before, made.shapings, made.stitches_after) == (before, before - after, after)
        # A group ends with two stitches worked together: the plain ones and 2.
        assert Counter(gap + 2 for gap in made.gaps()[:-1]) == {size: many, larger: few}


@example("W046")
def decreases_close_together(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    left, head, _, run, single, times, tail = (int(n) for n in row.wanted)
    made = decrease_flat(before, count, edge=head)
    assert (made.stitches_before, made.shapings, made.stitches_after) == (before, count, left)
    assert made.phrases() == (Plain(head), Repeat((Shaped(run), Plain(single)), times), Plain(tail))


@example("W047")
def decreases_between_sections(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    sections, many, size, few, larger = (int(n) for n in row.wanted)
    gaps = decrease_flat(before, count).gaps()
    # Each decrease takes the last stitch of one section and the first of the next.
    cut = [gap + (1 if i in (0, count) else 2) for i, gap in enumerate(gaps)]
    assert len(cut) == sections and Counter(cut) == {size: many, larger: few}


@example("W049")
def decreases_that_divide(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    plain, _, times, left = (int(n) for n in row.wanted)
    made = decrease_round(before, count)
    assert made.phrases() == (Repeat((Plain(plain), Shaped(1)), times),)
    assert made.stitches_after == left


@example("W050")
def decreases_to_a_multiple_first(row: Row) -> None:
    before, surplus = (int(n) for n in row.given)
    multiple, plain, _, times, left = (int(n) for n in row.wanted)
    assert decrease_round(before, surplus).stitches_after == multiple
    made = decrease_round(multiple, times)
    assert made.phrases() == (Repeat((Plain(plain), Shaped(1)), times),)
    assert made.stitches_after == left


@example("W051")
def increases_with_a_rest(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    gap, rest, after = (int(n) for n in row.wanted)
    made = increase_simply(before, count)
    assert made is not None
    assert made.gaps() == (gap,) * count + (rest,)
    assert made.stitches_after == after


@example("W052")
def increases_by_turns(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    gap, other, rest, after = (int(n) for n in row.wanted)
    made = increase_simply(before, count)
    assert made is not None
    assert made.gaps() == (*((gap, other) * count)[:count], rest)
    assert (made.stitches_before, made.stitches_after) == (before, after)


@example("W053")
def increases_with_half_ends(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    head, gap, times, tail, after = (int(n) for n in row.wanted)
    made = increase_flat(before, count, half_ends=True)
    assert made.phrases() == (Plain(head), Shaped(1), Repeat((Plain(gap), Shaped(1)), times), Plain(tail))
    assert made.stitches_after == after


@example("W054")
def increases_between_sections(row: Row) -> None:
    before, count = (int(n) for n in row.given)
    size, after = (int(n) for n in row.wanted)
    made = increase_flat(before, count)
    assert "five sections" in row.expected and made.gaps() == (size,) * 5
    assert made.stitches_after == after
    assert increase_round(before, count).stitches_after == after


def intervals(made: Schedule | None, lead: int) -> dict[int, int]:
    """Count the intervals, the first one measured from `lead` rows before row 1."""
    assert made is not None
    return dict(Counter(b - a for a, b in pairwise((-lead, *made.rows()))))


@example("W057")
def taper_on_any_row(row: Row) -> None:
    steps, rows = (int(n) for n in row.given)
    short, times, longer, more = (int(n) for n in row.wanted)
    assert intervals(schedule(steps, rows, any_row=True), 0) == {short: times, longer: more}


@example("W058")
def taper_of_a_sleeve(row: Row) -> None:
    start, end, rows = (int(n) for n in row.given)
    short, times, longer, more = (int(n) for n in row.wanted)
    assert intervals(schedule(shapings(start, end), rows, any_row=True), 0) == {short: times, longer: more}


@example("W059")
def taper_both_ways(row: Row) -> None:
    start, end, length, rows_per_inch, sts_per_inch, cuff, top = row.given
    steps, exact, rows, a, a_times, b, b_times, c, d, d_times = row.wanted
    assert nearest(stitches(cuff, sts_per_inch), 2) == start and stitches(top, sts_per_inch) == end
    assert shapings(int(start), int(end)) == steps
    assert stitches(length, rows_per_inch) == exact and nearest(exact, 2, down=True) == rows
    any_row = schedule(int(steps), int(rows), any_row=True)
    assert intervals(any_row, 0) == {a: a_times, b: b_times}
    # On right-side rows the first shaping row is one less than its interval.
    assert intervals(schedule(int(steps), int(rows)), 1) == {c: TIMES["once"], d: d_times}


@example("W060")
def taper_in_the_round(row: Row) -> None:
    start, end, length, rounds_per_inch, sts_per_inch, wide, narrow = row.given
    assert [nearest(stitches(inches, sts_per_inch), 2) for inches in (wide, narrow)] == [start, end]
    assert [start - end, shapings(int(start), int(end))] == row.wanted[:2]
    rounds = stitches(length, rounds_per_inch)
    assert as_printed(rounds, "78.4") and Fraction("78.4") == row.wanted[2]
    made = schedule(8, nearest(rounds, down=True), any_row=True)
    assert made is not None and made.steps == 8 and made.last == 78


@example("W062")
def taper_fills_its_rows(row: Row) -> None:
    start, end, rows = (int(n) for n in row.given)
    steps, a, a_times, b, b_times, filled, _, x, _, y, used, plain = (int(n) for n in row.wanted)
    assert shapings(start, end) == steps
    made = schedule(steps, rows)
    assert intervals(made, 1) == {a: a_times, b: b_times} and rows == filled
    slack = Schedule(a - 1, ((a, x - 1), (b, y)), rows)
    assert (slack.last + 1, slack.plain_after - 1) == (used, plain)


@example("W064")
def taper_of_a_skirt(row: Row) -> None:
    start, end, interval = (int(n) for n in row.given)
    steps, rows = (int(n) for n in row.wanted)
    assert shapings(start, end) == steps
    assert intervals(schedule(steps, rows, any_row=True), 0) == {interval: steps}
    assert intervals(schedule(steps, rows), 1) == {interval: steps}


@example("W065")
def taper_by_casting_on(row: Row) -> None:
    start, end, at_once = (int(n) for n in row.given)
    times, rows = (int(n) for n in row.wanted)
    steps = cast_on_at_edges(start, end, at_once)
    assert steps == (at_once,) * times and 2 * len(steps) == rows


@example("W069")
@example("W070")
def neck_curve(row: Row) -> None:
    steps: list[int] = []
    for size, times in re.findall(r"(\d+) (once|twice|three times)", row.expected):
        steps += [int(size)] * TIMES[times]
    # Centre on row 1, a step on every other row after it, and a plain row to end the last one.
    made = neck_steps(int(row.given[0]), 2 + 2 * len(steps))
    assert (made.centre, made.steps) == (row.wanted[0], tuple(steps))


@example("W073")
def shoulder_in_three(row: Row) -> None:
    assert "three steps" in row.inputs
    steps = shoulder_steps(int(row.given[0]), 3)
    assert [*steps, *turning_points(steps)] == row.wanted


@example("W074")
def shoulder_twice_as_steep(row: Row) -> None:
    total, depth, size, wanted_depth = row.given
    assert "two RS rows" in row.inputs and "four RS rows" in row.expected
    # Two right-side rows for an inch are 4 rows an inch.
    rows_per_inch = 4
    assert shoulder_steps(int(total), steps_for_slope(depth, rows_per_inch)) == (size, size)
    assert shoulder_steps(int(total), steps_for_slope(wanted_depth, rows_per_inch)) == (row.wanted[0],) * 4
    assert slope_depth(4, rows_per_inch) - slope_depth(2, rows_per_inch) == row.wanted[1]


@example("W082")
def buttonholes_along_a_band(row: Row) -> None:
    holes, each, between, first = (int(n) for n in row.given)
    # as many stitches after the last hole as before the first
    made = buttonholes(int(row.wanted[0]) + first, holes, each, first)
    assert made == (first, *(between,) * (holes - 1), first)


@example("W083")
def buttonholes_half_an_inch_from_the_ends(row: Row) -> None:
    rows, end, further = row.given
    _, first, _, between = (int(n) for n in row.wanted)
    assert (margin(end, rows), margin(further, rows)) == (first, between)
    # three places in a strip, the middle one as far from both others
    assert buttonholes(2 * (first + between), 3, 0, first) == (first, between, between, first)


@example("W084")
def crown_every_second_round(row: Row) -> None:
    start, wedges, wedge = (int(n) for n in row.given)
    first, _, second, _, after_first, after_second, left, rounds = (int(n) for n in row.wanted)
    assert start == wedges * wedge
    made = crown(start, wedges, 2 * rounds - 1)
    assert made is not None and made.even_out is None
    assert [r.round for r in made.decreases] == list(range(1, 2 * rounds, 2))
    assert [r.plain for r in made.decreases[:2]] == [first, second]
    assert [r.stitches for r in made.decreases[:2]] == [after_first, after_second]
    assert (len(made.decreases), made.left) == (rounds, left)


@example("W085")
def crown_closed_by_an_even_round(row: Row) -> None:
    start, wedges, plain, _, last_plain, _, near_top = (int(n) for n in row.given)
    rounds, before_last, left = (int(n) for n in row.wanted)
    made = crown(start, wedges, rounds, until=near_top // wedges)
    assert made is not None
    assert (made.decreases[0].plain, len(made.decreases), made.left) == (plain, rounds, before_last)
    closing = decrease_round(near_top, before_last - left)
    assert closing.phrases() == (Repeat((Plain(last_plain), Shaped(1)), before_last - left),)
    assert closing.stitches_after == left


@example("W086")
def crown_two_decreases_a_wedge(row: Row) -> None:
    start, _, plain, _, single, wedges, every, fewer = (int(n) for n in row.given)
    counts = [int(n) for n in row.wanted]
    made = crown(start, wedges, 1 + every * (len(counts) - 1), each=2, until=counts[-1] // wedges)
    assert made is not None and single == 1
    assert [r.stitches for r in made.decreases] == counts
    assert [r.plain for r in made.decreases] == [plain - fewer * i for i in range(len(counts))]
    assert {b.round - a.round for a, b in pairwise(made.decreases)} == {every}


@example("W088")
def disc_that_lies_flat(row: Row) -> None:
    average, flat_ratio, turn, _, needed, _ = row.wanted
    assert as_printed(flat_disc_rate(flat_ratio), f"{int(average)}.00")
    assert as_printed(flat_disc_rate(1), "6.283") and turn == Fraction("6.283")
    # 1.33 stands for 4 to 3.
    assert as_printed(flat_disc_rate(Fraction(4, 3)), "4.71") and needed == Fraction("4.71")


@example("W108")
def hat(row: Row) -> None:
    smaller, head, gauge = row.given
    exact = hat_cast_on(head, gauge, -smaller)
    wedges = 8  # the crown of the same page, W084
    assert [exact, nearest(exact, wedges)] == row.wanted
