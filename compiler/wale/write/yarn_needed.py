"""Yarn needed, per yarn, size and piece, by two ways that do not know of each other (see `yarn_used`)."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from wale.actions import PomPom, Tassel
from wale.checks.used import swatches_of, yarns_of
from wale.materials import PutUp, Swatch, Yarn
from wale.plan import Plan
from wale.shaping.amounts import MARGIN, pom_pom_grams, tassel_grams
from wale.spec import Spec
from wale.write import yarn_lengths
from wale.write.as_knitted import correction_of, knitted_of, test_knits
from wale.write.finishing import Finish, finish_grams, finishing
from wale.write.stitch_counts import Patch
from wale.write.yarn_used import NONE, ZERO, Rates, Spread, Use, Uses, add, parts_of, shares
from wale.yardage.purchase import Purchase, purchases

TAILS = Fraction(3, 100)
"""Share for cast-on, bind-off, seams and tails where the yarn's length is not known; common practice, no source."""
SWATCH_CM = 15
"""Width and height of a swatch that was not weighed: what the pattern advises."""
STEP = 5
ROUGH = Fraction(20, 100)
"""Share of the grams from which a range by class alone is told to be rough; our choice."""


class PutUpNeed(Struct, frozen=True):
    """Whole put-ups of one kind: all that are needed, those still to buy, and the cost of each."""

    put_up: PutUp
    needed: int
    to_buy: int
    cost: Fraction | None
    cost_to_buy: Fraction | None


class YarnNeed(Struct, frozen=True):
    """One yarn, as it is bought, in one size.

    Attributes:
        knitted: grams by both ways, in all pieces.
        is_weighed: whether any fabric of it was weighed.
        finish: grams of cast-on, bind-off, seams and ends.
        pom_pom: grams of pom-poms and tassels.
        swatches: grams of the swatches, one of each fabric.
        grams: to have ready: the larger way, finish, pom-poms, a margin and swatches, up to 5 g; None: not known.
        metres: of those grams, one strand, rounded up to 10 m.
        to_buy: grams less what is on hand.
        put_ups: for each kind of put-up alone.
        cheapest: the cheapest put-ups together, for `to_buy`; one for each currency.
        is_rough: the grams rest on the lengths that are usual in the yarn's class, and their range is wide.
    """

    yarn: str
    size: str
    knitted: Use
    is_weighed: bool
    finish: Fraction
    pom_pom: Fraction
    swatches: Fraction
    grams: int | None
    metres: int | None
    to_buy: int | None
    put_ups: tuple[PutUpNeed, ...]
    cheapest: tuple[Purchase, ...]
    is_rough: bool = False

    @property
    def by_weight(self) -> Fraction | None:
        """Grams knitted, from weighed swatches (fabrics not weighed: by loop); None where none was weighed."""
        return self.knitted.by_weight.middle if self.is_weighed and self.knitted.by_weight else None

    @property
    def by_loop(self) -> Fraction | None:
        """Grams knitted, from the loop; None where the yarn's length is not known."""
        return self.knitted.by_loop.middle if self.knitted.by_loop else None

    @property
    def used(self) -> Spread | None:
        """Grams that the garment takes, swatches and margin apart, as a range; None: not known."""
        knitted, rest = self.knitted.spread, self.finish + self.pom_pom
        return knitted + Spread(rest, rest, rest) if knitted is not None else None


class YarnNeeded(Struct, frozen=True):
    """Each yarn's needs in size order, in the order of first use."""

    yarns: tuple[tuple[YarnNeed, ...], ...]

    def of(self, yarn: str) -> tuple[YarnNeed, ...]:
        """Give a yarn's needs, one a size; empty where it is not used."""
        return next((needs for needs in self.yarns if needs[0].yarn == yarn), ())


class Place(Struct, frozen=True):
    """The yarn of one piece or band, all its copies: grams knitted by yarn, and of cast-on, bind-off and hem."""

    name: str
    make: int
    knitted: Uses
    finish: dict[str, Fraction]


def bought_yarns(spec: Spec) -> tuple[str, ...]:
    """Give the yarns that are bought for a garment, in the order of first use."""
    return tuple(dict.fromkeys(part for yarn in yarns_of(spec) for part in parts_of(spec, yarn.name)))


def yarn_needed(spec: Spec, plan: Plan) -> YarnNeeded:
    """Reckon the yarn of a garment in all sizes."""
    sizes = [yarn_of_size(spec, plan, size) for size in range(len(plan.sizes))]
    return YarnNeeded(tuple(zip(*sizes, strict=True)) if sizes and sizes[0] else ())


def yarn_of_size(spec: Spec, plan: Plan, size: int) -> list[YarnNeed]:
    """Reckon the yarn of a garment in one size, a need for each yarn that is bought."""
    rates = Rates(spec, plan, size)
    ends = finishing(spec, plan, size)
    if any(test_knits(spec).values()):
        found = places(spec, plan, size, rates, ends)
        knitted = add(place.knitted for place in found)
        estimated = add(place.knitted for place in found if not knitted_of(spec, place.name))
    else:
        knitted = estimated = rates.of(rates.total)
    finish = finish_grams(spec, ends, plan)
    swatch = add(_swatch_uses(spec, rates, one) for one in swatches_of(spec))
    pom_poms = pom_pom_uses(spec, plan, size)
    return [
        _need(
            spec,
            plan.sizes[size],
            name,
            knitted.get(name, Use()),
            name in rates.is_weighed,
            finish.get(name, _tails(spec.yarns[name], estimated.get(name, Use()))),
            pom_poms.get(name, ZERO),
            _middle(swatch.get(name, Use())),
        )
        for name in bought_yarns(spec)
    ]


