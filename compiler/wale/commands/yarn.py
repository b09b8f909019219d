"""`wale yarn`: what yarn a garment takes, what to buy, where it runs out."""

from __future__ import annotations

import json
import os.path
from typing import TYPE_CHECKING, Literal, get_args

import click

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.driver import Compiled

Format = Literal["text", "html", "json"]
ENDINGS: dict[str, Format] = {".txt": "text", ".html": "html", ".htm": "html", ".json": "json"}


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
        from wale.yardage.export import as_json

        return (json.dumps(as_json(found), indent=1, ensure_ascii=False) + "\n").encode(errors="replace"), ()
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


def choose_output(to: Format | None, out: str | None) -> tuple[Format, str]:
    """Give the format and the path of the output, `-` for standard output.

    Raises:
        click.UsageError: the ending of `out` names no format, or another one than `to`.
    """
    if out is None or out == "-":
        return to or "text", "-"
    named = ENDINGS.get(os.path.splitext(out)[1].lower())
    if to is None and named is None:
        known = ", ".join(ENDINGS)
        raise click.UsageError(f"the ending of `{out}` names no format; use one of {known}, or add --to")
    if to is not None and named is not None and named != to:
        raise click.UsageError(f"`{out}` ends like {named}, but --to asks for {to}; let them agree")
    return to or named or "text", out
