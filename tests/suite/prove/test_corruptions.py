"""Printed patterns damaged on purpose: each slip is caught, or is one that changes nothing and says why."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from prove_patterns import compiled

from wale.prove.facts import Facts, Printed, PrintedPiece
from wale.prove.proof import prove
from wale.prove.reader import read, select
from wale.prove.words import Instruction, Plain
from wale.write.document import document
from wale.write.facts import facts, printed

SEED = 20261125
EACH = 42
"""Corruptions drawn of each pattern."""
PATTERNS = {
    "millrace-pullover": "L",
    "sluice-hat": "medium",
    "first-cowl": "one",
    "stepped-over-a-low-neck": "small",
    "level-shoulders": "large",
    "hem": "small",
    "plain-hem": "large",
    "hat-chart-crown": "one",
    "sleeve-garter": "one",
    "decreasing": "small",
}
SWAPS = (("RS", "WS"), ("k2tog", "ssk"), ("m1L", "m1R"), ("increase", "decrease"), ("rows", "rounds"))

Corruption = tuple[str, str, Printed]
"""Sort, the damaged line, and the whole page with it."""


@cache
def page(name: str, size: str) -> tuple[Printed, Facts]:
    """Give a pattern printed for one size, and its facts."""
    done = compiled(name)
    assert done.spec is not None and done.plan is not None
    sizes = (done.plan.sizes.index(size),)
    pattern = document(done.spec, done.plan, sizes)
    return printed(done.spec, done.plan, pattern, sizes), facts(done.spec, done.plan, sizes)


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
    for place, (name, rows) in enumerate(whole.charts):
        for number, (label, text) in enumerate(rows):
            for sort, changed in _slips(text):
                told_rows = (*rows[:number], (label, changed), *rows[number + 1 :])
                charts = (*whole.charts[:place], (name, told_rows), *whole.charts[place + 1 :])
                yield f"chart {sort}", changed, replace(whole, charts=charts)


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
    frozenset({"DecreaseRound", "Wedges"}): "the decrease round is told before it is worked",
    frozenset({"DecreaseRound", "CrownChart"}): "the decrease round is told before it is worked",
    frozenset({"Wedges", "Work"}): "wedges stand over the same columns from the first round on",
}
"""Neighbours that may change places, and why; the others may not."""


def _said(line: str) -> Instruction:
    return select(read(line), 0)


def proved(whole: Printed, damaged: Printed, known: Facts) -> bool:
    """Whether a damaged page passes: only what was damaged is knitted again."""
    if damaged.charts == whole.charts:
        pieces = [one for one, other in zip(damaged.pieces, whole.pieces, strict=True) if one != other]
        names = {piece.name for piece in pieces}
        if all(not piece.refer for piece in pieces):
            damaged = replace(damaged, pieces=tuple(pieces))
            known = replace(known, pieces=tuple(one for one in known.pieces if one.piece in names), joins=())
    return prove(damaged, known) == []


@pytest.mark.parametrize(("pattern", "size"), PATTERNS.items())
def test_each_slip_is_caught_or_harmless(pattern: str, size: str) -> None:
    whole, known = page(pattern, size)
    assert prove(whole, known) == []
    every = list(corruptions(whole))
    by_sort: dict[str, list[Corruption]] = {}
    for one in every:
        by_sort.setdefault(one[0], []).append(one)
    chooser = random.Random(f"{SEED} {pattern}")
    chosen = [chooser.choice(found) for _, found in sorted(by_sort.items())]
    chosen += chooser.sample(every, EACH - len(chosen))
    passed = {(sort, line) for sort, line, damaged in chosen if proved(whole, damaged, known)}
    assert {(sort, line) for sort, line in passed if not harmless(sort, line)} == set()
    assert {(sort, line) for sort, line, _ in chosen if harmless(sort, line)} <= passed
    assert len(chosen) - len(passed) >= EACH * 3 // 4


def test_enough_slips_are_drawn() -> None:
    assert EACH * len(PATTERNS) * 3 // 4 >= 200


def test_a_slip_in_a_bracket_is_caught_in_its_size_alone() -> None:
    done = compiled("sluice-hat")
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    whole, known = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    (piece,) = whole.pieces
    names, tried = whole.sizes, 0
    for number, line in enumerate(piece.steps):
        for found in re.finditer(r"([0-9]+) \(([0-9]+), ([0-9]+)\)", line):
            for size in range(3):
                start, end = found.span(size + 1)
                slip = f"{line[:start]}{int(line[start:end]) + 1}{line[end:]}"
                steps = (*piece.steps[:number], slip, *piece.steps[number + 1 :])
                findings = prove(replace(whole, pieces=(replace(piece, steps=steps),)), known)
                assert {finding.size for finding in findings} == {names[size]}, slip
                tried += 1
    assert tried >= 9
