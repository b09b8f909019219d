"""What the proof holds the yarn against: grams of each sort of stitch, and what each yarn is reckoned with besides."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.plan import Plan
from wale.prove.facts import Grams, PutUpFact, Range, Rate, SizeYarn, Sort, YarnFact
from wale.quantity import show_decimal
from wale.shaping.amounts import MARGIN
from wale.spec import Spec
from wale.write.as_knitted import correction_of
from wale.write.stitch_counts import Patch
from wale.write.yarn_lengths import usual_metres
from wale.write.yarn_needed import YarnNeed, yarn_of_size
from wale.write.yarn_used import Rates, Spread, Uses

SizeStitches = dict[tuple[str, str], dict[Sort, int]]
"""Stitches by sort of each piece or band and size."""


def yarn_facts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[dict[str, SizeYarn], SizeStitches]:
    """Give by size what stitches take, and the stitches of each place that the yarn table rests on."""
    found: dict[str, SizeYarn] = {}
    stitches: SizeStitches = {}
    names = [*(piece.name for piece in plan.pieces), *(band.name for band in plan.bands)]
    for size in sizes:
        rates = Rates(spec, plan, size)
        for name, counts in zip(names, rates.places, strict=True):
            stitches[name, plan.sizes[size]] = {_sort(patch): number for patch, number in counts.items()}
        needs = yarn_of_size(spec, plan, size)
        found[plan.sizes[size]] = SizeYarn(
            tuple(_rates(spec, plan, size, rates, names)), tuple(_yarn(spec, need) for need in needs)
        )
    return found, stitches


def _sort(patch: Patch) -> Sort:
    return patch.swatch, patch.motif or "", patch.row, patch.yarn


def _rates(spec: Spec, plan: Plan, size: int, rates: Rates, names: Sequence[str]) -> list[Rate]:
    """Give the grams of one stitch of each sort; a piece that was test-knitted has its own."""
    found: list[Rate] = []
    shared: dict[Patch, list[str]] = {}
    for number, (name, counts) in enumerate(zip(names, rates.places, strict=True)):
        correct = correction_of(spec, plan, number, size, rates)
        for patch in counts:
            if correct is not None:
                found.append(Rate(_sort(patch), (name,), _grams(rates.of({patch: 1}, correct))))
            else:
                shared.setdefault(patch, []).append(name)
    found += [Rate(_sort(patch), tuple(pieces), _grams(rates.of({patch: 1}))) for patch, pieces in shared.items()]
    return found


def _grams(uses: Uses) -> tuple[Grams, ...]:
    return tuple(Grams(yarn, _range(use.by_weight), _range(use.by_loop)) for yarn, use in uses.items())


def _range(spread: Spread | None) -> Range | None:
    return None if spread is None else (spread.low, spread.middle, spread.high)


def _yarn(spec: Spec, need: YarnNeed) -> YarnFact:
    yarn = spec.yarns[need.yarn]
    usual = usual_metres(yarn)
    return YarnFact(
        need.yarn,
        need.is_weighed,
        need.finish + need.pom_pom,
        need.swatches,
        MARGIN,
        yarn.metres_per_100g or (usual[0] if usual is not None and not need.is_weighed else None),
        yarn.on_hand or Fraction(0),
        tuple(
            PutUpFact(f"{one.kind}s of {show_decimal(one.weight, 0)} g", one.weight, one.price, one.currency)
            for one in yarn.put_ups
        ),
    )
