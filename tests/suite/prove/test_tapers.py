"""Tubes that narrow or widen: counts and rounds by hand, the machine's fabric, and what is refused."""

from __future__ import annotations

import pytest
from prove_corruptions import refute
from support import checked, codes, errors, planned, written
from test_floats_proven import knitted_all as proven

from wale.outputs.text import render as to_text
from wale.prove.fabric import LEFT_DEC, LEFT_INC, RIGHT_DEC, RIGHT_INC

SLEEVE = """wale 1

pattern "Flume"
    use "mill-yarns.wale"

sizes one

piece sleeve, in the round
    cast on 60 sts in plain-round
    work    10 rows
    widen   to 98 sts over 30 cm
    work    2 cm
    bind off
"""
BODY = SLEEVE.replace("sleeve,", "body,").replace("60 sts", "268 sts")
BODY = BODY.replace("widen   to 98 sts over 30 cm", "narrow  to 236 sts over 12 cm, at both sides")


def in_words(text: str) -> str:
    done = written(text)
    assert done.pattern is not None and errors(done) == [], codes(done)
    return " ".join(to_text(done.pattern).split())


def test_a_sleeve_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """30 cm at 3.7 rounds are 111. 38 stitches come in 19 rounds: 111 = 3 x 5 + 16 x 6, the closer ones first."""
    told = in_words(SLEEVE)
    shaping = "Round 1: k1, m1L, k to the last 1 st, m1R, k1."
    assert told.count(shaping) == 2
    assert "Rounds 2 to 5: knit." in told and "Repeat rounds 1 to 5 twice more." in told
    assert "Rounds 2 to 6: knit." in told and "Repeat rounds 1 to 6 15 times more." in told
    (fabric,) = proven(written(SLEEVE), monkeypatch)
    shaped = {row.number: row for row in fabric.rows if {LEFT_INC, RIGHT_INC} & set(row.ops)}
    assert sorted(shaped) == [*range(11, 26, 5), *range(26, 26 + 16 * 6, 6)]
    for row in shaped.values():
        assert [place for place, op in enumerate(row.ops) if op == LEFT_INC] == [1]
        assert [place for place, op in enumerate(row.ops) if op == RIGHT_INC] == [len(row.ops) - 2]
    assert [row.stitches for row in fabric.rows][-1] == 98 and len(fabric.rows) == 10 + 111 + 7


def test_a_body_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """12 cm at 3.7 rounds are 44, one for the marker and one to take it away: 42. 32 stitches go in 8: 42 = 6 x 5 + 2 x
    6. Of 268 stitches 134 lie before the marker, and each half loses a stitch beside either end."""
    told = in_words(BODY)
    assert "Next round: k134, place a marker, k to the end." in told
    assert "Repeat rounds 1 to 5 5 times more." in told and "Repeat rounds 1 to 6 once more." in told
    (fabric,) = proven(written(BODY), monkeypatch)
    shaped = [row for row in fabric.rows if LEFT_DEC in row.ops]
    assert [row.number for row in shaped] == [12, 17, 22, 27, 32, 37, 42, 48]
    for row in shaped:
        half = len(row.ops) // 2
        assert row.ops[:half] == row.ops[half:]
        assert (row.ops[:half].count(RIGHT_DEC), row.ops[:half].count(LEFT_DEC)) == (1, 1)
        assert (row.ops[1], row.ops[half - 2]) == (RIGHT_DEC, LEFT_DEC)


def test_widths_become_counts_of_its_steps() -> None:
    """36 cm at 2.7 are 97.2, and 60 stitches gain two at a time: 98. 88 cm are 237.6, from 268 by fours: 236."""
    (sleeve,) = planned(SLEEVE.replace("to 98 sts", "to 36 cm")).pieces
    (body,) = planned(BODY.replace("to 236 sts", "to 88 cm")).pieces
    assert (sleeve.levels[-1].counts, body.levels[-1].counts) == ((98,), (236,))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Repeat rounds 1 to 6 15 times more.", "Repeat rounds 1 to 6 14 times more."),
        ("Rounds 2 to 5: knit.", "Rounds 2 to 6: knit."),
        ("m1R, k1.", "k1."),
    ],
)
def test_a_wrong_word_is_found(old: str, new: str) -> None:
    refute(SLEEVE, "sleeve", old, new)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (SLEEVE.replace("over 30 cm", "over 8 cm"), "E303"),
        (SLEEVE.replace("widen ", "narrow"), "E303"),
        (SLEEVE.replace("to 98 sts", "to 97 sts"), "E303"),
        (SLEEVE.replace("in the round", "worked flat").replace("plain-round", "plain"), "E405"),
        (BODY.replace("236 sts", "238 sts"), "E303"),
        (SLEEVE.replace("widen   to 98 sts", "widen   to"), "E203"),
    ],
)
def test_what_cannot_be_is_refused(text: str, code: str) -> None:
    assert code in errors(checked(text))


def test_a_line_that_shapes_edges_is_sent_here() -> None:
    (found,) = [one for one in checked(SLEEVE.replace("widen   to", "shape   to")).problems if one.is_error]
    assert "widen to WIDTH over LENGTH" in found.help
