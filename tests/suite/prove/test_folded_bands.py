"""Folded neckbands and turtlenecks: rounds by hand, what is sewn, the yarn, and whether they go over the head."""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import checked, codes, errors, planned, written
from test_mitres import VEST

from wale.checks.rings import rings
from wale.outputs.text import render as to_text
from wale.write.finishing import finishing
from wale.write.stitch_counts import place_counts

FOLDED = VEST.replace("8 rows, 1x1, mitred", "2.5 cm, 1x1, folded")
PULLED = "washed 26 sts and 34 rows in 10 cm\n    stretch 26 sts = {} cm"


def test_rounds_by_hand() -> None:
    """2.5 x 3.4 = 8.5, so 9 rounds outside and 9 inside; 9 / 3.4 cm deep."""
    (band,) = planned(FOLDED).bands
    assert band.rows == (18,) and band.depth(0) == Fraction(90, 34)
    (counted,) = planned(FOLDED.replace("2.5 cm", "8 rows")).bands
    assert counted.rows == (16,)


def test_words_and_yarn() -> None:
    """120 sts on each of 18 rounds; the bound-off edge, 120 / 2.6 cm, is sewn down beside being bound off."""
    done = written(FOLDED)
    assert done.pattern is not None and done.spec is not None and done.plan is not None and not errors(done)
    text = " ".join(to_text(done.pattern).split())
    assert "work 18 rounds in 1x1 rib" in text
    assert "Neckband: fold it in half to the inside and sew the bound-off edge in rye" in text
    assert sum(place_counts(done.spec, done.plan, 0)[-1].values()) == 18 * 120
    ends = [one for one in finishing(done.spec, done.plan, 0) if one.piece == "neckband"]
    assert [one.what for one in ends] == ["bind-off", "hem"]
    assert all(one.cm > Fraction(1200, 26) for one in ends)


@pytest.mark.parametrize("depth", ["2.5 cm, 1x1, folded", "20 cm, 1x1"])
def test_it_has_to_go_over_the_head(depth: str) -> None:
    """120 sts at 2.6 are 46.2 cm; pulled by 30 % they are 60 and pass a head of 56, by 20 % 55.4 and do not."""
    text = FOLDED.replace("2.5 cm, 1x1, folded", depth)
    for pulled, verdict in ((13, "goes on"), (12, "too tight")):
        done = checked(text.replace("washed 26 sts and 34 rows in 10 cm", PULLED.format(pulled)))
        assert done.spec is not None and done.plan is not None
        (ring,) = [one for one in rings(done.spec, done.plan) if one.piece == "neckband"]
        assert (ring.part, ring.verdict) == ("head", verdict)
        assert ("W606" in codes(done)) == (verdict == "too tight")


def test_a_mitre_is_not_folded() -> None:
    text = FOLDED.replace("folded", "folded, mitred")
    (found,) = [one for one in checked(text).problems if one.is_error]
    span = found.labels[0].span
    assert found.code == "E405" and "folded" in text[span.start : span.end]
