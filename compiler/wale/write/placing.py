"""Where rows start in the chart after each shaping row, by size."""

from __future__ import annotations

from collections.abc import Sequence

from wale.pattern import Table
from wale.plan import PiecePlan, Plan, Section
from wale.spec import Spec
from wale.write.context import Context
from wale.write.lines import Ordinal
from wale.write.rows import shaping_rows


def starts_table(spec: Spec, plan: Plan, piece: PiecePlan, section: Section, sizes: Sequence[int]) -> Table | None:
    """Give a table with a row for each shaping row, or None where the section is plain or nothing is shaped.

    A cell reads `row 3: 157 sts, 1/11`: the next right-side rows start at chart column 1, wrong-side rows at 11.
    """
    contexts = [Context(spec, plan, piece, size) for size in sizes]
    if contexts[0].motif(section) is None:
        return None
    columns = []
    for at in contexts:
        cells = []
        for row, count in shaping_rows(at, section):
            right, wrong = at.start_columns(section, count)
            cells.append(f"row {row}: {count} sts, {right}/{wrong}")
        columns.append(cells)
    most = max(len(cells) for cells in columns)
    if not most:
        return None
    rows = tuple(
        (str(Ordinal(number + 1)), *(cells[number] if number < len(cells) else "–" for cells in columns))
        for number in range(most)
    )
    return Table(
        f"{piece.name.capitalize()}: after each shaping row, the stitches and where the next rows start",
        ("shaping", *(plan.sizes[size] for size in sizes)),
        rows,
        "Chart columns at which the next RS/WS rows start, the edge stitch passed over.",
    )
