"""Stitches of textures: how each is worked on both sides, and which of a row are worked together or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, groupby, pairwise

from msgspec import Struct


class Stitch(Struct, frozen=True):
    """A stitch of a texture, named as it looks from the right side.

    Attributes:
        right, wrong: how it is worked on right-side rows and rounds, and on wrong-side rows; "" where it is not.
        mark: of its cell in a chart; ours.
        together: how many neighbours of its name are worked as one.
        gains: stitches that it makes less those that it takes up.
    """

    right: str
    wrong: str
    mark: str
    together: int = 1
    gains: int = 0


CABLES = (2, 4, 6, 8)
"""Stitches of the cables: half of them cross over the other half."""
TEXTURE = {
    "knit": Stitch("k", "p", ""),
    "purl": Stitch("p", "k", "–"),
    "slip": Stitch("sl", "sl", "|"),
    "yo": Stitch("yo", "yo", "o", gains=1),
    "k2tog": Stitch("k2tog", "p2tog", "/", gains=-1),
    "ssk": Stitch("ssk", "ssp", "\\", gains=-1),
    "k3tog": Stitch("k3tog", "", "/ /", gains=-2),
    "sssk": Stitch("sssk", "", "\\ \\", gains=-2),
    "s2kp": Stitch("s2kp", "", "A", gains=-2),
    **{f"cable-{number}-left": Stitch(f"cable {number} left", "", "<", number) for number in CABLES},
    **{f"cable-{number}-right": Stitch(f"cable {number} right", "", ">", number) for number in CABLES},
}
"""Stitches of a motif's `stitches` line, by name."""


OTHER_LEAN = {"k2tog": "ssk", "ssk": "k2tog", "k3tog": "sssk", "sssk": "k3tog"} | {
    f"cable-{number}-{one}": f"cable-{number}-{other}"
    for number in CABLES
    for one, other in (("left", "right"), ("right", "left"))
}
"""Stitches that lean, with those that lean the other way: what a mirror makes of them."""
LEANLESS = {name: name.rpartition("-")[0] or f"decrease {-TEXTURE[name].gains}" for name in OTHER_LEAN}
"""Stitches that lean, as what they are whichever way they lean."""


def groups(row: Sequence[str]) -> tuple[tuple[int, ...], ...] | None:
    """Give the places of a row's repeat that are worked together or not at all: a lace figure, a cable.

    A lace figure reaches from a yarn over to the decrease that makes up for it, or the other way round: cut there, the
    row keeps its stitches. Where a row may be parted in more ways than one, the one that leaves the most stitches by
    themselves holds, and between equals the one whose cut is nearest to the right edge of the repeat.

    Args:
        row: names of one repeat, from the right; it goes on over its ends.

    Returns:
        Neighbouring places, those that go on over the end beginning before it; None where yarn overs and decreases do
        not make up for each other, or a cable has not its stitches.
    """
    units = _units(row)
    if units is None or sum(TEXTURE[name].gains for name in row) != 0:
        return None
    before = list(accumulate((TEXTURE[row[unit[0]]].gains for unit in units), initial=0))[:-1]
    ways = (_parted(units, before, level) for level in dict.fromkeys(before))
    return min(ways, key=lambda way: sum(map(len, way)))


def _parted(units: Sequence[tuple[int, ...]], before: Sequence[int], level: int) -> tuple[tuple[int, ...], ...]:
    """Cut a row wherever so many more stitches were made than taken up; give what has more than one place."""
    cuts = [place for place, one in enumerate(before) if one == level]
    ends = pairwise((*cuts, cuts[0] + len(units)))
    stretches = (tuple(place for unit in range(*pair) for place in units[unit % len(units)]) for pair in ends)
    return tuple(one for one in stretches if len(one) > 1)


def _units(row: Sequence[str]) -> list[tuple[int, ...]] | None:
    """Part a row into single stitches and cables, those that go on over its end last."""
    kinds = [name if TEXTURE[name].together > 1 else "" for name in row]
    start = next((place for place, kind in enumerate(kinds) if kind == "" or kind != kinds[place - 1]), 0)
    order = [(start + step) % len(row) for step in range(len(row))]
    found: list[tuple[int, ...]] = []
    for kind, run in groupby(order, lambda place: kinds[place]):
        each = TEXTURE[kind].together if kind else 1
        places = list(run)
        if len(places) % each:
            return None
        found += [tuple(places[at : at + each]) for at in range(0, len(places), each)]
    return found
