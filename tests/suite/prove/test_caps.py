"""Sleeve caps against their armholes: both edges measured on the proven fabric, stitches a row after row."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
from support import EXAMPLES, PLAIN, checked, codes, planned, written
from test_floats_proven import knitted as proven

from wale.armholes import cap_edges, side_edge
from wale.outputs.text import render as to_text
from wale.spec import SetIn

FLUME = (EXAMPLES / "flume-pullover.wale").read_text("utf-8")
PANEL = """wale 1

pattern "Panel"

{yarns}
sizes one

piece panel, worked flat
    edge     0 sts each side
    cast on  40 cm in plain
    work     10 cm
    bind off 3 cm each side
    shape    to 30 cm over 20 rows
    work     10 rows
    bind off
"""


def test_an_edge_by_hand() -> None:
    """2 sts and 2.8 rows a cm: 6 sts of 0.5 cm lie level, 3 cm; then 2 rows; 68 to 60 sts in 4 shapings within 20 rows;
    then 10 rows. 4 rows slant by a stitch: sqrt(0.5^2 + (1/2.8)^2) = 0.614452 cm each; 28 rows stand: 10 cm."""
    piece = planned(PANEL.format(yarns=PLAIN)).pieces[0]
    assert [level.counts for level in piece.levels] == [(80,), (68,), (60,)]
    assert abs(side_edge(piece, 0) - Fraction("15.457808")) < Fraction(1, 10000)


def edge(counts: list[int], rows: int, stitch: float, row: float) -> float:
    """The polyline of one side, from stitches after each row, both sides alike; pairs of bind-off rows lie level."""
    half = [count / 2 * stitch for count in counts[: rows + 1]]
    length = 0.0
    for before, after in pairwise(half):
        across = abs(after - before)
        length += across + row if across > 1.5 * stitch else hypot(across, row)
    return length


def test_each_cap_of_the_example_fits_its_armhole(monkeypatch: pytest.MonkeyPatch) -> None:
    """On the fabric as knitted, row by row: the cap's edge less both armhole edges is between 0 and 2.54 cm."""
    done = written(FLUME)
    assert codes(done) == [] and done.plan is not None and done.spec is not None
    gauge = done.spec.swatches["easy"].washed
    stitch, row = float(1 / gauge.stitches), float(1 / gauge.rows)
    fabrics = {(one.piece, one.size): one for one in proven(done, monkeypatch)}
    (join,) = (one for one in done.spec.joins if isinstance(one, SetIn))
    for index, size in enumerate(done.plan.sizes):
        edges = []
        for name in ("back", "front", "sleeve"):
            fabric = fabrics[name, size]
            counts = [one.stitches for one in fabric.rows if one.part != "left"]
            start = next(at for at, (a, b) in enumerate(pairwise(counts)) if a - b > 3) + 1
            if name == "sleeve":
                top = fabric.rows[-1].stitches - 2
                edges.append(2 * edge(counts[start - 1 :], len(counts) - start, stitch, row) + top * stitch)
            else:
                whole = start + 2
                while counts[whole] <= counts[whole - 1] and counts[whole - 1] - counts[whole] <= 2:
                    whole += 1
                missed = sum(1 for one in fabric.rows if one.part != "left" and (one.waiting or one.gone))
                shaped = edge(counts[start - 1 :], whole - start, stitch, row)
                edges.append(shaped + (len(counts) - whole - missed) * row)
        back, front, cap = edges
        assert 0 <= cap - back - front <= 2.54
        told = cap_edges(done.plan, join, index)
        assert abs(float(told[0]) - cap) < 0.01 and abs(float(told[1]) - back - front) < 0.01


def test_what_is_eased_in_is_told() -> None:
    done = written(FLUME)
    assert done.pattern is not None
    assert "Sew the cap of each sleeve into an armhole, the bound-off sts of both underarms together" in " ".join(
        to_text(done.pattern).split()
    )


def test_a_cap_that_is_much_too_high_is_told() -> None:
    """7 cm more of rows at each side make the edge 14 cm longer or more."""
    assert codes(checked(FLUME.replace("over cap - 7 cm", "over cap"))) == ["W622"]
