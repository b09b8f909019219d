"""Stitches at the ends of flat rows that are told apart: edge stitches, a border of garter, a front band."""

from __future__ import annotations

from typing import NamedTuple

from wale.write.context import Context

_TURNED = str.maketrans("kp", "pk")


class End(NamedTuple):
    """So many stitches at an end of a row; `words` tell how they are worked, "" where they lie as the row does."""

    stitches: int
    words: str = ""


Ends = tuple[End, End]
NO_ENDS: Ends = (End(0), End(0))


def row_ends(at: Context, *, is_right_side: bool) -> Ends:
    """Give what stands at the beginning and at the end of a flat row, as it is worked."""
    if at.border:
        return (End(at.border, f"k{at.border}"),) * 2
    side, half = End(at.edge), at.piece.half
    if half is None or half.band is None:
        return side, side
    band = End(half.band.stitches, band_words(at, is_right_side=is_right_side))
    return (band, side) if _begins_in_front(half.hand, is_right_side) else (side, band)


def band_words(at: Context, *, is_right_side: bool) -> str:
    """Write the stitches of a front band on a row, as they are worked: `k8`, `(k1, p1) 4 times`."""
    half = at.piece.half
    assert half is not None and half.band is not None
    look = half.band.look(is_right_side=is_right_side)
    if not is_right_side:
        look = look.translate(_TURNED)
    if len(set(look)) == 1:
        return f"{look[0]}{len(look)}"
    worked = look if _begins_in_front(half.hand, is_right_side) else look[::-1]
    pairs, rest = divmod(len(look), 2)
    often = {1: "once", 2: "twice"}.get(pairs, f"{pairs} times")
    return f"({worked[0]}1, {worked[1]}1) {often}" + (f", {worked[0]}1" if rest else "")


def _begins_in_front(hand: str, is_right_side: bool) -> bool:
    """Say whether a row of a half begins at its front edge: a right-side row of the right half does."""
    return (hand == "right") == is_right_side


def told_apart(ends: Ends) -> int:
    """Count the stitches that have words of their own."""
    return sum(end.stitches for end in ends if end.words)


def between(ends: Ends) -> tuple[str, str]:
    """Give the words before and after the stitches between the ends."""
    first, last = ends
    return (f"{first.words}, " if first.words else "", f", {last.words}" if last.words else "")
