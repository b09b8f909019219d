"""Instruction lines of a crown, in rounds."""

from __future__ import annotations

from itertools import groupby, pairwise

from wale.actions import Crown
from wale.plan import CrownPlan, Section
from wale.write.context import Context
from wale.write.evenly import even_words
from wale.write.lines import Line, Ordinal, Part, Sts, Times
from wale.write.sections import chart_range, in_words


def crown_lines(at: Context, section: Section) -> list[Line]:
    """Write the crown of a hat."""
    plan, size = at.piece.crown, at.size
    assert plan is not None and isinstance(plan.step.action, Crown)
    action, address = plan.step.action, section.address
    before, start = at.first_count(section), plan.start[size]
    lines = []
    if action.manner == "plain":
        lines.append(at.line(f"{address}.plain", "", f"Crown: continue in stockinette in {action.yarn}."))
    if action.chart is not None:
        lines.append(at.line(f"{address}.own", "", f"Crown: continue in chart {action.chart}, once in each wedge."))
    if before != start:
        words = even_words(before, start - before, is_right_side=True, in_round=True)
        yarn = f"in {at.swatch(section).yarns[0]}, " if action.manner == "in pattern" and at.motif(section) else ""
        parts: tuple[Part, ...] = (yarn + "decrease ", Sts(before - start), " evenly: ", *words, ". ", start, " sts.")
        lines.append(at.line(f"{address}.even", "Crown, round 1", *parts))
    lines.append(_wedges(at, plan, section, action))
    if action.manner == "in pattern" and at.motif(section) is not None:
        text = "Each wedge keeps its columns to the top; k2tog takes the colour that the chart has at its place."
        lines.append(at.remark(f"{address}.keep", text))
    lines.append(_decrease_round(at, plan, section, action))
    lines.append(_schedule(at, plan, section, action))
    lines.append(_end(at, plan, section))
    return lines


def _wedges(at: Context, plan: CrownPlan, section: Section, action: Crown) -> Line:
    """Mark the wedges, and say where each starts in the chart: a wedge keeps its columns to the top."""
    wedge, motif = plan.start[at.size] // plan.wedges, at.motif(section)
    parts: list[Part] = [f"Divide the round into {plan.wedges} wedges of ", wedge, " sts and mark them"]
    if action.manner == "in pattern" and motif is not None:
        origin = at.start_columns(section, at.first_count(section))[0] - 1
        columns = [(origin + number * wedge) % motif.width + 1 for number in range(plan.wedges)]
        if len(set(columns)) == 1:
            parts += ["; each wedge starts at chart column ", columns[0]]
        else:
            parts.append("; the wedges start at chart columns ")
            for number, column in enumerate(columns):
                parts += [", " if number else "", column]
    return at.line(f"{section.address}.wedges", "Crown", *parts, ".")


def _decrease_round(at: Context, plan: CrownPlan, section: Section, action: Crown) -> Line:
    inside = {"in pattern": "work in chart", "plain": "knit", "chart": "work the chart row"}[action.manner]
    if at.motif(section) is None and action.chart is None:
        inside = "knit"
    words = f"in each of the {plan.wedges} wedges {inside} to the last 2 sts of the wedge, k2tog"
    return at.line(f"{section.address}.row", "Each decrease round", f"{words}. {plan.wedges} sts fewer.")


def _schedule(at: Context, plan: CrownPlan, section: Section, action: Crown) -> Line:
    size = at.size
    rounds = [number for number, _ in plan.decrease_rounds[size]]
    parts: list[Part] = ["Work the decrease round on round ", rounds[0]]
    intervals = [after - before for before, after in pairwise(rounds)]
    for interval, run in groupby(intervals):
        if interval == 1:
            parts += [", then on every round ", Times(len(list(run)))]
        else:
            parts += [", then on every ", Ordinal(interval), " round ", Times(len(list(run)))]
    parts.append("; work the other rounds even")
    if action.manner == "in pattern":
        parts += [
            f" in {in_words(at, section)}",
            *chart_range(at, section, plan.rounds[size], 2 if at.first_count(section) != plan.start[size] else 1),
        ]
    parts += [": ", at.rows(plan.rounds[size]), ", ", plan.final[size], " sts."]
    return at.line(section.address, "", *parts)


def _end(at: Context, plan: CrownPlan, section: Section) -> Line:
    parts: tuple[Part, ...] = ("Cut the yarn, draw it through the last ", plan.final[at.size], " sts and fasten off.")
    return at.line(f"{section.address}.end", "", *parts)
