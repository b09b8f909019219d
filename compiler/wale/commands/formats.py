"""The formats of commands that answer on standard output unless a file is named."""

from __future__ import annotations

import os.path
from typing import Literal

import click

Format = Literal["text", "html", "json"]

ENDINGS: dict[str, Format] = {".txt": "text", ".html": "html", ".htm": "html", ".json": "json"}


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
