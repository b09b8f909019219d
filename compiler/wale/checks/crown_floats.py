"""N620: strands of a crown that pass too far over the joints of wedges, or over the start of a round.

What: a wedge keeps its columns and loses stitches at its end, so that at the joint of two wedges the motif breaks off,
and a yarn may be passed over for longer than in any row of the chart. Runs inside a wedge are those of the chart.
Limit: that of all floats (`floats.py`).
Example: a lone column of flour that one wedge has just lost and the next has not yet reached.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from wale.actions import Crown
from wale.checks.floats import catches, either, most_stitches
from wale.draft.motifs import column
from wale.materials import Motif
from wale.plan import PiecePlan, Plan, Section
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.source import Span
from wale.spec import Spec


class CrownFloat(Struct, frozen=True):
    """The longest strand of a crown's round, of those over a joint or over the round's start.

    Attributes:
        size: index of the size.
        round: the crown's round, from 1; of a strand over the start, the one that begins.
        before: stitches passed in the wedge (over the start, in the round) that ends; the others lie in what follows.
        span_cm: the stitches passed, in cm.
        catch: for each catch the stitches of the run, from 1 at either end, it may be made at; none within the limit.
        over_start: whether it passes over the start of the round.
    """

    piece: str
    motif: str
    swatch: str
    size: int
    round: int
    yarn: str
    stitches: int
    before: int
    span_cm: Fraction
    catch: tuple[tuple[int, ...], ...]
    over_start: bool
    span: Span


class _Round(Struct):
    """A round in a motif: number in the crown (0: the one below), stitches of a wedge, columns, their repeat, yarns."""

    number: int
    wedge: int
    columns: list[int]
    width: int
    yarns: list[str]


def crown_floats(spec: Spec, plan: Plan) -> tuple[CrownFloat, ...]:
    """Give the strands to be caught in crowns, one a round at most, by piece, size and round."""
    return tuple(one for one in crown_strands(spec, plan) if one.catch)


def crown_strands(spec: Spec, plan: Plan) -> tuple[CrownFloat, ...]:
    """Give the longest strand of each round of crowns over a joint or the round's start, within the limit or not."""
    found: list[CrownFloat] = []
    for piece in plan.pieces:
        section = next((one for one in piece.sections if one.kind == "crown"), None)
        motif = crown_motif(spec, section)
        if section is None or motif is None:
            continue
        swatch = spec.swatches[section.swatch]
        most = most_stitches(spec, swatch)
        for size in range(len(plan.sizes)):
            below: _Round | None = None
            for one in _rounds(piece, section, motif, size):
                runs = [*_joints(one), *(_starts(below, one) if below is not None else ())] if one.number else []
                run, before, over, yarn = max(runs, key=lambda each: each[0], default=(0, 0, False, ""))
                if run:
                    where = (piece.name, motif.name, swatch.name, size, one.number, yarn)
                    far = (run, before, run / swatch.washed.stitches, catches(run, most))
                    found.append(CrownFloat(*where, *far, over, section.step.action.span))
                below = one
    return tuple(found)


def crown_motif(spec: Spec, section: Section | None) -> Motif | None:
    """Give the motif in which a crown is worked, its own chart or that of the piece; None where it is plain."""
    if section is None or not isinstance(section.step.action, Crown):
        return None
    action = section.step.action
    if action.manner == "chart" and action.chart is not None:
        return spec.motifs[action.chart]
    if action.manner == "in pattern" and section.fabric is not None and section.fabric.motif is not None:
        return spec.motifs[section.fabric.motif]
    return None


def _rounds(piece: PiecePlan, section: Section, motif: Motif, size: int) -> Iterator[_Round]:
    """Give the round below the crown where it is in the same motif, then those of the crown that follow the motif."""
    plan, count = piece.crown, piece.levels[section.first].counts[size]
    assert plan is not None
    start, wedges = plan.start[size], plan.wedges
    lost = dict(plan.decrease_rounds[size])
    first = 1 if count == start else 2
    if motif.wedge:
        for number in range(first, plan.rounds[size] + 1):
            row = number - first
            yarns = [motif.rows[row][-1 - at] for at in range(len(motif.rows[row]))]
            yield _Round(number, len(yarns), [*range(len(yarns))] * wedges, len(yarns), yarns * wedges)
        return
    assert section.chart_start is not None
    width, row = motif.width, section.chart_start[size] - 1
    origin = column(section, width, count, 0, size)
    below = piece.sections[piece.sections.index(section) - 1]
    length, has_below = start // wedges, below.fabric == section.fabric and below.rows[size] > 0
    for number in range(plan.rounds[size] + 1):
        length = lost[number] // wedges if number in lost else length
        if number < first and (number or first > 1 or not has_below):
            continue
        columns = [(origin + wedge * (start // wedges) + at) % width for wedge in range(wedges) for at in range(length)]
        yarns = [motif.cell(one, row + number) for one in columns]
        yield _Round(number, length, columns, width, yarns)


def _joints(one: _Round) -> Iterator[tuple[int, int, bool, str]]:
    """Give (stitches passed, those in the first wedge, False, yarn) of runs over a joint where the columns break."""
    last: dict[str, int] = {}
    breaks = [0]
    for before, after in pairwise(one.columns):
        breaks.append(breaks[-1] + ((after - before) % one.width != 1 % one.width))
    for place, yarn in enumerate(one.yarns):
        before = last.get(yarn, place)
        if place - before > 1 and breaks[place] > breaks[before]:
            yield place - before - 1, one.wedge - 1 - before % one.wedge, False, yarn
        last[yarn] = place


def _starts(below: _Round, one: _Round) -> Iterator[tuple[int, int, bool, str]]:
    """Give (stitches passed, those of the round that ends, True, yarn) of runs over the start of a round."""
    for yarn in dict.fromkeys(one.yarns):
        if yarn in below.yarns:
            ended = below.yarns[::-1].index(yarn)
            yield ended + one.yarns.index(yarn), ended, True, yarn


def crown_words(one: CrownFloat) -> str:
    """Say where a strand of a crown lies, how far it passes, and where to catch it."""
    where = "the start of the round" if one.over_start else "a joint"
    places = " and at st ".join(either(choice) for choice in one.catch)
    return f"round {one.round}: {one.yarn} passes {one.stitches} sts over {where}, catch at st {places}"


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Note each piece once, with its longest strand; the pattern lists them by size and round."""
    problems = []
    found = crown_floats(spec, plan)
    for piece in dict.fromkeys(one.piece for one in found):
        longest = max((one for one in found if one.piece == piece), key=lambda one: one.stitches)
        problems.append(
            Problem(
                "N620",
                f"in the crown of {piece}, strands pass up to {longest.stitches} sts "
                f"({length_words(longest.span_cm, spec.units)}) where the wedges of {longest.motif} meet; the limit is "
                f"{most_stitches(spec, spec.swatches[longest.swatch])} sts",
                (Label(longest.span, f"the longest in size {plan.sizes[longest.size]}"),),
                help=f"Catch the strand: crown {crown_words(longest)}. Stitches count from either end of the run; "
                "the pattern lists the longest of each round.",
            )
        )
    return problems
