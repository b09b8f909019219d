"""Edges of armholes and sleeve caps, measured along their rows: what is sewn together or picked up along there."""

from __future__ import annotations

from fractions import Fraction

from wale.plan import PiecePlan, Plan
from wale.shaping.pickup import hypotenuse
from wale.spec import SetIn

UNDERARM = "underarm"
"""The mark at which an armhole without a bind-off at the sides begins."""


def has_bound_sides(piece: PiecePlan) -> bool:
    """Say whether a piece binds off at its sides."""
    return any(one.kind == "bound" for one in piece.sections)


def has_armholes(piece: PiecePlan) -> bool:
    """Say whether it is known where a piece's armholes begin."""
    return piece.top is not None and (has_bound_sides(piece) or UNDERARM in dict(piece.marks))


def cap_edges(plan: Plan, join: SetIn, size: int) -> tuple[Fraction, Fraction]:
    """Give the length in cm of a cap's edge, both sides and the top, and of one armhole's: half that of both."""
    sleeve = plan.piece(join.piece)
    assert sleeve is not None
    cap = 2 * side_edge(sleeve, size) + sleeve.levels[-1].width(size)
    sides = (one.make * one.ends_shaped * side_edge(one, size) for one in plan.pieces if one.top is not None)
    return cap, sum(sides, Fraction(0)) / 2


def side_edge(piece: PiecePlan, size: int) -> Fraction:
    """Give the length in cm of one side's edge, what is bound off and what runs along the rows."""
    return bound_edge(piece, size) + rows_edge(piece, size)


def bound_edge(piece: PiecePlan, size: int) -> Fraction:
    """Give the length in cm of what one side of a piece binds off."""
    return sum(
        (
            Fraction(piece.levels[one.first].counts[size] - piece.levels[one.last].counts[size], piece.ends_shaped)
            / piece.levels[one.last].sts_per_cm
            for one in piece.sections
            if one.kind == "bound"
        ),
        Fraction(0),
    )


def rows_edge(piece: PiecePlan, size: int) -> Fraction:
    """Give the length in cm of one side's edge along its rows, from the first bind-off at the sides or the underarm.

    With shoulders it ends at their tips. A row that is shaped slants by its stitch.
    """
    length = Fraction(0)
    for section in piece.sections[_start(piece, size) :]:
        stitch, row = 1 / piece.levels[section.last].sts_per_cm, 1 / section.rows_per_cm
        shaped = section.schedules[size].steps if section.kind == "shape" else 0
        length += shaped * hypotenuse(stitch, row) + (section.rows[size] - shaped) * row
    if piece.top is not None:
        length -= piece.top.slope_rows[size] / piece.sections[-1].rows_per_cm
    return length


def _start(piece: PiecePlan, size: int) -> int:
    """Give the section with which the armhole or the cap begins."""
    for index, section in enumerate(piece.sections):
        if section.kind == "bound":
            return index
    below = dict(piece.marks)[UNDERARM][size]
    return next(index for index in range(len(piece.sections)) if piece.rows_to(index, size) >= below)
