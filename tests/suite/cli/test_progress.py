"""Long work says so, on a terminal only, and wipes it."""

from wale.commands import report
from wale.files import MemoryWorld, Terminal


class Clock:
    """A timer under the test's hand: it rings at once, or never."""

    rings = True

    def __init__(self, _, call):
        self.call = call

    def start(self):
        if self.rings:
            self.call()

    def is_alive(self):
        return not self.rings

    def cancel(self):
        pass


def said(monkeypatch, capsys, rings, terminal):
    monkeypatch.setattr(report, "Timer", type("Timer", (Clock,), {"rings": rings}))
    with report.progress(MemoryWorld(terminals={"stderr": terminal}), "setting hat.pdf"):
        pass
    return capsys.readouterr().err


def test_long_work_is_named_and_wiped(monkeypatch, capsys):
    text = "setting hat.pdf ..."
    assert said(monkeypatch, capsys, True, Terminal(is_terminal=True)) == text + "\r" + " " * len(text) + "\r"


def test_short_work_is_silent(monkeypatch, capsys):
    assert said(monkeypatch, capsys, False, Terminal(is_terminal=True)) == ""


def test_a_file_or_pipe_gets_no_progress(monkeypatch, capsys):
    assert said(monkeypatch, capsys, True, Terminal(is_terminal=False)) == ""
