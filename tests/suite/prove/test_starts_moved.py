"""Where a course moves the start of the round or places markers: a line dropped or a figure changed is found."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace
from support import EXAMPLES, SPEC, world

from wale.course import Part, starts_after, starts_moved
from wale.driver import compile_spec
from wale.prove.facts import Facts, Printed
from wale.prove.proof import prove
from wale.write.facts import facts, printed

NAMES = (
    *("flume-saddle", "penstock-socks", "wheelpit-socks", "headrace-raglan", "grist-raglan", "tailrace-yoke"),
    "grist-baby-set",
)


MARKED = ("flume-saddle", "penstock-socks", "wheelpit-socks", "headrace-raglan", "grist-raglan")


def of_its_first_size(name: str) -> tuple[Printed, Facts]:
    """Give what an example prints for its first size, and its facts."""
    there = world((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    plan = compile_spec(there, SPEC).plan
    assert plan is not None
    done = compile_spec(there, SPEC, plan.sizes[:1])
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    return printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)


@pytest.mark.parametrize("name", NAMES)
def test_every_line_that_moves_it_is_held_against_the_plan(name: str) -> None:
    page, wanted = of_its_first_size(name)
    tried = 0
    for place, piece in enumerate(page.pieces):
        for number, step in enumerate(piece.steps):
            if not step.endswith("; the round starts here."):
                continue
            for new in ((), *((re.sub(r"[0-9]+", lambda f, by=by: str(int(f[0]) + by), step),) for by in (1, -1))):
                steps = (*piece.steps[:number], *new, *piece.steps[number + 1 :])
                pieces = (*page.pieces[:place], replace(piece, steps=steps), *page.pieces[place + 1 :])
                assert prove(replace(page, pieces=pieces), wanted), (step, new)
                tried += 1
    assert tried


def test_it_is_told_with_the_rows_before_it() -> None:
    part = Part("turn", (starts_after("half"), starts_after("half", "again")))
    assert starts_moved(part, {"half": 9}) == ((0, 9), (0, 9))


@pytest.mark.parametrize("name", [*MARKED])
def test_every_marker_is_held_against_the_plan(name: str) -> None:
    """Each figure before a marker, a stitch more and the next one a stitch less: as many stitches, at another place."""
    page, wanted = of_its_first_size(name)
    tried = 0
    for place, piece in enumerate(page.pieces):
        for number, step in enumerate(piece.steps):
            for found in re.finditer(r"k([0-9]+), place a marker, k([0-9]+)", step):
                new = f"k{int(found[1]) + 1}, place a marker, k{int(found[2]) - 1}"
                line = step[: found.start()] + new + step[found.end() :]
                steps = (*piece.steps[:number], line, *piece.steps[number + 1 :])
                pieces = (*page.pieces[:place], replace(piece, steps=steps), *page.pieces[place + 1 :])
                assert prove(replace(page, pieces=pieces), wanted), line
                tried += 1
    assert tried
