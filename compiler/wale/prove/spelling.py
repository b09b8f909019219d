"""Stitches in words: how they look from the right side, how many they take up, and in which yarns they are."""

from __future__ import annotations

from wale.prove.fabric import (
    CENTRED_DEC,
    INC,
    KNIT,
    LEFT_DEC,
    LEFT_DEEP,
    LEFT_INC,
    PURL,
    RIGHT_DEC,
    RIGHT_DEEP,
    RIGHT_INC,
    SLIPPED,
    TWISTED,
    insist,
)
from wale.prove.words import Repeat, Stitches

MOST_STITCHES = 20_000_000
"""The largest piece that the machine knits; a blanket of a bed has less than a million stitches."""

SHAPED = {
    "k2tog": (RIGHT_DEC, 2),
    "ssk": (LEFT_DEC, 2),
    "p2tog": (RIGHT_DEC, 2),
    "ssp": (LEFT_DEC, 2),
    "k3tog": (RIGHT_DEEP, 3),
    "sssk": (LEFT_DEEP, 3),
    "s2kp": (CENTRED_DEC, 3),
    "m1": (INC, 0),
    "m1p": (INC, 0),
    "m1L": (LEFT_INC, 0),
    "m1R": (RIGHT_INC, 0),
    "yo": (INC, 0),
}
"""How a shaped stitch looks from the right side, and how many stitches it takes up."""
NECK_EDGE = {"RS": ("ssk", LEFT_DEC), "WS": ("p2tog", RIGHT_DEC)}
"""How a neck that slopes is decreased where rows of a side start, so that the decreases lean with its edge."""
ON_WRONG_SIDE = frozenset({"p2tog", "ssp", "m1p"})
"""Shaped stitches of wrong-side rows; all others are of right-side rows and rounds."""


def spelled(stitches: Stitches, side: str) -> tuple[bytes, int]:
    """Give how a row's words look, from its right end, and how many stitches they take up.

    Args:
        side: "RS", "WS" or "round": which way it runs, and which shaped stitches it may hold.
    """
    looks = {"k": PURL, "p": KNIT, "p tbl": TWISTED} if side == "WS" else {"k": KNIT, "p": PURL, "k tbl": TWISTED}
    looks["sl"] = SLIPPED
    # Where a wrong-side row is knitted it is garter: its stitches are shaped there as on a right-side row, and
    # among its ridges no lean shows. Where it is purled they are shaped as on a wrong-side row.
    works = works_of(stitches)
    ops, taken = _spell(stitches, looks, side == "WS" and ("k" not in works or bool(works & {"p", "p tbl"})), side)
    return (ops[::-1] if side == "WS" else ops), taken


def shades(stitches: Stitches, yarn: str) -> list[str]:
    """Give the yarn of each stitch that words make, in working order; those that name none are in `yarn`."""
    found: list[str] = []
    for one in stitches:
        _limit(len(found))
        if isinstance(one, Repeat):
            found += shades(one.stitches, yarn) * one.times
        else:
            found += [one.yarn or yarn] * one.count
    return found


def works_of(stitches: Stitches) -> set[str]:
    """Give the kinds of stitches of a row."""
    works: set[str] = set()
    for one in stitches:
        works |= works_of(one.stitches) if isinstance(one, Repeat) else {one.work}
    return works


def _spell(stitches: Stitches, looks: dict[str, int], wrong: bool, side: str) -> tuple[bytes, int]:
    ops, taken = b"", 0
    for place, one in enumerate(stitches):
        if isinstance(one, Repeat):
            inner, took = _spell(one.stitches, looks, wrong, side)
            _limit(len(ops) + len(inner) * one.times)
            ops += inner * one.times
            taken += took * one.times
        elif one.work in looks:
            _limit(len(ops) + one.count)
            ops += bytes((looks[one.work],)) * one.count
            taken += one.count
        else:
            ways = {wrong} if side != "WS" else _beside(stitches, place) or {wrong}
            fits = one.work in SHAPED and (one.work == "yo" or (one.work in ON_WRONG_SIDE) in ways)
            insist(fits, f"{one.work} does not belong on this side")
            look, took = SHAPED[one.work]
            ops += bytes((look,))
            taken += took
    return ops, taken


def _beside(stitches: Stitches, place: int) -> set[bool]:
    """Say of the nearest plain stitches on either side of one, in the same brackets, whether they are purled."""
    sides = (reversed(stitches[:place]), stitches[place + 1 :])
    plain = ([one.work for one in side if not isinstance(one, Repeat) and one.work in ("k", "p")] for side in sides)
    return {works[0] == "p" for works in plain if works}


def _limit(stitches: int) -> None:
    insist(stitches <= MOST_STITCHES, "the words make more stitches than anybody knits")


def sloped(stitches: int, edge: int, side: str, decrease: str) -> bytes:
    """Give the stitches of a row that starts at a neck's edge with `edge` stitches and a decrease, from the right."""
    told, op = NECK_EDGE[side]
    insist(decrease == told, f"at the start of {side} rows a neck is decreased by {told}, which leans with its edge")
    insist(edge < stitches, f"there are no stitches to decrease inside {edge} edge sts")
    ops = bytearray((KNIT,) * stitches)
    ops[edge if side == "RS" else stitches - 1 - edge] = op
    return bytes(ops)
