"""Whole put-ups that cover a weight at the least cost."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from wale.materials import PutUp
from wale.quantity import show_decimal

MOST_OF_A_KIND = 2_000
"""A put-up so small that it takes more than this many of it is left out where there are larger ones."""
MOST_SUMS = 4_000


class Purchase(Struct, frozen=True):
    """Put-ups to buy, in the order in which they are offered; `cost` is None where no price is known."""

    items: tuple[tuple[PutUp, int], ...]
    grams: Fraction
    cost: Fraction | None
    currency: str

    @property
    def number(self) -> int:
        """How many put-ups."""
        return sum(number for _, number in self.items)

    @property
    def words(self) -> str:
        """Say it: "2 cones of 100 g and 1 ball of 50 g"."""
        return " and ".join(said(put_up, number) for put_up, number in self.items) or "nothing"


def said(put_up: PutUp, number: int) -> str:
    """Say a number of put-ups: "2 cones of 100 g"."""
    plural = "" if number == 1 else "s"
    return f"{number} {put_up.kind}{plural} of {show_decimal(put_up.weight, 1).removesuffix('.0')} g"


def purchases(put_ups: Sequence[PutUp], grams: int | Fraction) -> tuple[Purchase, ...]:
    """Give the cheapest purchase that weighs at least `grams`, one for each currency in which the yarn is offered.

    Of equal cost the one of fewest put-ups is taken, then the lighter one. Put-ups without a price count only where
    none has one; then the least weight is bought, in the fewest put-ups. Empty where nothing is offered.
    """
    currencies = dict.fromkeys(one.currency for one in put_ups if one.price is not None)
    groups = [[one for one in put_ups if one.price is not None and one.currency == each] for each in currencies]
    return tuple(_cheapest(group, Fraction(grams)) for group in groups or [list(put_ups)] if group)


Cost = tuple[Fraction, Fraction, Fraction]


def _cost(put_up: PutUp) -> Cost:
    if put_up.price is None:
        return put_up.weight, Fraction(1), Fraction(0)
    return put_up.price, Fraction(1), put_up.weight


def _cheapest(put_ups: Sequence[PutUp], grams: Fraction) -> Purchase:
    """Extend all sums below `grams` by each put-up in turn; of the same sum the cheapest is kept."""
    offered = [one for one in put_ups if grams <= one.weight * MOST_OF_A_KIND]
    if grams <= 0:
        return _purchase(put_ups, ())
    if not offered:
        best = min(put_ups, key=lambda one: _cost(one)[0] / one.weight)
        return _purchase([best], (ceil(grams / best.weight),))
    sums: dict[Fraction, tuple[Cost, tuple[int, ...]]] = {Fraction(0): ((Fraction(0),) * 3, ())}
    done: list[tuple[Cost, tuple[int, ...]]] = []
    for put_up in offered:
        longer: dict[Fraction, tuple[Cost, tuple[int, ...]]] = {}
        for weight, (cost, counts) in sums.items():
            enough = ceil((grams - weight) / put_up.weight)
            for number in range(enough + 1):
                whole = _more(cost, _cost(put_up), number), (*counts, number)
                if number == enough:
                    done.append(whole)
                    break
                key = _key(weight + number * put_up.weight, grams, len(sums))
                if key not in longer or whole[0] < longer[key][0]:
                    longer[key] = whole
        sums = longer
    _, counts = min(done)
    return _purchase(offered, counts)


def _more(cost: Cost, one: Cost, number: int) -> Cost:
    return cost[0] + one[0] * number, cost[1] + one[1] * number, cost[2] + one[2] * number


def _key(weight: Fraction, grams: Fraction, sums: int) -> Fraction:
    """Give the sum as it is kept: exact, or in steps where there are very many."""
    step = grams / MOST_SUMS
    return weight if sums < MOST_SUMS else weight // step * step


def _purchase(put_ups: Sequence[PutUp], counts: Iterable[int]) -> Purchase:
    items = tuple((put_up, number) for put_up, number in zip(put_ups, counts, strict=False) if number)
    priced = all(put_up.price is not None for put_up in put_ups)
    cost = sum((put_up.price * number for put_up, number in items if put_up.price is not None), Fraction(0))
    weight = sum((put_up.weight * number for put_up, number in items), Fraction(0))
    return Purchase(items, weight, cost if priced else None, put_ups[0].currency if priced else "")
