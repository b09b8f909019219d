"""Bands that turn a corner: on which rounds a double decrease keeps them flat.

Input: gauge of the band, and how wide the opening is at its corner. Output: rounds.
"""

from __future__ import annotations

from fractions import Fraction

LEAST_ON_EACH = Fraction(3, 4)
"""Stitches that a side loses in a round from which on each round decreases: nearer to 1 than to a half."""


def mitre_every(sts_per_cm: Fraction, rows_per_cm: Fraction, slant: Fraction) -> int:
    """Give on every which round a mitre decreases a stitch at each of its sides: 1 or 2.

    A round further in, each side of the corner is shorter by the height of a round over the slant.

    Args:
        sts_per_cm: stitch gauge of the band, > 0.
        rows_per_cm: round gauge of the band, > 0.
        slant: half the opening's width at the corner over its depth, > 0: 1 in the corner of a square.

    Source: narrow V necks on every round, wide ones on every second, https://zanotowane.pl/713/7790; where the one
    ends and the other begins: arithmetic, docs/maths.md#mitres. Example: 2.6 sts and 3.4 rounds in a cm, a V 17 cm wide
    and 16 cm deep: 2.6 / 3.4 / (8.5 / 16) = 1.4, on each round.
    """
    return 1 if sts_per_cm / rows_per_cm / slant >= LEAST_ON_EACH else 2


def mitre_rounds(rounds: int, every: int) -> tuple[int, ...]:
    """Give the rounds of a band that decrease: from the second on, for the first one sets the rib."""
    return tuple(range(2, rounds + 1, every))
