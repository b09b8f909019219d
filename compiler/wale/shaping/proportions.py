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
