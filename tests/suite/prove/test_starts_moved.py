"""Where a course moves the start of the round: the line dropped, or a stitch more or less in it, is found."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace
from support import EXAMPLES, SPEC, world

from wale.course import Part, starts_after, starts_moved
from wale.driver import compile_spec
from wale.prove.proof import prove
from wale.write.facts import facts, printed

NAMES = (
    *("flume-saddle", "penstock-socks", "wheelpit-socks", "headrace-raglan", "grist-raglan", "tailrace-yoke"),
    "grist-baby-set",
)


@pytest.mark.parametrize("name", NAMES)
def test_every_line_that_moves_it_is_held_against_the_plan(name: str) -> None:
    there = world((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    plan = compile_spec(there, SPEC).plan
    assert plan is not None
    done = compile_spec(there, SPEC, plan.sizes[:1])
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    page, wanted = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
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
