"""Bands along armholes: stitches by hand, twice in the yarn, proven from the printed words, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import checked, codes, errors, planned, written

from wale.checks.rings import rings
from wale.outputs.text import render as to_text
from wale.write.stitch_counts import place_counts, stitch_counts

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
    measure upper-arm 30 cm

piece back, worked flat
    edge      1 st each side in rye
    cast on   101 sts in plain
    work      40 rows
    mark      underarm
    bind off  6 sts each side
    shape     to 77 sts over 12 rows
    work      60 rows
    neck      25 sts wide, 8 rows deep
    shoulders slope 8 rows, short rows

piece front, as back
    neck 25 sts wide, 40 rows deep, V

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch

band edging, make 2
    pick up along back armholes, front armholes in round
    rib     8 rows, 1x1
"""
STRAIGHT = VEST.replace("    bind off  6 sts each side\n    shape     to 77 sts over 12 rows\n", "")


def test_stitches_by_hand() -> None:
    """Bound off are 6 sts, 1 of them in the seam: 5 / 2.4 x 2.6 = 5.4, so 5. Along the rows: 2 of the bind-off, 12 of
    the shaping, 60 less the slope's 8, 66 / 3.2 = 20.625 cm; 6 of them slant by a stitch, sqrt((10/24)^2 + (10/32)^2) =
    25/48 cm for 15/48, so 1.25 cm more: 21.875 x 2.6 = 56.9, so 57. Down the front again: 124, even."""
    (band,) = planned(VEST).bands
    assert [counts for _, counts in band.picked] == [(5,), (57,), (57,), (5,)]
    assert band.stitches == (124,) and band.make == 2


def test_the_edge_takes_up_what_the_rib_asks_for() -> None:
    """A rib of 3 and 3 has 126 sts, 2 more than 124, along the front's edge."""
    (band,) = planned(VEST.replace("rib     8 rows, 1x1", "rib     8 rows, 3x3")).bands
    assert [counts for _, counts in band.picked] == [(5,), (57,), (59,), (5,)]


def test_a_straight_armhole_begins_at_its_mark() -> None:
    """60 rows less the slope's 8: 52 / 3.2 x 2.6 = 42.25, so 42 of each piece."""
    (band,) = planned(STRAIGHT).bands
    assert [counts for _, counts in band.picked] == [(42,), (42,)]


def test_yarn_is_reckoned_for_both() -> None:
    """8 rounds of 124 sts, twice."""
    done = checked(VEST)
    assert done.spec is not None and done.plan is not None
    *pieces, band = place_counts(done.spec, done.plan, 0)
    assert sum(band.values()) == 8 * 124
    whole = sum(stitch_counts(done.spec, done.plan, 0).values())
    assert whole == sum(sum(one.values()) for one in pieces) + 2 * 8 * 124


def test_words_stand_after_the_side_seams() -> None:
    done = written(VEST)
    assert done.pattern is not None and not errors(done)
    text = " ".join(to_text(done.pattern).split())
    assert "Worked after the shoulders and the sides are joined. Make 2." in text
    assert "5 sts along the bound-off sts of the back armhole, 57 sts along the edge of the back armhole" in text
    assert text.index("Close the side seams") < text.index("along the edge of the back armhole")


def test_it_has_to_pass_the_arm() -> None:
    """124 sts at 2.6 are 47.7 cm, round an arm of 30."""
    done = checked(VEST)
    assert done.spec is not None and done.plan is not None
    (ring,) = [one for one in rings(done.spec, done.plan) if one.piece == "edging"]
    assert ring.part == "upper-arm" and ring.part_cm == 30 and ring.girth_cm == Fraction(1240, 26)
    assert "neck opening" in [one.ring for one in rings(done.spec, done.plan)]


def test_make_may_be_left_out() -> None:
    done = checked(VEST.replace(", make 2", ""))
    assert done.plan is not None and done.plan.bands[0].make == 2
    assert done.spec is not None and any("worked twice" in one.text for one in done.spec.assumptions)
    said = checked(VEST)
    assert said.spec is not None and not any("worked twice" in one.text for one in said.spec.assumptions)


@pytest.mark.parametrize(
    ("code", "old", "new", "place"),
    [
        ("E223", "make 2", "make 3", "band edging, make 3"),
        ("E223", "back armholes, front armholes", "back neck, front neck", "band edging, make 2"),
        ("E503", "back armholes, front armholes", "back armholes, back armholes", "band edging, make 2"),
        ("E503", "back armholes, front armholes", "back armholes, front neck", "band edging, make 2"),
    ],
)
def test_what_is_refused(code: str, old: str, new: str, place: str) -> None:
    assert old in VEST
    text = VEST.replace(old, new)
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert found.code == code
    span = found.labels[0].span
    assert text[span.start : span.end] == place


def test_an_armhole_without_a_beginning_is_refused() -> None:
    done = checked(STRAIGHT.replace("    mark      underarm\n", ""))
    assert codes(done)[:1] == ["E503"] and "underarm" in done.problems[0].help


def test_a_half_piece_has_one_armhole() -> None:
    """The front of a vest that opens is two halves; the band lies along the back's and one half's edge, 42 sts each."""
    text = STRAIGHT.replace("101 sts", "42 cm").replace("25 sts wide", "10 cm wide")
    text = text.replace(
        "piece front, as back\n",
        "piece right-front, as left-front, mirrored\n\npiece left-front, as back, left half\n    opening 3 cm\n",
    )
    text = text.replace("with front shoulders", "with left-front shoulders").replace(
        "front armholes", "left-front armholes"
    )
    done = written(text)
    assert done.plan is not None and not errors(done)
    (band,) = done.plan.bands
    assert [counts for _, counts in band.picked] == [(42,), (42,)] and band.make == 2 and not band.is_flat
