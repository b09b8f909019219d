"""Lines that change a motif: mirrored, flipped, half turn, shifted, recoloured, doubled, brick, half drop, drop, next.

Each takes the motif as the lines above it left it and gives a plain motif again, or None after a report.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from msgspec import Struct
from msgspec.structs import replace

from wale.materials import Motif
from wale.motifs import changes
from wale.motifs.tiling import Tiling
from wale.parse.tree import Ratio
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.context import Context, near_word
from wale.resolve.motif_rows import MOST_ROWS, MOST_STITCHES
from wale.resolve.shapes import Line, Match, Shape
from wale.source import Span

MOST_CELLS = 2_000_000
"""Cells that all composed motifs of a file may have together."""

LINES = {
    "mirrored": Shape({"mirrored": ()}, once=False),
    "flipped": Shape({"flipped": ()}, once=False),
    "half": Shape({"half turn": (), "half drop": ()}, once=False),
    "shifted": Shape({"shifted N1 sts": ("N2 rows",), "shifted N2 rows": ()}, once=False),
    "recoloured": Shape({"recoloured YARN to YARN2": ()}, listed="YARN to YARN2", once=False),
    "doubled": Shape(
        {"doubled about the gap": (), "doubled about the stitch": (), "doubled about both stitches": ()}, once=False
    ),
    "brick": Shape({"brick": ()}, once=False),
    "drop": Shape({"drop PART": ()}, once=False),
    "next": Shape({"next shifts N sts": ()}),
}


class Room(Struct):
    """The cells that composed motifs have taken so far."""

    taken: int = 0

    def holds(self, context: Context, name: str, width: int, rows: int, place: Span, help: str) -> bool:
        """Say whether a motif of this size may be made, and count its cells; report it where not."""
        if width <= MOST_STITCHES and rows <= MOST_ROWS and self.taken + width * rows <= MOST_CELLS:
            self.taken += width * rows
            return True
        small = width <= MOST_STITCHES and rows <= MOST_ROWS
        context.report(
            "E249",
            f"the motifs that are made of others have more than {MOST_CELLS} cells together"
            if small
            else f"the motif `{name}` grows to {width} sts and {rows} rows",
            place,
            "too many" if small else f"at most {MOST_STITCHES} sts and {MOST_ROWS} rows",
            "Make fewer of them, or of smaller ones." if small else help,
        )
        return False


def change(context: Context, motif: Motif, line: Line, room: Room) -> Motif | None:
    """Give the motif with a line's change, or None after a report."""
    tiling = _changed(context, motif, line, room)
    if tiling is None:
        return None
    marks = _recoloured_marks(motif, line) if line.keyword == "recoloured" else motif.marks
    spans = _spans(motif, line, len(tiling.rows))
    return replace(motif, rows=tiling.rows, row_spans=spans, shift=tiling.shift, marks=marks)


def _spans(motif: Motif, line: Line, rows: int) -> tuple[Span, ...]:
    """Give the place of each row: its own where the change keeps rows apart, else the line of the change."""
    if line.form in ("flipped", "half turn"):
        return motif.row_spans[::-1]
    kept = line.keyword not in ("half", "drop", "shifted") and rows == len(motif.row_spans)
    return motif.row_spans if kept else (line.span,) * rows


def _changed(context: Context, motif: Motif, line: Line, room: Room) -> Tiling | None:
    if line.form in _RECTANGLES:
        times = 2 if line.keyword == "doubled" else 1
        help = "A row shift makes the whole repeat taller; take a smaller motif, or one that shifts by half a repeat."
        if not room.holds(context, motif.name, motif.width * times, motif.period, line.span, help):
            return None
    elif not room.holds(context, motif.name, motif.width, len(motif.rows), line.span, ""):
        return None
    simple = _SIMPLE.get(line.form)
    if simple is not None:
        return simple(motif.tiling)
    match line.keyword:
        case "shifted":
            return _shifted(context, motif, line)
        case "recoloured":
            found = _colours(context, motif, line)
            return changes.recoloured(motif.tiling, found) if found is not None else None
        case "doubled":
            return changes.doubled(motif.tiling, cast(changes.Axis, line.form.removeprefix("doubled about the ")))
        case "brick":
            return _brick(context, motif, line)
        case "next":
            shift = read_shift(context, line, motif.width)
            return changes.offset(motif.tiling, shift) if shift is not None else None
    return _dropped(context, motif, line, room)


