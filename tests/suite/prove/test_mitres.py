"""Mitred bands: their stitches and rounds by hand, the rib's mirror image on the proven fabric, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from support import checked, errors, planned, written
from test_floats_proven import knitted_all as proven

from wale.outputs.text import render as to_text
from wale.prove.fabric import CENTRED_DEC, KNIT
from wale.shaping.mitre import mitre_every, mitre_rounds
from wale.write.stitch_counts import place_counts

VEST = """wale 1

pattern "Hopper"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

swatch plain, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 24 sts and 32 rows in 10 cm

swatch round, in the round
    fabric rib 1x1 in rye
    needle 3 mm
    washed 26 sts and 34 rows in 10 cm

sizes one
    measure head 56 cm

piece back, worked flat
    edge      1 st each side in rye
    cast on   77 sts in plain
    work      100 rows
    neck      25 sts wide, 8 rows deep
    shoulders slope 8 rows, short rows

piece front, as back
    neck 25 sts wide, 46 rows deep, V

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch

band neckband
    pick up along back neck, front neck in round
    rib     8 rows, 1x1, mitred
"""
SQUARE = VEST.replace("46 rows deep, V", "20 rows deep, square")


def test_a_v_by_hand() -> None:
    """The back's neck goes by 4 and 2 sts at each side of 13: (1.7800 + 1.0417 + 4 / 3.2) x 2.6 = 10.6, so 11 a side,
    and 13 / 2.4 x 2.6 = 14.1, so 14. The front's 12 decreases slant by sqrt(0.4167^2 + 0.625^2) = 0.7512 cm, 9 pairs of
    rows go straight, and 4 rows: (9.014 + 5.625 + 1.25) x 2.6 = 41.3, so 41, an odd number, with the point 1. That
    makes 119; 120 for the rib, one more behind. The point is st 11 + 15 + 11 + 41 + 1 = 79. Half the V's width is
    12.5 / 2.4 = 5.2 cm, its depth 46 / 3.2 = 14.4 cm: 2.6 / 3.4 / 0.36 = 2.1, so each round from the 2nd to the 8th:
    120 - 14."""
    (band,) = planned(VEST).bands
    assert [counts for _, counts in band.picked] == [(11,), (15,), (11,), (41,), (1,), (41,)]
    assert band.stitches == (120,) and band.marked == ((79,),) and band.mitres == ((2, 3, 4, 5, 6, 7, 8),)
    assert band.last(0) == 106


def test_a_square_by_hand() -> None:
    """20 rows are 20 / 3.2 x 2.6 = 16.25 sts, 17 for an odd number, 25 sts are 27.1: 27, odd. 36 behind and 2 x 17 +
    27 make 97, 98 for the rib. The corners are st 11 + 15 + 11 + 17 + 1 = 55 and st 55 + 26 = 81; a square opens by 1
    in 1, 2.6 / 3.4 = 0.76, so each round: 98 - 7 x 4."""
    (band,) = planned(SQUARE).bands
    assert [counts for _, counts in band.picked] == [(11,), (15,), (11,), (17,), (27,), (17,)]
    assert band.marked == ((55, 81),) and band.last(0) == 70


@pytest.mark.parametrize(
    ("sts", "rows", "slant", "every"),
    [
        (Fraction(26, 10), Fraction(34, 10), Fraction(1), 1),
        (Fraction(22, 10), Fraction(34, 10), Fraction(1), 2),
        (Fraction(22, 10), Fraction(34, 10), Fraction(1, 2), 1),
        (Fraction(3), Fraction(4), Fraction(1), 1),
    ],
)
def test_how_often_it_decreases(sts: Fraction, rows: Fraction, slant: Fraction, every: int) -> None:
    """0.765, 0.647, 1.29 and 0.75 sts a round and side: from 3/4 on each round."""
    assert mitre_every(sts, rows, slant) == every


def test_rounds() -> None:
    assert mitre_rounds(7, 2) == (2, 4, 6) and mitre_rounds(3, 1) == (2, 3) and mitre_rounds(1, 1) == ()


@pytest.mark.parametrize(("text", "corners"), [(VEST, 1), (SQUARE, 2)])
def test_the_rib_mirrors_at_each_mitre(text: str, corners: int, monkeypatch: pytest.MonkeyPatch) -> None:
    before, fewer = (120, 2) if corners == 1 else (98, 4)
    (band,) = [one for one in proven(written(text), monkeypatch) if one.piece == "neckband"]
    assert len(band.marked) == corners and len(band.rows) == 8
    for row in band.rows:
        gone = sum(one <= row.number for one in band.mitres)
        places = [place - 1 - gone * (1 + 2 * number) for number, place in enumerate(band.marked)]
        assert row.stitches == len(row.ops) == before - fewer * gone
        for place in places:
            assert row.ops[place] == (CENTRED_DEC if row.number in band.mitres else KNIT)
            assert row.ops[place - 6 : place] == row.ops[place + 1 : place + 7][::-1]


def test_words_and_yarn() -> None:
    done = written(VEST)
    assert done.pattern is not None and done.spec is not None and done.plan is not None
    text = " ".join(to_text(done.pattern).split())
    assert (
        "Mitre: mark st 79 of the round. Each mitre round: work the sts as they lie, but s2kp over each marked" in text
    )
    assert "on round 2, then on every round 6 times; work the other rounds as the sts lie: 8 rounds, 106 sts." in text
    assert "Bind off all 106 sts" in text and "slip 2 stitches knitwise together, knit 1" in text
    assert sum(place_counts(done.spec, done.plan, 0)[-1].values()) == 120 + sum(range(106, 120, 2))
    assert "mark st 55 and st 81 of the round" in " ".join(to_text(written(SQUARE).pattern).split())  # type: ignore[arg-type]


@given(
    st.integers(8, 17), st.integers(20, 28), st.sampled_from(["V", "square"]), st.sampled_from(["1x1", "1x2", "3x3"]),
    st.integers(2, 8), st.booleans(),
)  # fmt: skip
@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_size_is_proven(half: int, pairs: int, curve: str, rib: str, rounds: int, turned: bool) -> None:
    """What is written was knitted from its words; the marked stitch is the middle one of a knit rib."""
    text = VEST.replace("25 sts wide", f"{2 * half + 1} sts wide").replace(
        "46 rows deep, V", f"{2 * pairs} rows deep, {curve}"
    )
    text = text.replace("8 rows, 1x1", f"{rounds} rows, {rib}")
    if turned:
        text = text.replace("back neck, front neck", "front neck, back neck")
    done = written(text)
    assert not errors(done) and done.plan is not None
    (band,) = done.plan.bands
    knit, purl = map(int, rib.split("x"))
    assert band.stitches[0] % (knit + purl) == 0
    assert all((place - 1) % (knit + purl) == (knit - 1) // 2 for place in band.marked[0])


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("46 rows deep, V", "46 rows deep, round"),
        ("8 rows, 1x1, mitred", "8 rows, 2x2, mitred"),
        ("8 rows, 1x1, mitred", "46 rows, 1x1, mitred"),
        ("25 sts wide, 8 rows deep", "25 sts wide, 40 rows deep, V"),
        ("rib     8 rows, 1x1, mitred", "garter  8 rows, mitred"),
    ],
)
def test_what_is_refused(old: str, new: str) -> None:
    assert old in VEST
    text = VEST.replace(old, new)
    (found,) = [one for one in checked(text).problems if one.is_error]
    span = found.labels[0].span
    assert found.code == "E405" and "mitre" in found.message
    assert "mitred" in text[span.start : span.end]
