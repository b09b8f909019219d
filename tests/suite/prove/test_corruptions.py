"""Printed patterns damaged on purpose: each slip is caught, or is one that changes nothing and says why."""

from __future__ import annotations

import random
import re
from functools import cache

import pytest
from msgspec.structs import replace
from prove_corruptions import Corruption, bracket_swaps, corruptions, harmless
from prove_patterns import compiled

from wale.prove.facts import Facts, Printed
from wale.prove.proof import prove
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
    "neck-within-the-armhole": "large",
    "neck-below-the-armhole": "large",
    "hem": "small",
    "plain-hem": "large",
    "hat-chart-crown": "one",
    "sleeve-garter": "one",
    "decreasing": "small",
    "steek": "one",
}


@cache
def page(name: str, size: str) -> tuple[Printed, Facts]:
    """Give a pattern printed for one size, and its facts."""
    done = compiled(name)
    assert done.spec is not None and done.plan is not None
    sizes = (done.plan.sizes.index(size),)
    pattern = document(done.spec, done.plan, sizes)
    return printed(done.spec, done.plan, pattern, sizes), facts(done.spec, done.plan, sizes)


def proved(whole: Printed, damaged: Printed, known: Facts) -> bool:
    """Whether a damaged page passes: only what was damaged is knitted again, and no length stands beside it."""
    damaged, known = replace(damaged, tables=()), replace(known, gauges={}, yarn={})
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


def test_figures_of_two_sizes_that_change_places_are_caught_in_both() -> None:
    done = compiled("sluice-hat")
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    whole, known = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    swaps = list(bracket_swaps(whole))
    assert len(swaps) >= 9
    assert [line for line, sizes, damaged in swaps if {one.size for one in prove(damaged, known)} != sizes] == []


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
