"""Slips made in printed patterns on purpose, sort by sort, and which of them change nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations, pairwise

from msgspec.structs import replace
from support import written

from wale.prove.facts import Printed, PrintedPiece
from wale.prove.proof import prove
from wale.prove.reader import read, select
from wale.prove.words import Instruction, Plain
from wale.write.facts import facts, printed

SWAPS = (("rye", "flour"), ("RS", "WS"), ("k2tog", "ssk"), ("m1L", "m1R"), ("increase", "decrease"), ("rows", "rounds"))

Corruption = tuple[str, str, Printed]
"""Sort, the damaged line, and the whole page with it."""


def corruptions(whole: Printed) -> Iterator[Corruption]:
    """Give every corruption of a page, sort by sort."""
    for place, piece in enumerate(whole.pieces):

        def damaged(steps: list[str], place: int = place, piece: PrintedPiece = piece) -> Printed:
            pieces = list(whole.pieces)
            pieces[place] = replace(piece, steps=tuple(steps))
            return replace(whole, pieces=tuple(pieces))

        steps = list(piece.steps)
        told = [number for number, step in enumerate(steps) if step]
        for number in told:
            line = steps[number]
            for sort, changed in _slips(line):
                yield sort, changed, damaged([*steps[:number], changed, *steps[number + 1 :]])
            yield "dropped", line, damaged([*steps[:number], *steps[number + 1 :]])
        for one, other in pairwise(told):
            if steps[one] != steps[other]:
                swapped = list(steps)
                swapped[one], swapped[other] = steps[other], steps[one]
                yield "swapped", f"{steps[one]} / {steps[other]}", damaged(swapped)
    yield from _in_charts(whole)


def _in_charts(whole: Printed) -> Iterator[Corruption]:
    for place, (name, rows) in enumerate(whole.charts):

        def damaged(told: tuple[tuple[str, str], ...], place: int = place, name: str = name) -> Printed:
            return replace(whole, charts=(*whole.charts[:place], (name, told), *whole.charts[place + 1 :]))

        for number, (label, text) in enumerate(rows):
            for sort, changed in _slips(text):
                yield f"chart {sort}", changed, damaged((*rows[:number], (label, changed), *rows[number + 1 :]))
            yield "chart row dropped", f"{label} {text}", damaged((*rows[:number], *rows[number + 1 :]))
            if number and text != rows[number - 1][1]:
                (before, other) = rows[number - 1]
                turned = (*rows[: number - 1], (before, text), (label, other), *rows[number + 1 :])
                yield "chart rows swapped", f"{other} / {text}", damaged(turned)


def bracket_swaps(whole: Printed) -> Iterator[tuple[str, frozenset[str], Printed]]:
    """Give pages with the figures of two sizes swapped in one bracket, the line, and the sizes whose figures change."""
    for place, piece in enumerate(whole.pieces):
        for number, line in enumerate(piece.steps):
            for found in _BRACKET.finditer(line):
                figures = re.findall(r"[0-9]+(?:st|nd|rd|th)?", found.group())
                named = re.match(r"Sizes? ([^:]+):", line)
                sizes = named[1].split(", ") if named else list(whole.sizes)
                for one, other in combinations(range(len(figures)), 2):
                    if figures[one] == figures[other]:
                        continue
                    swapped = list(figures)
                    swapped[one], swapped[other] = figures[other], figures[one]
                    told = f"{swapped[0]} ({', '.join(swapped[1:])})"
                    changed = line[: found.start()] + told + line[found.end() :]
                    steps = (*piece.steps[:number], changed, *piece.steps[number + 1 :])
                    pieces = (*whole.pieces[:place], replace(piece, steps=steps), *whole.pieces[place + 1 :])
                    yield changed, frozenset({sizes[one], sizes[other]}), replace(whole, pieces=pieces)


_BRACKET = re.compile(r"[0-9]+(?:st|nd|rd|th)? \([0-9]+[^)]*\)")


def _slips(line: str) -> Iterator[tuple[str, str]]:
    for found in re.finditer(r"[0-9]+", line):
        for step in (1, -1):
            value = int(found.group()) + step
            if value >= 0:
                yield "figure", f"{line[: found.start()]}{value}{line[found.end() :]}"
    for pair in SWAPS:
        for one, other in (pair, pair[::-1]):
            place = line.find(one)
            if place >= 0:
                yield f"{one} for {other}", line[:place] + other + line[place + len(one) :]


def harmless(sort: str, line: str) -> str:
    """Say why a corruption changes nothing, or give "" where it must be caught."""
    if sort == "dropped" and isinstance(_said(line), Plain):
        return "the rows that follow name their fabric again"
    if sort != "swapped":
        return ""
    kinds = frozenset(type(_said(one)).__name__ for one in line.split(" / "))
    return COMMUTE.get(kinds, "")


COMMUTE = {
    frozenset({"Needles", "BeginChart"}): "the needles are changed before the first row either way",
    frozenset({"Needles", "Plain"}): "the needles are changed before the first row either way",
    frozenset({"Needles", "HemJoin"}): "the hem is joined on a later row",
    frozenset({"RibRow"}): "both rib rows are told before they are worked",
    frozenset({"ShapingRow", "Edge"}): "the shaping row is told before it is worked",
    frozenset({"ShapingRow", "Work"}): "the shaping row is told before it is worked",
    frozenset({"ShapingRow", "Plain"}): "the shaping row is told before it is worked",
    frozenset({"ShoulderRows", "Before"}): "shoulders and neck interleave; their rows are numbered",
    frozenset(
        {"ShoulderRows", "NeckRow"}
    ): "shoulders above the neck row and the neck interleave; their rows are numbered",
    frozenset({"DecreaseRound", "Wedges"}): "the decrease round is told before it is worked",
    frozenset({"DecreaseRound", "CrownChart"}): "the decrease round is told before it is worked",
    frozenset({"Wedges", "Work"}): "wedges stand over the same columns from the first round on",
}
"""Neighbours that may change places, and why; the others may not."""


def _said(line: str) -> Instruction:
    return select(read(line), 0)


def refute(text: str, piece: str, old: str, new: str) -> None:
    """See that a spec is proven as it is printed, and not with other words in a piece or band."""
    done = written(text)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    page, wanted = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    assert prove(page, wanted) == []
    pieces = [
        replace(one, steps=tuple(step.replace(old, new) for step in one.steps)) if one.name == piece else one
        for one in page.pieces
    ]
    assert pieces != list(page.pieces), old
    assert prove(replace(page, pieces=tuple(pieces)), wanted)
