"""A stand-in for the pipeline, so that the command line is tested by itself."""

import sys
from dataclasses import dataclass, field
from types import ModuleType

import pytest

from wale.cli import main
from wale.files import MemoryWorld
from wale.problems.problem import Label, Problem
from wale.source import Span

GOOD, BAD, CAREFUL, BROKEN = "good.wale", "bad.wale", "careful.wale", "broken.wale"


@dataclass(frozen=True)
class Compiled:
    """What the pipeline gives, as far as the command line looks."""

    problems: tuple = ()
    sources: dict = field(default_factory=dict)


@dataclass(frozen=True)
class Made:
    """A compiled spec with its file."""

    compiled: Compiled
    data: bytes
    complaints: tuple = ()
    record: dict | None = None


def fake_driver(asked):
    """Give a pipeline whose answer goes by the file's name; it notes what it was asked in `asked`."""

    def compile_spec(world, path, sizes=(), extras=(), **chosen):
        asked.append((path, sizes))
        source = world.read(path)
        if BROKEN in path:
            raise ZeroDivisionError
        code = {BAD: "E906", CAREFUL: "W999"}.get(path)
        problems = (Problem(code, "the miller is out", (Label(Span(path, 0, 4)),)),) if code else ()
        return Compiled(problems, {path: source})

    driver = ModuleType("wale.driver")

    def make(world, path, setting, sizes=(), extras=(), **chosen):
        compiled = compile_spec(world, path, sizes, extras)
        stands = any(one.is_error for one in compiled.problems)
        return Made(compiled, *((b"", ()) if stands else setting(compiled)))

    driver.compile_spec = compile_spec
    driver.make = make
    driver.check_spec = compile_spec
    driver.render = lambda compiled, to, world, **chosen: (f"{to}: grist\n".encode(), ())
    return driver


@pytest.fixture
def asked(monkeypatch):
    """Put the stand-in in the pipeline's place; gives the list of what it is asked."""
    import wale
    from wale.problems.codes import CODES, Code

    asked = []
    driver = fake_driver(asked)
    monkeypatch.setitem(sys.modules, "wale.driver", driver)
    monkeypatch.setattr(wale, "driver", driver, raising=False)
    monkeypatch.setitem(CODES, "W999", Code("warning", "The miller is out"))
    return asked


@pytest.fixture
def world():
    """Give surroundings with one spec of each fate."""
    return MemoryWorld({name: "wale 1\n" for name in (GOOD, BAD, CAREFUL, BROKEN)})


@pytest.fixture
def run(asked, world, capsys):
    """Give a function that runs a command and returns exit code, stdout, stderr."""

    def run(*arguments):
        code = main(arguments, world)
        out, err = capsys.readouterr()
        return code, out, err

    return run
