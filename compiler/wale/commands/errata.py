"""`wale errata`: what to change by hand in an old print."""

from __future__ import annotations

import os.path
from typing import TYPE_CHECKING, Literal, get_args

import click

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.driver import Compiled
    from wale.outputs.attached import Published
    from wale.pattern import Pattern

Format = Literal["text", "html", "pdf"]
ENDINGS: dict[str, Format] = {".txt": "text", ".html": "html", ".htm": "html", ".pdf": "pdf"}


@click.command(
    "errata",
    short_help="Write the sheet that corrects an old print by hand.",
    epilog="""\b
Examples:
  wale errata jumper-1.pdf jumper.wale                     as text, on the terminal
  wale errata jumper-1.pdf jumper.wale --out errata.pdf    as a sheet to give out
  wale errata jumper-1.pdf jumper-2.pdf --out errata.html
""",
)
@click.argument("old", metavar="OLD.pdf")
@click.argument("new", metavar="NEW")
@click.option("--to", type=click.Choice(get_args(Format)), help="Format; by default the ending of --out, else text.")
@click.option("--out", metavar="PATH", help="File to write; by default standard output, as for `-`.")
@click.pass_obj
def errata(world: World, old: str, new: str, to: Format | None, out: str | None) -> int:
    """Say for those who hold the print OLD.pdf what NEW, a spec or a PDF, says otherwise.

    Each line of the sheet names piece, step or row, size and figure: "for 159 read 161", in the order of the old print.
    Both are compiled from their sources by this Wale, in the sizes and with the extras of the old print.
    """
    form, path = _output(world, to, out)
    from wale.errata.compare import compare
    from wale.errata.page import page
    from wale.errata.printed import printed
    from wale.publishing import COMPILER, compile_published, read_published

    published = read_published(world, old)
    with progress(world, f"comparing {old} with {new}"):
        before = compile_published(published, old)
        after = _compile_new(world, published, new)
    for name, done in ((old, before), (new, after)):
        if done.pattern is None:
            report(world, done.problems, done.sources)
            notice(f"{name}: {count(done.problems)}; nothing was compared")
            return exit_code(done.problems)
    assert before.pattern is not None and after.pattern is not None
    found = compare(printed(before.pattern), printed(after.pattern), before.pattern.sizes, after.pattern.sizes)
    if published.record.compiler != COMPILER:
        made = published.record.compiler
        notice(
            f"{old}: made by {made}; compared is what {COMPILER} makes of its source, which may differ from the print"
        )
    if found.redesign:
        help = "Give out the new pattern instead of the sheet."
        report(world, (Problem("W946", f"this is a redesign, no correction: {found.redesign}", help=help),), {})
    data = _render(page(before.pattern, found), form, world)
    if path == "-":
        emit(data)
    else:
        world.write(path, data)
        notice(f"wrote {path}")
    return 0


def _compile_new(world: World, published: Published, new: str) -> Compiled:
    """Compile what replaces the old print, in its sizes where it has them all."""
    from typing import cast

    from wale.driver import compile_spec
    from wale.publishing import read_published, world_of
    from wale.write.document import Extra

    spec = new
    if new.lower().endswith(".pdf"):
        fresh = read_published(world, new)
        world, spec = world_of(fresh), fresh.record.spec
    extras = cast("tuple[Extra, ...]", published.record.extras)
    is_left = published.record.hand == "left"
    done = compile_spec(world, spec, published.record.sizes, extras, is_left_handed=is_left)
    if any(one.code == "E305" for one in done.problems):
        return compile_spec(world, spec, (), extras, is_left_handed=is_left)
    return done


def _render(sheet: Pattern, form: Format, world: World) -> bytes:
    if form == "pdf":
        from wale.outputs import pdf

        return pdf.render(sheet, epoch=world.epoch(), complaints=[])
    if form == "html":
        from wale.outputs import html

        return html.render(sheet).encode(errors="replace")
    from wale.outputs import text

    return text.render(sheet).encode(errors="replace")


def _output(world: World, to: Format | None, out: str | None) -> tuple[Format, str]:
    """Give the format and the path of the sheet, `-` for standard output.

    Raises:
        click.UsageError: the ending of `out` names no format, or another one than `to`; a PDF for a terminal.
    """
    named = None if out in (None, "-") else ENDINGS.get(os.path.splitext(out or "")[1].lower())
    if out not in (None, "-") and to is None and named is None:
        raise click.UsageError(f"the ending of `{out}` names no format; use one of {', '.join(ENDINGS)}, or add --to")
    if to and named and named != to:
        raise click.UsageError(f"`{out}` ends like {named}, but --to asks for {to}; let them agree")
    form = to or named or "text"
    if form == "pdf" and out in (None, "-") and world.terminal("stdout").is_terminal:
        raise click.UsageError("a PDF is no text for a terminal; name a file with --out")
    return form, out or "-"
