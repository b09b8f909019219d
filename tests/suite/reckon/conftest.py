"""Asks questions as the command line does, and lets the tests read the published examples."""

import json
import sys
from pathlib import Path

import pytest

from wale.cli import main
from wale.files import MemoryWorld

sys.path.append(str(Path(__file__).parents[1] / "shaping"))


@pytest.fixture
def reckon(capsys):
    """Give a function that asks a question and returns exit code, data, stderr."""

    def ask(question, *words):
        code = main(["reckon", question, *" ".join(words).split(), "--json"], MemoryWorld({}))
        out, err = capsys.readouterr()
        assert err == ""
        return code, json.loads(out)

    return ask


@pytest.fixture
def figures(reckon):
    """Give a function that asks a question and returns the answer's figures by name."""

    def ask(question, *words):
        code, data = reckon(question, *words)
        assert code == 0, data["problems"]
        return {one["name"]: one["value"] for one in data["answer"]}

    return ask
