"""What seams and bands take up: edge stitches of sides that are sewn, and of front edges along which a band lies."""

from __future__ import annotations

from collections.abc import Iterable

from wale.actions import Mark
from wale.plan import PiecePlan
from wale.spec import Join, Piece, Seam, SetIn, Spec

SIDE_EDGES = ("sides", "armholes")
FRONT_EDGE = "front-edge"
"""The edge of a half piece at the opening."""


def is_sewn(joins: Iterable[Join], piece: Piece) -> bool:
    """Say whether a `join` line sews the sides of a piece: a side seam, or a sleeve set in above the underarm."""
    has_armhole = any(isinstance(step.action, Mark) and step.action.name == "underarm" for step in piece.steps)
    for join in joins:
        if isinstance(join, SetIn):
            if has_armhole and join.piece != piece.name:
                return True
        elif isinstance(join, Seam) and any(name == piece.name and edge in SIDE_EDGES for name, edge in join.edges):
            return True
    return False


def taken_in_front(spec: Spec, piece: Piece) -> int:
    """Give the edge stitches of a half piece's front edge that a band takes up, of its mirror image's too."""
    assert piece.half is not None
    alike = {one.name for one in spec.pieces if one.half is not None and one.half.owner == piece.half.owner}
    banded = any(name in alike and edge == FRONT_EDGE for band in spec.bands for name, edge in band.edges)
    return piece.edge.stitches if banded else 0


def seams_of(spec: Spec, piece: PiecePlan) -> tuple[int, int]:
    """Give the stitches of a shoulder and of the neck that lie outside their finished widths."""
    if piece.half is None:
        return piece.levels[-1].taken // 2, 0
    neck = taken_in_front(spec, next(one for one in spec.pieces if one.name == piece.name))
    return piece.levels[-1].taken - neck, neck
