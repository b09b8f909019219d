"""`wale format`: the one layout."""

from __future__ import annotations

import click
from msgspec import Struct

from wale.commands.report import emit, exit_code, notice, report
from wale.files import Refused, World
from wale.parse.tree import Text, Tree
from wale.problems.problem import Problem
from wale.refusals import decode
from wale.source import Source, Span

STDIN = "standard input"


class Done(Struct, frozen=True):
    """A file as it lies there and as it would be laid out."""

    path: str
    before: bytes
    after: bytes

    @property
    def is_changed(self) -> bool:
        """Whether anything is different."""
        return self.before != self.after


@click.command(
    "format",
    short_help="Lay out specs.",
    epilog="""\b
Examples:
  wale format hat.wale             lay it out anew, in its place
  wale format *.wale --check       name those that are not laid out, write nothing
  wale format hat.wale --diff      show what would change, write nothing
  wale format - < hat.wale         from standard input to standard output
""",
)
@click.argument("files", metavar="FILE...", nargs=-1, required=True)
@click.option("--check", "to_check", is_flag=True, help="Name the files that would change; write nothing.")
@click.option("--diff", "to_diff", is_flag=True, help="Show what would change; write nothing.")
@click.option("--upgrade", "to_upgrade", is_flag=True, help="Rewrite files of an older edition for the newest one.")
@click.pass_obj
def format_files(world: World, files: tuple[str, ...], to_check: bool, to_diff: bool, to_upgrade: bool) -> int:
    """Put each FILE into the one layout; `-` is standard input. What it says stays the same.

    Blocks that cannot be read are left as they are. With --check or --diff the exit code is 1 where something would
    change.
    """
    strange = next((path for path in files if path != "-" and not path.endswith(".wale")), None)
    if strange is not None:
        raise click.UsageError(f"`{strange}` does not end in .wale")
    if "-" in files and len(files) > 1:
        raise click.UsageError("`-`, standard input, stands alone")
    worst = 0
    found = []
    for path in dict.fromkeys(files):
        try:
            done, problems, source = _lay_out(world, path, to_upgrade)
        except Refused as refused:
            done, problems, source = None, [refused.problem], None
        report(world, problems, {source.name: source} if source is not None else {})
        worst = max(worst, exit_code(problems))
        found += [done] if done is not None else []
    for done in found:
        _give(world, done, to_check, to_diff)
    is_dry = to_check or to_diff
    return max(worst, int(is_dry and any(done.is_changed for done in found)))


def _lay_out(world: World, path: str, to_upgrade: bool) -> tuple[Done | None, list[Problem], Source]:
    """Lay one file out, and say on stderr which lines were left as they are."""
    from wale.format import format_source
    from wale.parse.parser import parse_used

    data = world.read_bytes(path)
    source = decode(STDIN if path == "-" else path, data)
    used: dict[str, tuple[Tree, list[Problem]] | None] = {}

    def load(name: Text) -> tuple[Tree, list[Problem]] | None:
        if name.text not in used:
            try:
                used[name.text] = parse_used(world.read_beside(source.name, name.text))
            except Refused:
                used[name.text] = None
        return used[name.text]

    laid, problems = format_source(source, load, to_upgrade, world.beside)
    if laid is None:
        return None, problems, source
    for span in laid.kept:
        notice(f"{source.name}: {_lines(laid.before, span)} left as typed; wale check says why")
    return Done(path, data, laid.text.encode()), [], source


def _lines(source: Source, span: Span) -> str:
    first, last = source.place(span.start)[0], source.place(span.end)[0]
    return f"line {first} is" if first == last else f"lines {first} to {last} are"


def _give(world: World, done: Done, to_check: bool, to_diff: bool) -> None:
    """Write a file, or show what would be written."""
    if to_diff:
        emit(_diff(done, world.terminal("stdout").colour).encode(errors="replace"))
    elif to_check:
        emit(f"{done.path}\n".encode(errors="replace") if done.is_changed else b"")
    elif done.path == "-":
        emit(done.after)
    elif done.is_changed:
        world.rewrite(done.path, done.after)
        notice(f"formatted {done.path}")


def _diff(done: Done, colour: bool) -> str:
    """Give the changes as a unified diff, which `patch` takes."""
    from difflib import unified_diff

    before, after = (_marked(data.decode()) for data in (done.before, done.after))
    shown = unified_diff(before, after, done.path, done.path, "as it is", "formatted")
    if not colour:
        return "".join(shown)
    paint = {"+": "green", "-": "red", "@": "cyan"}
    return "".join(
        click.style(line, bold=True) if line[:3] in ("+++", "---") else click.style(line, fg=paint.get(line[0]))
        for line in shown
    )


def _marked(text: str) -> list[str]:
    """Give the lines of a text, the last one marked where its line end is missing, as unified diffs do."""
    *lines, last = text.split("\n")
    return [line + "\n" for line in lines] + ([f"{last}\n\\ No newline at end of file\n"] if last else [])
