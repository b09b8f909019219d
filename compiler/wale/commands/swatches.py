"""`wale swatches`: the swatches of a spec compared, and what each would do to the garment."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

import click

from wale.commands.formats import Format, choose_output
from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.spec import Spec
    from wale.swatching.compare import Comparison


@click.command(
    "swatches",
    short_help="Compare swatches and the garments they would make.",
    epilog="""\b
Examples:
  wale swatches jumper.wale                      compare, as text
  wale swatches jumper.wale --out swatches.html  as a page
  wale swatches jumper.wale --size M --to json   one size, for a script
  wale swatches jumper.wale --try firm --try broad
""",
)
@click.argument("spec")
@click.option("--to", type=click.Choice(get_args(Format)), help="Format; by default the ending of --out, else text.")
@click.option("--out", metavar="PATH", help="File to write; by default standard output, as for `-`.")
@click.option("--size", "sizes", metavar="NAME", multiple=True, help="A size to tell of, repeatable; by default all.")
@click.option(
    "--try", "asked", metavar="SWATCH", multiple=True, help="A swatch to try, repeatable; by default all that could be."
)
@click.pass_obj
def swatches(
    world: World, spec: str, to: Format | None, out: str | None, sizes: tuple[str, ...], asked: tuple[str, ...]
) -> int:
    """Compare all swatches of SPEC and its used files, and plan the garment in each that could be its main fabric.

    A fabric in which the garment cannot be planned is told with its reason; only an error that stands before any
    planning stops the comparison.
    """
    form, path = choose_output(to, out)
    import wale.driver as driver

    with progress(world, f"comparing {spec}"):
        try:
            done = driver.check_spec(world, spec, sizes)
        except Refused as refused:
            report(world, (refused.problem,), {})
            return exit_code((refused.problem,))
        errors = tuple(one for one in done.problems if one.is_error)
        if done.spec is None or any(one.code == "E305" for one in errors):
            report(world, errors, done.sources)
            notice(f"{spec}: {count(errors)}; nothing was compared")
            return exit_code(errors)
        if unknown := _unknown(done.spec, asked):
            report(world, unknown, done.sources)
            return exit_code(unknown)
        from wale.swatching.compare import compare

        names = done.spec.size_names
        chosen = [number for number, name in enumerate(names) if not sizes or name in sizes]
        found = compare(done.spec, done.plan, chosen, asked, world.beside)
        data = _render(form, done.spec, found)
    if path == "-":
        emit(data)
    else:
        world.write(path, data)
        notice(f"wrote {path}")
    return 0


def _unknown(spec: Spec, asked: tuple[str, ...]) -> tuple[Problem, ...]:
    from wale.problems.nearest import there_are

    problems = []
    for name in dict.fromkeys(asked):
        if name not in spec.swatches:
            there = there_are(name, list(spec.swatches))
            problems.append(Problem("E212", f"there is no swatch named `{name}`", help=there))
    return tuple(problems)


def _render(form: Format, spec: Spec, found: Comparison) -> bytes:
    if form == "json":
        from wale.swatching import export

        return export.render(spec.title, found).encode(errors="replace")
    from wale.swatching.page import page

    if form == "html":
        from wale.outputs import html

        return html.render(page(spec, found, is_drawn=True)).encode(errors="replace")
    from wale.outputs import text

    return text.render(page(spec, found)).encode(errors="replace")
