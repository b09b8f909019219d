"""Textured edges: what each row looks like from the right side, and words that make another texture."""

from __future__ import annotations

from itertools import pairwise

import pytest
from prove_variants import VARIANTS
from support import checked, codes, written
from test_floats_proven import knitted as proven

from wale.prove.fabric import Contradiction
from wale.prove.machine import Machine
from wale.prove.reader import read

FLAT = """wale 1
pattern "Apron"
yarn rye
    count  2/8 Nm wool
    colour #8a5a2b
swatch plain, {how}
    fabric stockinette in rye
    needle 3.5 mm
    washed 22 sts and 30 rows in 10 cm
sizes one
piece apron, {how}
    cast on {sts} sts in plain
    {edge} 8 rows
    work 4 rows
    bind off
"""


def rows_of(edge: str, sts: int, how: str, monkeypatch: pytest.MonkeyPatch) -> list[bytes]:
    """Knit the printed words and give the edge's 8 rows from the right side."""
    (fabric,) = proven(written(FLAT.format(edge=edge, sts=sts, how=how)), monkeypatch)
    return [row.ops for row in fabric.rows[:8]]


def test_garter_has_a_ridge_on_every_other_row(monkeypatch: pytest.MonkeyPatch) -> None:
    """Knitted on both sides: a WS row shows its purl bumps on the right side. Round 2 is purled."""
    for how in ("worked flat", "in the round"):
        assert rows_of("garter", 20, how, monkeypatch) == [b"k" * 20, b"p" * 20] * 4


def test_a_rolled_edge_is_stockinette(monkeypatch: pytest.MonkeyPatch) -> None:
    for how in ("worked flat", "in the round"):
        assert rows_of("rolled", 20, how, monkeypatch) == [b"k" * 20] * 8


@pytest.mark.parametrize(("edge", "every"), [("seed", 1), ("moss", 2)])
@pytest.mark.parametrize(("how", "sts", "edges"), [("worked flat", 21, 1), ("in the round", 20, 0)])
def test_single_stitches_change_places(
    edge: str, every: int, how: str, sts: int, edges: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No stitch is as its neighbour, and each changes from one row to the next (seed) or the one after that (moss)."""
    rows = rows_of(edge, sts, how, monkeypatch)
    inner = [row[edges : len(row) - edges] for row in rows]
    assert all(one != other for row in inner for one, other in pairwise(row))
    for below, above in zip(inner, inner[every:], strict=False):
        assert all(one != other for one, other in zip(below, above, strict=True))
    if every == 2:
        assert inner[0] == inner[1] and inner[2] == inner[3]


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (("Seed round 1: (k1, p1) 5 times.", "Seed round 2: (k1, p1) 5 times."), "do not make seed"),
        (("Garter round 1: k10.", "Garter round 2: k10."), "do not make garter"),
        (("Seed round 1: (k1, p1) 5 times.",), "1 rows are told, not 2"),
        (("Seed round 1: (k1, p1) 4 times.", "Seed round 2: (p1, k1) 5 times."), "take 8 sts"),
    ],
)
def test_words_that_make_another_texture_are_found(lines: tuple[str, ...], why: str) -> None:
    name = lines[0].split()[0]
    machine = Machine({})
    start = "Cast on 10 sts in rye on 3 mm needles. Join to a round without twisting; mark its start."
    last = f"{name}: work 4 rounds, repeating these 2 rounds, beginning with round 1."
    with pytest.raises(Contradiction, match=why):
        for line in (start, *lines, last):
            machine.work(read(line).instructions[0])


def test_a_rolled_edge_says_how_its_length_counts() -> None:
    done = written(VARIANTS["rolled-edge"])
    assert any("lengths count it unrolled" in one.text for one in done.spec.assumptions)


def test_a_band_has_one_texture() -> None:
    spec = VARIANTS["short-rows"] + "band collar\n    pick up along back neck, front neck in plain-round\n"
    found = checked(spec + "    garter 3 cm\n    seed 3 cm\n")
    assert codes(found) == ["E405"]
