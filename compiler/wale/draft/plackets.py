"""Plackets: a slit below the middle of a neck, how wide it is at its foot, and how many rows go beside it."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from wale.actions import Neck, Placket
from wale.draft.layout import Layout
from wale.draft.stating import Builder
from wale.shaping.gauge import nearest

LEAST = 4
"""Fewest rows of a placket: the first step of a neck alone stands two rows above its centre."""
BESIDE = 2
"""Stitches that a neck has at least beside its placket, one at either side."""


def placket_of(layout: Layout) -> Placket | None:
    """Give the placket of a piece's neck."""
    action = layout.neck.action if layout.neck is not None else None
    return action.placket if isinstance(action, Neck) else None


def placket_key(layout: Layout) -> str:
    """Key of the rows of the placket."""
    return f"{layout.piece.name}.placket.rows"


def foot(placket: Placket, neck: int, sts_per_cm: Fraction, size: int) -> int:
    """Give the stitches bound off at the foot of a placket, which leave as many of the neck at either side."""
    width = placket.width
    odd = neck % 2
    return int(width.at(size)) if width.is_count else max(2 - odd, nearest(width.at(size) * sts_per_cm, 2, odd))


def least_foot(placket: Placket, sts_per_cm: Fraction, size: int) -> int:
    """Give the fewest stitches that a placket's foot may have, whatever the neck has."""
    return min(foot(placket, neck, sts_per_cm, size) for neck in range(2))


def state_foot(build: Builder, placket: Placket, neck: str, sts_per_cm: Fraction, size: int) -> None:
    """Leave a stitch of the neck or more at either side of its placket."""
    terms, spans = ((1, neck),), (placket.span,)
    if placket.width.is_count:
        count = int(placket.width.at(size))
        why = f"a placket of {count} sts lies in the middle of the neck"
        build.rule("parity", why, terms, spans, modulus=2, residue=count % 2)
        most = count
    else:
        most = max(2, floor(placket.width.at(size) * sts_per_cm) + 1)
    build.rule("shaping", "a neck is wider than its placket", terms, spans, lower=most + BESIDE)
