"""The date of outputs, the environment, the terminal."""

import io
import subprocess
import sys

import pytest

from wale.files import DiskWorld, MemoryWorld, Refused, Terminal


def epoch(value):
    return MemoryWorld(variables={"SOURCE_DATE_EPOCH": value}).epoch()


def test_the_date_is_fixed_unless_asked_for():
    # 2026-01-01 is 56 years after 1970-01-01, 14 of them leap years: (56 * 365 + 14) days of 86,400 s.
    assert MemoryWorld().epoch() == (56 * 365 + 14) * 86_400
    assert epoch("") == MemoryWorld().epoch()
    assert epoch("0") == 0
    assert epoch("253402300799") == 253_402_300_799


@pytest.mark.parametrize("value", ["now", "-1", "1.5", " 1", "1e9", "253402300800", "\u0661", "9" * 5000])
def test_a_date_that_is_none(value):
    with pytest.raises(Refused) as caught:
        epoch(value)
    assert caught.value.problem.code == "E911" and len(caught.value.problem.message) < 200


def test_the_disk_world_reads_the_environment(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "7")
    assert DiskWorld().epoch() == 7
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert DiskWorld().environment("SOURCE_DATE_EPOCH") == ""


class Screen(io.StringIO):
    encoding = "UTF-8"

    def isatty(self):
        return True

    def fileno(self):
        return 2


@pytest.mark.parametrize(
    "variables, colour",
    [({}, True), ({"NO_COLOR": "1"}, False), ({"NO_COLOR": ""}, True), ({"TERM": "dumb"}, False)],
)
@pytest.mark.parametrize("columns, width", [(20, 40), (100, 100), (400, 120)])
def test_a_terminal(monkeypatch, variables, colour, columns, width):
    for name in ("NO_COLOR", "TERM"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("os.get_terminal_size", lambda _: type("Size", (), {"columns": columns}))
    monkeypatch.setattr(sys, "stderr", Screen())
    assert DiskWorld().terminal("stderr") == Terminal(True, width, colour, "utf-8")


def test_a_file_or_pipe_is_no_terminal(monkeypatch):
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    assert DiskWorld().terminal("stdout") == Terminal(False, 80, False, "utf-8")


@pytest.mark.parametrize("before", ["pass", "sys.modules['weasyprint'] = sys"])
def test_leaving_loses_no_word_and_no_duty(before):
    code = f"""
import atexit, sys
from wale.files import leave
{before}
atexit.register(print, "a duty at the end")
print("a last word")
print("a complaint", file=sys.stderr)
leave(3)
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (3, "a last word\na duty at the end\n", "a complaint\n")
