"""Which pieces' sides are sewn: a seam takes up their edge stitches."""

from __future__ import annotations

from collections.abc import Iterable

from wale.actions import Mark
from wale.spec import Join, Piece, Seam, SetIn

SIDE_EDGES = ("sides", "armholes")


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
