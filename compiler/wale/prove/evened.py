"""Rows on which stitches are gained or lost evenly: which stitches their words may hold, and how they are spread."""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import KNIT, PURL, insist
from wale.prove.needle import Needles
from wale.prove.spelling import works_of

GAINED, TAKEN = ("m1", "m1p"), ("k2tog", "p2tog")
PAST_THE_ENDS = 2
"""By how many plain stitches an end of a flat row is longer, at most, than what lies between two shaped ones."""


def evened(needles: Needles, line: words.EvenRow, side: str) -> bytes:
    """Work the words of such a row and give how it looks."""
    ops = needles.spell(line.stitches, side)
    shaped, what = (GAINED, "gained") if line.grows else (TAKEN, "taken")
    strange = works_of(line.stitches) - {"k", "p", *shaped}
    insist(not strange, f"stitches that are {what} evenly are worked {' or '.join(shaped)}")
    right, left = needles.apart
    fits = not needles.is_strict or _is_even(ops[right : len(ops) - left], in_round=needles.in_round)
    insist(fits, f"the stitches that are {what} do not stand evenly in the row")
    return ops


def _is_even(ops: bytes, *, in_round: bool) -> bool:
    """Say whether stretches between shaped stitches differ by one at most, and none at the ends is much longer."""
    shaped = set(ops) - {KNIT, PURL}
    gaps = [len(one) for one in ops.translate(bytes.maketrans(bytes(shaped), b"|" * len(shaped))).split(b"|")]
    inner, (first, last) = gaps[1:-1], (gaps[0], gaps[-1])
    if not inner:
        return True
    widest = max(inner)
    ends = first + last <= widest + 1 if in_round else max(first, last) <= widest + PAST_THE_ENDS
    return widest - min(inner) <= 1 and ends
