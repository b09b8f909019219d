"""Work in a second process: its result, its failure, and its end before the time."""

import os
from fractions import Fraction

import pytest

from wale.files import DiskWorld, MemoryWorld, World

HERE = os.getpid()


@pytest.fixture(params=["disk, one core", "disk, two cores", "memory"])
def world(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> World:
    if request.param == "memory":
        return MemoryWorld()
    monkeypatch.setattr(os, "cpu_count", lambda: 2 if "two" in request.param else 1)
    return DiskWorld()


def test_the_call_gives_the_result_whole(world: World):
    told = world.beside(lambda: {"rows": [Fraction(1, 3)] * 100_000})
    assert told() == {"rows": [Fraction(1, 3)] * 100_000}  # more than a pipe holds


def test_two_works_do_not_mix(world: World):
    first, second = world.beside(lambda: "first"), world.beside(lambda: "second")
    assert (second(), first()) == ("second", "first")


def test_a_failure_is_raised_where_the_result_is_asked_for(world: World):
    def fail() -> None:
        raise ValueError("no such row")

    told = world.beside(fail)
    with pytest.raises(ValueError, match="no such row"):
        told()


def test_work_is_done_beside_where_there_are_two_cores(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    assert DiskWorld().beside(os.getpid)() != HERE
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    assert DiskWorld().beside(os.getpid)() == HERE


def test_what_was_cut_short_is_done_again(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(os, "cpu_count", lambda: 2)

    def work() -> str:
        if os.getpid() != HERE:
            os.kill(os.getpid(), 9)
        return "done here"

    assert DiskWorld().beside(work)() == "done here"


def test_work_is_done_here_where_no_process_can_be_had(monkeypatch: pytest.MonkeyPatch):
    def refuse() -> int:
        raise BlockingIOError("Resource temporarily unavailable")

    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    monkeypatch.setattr(os, "fork", refuse)
    before = len(os.listdir("/proc/self/fd")) if os.path.isdir("/proc/self/fd") else 0
    assert DiskWorld().beside(os.getpid)() == HERE
    assert (len(os.listdir("/proc/self/fd")) if os.path.isdir("/proc/self/fd") else 0) == before
