"""A sheet that keeps the knitter's place: a line a row, with chart row, start column, shaping due, stitches, a box."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from wale.pattern import Bullets, Paragraph, Part
from wale.plan import Plan
from wale.prove.facts import PieceFacts, RowFact
from wale.spec import Spec
from wale.write.context import Context
from wale.write.facts import piece_facts
from wale.write.side_edges import ENDS, side_gone, top_rows
from wale.write.tops import side_count, stepped_off

PARTS = {"": "", "left": "left side: ", "right": "right side: "}


def row_sheets(spec: Spec, plan: Plan, size: int) -> tuple[Part, ...]:
    """Give a sheet of each piece and band in one size; rows count from the cast-on."""
    parts: list[Part] = []
    for fact in piece_facts(spec, plan, (size,)):
        piece = plan.piece(fact.piece)
        sides = _sides(Context(spec, plan, piece, size)) if piece is not None and piece.top is not None else {}
        binds = 0
        if piece is not None and piece.half is not None and piece.top is not None:
            binds = piece.total_rows(size) - top_rows(Context(spec, plan, piece, size)) + 1
        begin = f"begin with {fact.cast_on} sts; tick each row when it is done."
        parts += [
            Paragraph(begin, f"{fact.piece.capitalize()}, size {plan.sizes[size]}:"),
            Bullets(tuple(_lines(fact, sides, binds))),
        ]
    return tuple(parts)


def _sides(at: Context) -> dict[str, int]:
    """Give the stitches of each side as the neck row leaves them; steps may have begun at one shoulder only."""
    top, size, rows = at.piece.top, at.size, top_rows(at)
    assert top is not None
    row = rows - top.neck_rows[size] + 1
    return {side: side_count(at) - stepped_off(at, side, row, rows) - side_gone(at, side, row) for side in ENDS}


def _lines(fact: PieceFacts, sides: Mapping[str, int], binds: int) -> Iterator[Paragraph]:
    """Give the lines of a sheet; from row `binds` on a half piece has its neck and shoulder (0: it has none)."""
    divided = next((row.number for row in fact.rows if row.part), 0)
    before: RowFact | None = None
    whole: RowFact | None = None
    for row in fact.rows:
        if row.part and (before is None or before.part != row.part):
            count = sides[row.part]
        else:
            count = before.stitches if before is not None else fact.cast_on
        lead = PARTS[row.part] if before is None or before.part != row.part else ""
        where = (
            f"chart row {row.chart_row}" + (f" from column {row.start}" if row.start else "") if row.chart else "plain"
        )
        due = _due(
            row,
            whole if row.part and lead else before,
            count,
            is_neck=row.number == divided - 1,
            binds=0 < binds <= row.number,
        )
        side = "" if row.side == "round" else f" {row.side}"
        told = f"{lead}{where}; {due + '; ' if due else ''}{row.stitches} sts"
        yield Paragraph(told, f"{row.number}{side}:")
        before = row
        whole = whole if row.part else row


def _due(row: RowFact, before: RowFact | None, count: int, *, is_neck: bool, binds: bool) -> str:
    """Say what is to be done beside working on in pattern.

    Args:
        before: the row below.
        count: its stitches of this part.
        binds: whether what goes is bound off.
    """
    change = row.stitches - count
    words = []
    if change and row.shaped:
        edge = "each" if row.shaped == "both" else f"the {row.shaped}"
        words.append(f"{'increase' if change > 0 else 'decrease'} 1 st at {edge} edge")
        both = 2 if row.shaped == "both" else 1
        change += both if change < 0 else -both
    if is_neck and row.bound:
        words.append(f"bind off {row.bound}")
        change += row.bound
    if change and (row.part or is_neck or binds or row.bound):
        words.append(f"bind off {-change}" + (" for the neck" if is_neck else ""))
    elif change:
        words.append(f"{abs(change)} sts {'more' if change > 0 else 'fewer'}")
    waited = before.waiting if before is not None else (0, 0)
    ends = {"": (0, 1), "right": (0,), "left": (1,)}[row.part]
    for old, new in ((waited[end], row.waiting[end]) for end in ends):
        if new > old:
            words.append(f"turn; {new} sts wait at this end")
        elif new < old:
            words.append("close the turns")
    return ", ".join(words)
