"""Shaping spread over the rows of a section, the same at both edges.

Input: how many shaping rows, in how many rows. Output: a `Schedule`, or None where the rows do not suffice
(`least_rows` says how many would). Shorter intervals come first, as the rule for right-side rows settles.
"""

from __future__ import annotations

from itertools import groupby, pairwise

from msgspec import Struct


class Schedule(Struct, frozen=True):
    """Rows of a section on which to shape: "on row 3, then every 4th row 28 times, every 6th row 4 times".

    Attributes:
        first: first shaping row, from 1; 0 where nothing is shaped.
        then: (interval, times) after the first shaping row, in order; times >= 1, neighbours differ.
        total_rows: rows of the section, plain ones at the end included.
    """

    first: int
    then: tuple[tuple[int, int], ...]
    total_rows: int

    @property
    def steps(self) -> int:
        """How many shaping rows there are."""
        return sum(times for _, times in self.then) + (1 if self.first else 0)

    @property
    def last(self) -> int:
        """Last shaping row; 0 where nothing is shaped."""
        return self.first + sum(interval * times for interval, times in self.then)

    @property
    def plain_after(self) -> int:
        """Plain rows after the last shaping row."""
        return self.total_rows - self.last

    @property
    def distinct_intervals(self) -> int:
        """How many different intervals a knitter has to keep track of after the first shaping row."""
        return len({interval for interval, _ in self.then})

    def rows(self) -> tuple[int, ...]:
        """Give the shaping rows, from 1, in order."""
        if not self.first:
            return ()
        result = [self.first]
        for interval, times in self.then:
            for _ in range(times):
                result.append(result[-1] + interval)
        return tuple(result)

    def up_to(self, row: int) -> Schedule:
        """Give what of it lies in its first rows, up to `row`."""
        kept = [one for one in self.rows() if one <= row]
        gaps = [after - before for before, after in pairwise(kept)]
        then = tuple((gap, len(list(run))) for gap, run in groupby(gaps))
        return Schedule(kept[0] if kept else 0, then, row)


def shapings(start: int, end: int, each: int = 2) -> int:
    """Give how many shaping rows lead from `start` to `end` stitches when each adds or takes `each`.

    Raises:
        ValueError: the difference is no multiple of `each`; with one shaping at each edge, both counts must be odd or
            both even.

    Source: docs/maths.md#start-and-end. Example: 62 to 46 takes 8.
    """
    count, rest = divmod(abs(end - start), each)
    if rest:
        raise ValueError(f"{start} to {end} sts is no multiple of {each}")
    return count


def least_rows(steps: int, *, any_row: bool = False, starts_right: bool = True) -> int:
    """Give the fewest rows of a section in which `steps` shaping rows fit.

    Source: docs/maths.md#taper. Example: 29 shapings on right-side rows need 58 rows.
    """
    if steps == 0:
        return 0
    return steps if any_row else 2 * steps + (0 if starts_right else 1)


def schedule(steps: int, rows: int, *, any_row: bool = False, starts_right: bool = True) -> Schedule | None:
    """Spread shaping rows over a section.

    On right-side rows, row 1 being one, intervals are q and q+2 with q even: the first shaping row is q-1, the q's
    come first (the first shaping row counts as one of them), and the section ends on a plain wrong-side row. On any
    row (and in the round) intervals are q and q+1, the first shaping row is q, and the last one ends the section.

    Args:
        steps: shaping rows, >= 0.
        rows: rows of the section, >= 0. On right-side rows the last row stays plain if it is itself a right-side row.
        any_row: shape on wrong-side rows too, or work in the round.
        starts_right: row 1 is a right-side row; if not, it stays plain and the rule starts on row 2.

    Returns:
        The schedule, or None when `rows` < `least_rows(steps)`.

    Raises:
        ValueError: a negative count.

    Source: docs/maths.md#taper. Example: 33 steps in 140 rows are on row 3, then every 4th row 28 times, every 6th
    row 4 times; the last is row 139.
    """
    if steps < 0 or rows < 0:
        raise ValueError("steps and rows are never negative")
    if rows < least_rows(steps, any_row=any_row, starts_right=starts_right):
        return None
    if steps == 0:
        return Schedule(0, (), rows)
    unit = 1 if any_row else 2
    lead = 0 if any_row or starts_right else 1
    short, long_times = divmod((rows - lead) // unit, steps)
    intervals = ((short * unit, steps - long_times - 1), ((short + 1) * unit, long_times))
    first = lead + short * unit - (unit - 1)
    return Schedule(first, tuple(pair for pair in intervals if pair[1]), rows)


def cast_on_at_edges(start: int, end: int, at_once: int) -> tuple[int, ...]:
    """Give the stitches to cast on at each end, one number for each pair of rows (one row for either end).

    Args:
        start: stitches before.
        end: stitches after, >= start, by an even number.
        at_once: most stitches to cast on at one end, >= 1.

    Returns:
        Numbers in working order, `at_once` each, the last perhaps smaller; they take two rows apiece.

    Raises:
        ValueError: an odd or negative difference, or `at_once` < 1.

    Source: docs/maths.md#cast-on-at-the-edges. Example: 34 to 74 by 2 is ten times, 20 rows.
    """
    if end < start or (end - start) % 2 or at_once < 1:
        raise ValueError("edges grow alike, by at least one stitch at once")
    whole, rest = divmod((end - start) // 2, at_once)
    return (at_once,) * whole + ((rest,) if rest else ())
