"""All instruction lines of a piece or band in one size, in knitting order."""

from __future__ import annotations

from wale.actions import BindOff, CastOn, Hold, Joining, Mark, Neck, Note, Shoulders
from wale.write.context import Context
from wale.write.cords import cord_line
from wale.write.crowns import crown_lines
from wale.write.half_tops import half_top_lines
from wale.write.joining import hold_lines, joining_lines
from wale.write.lines import Line, Sts
from wale.write.sections import cast_on_lines, section_lines
from wale.write.side_edges import marks_in_top
from wale.write.steeks import steek_lines
from wale.write.tops import top_lines


def piece_lines(at: Context) -> list[Line]:
    """Write a piece."""
    lines: list[Line] = []
    piece = at.piece
    # Neck and shoulders interleave: both are written where the later of the two stands.
    tops = next((step for step in reversed(piece.steps) if isinstance(step.action, Neck | Shoulders)), None)
    for step in piece.steps:
        action = step.action
        own = [(index, one) for index, one in enumerate(piece.sections) if one.step == step]
        if isinstance(action, CastOn):
            lines += [*cast_on_lines(at, action, f"{piece.name}.cast-on"), *steek_lines(at)]
        elif isinstance(action, Joining):
            lines += joining_lines(at, action, f"{piece.name}.join")
        elif isinstance(action, Hold):
            lines += hold_lines(at, f"{piece.name}.hold")
        elif isinstance(action, Note):
            lines.append(
                at.remark(f"{piece.name}.{step.address.split('.', 1)[1]}", f"Note (not proven): {action.text}")
            )
        elif isinstance(action, Mark) and action.name not in dict(marks_in_top(at)):
            where = "the start of the next round" if piece.in_round else "both ends of the last row"
            lines.append(at.line(f"{piece.name}.{action.name}", "", f"Mark {where}: {action.name}."))
        elif isinstance(action, BindOff):
            lines.append(_bind_off(at, action, f"{piece.name}.bind-off"))
        for index, section in own:
            lines += section_lines(at, section, index)
            if section.kind == "crown":
                lines += crown_lines(at, section)
        if step is tops:
            write = top_lines if piece.half is None else half_top_lines
            lines += write(at, piece.sections[-1])
    return lines


def _bind_off(at: Context, action: BindOff, slot: str) -> Line:
    count = at.piece.levels[-1].counts[at.size]
    swatch = at.spec.swatches[at.piece.levels[-1].swatch]
    if action.cord:
        return cord_line(at, slot, count, action.cord, swatch.yarns[0])
    manner = f", {action.manner}" if action.manner else ""
    return at.line(slot, "", "Bind off all ", Sts(count), f" in {swatch.yarns[0]}{manner}.")
