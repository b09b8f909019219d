"""N620: strands of a crown that pass too far over the joints of wedges, or over the start of a round.

What: a wedge keeps its columns and loses stitches at its end, so that at the joint of two wedges the motif breaks off,
and a yarn may be passed over for longer than in any row of the chart. Runs inside a wedge are those of the chart.
Limit: that of all floats (`floats.py`). Catches are staggered as those of the chart (`catching.py`), and stand apart
from these too.
Example: a lone column of flour that one wedge has just lost and the next has not yet reached.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from wale.checks.catching import Choice, Mark, choices, stagger
from wale.checks.crown_rounds import CrownRound, above, beneath, crown_motif, crown_rounds
from wale.checks.floats import catches, long_floats, most_stitches
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.source import Span
from wale.spec import Spec


class CrownFloat(Struct, frozen=True):
    """A strand of a crown's round over a joint or over the round's start.

    Attributes:
        size: index of the size.
        round: the crown's round, from 1; of a strand over the start the one that ends, 0 below the crown.
        wedge: after which it passes, from 1; 0 of a strand over the start of the round.
        first: the first stitch that it passes: round, and stitch of the round from 0.
        before: stitches passed in the wedge (over the start, in the round) that ends; the others lie in what follows.
        span_cm: the stitches passed, in cm.
        catch: the stitches of the run, from 1 as it is worked, at which it is caught; none within the limit.
    """

    piece: str
    motif: str
    swatch: str
    size: int
    round: int
    yarn: str
    wedge: int
    first: Mark
    stitches: int
    before: int
    span_cm: Fraction
    span: Span
    catch: tuple[int, ...] = ()


def crown_floats(spec: Spec, plan: Plan) -> tuple[CrownFloat, ...]:
    """Give the strands to be caught in crowns, by piece, size and round, as they are worked."""
    return tuple(
        one for rounds, strands in _crowns(spec, plan) for one in _caught(spec, plan, rounds, strands) if one.catch
    )


def crown_strands(spec: Spec, plan: Plan) -> tuple[CrownFloat, ...]:
    """Give all strands of crowns over a joint or the round's start, within the limit or not, no catch chosen."""
    return tuple(one for _, strands in _crowns(spec, plan) for one in strands)


def _crowns(spec: Spec, plan: Plan) -> Iterator[tuple[dict[int, CrownRound], list[CrownFloat]]]:
    """Give the rounds of each crown in a motif and size by number, and its strands."""
    for piece in plan.pieces:
        section = next((one for one in piece.sections if one.kind == "crown"), None)
        motif = crown_motif(spec, section)
        if section is None or motif is None:
            continue
        gauge, span = spec.swatches[section.swatch].washed.stitches, section.step.action.span
        for size in range(len(plan.sizes)):
            rounds = {one.number: one for one in crown_rounds(piece, section, motif, size)}
            where = (piece.name, motif.name, section.swatch, size)
            yield (
                rounds,
                [
                    CrownFloat(*where, number, yarn, wedge, first, run, before, run / gauge, span)
                    for number, one in rounds.items()
                    for yarn, wedge, first, run, before in [*_joints(one), *_starts(one, rounds.get(number + 1))]
                ],
            )


def _joints(one: CrownRound) -> Iterator[tuple[str, int, Mark, int, int]]:
    """Give (yarn, wedge, first stitch, stitches passed, those in the wedge) of runs over joints that break columns."""
    for yarn, first, passed, breaks in one.gaps() if one.number else ():
        if breaks:
            wedge, last = divmod(first - 1, one.wedge)
            yield yarn, wedge + 1, (one.number, first), passed, one.wedge - 1 - last


def _starts(one: CrownRound, after: CrownRound | None) -> Iterator[tuple[str, int, Mark, int, int]]:
    """Give the same of runs from a round into the one after it, with the stitches of the round that ends."""
    for yarn in dict.fromkeys(one.yarns) if after is not None else ():
        if after is not None and yarn in after.yarns:
            ended, begun = one.yarns[::-1].index(yarn), after.yarns.index(yarn)
            if ended + begun:
                yield yarn, 0, (one.number, len(one.yarns) - ended), ended + begun, ended


def _passed(rounds: Mapping[int, CrownRound], first: Mark, stitches: int) -> list[Mark]:
    number, place = first
    length = len(rounds[number].yarns)
    return [(number, at) if at < length else (number + 1, at - length) for at in range(place, place + stitches)]


