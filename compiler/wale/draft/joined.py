"""The width that pieces were wished to leave to one that begins with their stitches, from the lines of their own."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import CastOn, Evenly, Fabric, Hold, Joining, Shape
from wale.draft.layout import Layout
from wale.measure import Combine, Constant, Measure, Term
from wale.spec import Piece, Spec


def arm_key(layout: Layout) -> str:
    """Key of the stitches that each sleeve brings to a piece that joins them."""
    return f"{layout.piece.name}.arm-stitches"


def joined_measure(spec: Spec, action: Joining) -> Measure:
    """Give the body and two sleeves, less an underarm at both sides of either."""
    pieces = {piece.name: piece for piece in spec.pieces}
    (body, body_arm), (sleeve, sleeve_arm) = (_ends(spec, pieces[name]) for name in (action.body, action.sleeve))
    term = Combine("+", body, Combine("+", sleeve, sleeve))
    for underarm in (body_arm, sleeve_arm):
        term = Combine("-", term, Combine("+", underarm, underarm))
    words = f"{action.body} + 2 {action.sleeve}s, less their underarms"
    return Measure(term, "length", action.span, words, (action.span,))


def gauge_of(spec: Spec, name: str) -> Fraction:
    """Give the stitches to a cm of the fabric in which a piece ends."""
    piece = next(piece for piece in spec.pieces if piece.name == name)
    swatches = [step.action.swatch for step in piece.steps if isinstance(step.action, CastOn | Joining | Fabric)]
    return spec.swatches[swatches[-1]].washed.stitches


def _ends(spec: Spec, piece: Piece) -> tuple[Term, Term]:
    """Give the width of a piece's last level, and of its underarm."""
    width: Measure | None = None
    underarm: Measure | None = None
    gauge = Fraction(1)
    for step in piece.steps:
        match step.action:
            case CastOn(width=asked, swatch=name):
                width, gauge = asked, spec.swatches[name].washed.stitches
            case Fabric(swatch=name):
                gauge = spec.swatches[name].washed.stitches
            case Shape(width=Measure() as asked) | Evenly(width=Measure() as asked):
                width = asked
            case Hold(underarm=asked):
                underarm = asked
    return _cm(spec, width, gauge), _cm(spec, underarm, gauge)


def _cm(spec: Spec, measure: Measure | None, gauge: Fraction) -> Term:
    columns = len(spec.sizes)
    if measure is None:
        return Constant((Fraction(0),) * columns)
    return Combine("/", measure.term, Constant((gauge,) * columns)) if measure.is_count else measure.term
