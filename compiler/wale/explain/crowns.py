"""Reasons of a crown's numbers: stitches of a wedge, decrease rounds, what is left."""

from __future__ import annotations

from itertools import pairwise

from wale.actions import Crown
from wale.explain.book import Book, known
from wale.explain.even import even_reasons, runs
from wale.explain.reason import Input
from wale.plan import CrownPlan, Section
from wale.write.context import Context

PLACES = "the first on round 1, the last on the last round, longer intervals first (docs/maths.md#crown-in-wedges)"


def crown_reasons(book: Book, at: Context, section: Section) -> None:
    """Tell the numbers of a crown."""
    plan = at.piece.crown
    assert plan is not None and isinstance(plan.step.action, Crown)
    size, name, spans = at.size, section.address, (plan.step.action.span,)
    below = (at.piece.levels[section.first].address, at.first_count(section))
    wedges = Input("wedges", plan.wedges, f"{plan.wedges} wedges", plan.step.action.span)
    start = plan.start[size]
    given = {"sts": known(below[0], below[1], "sts"), "wedges": wedges}
    if plan.step.action.chart is not None:
        given = {"wedge": known("stitches of the wedge's chart", start // plan.wedges, "sts"), "wedges": wedges}
        book.reckon(f"{name}.start", size, start, "sts", "{wedge} * {wedges}", given, spans=spans)
    else:
        template = "{sts} - mod({sts}, {wedges})"
        book.reckon(f"{name}.start", size, start, "sts", template, given, spans=spans)
    if below[1] != start:
        even_reasons(book, at, f"{name}.even", below, (f"{name}.start", start), plan.step.action.span)
    whole = {"sts": known(f"{name}.start", start, "sts"), "wedges": wedges}
    book.reckon(f"{name}.wedge", size, start // plan.wedges, "sts", "{sts} / {wedges}", whole, spans=spans)
    _columns(book, at, section, plan)
    rounds = plan.decrease_rounds[size]
    if rounds:
        _rounds(book, at, section, plan)
    less = {**whole, "times": known(f"{name}.decrease-rounds", len(rounds), "decrease rounds")}
    template = "{sts} - {wedges} * {times}"
    book.reckon(f"{name}.final", size, plan.final[size], "sts", template, less, spans=spans)


def _columns(book: Book, at: Context, section: Section, plan: CrownPlan) -> None:
    motif = at.motif(section)
    if motif is None or not isinstance(plan.step.action, Crown) or plan.step.action.manner != "in pattern":
        return
    wedge = plan.start[at.size] // plan.wedges
    origin = at.start_columns(section, at.first_count(section))[0]
    for number in range(plan.wedges):
        given = {
            "before": known("wedges before it", number, "wedges before it"),
            "wedge": known(f"{section.address}.wedge", wedge, "sts"),
            "width": known(f"stitches of {motif.name}", motif.width, f"sts of {motif.name}", motif.span),
            "origin": known("chart column at the start of the round", origin, "as first column of the round"),
        }
        address = f"{section.address}.column[{number + 1}]"
        template = "mod({origin} - 1 + {before} * {wedge}, {width}) + 1"
        column = (origin - 1 + number * wedge) % motif.width + 1
        book.reckon(address, at.size, column, "column", template, given, spans=(plan.step.action.span,))


def _rounds(book: Book, at: Context, section: Section, plan: CrownPlan) -> None:
    assert isinstance(plan.step.action, Crown)
    size, name, action = at.size, section.address, plan.step.action
    rounds = [number for number, _ in plan.decrease_rounds[size]]
    below, spans = at.first_count(section), (action.span,)
    surplus = 0 if below == plan.start[size] else 1
    if action.chart is not None:
        given = {"chart": Input("shorter rows of the wedge's chart", len(rounds), f"{len(rounds)} rows get shorter")}
        book.reckon(f"{name}.decrease-rounds", size, len(rounds), "times", "{chart}", given, spans=spans)
    else:
        given = {"wedge": known(f"{name}.wedge", plan.start[size] // plan.wedges, "sts of a wedge")}
        book.reckon(f"{name}.decrease-rounds", size, len(rounds), "times", "{wedge} - 1", given, spans=spans)
    base = {
        "rounds": known(f"{name}.rows", plan.rounds[size], "rounds"),
        "times": known(f"{name}.decrease-rounds, round 1 of the surplus counted", len(rounds) + surplus, "shapings"),
    }
    events = len(rounds) + surplus
    short = "floor(({rounds} - 1) / ({times} - 1))"
    every = [after - before for before, after in pairwise(([1] if surplus else []) + rounds)]
    by_rule = action.chart is None and events > 1
    quotient = (plan.rounds[size] - 1) // (events - 1) if events > 1 else 0

    def interval(value: int) -> tuple[str, dict[str, Input]]:
        if not by_rule:
            return "{rows}", {"rows": Input("rows of the chart", value, f"{value} rows of the chart")}
        return (short if value == quotient else f"{short} + 1"), base

    if surplus and by_rule:
        template, given = interval(every[0])
        template = f"{template} + 1"
    else:
        template, given = "{round}", {"round": Input("first round", rounds[0], f"round {rounds[0]}")}
    book.reckon(f"{name}.first", size, rounds[0], "round", template, given, spans=spans, rules=(PLACES,))
    mine = every[1:] if surplus else every
    for number, (value, times) in enumerate(runs(mine), 1):
        template, given = interval(value)
        address = f"{name}.interval[{number}]"
        book.reckon(address, size, value, "rounds", template, given, spans=spans, rules=(PLACES,))
        given = {"times": Input("equal intervals", times, f"{times} equal intervals")}
        book.reckon(f"{name}.times[{number}]", size, times, "times", "{times}", given, spans=spans, rules=(PLACES,))
