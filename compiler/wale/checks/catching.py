"""Where strands are best caught: never in the same column as in the row below, nor under a stitch of their own yarn.

A catch shows a little on the right side. One above the other they draw a line, and below a stitch of the caught yarn
the eye joins them to it (common practice, no source). Where both cannot be kept, stacking is the worse.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product

from wale.materials import Motif

STACKED, UNDER, ASIDE = 8, 2, 1
MOST = 12
"""So many ways of catching a row are weighed against those of its neighbours; the least exposed ones."""

Run = tuple[str, int, tuple[tuple[int, ...], ...]]
"""A float of a row: its yarn, the column from 0 where it starts, and for each catch the stitches where it may be."""
Way = tuple[tuple[int, ...], ...]
"""For each float of a row the columns from 0 at which it is caught."""


def staggered(motif: Motif, rows: Sequence[Sequence[Run]]) -> list[Way]:
    """Choose the catches of every row of a motif's period, the last row followed by the first but in a wedge.

    Args:
        rows: the floats to be caught, by chart row from 0.

    Returns:
        The choice that costs least: 8 for a catch above another, 2 under a stitch of its own yarn, 1 beside the middle.
        Between equals the columns farthest right in the earliest row.
    """
    ways = [_ways(motif, number, runs) for number, runs in enumerate(rows)]
    found = []
    for first_cost, first in ways[0]:
        # of each way of the row so far what it costs up to there, and its place among equals
        reached: dict[Way, tuple[int, int]] = {first: (first_cost, 0)}
        below: list[dict[Way, Way]] = []
        for options in ways[1:]:
            step = {
                way: min((cost + _stacked(last, way) + own, place, last) for last, (cost, place) in reached.items())
                for own, way in options
            }
            order = sorted((place, way) for way, (_, place, _) in step.items())
            reached = {way: (step[way][0], place) for place, (_, way) in enumerate(order)}
            below.append({way: last for way, (_, _, last) in step.items()})
        around = len(rows) > 1 and not motif.wedge
        cost, _, last = min(
            (cost + (_stacked(way, first) if around else 0), place, way) for way, (cost, place) in reached.items()
        )
        found.append((cost, _path(last, below)))
    return min(found)[1]


def _path(last: Way, below: Sequence[Mapping[Way, Way]]) -> list[Way]:
    """Give the ways of all rows that lead to the last one's."""
    path = [last]
    for before in reversed(below):
        path.append(before[path[-1]])
    return path[::-1]


def _ways(motif: Motif, row: int, runs: Sequence[Run]) -> list[tuple[int, Way]]:
    """Give the ways to catch a row's floats with what each costs by itself, cheapest first."""
    each: list[list[tuple[int, tuple[int, ...]]]] = []
    width = len(motif.rows[row % len(motif.rows)])
    for yarn, start, catches in runs:
        choices = []
        for places in product(*catches):
            columns = tuple((start + place - 1) % width for place in places)
            cost = sum(UNDER for column in columns if motif.cell(column, row + 1) == yarn)
            cost += sum(ASIDE for place, among in zip(places, catches, strict=True) if place != among[len(among) // 2])
            choices.append((cost, columns))
        each.append(sorted(choices)[:MOST])
    return sorted(map(_price, _some(each)))


def _some(each: list[list[tuple[int, tuple[int, ...]]]]) -> list[tuple[tuple[int, tuple[int, ...]], ...]]:
    """Combine the choices of a row's floats, always keeping the cheapest few."""
    found: list[tuple[tuple[int, tuple[int, ...]], ...]] = [()]
    for choices in each:
        found = sorted(((*parts, choice) for parts in found for choice in choices), key=_price)[:MOST]
    return found


def _price(parts: tuple[tuple[int, tuple[int, ...]], ...]) -> tuple[int, tuple[tuple[int, ...], ...]]:
    return sum(cost for cost, _ in parts), tuple(way for _, way in parts)


def _stacked(below: Way, above: Way) -> int:
    columns = {column for way in below for column in way}
    return STACKED * sum(column in columns for way in above for column in way)
