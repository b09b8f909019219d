"""Schematics of bands that are more than an edge: a hood folded in half, a shawl collar laid flat."""

from __future__ import annotations

from fractions import Fraction

from wale.plan import BandPlan, CollarPlan, PiecePlan
from wale.write.outline import Point, neck_edge

Line = tuple[Point, Point]
Named = tuple[str, Point, Point, Fraction]
"""A measure: its name, its ends and its value, all cm."""
INSET = Fraction(1, 40)
"""How far inside the outline of a hood its fold and its seam are drawn, as a part of its width."""


def is_drawn(plan: BandPlan) -> bool:
    """Say whether a band has a schematic of its own."""
    return bool(plan.hood) or plan.collar is not None


def band_measures(plan: BandPlan, size: int) -> tuple[Named, ...]:
    """Give the measures of a hood or a collar in one size, widths first."""
    if plan.collar is None:
        wide, deep = _hood(plan, size)
        return (("from fold to front edge", (Fraction(0), Fraction(0)), (wide, Fraction(0)), wide),
                ("neck to seam", (wide, Fraction(0)), (wide, deep), deep))  # fmt: skip
    along, (low, high) = plan.stitches[size] / plan.sts_per_cm, _depths(plan, plan.collar, size)
    middle = along / 2
    return (
        ("along the edges", (Fraction(0), Fraction(0)), (along, Fraction(0)), along),
        ("depth behind", (middle, Fraction(0)), (middle, high), high),
        ("depth in front", (along, Fraction(0)), (along, low), low),
    )


def band_outline(plan: BandPlan, size: int) -> tuple[Point, ...]:
    """Give the outline of a hood folded in half, or of a collar laid flat, its picked-up edge below."""
    nothing = Fraction(0)
    if plan.collar is None:
        wide, deep = _hood(plan, size)
        return (nothing, nothing), (wide, nothing), (wide, deep), (nothing, deep)
    along, (low, high) = plan.stitches[size] / plan.sts_per_cm, _depths(plan, plan.collar, size)
    ends = [end / plan.sts_per_cm for end in plan.collar.ends[size]]
    reach = sum(plan.collar.gaps[size]) / plan.sts_per_cm
    right, left = ends[0], along - ends[1]
    top = ((left, low), (left - reach, high), (right + reach, high), (right, low))
    return (nothing, nothing), (along, nothing), (along, low), *top, (nothing, low)


def band_lines(plan: BandPlan, size: int) -> tuple[Line, ...]:
    """Give the dashed lines inside: the fold and the seam of a hood."""
    if plan.collar is not None:
        return ()
    wide, deep = _hood(plan, size)
    side, top = wide * INSET, deep - wide * INSET
    return (((side, Fraction(0)), (side, top)), ((side, top), (wide, top)))


def _hood(plan: BandPlan, size: int) -> tuple[Fraction, Fraction]:
    return plan.hood[size] / plan.sts_per_cm / 2, plan.rows[size] / plan.rows_per_cm


def _depths(plan: BandPlan, collar: CollarPlan, size: int) -> tuple[Fraction, Fraction]:
    return collar.front(size) / plan.rows_per_cm, plan.rows[size] / plan.rows_per_cm


def lapel(piece: PiecePlan, plan: BandPlan, size: int) -> tuple[Point, ...]:
    """Give the right half of a shawl collar as it lies folded over on a half piece, seen from in front.

    Its fold runs from the middle at the foot of the neck to the high point of the shoulder; its outer edge lies on the
    piece, half of what it is deeper behind beyond the neck's edge from halfway up on.
    """
    assert plan.collar is not None
    edge = neck_edge(piece, size)
    (wide, high), (_, low) = edge[0], edge[-1]
    front, behind = _depths(plan, plan.collar, size)
    over, half = (behind - front) / 2, (high - low) / 2
    outer = [(x + over * min(Fraction(1), (y - low) / half), y) for x, y in edge]
    return (Fraction(0), low), (wide, high), *outer