_SIMPLE: dict[str, Callable[[Tiling], Tiling]] = {
    "mirrored": changes.mirrored,
    "flipped": changes.flipped,
    "half turn": changes.turned,
    "doubled about both stitches": lambda motif: changes.doubled(motif, "both stitches"),
}
_RECTANGLES = (*LINES["doubled"].forms, "brick", "half drop", "drop PART", "next shifts N sts")
"""Changes that lay the whole period of a motif out."""


def read_shift(context: Context, line: Line, width: int) -> int | None:
    """Give the stitches of a `next shifts` line."""
    number = line.head.number("N")
    shift = whole(context, number, 0)
    if shift is not None and shift >= width:
        context.report(
            "E244",
            f"a shift of {shift} sts is a whole repeat of {width} sts or more",
            number.span,
            "too far",
            f"Write a shift of 0 to {width - 1} sts.",
        )
        return None
    return shift


def _shifted(context: Context, motif: Motif, line: Line) -> Tiling | None:
    matches = [match for match in (line.head, *line.options.values())]
    stitches = [whole(context, match.number("N1")) for match in matches if "N1" in match.found]
    rows = [whole(context, match.number("N2")) for match in matches if "N2" in match.found]
    if None in stitches or None in rows:
        return None
    return changes.shifted(motif.tiling, sum(n or 0 for n in stitches), sum(n or 0 for n in rows))


def _colours(context: Context, motif: Motif, line: Line) -> dict[str, str] | None:
    yarns = dict(motif.marks)
    found: dict[str, str] = {}
    sound = True
    for pair in (line.head, *line.listed):
        old, new = pair.name("YARN"), pair.name("YARN2")
        if old.text in found:
            context.report(
                "E205",
                f"`{old.text}` is recoloured twice in one line",
                old.span,
                "the second one",
                "Keep one of the two.",
            )
            sound = False
        elif old.text not in yarns:
            _absent(context, motif, line, pair)
            sound = False
        sound = context.knows("yarn", new) and sound
        found[old.text] = new.text
    return found if sound else None


def _absent(context: Context, motif: Motif, line: Line, pair: Match) -> None:
    old = pair.name("YARN")
    named = {each.name("YARN").text for each in (line.head, *line.listed)}
    free = [yarn for yarn, _ in motif.marks if yarn not in named]
    near = near_word(old.text, free)
    context.report(
        "E247",
        f"there is no {old.text} in the motif `{motif.name}` that could be recoloured",
        old.span,
        f"did you mean `{near}`?" if near else "not in it",
        f"Its colours here: {', '.join(yarn for yarn, _ in motif.marks)}.",
        fixes=[Fix(f"write `{yarn}`", (Edit(old.span, yarn),)) for yarn in ([near] if near else free[:3])],
        also=[(motif.span, "the motif")],
    )


def _recoloured_marks(motif: Motif, line: Line) -> tuple[tuple[str, str], ...]:
    new = {pair.name("YARN").text: pair.name("YARN2").text for pair in (line.head, *line.listed)}
    marks: dict[str, str] = {}
    for yarn, mark in motif.marks:
        marks.setdefault(new.get(yarn, yarn), mark)
    return tuple(marks.items())


def _brick(context: Context, motif: Motif, line: Line) -> Tiling | None:
    if motif.width % 2 == 0:
        return changes.bricked(motif.tiling)
    instead = f"next shifts {motif.width // 2} sts"
    context.report(
        "E246",
        f"the motif `{motif.name}` has {motif.width} sts, so its repeats cannot be laid half a repeat along",
        line.span,
        "an odd number of stitches",
        f"Add or leave out a stitch, or write `{instead}`, which is nearly half.",
        fixes=[Fix(f"write `{instead}`", (Edit(line.span, instead),))] if motif.width > 1 else [],
        also=[(motif.span, "the motif")],
    )
    return None


def _dropped(context: Context, motif: Motif, line: Line, room: Room) -> Tiling | None:
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
    context.report(
        "E246",
        f"the {height} rows of `{motif.name}` cannot be dropped by {context.cut(line.span).removeprefix('drop ')}"
        if parts < 2
        else f"the motif `{motif.name}` has {height} rows, which do not divide into {parts} equal parts",
        line.span,
        "a drop is 1/2, 1/3, 1/4 …" if parts < 2 else f"{height} rows by {parts}",
        (f"Write `{instead}`, or add" if best else "Add")
        + " or leave out rows so that they divide; a plain row will do.",
        fixes=[Fix(f"write `{instead}`", (Edit(line.span, instead),))] if best else [],
        also=[(motif.span, "the motif")],
    )
