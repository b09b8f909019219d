"""What a change would save, found by planning the changed garment anew."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from wale.actions import Fabric, Fit, Hem, PomPom, Rib, Step, Work
from wale.draft.planner import plan as plan_spec
from wale.materials import Swatch
from wale.measure import Combine, Constant, Measure
from wale.plan import Plan
from wale.spec import Piece, SetIn, Spec
from wale.write.as_knitted import without_test_knits
from wale.write.yarn_needed import YarnNeed, yarn_of_size
from wale.write.yarn_used import ZERO

SHORTER_CM = 2


class Saving(Struct, frozen=True):
    """Grams that a change saves, by yarn (less than 0: takes more); None for a size without such a change."""

    change: str
    grams: tuple[dict[str, Fraction] | None, ...]

    def total(self, size: int) -> Fraction:
        """Grams saved of all yarns in one of the sizes told."""
        return sum((self.grams[size] or {}).values(), ZERO)


def savings(spec: Spec, plan: Plan, sizes: Sequence[int], needs: Sequence[Sequence[YarnNeed]]) -> tuple[Saving, ...]:
    """Give the changes that can be reckoned and what they save, the greatest saving first.

    Args:
        sizes: indexes of the sizes to tell.
        needs: the needs of the garment as it is, for each of those.
    """
    estimated = without_test_knits(spec)
    if estimated is not spec:
        spec, needs = estimated, [yarn_of_size(estimated, plan, size) for size in sizes]
    found = [_smaller(spec, plan, sizes, needs)] if len(plan.sizes) > 1 else []
    for change, changed in changes(spec):
        made, problems = plan_spec(changed)
        if made is None or any(one.is_error for one in problems):
            continue
        found.append(Saving(change, tuple(_saved(changed, made, size, needs[i]) for i, size in enumerate(sizes))))
    return tuple(sorted(found, key=lambda one: -max(one.total(size) for size in range(len(sizes)))))


def _saved(spec: Spec, plan: Plan, size: int, needs: Sequence[YarnNeed]) -> dict[str, Fraction]:
    after = {need.yarn: need for need in yarn_of_size(spec, plan, size)}
    found = {}
    for need in needs:
        other = after.get(need.yarn)
        if need.used is not None and (other is None or other.used is not None):
            found[need.yarn] = need.used.middle - (other.used.middle if other and other.used else ZERO)
    return found


def _smaller(spec: Spec, plan: Plan, sizes: Sequence[int], needs: Sequence[Sequence[YarnNeed]]) -> Saving:
    made = [one.made_to_measure for one in spec.sizes]
    return Saving(
        "one size smaller",
        tuple(
            _saved(spec, plan, size - 1, needs[i]) if size and not made[size] else None for i, size in enumerate(sizes)
        ),
    )


def changes(spec: Spec) -> list[tuple[str, Spec]]:
    """Give the changed specs that make sense for a garment, each with its words."""
    sleeves = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    groups = [("the sleeves", sleeves), ("the body", {piece.name for piece in spec.pieces} - sleeves)]
    if not sleeves:
        groups = [(f"the {piece.name}", {piece.name}) for piece in spec.pieces]
        if len({piece.make for piece in spec.pieces}) == 1 and spec.joins:
            groups = [("all pieces", {piece.name for piece in spec.pieces})]
    found = []
    for words, names in groups:
        found.append((f"{words} {SHORTER_CM} cm shorter", _with(spec, names, _shorter)))
    found.append(("sleeves in one colour", _with(spec, sleeves, lambda step: _plain(spec, sleeves, step))))
    whole = {piece.name for piece in spec.pieces}
    found.append(("ribs instead of folded hems", _with(spec, whole, _rib)))
    found.append(("no pom-pom", _with(spec, whole, lambda step: None if isinstance(step.action, PomPom) else step)))
    return [(words, changed) for words, changed in found if changed.pieces != spec.pieces]


def _with(spec: Spec, names: set[str], change: Callable[[Step], Step | None]) -> Spec:
    def changed(piece: Piece) -> Piece:
        if piece.name not in names:
            return piece
        steps = tuple(step for old in piece.steps if (step := change(old)) is not None)
        return replace(piece, steps=steps)

    return replace(spec, pieces=tuple(changed(piece) for piece in spec.pieces))


def _shorter(step: Step) -> Step:
    action = step.action
    if not isinstance(action, Work) or not action.to or action.length.dimension != "length":
        return step
    return replace(step, action=replace(action, length=_less(action.length)))


def _less(measure: Measure) -> Measure:
    term = measure.term
    if isinstance(term, Constant):
        values = tuple(value - SHORTER_CM for value in term.values)
        return replace(measure, term=Constant(values)) if min(values) > 0 else measure
    return replace(measure, term=Combine("-", term, _everywhere(measure)))


def _everywhere(measure: Measure) -> Constant:
    """Give the constant that is taken away, one a size, as many as the measure's other constants have."""
    sizes = _sizes(measure.term)
    return Constant((Fraction(SHORTER_CM),) * sizes)


def _sizes(term: object) -> int:
    if isinstance(term, Constant):
        return len(term.values)
    if isinstance(term, Combine):
        return max(_sizes(term.left), _sizes(term.right))
    return 0


def _plain(spec: Spec, sleeves: set[str], step: Step) -> Step:
    action = step.action
    if not isinstance(action, Fabric) or action.motif is None:
        return step
    piece = next(one for one in spec.pieces if one.name in sleeves and step in one.steps)
    swatch = _plain_swatch(spec, piece, spec.swatches[action.swatch])
    if swatch is None:
        return step
    return replace(step, action=Fabric(swatch.name, None, Fit("plain", action.span), action.span))


def _plain_swatch(spec: Spec, piece: Piece, motif: Swatch) -> Swatch | None:
    """Give the plain swatch of the motif's main yarn, worked like the piece, whose needle is nearest."""
    plain = [
        one
        for one in spec.swatches.values()
        if one.stitch == "stockinette" and one.in_round == piece.in_round and one.yarns[0] == motif.yarns[0]
    ]
    return min(plain, key=lambda one: abs(one.needle_mm - motif.needle_mm), default=None)


def _rib(step: Step) -> Step:
    action = step.action
    if not isinstance(action, Hem):
        return step
    return replace(step, action=Rib(action.depth, 2, 2, None, action.span))
