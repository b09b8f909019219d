"""Sleeve caps against their armholes: both edges measured on the proven fabric, stitches a row after row."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support import EXAMPLES, PLAIN, checked, codes, planned, written
from test_floats_proven import knitted as proven

from wale.armholes import cap_edges, side_edge
from wale.outputs.text import render as to_text
from wale.plan import PiecePlan
from wale.prove.fabric import Fabric
from wale.spec import SetIn

CARDIGAN = (EXAMPLES / "sluice-cardigan.wale").read_text("utf-8")
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

CAP = """wale 1

pattern "Cap"

{yarns}
sizes one

piece back, worked flat
    cast on   50 cm in plain
    work      34 cm
    mark      underarm
    bind off  3 cm each side
    shape     to 36 cm over 6 cm, on any row
    work      to 55 cm
    neck      16 cm wide, 2 cm deep
    shoulders slope 2 cm, short rows

piece front, as back
    neck 16 cm wide, 6 cm deep

piece sleeve, worked flat, make 2
    cast on  24 cm in plain
    shape    to 34 cm over 40 cm
    bind off 3 cm each side
    shape    to 24 cm over 3 cm, on any row
    shape    to 15 cm, fitted, on any row
    shape    to 9 cm over 4 cm, on any row
    bind off

join
    seam back shoulders with front shoulders, three-needle bind-off
    set  sleeve cap into armholes
    seam sides and sleeves, mattress stitch
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
    """24 cm of rows in place of the fitted ones, 4 to 15 cm, make the edge 18 cm longer or more."""
    assert codes(checked(FLUME.replace("shape    to 18 cm, fitted", "shape    to 18 cm over 24 cm"))) == ["W622"]


@given(
    sts=st.integers(14, 34),
    ratio=st.fractions(Fraction(5, 4), Fraction(8, 5), max_denominator=8),
    bound=st.integers(4, 9),
    depth=st.integers(20, 27),
)
@settings(max_examples=12, deadline=None)
def test_a_fitted_cap_fits_at_any_gauge(sts: int, ratio: Fraction, bound: int, depth: int) -> None:
    """The edges as polylines of the plan's own counts, by plain geometry: between a stitch and a row less, and 1 in."""
    text = CAP.format(
        yarns=PLAIN.replace("washed 20 sts and 28 rows", f"washed {sts} sts and {round(sts * ratio)} rows")
    )
    text = text.replace("3 cm each", f"{bound / 2} cm each")
    done = planned(text.replace("work      to 55 cm", f"work      to {34 + depth} cm"))
    stitch, row = 10 / sts, 10 / round(sts * ratio)
    cap = 2 * polyline(done.pieces[2], stitch, row) + (done.pieces[2].levels[-1].counts[0] - 2) * stitch
    armhole = sum(polyline(piece, stitch, row) for piece in done.pieces[:2])
    assert -stitch - row - 0.001 <= cap - armhole <= 2.541


def polyline(piece: PiecePlan, stitch: float, row: float) -> float:
    """One side above its first bind-off, up to the tip of the shoulder where there is one."""
    length, is_above = 0.0, False
    for section in piece.sections:
        across = abs(piece.levels[section.first].counts[0] - piece.levels[section.last].counts[0]) // 2
        is_above = is_above or section.kind == "bound"
        if is_above and section.kind == "bound":
            length += across * stitch + section.rows[0] * row
        elif is_above:
            length += across * hypot(stitch, row) + (section.rows[0] - across) * row
    return length - (piece.top.slope_rows[0] * row if piece.top is not None else 0)


@pytest.mark.parametrize(
    ("change", "code", "words"),
    [
        (("set  sleeve cap into armholes", "set  sleeve top into armholes"), "E405", "no line sets this piece"),
        (("shape    to 34 cm over 40 cm", "shape    to 34 cm, fitted"), "E405", "stands below the cap"),
        (("shape    to 24 cm over 3 cm", "shape    to 24 cm, fitted"), "E405", "so is one above it"),
        (("shape    to 24 cm over 3 cm", "shape    to 24 cm"), "E206", "over what length"),
    ],
)
def test_fitted_where_nothing_can_be_fitted(change: tuple[str, str], code: str, words: str) -> None:
    done = checked(CAP.format(yarns=PLAIN).replace(*change))
    assert codes(done)[0] == code and words in done.problems[0].message


def one_side(fabric: Fabric, stitch: float, row: float) -> float:
    """The polyline of a half piece's side from its bind-off on, which ends where the shoulder's slope begins."""
    counts = [one.stitches for one in fabric.rows]
    start = next(at for at, (a, b) in enumerate(pairwise(counts)) if a - b > 3)
    start -= fabric.rows[start].side == "RS"
    length = 0.0
    for before, after in pairwise(counts[start : fabric.neck_row - 1]):
        across = (before - after) * stitch
        length += across + row if across > 1.5 * stitch else hypot(across, row)
    slope = sum(1 for one in fabric.rows if len(one.ops) < one.stitches)
    beside = [gone for at, _, gone in fabric.sides if at >= fabric.neck_row]
    assert set(beside) <= {1}
    return length + (len(counts) - fabric.neck_row + 1 - slope - len(beside)) * row + len(beside) * hypot(stitch, row)


def test_each_cap_fits_the_armhole_of_a_half_and_a_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """On the fabric as knitted: the right half's top is worked a row later, else its edge is that of the left one."""
    done = written(CARDIGAN)
    assert codes(done) == [] and done.plan is not None and done.spec is not None
    gauge = done.spec.swatches["easy"].washed
    stitch, row = float(1 / gauge.stitches), float(1 / gauge.rows)
    fabrics = {(one.piece, one.size): one for one in proven(done, monkeypatch)}
    (join,) = (one for one in done.spec.joins if isinstance(one, SetIn))
    back = done.plan.piece("back")
    assert back is not None
    for index, size in enumerate(done.plan.sizes):
        left, right = (one_side(fabrics[name, size], stitch, row) for name in ("left-front", "right-front"))
        assert abs(right - left - row) < 1e-9
        cap, armhole = cap_edges(done.plan, join, index)
        assert abs(float(armhole - side_edge(back, index)) - left) < 0.01
        assert 0 <= cap - armhole <= Fraction("2.54")
