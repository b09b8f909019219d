"""Yarn needed, per yarn and size, by two ways that do not know of each other.

By weight: the weighed swatch's grams a stitch times the stitches really knitted. By loop: the yarn in a stitch from
its area, and carried strands (see `yarn_lengths`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from wale.checks.used import yarns_of
from wale.pattern import Paragraph, Part, Table
from wale.plan import Plan
from wale.quantity import show_decimal
from wale.shaping.amounts import MARGIN, pom_pom_grams
from wale.spec import PomPom, PutUp, Spec
from wale.write import yarn_lengths
from wale.write.stitch_counts import stitch_counts
from wale.write.yarn_lengths import Lengths

TAILS = Fraction(3, 100)
"""Share for cast-on, bind-off, seams and tails; common practice, no source."""
STEP = 5


@dataclass(frozen=True, slots=True)
class PutUpNeed:
    """Whole put-ups of one kind: all that are needed, those still to buy, and the cost of each."""

    put_up: PutUp
    needed: int
    to_buy: int
    cost: Fraction | None
    cost_to_buy: Fraction | None


@dataclass(frozen=True, slots=True)
class YarnNeed:
    """One yarn in one size.

    Attributes:
        by_weight: grams knitted, from weighed swatches (fabrics not weighed: by loop); None where none was weighed.
        by_loop: grams knitted, from the loop; None where the yarn's length is not known.
        pom_pom: grams of pom-poms.
        grams: to have ready: the larger way, tails, pom-poms and margin, rounded up to 5 g; None: not known.
        metres: of those grams, one strand, rounded up to 10 m.
        to_buy: grams less what is on hand.
    """

    yarn: str
    size: str
    by_weight: Fraction | None
    by_loop: Fraction | None
    pom_pom: Fraction
    grams: int | None
    metres: int | None
    to_buy: int | None
    put_ups: tuple[PutUpNeed, ...]


@dataclass(frozen=True, slots=True)
class YarnNeeded:
    """Each yarn's needs in size order, in the order of first use."""

    yarns: tuple[tuple[YarnNeed, ...], ...]

    def of(self, yarn: str) -> tuple[YarnNeed, ...]:
        """Give a yarn's needs, one a size; empty where it is not used."""
        return next((needs for needs in self.yarns if needs[0].yarn == yarn), ())


def yarn_needed(spec: Spec, plan: Plan) -> YarnNeeded:
    """Reckon the yarn of a garment in all sizes."""
    names = [yarn.name for yarn in yarns_of(spec)]
    sizes = [_size(spec, plan, size, names) for size in range(len(plan.sizes))]
    return YarnNeeded(tuple(zip(*sizes, strict=True)) if names else ())


def _size(spec: Spec, plan: Plan, size: int, names: Sequence[str]) -> list[YarnNeed]:
    counts = stitch_counts(spec, plan, size)
    lengths = yarn_lengths.lengths(spec, counts)
    stitches: dict[str, int] = {}
    for patch, number in counts.items():
        stitches[patch.swatch] = stitches.get(patch.swatch, 0) + number
    weighed = yarn_lengths.weighed(spec, stitches, lengths)
    return [_need(spec, plan, size, yarn, lengths, weighed) for yarn in names]


def _need(spec: Spec, plan: Plan, size: int, name: str, lengths: Lengths, weighed: Lengths) -> YarnNeed:
    yarn = spec.yarns[name]
    mine = {key: yarn_lengths.grams_of(spec, name, length) for key, length in lengths.items() if key[1] == name}
    by_loop = _sum(list(mine.values()))
    by_weight = _sum([weighed.get(key, grams) for key, grams in mine.items()])
    if mine and not any(key in weighed for key in mine):
        by_weight = None
    pom_pom = _pom_poms(plan, name, size)
    known = [way for way in (by_weight, by_loop) if way is not None]
    if not known:
        return YarnNeed(name, plan.sizes[size], None, None, pom_pom, None, None, None, ())
    grams = round_up((max(known) * (1 + TAILS) + pom_pom) * (1 + MARGIN), STEP)
    metres = round_up(grams * yarn.metres_per_100g / 100, 10) if yarn.metres_per_100g else None
    to_buy = round_up(max(Fraction(0), grams - (yarn.on_hand or Fraction(0))), STEP)
    put_ups = tuple(_put_up(put_up, grams, to_buy) for put_up in yarn.put_ups)
    return YarnNeed(name, plan.sizes[size], by_weight, by_loop, pom_pom, grams, metres, to_buy, put_ups)


