"""Stitches of textures: how each is worked on both sides, and which of a row are worked together or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

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
    **{f"cable-{number}-left": Stitch(f"cable {number} left", "", "<", number) for number in CABLES},
    **{f"cable-{number}-right": Stitch(f"cable {number} right", "", ">", number) for number in CABLES},
}
"""Stitches of a motif's `stitches` line, by name."""


OTHER_LEAN = {"k2tog": "ssk", "ssk": "k2tog"} | {
    f"cable-{number}-{one}": f"cable-{number}-{other}"
    for number in CABLES
    for one, other in (("left", "right"), ("right", "left"))
}
"""Stitches that lean, with those that lean the other way: what a mirror makes of them."""
LEANLESS = {name: "decrease" if name in ("k2tog", "ssk") else name.rpartition("-")[0] for name in OTHER_LEAN}
"""Stitches that lean, as what they are whichever way they lean."""


def groups(row: Sequence[str]) -> tuple[tuple[int, ...], ...] | None:
    """Give the places of a row's repeat that are worked together or not at all: a yarn over and its decrease, a cable.

    Args:
        row: names of one repeat; it goes on over its ends.

    Returns:
        Neighbouring places, those that go on over the end beginning before it; None where a yarn over or decrease has
        no partner beside it, or a cable not its stitches. A run of yarn overs and decreases is parted two by two from
        the right.
    """
    kinds = [_kind(name) for name in row]
    if not any(kinds):
        return ()
    if "" not in kinds:
        return _in_run(row, range(len(row))) if len(set(kinds)) == 1 else None
    start = next(place for place in range(len(row)) if not kinds[place])
    order = [(start + step) % len(row) for step in range(len(row))]
    found: list[tuple[int, ...]] = []
    for kind, run in groupby(order, lambda place: kinds[place]):
        places = _in_run(row, list(run)) if kind else ()
        if places is None:
            return None
        found += places
    return tuple(found)


def _kind(name: str) -> str:
    stitch = TEXTURE[name]
    return "lace" if stitch.gains else name if stitch.together > 1 else ""


def _in_run(row: Sequence[str], places: Sequence[int]) -> tuple[tuple[int, ...], ...] | None:
    each = max(2, TEXTURE[row[places[0]]].together)
    if len(places) % each:
        return None
    found = tuple(tuple(places[at : at + each]) for at in range(0, len(places), each))
    return found if all(sum(TEXTURE[row[place]].gains for place in group) == 0 for group in found) else None
