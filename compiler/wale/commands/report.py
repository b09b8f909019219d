"""How commands speak: problems and notices to stderr, results to stdout, and what the exit code says."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from threading import Timer

import click

from wale import refusals
from wale.files import World, mute_stdout
from wale.problems.problem import Problem
from wale.source import Source

CALL_AT_FAULT = frozenset({"E908", "E909", "E910", "E911", "E912", "E931", "E932", "E933", "E934"})
"""Problems of the call or the machine rather than of a spec."""

PATIENCE_SECONDS = 1.0
"""How long work stays silent on a terminal."""


def exit_code(problems: Sequence[Problem]) -> int:
    """Give 0 without errors, 2 when the call or the machine is at fault, else 1."""
    errors = {problem.code for problem in problems if problem.is_error}
    if errors & CALL_AT_FAULT:
        return 2
    return 1 if errors else 0


def report(world: World, problems: Sequence[Problem], sources: Mapping[str, Source]) -> None:
    """Show problems on stderr, with the lines they point at."""
    if not problems:
        return
    from wale.problems.show import show

    terminal = world.terminal("stderr")
    text = show(problems, sources, colour=terminal.colour, width=terminal.width)
    click.echo(text, err=True, color=terminal.colour)


def count(problems: Sequence[Problem]) -> str:
    """Give the number of problems of each severity in words: "2 errors, 1 warning" or "no problems"."""
    words = []
    for severity in ("error", "warning", "caution", "note"):
        number = sum(problem.severity == severity for problem in problems)
        if number:
            words.append(f"{number} {severity}{'s' if number > 1 else ''}")
    return ", ".join(words) or "no problems"


def notice(text: str) -> None:
    """Say something about the work on stderr."""
    click.echo(text, err=True)


def emit(data: bytes) -> None:
    """Put a result on stdout as it is.

    Raises:
        Refused: E910, stdout takes no more (a full disk behind it).
        BrokenPipeError: nobody reads it any longer.
    """
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        mute_stdout()
        raise refusals.unwritable("standard output", refusals.reason(error)) from None


@contextmanager
def progress(world: World, text: str) -> Iterator[None]:
    """Show `text` on a terminal once the work inside takes longer than a second, and wipe it at the end."""
    terminal = world.terminal("stderr")
    if not terminal.is_terminal:
        yield
        return
    shown = f"{text} ..."[: terminal.width - 1]
    timer = Timer(PATIENCE_SECONDS, lambda: click.echo(shown, nl=False, err=True))
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        was_shown = not timer.is_alive()
        timer.cancel()
        if was_shown:
            click.echo("\r" + " " * len(shown) + "\r", nl=False, err=True)
