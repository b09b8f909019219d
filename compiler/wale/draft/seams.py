"""Side seams: which edge stitches they take up, and a motif that runs on round the body.

Source of both rules: docs/language.md#how-a-motif-is-placed (whole rounds of repeats).
"""

from __future__ import annotations

from wale.actions import Fabric, Fit
from wale.problems.problem import Edit, Fix, Label, Problem
from wale.sewn import is_sewn, taken_in_front
from wale.spec import Piece, Seam, SetIn, Spec


def taken(spec: Spec, piece: Piece) -> int:
    """Give the edge stitches of both sides that lie outside the finished width.

    All of a steek do. Those of an `edge` line do: it says what a seam will take. The default edge does only where a
    `join` line sews it, and a border of garter never.
    """
    if piece.steek is not None:
        return piece.steek.stitches
    if piece.in_round or piece.edge.garter:
        return 0
    side = 0 if piece.edge.span is None and not is_sewn(spec.joins, piece) else piece.edge.stitches
    return 2 * side if piece.half is None else side + taken_in_front(spec, piece)


def runs_on_from(spec: Spec, piece: Piece) -> Piece | None:
    """Give the piece whose motif goes on over the side seam into this one (`seams unbroken`), or None.

    The first piece as written leads; the other follows it. A sleeve, whose sides meet each other, follows itself.
    """
    if not unbroken(piece):
        return None
    group = _sewn_together(spec, piece)
    return group[0] if group and (len(group) == 1 or piece is not group[0]) else None


def unbroken(piece: Piece) -> tuple[Fit, ...]:
    """Give how motifs are placed whose `work` line says `seams unbroken`."""
    actions = [step.action for step in piece.steps]
    fits = [action.fit for action in actions if isinstance(action, Fabric) and action.fit.seams == "unbroken"]
    return tuple(fits)


def _sewn_together(spec: Spec, piece: Piece) -> list[Piece]:
    """Give the flat pieces whose sides meet this one's, in the order of the file."""
    set_in = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    names: set[str] = set()
    for join in spec.joins:
        if isinstance(join, Seam):
            sides = {name for name, edge in join.edges if edge == "sides"}
            names |= sides if piece.name in sides else set()
    if piece.name in set_in:
        names &= {piece.name}
    else:
        names -= set_in
    return [one for one in spec.pieces if one.name in names]


def refusals(spec: Spec, piece: Piece) -> list[Problem]:
    """Say where `seams unbroken` cannot be kept."""
    own = [
        step for step in piece.steps if isinstance(step.action, Fabric) and step.address.startswith(f"{piece.name}.")
    ]
    fits = unbroken(piece)
    if not fits or not own:
        return []
    fit, group = fits[0], _sewn_together(spec, piece)
    if piece.in_round:
        return [_refused(piece, fit, "a round has no side seams", "Leave `seams unbroken` out.")]
    if not group:
        why = "no `join` line sews its sides"
        return [_refused(piece, fit, why, "Add `seam sides, mattress stitch` to the `join` block.")]
    if any(one.kind != "whole" for one in fits):
        fix = Fix("write `whole repeats`", (Edit(fit.span, "whole repeats"),))
        help = "Write `whole repeats` (with `at` and the levels, if not at all) beside it."
        return [
            _refused(piece, fit, "the pieces must be whole repeats together", help, () if fit.is_centred else (fix,))
        ]
    if len(group) > 2:
        names = ", ".join(one.name for one in group)
        return [
            _refused(
                piece, fit, f"it runs on from one piece to one other, and {names} meet", "Leave `seams unbroken` out."
            )
        ]
    return _other(piece, fits, group)


def _other(piece: Piece, fits: tuple[Fit, ...], group: list[Piece]) -> list[Problem]:
    first, last = group[0], group[-1]
    if first is last or (piece is first and unbroken(last)):
        return []
    both = unbroken(first), unbroken(last)
    alike = [[(one.at, one.axis) for one in some] for some in both]
    motifs = [
        [a.motif for s in one.steps if isinstance(a := s.action, Fabric) and a.fit.seams == "unbroken"] for one in group
    ]
    if alike[0] == alike[1] and motifs[0] == motifs[1]:
        return []
    other = last if piece is first else first
    why = f"{other.name} does not place the same motif in the same way"
    help = f"Give {other.name} the same `work in` line, or leave `seams unbroken` out."
    found = _refused(piece, fits[0], why, help)
    return [Problem(found.code, found.message, (*found.labels, Label(other.span, "the piece that it meets")), help)]


def _refused(piece: Piece, fit: Fit, why: str, help: str, fixes: tuple[Fix, ...] = ()) -> Problem:
    message = f"the motif of {piece.name} cannot run on over the side seams: {why}"
    return Problem("E309", message, (Label(fit.span, "`seams unbroken`"),), help, fixes)
