"""All swatches of a spec compared: which fabric is the garment's main one, and which others could take its place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from functools import partial

from msgspec import Struct

from wale.actions import CastOn, Fabric
from wale.checks.used import swatches_of
from wale.materials import Swatch
from wale.plan import Plan
from wale.spec import Spec
from wale.swatching.facts import Facts, facts
from wale.swatching.garment import Outcome, outcome
from wale.swatching.ranking import Place, rank
from wale.write.stitch_counts import stitch_counts

Work = Callable[[], Outcome]

BUSY = "plain, and at work in other parts of the garment"
"""Why a swatch has no need to be tried."""


class Comparison(Struct, frozen=True):
    """Everything compared.

    Attributes:
        sizes: names of the sizes told of.
        main: the swatch of the garment's main fabric, as the file has it.
        facts: one a swatch, in the order of the files.
        outcomes: one for each swatch that could be the main fabric, the file's own first.
        ranking: the same, best first.
        left_out: (swatch, why it cannot take the main fabric's place).
    """

    sizes: tuple[str, ...]
    main: Swatch
    facts: tuple[Facts, ...]
    outcomes: tuple[Outcome, ...]
    ranking: tuple[Place, ...]
    left_out: tuple[tuple[str, str], ...]


def compare(
    spec: Spec,
    plan: Plan | None,
    sizes: Sequence[int],
    asked: Sequence[str] = (),
    beside: Callable[[Work], Work] = lambda work: work,
) -> Comparison:
    """Compare the swatches of a spec and of the files it uses, also those that it does not work with.

    Args:
        plan: the plan of the spec as it stands; None where it is refused.
        sizes: indexes of the sizes to tell of, at least one.
        asked: swatches to try as the main fabric, none for all that could be; the main one is always there.
        beside: begins the work of planning in one swatch elsewhere, as `World.beside` does.
    """
    main = main_swatch(spec, plan)
    busy = {one.name for one in swatches_of(spec)} - {main.name}
    left_out = []
    others = []
    for swatch in spec.swatches.values():
        why = why_not(spec, main, swatch)
        if not why and swatch != main:
            why = _why_not_now(main, swatch, busy, asked)
        if why:
            left_out.append((swatch.name, why))
        elif swatch != main:
            others.append(swatch)
    begun = [beside(partial(outcome, spec, main, swatch, sizes)) for swatch in others]
    outcomes = (outcome(spec, main, main, sizes, plan), *(result() for result in begun))
    return Comparison(
        tuple(spec.size_names[size] for size in sizes),
        main,
        tuple(facts(spec, swatch) for swatch in spec.swatches.values()),
        outcomes,
        rank(outcomes),
        tuple(left_out),
    )


def main_swatch(spec: Spec, plan: Plan | None) -> Swatch:
    """Give the swatch that a `work in` line names and most stitches are worked in; without one, that of the cast-on."""
    actions = [step.action for piece in spec.pieces for step in piece.steps]
    names = dict.fromkeys(action.swatch for action in actions if isinstance(action, Fabric))
    if not names:
        names = dict.fromkeys(action.swatch for action in actions if isinstance(action, CastOn))
    worked = dict.fromkeys(names, 0)
    if plan is not None and len(worked) > 1:
        for patch, number in stitch_counts(spec, plan, 0).items():
            if patch.swatch in worked:
                worked[patch.swatch] += number
    return spec.swatches[max(worked, key=lambda name: worked[name])]


def _why_not_now(main: Swatch, swatch: Swatch, busy: Collection[str], asked: Collection[str]) -> str:
    """Say why a swatch is not tried unless it is asked for, "" where it is."""
    if asked:
        return "" if swatch.name in asked else "not asked for"
    if main.motif is not None and swatch.motif is None and swatch.name in busy:
        return BUSY
    return ""


def why_not(spec: Spec, main: Swatch, swatch: Swatch) -> str:
    """Say why a swatch cannot take the main one's place, "" where it can."""
    if swatch.in_round != main.in_round:
        return "worked in the round" if swatch.in_round else "worked flat"
    if swatch.stitch not in ("stockinette", "motif", main.stitch):
        return f"in {swatch.stitch}, another kind of fabric"
    if swatch.motif is not None:
        if spec.motifs[swatch.motif].wedge:
            return "the chart of a crown"
        actions = (step.action for piece in spec.pieces for step in piece.steps)
        if not any(isinstance(action, Fabric) for action in actions):
            return "in a motif, and the file has no `work in` line that would place it"
    return ""
