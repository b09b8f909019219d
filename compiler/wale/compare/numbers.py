"""The numbers of a plan by address and kind, one value a size, and two plans' numbers side by side.

A plan is here what docs/plan-json.md describes, as data: a plan that was just solved and one that was read from a file
or a PDF are the same to a comparison.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from typing import Any, Literal

from msgspec import Struct

Json = dict[str, Any]
Kind = Literal[
    "sts",
    "rows",
    "repeats",
    "width",
    "length",
    "rows below",
    "centre",
    "picked",
    "evenly",
    "shaping",
    "bind-offs",
    "chart row",
    "chart column",
    "asked width",
    "asked length",
    "grams",
    "cost",
]
"""What a number is: stitches, rows or rounds, repeats across, widths and lengths got (cm), rows below a mark, stitches
bound off at the centre of a neck, picked up along an edge, or gained evenly on one row, where shaping rows or bind-offs
stand (in words), where a chart begins (from 1, columns from the right), widths and lengths wished (cm), yarn to have
ready (g), and what is to be bought costs (in words, with its currency)."""
Value = Fraction | str | None
"""None: there is no such number in that size, or it is not known."""
Values = tuple[Value, ...]
Key = tuple[str, Kind]


class Number(Struct, frozen=True):
    """One number of two versions of a garment.

    Attributes:
        address: `back.bust`, a piece, a band (`neckband`, `neckband from back neck`), or a yarn.
        before, after: its value in each size that is compared, in one order of sizes.
    """

    address: str
    kind: Kind
    before: Values
    after: Values

    @property
    def differs(self) -> bool:
        """Whether any size has another value."""
        return self.before != self.after


def compared(before: Json, after: Json, sizes: Sequence[str]) -> tuple[Number, ...]:
    """Give all numbers of two plans in the sizes named, those that stay too.

    The order is that of the first plan; what only the second has comes last.
    """
    old, new = (_chosen(plan, sizes) for plan in (before, after))
    nothing: Values = (None,) * len(sizes)
    return tuple(Number(*key, old.get(key, nothing), new.get(key, nothing)) for key in dict.fromkeys((*old, *new)))


def told_once(numbers: Sequence[Number]) -> tuple[Number, ...]:
    """Leave out what a piece takes over from another unchanged."""
    first: dict[object, Number] = {}
    for one in numbers:
        first.setdefault((one.address.split(".", 1)[-1], one.kind, one.before, one.after), one)
    return tuple(first.values())


def sizes_of(plan: Json) -> tuple[str, ...]:
    """Give the names of a plan's sizes in order."""
    return tuple(size["name"] for size in plan["sizes"])


def _chosen(plan: Json, sizes: Sequence[str]) -> dict[Key, Values]:
    known = sizes_of(plan)
    at = [known.index(size) if size in known else None for size in sizes]
    return {
        key: tuple(None if index is None else values[index] for index in at) for key, values in numbers_of(plan).items()
    }


def numbers_of(plan: Json) -> dict[Key, Values]:
    """Give each number of a plan, one value for each of its sizes."""
    found: dict[Key, Values] = {}
    widths = {one["name"]: len(next(iter(one["rows"]), ())) for one in plan["motifs"]}
    repeats = {one["name"]: widths.get(one["motif"]) for one in plan["swatches"]}
    for piece in plan["pieces"]:
        found.update(_piece(piece, repeats))
    for band in plan["bands"]:
        found.update(_band(band))
    for yarn in plan["yarns"]:
        found.update(_yarn(yarn))
    return found


Found = Iterator[tuple[Key, Values]]


def _piece(piece: Json, repeats: Mapping[str, int | None]) -> Found:
    for level in piece["levels"]:
        address = level["address"]
        yield (address, "sts"), _whole(level["stitches"])
        yield from _wish(address, "width", level["width"])
        width = repeats.get(level["swatch"])
        if width:
            yield (address, "repeats"), tuple(Fraction(one - level["edges"], width) for one in level["stitches"])
    for place, counts in enumerate(zip(*piece["holders"], strict=True), 1):
        yield (f"{piece['name']}.hold, holder {place}", "sts"), _whole(counts)
    for section in piece["sections"]:
        yield from _section(section)
    if piece["sections"]:
        yield (piece["name"], "length"), _exact(piece["sections"][-1]["position"])
    for mark in piece["marks"]:
        yield (f"{piece['name']}.{mark['name']}", "rows below"), _whole(mark["rows"])
    if piece["top"] is not None:
        yield from _top(piece["name"], piece["top"])
    if piece["crown"] is not None:
        yield from _crown(f"{piece['name']}.crown", piece["crown"])


def _section(section: Json) -> Found:
    address, gauge = section["address"], Fraction(section["rows_per_cm"]["exact"])
    yield (address, "rows"), _whole(section["rows"])
    yield (address, "length"), tuple(rows / gauge for rows in section["rows"])
    if section["length"]["wished"] is not None:
        yield (address, "asked length"), _exact(section["length"]["wished"])
    if section["schedules"]:
        yield (address, "shaping"), tuple(_shaping(one) for one in section["schedules"])
    for name, where in (("even_start", "first row"), ("even_change", "last row")):
        if section[name] is not None:
            yield (f"{address}, {where}", "evenly"), _whole(section[name])
    if section["chart_start"] is not None:
        yield (address, "chart row"), _whole(section["chart_start"])
    if section["centre_column"] is not None:
        yield (f"{address}, centre", "chart column"), _exact(section["centre_column"])


