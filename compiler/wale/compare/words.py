"""The words that a comparison is told in, as text and on the page: what is told of which piece, figures, places."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from wale.compare.comparison import Comparison
from wale.compare.numbers import Kind, Number, Value
from wale.compare.wordings import Wording
from wale.quantity import show_decimal, show_length, unit_word

NONE = "–"
UNITS: dict[Kind, tuple[str, str]] = {
    "sts": ("stitch", "stitches"),
    "rows": ("row", "rows"),
    "repeats": ("repeat", "repeats"),
    "rows below": ("row", "rows"),
    "centre": ("stitch", "stitches"),
    "picked": ("stitch", "stitches"),
    "evenly": ("stitch", "stitches"),
    "grams": ("g", "g"),
}
"""What is counted, one and several; rounds are rows here."""
LABELS: dict[Kind, str] = {
    "width": "width",
    "length": "length",
    "rows below": "below it",
    "centre": "bound off at the centre",
    "picked": "picked up",
    "evenly": "gained evenly",
    "shaping": "shaping",
    "bind-offs": "in turn from the outside",
    "chart row": "chart begins on row",
    "chart column": "chart column",
    "asked width": "asked width",
    "asked length": "asked length",
    "cost": "costs",
}
MATERIAL: tuple[Kind, ...] = ("grams", "cost")
ASKED: dict[Kind, Kind] = {"asked width": "width", "asked length": "length"}
"""What is asked for, and what is got of it."""

PLACES: tuple[Kind, ...] = ("chart row", "chart column")
"""Places in a chart: how far apart they are says nothing."""


def summary(found: Comparison) -> Iterator[str]:
    """Say in a few sentences what changes."""
    if found.is_knit_alike:
        yield "The knitting is unchanged."
    for names, words in (
        (found.gone_sizes, "Sizes gone: {}."),
        (found.new_sizes, "New sizes: {}."),
        (found.gone_parts, "Pieces gone: {}."),
        (found.new_parts, "New pieces: {}."),
        ([f"{old}, now {new}" for old, new in found.renamed], "Renamed: {}."),
    ):
        if names:
            yield words.format(", ".join(names))
    if not found.sizes:
        yield "No size is in both, so no numbers are compared."
    elif not found.is_knit_alike:
        told = [one for one in found.numbers if one.kind not in (*MATERIAL, *ASKED)]
        changed = sum(one.differs for one in told)
        sizes = f"size{'s' if len(found.sizes) > 1 else ''} {', '.join(found.sizes)}"
        yield f"{changed} of {len(told)} numbers differ, {sizes}."


def by_part(found: Comparison) -> Iterator[tuple[str, list[Number], list[Wording]]]:
    """Give each piece and band that both have with the numbers and words to tell of it, yarn apart."""
    by_key = {(one.address, one.kind): one for one in found.numbers}
    for name in (one["name"] for part in ("pieces", "bands") for one in found.new.plan[part]):
        here = [one for one in found.changes if is_of(name, one.address) and one.kind not in MATERIAL]
        told = [one for one in here if not _is_told_by_another(one, by_key)]
        yield name, told, [one for one in found.wordings if is_of(name, one.of)]


def _is_told_by_another(one: Number, by_key: Mapping[tuple[str, Kind], Number]) -> bool:
    """Whether another number says it: what was asked for with what was got, repeats with their stitches."""
    if one.kind in ASKED:
        got = by_key.get((one.address, ASKED[one.kind]))
        return got is not None and got.differs
    return one.kind == "repeats" and by_key[one.address, "sts"].differs


def of_no_part(found: Comparison) -> list[Wording]:
    """Give what is said otherwise of no piece or band."""
    parts = [one["name"] for plan in (found.old.plan, found.new.plan) for p in ("pieces", "bands") for one in plan[p]]
    return [one for one in found.wordings if not any(is_of(part, one.of) for part in parts)]


def material(found: Comparison) -> list[Number]:
    """Give what changes of yarn and its cost."""
    return [one for one in found.changes if one.kind in MATERIAL]


def is_of(part: str, address: str) -> bool:
    """Whether an address is that of a piece or band, or lies in it."""
    return address == part or address.startswith((f"{part}.", f"{part},", f"{part} "))


def together(name: str, words: Sequence[Wording]) -> Iterator[tuple[str, Wording]]:
    """Give what is said otherwise, once where several places of a piece say the same."""
    places: dict[tuple[str, str | None, str | None], list[Wording]] = {}
    for one in words:
        places.setdefault((one.what, one.before, one.after), []).append(one)
    for group in places.values():
        yield ", ".join(place_words(one.of, name) for one in group), group[0]


def place_words(address: str, name: str) -> str:
    """Give an address in words, inside its piece: `back.hem.facing` is "hem facing", `back.shape[2]` "shape 2"."""
    rest = address.removeprefix(name).lstrip("., ")
    return re.sub(r"\[(\d+)\]", r" \1", rest).replace(".", " ") or "whole"


def step_of(one: Number) -> Fraction | None:
    """Give by how much a number changes where it does so by the same in each size; None for a place in a chart."""
    steps = {
        new - old if isinstance(old, Fraction) and isinstance(new, Fraction) else None
        for old, new in zip(one.before, one.after, strict=True)
    }
    return steps.pop() if len(steps) == 1 and one.kind not in PLACES else None


def unit_of(one: Number, found: Comparison) -> str:
    """Give the unit that stands behind the figures of a number, with a space before it."""
    if one.kind in UNITS:
        return f" {UNITS[one.kind][{*one.before, *one.after} - {None} != {1}]}"
    return f" {unit_word(units_of(found))}" if one.kind.endswith(("width", "length")) else ""


def units_of(found: Comparison) -> str:
    """Give the unit in which lengths are told: the new spec's, else the old one's, else cm."""
    garments = (one.garment for one in (found.new, found.old))
    return next((one.spec.units for one in garments if one is not None), "cm")


def figure(value: Value, one: Number, found: Comparison) -> str:
    """Give a value of a number as it is told."""
    if not isinstance(value, Fraction):
        return value or NONE
    if one.kind.endswith(("width", "length")):
        return show_length(value, units_of(found), 2 if _look_alike(one, units_of(found)) else 1)
    return show_decimal(value, 2).rstrip("0").removesuffix(".")


def _look_alike(one: Number, units: str) -> bool:
    """Whether the old and the new length of a size differ and would be printed alike with one decimal."""
    pairs = zip(one.before, one.after, strict=True)
    differ = [
        (old, new) for old, new in pairs if old != new and isinstance(old, Fraction) and isinstance(new, Fraction)
    ]
    return any(show_length(old, units) == show_length(new, units) for old, new in differ)


def listed(values: Sequence[Value], one: Number, found: Comparison) -> str:
    """Put one figure a size as patterns do; a single one where all are alike."""
    first, *more = (figure(value, one, found) for value in values)
    if not any(figure != first for figure in more):
        return first
    return f"{first} ({', '.join(more)})"
