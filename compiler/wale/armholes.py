"""Edges of armholes and sleeve caps, measured along their rows: what is sewn together where a sleeve is set in."""

from __future__ import annotations

from fractions import Fraction

from wale.draft.bands import hypotenuse
from wale.plan import PiecePlan, Plan
from wale.spec import SetIn


def has_bound_sides(piece: PiecePlan) -> bool:
    """Say whether a piece binds off at its sides."""
    return any(one.kind == "bound" for one in piece.sections)


def cap_edges(plan: Plan, join: SetIn, size: int) -> tuple[Fraction, Fraction]:
    """Give the length in cm of a cap's edge, both sides and the top, and of the armhole's, front and back."""
    sleeve = plan.piece(join.piece)
    assert sleeve is not None
    cap = 2 * side_edge(sleeve, size) + sleeve.levels[-1].width(size)
    return cap, sum((one.make * side_edge(one, size) for one in plan.pieces if one.top is not None), Fraction(0))


def side_edge(piece: PiecePlan, size: int) -> Fraction:
    """Give the length in cm of one side's edge from the first bind-off at the sides, along its rows.

    With shoulders it ends at their tips. A row that is shaped slants by its stitch, or by what it binds off lies level.
    """
    start = next(index for index, one in enumerate(piece.sections) if one.kind == "bound")
    length = Fraction(0)
    for section in piece.sections[start:]:
        first, last = piece.levels[section.first], piece.levels[section.last]
        stitch, row = 1 / last.sts_per_cm, 1 / section.rows_per_cm
        shaped = section.schedules[size].steps if section.kind == "shape" else 0
        length += shaped * hypotenuse(stitch, row) + (section.rows[size] - shaped) * row
        if section.kind == "bound":
            length += Fraction(first.counts[size] - last.counts[size], 2) * stitch
    if piece.top is not None:
        length -= piece.top.slope_rows[size] / piece.sections[-1].rows_per_cm
    return length
