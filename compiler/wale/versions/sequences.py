"""Three versions of a sequence made one, in the two ways that a merge needs. Nothing here knows of knitting.

`keyed` goes by what a thing is called, so its place may change; `regions` goes by place alone, for steps that are done
in order. (A library for the latter, merge3, is under the GPL; the standard library's matcher does for short ones.)
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from difflib import SequenceMatcher
from typing import TypeVar

T = TypeVar("T")
K = TypeVar("K", bound=Hashable)


def pick(base: T, ours: T, theirs: T) -> T | None:
    """Give what one side made of a thing that the other left alone; None where both changed it."""
    if ours == theirs or theirs == base:
        return ours
    return theirs if ours == base else None


Three = tuple[T, T, T]
"""Base, ours, theirs."""


def keyed(versions: Three[Sequence[T]], key: Callable[[T], K]) -> list[Three[T | None]]:
    """Bring together what has the same key in three versions; keys of a version differ.

    Returns:
        Base, ours, theirs of each key that any side still has, None where a version lacks it. The order is that of the
        side that moved something, ours where both did; what the other side added stands behind what it follows there,
        and behind what the first side added in the same place.
    """
    old, mine, other = ({key(one): one for one in version} for version in versions)
    shared = [one for one in old if one in mine and one in other]
    order = [one for one in mine if one in shared]
    lead, follow = (list(mine), list(other)) if order != shared else (list(other), list(mine))
    if order == shared and [one for one in other if one in shared] == shared:
        lead, follow = list(mine), list(other)
    merged = list(lead)
    for at, one in enumerate(follow):
        if one in merged:
            continue
        before = next((back for back in reversed(follow[:at]) if back in merged), None)
        place = merged.index(before) + 1 if before is not None else 0
        while place < len(merged) and merged[place] not in old and merged[place] not in follow:
            place += 1
        merged.insert(place, one)
    return [(old.get(one), mine.get(one), other.get(one)) for one in merged]


def regions(base: Sequence[str], ours: Sequence[str], theirs: Sequence[str]) -> Iterator[Three[slice]]:
    """Give the stretches of three versions that lie between what all three have, and those that all three have.

    Returns:
        Slices into base, ours, theirs, in order; together they cover everything.
    """
    mine, other = _matches(base, ours), _matches(base, theirs)
    at = (0, 0, 0)
    for place in range(len(base)):
        if place not in mine or place not in other:
            continue
        here = (place, mine[place], other[place])
        if here != at:
            yield slice(at[0], here[0]), slice(at[1], here[1]), slice(at[2], here[2])
        at = (here[0] + 1, here[1] + 1, here[2] + 1)
        yield slice(here[0], at[0]), slice(here[1], at[1]), slice(here[2], at[2])
    end = (len(base), len(ours), len(theirs))
    if end != at:
        yield slice(at[0], end[0]), slice(at[1], end[1]), slice(at[2], end[2])


def _matches(base: Sequence[str], version: Sequence[str]) -> dict[int, int]:
    """Give where a version has what stands at a place of the base."""
    found = {}
    for block in SequenceMatcher(None, base, version, autojunk=False).get_matching_blocks():
        found.update({block.a + at: block.b + at for at in range(block.size)})
    return found
