"""V necks: where their decreases stand, which way they lean, and both sides alike, on the proven fabric."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import PLAIN, checked, codes, written
from test_floats_proven import knitted as proven

from wale.outputs.text import render as to_text
from wale.prove.fabric import KNIT, LEFT_DEC, RIGHT_DEC
from wale.shaping.neck import slope_runs, sloped_neck

VEST = f"""wale 1

pattern "Hopper"

{PLAIN}
sizes S M
    measure bust 84 (92) cm

piece back, worked flat
    cast on   body.bust/2 in plain
    work      to 36 cm
    mark      underarm
    bind off  3 cm each side
    shape     to body.bust/2 - 12 cm over 6 cm
    work      to 60 cm
    neck      16 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, as back
    neck 16 (17) cm wide, 15 cm deep, V

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
"""


def test_decreases_by_hand() -> None:
    """21 sts in 34 rows: a point of 1, 10 at each side; rows 3 to 33 are 16 pairs, so the 9 steps on from the first one
    are 15 pairs: 3 of one pair and 6 of two."""
    neck = sloped_neck(21, 34)
    assert neck is not None
    assert (neck.centre, sum(neck.steps), len(neck.steps)) == (1, 10, 16)
    assert slope_runs(neck.steps) == ((2, 3), (4, 6))


@given(st.integers(1, 90), st.integers(1, 120))
def test_a_slope_is_as_even_as_whole_pairs_allow(stitches: int, rows: int) -> None:
    neck = sloped_neck(stitches, rows)
    side = (stitches - 1) // 2
    if side > (rows - 1) // 2:
        assert neck is None
        return
    assert neck is not None and neck.stitches == stitches and neck.centre == 2 - stitches % 2
    assert set(neck.steps) <= {0, 1} and neck.rows >= 1 + 2 * len(neck.steps)
    places = [place for place, step in enumerate(neck.steps) if step]
    gaps = [after - before for before, after in pairwise(places)]
    assert len(places) == side and places[:1] == [0][:side]
    assert sorted(gaps) == gaps and (not gaps or gaps[-1] - gaps[0] <= 1)
    if side > 1:
        assert places[-1] == len(neck.steps) - 1


def test_both_sides_lean_with_their_edge(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seen from the right side the left part lies at the left and has its neck edge at its right end, where ssk leans
    left; the right part the other way round. Each loses a stitch inside one edge stitch as often as the other."""
    done = written(VEST)
    assert done.plan is not None and codes(done) == ["N605", "N607"]
    fabrics = {(one.piece, one.size): one for one in proven(done, monkeypatch)}
    for index, size in enumerate(done.plan.sizes):
        top = done.plan.pieces[1].top
        assert top is not None
        rows = fabrics["front", size].rows
        lost = {"left": 0, "right": 0}
        for row in (row for row in rows if row.part):
            marked = set(row.ops) - {KNIT}
            if row.part == "left":
                assert marked <= {LEFT_DEC} and (not marked or row.ops.index(LEFT_DEC) == 1)
            else:
                assert marked <= {RIGHT_DEC} and (not marked or row.ops[::-1].index(RIGHT_DEC) == 1)
            lost[row.part] += len(marked)
        assert lost == {"left": sum(top.steps[index]), "right": sum(top.steps[index])}
        assert top.neck[index] == top.centre[index] + 2 * lost["left"]


def test_its_words() -> None:
    """16 cm at 2 sts a cm are 32 sts, a point of 2 and 15 at each side; 15 cm at 2.8 rows are 42 rows, less 2 they hold
    19 pairs after the first row: 14 steps on from the first one are 18 pairs, 10 of one pair and 4 of two."""
    done = written(VEST.replace("84 (92)", "84").replace("16 (17)", "16").replace("sizes S M", "sizes S"))
    assert done.pattern is not None
    text = " ".join(to_text(done.pattern).split())
    assert "bind off the next 2 sts, work to the end of the row." in text
    assert (
        "at the start of RS rows work 1 edge st, ssk: on row 3, then on every 2nd row 10 times, then on every 4th row "
        "4 times." in text
    )
    assert "at the start of WS rows work 1 edge st, p2tog: on row 2, then on every 2nd row 10 times" in text


def test_a_v_that_is_too_shallow_is_told_with_the_depth_that_it_takes() -> None:
    """35 sts: 2 x 17 + 3 = 37 rows, so 38: 13.57 cm."""
    done = checked(VEST.replace("15 cm deep, V", "5 cm deep, V"))
    (found,) = done.problems
    assert found.code == "E401" and "loses one at each side" in found.message and found.fixes
    mended = VEST.replace("15 cm deep, V", f"{found.fixes[0].edits[0].text} deep, V")
    assert checked(mended).plan is not None
