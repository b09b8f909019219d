"""The command line: gathers the commands and turns whatever happens into an exit code and a few plain words.

Exit codes: 0 fine, 1 a spec has an error, 2 the call or the machine is at fault or the compiler failed, 130
interrupted, 141 the reader of the output went away. Nothing heavy is imported here: `wale --version` needs click only.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import NoReturn

import click

from wale import __version__
from wale.commands.report import exit_code, report
from wale.files import DiskWorld, Refused, World, calm_streams, leave, mute_stdout

FINE, AT_FAULT, INTERRUPTED, PIPE_CLOSED = 0, 2, 130, 141


COMMANDS = {
    "check": "check.check",
    "compile": "compile.compile_spec",
    "diff": "diff.diff",
    "errata": "errata.errata",
    "explain": "explain.explain",
    "format": "format.format_files",
    "git-listing": "git_driver.git_listing",
    "git-merge": "git_driver.git_merge",
    "git-setup": "git_setup.git_setup",
    "knit": "knit.knit",
    "motif": "motif.motif",
    "new": "new.new",
    "problem": "problem.problem",
    "reckon": "reckon.reckon",
    "regrade": "regrade.regrade",
    "swatches": "swatches.swatches",
    "unpack": "unpack.unpack",
    "yarn": "yarn.yarn",
}
"""Module and function of each command, in `wale.commands`."""


class Commands(click.Group):
    """The commands, each imported when it is asked for."""

    def list_commands(self, ctx: click.Context | None) -> list[str]:
        """Give the names of all commands."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context | None, name: str) -> click.Command | None:
        """Give a command, None where there is none of that name."""
        if name not in COMMANDS:
            return None
        module, _, function = COMMANDS[name].partition(".")
        command: click.Command = getattr(import_module(f"wale.commands.{module}"), function)
        return command


@click.group(
    name="wale",
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="""\b
Examples:
  wale new hat                     write hat.wale, a commented file to start from
  wale check hat.wale              look for problems, write nothing
  wale compile hat.wale            write hat.pdf
""",
)
@click.version_option(__version__, "--version", message="wale %(version)s", help="Show the version and stop.")
def wale() -> None:
    """Turn a short text file, a spec, into a sized and checked knitting pattern."""


def main(arguments: Sequence[str] | None = None, world: World | None = None) -> int:
    """Run one command.

    Args:
        arguments: what follows `wale` on the command line, the process's own by default.
        world: the surroundings, the real ones by default.

    Returns:
        The exit code; nothing is raised but what WALE_TRACE lets through.
    """
    door = DiskWorld() if world is None else world
    if world is None:
        # a process of its own lives for seconds and leaves few circles of garbage: not worth looking for them
        gc.disable()
    calm_streams()
    try:
        with wale.make_context("wale", list(sys.argv[1:] if arguments is None else arguments), obj=door) as context:
            code = wale.invoke(context)
        sys.stdout.flush()
    except click.exceptions.Exit as done:
        return done.exit_code
    except click.ClickException as error:
        error.show()
        return AT_FAULT
    except Refused as refused:
        report(door, (refused.problem,), {})
        return exit_code((refused.problem,))
    except BrokenPipeError:
        mute_stdout()
        return PIPE_CLOSED
    except (KeyboardInterrupt, click.Abort):
        click.echo("\nwale: interrupted, nothing more was written", err=True)
        return INTERRUPTED
    except Exception as error:  # the last net: a person must never meet a traceback
        if door.environment("WALE_TRACE") == "1":
            raise
        if isinstance(error, OSError):
            mute_stdout()
        click.echo(describe_failure(error), err=True)
        return AT_FAULT
    return int(code or FINE)


def run() -> NoReturn:
    """Run one command as a process of its own, for `wale` on the command line."""
    leave(main())


def describe_failure(error: Exception) -> str:
    """Give a short message for a failure that is the compiler's own."""
    import traceback

    frames = traceback.extract_tb(error.__traceback__)
    place = f" at {frames[-1].filename.replace(chr(92), '/').rsplit('/', 1)[-1]}:{frames[-1].lineno}" if frames else ""
    words = " ".join(str(error).split())[:200]
    return (
        f"wale: the compiler failed ({type(error).__name__}{place}){f': {words}' if words else ''}\n"
        f"This is a defect of wale {__version__}, not of your file; nothing was written. Please report it with the "
        "spec, the command and this message. WALE_TRACE=1 shows where it happened."
    )
