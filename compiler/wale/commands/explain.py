"""`wale explain`: why a number of the pattern is what it is."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.driver import Compiled
    from wale.explain import Reason

MOST_WEIGHED = 24
"""Most solved counts that are weighed at once; each is solved anew twice."""


@click.command(
    "explain",
    short_help="Say why a number is what it is.",
    epilog="""\b
Examples:
  wale explain hat.wale                       list all numbers
  wale explain jumper.wale back.bust --size M why that many stitches
  wale explain jumper.wale 24                 all numbers that come from line 24
  wale explain jumper.wale =159               all numbers that are printed as 159
""",
)
@click.argument("spec")
@click.argument("what", required=False)
@click.option("--size", "sizes", metavar="NAME", multiple=True, help="A size to explain, repeatable; by default all.")
@click.option("--json", "to_json", is_flag=True, help="Print reasons and problems as JSON on standard output.")
@click.pass_obj
def explain(world: World, spec: str, what: str | None, sizes: tuple[str, ...], to_json: bool) -> int:
    """Say why numbers of SPEC's pattern are what they are.

    WHAT is an address (`back.bust`) or its beginning (`back.shape[1]`), a line of the spec (`24`), or a printed number
    (`=159`, `159sts`, or `159` where the spec has fewer lines); without it all numbers are listed.
    """
    import wale.driver as driver

    with progress(world, f"explaining {spec}"):
        try:
            done = driver.check_spec(world, spec, sizes)
        except Refused as refused:
            return _end(world, spec, what, to_json, (refused.problem,))
        errors = tuple(one for one in done.problems if one.is_error)
        if done.plan is None or errors:
            return _end(world, spec, what, to_json, errors, done)
        found, note, problem = _reasons(spec, what, done)
    if problem is not None or to_json:
        return _end(world, spec, what, to_json, (problem,) if problem else (), done, found)
    from wale.explain.show import show_list, show_reason

    units = done.spec.units if done.spec is not None else "cm"
    if what is None:
        text = show_list(found, [done.plan.sizes[size] for size in done.sizes])
    else:
        text = "\n\n".join(show_reason(one, done.sources, note, units) for one in found)
    emit((text + "\n").encode(errors="replace"))
    return 0


def _reasons(spec: str, what: str | None, done: Compiled) -> tuple[tuple[Reason, ...], str, Problem | None]:
    """Give the numbers asked for, weighed where they are few, and a note where they are not."""
    from wale.explain import drafted, told, weigh
    from wale.explain.find import find, owner_of

    assert done.spec is not None and done.plan is not None
    about = (done.spec, done.plan, done.sources, done.sizes)
    if what is None:
        drafts, models = drafted(*about)
        return told(drafts, models, done.spec.units), "", None
    owner = owner_of(what, done.plan)
    drafts, models = drafted(*about, owner)
    found, problem = find(drafts, what, spec, done.sources, done.spec.units)
    if problem is not None and owner:
        found, problem = find(drafted(*about)[0], what, spec, done.sources, done.spec.units)
    reasons = told(found, models, done.spec.units)
    if len({one.unknown for one in found if one.unknown}) > MOST_WEIGHED:
        return reasons, "ask for fewer numbers, or one --size, to see what other counts would cost", problem
    return weigh(models, reasons), "", problem


def _end(
    world: World,
    spec: str,
    what: str | None,
    to_json: bool,
    problems: tuple[Problem, ...],
    done: Compiled | None = None,
    found: tuple[Reason, ...] = (),
) -> int:
    """Tell problems, or everything as JSON; give the exit code."""
    sources = done.sources if done is not None else {}
    if to_json:
        from wale.explain.export import as_json
        from wale.problems.export import as_json as problems_as_json

        told = {
            "spec": spec,
            "what": what,
            "problems": problems_as_json(problems, sources),
            "reasons": as_json(found, sources, done.spec.units if done is not None and done.spec is not None else "cm"),
        }
        emit((json.dumps(told, indent=1, ensure_ascii=False) + "\n").encode(errors="replace"))
    else:
        report(world, problems, sources)
        if problems:
            notice(f"{spec}: {count(problems)}")
    return exit_code(problems)
