"""Ribs: counts that end alike at both edges, and edges drawn in.

Input: a rib and stitch counts. Output: rules (modulus, residue) for `gauge.nearest` and the solver, exact counts.
"""

from __future__ import annotations

from fractions import Fraction

RIB_SHARE = Fraction(90, 100)
"""Stitches of a body rib, as a part of the body's."""

FACING_SHARE = Fraction(97, 100)
"""Stitches of a hem's facing, as a part of what it backs."""


def rib_rule(knit: int, purl: int, *, in_round: bool) -> tuple[int, int]:
    """Give (modulus, residue) of the stitch counts that a rib fits.

    Worked flat, a rib starts and ends with its knit stitches, so that both edges match; in the round it closes.
    Selvedge stitches are not counted.

    Raises:
        ValueError: a rib without knit or purl stitches.

    Source: docs/maths.md#rib-multiples. Example: 2x2 flat is a multiple of 4 plus 2.
    """
    if knit < 1 or purl < 1:
        raise ValueError("a rib has knit and purl stitches")
    return knit + purl, 0 if in_round else knit


def rib_stitches(body: int | Fraction, share: Fraction = RIB_SHARE) -> Fraction:
    """Give the exact stitches of a rib that draws a body in.

    Source: docs/maths.md#rib-reduction. Example: 210 sts give 189.
    """
    return body * share


def facing_stitches(front: int | Fraction, share: Fraction = FACING_SHARE) -> Fraction:
    """Give the exact stitches of a folded hem's facing at equal gauge: a little narrower than what it backs.

    Source: docs/maths.md#hem-facing.
    """
    return front * share
