"""Rows of bands that are worked flat: in rib or another texture, with buttonholes, and the short rows of a collar."""

from __future__ import annotations

from itertools import groupby

from wale.plan import BandPlan, CollarPlan
from wale.spec import Band
from wale.write.context import Context
from wale.write.lines import Line, Part, Rows, Sts, Times
from wale.write.row_ends import NO_ENDS
from wale.write.textures import row_words, texture_run, texture_told

DOUBLE = (
    "After each turn make the first st a double stitch (ds): slip it and draw the yarn tight over the needle, so that "
    "both its legs lie on it; where a row comes to it again, work these as one st:"
)
"""How short rows of a collar are turned: https://www.reginamoessmerdesign.com/pages/german-short-rows."""


def flat_rows(at: Context, band: Band, plan: BandPlan) -> list[Line]:
    """Write the rows of a flat band; picked up from the right side, its first one is a wrong-side row."""
    size, collar = at.size, plan.collar
    rows = plan.rows[size] if collar is None else collar.base[size]
    lines = _told(at, band, plan)
    if plan.holes:
        below = plan.hole_rows[size] - 1
        lines += [
            _run(at, band, f"{band.name}.rib", 1, below),
            _hole_row(at, band, plan),
            _hole_close(at, band, plan),
        ]
        above = rows - below - 2
        lines += [_run(at, band, f"{band.name}.rib.above", below + 3, above)] if above else []
    else:
        lines.append(_run(at, band, f"{band.name}.rib", 1, rows))
    return lines if collar is None else [*lines, *_short_rows(at, band, plan, collar)]


def _told(at: Context, band: Band, plan: BandPlan) -> list[Line]:
    """Tell the rows that are worked over and over, stitch by stitch."""
    count = plan.stitches[at.size]
    if band.rib.texture != "rib":
        return texture_told(at, f"{band.name}.rib", band.rib, count)
    lines = []
    for is_right, side, slot in ((False, "WS", "wrong"), (True, "RS", "right")):
        sizes = (band.rib.knit, band.rib.purl)
        words = row_words(count, "kp", sizes, NO_ENDS, is_right_side=is_right, in_round=False)
        lines.append(at.line(f"{band.name}.rib.{slot}", f"Each rib row ({side})", *words, "."))
    return lines


def _run(at: Context, band: Band, slot: str, first: int, rows: int) -> Line:
    """Tell so many rows from row `first` of the band on."""
    if band.rib.texture != "rib":
        return texture_run(at, slot, band.rib, rows, start=first + 1)
    side, name = "WS" if first % 2 else "RS", f"{band.rib.knit}x{band.rib.purl} rib"
    return at.line(slot, "Rib", "work ", Rows(rows), f" in {name}, beginning with the {side} rib row.")


def _hole_row(at: Context, band: Band, plan: BandPlan) -> Line:
    """The row on which the buttonholes are bound off: work 4, (bind off 2, work 12) 5 times, bind off 2, work 4."""
    first, *others = plan.holes[at.size]
    parts: list[Part] = [f"in {band.rib.texture}, work ", first]
    for gap, times in [(gap, len(list(run))) for gap, run in groupby(others)]:
        if times == 1:
            parts += [", bind off ", plan.each, ", work ", gap]
        else:
            parts += [", (bind off ", plan.each, ", work ", gap, ") ", Times(times)]
    left = plan.stitches[at.size] - plan.each * len(others)
    return at.line(f"{band.name}.holes", "Buttonhole row (RS)", *parts, ". ", left, " sts.")


def _hole_close(at: Context, band: Band, plan: BandPlan) -> Line:
    parts: tuple[Part, ...] = (f"in {band.rib.texture}, cast on ", Sts(plan.each), " over each gap: ")
    return at.line(f"{band.name}.holes.closed", "Next row (WS)", *parts, plan.stitches[at.size], " sts.")


def _short_rows(at: Context, band: Band, plan: BandPlan, collar: CollarPlan) -> list[Line]:
    """The short rows of a collar, each longer than the one before it, and the two rows that close their turns."""
    size, name = at.size, f"{band.name}.turns"
    base = collar.base[size]
    left, right = collar.waiting(size, base + 1)[1], collar.waiting(size, base + 2)[0]
    parts: list[Part] = [f"keep on in {band.rib.texture}: on the next row (RS) leave the last ", left]
    parts += [" sts unworked and turn; on the row after it (WS) leave the last ", right, " sts unworked and turn"]
    for number, (gap, run) in enumerate(groupby(collar.gaps[size][:-1])):
        parts += [", then" if number else "; then turn", " on each of the next ", Rows(2 * len(list(run))), ", "]
        parts += [Sts(gap), " past it" if number else " past the double stitch of the turn before on that side"]
    return [
        at.remark(f"{name}.how", DOUBLE),
        at.line(name, "Short rows", *parts, "."),
        at.line(f"{name}.closed", "", "Work the next 2 rows to the end, closing the turns: ", plan.last(size), " sts."),
    ]
