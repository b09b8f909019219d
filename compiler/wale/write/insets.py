"""The lines of pockets that are inset: where stitches wait on a holder and those of a lining take their place."""

from __future__ import annotations

from wale.pockets import Slot, slots_of
from wale.spec import SewnOn
from wale.write.context import Context
from wale.write.lines import Line, Part


def inset_lines(at: Context, index: int) -> list[Line]:
    """Write the openings in the rows of a section, before its lines."""
    below = at.piece.rows_to(index, at.size)
    rows = range(below + 1, below + at.piece.sections[index].rows[at.size] + 1)
    slots = [one for one in slots_of(at.plan, at.spec.joins, at.piece, at.size) if one.row in rows]
    return [line for one in slots for line in (_first(at, one), _line(at, one, one.row - below))]


def _first(at: Context, slot: Slot) -> Line:
    text = f"The {slot.lining} is worked before the next opening. Its place is counted from where the row starts."
    return at.remark(f"{at.piece.name}.inset.{slot.lining}.first", text)


def lining_lines(at: Context) -> list[Line]:
    """Say what becomes of a lining's last stitches."""
    onto = [
        one.onto for one in at.spec.joins if isinstance(one, SewnOn) and one.is_inset and one.piece == at.piece.name
    ]
    if not onto:
        return []
    text = f"Cut the yarn and leave the sts on a spare needle; they go into the {' and the '.join(onto)}."
    return [at.remark(f"{at.piece.name}.live", text)]


def _line(at: Context, slot: Slot, row: int) -> Line:
    first, *others = slot.places
    parts: list[Part] = ["on row ", row, " from here (RS), put sts ", first, " to ", first + slot.stitches - 1]
    for place in others:
        parts += [" and sts ", place, " to ", place + slot.stitches - 1]
    where, whose, here = " on a holder", "the", "their place"
    if others:
        where, whose, here = " each on a holder of its own", "a", "the place of either"
    parts += [f"{where} and work the ", slot.stitches, f" live sts of {whose} {slot.lining} in {here}."]
    lead = "Pockets" if others else "Pocket"
    return at.line(f"{at.piece.name}.inset.{slot.lining}", lead, *parts)