def _top(piece: str, top: Json) -> Found:
    neck, shoulder = f"{piece}.neck", f"{piece}.shoulder"
    yield (neck, "sts"), _whole(top["neck_stitches"])
    yield from _wish(neck, "width", top["neck_width"])
    yield (neck, "rows"), _whole(top["neck_rows"])
    yield from _wish(neck, "length", top["neck_depth"])
    yield (neck, "centre"), _whole(top["neck_centre"])
    yield (neck, "bind-offs"), tuple(_listed(one) for one in top["neck_steps"])
    if top["placket"] is not None:
        placket, slit = f"{piece}.placket", top["placket"]
        yield (placket, "sts"), _whole(slit["stitches"])
        yield (placket, "rows"), _whole(slit["rows"])
        yield from _wish(placket, "length", slit["length"])
    yield (shoulder, "sts"), _whole(top["shoulder_stitches"])
    yield (shoulder, "rows"), _whole(top["slope_rows"])
    yield from _wish(shoulder, "length", top["slope"])
    yield (shoulder, "bind-offs"), tuple(_listed(one) for one in top["slope_groups"])


def _crown(address: str, crown: Json) -> Found:
    yield (f"{address}, start", "sts"), _whole(crown["start"])
    yield (address, "rows"), _whole(crown["rounds"])
    yield (address, "shaping"), tuple(_decreases(one) for one in crown["decreases"])
    yield (f"{address}, end", "sts"), _whole(crown["final"])


def _band(band: Json) -> Found:
    yield (band["name"], "sts"), _whole(band["stitches"])
    yield (band["name"], "rows"), _whole(band["rows"])
    if band["hood"]:
        yield (f"{band['name']}, hood", "sts"), _whole(band["hood"])
    if band["collar"]:
        yield (f"{band['name']}, below its short rows", "rows"), _whole(band["collar"]["rows_below"])
        yield (f"{band['name']}, from turn to turn", "shaping"), tuple(map(_listed, band["collar"]["apart"]))
    if band["mitres"]:
        yield (f"{band['name']}, mitred st", "sts"), tuple(_listed(one["stitches"]) for one in band["mitres"])
        yield (f"{band['name']}, mitre on round", "shaping"), tuple(_listed(one["rounds"]) for one in band["mitres"])
    for picked in band["picked"]:
        yield (f"{band['name']} from {picked['edge']}", "picked"), _whole(picked["stitches"])


def _yarn(yarn: Json) -> Found:
    needs = yarn["needed"]
    if needs:
        yield (yarn["name"], "grams"), tuple(None if one["grams"] is None else Fraction(one["grams"]) for one in needs)
        costs = tuple(
            " or ".join(f"{cost['amount']['decimal']} {cost['currency']}" for cost in one["costs"]) or None
            for one in needs
        )
        if any(costs):
            yield (yarn["name"], "cost"), costs


def _wish(address: str, kind: Literal["width", "length"], wish: Json) -> Found:
    yield (address, kind), _exact(wish["got"])
    if wish["wished"] is not None:
        yield (address, "asked width" if kind == "width" else "asked length"), _exact(wish["wished"])


def _shaping(schedule: Json) -> str:
    """Say where the shaping rows of a section stand: "row 11, then every 12 rows 4 times"."""
    if not schedule["first"]:
        return "none"
    then = zip(schedule["intervals"], schedule["times"], strict=True)
    return ", then ".join((f"row {schedule['first']}", *(_every(rows, times) for rows, times in then)))


def _decreases(crown: Json) -> str:
    """Say where the decrease rounds of a crown stand: "round 1 to 90 sts, then every 2 rounds 3 times to 72 sts"."""
    rounds, stitches = crown["rounds"], crown["stitches"]
    if not rounds:
        return "none"
    told, at = [f"round {rounds[0]} to {stitches[0]} sts"], 0
    steps = zip(pairwise(rounds), pairwise(stitches), strict=True)
    for (every, _), run in groupby((after - before, less - more) for (before, after), (more, less) in steps):
        times = len(list(run))
        at += times
        told.append(f"{_every(every, times, 'round')} to {stitches[at]} sts")
    return ", then ".join(told)


def _every(rows: int, times: int, work: str = "row") -> str:
    often = {1: "once", 2: "twice"}.get(times, f"{times} times")
    return f"every {work} {often}" if rows == 1 else f"every {rows} {work}s {often}"


def _listed(values: Sequence[int]) -> str:
    return ", ".join(str(value) for value in values) or "none"


def _whole(values: Sequence[int]) -> Values:
    return tuple(Fraction(value) for value in values)


def _exact(values: Sequence[Json]) -> Values:
    return tuple(Fraction(value["exact"]) for value in values)