def _caught(
    spec: Spec, plan: Plan, rounds: Mapping[int, CrownRound], strands: Sequence[CrownFloat]
) -> Iterator[CrownFloat]:
    """Choose the catches of a crown's strands; those of the chart within wedges stand already."""
    if not strands:
        return
    most = most_stitches(spec, spec.swatches[strands[0].swatch])
    long = [one for one in strands if one.stitches > most]
    runs = [_passed(rounds, one.first, one.stitches) for one in long]
    offered = [
        choices(run, catches(len(run), most), [mark for mark in run if above(rounds, mark) == one.yarn])
        for one, run in zip(long, runs, strict=True)
    ]
    standing = _standing(spec, plan, rounds, strands[0]) if long else []
    chosen = iter(stagger([*standing, *(one for each in offered for one in each)], lambda mark: beneath(rounds, mark)))
    for _ in standing:
        next(chosen)
    for one, run, each in zip(long, runs, offered, strict=True):
        yield replace(one, catch=tuple(run.index(next(chosen)) + 1 for _ in each))


def _standing(spec: Spec, plan: Plan, rounds: Mapping[int, CrownRound], strand: CrownFloat) -> list[Choice]:
    """Give the catches of the chart's own floats in a crown's wedges and in the round below, as the list has them."""
    listed = {
        (one.row - 1, one.yarn, one.column - 1): one
        for one in long_floats(spec, plan)
        if (one.motif, one.swatch) == (strand.motif, strand.swatch)
    }
    return [
        ((0, (number, first + (best - one.column) % round_.width)),)
        for number, round_ in rounds.items()
        for yarn, first, passed, breaks in round_.gaps()
        if not breaks and (one := listed.get((round_.row, yarn, round_.columns[first]))) and one.stitches == passed
        for best in one.best
    ]


def alike(found: Sequence[CrownFloat]) -> list[list[CrownFloat]]:
    """Put together the strands of a round that pass and are caught alike at several joints."""
    key = [(one.piece, one.size, one.round, one.wedge == 0, one.yarn, one.stitches, one.catch) for one in found]
    order = {each: number for number, each in reversed(list(enumerate(key)))}
    pairs = sorted(zip(key, found, strict=True), key=lambda one: (order[one[0]], one[1].wedge))
    return [[one for _, one in group] for _, group in groupby(pairs, key=lambda one: one[0])]


def crown_words(group: Sequence[CrownFloat]) -> str:
    """Say where strands of a crown that are alike lie, how far they pass, and where to catch them."""
    one = group[0]
    wedges = _listed([str(each.wedge) for each in group])
    where = f" where wedge{'s' if len(group) > 1 else ''} {wedges} end{'' if len(group) > 1 else 's'}"
    if not one.wedge:
        ends, begins = f"the last {one.before} of this round", f"the first {one.stitches - one.before} of the next"
        where = f", {_listed([ends] * bool(one.before) + [begins] * (one.stitches > one.before))}"
    return f"{one.yarn} passes {one.stitches} sts{where}, catch at {_listed([f'st {at}' for at in one.catch])}"


def round_words(one: CrownFloat) -> str:
    """Name the round of a strand of a crown."""
    return f"round {one.round}" if one.round else "the round below the crown"


def _listed(words: Sequence[str]) -> str:
    *others, last = words
    return f"{', '.join(others)} and {last}" if others else last


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Note each piece once, with its longest strand; the pattern lists them by size and round."""
    problems = []
    found = crown_floats(spec, plan)
    for piece in dict.fromkeys(one.piece for one in found):
        own = alike([one for one in found if one.piece == piece])
        group = max(own, key=lambda one: one[0].stitches)
        longest = group[0]
        problems.append(
            Problem(
                "N620",
                f"in the crown of {piece}, strands pass up to {longest.stitches} sts "
                f"({length_words(longest.span_cm, spec.units)}) where the wedges of {longest.motif} meet; the limit is "
                f"{most_stitches(spec, spec.swatches[longest.swatch])} sts",
                (Label(longest.span, f"the longest in size {plan.sizes[longest.size]}"),),
                help=f"Catch the strand: crown, {round_words(longest)}: {crown_words(group)}. Stitches count from "
                "where the yarn was last used; the pattern lists all strands of each size.",
            )
        )
    return problems
