"""Where strands are best caught: apart from the catches of the row below, and from stitches of their own yarn.

A catch shows a little on the right side. One above the other they draw a line, and below or beside a stitch of the
caught yarn the eye joins them to it (common practice, no source). Where not all can be kept, stacking is the worst.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence

from wale.materials import Motif

STACKED, UNDER, BESIDE, ASIDE = 8, 2, 2, 1
MOST = 243
"""So many choices for catches that hang together are weighed at a time, the least exposed ones."""

Run = tuple[str, int, int, tuple[tuple[int, ...], ...]]
"""A float of a row: yarn, column from 0 where it starts, stitches passed, and for each catch the stitches for it."""
Mark = tuple[int, int]
"""A stitch: its row and its place in it."""
Choice = tuple[tuple[int, Mark], ...]
"""The stitches at which one catch may be made, each with what it costs by itself."""
Below = Callable[[Mark], Collection[Mark]]
"""Gives the stitches upon which one stands."""


def staggered(motif: Motif, rows: Sequence[Sequence[Run]]) -> list[tuple[tuple[int, ...], ...]]:
    """Choose the catches of every row of a motif's period, the last row followed by the first but in a wedge.

    Args:
        rows: the floats to be caught, by chart row from 0.

    Returns:
        For each row and float the columns from 0 at which it is caught, by the choice that costs least (`choices`).
        Between equals the columns farthest right in the earliest row.
    """
    around = len(rows) > 1 and not motif.wedge
    offered: list[Choice] = []
    for row, runs in enumerate(rows):
        width = len(motif.rows[row % len(motif.rows)])
        for yarn, start, stitches, catches in runs:
            passed = [(row, (start + at) % width) for at in range(stitches)]
            under = {mark for mark in passed if motif.cell(mark[1], row + 1) == yarn}
            offered += choices(passed, catches, under)
    chosen = iter(stagger(offered, lambda mark: [((mark[0] - 1) % len(rows), mark[1])] if mark[0] or around else []))
    return [tuple(tuple(next(chosen)[1] for _ in catches) for *_, catches in runs) for runs in rows]


def choices(passed: Sequence[Mark], catches: Sequence[Sequence[int]], under: Collection[Mark]) -> list[Choice]:
    """Give the stitches for each catch of a strand, with what a catch costs there.

    2 under a stitch of its own yarn, 2 beside one, 1 beside the middle of those offered.

    Args:
        passed: the stitches that the strand passes, in order.
        catches: for each catch the stitches of the run, from 1, at which it may be made.
        under: the stitches upon which one of the strand's yarn stands.
    """
    found = []
    for among in catches:
        middle, ends = among[len(among) // 2], (1, len(passed))
        costs = [UNDER * (passed[at - 1] in under) + BESIDE * (at in ends) + ASIDE * (at != middle) for at in among]
        found.append(tuple((cost, passed[at - 1]) for cost, at in zip(costs, among, strict=True)))
    return found


def stagger(offered: Sequence[Choice], below: Below) -> list[Mark]:
    """Choose a stitch for each catch, so that all together cost least; 8 for each that stands upon another.

    Exact while the catches that hang together leave no more than `MOST` choices open at a time.
    """
    meets = _meetings(offered, below)
    chosen: list[Mark] = [marks[0][1] for marks in offered]
    for group in _groups(meets):
        for number, at in zip(group, _cheapest(offered, meets, group), strict=True):
            chosen[number] = offered[number][at][1]
    return chosen


_Meetings = list[dict[int, dict[tuple[int, int], int]]]
"""For each catch the others that may stand upon it or it upon them: what each pair of choices costs, where it does."""


def _meetings(offered: Sequence[Choice], below: Below) -> _Meetings:
    holders: dict[Mark, list[tuple[int, int]]] = {}
    for number, marks in enumerate(offered):
        for at, (_, mark) in enumerate(marks):
            holders.setdefault(mark, []).append((number, at))
    meets: _Meetings = [{} for _ in offered]
    for mark, above in holders.items():
        for other, way in (held for under in below(mark) for held in holders.get(under, ())):
            for number, at in above:
                if number != other:
                    for pair, ways in (((number, other), (at, way)), ((other, number), (way, at))):
                        costs = meets[pair[0]].setdefault(pair[1], {})
                        costs[ways] = costs.get(ways, 0) + STACKED
    return meets


def _groups(meets: _Meetings) -> Iterable[list[int]]:
    """Part the catches into those that hang together, in order."""
    seen: set[int] = set()
    for number in range(len(meets)):
        group, waiting = set(), [number]
        while waiting:
            one = waiting.pop()
            if one not in seen:
                seen.add(one)
                group.add(one)
                waiting += meets[one]
        if group:
            yield sorted(group)


def _cheapest(offered: Sequence[Choice], meets: _Meetings, group: Sequence[int]) -> tuple[int, ...]:
    """Give the best choice for each catch of a group, of equals the first; catches that nothing later meets close."""
    last = {number: max(meets[number], default=number) for number in group}
    open_ones: list[int] = []
    # by what is chosen for the open catches: cost, and all that is chosen
    reached: dict[tuple[int, ...], tuple[int, tuple[int, ...]]] = {(): (0, ())}
    for number in group:
        near = [(place, meets[number][one]) for place, one in enumerate(open_ones) if one in meets[number]]
        kept = [place for place, one in enumerate([*open_ones, number]) if last[one] > number]
        step: dict[tuple[int, ...], tuple[int, tuple[int, ...]]] = {}
        for state, (cost, path) in reached.items():
            for at, (own, _) in enumerate(offered[number]):
                total = cost + own + sum(costs.get((at, state[place]), 0) for place, costs in near)
                chosen = (*state, at)
                key, new = tuple(chosen[place] for place in kept), (total, (*path, at))
                if key not in step or new < step[key]:
                    step[key] = new
        reached = dict(sorted(step.items(), key=lambda one: one[1])[:MOST])
        open_ones = [[*open_ones, number][place] for place in kept]
    return min(reached.values())[1]
