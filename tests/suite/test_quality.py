"""The code is linted, formatted and typed; each command, option and problem code has its place in the docs."""

import subprocess
import sys
from pathlib import Path

import click
import pytest

from wale.cli import COMMANDS, wale
from wale.problems.codes import CODES

ROOT = Path(__file__).parents[2]
COMMANDS_PAGE = ROOT / "docs" / "commands.md"
PAGES = ROOT / "docs" / "problems"


@pytest.mark.parametrize(
    "arguments",
    [("ruff", "check", "."), ("ruff", "format", "--check", "."), ("mypy",)],
    ids=["lint", "format", "types"],
)
def test_the_tools_find_nothing(arguments):
    done = subprocess.run([sys.executable, "-m", *arguments], cwd=ROOT, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout + done.stderr


def section(name):
    """Give the part of the commands page under a command's heading."""
    return COMMANDS_PAGE.read_text("utf-8").partition(f"\n## wale {name}\n")[2].partition("\n## ")[0]


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_each_command_and_option_is_documented(name):
    text = section(name)
    command = wale.get_command(None, name)
    assert command is not None and command.name == name
    assert f"wale {name}" in text
    for parameter in command.params:
        for spelling in (
            parameter.opts if isinstance(parameter, click.Option) else [parameter.make_metavar(click.Context(command))]
        ):
            assert spelling.strip("[].") in text, f"{spelling} of `wale {name}` is missing in docs/commands.md"


@pytest.mark.parametrize("code", sorted(CODES))
def test_each_problem_has_a_page(code):
    path = PAGES / f"{code}.md"
    assert path.exists(), f"write docs/problems/{code}.md"
    assert path.read_text("utf-8").startswith(f"# {code}: {CODES[code].title}\n")


def test_each_page_has_a_problem():
    assert sorted(path.stem for path in PAGES.glob("*.md")) == sorted(CODES)
