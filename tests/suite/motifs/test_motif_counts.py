"""Strips of two colours counted up to rotation through the motif algebra.

Necklaces of n beads in two colours that are not turned over: 2, 3, 4, 6, 8, 14, 20, 36 for n = 1 to 8 (OEIS A000031);
turned over as well: 2, 3, 4, 6, 8, 13, 18, 30 (OEIS A000029). Burnside: the mean number of strips that a rotation
leaves as they are.
"""

from itertools import product
from math import gcd

import pytest

from wale.motifs.changes import mirrored, shifted
from wale.motifs.symmetry import find
from wale.motifs.tiling import Tiling

ROTATED = {1: 2, 2: 3, 3: 4, 4: 6, 5: 8, 6: 14, 7: 20, 8: 36}
TURNED_OVER = {1: 2, 2: 3, 3: 4, 4: 6, 5: 8, 6: 13, 7: 18, 8: 30}


def strips(width: int) -> list[Tiling]:
    return [Tiling((row,)) for row in product(("rye", "flour"), repeat=width)]


def classes(width: int, over: bool = False) -> int:
    """Strips told apart by the set of all that their rotations (and mirror images) give."""
    return len(
        {
            frozenset(
                shifted(one, step).rows
                for one in ((strip, mirrored(strip)) if over else (strip,))
                for step in range(width)
            )
            for strip in strips(width)
        }
    )


@pytest.mark.parametrize("width", ROTATED)
def test_classes_of_strips(width):
    assert classes(width) == ROTATED[width]
    assert classes(width, over=True) == TURNED_OVER[width]


@pytest.mark.parametrize("width", ROTATED)
def test_burnside_by_what_each_rotation_leaves_as_it_is(width):
    fixed = [sum(shifted(strip, step).rows == strip.rows for strip in strips(width)) for step in range(width)]
    # by hand: a rotation by k leaves gcd(k, n) cells free
    assert fixed == [2 ** gcd(step, width) for step in range(width)]
    assert sum(fixed) == width * ROTATED[width]


@pytest.mark.parametrize("width", ROTATED)
def test_burnside_by_the_repeats_and_axes_that_are_found(width):
    """A strip of smallest repeat p is left by n/p rotations, and by n/p mirrors for each of its two axes, if any."""
    turns = mirrors = 0
    for strip in strips(width):
        found = find(strip)
        turns += width // found.width
        mirrors += width // found.width if found.mirrors else 0
    assert turns == width * ROTATED[width]
    assert turns + mirrors == 2 * width * TURNED_OVER[width]
