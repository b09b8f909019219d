"""Pieces in the round: whole repeats, no edge stitches, crowns; and the plan does not hang on hash order."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import EXAMPLES, ROOT, checked, errors, planned, written

from wale.draft.repeats import plainest
from wale.materials import Motif
from wale.pattern import Steps
from wale.source import Span

HAT = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
COWL = (EXAMPLES / "first-cowl.wale").read_text("utf-8")


@pytest.fixture(scope="module")
def hat():
    return planned(HAT).pieces[0]


def test_a_hat_has_whole_repeats_and_no_edges(hat) -> None:
    """49.5, 53.5, 57.5 cm at 40 sts = 13.8 cm: 143.5, 155.1, 166.7 sts; whole repeats of 12: 144, 156, 168."""
    body = hat.level("head")
    assert body.edges == 0
    assert body.counts == (144, 156, 168)
    assert body.wishes == (Fraction("49.5"), Fraction("53.5"), Fraction("57.5"))


def test_the_hats_facing(hat) -> None:
    """3 % narrower at 28 sts in 10 cm: 48.015 cm are 134.4, 51.895 145.3, 55.775 156.2."""
    assert hat.level("cast-on").counts == (134, 145, 156)


def test_rounds_need_no_parity(hat) -> None:
    """4 cm of facing at 39 rounds in 10 cm are 15.6: 16; 13 cm at 40 rows = 12.3 cm are 42.3: 42."""
    facing, turning, body, _ = hat.sections
    assert (facing.rows, turning.rows, body.rows) == ((16,) * 3, (1,) * 3, (42,) * 3)


def test_the_crown_closes_in_its_length(hat) -> None:
    """9 cm are 29.3 rounds: 29. 6 wedges of 24, 26, 28 sts lose one stitch each in a decrease round, down to 6."""
    crown = hat.crown
    assert crown.rounds == (29, 29, 29)
    assert crown.start == (144, 156, 168)
    for size, start in enumerate(crown.start):
        rounds = crown.decrease_rounds[size]
        counts = [start, *(stitches for _, stitches in rounds)]
        assert all(before - after in (6, 12) for before, after in pairwise(counts))
        assert [number for number, _ in rounds] == sorted({number for number, _ in rounds})
        assert rounds[0][0] >= 1 and rounds[-1][0] <= 29
        assert counts[-1] == crown.final[size] == 6


def test_a_crown_too_short_for_its_stitches_is_refused() -> None:
    """24 sts a wedge need 23 decrease rounds one by one; 2 cm are 6 to 11 rounds even within the tolerance."""
    done = checked(HAT.replace("over 9 cm", "over 2 cm"))
    assert done.plan is None
    assert set(errors(done)) == {"E401"}


def test_shaping_at_two_edges_needs_edges() -> None:
    assert set(errors(checked(HAT.replace("work    to 13 cm", "shape   to head + 4 cm over 13 cm")))) <= {
        "E250",
        "E405",
    }
    assert errors(checked(HAT.replace("work    to 13 cm", "shape   to head + 4 cm over 13 cm")))


def test_the_cowl() -> None:
    """62 cm: 167.4 sts at 2.7 a cm, a multiple of 4: 168; in the motif 179.7, whole repeats: 180.

    20 cm less the rib (3 cm at 37 rounds in 10 cm: 11 rounds, 2.97 cm) are 17.03 cm, 55.4 rounds: 55.
    """
    cowl = planned(COWL).pieces[0]
    assert [level.counts for level in cowl.levels] == [(168,), (180,)]
    assert [section.rows for section in cowl.sections] == [(11,), (55,)]
    assert cowl.sections[0].even_change == (12,)


def test_a_motif_loses_no_row_to_the_stitches_of_what_follows() -> None:
    """Above the motif's 180 sts, plain: 62 cm are 167.4 sts at 2.7 a cm: 167, 13 fewer on the plain fabric's row 1.

    A rib above the motif is as wide as its 180 sts: no change. From rib to motif the last rib round has it: 12 more.
    """
    lines = "work 12 cm\n    work in plain-round\n    work to 20 cm"
    rib, motif, plain = planned(COWL.replace("work    to 20 cm", lines)).pieces[0].sections
    assert (rib.even_change, rib.even_start) == ((12,), None)
    assert (motif.even_change, motif.even_start) == (None, None)
    assert (plain.even_change, plain.even_start) == (None, (-13,))


def test_a_crown_that_follows_at_once_leaves_the_change_to_the_row_below() -> None:
    """56 cm are 151.2 sts at 2.7 a cm; there is no plain round before the crown's own."""
    lines = "work    to 13 cm\n    work    in plain-round"
    work, crown = planned(HAT.replace("work    to 13 cm", lines)).pieces[0].sections[-2:]
    assert work.even_change is not None and all(change < 0 for change in work.even_change)
    assert crown.even_start is None


