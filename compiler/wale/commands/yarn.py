"""`wale yarn`: what yarn a garment takes, what to buy, where it runs out."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, get_args

import click

from wale.commands.formats import Format, choose_output
from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.driver import Compiled

OF_YARN = ("W260", "W610", "W614")
"""Warnings of a spec that bear on its yarn; `wale check` shows all."""


@click.command(
    "yarn",
    short_help="Say what yarn to buy and where it runs out.",
    epilog="""\b
Examples:
  wale yarn jumper.wale                       all sizes, as text
  wale yarn jumper.wale --size M --out yarn.html
  wale yarn jumper.wale --size M --left "rye 212 g at back row 84"
  wale yarn jumper.wale --size M --sheet      with a sheet for a test knit
""",
)
@click.argument("spec")
@click.option("--size", "sizes", metavar="NAME", multiple=True, help="A size to tell, repeatable; by default all.")
@click.option("--to", type=click.Choice(get_args(Format)), help="Format; by default the ending of --out, else text.")
@click.option("--out", metavar="PATH", help="File to write; by default standard output, as `-`.")
@click.option("--left", "left", metavar="WEIGHED", multiple=True, help="What is left of a yarn at a row, in one size.")
@click.option("--sheet", is_flag=True, help="Add a sheet for a test knit.")
@click.pass_obj
def yarn(
    world: World,
    spec: str,
    sizes: tuple[str, ...],
    to: Format | None,
    out: str | None,
    left: tuple[str, ...],
    sheet: bool,
) -> int:
    """Reckon the yarn of SPEC's garment: what it takes, what to buy, what runs out first, what a change would save.

    WEIGHED reads `YARN WEIGHT at PIECE row N`, such as `rye 212 g at back row 84`; rows count from the cast-on. A piece
    that is made twice has a number, `sleeve 2`; `rye 212 g of 300 g at ...` says what the work began with.
    """
    form, path = choose_output(to, out)
    import wale.driver as driver

    with progress(world, f"reckoning {spec}"):
        try:
            done = driver.check_spec(world, spec, sizes)
        except Refused as refused:
            return _refused(world, spec, (refused.problem,))
        errors = tuple(one for one in done.problems if one.is_error)
        if done.plan is None or done.spec is None or errors:
            return _refused(world, spec, errors, done)
        if left and len(done.sizes) > 1:
            raise click.UsageError("what is left is weighed in one size; name it with --size")
        data, problems = _told(done, form, left, sheet)
    if problems:
        return _refused(world, spec, problems, done)
    report(world, tuple(one for one in done.problems if one.code in OF_YARN), done.sources)
    if path == "-":
        emit(data)
    else:
        world.write(path, data)
        notice(f"wrote {path}")
    return 0


def _told(done: Compiled, form: Format, left: tuple[str, ...], sheet: bool) -> tuple[bytes, tuple[Problem, ...]]:
    from wale.yardage.report import yarn_report

    assert done.spec is not None and done.plan is not None
    found, problems = yarn_report(done.spec, done.plan, done.sizes, left)
    if found is None:
        return b"", tuple(problems)
    if form == "json":
        from wale.problems.export import as_json as problems_as_json
        from wale.yardage.export import as_json

        mine = [one for one in done.problems if one.code in OF_YARN]
        told = {**as_json(found), "problems": problems_as_json(mine, done.sources)}
        return (json.dumps(told, indent=1, ensure_ascii=False) + "\n").encode(errors="replace"), ()
    from wale.yardage.page import page

    document = page(done.spec, done.plan, found, done.sizes, sheet)
    if form == "html":
        from wale.outputs import html

        return html.render(document).encode(errors="replace"), ()
    from wale.outputs import text

    return text.render(document).encode(errors="replace"), ()


def _refused(world: World, spec: str, problems: tuple[Problem, ...], done: Compiled | None = None) -> int:
    report(world, problems, done.sources if done is not None else {})
    notice(f"{spec}: {count(problems)}; nothing was written")
    return exit_code(problems)
