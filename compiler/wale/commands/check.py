"""`wale check`: look for problems and write nothing."""

from __future__ import annotations

import json

import click

from wale.commands.report import count, emit, exit_code, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem
from wale.source import Source


@click.command(
    "check",
    short_help="Look for problems, write nothing.",
    epilog="""\b
Examples:
  wale check hat.wale              show what is wrong, if anything
  wale check *.wale                several specs in one go
  wale check hat.wale --json       for an editor or a script
""",
)
@click.argument("specs", metavar="SPEC...", nargs=-1, required=True)
@click.option("--json", "to_json", is_flag=True, help="Print the problems as JSON on standard output.")
@click.pass_obj
def check(world: World, specs: tuple[str, ...], to_json: bool) -> int:
    """Look for problems in each SPEC without writing a pattern.

    The counts are solved as for a pattern, so what fits here compiles.
    """
    worst = 0
    found = []
    for spec in specs:
        problems, sources = _check_one(world, spec)
        worst = max(worst, exit_code(problems))
        if to_json:
            from wale.problems.export import as_json

            found.append({"spec": spec, "problems": as_json(problems, sources)})
        else:
            report(world, problems, sources)
            emit(f"{spec}: {count(problems)}\n".encode(errors="replace"))
    if to_json:
        emit((json.dumps({"specs": found}, indent=2) + "\n").encode())
    return worst


def _check_one(world: World, spec: str) -> tuple[tuple[Problem, ...], dict[str, Source]]:
    """Give the problems of one spec, and the sources they point into."""
    import wale.driver as driver

    with progress(world, f"checking {spec}"):
        try:
            checked = driver.check_spec(world, spec)
        except Refused as refused:
            return (refused.problem,), {}
    return checked.problems, dict(checked.sources)
