"""Pieces and bands that only have another name: told as renamed, and compared under the new one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from wale.compare.numbers import Json

_NAMES = frozenset({"name", "address", "first_level", "last_level", "piece", "edge", "value"})
"""Fields that hold the name of a piece or band, or begin with it."""


def renamings(before: Json, after: Json) -> dict[str, str]:
    """Give the new names of what has the same levels and sections, in the same kinds of rows, under another name.

    One whose name went is taken for the first one whose name came that is built alike.
    """
    found: dict[str, str] = {}
    for part in ("pieces", "bands"):
        old, new = ({one["name"]: _build(one) for one in plan[part]} for plan in (before, after))
        came = [name for name in new if name not in old]
        for name in old:
            alike = next((one for one in came if one not in found.values() and new[one] == old[name]), None)
            if name not in new and alike is not None:
                found[name] = alike
    return found


def _build(part: Json) -> object:
    """Give how a piece or band is built, whatever its name and its numbers."""
    if "levels" not in part:
        return part["rib"]
    start = len(part["name"])
    return (
        part["in_round"],
        [level["address"][start:] for level in part["levels"]],
        [(section["address"][start:], section["kind"]) for section in part["sections"]],
        part["top"] is None,
        part["crown"] is None,
    )


def renamed(plan: Json, names: Mapping[str, str]) -> Json:
    """Give a plan whose pieces and bands have other names."""
    if not names:
        return plan
    return {key: _renamed(one, names) if key in ("pieces", "bands", "joins") else one for key, one in plan.items()}


def _renamed(node: Any, names: Mapping[str, str], key: str = "") -> Any:
    if isinstance(node, dict):
        return {name: _renamed(value, names, name) for name, value in node.items()}
    if isinstance(node, list):
        return [_renamed(value, names, key) for value in node]
    if key not in _NAMES or not isinstance(node, str):
        return node
    if key == "edge":  # "one side of the back neck"
        return " ".join(names.get(word, word) for word in node.split(" "))
    for old, new in names.items():
        if node == old or node.startswith(f"{old}."):
            return new + node[len(old) :]
    return node
