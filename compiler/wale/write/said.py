"""A row of stitches as a knitter says it: runs counted, what comes again in brackets."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

LONGEST = 24
"""Most runs of a stretch that is looked for."""

COUNTED = ("k", "p", "sl")
"""Stitches of a texture that are counted; others are told each by itself."""
Run = tuple[int, str]


def said(names: Sequence[str], *, is_texture: bool = False) -> str:
    """Put a row into words: "1 rye, (3 rye, 1 flour) 12 times, 2 rye".

    The stretch that comes again is the one that leaves the fewest words; between equals the shortest, then the first.

    Args:
        names: of the stitches in working order, a yarn, or a shaping in a yarn ("ssk in rye").
        is_texture: they are names of a texture's stitches as they are worked ("k").
    """
    runs = [(len(list(run)), name) for name, run in groupby(names)]
    fewest, found = len(runs), (0, 0, 1)
    for period in range(2, min(LONGEST, len(runs) // 2) + 1):
        alike = 0
        for start in range(len(runs) - period - 1, -1, -1):
            alike = alike + 1 if runs[start] == runs[start + period] else 0
            times = 1 + alike // period
            left = len(runs) - (times - 1) * period
            if times > 1 and (left < fewest or (left == fewest and found[1] == period)):
                fewest, found = left, (start, period, times)
    start, period, times = found
    one = _stitch if is_texture else _yarn
    if times == 1:
        return _plain(runs, one)
    repeated = f"({_plain(runs[start : start + period], one)}) {'twice' if times == 2 else f'{times} times'}"
    ends = (_plain(runs[:start], one), repeated, _plain(runs[start + times * period :], one))
    return ", ".join(part for part in ends if part)


def _plain(runs: Sequence[Run], one: Callable[[int, str], str]) -> str:
    return ", ".join(one(count, name) for count, name in runs)


def _stitch(count: int, name: str) -> str:
    return f"{name}{count}" if name in COUNTED else ", ".join([name] * count)


def _yarn(count: int, name: str) -> str:
    return name if count == 1 and " in " in name else f"{count} {name}"
