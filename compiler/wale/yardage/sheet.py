"""The sheet for a test knit: what was planned, and room for what was got."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.pattern import Paragraph, Part, Section, Table
from wale.plan import Plan
from wale.quantity import show_decimal
from wale.spec import Spec
from wale.write.context import gauge_span
from wale.write.materials import swatches_used
from wale.write.measurements import finished_table
from wale.write.yarn_needed import Place, places
from wale.write.yarn_table import range_text
from wale.write.yarn_used import ZERO, Rates, Spread

BLANK = "_" * 8
REMARKS = 12
"""Empty lines for remarks."""


def sheet_section(spec: Spec, plan: Plan, sizes: Sequence[int]) -> Section:
    """Give the sheet: gauge got, grams and hours of each piece, measures, remarks by row; one size at least."""
    parts: list[Part] = [Paragraph(f"Size: {BLANK}  Knitter: {BLANK * 2}  Begun: {BLANK}  Ended: {BLANK}")]
    gauge = []
    over, span = gauge_span(spec)
    for swatch in swatches_used(spec, plan):
        sts, rows = (show_decimal(one * over, 1) for one in (swatch.washed.stitches, swatch.washed.rows))
        gauge.append((swatch.name, f"{sts} sts, {rows} rows", f"{BLANK} sts, {BLANK} rows", BLANK))
    parts.append(Table(f"Gauge in {span}, washed", ("fabric", "planned", "got", "needle"), tuple(gauge)))
    for size in sizes:
        parts.append(_grams(plan.sizes[size], places(spec, plan, size, Rates(spec, plan, size))))
        parts.append(_measures(spec, plan, size))
    remarks = tuple((str(line), BLANK * 2, BLANK * 5) for line in range(1, REMARKS + 1))
    parts.append(Table("Remarks by row", ("", "piece and row", "remark"), remarks))
    parts.append(
        Paragraph(
            "Write what you got into the spec: the gauge in the swatch's `washed` line; grams and hours in a line of "
            f"the piece, such as `knitted 146 g in {plan.sizes[sizes[0]]}, 9 hours`, which takes the place of the "
            "estimate; what is left of a yarn in `wale yarn --left`."
        )
    )
    return Section("test-knit", "Sheet for a test knit", tuple(parts))


def _grams(size: str, found: Sequence[Place]) -> Table:
    rows: list[tuple[str, ...]] = []
    for place in found:
        whole = [use.spread for use in place.knitted.values()]
        ends = sum(place.finish.values(), ZERO)
        known = sum((spread for spread in whole if spread is not None), Spread(ends, ends, ends))
        each = known.times(Fraction(1, place.make)) if None not in whole else None
        for copy in range(1, place.make + 1):
            words = f"{place.name} {copy}" if place.make > 1 else place.name
            rows.append((words, range_text(each), BLANK, BLANK))
    rows.append(("making up", "", BLANK, BLANK))
    return Table(f"Grams and hours, {size}", ("piece", "estimated g", "got g", "hours"), tuple(rows))


def _measures(spec: Spec, plan: Plan, size: int) -> Table:
    planned = finished_table(spec, plan, (size,))
    rows = tuple((row[0], row[1], BLANK) for row in planned.rows if not row[0].startswith("ease "))
    return Table(f"Measures, {plan.sizes[size]}, in {spec.units}", ("measure", "planned", "got"), rows)
