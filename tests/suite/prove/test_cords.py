"""Bind-offs with a cord: every stitch on the needle is taken, one by one."""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import checked, codes, written
from test_edges import FLAT

from wale.prove.fabric import Contradiction
from wale.prove.machine import Machine
from wale.prove.reader import read
from wale.write.finishing import END_CM, finishing
from wale.write.yarn_lengths import loop_length

START = "Cast on 5 sts in rye on 3 mm needles."
CORD = (
    "Bind off with a cord: in rye, cast on 3 sts in front of the 5 sts on the needle; "
    "(k2, ssk, slip 3 sts back) 5 times; bind off the last 3 sts."
)


def corded(cord: int, how: str = "worked flat") -> str:
    """A flat or round piece of 20 sts that ends with a cord."""
    spec = FLAT.format(edge="EDGE", sts=20, how=how).replace("    EDGE 8 rows\n", "")
    return spec.replace("bind off", f"bind off with a cord of {cord} sts")


def work(line: str) -> Machine:
    """Cast on and bind off with a cord."""
    machine = Machine({})
    for one in (START, line):
        machine.work(read(one).instructions[0])
    return machine


def test_a_cord_takes_every_stitch() -> None:
    """5 repeats take 5 sts: each makes 2 + 1 of the cord's 3 and one of the needle's; the 3 at the end are its own."""
    needles = work(CORD).needles
    assert (needles.count, needles.bound_off, needles.cord, needles.bind_off_yarn) == (0, 5, 3, "rye")


@pytest.mark.parametrize(
    ("told", "instead", "why"),
    [
        (") 5 times", ") 4 times", "5 sts are bound off in 4 repeats"),
        ("k2, ssk", "k3, ssk", "take 5 sts"),
        ("k2, ssk", "ssk, k2", "last st together"),
        ("slip 3", "slip 2", "not 2 to slip back"),
        ("last 3", "last 2", "2 at its end"),
        ("the 5 sts", "the 6 sts", "there are 5 sts to bind off, not 6"),
    ],
)
def test_words_that_lose_a_stitch_are_found(told: str, instead: str, why: str) -> None:
    with pytest.raises(Contradiction, match=why):
        work(CORD.replace(told, instead))


@pytest.mark.parametrize("how", ["worked flat", "in the round"])
def test_a_cord_takes_a_row_of_its_loops_for_each_stitch(how: str) -> None:
    """20 sts and a cord of 3: 60 loops and two ends."""
    done = written(corded(3, how))
    (end,) = [one for one in finishing(done.spec, done.plan, 0) if one.what == "bind-off"]
    assert end.cm == Fraction(60) * loop_length(done.spec.swatches["plain"]) + END_CM


@pytest.mark.parametrize("cord", [1, 7])
def test_a_cord_has_two_to_six_stitches(cord: int) -> None:
    found = checked(corded(cord))
    assert codes(found) == ["E223"]
    span, text = found.problems[0].labels[0].span, corded(cord)
    assert text[span.start : span.end] == f"{cord} sts"
    assert text[: span.start].endswith("with a cord of ")
