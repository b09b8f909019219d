"""E223: a piece or band larger than anybody knits.

What: the rows of each piece and band, the stitches worked on its largest row, and those of all its rows.
Why: lengths and widths of its lines are held against bounds before the counts are solved, but a fine gauge, or a course
that doubles its stitches, such as a half circle, makes more of them; the machine of the proof knits no such piece.
Limits: 100000 rows, 1000000 stitches on a row, 20000000 in all, which are the machine's; a blanket of a bed has
less than a million.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from wale.plan import BandPlan, PiecePlan, Plan
from wale.problems.problem import Problem, problem
from wale.spec import Spec
from wale.write.context import Context
from wale.write.stitch_counts import row_stitches

MOST_ROWS, MOST_ON_ROW, MOST_STITCHES = 100_000, 1_000_000, 20_000_000


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Refuse each piece and band that is larger, in the first size in which it is."""
    return [*_larger(spec, plan, plan.pieces), *_larger(spec, plan, plan.bands)]


def _larger(spec: Spec, plan: Plan, places: Sequence[PiecePlan | BandPlan]) -> Iterator[Problem]:
    for place in places:
        for size, one in enumerate(spec.sizes):
            rows = _rows(spec, plan, place, size)
            beyond = (
                f"{len(rows)} rows" * (len(rows) > MOST_ROWS)
                or f"a row of {max(rows, default=0)} sts" * (max(rows, default=0) > MOST_ON_ROW)
                or f"{sum(rows)} sts" * (sum(rows) > MOST_STITCHES)
            )
            if beyond:
                message = f"the {place.name} has {beyond}, more than anybody knits"
                help = (
                    f"A piece has at most {MOST_STITCHES} sts, {MOST_ON_ROW} of them on a row, and {MOST_ROWS} rows: "
                    "make it smaller, or check the numbers, their units and the gauge."
                )
                yield problem("E223", message, place.span, "this large", help=help, size=one.name)
                break


def _rows(spec: Spec, plan: Plan, place: PiecePlan | BandPlan, size: int) -> list[int]:
    """Give the stitches worked on each row."""
    if isinstance(place, BandPlan):
        return [place.worked(size, row) for row in range(1, place.rows[size] + 1)]
    at = Context(spec, plan, place, size)
    return [count for section in place.sections for count in row_stitches(at, section)]
