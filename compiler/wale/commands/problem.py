"""`wale problem`: what a problem code means."""

from __future__ import annotations

import click

from wale.commands.report import emit
from wale.problems.codes import CODES


@click.command(
    "problem",
    short_help="Explain a problem code.",
    epilog="""\b
Examples:
  wale problem                     list all codes
  wale problem E904                explain one
""",
)
@click.argument("code", required=False)
def problem(code: str | None) -> int:
    """Explain a problem CODE, as it stands in brackets in a message; without one, list them all."""
    if code is None:
        emit("".join(f"{key}  {kind.severity:7}  {kind.title}\n" for key, kind in sorted(CODES.items())).encode())
        return 0
    key = code.upper()
    if key not in CODES:
        raise click.UsageError(f"there is no code `{code}`; `wale problem` without a code lists them")
    emit(page(key).encode())
    return 0


def page(code: str) -> str:
    """Give the page of a code in the table, or its title where the pages aren't installed."""
    from importlib.resources import files

    try:
        return (files("wale.pages") / f"{code}.md").read_text("utf-8")
    except (ModuleNotFoundError, FileNotFoundError):
        return f"# {code}: {CODES[code].title}\n\nSeverity: {CODES[code].severity}. Page: docs/problems/{code}.md\n"
