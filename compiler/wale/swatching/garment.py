"""The garment planned anew in the fabric of another swatch, and what of it a knitter would compare.

Input: the spec and a swatch. Output: an `Outcome`; what cannot be planned is an outcome too, with its reason.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.actions import CastOn, Fabric, Fit, Step
from wale.checks.ring_shapes import BODY, HAND, HEAD, HIP
from wale.checks.rings import Ring, rings
from wale.draft.planner import plan as plan_spec
from wale.draft.repeats import matching_axes
from wale.materials import Swatch
from wale.plan import Level, PiecePlan, Plan
from wale.problems.problem import Problem
from wale.spec import Spec
from wale.swatching.facts import miscount
from wale.write.as_knitted import without_test_knits
from wale.write.measurements import ring_of
from wale.write.yarn_needed import YarnNeed, yarn_of_size
from wale.yardage.purchase import purchases

Part = Literal["shoulders", "head", "hand", "hip"]
PARTS: dict[Part, tuple[str, ...]] = {"shoulders": BODY, "head": HEAD, "hand": HAND, "hip": HIP}


class SizeOutcome(Struct, frozen=True):
    """The garment in one size.

    Attributes:
        stitches: of the piece at the lead level, edge stitches included.
        girth_cm: what that level closes to; `off_cm` its piece's width less the wish.
        worst_cm: the largest miss of a width or length worked in this fabric, without its sign.
        repeats: repeats of the motif across the piece's finished width; `around` round the girth; None: no motif.
        grams: of all yarns to have ready; None: not known.
        costs: (currency, sum) of whole put-ups; None where a price or weight is not known.
        tightest: by part of the body, the ring that decides.
        miscount_cm: girth that half a stitch of miscounting in the swatch leaves; None where nothing was counted.
    """

    size: str
    stitches: int
    girth_cm: Fraction
    off_cm: Fraction
    worst_cm: Fraction
    repeats: Fraction | None
    around: Fraction | None
    grams: int | None
    costs: tuple[tuple[str, Fraction], ...] | None
    tightest: dict[Part, Ring]
    miscount_cm: Fraction | None


class Outcome(Struct, frozen=True):
    """The garment in one swatch's fabric.

    Attributes:
        is_used: it is the swatch that the file names.
        refusals: why it cannot be planned, else empty.
        remarks: what had to be changed beside the swatch, in words.
        level: label of the lead level, "" where refused.
        motif_cm: width and height of one repeat on the body; None where plain.
        sizes: one a chosen size; empty where refused.
    """

    swatch: Swatch
    is_used: bool
    refusals: tuple[Problem, ...]
    remarks: tuple[str, ...]
    level: str = ""
    motif_cm: tuple[Fraction, Fraction] | None = None
    sizes: tuple[SizeOutcome, ...] = ()

    @property
    def compiles(self) -> bool:
        """Whether all sizes could be planned."""
        return not self.refusals


def with_fabric(spec: Spec, main: Swatch, other: Swatch) -> tuple[Spec, tuple[str, ...]]:
    """Give the spec with another swatch's fabric in place of the main one, and what else had to change."""
    remarks: dict[str, None] = {}

    def changed(step: Step) -> Step:
        action = step.action
        if isinstance(action, Fabric) and action.swatch == main.name:
            fit = _fit(spec, action.fit, other, remarks)
            return replace(step, action=replace(action, swatch=other.name, motif=other.motif, fit=fit))
        if isinstance(action, CastOn) and action.swatch == main.name and not _worked_in(spec):
            return replace(step, action=replace(action, swatch=other.name))
        return step

    if main == other:
        return spec, ()
    pieces = tuple(replace(piece, steps=tuple(changed(step) for step in piece.steps)) for piece in spec.pieces)
    return replace(spec, pieces=pieces), tuple(remarks)


def _worked_in(spec: Spec) -> bool:
    return any(isinstance(step.action, Fabric) for piece in spec.pieces for step in piece.steps)


def _fit(spec: Spec, fit: Fit, other: Swatch, remarks: dict[str, None]) -> Fit:
    if other.motif is None:
        return Fit("plain", fit.span)
    if fit.kind == "plain":
        remarks[f"{other.motif} is centred, as the file places no motif"] = None
        return Fit("centred", fit.span)
    if fit.axis is not None and not matching_axes(spec.motifs[other.motif], fit.axis):
        remarks[f"{other.motif} has no mirror axis on the {fit.axis}, so it is placed without"] = None
        return replace(fit, axis=None)
    return fit


