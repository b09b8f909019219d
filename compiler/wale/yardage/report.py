"""Everything that `wale yarn` tells, as data; the page and the JSON say the same."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.plan import Plan
from wale.problems.problem import Problem
from wale.spec import Knitted, Spec
from wale.write.as_knitted import test_knits
from wale.write.yarn_needed import Place, YarnNeed, places, yarn_of_size
from wale.write.yarn_used import Rates, Spread
from wale.yardage.savings import Saving, savings
from wale.yardage.walk import Event, RunOut, events, run_outs
from wale.yardage.weighed import Weighed, Weighing, read_left, weigh


class Winding(Struct, frozen=True):
    """A yarn that is held several times, and put-ups that do not go round: what to wind off for each strand."""

    yarn: str
    strands: int
    put_ups: int
    grams: Fraction
    metres: Fraction | None


class SizeYarn(Struct, frozen=True):
    """The yarn of one size.

    Attributes:
        needs: a need for each yarn that is bought.
        places: yarn of each piece and band.
        work: what the work is made of, in its order.
        runs_out: yarns of which the stock is known, the first to run out first.
    """

    size: str
    needs: tuple[YarnNeed, ...]
    places: tuple[Place, ...]
    work: tuple[Event, ...]
    runs_out: tuple[RunOut, ...]
    windings: tuple[Winding, ...]
    weighed: tuple[Weighed, ...]

    def left_over(self, need: YarnNeed) -> Spread | None:
        """Give the grams that are left when the garment and its swatches are done and the purchase was made."""
        if need.used is None or need.to_buy is None:
            return None
        stock = self.stock(need) - need.swatches
        return Spread(stock - need.used.high, stock - need.used.middle, stock - need.used.low)

    def stock(self, need: YarnNeed) -> Fraction:
        """Give the grams on hand and bought: put-ups where they are known, else what is missing."""
        bought = need.cheapest[0].grams if need.cheapest else Fraction(need.to_buy or 0)
        return self.on_hand(need) + bought

    def on_hand(self, need: YarnNeed) -> Fraction:
        """Give the grams on hand."""
        return next((one.on_hand for one in self.runs_out if one.yarn == need.yarn), Fraction(0))


class YarnReport(Struct, frozen=True):
    """The yarn of the sizes asked for; `test_knits` by piece or band."""

    title: str
    sizes: tuple[SizeYarn, ...]
    savings: tuple[Saving, ...]
    test_knits: Mapping[str, tuple[Knitted, ...]]


def yarn_report(
    spec: Spec, plan: Plan, sizes: Sequence[int], left: Sequence[str] = ()
) -> tuple[YarnReport | None, list[Problem]]:
    """Reckon the yarn of some sizes.

    Args:
        sizes: indexes, one at least.
        left: what was weighed, as it was typed; for one size only.

    Returns:
        The report, None where a weighing is wrong; problems of the weighings.
    """
    told = []
    problems: list[Problem] = []
    for size in sizes:
        rates = Rates(spec, plan, size)
        work = events(spec, plan, size, rates)
        weighings = [read_left(text, spec, work) for text in left]
        problems += [one for one in weighings if isinstance(one, Problem)]
        needs = tuple(yarn_of_size(spec, plan, size))
        told.append(
            SizeYarn(
                plan.sizes[size],
                needs,
                places(spec, plan, size, rates),
                work,
                run_outs(work, {one.yarn: hand for one in needs if (hand := spec.yarns[one.yarn].on_hand) is not None}),
                tuple(one for need in needs if (one := winding(spec, need)) is not None),
                tuple(weigh(one, spec, work) for one in weighings if isinstance(one, Weighing)),
            )
        )
    if problems:
        return None, problems
    found = savings(spec, plan, sizes, [one.needs for one in told])
    return YarnReport(spec.title, tuple(told), found, test_knits(spec)), []


def strands_of(spec: Spec, name: str) -> int:
    """Give how many strands of a yarn are held together at most, alone or in a yarn made of others."""
    made = [one.held.count(name) * spec.yarns[name].strands for one in spec.yarns.values() if name in one.held]
    return max([spec.yarns[name].strands, *made])


def winding(spec: Spec, need: YarnNeed) -> Winding | None:
    """Say what to wind off where a yarn is held several times and its put-ups do not go round."""
    strands, yarn = strands_of(spec, need.yarn), spec.yarns[need.yarn]
    if strands < 2 or need.grams is None or not yarn.put_ups:
        return None
    whole, rest = divmod(yarn.on_hand or Fraction(0), yarn.put_ups[0].weight)
    stock = {yarn.put_ups[0].weight: int(whole)}
    for put_up, number in need.cheapest[0].items if need.cheapest else ():
        stock[put_up.weight] = stock.get(put_up.weight, 0) + number
    number = sum(stock.values()) + (1 if rest else 0)
    if number and not rest and all(each % strands == 0 for each in stock.values()):
        return None
    metres = yarn.metres_per_100g
    each = Fraction(need.grams, strands)
    return Winding(need.yarn, strands, number, each, each * metres / 100 if metres else None)
