"""`wale new`: a commented spec to start from."""

from __future__ import annotations

import click

from wale.commands.report import emit, notice
from wale.files import World
from wale.starters import KINDS, starter


@click.command(
    "new",
    short_help="Write a commented spec to start from.",
    epilog="""\b
Examples:
  wale new                         list what there is to start from
  wale new pullover                write pullover.wale
  wale new hat gifts/warm-hat.wale
""",
)
@click.argument("kind", required=False, type=click.Choice(tuple(KINDS)), metavar="[KIND]")
@click.argument("path", required=False)
@click.pass_obj
def new(world: World, kind: str | None, path: str | None) -> int:
    """Write a commented spec of a KIND to PATH, by default KIND.wale; a file that exists is left alone."""
    if kind is None:
        width = max(map(len, KINDS))
        emit("".join(f"{name:{width}}  {words}\n" for name, words in KINDS.items()).encode())
        return 0
    path = path or f"{kind}.wale"
    if not path.endswith(".wale"):
        raise click.UsageError(f"`{path}` does not end in .wale")
    world.create(path, starter(kind).encode())
    notice(f"wrote {path}; now change it, and run: wale compile {path}")
    return 0