SCRIPT = """
import sys, json
sys.path[:0] = [sys.argv[2]]
from support import planned
plan = planned(open(sys.argv[1], encoding="utf-8").read())
print(json.dumps([repr(plan.pieces), repr(plan.bands), repr(plan.solved)]))
"""


def test_a_plan_does_not_depend_on_the_hash_seed() -> None:
    texts = []
    for seed in ("0", "1", "4242"):
        done = subprocess.run(
            [sys.executable, "-c", SCRIPT, str(EXAMPLES / "millrace-pullover.wale"), str(ROOT / "tests")],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        )
        texts.append(done.stdout)
    assert len(json.loads(texts[0])) == 3
    assert texts[0] == texts[1] == texts[2]


LADDER = """wale 1
pattern "Rungs"
    use "mill-yarns.wale"

motif ladder
    repeat 6 sts, 2 rows
    key |-| rye, |x| flour
    | - - x - - x |
    | - - - x x - |

swatch rungs, in the round
    motif ladder in rye, flour
    needle 3.5 mm
    washed 28 sts and 32 rows in 10 cm

sizes one
piece cowl, in the round
    cast on {stitches} sts in rungs
    work in ladder on rungs, {fit}
    work 12 rounds
    bind off
"""
PLAINEST = "starts at the plainest column"


@pytest.mark.parametrize(("stitches", "fit"), [(60, "whole repeats"), (63, "from the edge")])
def test_rounds_start_at_the_plainest_column_where_asked(stitches, fit) -> None:
    """From the right the columns are flour over rye, rye over flour twice, flour over rye, rye, rye.

    The last two change in no row. Left of the last stands the other plain one as the rounds' last stitch: column 6.
    """
    for more, column in (("", 1), (f", {PLAINEST}", 6)):
        done = written(LADDER.format(stitches=stitches, fit=fit + more))
        assert done.pattern is not None, [one.message for one in done.problems]
        words = " ".join(item.text for part in _steps(done) for item in part.items)
        assert f"start at column {column} and repeat the 6 columns" in words
        assert ("whose colour changes in the fewest rows" in words) == bool(more)


def test_wedges_of_a_crown_follow_the_start() -> None:
    """Of Grist's 12 columns the 3rd and 9th from the right are rye in all 14 rows; shifted by 6 they change places.

    So rounds start at column 3. Wedges of 24, 26 and 28 sts: each starts so many further on than the last.
    """
    done = written(HAT.replace("whole repeats", f"whole repeats, {PLAINEST}"))
    assert done.pattern is not None, [one.message for one in done.problems]
    words = " ".join(item.text for part in _steps(done) for item in part.items)
    assert "start at column 3 and repeat the 12 columns" in words
    assert "6 wedges of 24 sts and mark them; each wedge starts at chart column 3." in words
    assert "start at chart columns 3, 5 (7), 7 (11), 9 (3), 11 (7), 1 (11)." in words


@given(st.integers(1, 6).flatmap(lambda w: st.lists(st.text("ab", min_size=w, max_size=w), min_size=1, max_size=5)))
def test_no_column_changes_in_fewer_rows(rows: list[str]) -> None:
    nowhere = Span("", 0, 0)
    motif = Motif("m", nowhere, tuple(map(tuple, rows)), (nowhere,) * len(rows), ())
    columns = ["".join(row[-1 - place] for row in rows) for place in range(len(rows[0]))]
    changes = [sum(a != b for a, b in pairwise(column + column[0])) for column in columns]
    assert changes[plainest(motif)] == min(changes)


def _steps(done) -> list[Steps]:
    return [part for section in done.pattern.sections for part in section.parts if isinstance(part, Steps)]
