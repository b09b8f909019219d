"""`wale diff`: what differs between two versions of a garment."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

import click

from wale.commands.formats import Format, choose_output
from wale.commands.report import count, emit, notice, progress, report
from wale.files import Refused, World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.compare.comparison import Comparison, Version

SAME, DIFFERENT, TROUBLE = 0, 1, 2
"""Exit codes, those of POSIX diff."""


@click.command(
    "diff",
    short_help="Say what differs between two versions of a garment.",
    epilog="""\b
Examples:
  wale diff jumper-1.wale jumper.wale            on the terminal
  wale diff HEAD~1:jumper.wale jumper.wale       against the version before, from git
  wale diff jumper-1.pdf jumper.wale --size M    against a published PDF, in one size
  wale diff old.json new.json --out diff.json    for a script
  wale diff jumper-1.wale jumper.wale --out diff.html    outlines and charts, side by side
""",
)
@click.argument("old", metavar="OLD")
@click.argument("new", metavar="NEW")
@click.option("--size", "sizes", metavar="NAME", multiple=True, help="A size to compare, repeatable; by default all.")
@click.option("--to", type=click.Choice(get_args(Format)), help="Format; by default the ending of --out, else text.")
@click.option("--out", metavar="PATH", help="File to write; by default standard output, as for `-`.")
@click.pass_obj
def diff(world: World, old: str, new: str, sizes: tuple[str, ...], to: Format | None, out: str | None) -> int:
    """Say what differs between OLD and NEW, each a spec, a plan (JSON), a published PDF, or `REV:path` from git.

    By piece and size: stitches, rows, shaping, lengths, cells of motifs, yarn and its cost, cautions. Lines, layout and
    comments play no part. The exit code is 0 where nothing differs, 1 where something does, 2 in trouble.
    """
    form, path = choose_output(to, out)
    try:
        with progress(world, f"comparing {old} with {new}"):
            sides = [_side(world, name) for name in (old, new)]
        before, after = sides
        if before is None or after is None:
            return TROUBLE
        unknown = _unknown(before, after, sizes)
        if unknown is not None:
            report(world, (unknown,), {})
            return TROUBLE
        from wale.compare.comparison import compare

        found = compare(before, after, sizes)
        data = _told(world, found, form, path)
        if path == "-":
            emit(data)
        else:
            world.write(path, data)
            notice(f"wrote {path}")
    except Refused as refused:
        report(world, (refused.problem,), {})
        return TROUBLE
    return SAME if found.is_same else DIFFERENT


def _side(world: World, name: str) -> Version | None:
    """Read and solve a side; None, and its problems are told, where it has errors."""
    from wale import __version__
    from wale.compare.loading import load

    loaded = load(world, name)
    if loaded.version is None:
        report(world, loaded.problems, loaded.sources)
        notice(f"{name}: {count(loaded.problems)}; nothing was compared")
    elif loaded.compiler not in ("", f"wale {__version__}"):
        notice(f"{name}: made by {loaded.compiler}; this is wale {__version__}")
    return loaded.version


def _unknown(before: Version, after: Version, sizes: tuple[str, ...]) -> Problem | None:
    """Give the problem of a size that is not in both versions."""
    from wale.compare.numbers import sizes_of

    both = [size for size in sizes_of(after.plan) if size in sizes_of(before.plan)]
    missing = next((size for size in sizes if size not in both), None)
    if missing is None:
        return None
    help = f"Sizes in both are {', '.join(both)}." if both else "No size is in both."
    return Problem("E305", f"there is no size {missing} in both versions", help=help)


def _told(world: World, found: Comparison, form: Format, path: str) -> bytes:
    if form == "json":
        from wale.compare import export

        return export.render(found).encode(errors="replace")
    if form == "html":
        from wale.compare.page import page
        from wale.outputs import html

        return html.render(page(found)).encode(errors="replace")
    from wale.compare import text

    colour = path == "-" and world.terminal("stdout").colour
    return text.render(found, colour=colour).encode(errors="replace")
