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

    A cell reads `3: 157, 1/11`: after row 3 there are 157 stitches; that row itself and the right-side rows after it
    start at chart column 1, wrong-side rows at 11.
    """
    contexts = [Context(spec, plan, piece, size) for size in sizes]
    if contexts[0].motif(section) is None:
        return None
    columns = []
    for at in contexts:
        cells = []
        for row, count in shaping_rows(at, section):
            right, wrong = at.start_columns(section, count)
            cells.append(f"{row}: {count}, {right}/{wrong}")
        columns.append(cells)
    most = max(len(cells) for cells in columns)
    if not most:
        return None
    rows = tuple(
        (str(Ordinal(number + 1)), *(cells[number] if number < len(cells) else "–" for cells in columns))
        for number in range(most)
    )
    return Table(
        f"{piece.name.capitalize()}, shaping rows: row, stitches after it, chart columns where RS/WS rows start",
        ("shaping", *(plan.sizes[size] for size in sizes)),
        rows,
        "The first column holds from the shaping row itself on: its first chart stitch, the joined or the new one, has "
        "the colour of that column. Edge stitches are passed over.",
    )
