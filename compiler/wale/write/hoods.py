"""The rows of a hood: widened evenly on its first row, then plain; common practice, no source."""

from __future__ import annotations

from wale.plan import BandPlan
from wale.spec import Band
from wale.write.context import Context
from wale.write.evenly import even_words
from wale.write.lines import Line, Rows, Sts


def hood_lines(at: Context, band: Band, plan: BandPlan) -> list[Line]:
    """Write a hood between picking up and joining; picked up from the right side, its first row is a wrong-side row."""
    size, yarn = at.size, at.spec.swatches[band.swatch].yarns[0]
    before, wide, lines = plan.stitches[size], plan.hood[size], []
    more = wide - before
    if more:
        words = even_words(before, more, is_right_side=False, in_round=False)
        tail = (". ", wide, " sts.")
        slot = f"{band.name}.evened"
        lines.append(at.line(slot, "Next row (WS)", f"in {yarn}, increase ", Sts(more), " evenly: ", *words, *tail))
    rows = plan.rows[size] - (1 if more else 0)
    if rows:
        lines.append(at.line(f"{band.name}.plain", "", f"Continue in stockinette in {yarn}."))
        lines.append(at.line(f"{band.name}.rows", "", "Work ", Rows(rows), f" in stockinette in {yarn}."))
    return lines
