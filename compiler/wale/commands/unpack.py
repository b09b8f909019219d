"""`wale unpack`: the source, plan and record that a published PDF carries."""

from __future__ import annotations

import os.path

import click

from wale.commands.report import notice
from wale.files import World


@click.command(
    "unpack",
    short_help="Give back the source that a published PDF carries.",
    epilog="""\b
Examples:
  wale unpack jumper.pdf                  into the folder jumper
  wale unpack jumper.pdf --into old       into the folder old
""",
)
@click.argument("pdf", metavar="FILE")
@click.option("--into", metavar="DIR", help="The folder to write to; by default FILE without its ending.")
@click.pass_obj
def unpack(world: World, pdf: str, into: str | None) -> int:
    """Give back what the PDF in FILE carries: the spec, the files that it uses, the solved plan and a record.

    Nothing is written outside the folder, and no file that exists is replaced. `-` reads the PDF from standard input.
    """
    from wale.publishing import read_published

    folder = into or os.path.splitext(pdf)[0]
    if not into and (pdf == "-" or folder == pdf):
        raise click.UsageError("name a folder with --into")
    published = read_published(world, pdf)
    for name, data in published.files().items():
        path = os.path.join(folder, *name.split("/"))
        world.create(path, data, folder)
        notice(f"wrote {path}")
    notice(f"{pdf}: made by {published.record.compiler} from {published.record.spec}")
    return 0
