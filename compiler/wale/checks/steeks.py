"""W621: a steek in yarn that may not hold when it is cut.

What: pieces with a steek that have a yarn of plant, silk or man-made fibre, of wool treated against felting, or of
fibre that is not given.
Why: what holds cut stitches is that wool clings to itself and felts; smooth yarn runs out of the cut.
Source: https://kddandco.com/2012/04/29/steeks-2-reinforcing-and-cutting/ for wool that clings; which other fibres do
not is common practice, no source.
Example: cotton in a steek of 5. Instead: wool, or a steek of 9 that is sewn by machine, tried on a swatch.
"""

from __future__ import annotations

from wale.checks.care import fibre_kinds, is_superwash
from wale.materials import Yarn
from wale.plan import PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.spec import Spec

_SMOOTH = ("silk",)


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each piece that is cut open and has a yarn that does not cling."""
    return [found for piece in plan.pieces if piece.steek is not None for found in _check(spec, piece)]


def _check(spec: Spec, piece: PiecePlan) -> list[Problem]:
    used = dict.fromkeys(name for section in piece.sections for name in spec.swatches[section.swatch].yarns)
    parts = dict.fromkeys(part for name in used for part in spec.yarns[name].held or (name,))
    slippery = {name: why for name in parts if (why := _why(spec.yarns[name]))}
    if not slippery or piece.steek is None:
        return []
    labels = (
        Label(piece.steek.span, "cut through here"),
        *(Label(spec.yarns[name].span, why) for name, why in slippery.items()),
    )
    message = f"the steek of {piece.name} is cut in {' and '.join(slippery)}, and its stitches may run out of the cut"
    help = "Wool that felts holds best. Else sew the steek by machine, make it wider, and cut a swatch first."
    return [Problem("W621", message, labels, help=help)]


def _why(yarn: Yarn) -> str:
    """Say why a yarn may not hold, or "" where it clings."""
    kinds = fibre_kinds(yarn)
    if is_superwash(yarn):
        return "superwash wool does not felt"
    if not kinds:
        return "its fibre is not given"
    smooth = any(word in f"{yarn.fibre} {yarn.count}".casefold() for word in _SMOOTH)
    return "" if kinds == ("animal",) and not smooth else f"{yarn.fibre or yarn.count} does not cling to itself"
