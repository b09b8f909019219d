"""Where the openings of inset pockets lie on a piece laid flat, in exact cm."""

from __future__ import annotations

from collections.abc import Iterator

from wale.plan import PiecePlan, Plan
from wale.pockets import place_of
from wale.spec import SewnOn, Spec
from wale.write.outline import Point, inner


def openings(spec: Spec, plan: Plan, piece: PiecePlan, size: int) -> Iterator[tuple[Point, Point]]:
    """The openings of pockets that are inset."""
    for join in spec.joins:
        lining = plan.piece(join.piece) if isinstance(join, SewnOn) and join.is_inset else None
        place = place_of(plan, join, size) if isinstance(join, SewnOn) and join.onto == piece.name else None
        if lining is None or place is None or not isinstance(join, SewnOn):
            continue
        wide = lining.levels[-1].counts[size] / place.level.sts_per_cm
        begin = inner(piece, size) + place.aside if join.aside is not None else -wide / 2
        if piece.half is None or piece.half.side == "right":
            yield (begin, place.up), (begin + wide, place.up)
        if (piece.half is None and join.aside is not None) or (piece.half is not None and piece.half.side == "left"):
            yield (-begin, place.up), (-begin - wide, place.up)
