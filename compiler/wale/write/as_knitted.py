"""Pieces that were test-knitted: their weight takes the place of the estimate.

In the size that was knitted a piece takes what it weighed, right to half a gram, ends and tails included; in other
sizes its estimate is corrected by the same share. A piece of which neither way knows the weight takes as much a
centimetre of yarn as the knitted one did.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from wale.plan import Plan
from wale.quantity import show_decimal
from wale.spec import Knitted, Spec
from wale.write.finishing import finish_grams, finishing
from wale.write.stitch_counts import place_counts
from wale.write.yarn_used import SCALE_G, ZERO, Correct, Rates, Spread, Use


class Correction(Struct, frozen=True):
    """Weighed / estimated of a place, by each way; where no way knows it, grams for each cm of yarn."""

    by_weight: Spread | None
    by_loop: Spread | None
    per_cm: Spread | None = None

    def of(self, use: Use, length: Fraction) -> Use:
        """Correct the use of so many cm of a yarn."""
        if self.per_cm is not None:
            grams = self.per_cm.times(length)
            return Use(grams, grams)
        return Use(_scaled(use.by_weight, self.by_weight), _scaled(use.by_loop, self.by_loop))


def _scaled(spread: Spread | None, by: Spread | None) -> Spread | None:
    return by.times(spread.middle) if spread is not None and by is not None else None


def test_knits(spec: Spec) -> dict[str, tuple[Knitted, ...]]:
    """Give the test knits of each piece and band."""
    return {piece.name: piece.knitted for piece in spec.pieces} | {band.name: band.knitted for band in spec.bands}


def knitted_of(spec: Spec, name: str) -> tuple[Knitted, ...]:
    """Give the test knits of a piece or band."""
    return test_knits(spec).get(name, ())


def nearest_knitted(spec: Spec, plan: Plan, name: str, size: int) -> Knitted | None:
    """Give the test knit of a piece or band in a size, else that of the nearest size, else None."""
    return min(knitted_of(spec, name), key=lambda one: abs(plan.sizes.index(one.size) - size), default=None)


def told(spec: Spec) -> str:
    """Say which pieces and bands were test-knitted, and that this stands for their estimate; "" where none was."""
    lines = [
        f"{name} {show_decimal(one.grams, 1).removesuffix('.0')} g in {one.size}"
        for name, knits in test_knits(spec).items()
        for one in knits
    ]
    if not lines:
        return ""
    return (
        f"As knitted, in place of the estimate: {', '.join(lines)} (one copy, ends included). In other sizes the "
        "estimate of those pieces is corrected by the same share."
    )


def correction(weighed: Fraction, ends: Fraction, knitted: Use, length: Fraction) -> Correction:
    """Give the correction from one test knit.

    Args:
        weighed: g of one copy.
        ends: g of its cast-on, bind-off and hem, as estimated: at most half of it.
        knitted: its estimate, all yarns together; `length` cm of yarn in it, all yarns together.
    """
    middle = max(weighed - ends, weighed / 2)
    error = min(SCALE_G, middle)
    grams = Spread(middle - error, middle, middle + error)
    by_weight, by_loop = (
        grams.times(1 / way.middle) if way is not None and way.middle else None
        for way in (knitted.by_weight, knitted.by_loop)
    )
    if by_weight is None and by_loop is None and length:
        return Correction(None, None, grams.times(1 / length))
    return Correction(by_weight, by_loop)


def without_test_knits(spec: Spec) -> Spec:
    """Give the spec with every piece as estimated, for comparisons of garments that were not knitted."""
    if not any(one.knitted for one in spec.pieces) and not any(one.knitted for one in spec.bands):
        return spec
    pieces = tuple(replace(piece, knitted=()) for piece in spec.pieces)
    return replace(spec, pieces=pieces, bands=tuple(replace(band, knitted=()) for band in spec.bands))


def place_names(plan: Plan) -> tuple[str, ...]:
    """Give the names of the pieces, then of the bands: the places of `Rates`, in their order."""
    return (*(piece.name for piece in plan.pieces), *(band.name for band in plan.bands))


def correction_of(spec: Spec, plan: Plan, number: int, size: int, rates: Rates) -> Correct | None:
    """Give what a test knit corrects in the estimate of place `number` (pieces, then bands), None where there is none.

    Args:
        rates: those of the size.
    """
    knitted = nearest_knitted(spec, plan, place_names(plan)[number], size)
    if knitted is None:
        return None
    return test_knit(spec, plan, number, knitted, rates if plan.sizes[size] == knitted.size else None)[1]


def test_knit(spec: Spec, plan: Plan, number: int, knitted: Knitted, rates: Rates | None = None) -> tuple[Use, Correct]:
    """Give the estimate of one copy of a place in the size of its test knit, ends included, and what that corrects."""
    at = plan.sizes.index(knitted.size)
    rates = rates or Rates(spec, plan, at)
    name = place_names(plan)[number]
    ends = finish_grams(spec, [end for end in finishing(spec, plan, at) if end.piece == name])
    rest = sum(ends.values(), ZERO)
    whole, length = rates.whole(rates.places[number])
    estimate = whole + Use(Spread(rest, rest, rest), Spread(rest, rest, rest))
    return estimate, correction(knitted.grams, rest, whole, length).of


def hours_of(spec: Spec, plan: Plan, number: int, size: int) -> Fraction | None:
    """Give the hours of one copy of a place: of its nearest timed test knit, by the stitches; None where none is."""
    timed = [one for one in knitted_of(spec, place_names(plan)[number]) if one.hours is not None]
    near = min(timed, key=lambda one: abs(plan.sizes.index(one.size) - size), default=None)
    if near is None or near.hours is None:
        return None
    here, there = (sum(place_counts(spec, plan, at)[number].values()) for at in (size, plan.sizes.index(near.size)))
    return near.hours * here / there