def _sum(parts: Sequence[Fraction | None]) -> Fraction | None:
    known = [part for part in parts if part is not None]
    return sum(known, Fraction(0)) if len(known) == len(parts) else None


def _pom_poms(plan: Plan, yarn: str, size: int) -> Fraction:
    return sum(
        (
            pom_pom_grams(step.action.diameter.at(size)) * piece.make
            for piece in plan.pieces
            for step in piece.steps
            if isinstance(step.action, PomPom) and step.action.yarn == yarn
        ),
        Fraction(0),
    )


def _put_up(put_up: PutUp, grams: int, to_buy: int) -> PutUpNeed:
    needed, buying = ceil(grams / put_up.weight), ceil(to_buy / put_up.weight)
    price = put_up.price
    costs = (None, None) if price is None else (needed * price, buying * price)
    return PutUpNeed(put_up, needed, buying, *costs)


def round_up(value: Fraction, step: int) -> int:
    """Give the least multiple of `step` that is not below `value`."""
    return ceil(value / step) * step


def yarn_parts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Give the table of yarn needed for the printed sizes, and how it was reckoned."""
    rows: list[tuple[str, ...]] = []
    for needs in yarn_needed(spec, plan).yarns:
        mine = [needs[size] for size in sizes]
        rows += _rows(mine)
    if not rows:
        return ()
    header = ("", *(plan.sizes[size] for size in sizes))
    words = (
        f"To have ready: the larger of the two ways, {show_decimal(TAILS * 100, 0)} % for cast-on, bind-off, seams and "
        f"tails, and {show_decimal(MARGIN * 100, 0)} % of margin (common practice), rounded up to {STEP} g. By the "
        "loop: yarn in a stitch from its area, as in relaxed plain knitting, and carried strands. "
        "Fabrics whose swatch was not weighed are reckoned by the loop in both ways."
    )
    if any(isinstance(step.action, PomPom) for piece in plan.pieces for step in piece.steps):
        words += " A pom-pom takes the cube of its diameter in cm, divided by 30, in g (a rule of thumb)."
    return (Table("Yarn needed", header, tuple(rows)), Paragraph(words))


def _rows(needs: Sequence[YarnNeed]) -> list[tuple[str, ...]]:
    name = needs[0].yarn
    rows = [(f"{name}, to have ready, g", *(_figure(need.grams) for need in needs))]
    if needs[0].metres is not None:
        rows.append((f"{name}, the same in m", *(_figure(need.metres) for need in needs)))
    for way, words in (("by_weight", "by the swatch's weight"), ("by_loop", "by the loop")):
        grams = [getattr(need, way) for need in needs]
        if any(one is not None for one in grams):
            cells = (_figure(None if one is None else round_up(one, STEP)) for one in grams)
            rows.append((f"{name}, knitted, {words}, g", *cells))
    for number, first in enumerate(needs[0].put_ups):
        put_ups = [need.put_ups[number] for need in needs]
        kind = f"{first.put_up.kind}s of {show_decimal(first.put_up.weight, 0)} g"
        rows.append((f"{name}, {kind}", *(str(one.needed) for one in put_ups)))
        rows += _buying(name, kind, put_ups)
    return rows


def _buying(name: str, kind: str, put_ups: Sequence[PutUpNeed]) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    if any(one.to_buy != one.needed for one in put_ups):
        rows.append((f"{name}, {kind} to buy", *(str(one.to_buy) for one in put_ups)))
    if put_ups[0].cost is not None:
        currency = put_ups[0].put_up.currency
        rows.append((f"{name}, cost of all in {currency}", *(_money(one.cost) for one in put_ups)))
    return rows


def _figure(value: int | None) -> str:
    return "not known" if value is None else str(value)


def _money(value: Fraction | None) -> str:
    return "" if value is None else show_decimal(value, 2)
