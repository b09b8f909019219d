"""Motifs whose repeats do not stand in ranks: a row shift, a brick, a drop of a part of the rows."""

from __future__ import annotations

from wale.materials import Motif
from wale.motifs import changes
from wale.motifs.size import MOST_STITCHES, counted
from wale.motifs.tiling import Tiling
from wale.parse.tree import Ratio
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.context import Context
from wale.resolve.motif_room import Room
from wale.resolve.shapes import Line


def read_shift(context: Context, line: Line, width: int) -> int | None:
    """Give the stitches of a `next shifts` line."""
    number = line.head.number("N")
    shift = whole(context, number, 0)
    if shift is not None and shift >= width:
        context.report(
            "E244",
            f"a shift of {counted(shift, 'st')} is a whole repeat of {counted(width, 'st')} or more",
            number.span,
            "too far",
            f"Write a shift of 0 to {width - 1} sts."
            if width > 1
            else "Take the line out: one stitch cannot be shifted.",
        )
        return None
    return shift


def brick(context: Context, motif: Motif, line: Line) -> Tiling | None:
    """Lay the repeat above half a repeat along; an odd number of stitches is reported."""
    if motif.width % 2 == 0:
        return changes.bricked(motif.tiling)
    instead = f"next shifts {counted(motif.width // 2, 'st')}"
    context.report(
        "E246",
        f"the motif `{motif.name}` has {counted(motif.width, 'st')}, so its repeats cannot be laid half a repeat along",
        line.span,
        "an odd number of stitches",
        f"Add or leave out a stitch, or write `{instead}`, which is nearly half.",
        fixes=[Fix(f"write `{instead}`", (Edit(line.span, instead),))] if motif.width > 1 else [],
        also=[(motif.span, "the motif")],
    )
    return None


def drop(context: Context, motif: Motif, line: Line, room: Room) -> Tiling | None:
    """Drop each repeat by a part of its rows; rows that do not divide are reported."""
    parts = 2
    if line.keyword == "drop":
        part = line.head.found["PART"][0]
        assert isinstance(part, Ratio)
        parts = part.under if part.over == 1 and part.unit is None else 0
    height = motif.period
    if parts < 2 or height % parts:
        _undivided(context, motif, line, parts)
        return None
    help = "Take a larger part, such as a half drop, or a narrower motif."
    if not room.holds(context, motif.name, motif.width * parts, height, line.span, help):
        return None
    return changes.dropped(motif.tiling, parts)


def _undivided(context: Context, motif: Motif, line: Line, parts: int) -> None:
    height = motif.period
    divisors = [number for number in range(2, min(height, MOST_STITCHES // motif.width) + 1) if height % number == 0]
    best = min(divisors, key=lambda number: (abs(number - parts), number), default=None)
    instead = "half drop" if best == 2 else f"drop 1/{best}"
    rows, asked = counted(height, "row"), context.cut(line.span).removeprefix("drop ")
    context.report(
        "E246",
        f"the {rows} of `{motif.name}` cannot be dropped by {asked}"
        if parts < 2
        else f"the motif `{motif.name}` has {rows}, which do not divide into {parts} equal parts",
        line.span,
        "a drop is 1/2, 1/3, 1/4 …" if parts < 2 else f"{rows} by {parts}",
        (f"Write `{instead}`, or add" if best else "Add")
        + " or leave out rows so that they divide; a plain row will do.",
        fixes=[Fix(f"write `{instead}`", (Edit(line.span, instead),))] if best else [],
        also=[(motif.span, "the motif")],
    )
