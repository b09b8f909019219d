"""`wale compile`: a spec in, one document out."""

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
    from wale.write.document import Extra

Format = Literal["pdf", "html", "json", "text", "svg", "png"]

ENDINGS: dict[str, Format] = {
    ".pdf": "pdf",
    ".html": "html",
    ".htm": "html",
    ".json": "json",
    ".txt": "text",
    ".svg": "svg",
    ".png": "png",
}


@click.command(
    "compile",
    epilog="""\b
Examples:
  wale compile hat.wale                              write hat.pdf beside the spec
  wale compile hat.wale --out page.html              the ending names the format
  wale compile jumper.wale --size M --size L --out -  print two sizes as text
  wale compile jumper.wale --size M --with charts --with rows
  wale compile jumper.wale --chart grist --out grist.svg
  wale compile hat.wale --left-handed                the mirror image, for the left hand
  wale compile --verify hat.pdf                      whether a PDF is what its own source gives
  wale compile hat.wale --large-print                for readers with low vision
""",
)
@click.argument("spec")
@click.option("--to", type=click.Choice(get_args(Format)), help="Format; by default the ending of --out, else pdf.")
@click.option("--out", metavar="PATH", help="File to write, `-` for standard output; by default beside the spec.")
@click.option("--size", "sizes", metavar="NAME", multiple=True, help="A size to print, repeatable; by default all.")
@click.option(
    "--with",
    "extras",
    type=click.Choice(("charts", "rows", "test-knit", "drawings")),
    multiple=True,
    help="Print also a chart of every stitch of each piece, a sheet row by row, one for a test knit, or how each size "
    "and the fabric look; repeatable.",
)
@click.option(
    "--left-handed",
    is_flag=True,
    help="For a knitter who works as in a mirror: charts, words and leans are mirrored, and so is what comes off.",
)
@click.option(
    "--large-print",
    is_flag=True,
    help="A PDF or web page for readers with low vision: no type below 18 point, chart cells no smaller than it.",
)
@click.option("--chart", metavar="NAME", help="The chart that an SVG or PNG shows.")
@click.option(
    "--verify",
    is_flag=True,
    help="SPEC is a published PDF: make it again from the source that it carries, and say whether it is the same.",
)
@click.option("--proof", metavar="PATH", help="Write the full record of the proof there, as JSON.")
@click.pass_obj
def compile_spec(
    world: World,
    spec: str,
    to: Format | None,
    out: str | None,
    sizes: tuple[str, ...],
    extras: tuple[Extra, ...],
    left_handed: bool,
    large_print: bool,
    chart: str | None,
    proof: str | None,
    verify: bool,
) -> int:
    """Compile SPEC into a pattern.

    Problems go to standard error. With an error in the spec nothing is written; warnings and cautions don't stop it.
    """
    if verify:
        if to or out or sizes or extras or left_handed or large_print or chart or proof:
            raise click.UsageError("--verify takes a PDF alone: the file says how it was made")
        from wale.commands.verify import verify_pdf

        return verify_pdf(world, spec)
    form, path = choose_output(spec, to, out)
    if (chart is not None) != (form in ("svg", "png")):
        raise click.UsageError("an SVG or PNG shows one chart: name it with --chart, the file with --out")
    if path == "-" and form in ("pdf", "png") and world.terminal("stdout").is_terminal:
        raise click.UsageError("a PDF or PNG is no text for a terminal; name a file with --out")
    if large_print and form not in ("pdf", "html"):
        raise click.UsageError("large print is for a PDF or a web page: end --out with .pdf or .html")
    import wale.driver as driver

    def setting(compiled: Compiled) -> tuple[bytes, tuple[Problem, ...]]:
        if form == "svg" or form == "png":
            return _drawn(compiled, chart or "", form), ()
        return driver.render(compiled, form, world, is_large=large_print)

    with progress(world, f"compiling {spec}"):
        try:
            made = driver.make(
                world, spec, setting, sizes, extras, is_left_handed=left_handed, is_recorded=proof is not None
            )
        except Refused as refused:
            report(world, (refused.problem,), {})
            return exit_code((refused.problem,))
    compiled = made.compiled
    report(world, (*compiled.problems, *made.complaints), compiled.sources)
    if code := exit_code(compiled.problems):
        notice(f"{spec}: {count(compiled.problems)}; nothing was written")
        return code
    if proof is not None:
        world.write(proof, json.dumps(made.record, ensure_ascii=False, indent=1).encode() + b"\n")
    if path == "-":
        emit(made.data)
    else:
        world.write(path, made.data)
        notice(f"wrote {path}" + (f" ({count(compiled.problems)})" if compiled.problems else ""))
    return 0


def _drawn(compiled: Compiled, chart: str, form: Literal["svg", "png"]) -> bytes:
    from wale.driver import charts_of, render_chart

    data = render_chart(compiled, chart, form)
    if data is None:
        names = ", ".join(dict.fromkeys(one.name for one in charts_of(compiled))) or "none"
        raise click.UsageError(f"this pattern has no chart `{chart}`; its charts: {names}")
    return data


def choose_output(spec: str, to: Format | None, out: str | None) -> tuple[Format, str]:
    """Give the format and the path of the output.

    Args:
        spec: path of the spec; the default output stands beside it.
        to: the format asked for, if any.
        out: the path asked for, if any; `-` is standard output, text unless `to` says otherwise.

    Raises:
        click.UsageError: the ending of `out` names no format, or another one than `to`.
    """
    if out == "-":
        return to or "text", "-"
    if out is None:
        form = to or "pdf"
        stem = spec[: -len(".wale")] if spec.lower().endswith(".wale") else spec
        return form, stem + (".txt" if form == "text" else f".{form}")
    ending = os.path.splitext(out)[1].lower()
    named = ENDINGS.get(ending)
    if to is None and named is None:
        known = ", ".join(ENDINGS)
        raise click.UsageError(f"the ending of `{out}` names no format; use one of {known}, or add --to")
    if to is not None and named is not None and named != to:
        raise click.UsageError(f"`{out}` ends like {named}, but --to asks for {to}; let them agree")
    return to or named or "pdf", out
