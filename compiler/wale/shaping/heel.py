"""Heels that turn on a strip: a middle strip keeps its stitches and takes in the others one by one at its ends.

Input: stitches of the heel and of the strip. Output: the numbers that the two rows are told with.
"""

from __future__ import annotations

from msgspec import Struct


class StripHeel(Struct, frozen=True):
    """A heel worked as k(first), ssk, turn; sl1, p(between), p2tog, turn; sl1, k(between), ssk, turn; and so on.

    Attributes:
        first: stitches of the first row in front of its decrease.
        between: stitches of each later row between the slipped one and the decrease.
        rows: rows with a decrease; the last takes in the last stitch.
        half: stitches from an end of the strip to the one in the middle, where the round may begin (strips of an odd
            number); half the strip else.
    """

    first: int
    between: int
    rows: int
    half: int


def strip_heel(stitches: int, strip: int) -> StripHeel | None:
    """Give the rows of a heel turned on a strip.

    Args:
        stitches: of the heel, those of a gusset that was increased before included.
        strip: stitches that are left, >= 3.

    Returns:
        The numbers, or None where the strip doesn't lie in the middle or takes in nothing.

    Source: docs/maths.md#heel-on-a-strip. Example: 63 sts to 33: k47, ssk; then 31 between; 30 rows.
    """
    taken = stitches - strip
    if strip < 3 or taken < 2 or taken % 2:
        return None
    return StripHeel((stitches + strip) // 2 - 1, strip - 2, taken, strip // 2)
