"""Whom a finished garment fits: finished girth less the ease that the file asks for, and the size nearest to it."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.plan import Plan
from wale.sizes import group
from wale.spec import Spec
from wale.write.measurements import ring_of, side_seamed


class Fitted(Struct, frozen=True):
    """One size: its finished girth, the ease, the body that it fits by that, and the size whose body is nearest.

    Attributes:
        size: as the file names it.
        measure: the body measure told of.
        nearest: name of a size of the published table, or of the file where it has its own; `nearest_cm` its body.
    """

    size: str
    measure: str
    girth_cm: Fraction
    ease_cm: Fraction
    nearest: str
    nearest_cm: Fraction

    @property
    def body_cm(self) -> Fraction:
        """The body that it fits with the file's ease."""
        return self.girth_cm - self.ease_cm


def fitted(spec: Spec, plan: Plan) -> tuple[Fitted, ...]:
    """Give whom each size fits at the bust, else at the first girth with a measure and an ease; () where there is none.

    Equally near sizes: the smaller one.
    """
    bodies = side_seamed(spec, plan)
    around = [
        (piece, level)
        for piece in plan.pieces
        if piece.in_round or piece in bodies or piece.make > 1
        for level in piece.levels
        if all(level.label in size.measures and level.label in size.ease for size in spec.sizes)
    ]
    if not around:
        return ()
    piece, level = next((one for one in around if one[1].label == "bust"), around[0])
    measure = level.label
    known = _bodies(spec, measure)
    found = []
    for index, size in enumerate(spec.sizes):
        girth = ring_of(spec, plan, piece, level, index)
        ease = size.ease[measure]
        name, body = min(known, key=lambda one: (abs(one[1] - (girth - ease)), one[1]))
        found.append(Fitted(size.name, measure, girth, ease, name, body))
    return tuple(found)


def _bodies(spec: Spec, measure: str) -> list[tuple[str, Fraction]]:
    """Give the bodies to choose from: of the published table where it has the measure, else of the file."""
    own = [(size.name, size.measures[measure].value) for size in spec.sizes]
    if not spec.group:
        return own
    table = [
        (size.name, size.measures[measure].value_cm) for size in group(spec.group).bodies if measure in size.measures
    ]
    return table or own
