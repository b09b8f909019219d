"""What two plans say in words or single figures: titles, yarns, swatches, stitches, ways to bind off, joins, orders."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from wale.compare.numbers import Json

ABOUT = frozenset({"about", "assumptions", "changes", "group", "title", "version"})
"""What the plan says of the pattern rather than of the knitting."""
_NAMED = {"yarns": "yarn ", "swatches": "swatch ", "motifs": "motif ", "sizes": "size ", "bands": "", "pieces": ""}
_PLACES = frozenset({"line", "words", "format", "compiler", "problems", "assumptions", "label"})
_NUMBERS = frozenset(
    {
        *("needed", "rows", "shift", "stitches", "width", "length", "position", "schedules", "even_change"),
        *("even_start", "chart_start", "centre_column", "neck_stitches", "neck_width", "neck_rows", "neck_depth"),
        *(
            "neck_centre",
            "neck_steps",
            "placket",
            "shoulder_stitches",
            "slope_rows",
            "slope",
            "slope_groups",
            "start",
            "rounds",
        ),
        *("decreases", "final", "holders", "joined", "neck_line", "shoulder_line", "first_level", "last_level"),
    }
)
"""Fields whose differences are told as numbers, as cells, or not at all."""
_ANY_ORDER = frozenset({"yarns", "swatches", "motifs"})
"""Lists whose order means nothing to the knitting: that of the blocks of the spec."""
_SKIPPED = _PLACES | _NUMBERS
_THERE = "there"
Key = tuple[str, str]
"""Of what, and what of it."""


class Wording(Struct, frozen=True):
    """Something that is said otherwise.

    Attributes:
        of: `swatch easy`, `yarn rye`, a piece, a band, an address, or "" for the pattern.
        what: `needle mm`; "" where the thing itself came or went, and `order` where the same things stand in another.
        before, after: the words; None: that version does not have it.
        is_knitting: it is about what is knitted, not about yarns or the pattern's own words.
    """

    of: str
    what: str
    before: str | None
    after: str | None
    is_knitting: bool


def wordings(before: Json, after: Json) -> tuple[Wording, ...]:
    """Give what two plans say otherwise; of a thing that came or went no more than that."""
    old, new = dict(_leaves(before)), dict(_leaves(after))
    found = []
    for key in dict.fromkeys((*old, *new)):
        of, what = key
        one, other = old.get(key), new.get(key)
        # told with the thing that came or went; motifs and sizes that did are told as cells and as sizes
        is_told_elsewhere = None in (one, other) and (what or of.startswith(("size ", "motif ")))
        is_of_other_things = what.endswith("order") and not _same_things(one, other)
        if one == other or is_told_elsewhere or is_of_other_things:
            continue
        is_knitting = bool(of or what not in ABOUT) and not of.startswith("yarn ") and what != "origin"
        found.append(Wording(of, what, one, other, is_knitting))
    return tuple(found)


def _same_things(one: str | None, other: str | None) -> bool:
    return sorted((one or "").split(", ")) == sorted((other or "").split(", "))


def _leaves(node: Any, of: str = "", what: tuple[str, ...] = ()) -> Iterator[tuple[Key, str]]:
    """Give each thing that is said, by what it is of."""
    if isinstance(node, dict) and "exact" not in node:
        for key, value in node.items():
            is_gauge = key.endswith("_per_cm") and not of.startswith("swatch ")  # told once, of the swatch
            if key not in _SKIPPED and not is_gauge and not (key in ("name", "address") and of):
                yield from _leaves(value, of, (*what, key))
    elif isinstance(node, list) and node and isinstance(node[0], dict) and what[-1] != "joins":
        names = [str(one.get("address") or one.get("name") or one.get("edge")) for one in node]
        prefix = "".join(_NAMED.get(key, "") for key in what) if len(what) == 1 else ""
        if not prefix and what[-1] in ("marks", "picked", "pockets"):
            prefix = f"{of}, {what[-1]} "
        if what[-1] not in _ANY_ORDER:
            yield (of, _said((*what, "order"))), ", ".join(names)
        for name, one in zip(names, node, strict=True):
            yield (prefix + name, ""), _THERE
            yield from _leaves(one, prefix + name)
    else:
        yield (of, _said(what)), _words(node)


def _said(what: tuple[str, ...]) -> str:
    return " ".join(what).replace("_", " ")


def _words(value: Any) -> str:
    """Give a leaf as words."""
    if isinstance(value, dict):
        if "exact" in value:
            short, exact = value["decimal"], value["exact"]
            return str(exact).removesuffix("/1") if exact.endswith("/1") else f"{short} ({exact})"
        return " ".join(filter(None, (_words(one) for key, one in value.items() if key not in _PLACES)))
    if isinstance(value, list):
        return ", ".join(_words(one) for one in value) or "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "none" if value is None else str(value)