def places(spec: Spec, plan: Plan, size: int, rates: Rates, ends: Sequence[Finish] | None = None) -> tuple[Place, ...]:
    """Give the yarn of each piece and band in one size, in the order of work; `ends` where they are known already."""
    ends = finishing(spec, plan, size) if ends is None else ends
    found = []
    for number, piece in enumerate(plan.pieces):
        uses = rates.of(rates.places[number], correction_of(spec, plan, number, size, rates))
        mine = [end for end in ends if end.piece == piece.name]
        times = {name: use.times(piece.make) for name, use in uses.items()}
        found.append(Place(piece.name, piece.make, times, finish_grams(spec, mine, plan)))
    for number, band in enumerate(plan.bands, len(plan.pieces)):
        mine = [end for end in ends if end.piece == band.name]
        uses = rates.of(rates.places[number], correction_of(spec, plan, number, size, rates))
        times = {name: use.times(band.make) for name, use in uses.items()}
        found.append(Place(band.name, band.make, times, finish_grams(spec, mine, plan)))
    return tuple(found)


def pom_pom_uses(spec: Spec, plan: Plan, size: int) -> dict[str, Fraction]:
    """Give grams of pom-poms and tassels by yarn."""
    found: dict[str, Fraction] = {}
    for piece in plan.pieces:
        for step in piece.steps:
            if isinstance(step.action, PomPom | Tassel):
                grams = _trim_grams(step.action, size) * piece.make
                for part, share in (shares(spec, step.action.yarn) or {}).items():
                    found[part] = found.get(part, ZERO) + grams * share
    return found


def _trim_grams(action: PomPom | Tassel, size: int) -> Fraction:
    if isinstance(action, PomPom):
        return pom_pom_grams(action.diameter.at(size))
    return tassel_grams(action.length.at(size))


def _swatch_uses(spec: Spec, rates: Rates, swatch: Swatch) -> Uses:
    """Give the yarn of a swatch: of the stitches that were weighed, or of 15 cm square."""
    gauge = swatch.washed
    stitches = ceil(SWATCH_CM * gauge.stitches) * ceil(SWATCH_CM * gauge.rows)
    if swatch.weight is not None:
        stitches = swatch.weight[1] * swatch.weight[2]
    if swatch.motif is None or not spec.coloured(swatch.motif):
        return rates.of({Patch(swatch.name, None, 0, swatch.yarns[0]): stitches})
    rows = len(spec.motifs[swatch.motif].rows)
    uses = rates.of({Patch(swatch.name, swatch.motif, row, ""): stitches for row in range(rows)})
    return {name: use.times(Fraction(1, rows)) for name, use in uses.items()}


def _tails(yarn: Yarn, estimated: Use) -> Fraction:
    """Give cast-on, bind-off, seams and ends of a yarn of unknown length; test knits hold theirs."""
    return ZERO if yarn.metres_per_100g is not None else _middle(estimated) * TAILS


def _middle(use: Use) -> Fraction:
    return (use.spread or NONE).middle


def _need(
    spec: Spec,
    size: str,
    name: str,
    knitted: Use,
    is_weighed: bool,
    finish: Fraction,
    pom_pom: Fraction,
    swatches: Fraction,
) -> YarnNeed:
    yarn = spec.yarns[name]
    spread = knitted.spread
    if spread is None:
        return YarnNeed(name, size, knitted, is_weighed, finish, pom_pom, swatches, None, None, None, (), ())
    rest = finish + pom_pom
    whole = max((spread.middle + rest) * (1 + MARGIN), spread.high + rest) + swatches
    grams = round_up(whole, STEP)
    usual = yarn_lengths.usual_metres(yarn)
    per_100g = yarn.metres_per_100g or (usual[0] if usual is not None and not is_weighed else None)
    metres = round_up(grams * per_100g / 100, 10) if per_100g else None
    to_buy = round_up(max(ZERO, grams - (yarn.on_hand or ZERO)), STEP)
    put_ups = tuple(_put_up(put_up, grams, to_buy) for put_up in yarn.put_ups)
    cheapest = purchases(yarn.put_ups, to_buy)
    is_rough = usual is not None and spread.high - spread.low > ROUGH * spread.high
    return YarnNeed(
        name, size, knitted, is_weighed, finish, pom_pom, swatches, grams, metres, to_buy, put_ups, cheapest, is_rough
    )


def _put_up(put_up: PutUp, grams: int, to_buy: int) -> PutUpNeed:
    needed, buying = ceil(grams / put_up.weight), ceil(to_buy / put_up.weight)
    price = put_up.price
    costs = (None, None) if price is None else (needed * price, buying * price)
    return PutUpNeed(put_up, needed, buying, *costs)


def round_up(value: Fraction, step: int) -> int:
    """Give the least multiple of `step` that is not below `value`."""
    return ceil(value / step) * step
