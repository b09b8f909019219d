"""Shawl collars: bands along a neck that short rows make deeper behind than in front."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec.structs import replace

from wale.draft.opened import front_neck
from wale.plan import BandPlan, CollarPlan, PiecePlan
from wale.problems.problem import Problem, problem
from wale.sewn import FRONT_EDGE
from wale.shaping.collar import LAST, front_rows, short_pairs, turn_gaps
from wale.spec import Band, Spec

EDGE = "the front edge"
"""How the name of what is picked up along a front begins."""
HALVES = (["neck"] * 3, [FRONT_EDGE, "neck", "neck", "neck", FRONT_EDGE])
"""Edges along which the collar of a cardigan is picked up."""


def collar_misplaced(band: Band, pieces: Mapping[str, PiecePlan]) -> Problem | None:
    """Say why a shawl collar cannot lie along these edges."""
    assert band.collar is not None
    halves = [pieces[name].half for name, _ in band.edges]
    span = band.rib.span
    if any(half is not None for half in halves):
        hands = tuple(half.hand if half is not None else "" for half in halves)
        sides = len(hands) // 2
        fits = [edge for _, edge in band.edges] in HALVES
        if not fits or hands != (*("right",) * sides, "", *("left",) * sides):
            help = (
                "Pick it up from the right front over the back to the left front, such as `along right-front "
                "front-edge, right-front neck, back neck, left-front neck, left-front front-edge`."
            )
            return problem("E405", f"the shawl collar {band.name} does not go round the neck", span, help=help)
        if band.collar.front is None:
            message = f"this line does not say how deep the shawl collar {band.name} is in front"
            return problem("E206", message, span, help="Write `shawl collar 12 cm, 4 cm in front, garter`.")
        return None
    front = front_neck(band, pieces)
    if front is None or not _is_square(front):
        message = f"the shawl collar {band.name} of a closed front does not lie in a square neck"
        help = (
            "Write `square` on the `neck` line of the front, and pick the collar up along both necks, such as `along "
            "front neck, back neck`."
        )
        return problem("E405", message, span, help=help)
    if band.collar.front is not None:
        help = "Leave `in front` out: there the collar is as deep as the square neck is wide, and its ends overlap."
        return problem("E405", f"the shawl collar {band.name} lies in a square neck", span, help=help)
    return None


def _is_square(piece: PiecePlan) -> bool:
    """Say whether the sides of a neck are straight."""
    return piece.top is not None and not any(map(any, piece.top.steps)) and all(piece.top.centre)


def with_collar(
    spec: Spec, band: Band, plan: BandPlan, pieces: Mapping[str, PiecePlan]
) -> tuple[BandPlan, Problem | None]:
    """Spread the short rows of a shawl collar."""
    assert band.collar is not None
    base, gaps, ends, sides, rows = [], [], [], [], []
    for size, name in enumerate(spec.size_names):
        edge, side = _ends(band, plan, pieces, size)
        front = front_rows(front_wish(spec, band, plan, pieces, size))
        count = short_pairs(back_wish(band, plan, size), front)
        found = turn_gaps(side, count)
        if back_wish(band, plan, size) <= front:
            message = f"the collar {band.name} has {front} rows in front in size {name}, and not more behind"
            help = "A shawl collar is deeper behind than in front: make it deeper, or use a `rib` or `garter` line."
            return plan, problem("E303", message, band.rib.span, help=help, size=name)
        if found is None:
            message = f"the {count} short rows on each side of {band.name} find no room on the {side} sts of a side "
            message += f"of the neck in size {name}"
            help = "Make the collar less deep behind, deeper in front, or the neck deeper."
            return plan, problem("E303", message, band.rib.span, help=help, size=name)
        base.append(front - LAST)
        gaps.append(found)
        ends.append(edge)
        sides.append(side)
        rows.append(front + 2 * count)
    collar = CollarPlan(tuple(base), tuple(gaps), tuple(ends), tuple(sides))
    return replace(plan, rows=tuple(rows), collar=collar), None


def back_wish(band: Band, plan: BandPlan, size: int) -> Fraction:
    """Give the rows that are wished for behind."""
    depth = band.rib.depth
    return depth.at(size) * (1 if depth.is_count else plan.rows_per_cm)


def front_wish(spec: Spec, band: Band, plan: BandPlan, pieces: Mapping[str, PiecePlan], size: int) -> Fraction:
    """Give the rows that are wished for in front: those of the line, or those that fill a square neck."""
    assert band.collar is not None
    wish = band.collar.front
    if wish is not None:
        return wish.at(size) * (1 if wish.is_count else plan.rows_per_cm)
    return square_width(spec, band, pieces, size) * plan.rows_per_cm


def square_width(spec: Spec, band: Band, pieces: Mapping[str, PiecePlan], size: int) -> Fraction:
    """Give the width in cm of the square neck that a collar fills."""
    front = front_neck(band, pieces)
    assert front is not None and front.top is not None
    return front.top.centre[size] / spec.swatches[front.sections[-1].swatch].washed.stitches


def back_neck(band: Band, pieces: Mapping[str, PiecePlan]) -> str:
    """Give the piece whose neck lies behind: that in the middle of a cardigan's edges, or the shallower one."""
    front = front_neck(band, pieces)
    return next(
        name for name, edge in band.edges if edge == "neck" and pieces[name].half is None and pieces[name] is not front
    )


def _ends(band: Band, plan: BandPlan, pieces: Mapping[str, PiecePlan], size: int) -> tuple[tuple[int, int], int]:
    """Give the stitches along both fronts below the neck, right end first, and those of the neck's shorter side."""
    parts = [(name, counts[size]) for name, counts in plan.picked]
    behind = [at for at, (name, _) in enumerate(parts) if name.endswith(f"of the {back_neck(band, pieces)} neck")]
    right, left = parts[: behind[0]], parts[behind[-1] + 1 :]
    edges = [sum(count for name, count in side if name.startswith(EDGE)) for side in (right, left)]
    necks = [sum(count for name, count in side if not name.startswith(EDGE)) for side in (right, left)]
    return (edges[0], edges[1]), min(necks)
