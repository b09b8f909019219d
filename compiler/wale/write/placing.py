"""Where rows start in the chart after each shaping row, by size."""

from __future__ import annotations

from collections.abc import Sequence

from wale.pattern import Bullets, Paragraph, Part, Table
from wale.plan import PiecePlan, Plan, Section
from wale.spec import Spec
from wale.write.context import Context
from wale.write.rows import shaping_rows

NOTE = (
    "The RS column holds from the shaping row itself on: its first chart stitch, the joined or the new one, is "
    "worked as that column shows. Edge stitches are passed over."
)


def starts(spec: Spec, plan: Plan, piece: PiecePlan, section: Section, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Give a table for one size, a line for each of several; nothing where the section is plain or unshaped.

    `3: 157 sts, 1/11` means: after row 3 there are 157 stitches; that row itself and the right-side rows after it start
    at chart column 1, wrong-side rows at 11.
    """
    contexts = [Context(spec, plan, piece, size) for size in sizes]
    if contexts[0].motif(section) is None:
        return ()
    columns = {plan.sizes[at.size]: _starts(at, section) for at in contexts}
    if not any(columns.values()):
        return ()
    title = f"{piece.name.capitalize()}, after each shaping row: stitches, and chart columns where RS/WS rows start"
    if len(sizes) == 1:
        header = ("row", "stitches", "RS rows", "WS rows")
        rows = tuple(
            (str(row), str(count), str(right), str(wrong))
            for found in columns.values()
            for row, count, right, wrong in found
        )
        return (Table(title, header, rows, NOTE),)
    items = tuple(
        Paragraph("; ".join(f"{row}: {count} sts, {right}/{wrong}" for row, count, right, wrong in found), f"{size}:")
        for size, found in columns.items()
        if found
    )
    return (Paragraph(NOTE, f"{title}."), Bullets(items))


def _starts(at: Context, section: Section) -> list[tuple[int, int, int, int]]:
    """Row, stitches after it, and the columns where right-side and wrong-side rows start from there on."""
    return [(row, count, *at.start_columns(section, count)) for row, count in shaping_rows(at, section)]
