"""Lines that change a motif: mirrored, flipped, half turn, shifted, recoloured, doubled, brick, half drop, drop, next.

Each takes the motif as the lines above it left it and gives a plain motif again, or None after a report.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from msgspec.structs import replace

from wale.materials import Motif
from wale.motifs import changes
from wale.motifs.tiling import Tiling
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.context import Context, near_word
from wale.resolve.motif_parts import brick, drop, read_shift
from wale.resolve.motif_room import Room
from wale.resolve.shapes import Line, Match, Shape
from wale.source import Span
from wale.stitches import OTHER_LEAN, TEXTURE

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


def change(context: Context, motif: Motif, line: Line, room: Room) -> Motif | None:
    """Give the motif with a line's change, or None after a report."""
    tiling = _changed(context, motif, line, room)
    if tiling is None:
        return None
    if motif.is_texture:
        tiling = _leaning(tiling, line, motif.width)
    marks = _recoloured_marks(motif, line) if line.keyword == "recoloured" else motif.marks
    if motif.is_texture:
        marks = _texture_marks(motif, tiling)
    spans = _spans(motif, line, len(tiling.rows))
    return replace(motif, rows=tiling.rows, row_spans=spans, shift=tiling.shift, marks=marks)


def _leaning(tiling: Tiling, line: Line, width: int) -> Tiling:
    """Let the stitches of a mirror image lean the other way; half a turn leaves them as they lean."""
    if line.keyword in ("mirrored", "flipped"):
        return changes.recoloured(tiling, OTHER_LEAN)
    if line.keyword != "doubled":
        return tiling
    # the mirror image is what was added at the left
    image = [len(row) - width for row in tiling.rows]
    rows = zip(tiling.rows, image, strict=True)
    return Tiling(
        tuple((*(OTHER_LEAN.get(one, one) for one in row[:end]), *row[end:]) for row, end in rows), tiling.shift
    )


def _texture_marks(motif: Motif, tiling: Tiling) -> tuple[tuple[str, str], ...]:
    """Give the marks of a texture's stitches, those that only its mirror image has by the marks of a chart."""
    known, cells = dict(motif.marks), {cell for row in tiling.rows for cell in row}
    return (*motif.marks, *((name, TEXTURE[name].mark) for name in TEXTURE if name in cells and name not in known))


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
            return brick(context, motif, line)
        case "next":
            shift = read_shift(context, line, motif.width)
            return changes.offset(motif.tiling, shift) if shift is not None else None
    return drop(context, motif, line, room)


_SIMPLE: dict[str, Callable[[Tiling], Tiling]] = {
    "mirrored": changes.mirrored,
    "flipped": changes.flipped,
    "half turn": changes.turned,
    "doubled about both stitches": lambda motif: changes.doubled(motif, "both stitches"),
}
_RECTANGLES = (*LINES["doubled"].forms, "brick", "half drop", "drop PART", "next shifts N sts")
"""Changes that lay the whole period of a motif out."""


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
