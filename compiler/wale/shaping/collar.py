"""Shawl collars: how many short rows make them deeper behind than in front, and how far apart those turn.

Rule (https://chezlizzie.blogspot.com/2013/01/shawl-collar-tutorial.html): some rows over all stitches, pairs of short
rows for the rest of the depth, two rows over all stitches; the turns begin at the foot of the neck's slope and end
about halfway up it, alike far apart. There each short row is shorter than the one before. Here each is longer, so that
it takes the turn of the row before in, and gaps of two widths bring the turns halfway up in every size: our choice
(docs/maths.md#shawl-collars).
"""

from __future__ import annotations

from fractions import Fraction

from wale.shaping.gauge import nearest

LAST = 2
"""Rows over all stitches above the short rows."""
LEAST = 5
"""Fewest rows in front; odd, for the first is a wrong-side row, and the short rows begin with a right-side one."""


def front_rows(wish: Fraction) -> int:
    """Give the rows of a collar in front: odd, and at least 5. Example: a wish of 12.4 rows gives 13."""
    return max(LEAST, nearest(wish, 2, 1))


def short_pairs(back: Fraction, front: int) -> int:
    """Give the pairs of short rows of a collar of `back` rows behind and `front` in front, at least one."""
    return max(1, nearest((back - front) / 2))


def turn_gaps(side: int, pairs: int) -> tuple[int, ...] | None:
    """Spread the turns along one side of the neck, from halfway up it down to its foot, wider gaps first.

    Args:
        side: stitches along it.
        pairs: turns on it.

    Returns:
        The stitches from each turn to the next one, and from the last one to the foot, at least one each; None where
        the side has fewer stitches than turns.

    Example: 54 sts, 18 turns: 27 sts, so nine gaps of 2 and nine of 1.
    """
    if pairs > side:
        return None
    each, more = divmod(max(pairs, nearest(Fraction(side, 2))), pairs)
    return (each + 1,) * more + (each,) * (pairs - more)
