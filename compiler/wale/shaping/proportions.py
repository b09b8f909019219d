"""Parts of a garment reckoned from other parts."""

from __future__ import annotations

from fractions import Fraction


def share(key: int | Fraction, percent: int | Fraction) -> Fraction:
    """Give so many per cent of a key number, exactly.

    Source: docs/maths.md#percentages. Example: 35 % of 276 sts is 96.6, or 96 as an even count.
    """
    return Fraction(key) * percent / 100


def drop_sleeve_length(spine_to_wrist: int | Fraction, piece_width: int | Fraction) -> Fraction:
    """Give the length of a sleeve that is sewn to a straight body piece.

    Args:
        spine_to_wrist: centre of the back over the shoulder to the wrist.
        piece_width: width of the body piece laid flat, in the same unit.

    Source: docs/maths.md#drop-sleeve-length. Example: 80 cm and a piece of 62 cm give 49 cm.
    """
    return Fraction(spine_to_wrist) - Fraction(piece_width) / 2


FOOT_GIRTH, GUSSET_GIRTH, HEEL_GIRTH = Fraction(95, 100), Fraction(110, 100), Fraction(135, 100)
"""Girth of a foot as a part of its length; girths over gusset and heel as parts of the foot's girth."""


def foot_girths(foot_length: int | Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Give the girths round the foot, over its gusset, and over heel and instep, from the foot's length.

    Source: docs/maths.md#foot. Example: a foot of 25 cm is 23.75 cm round.
    """
    foot = foot_length * FOOT_GIRTH
    return foot, foot * GUSSET_GIRTH, foot * HEEL_GIRTH
