"""The lines of a band that is worked along with a half piece: its stitches, its buttonholes, its yarn beside charts."""

from __future__ import annotations

from itertools import groupby, pairwise

from wale.actions import Half
from wale.write.context import Context
from wale.write.lines import Line, Ordinal, Part, Times
from wale.write.row_ends import band_words

TEXTURES = {"garter": "garter", "rib": "1x1 rib", "seed": "seed stitch"}
SHORTER = (
    "Note (not proven): garter takes more rows than most fabrics for the same length. Where the band pulls the edge "
    "up, work two rows over its sts alone, turning at its inner end; leave them out of all counts of rows."
)
"""Why a band may pull, and the usual remedy (common practice, no source)."""
ON_ONE_ROW = (
    "Note (not proven): the buttonhole is closed on the row that opens it. Having bound off, turn the work, cast the "
    "sts on at the end of the sts just worked, and turn back."
)
"""How stitches are cast on within a row (common practice, no source)."""


def front_band_lines(at: Context) -> list[Line]:
    """Write the band of a half piece below its cast-on."""
    half = at.piece.half
    if half is None or half.band is None:
        return []
    count, address = half.band.stitches, f"{at.piece.name}.front-band"
    here, there = ("last", "first") if half.hand == "left" else ("first", "last")
    right, wrong = (band_words(at, is_right_side=is_right) for is_right in (True, False))
    text = f"the {here} {count} sts of RS rows and the {there} {count} sts of WS rows are a band in "
    text += f"{TEXTURES[half.band.texture]}, outside ribs and charts: {right} on RS rows, {wrong} on WS rows."
    lines = [at.line(address, "Front band", text)]
    if half.band.texture == "garter":
        lines.append(at.remark(f"{address}.rows", SHORTER))
    return [*lines, *_holes(at, half, f"{address}.holes")]


def hole_place(half: Half) -> int:
    """Give the stitches of the band that a right-side row works before a buttonhole; what is odd lies outside it."""
    assert half.band is not None and half.holes is not None
    inner = (half.band.stitches - half.holes.each) // 2
    return inner if half.hand == "left" else half.band.stitches - half.holes.each - inner


def _holes(at: Context, half: Half, address: str) -> list[Line]:
    if half.band is None or half.holes is None:
        return []
    rows, each, before = at.piece.hole_rows[at.size], half.holes.each, hole_place(half)
    parts: list[Part] = ["on row ", rows[0]]
    for interval, run in groupby(after - row for row, after in pairwise(rows)):
        parts += [", then on every ", Ordinal(interval), " row ", Times(len(list(run)))]
    after = half.band.stitches - each - before
    text = (
        f", counted from the cast-on, all of them RS rows: in the band work {before}, bind off {each}, cast on {each} "
    )
    text += f"in their place, work {after}."
    return [at.line(address, "Buttonholes", *parts, text), at.remark(f"{address}.closed", ON_ONE_ROW)]


def beside_line(at: Context, slot: str, main: str) -> Line:
    """Tell in which yarn the edge stitches and the band are worked beside a chart."""
    half, edge = at.piece.half, at.edge
    assert half is not None and half.band is not None
    side = f"{edge} edge {'st' if edge == 1 else 'sts'} at the side and " if edge else ""
    text = f"Work {side}the {half.band.stitches} sts of the front band in {at.piece.edge.yarn or main}"
    return at.line(f"{slot}.edge", "", f"{text}, outside the chart.")
