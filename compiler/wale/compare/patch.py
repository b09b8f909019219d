"""The whole difference of two plans as a JSON patch (RFC 6902): applied to the first it gives the second.

Written for plans: a list of figures is replaced as a whole, for one figure a size belongs together; of other lists only
what stands between their equal ends is touched. (The `make_patch` of jsonpatch, a library, moves single figures about:
1,647 operations in 0.2 s for a pullover with less ease, against 377 in 0.01 s. The tests apply patches with it.)
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from wale.compare.numbers import Json

Operation = dict[str, Any]


def patch(before: Json, after: Json) -> list[Operation]:
    """Give the operations that make the second plan of the first; none where they are the same to the letter."""
    return list(_operations(before, after, ""))


def _operations(old: Any, new: Any, path: str) -> Iterator[Operation]:
    if isinstance(old, dict) and isinstance(new, dict):
        yield from _of_objects(old, new, path)
    elif isinstance(old, list) and isinstance(new, list) and _has_parts(old) and _has_parts(new):
        yield from _of_lists(old, new, path)
    elif old != new:
        yield {"op": "replace", "path": path, "value": new}


def _has_parts(values: list[Any]) -> bool:
    return any(isinstance(one, dict | list) for one in values)


def _of_objects(old: Json, new: Json, path: str) -> Iterator[Operation]:
    for key in old:
        place = f"{path}/{key.replace('~', '~0').replace('/', '~1')}"
        if key in new:
            yield from _operations(old[key], new[key], place)
        else:
            yield {"op": "remove", "path": place}
    for key in new:
        if key not in old:
            yield {"op": "add", "path": f"{path}/{key.replace('~', '~0').replace('/', '~1')}", "value": new[key]}


def _of_lists(old: list[Any], new: list[Any], path: str) -> Iterator[Operation]:
    """Change what stands between the equal ends: in place as far as both reach, the rest is taken out or put in."""
    shorter = min(len(old), len(new))
    start = next((at for at in range(shorter) if old[at] != new[at]), shorter)
    end = next((at for at in range(shorter - start) if old[-1 - at] != new[-1 - at]), shorter - start)
    last, other_last = len(old) - end, len(new) - end
    both = min(last, other_last)
    for at in range(start, both):
        yield from _operations(old[at], new[at], f"{path}/{at}")
    for _ in range(both, last):
        yield {"op": "remove", "path": f"{path}/{both}"}
    for at in range(both, other_last):
        yield {"op": "add", "path": f"{path}/{at}", "value": new[at]}
