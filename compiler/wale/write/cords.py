"""Bind-offs with a cord, which is worked onto the stitches on the needle."""

from __future__ import annotations

from wale.write.context import Context
from wale.write.lines import Line, Part, Sts, Times


def cord_line(at: Context, slot: str, count: int, cord: int, yarn: str) -> Line:
    """Bind off with a cord: it is worked onto the stitches on the needle, one by one.

    Source: https://juliettepknits.wordpress.com/2018/09/06/i-cord-bind-off-tutorial/.
    """
    lead = f"in {yarn}, cast on "
    parts: tuple[Part, ...] = (lead, Sts(cord), " in front of the ", count, " sts on the needle; (k")
    parts += (cord - 1, ", ssk, slip ", Sts(cord), " back) ", Times(count), "; bind off the last ", Sts(cord), ".")
    return at.line(slot, "Bind off with a cord", *parts)
