"""Half pieces: half the width that was asked for the whole one, less half the opening.

Rows are those of the whole piece, for the steps are the same; stitches are tied to its stitches (`draft.widths`).
"""

from __future__ import annotations

from fractions import Fraction

from wale.actions import (
    BindOff,
    BindSides,
    CastOn,
    Fabric,
    Half,
    Hem,
    Mark,
    Neck,
    Note,
    PomPom,
    Rib,
    Shape,
    Shoulders,
    Tassel,
    Work,
)
from wale.measure import Combine, Constant, Measure, Operation, Term, calculate
from wale.problems.problem import Problem, problem
from wale.spec import Piece

HALVED = (CastOn, Hem, Rib, Fabric, Work, Shape, BindSides, Mark, Neck, Shoulders, BindOff, PomPom, Tassel, Note)
"""Actions that a half piece can have: what each changes at both sides or in the middle, a half changes on its own."""
CURVES = ("round", "square", "V", "scoop", "boat")
"""Necks that a half piece can have."""


def halved(measure: Measure, half: Half) -> Measure:
    """Give the width of a half: (whole - opening) / 2, or with a front band (whole + band) / 2."""
    two = Constant(tuple(Fraction(2) for _ in _values(half.opening.term)))
    term = _folded("/", _folded("-", measure.term, half.opening.term), two)
    sign = "-" if half.band is None else "+"
    words = f"({measure.words} {sign} {half.opening.words.removeprefix('-')})/2"
    inputs = tuple(dict.fromkeys((*measure.inputs, *half.opening.inputs)))
    return Measure(term, measure.dimension, measure.span, words, inputs, measure.names)


def _values(term: Term) -> tuple[Fraction, ...]:
    assert isinstance(term, Constant), "resolve lets no opening wait for a solved width"
    return term.values


def _folded(op: Operation, left: Term, right: Term) -> Term:
    if isinstance(left, Constant) and isinstance(right, Constant):
        return Constant(tuple(calculate(op, a, b) for a, b in zip(left.values, right.values, strict=True)))
    return Combine(op, left, right)


def half_refusals(piece: Piece) -> list[Problem]:
    """Say what a half piece cannot have."""
    half = piece.half
    if half is None:
        return []
    found = []
    actions = [step.action for step in piece.steps]
    for action in actions:
        width = action.width if isinstance(action, CastOn | Shape | Neck) else None
        if width is not None and width.is_count:
            message = f"the width of {half.whole} is written in stitches, and {piece.name} is half of it"
            help = f"Write a length for `{width.words}`: half of it, less the opening, gives the half its stitches."
            found.append(problem("E405", message, width.span, "a count", help=help))
        elif width is not None and isinstance(width.term, Constant) and _least(width, half) <= 0:
            what = "opening" if half.band is None else "band"
            message = f"the {what} of {piece.name} leaves nothing of the width {width.words}"
            found.append(problem("E517", message, half.opening.span, "too wide", help=f"Make the {what} narrower."))
        elif not isinstance(action, HALVED) or (isinstance(action, Neck) and action.curve not in CURVES):
            message = f"{piece.name} is half of {half.whole}, and this line is not built for half pieces yet"
            found.append(problem("E405", message, action.span, "here", help="Leave it out of the whole piece."))
        elif isinstance(action, Neck) and action.placket is not None:
            message = f"the halves of {half.whole} are open in front, and a placket opens a piece that is not"
            help = "Leave the placket out, or give it to a whole front."
            found.append(problem("E405", message, action.placket.span, "here", help=help))
        elif half.band is not None and (isinstance(action, Hem) or (isinstance(action, Rib) and action.purls)):
            what = "a folded hem" if isinstance(action, Hem) else "a corrugated rib"
            message = f"{what} beside the front band of {piece.name} is not built yet"
            help = "Write a `rib` or another edge in its place, or a band that is picked up."
            found.append(problem("E405", message, action.span, "here", help=help))
        elif isinstance(action, Fabric) and action.fit.seams == "unbroken":
            message = f"the motif of {piece.name} cannot run on over the side seams yet"
            found.append(problem("E405", message, action.fit.span, "here", help="Leave `seams unbroken` out."))
    return found


def _least(width: Measure, half: Half) -> Fraction:
    return min(a - abs(b) for a, b in zip(_values(width.term), _values(half.opening.term), strict=True))