def outcome(spec: Spec, main: Swatch, other: Swatch, sizes: Sequence[int], known: Plan | None = None) -> Outcome:
    """Plan the garment in the fabric of `other`.

    Args:
        main: the swatch that the file names.
        sizes: indexes of the sizes to tell of; all of them are planned together.
        known: the plan of the spec as it stands, so that it need not be made again for `main`.
    """
    changed, remarks = with_fabric(without_test_knits(spec), main, other)
    found: Plan | None = known if other == main else None
    problems: list[Problem] = []
    if found is None:
        found, problems = plan_spec(changed)
    refusals = tuple(one for one in problems if one.is_error)
    if found is None or refusals:
        return Outcome(other, other == main, refusals, remarks)
    piece, level = lead_level(found, other)
    all_rings = rings(changed, found)
    told = tuple(
        _size(changed, found, (piece, level), other, size, yarn_of_size(changed, found, size), all_rings)
        for size in sizes
    )
    return Outcome(other, other == main, (), remarks, level.label, motif_size(spec, other), told)


def motif_size(spec: Spec, swatch: Swatch) -> tuple[Fraction, Fraction] | None:
    """Give width and height in cm of one repeat of a swatch's motif, None where it is plain."""
    if swatch.motif is None:
        return None
    motif = spec.motifs[swatch.motif]
    return motif.width / swatch.washed.stitches, len(motif.rows) / swatch.washed.rows


def lead_level(plan: Plan, swatch: Swatch) -> tuple[PiecePlan, Level]:
    """Give the level that stands for the garment's width: the bust, else the first piece's last in that fabric."""
    levels = [(piece, level) for piece in plan.pieces for level in piece.levels if level.swatch == swatch.name]
    levels = levels or [(piece, level) for piece in plan.pieces for level in piece.levels]
    first = [one for one in levels if one[0] is levels[0][0]]
    return next((one for one in levels if one[1].label == "bust"), first[-1])


def _size(
    spec: Spec,
    plan: Plan,
    lead: tuple[PiecePlan, Level],
    swatch: Swatch,
    size: int,
    needs: Sequence[YarnNeed],
    all_rings: Sequence[Ring],
) -> SizeOutcome:
    piece, level = lead
    girth = ring_of(spec, plan, piece, level, size)
    repeat = motif_size(spec, swatch)
    grams = [need.grams for need in needs]
    share = miscount(swatch.washed)
    return SizeOutcome(
        plan.sizes[size],
        level.counts[size],
        girth,
        level.deviation(size),
        _worst(plan, swatch, size),
        level.width(size) / repeat[0] if repeat else None,
        girth / repeat[0] if repeat else None,
        None if None in grams else sum(one for one in grams if one is not None),
        _costs(spec, needs),
        _tightest([ring for ring in all_rings if ring.size == plan.sizes[size]]),
        None if share is None else girth * share,
    )


def _worst(plan: Plan, swatch: Swatch, size: int) -> Fraction:
    """Give the largest miss where this fabric is worked; cuffs and hems in the same swatch don't count."""
    found = []
    for piece in plan.pieces:
        worked = [one for one in piece.sections if one.fabric is not None and one.fabric.swatch == swatch.name]
        for section in worked or [one for one in piece.sections if one.swatch == swatch.name]:
            found.append(section.deviation(size))
            found += [piece.levels[at].deviation(size) for at in (section.first, section.last)]
    return max((abs(one) for one in found), default=Fraction(0))


def _costs(spec: Spec, needs: Sequence[YarnNeed]) -> tuple[tuple[str, Fraction], ...] | None:
    """Give the least cost of whole put-ups for all yarns, each in the currency it is offered in first.

    Nothing is taken from what is on hand.
    """
    sums: dict[str, Fraction] = {}
    for need in needs:
        offers = purchases(spec.yarns[need.yarn].put_ups, need.grams) if need.grams is not None else ()
        if not offers or offers[0].cost is None:
            return None
        sums[offers[0].currency] = sums.get(offers[0].currency, Fraction(0)) + offers[0].cost
    return tuple(sums.items())


def _tightest(mine: Sequence[Ring]) -> dict[Part, Ring]:
    """Give for each part of the body the ring that decides: too tight, else not known, else the least to spare."""
    found: dict[Part, Ring] = {}
    for part, measures in PARTS.items():
        over = [ring for ring in mine if ring.part in measures]
        if over:
            found[part] = min(over, key=_slack)
    return found


def _slack(ring: Ring) -> tuple[int, Fraction]:
    spare = Fraction(0)
    if ring.pulled_cm is not None and ring.part_cm is not None:
        spare = ring.pulled_cm - ring.part_cm
    return ("too tight", "not known", "goes on").index(ring.verdict), spare
