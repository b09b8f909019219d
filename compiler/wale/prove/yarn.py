"""The printed table of yarn, reckoned anew from the stitches that were knitted.

Grams of a stitch, of ends and of swatches are given; how they add up, the margin, rounding and buying are reckoned here
by the rules that the pattern prints beside its table.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil, floor

from msgspec import Struct

from wale.prove.fabric import Contradiction, Finding, insist
from wale.prove.facts import PrintedTable, PutUpFact, Range, SizeYarn, Sort, YarnFact

STEP = 5
"""Grams are printed in steps of 5."""
METRES = 10
"""Metres are printed in steps of 10."""

Stitches = Mapping[str, tuple[int, Mapping[Sort, int]]]
"""How often each piece of a size is made, and its stitches by sort."""


class Need(Struct, frozen=True):
    """A yarn in one size, reckoned: by both ways, in all, and what to have ready; None: not known."""

    fact: YarnFact
    by_weight: Range | None
    by_loop: Range | None
    takes: Range | None
    ready: int | None


def needs(stitches: Stitches, size: SizeYarn) -> dict[str, Need]:
    """Reckon each yarn of a size from the stitches of its pieces.

    Raises:
        Contradiction: stitches of a piece have no rate, or more than one.
    """
    totals: dict[str, list[Range | None]] = {}
    rated: dict[str, set[Sort]] = {}
    zero = (Fraction(0), Fraction(0), Fraction(0))
    for rate in size.rates:
        number = 0
        for piece in rate.pieces:
            insist(rate.sort not in rated.setdefault(piece, set()), f"stitches of the {piece} are reckoned twice")
            rated[piece].add(rate.sort)
            make, sorts = stitches.get(piece, (0, {}))
            number += make * sorts.get(rate.sort, 0)
        for grams in rate.grams:
            sums = totals.setdefault(grams.yarn, [zero, zero])
            for way, each in enumerate((grams.by_weight, grams.by_loop)):
                sums[way] = _plus(sums[way], each, number)
    for piece, (_, sorts) in stitches.items():
        insist(not set(sorts) - rated.get(piece, set()), f"no yarn is reckoned for stitches of the {piece}")
    return {fact.yarn: _need(fact, *totals.get(fact.yarn, [zero, zero])) for fact in size.yarns}


def _plus(one: Range | None, each: Range | None, number: int) -> Range | None:
    if one is None or each is None:
        return None
    return one[0] + number * each[0], one[1] + number * each[1], one[2] + number * each[2]


def _need(fact: YarnFact, by_weight: Range | None, by_loop: Range | None) -> Need:
    ways = [way for way in (by_weight, by_loop) if way is not None]
    if not ways:
        return Need(fact, by_weight, by_loop, None, None)
    low, middle, high = min(way[0] for way in ways), max(way[1] for way in ways), max(way[2] for way in ways)
    takes = (low + fact.ends, middle + fact.ends, high + fact.ends)
    ready = _up(max(takes[1] * (1 + fact.margin), takes[2]) + fact.swatches, STEP)
    return Need(fact, by_weight, by_loop, takes, ready)


def _up(value: Fraction, step: int) -> int:
    return ceil(value / step) * step


def check_yarn(
    table: PrintedTable, found: Mapping[str, Mapping[str, Need]], sizes: Sequence[str]
) -> tuple[list[Finding], int]:
    """Hold the table of yarn against what was reckoned for each size.

    Returns:
        What is wrong, and how many figures were compared.
    """
    findings, compared = [], 0
    headings: list[str] = []
    for heading, cells in table.rows:
        nth = headings.count(heading)
        headings.append(heading)
        for size, cell in zip(sizes, cells, strict=True):
            yarn, _, what = heading.partition(", ")
            try:
                insist(yarn in found[size], f"no yarn {yarn} is known")
                expected = _figure(found[size][yarn], what, nth)
                insist(cell == expected, f"the stitches make {expected}, not {cell}")
                compared += 1
            except Contradiction as error:
                findings.append(Finding("table of yarn", size, 0, f"{heading}: {cell}", str(error)))
    return findings, compared


def _figure(need: Need, what: str, nth: int) -> str:
    """Give the figure that a row of a yarn tells; `nth` counts rows before it of the same heading."""
    unknown, fact, ready = "not known", need.fact, need.ready
    match what.removesuffix(", roughly"):
        case "to have ready, g":
            return unknown if ready is None else str(ready)
        case "the same in m":
            if ready is None or fact.per_100g is None:
                return unknown
            return str(_up(ready * fact.per_100g / 100, METRES))
        case "knitted, by the swatch's weight, g":
            return str(_up(need.by_weight[1], STEP)) if need.by_weight is not None and fact.is_weighed else unknown
        case "knitted, by the loop, g":
            return unknown if need.by_loop is None else str(_up(need.by_loop[1], STEP))
        case "the garment takes, g":
            if need.takes is None:
                return unknown
            low, high = floor(need.takes[0] / STEP) * STEP, _up(need.takes[2], STEP)
            return str(high) if low == high else f"{low} to {high}"
    insist(ready is not None, "no such figure is known")
    return _bought(fact, what, ready or 0, nth)


def _bought(fact: YarnFact, what: str, ready: int, nth: int) -> str:
    """Give the figure that a row of buying tells: put-ups in all, those to buy, or what all cost."""
    to_buy = _up(max(Fraction(0), ready - fact.on_hand), STEP)
    for put_up in fact.put_ups:
        if what == put_up.words:
            return str(ceil(ready / put_up.weight))
        if what == f"{put_up.words} to buy":
            return str(ceil(to_buy / put_up.weight))
    priced = [one for one in fact.put_ups if one.price is not None and what == f"cost of all in {one.currency}"]
    insist(nth < len(priced), "no such figure is known")
    return _money(priced[nth], ready)


def _money(put_up: PutUpFact, ready: int) -> str:
    hundredths = floor(ceil(ready / put_up.weight) * (put_up.price or 0) * 100 + Fraction(1, 2))
    return f"{hundredths // 100}.{hundredths % 100:02d}"
