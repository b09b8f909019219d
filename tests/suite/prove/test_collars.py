"""Shawl collars, and bands that open in front: by hand, on the proven fabric, and what is refused."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import EXAMPLES, checked, planned, world, written
from test_floats_proven import knitted_all as proven
from test_mitres import SQUARE

from wale.driver import Compiled, compile_spec
from wale.knitting import knit_pattern
from wale.outputs.text import render as to_text
from wale.prove.fabric import KNIT, PURL, Fabric
from wale.shaping.collar import front_rows, short_pairs, turn_gaps
from wale.source import Source
from wale.write.stitch_counts import place_counts

RIDGED = """swatch ridged, worked flat
    fabric garter in rye
    needle 3 mm
    washed 26 sts and 34 rows in 10 cm

sizes one
"""
FLAT = SQUARE.replace("sizes one\n", RIDGED).replace("front neck in round", "front neck in ridged")
OLD = "    rib     8 rows, 1x1, mitred\n"
COLLAR = FLAT.replace(OLD, "    shawl collar 16 cm, garter\n")
ROUND = FLAT.replace("20 rows deep, square", "20 rows deep")
LEAT = (EXAMPLES / "leat-cardigan.wale").read_text("utf-8")
LINE = "14 cm, 5 cm in front, garter"
CARDIGAN = LEAT.replace("sizes women XS S M L XL 2XL 3XL", "sizes women M")


def heights(fabric: Fabric) -> list[int]:
    """Rows worked over each stitch of a band that keeps its stitches, from the right."""
    found = [0] * fabric.cast_on
    for row in fabric.rows:
        for place in range(len(row.ops)):
            found[row.waiting + place] += 1
    return found


def words_of(done: Compiled) -> str:
    assert done.pattern is not None, done.problems
    return " ".join(to_text(done.pattern).split())


def test_a_collar_in_a_square_neck_by_hand() -> None:
    """A side of 20 rows is 20 / 3.2 x 2.6 = 16.25 sts, 16; behind 11, 14 and 11: 68. The opening is 25 / 2.4 = 10.42 cm
    wide, 35.4 rows in garter, so 35. Behind 16 cm x 3.4 = 54.4 rows, (54.4 - 35) / 2 = 9.7, 10 pairs. Half a side are
    8 sts, fewer than the turns, so each is a stitch beyond the one before."""
    (band,) = planned(COLLAR).bands
    assert [counts for _, counts in band.picked] == [(16,), (11,), (14,), (11,), (16,)]
    assert band.is_flat and band.stitches == (68,) and band.rows == (55,)
    assert band.collar is not None
    assert (band.collar.base, band.collar.gaps, band.collar.ends) == ((33,), ((1,) * 10,), ((0, 0),))


def test_its_fabric_is_deeper_from_the_ends_to_the_shoulders(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of ten turns, 1 to 10 sts from either end, those nearer to the end than a stitch give it two rows each."""
    (band,) = [one for one in proven(written(COLLAR), monkeypatch) if one.piece == "neckband"]
    expected = [35 + 2 * min(place, 67 - place, 10) for place in range(68)]
    assert heights(band) == expected and max(expected) == 55
    done = written(COLLAR)
    assert done.spec is not None and done.plan is not None
    assert sum(place_counts(done.spec, done.plan, 0)[-1].values()) == sum(expected)
    for row in band.rows:
        assert set(row.ops) == {PURL if row.side == "WS" else KNIT}


def test_its_words() -> None:
    text = words_of(written(COLLAR))
    assert "Begin at the lower right corner of the front neck and go up its right side as worn" in text
    assert "Garter: work 33 rows, repeating these 2 rows, beginning with row 2." in text
    assert (
        "keep on in garter: on the next row (RS) leave the last 10 sts unworked and turn; on the row after it (WS) "
        "leave the last 10 sts unworked and turn; then turn on each of the next 18 rows, 1 st past the double stitch "
        "of the turn before on that side." in text
    )
    assert "Work the next 2 rows to the end, closing the turns: 68 sts." in text
    assert "lay one end over the other across the bound-off sts of the front neck" in text
    assert "ds double stitch" in text or "ds: double stitch" in text


def test_a_collar_in_rib_keeps_its_rib(monkeypatch: pytest.MonkeyPatch) -> None:
    text = COLLAR.replace("16 cm, garter", "16 cm, 1x1")
    (band,) = [one for one in proven(written(text), monkeypatch) if one.piece == "neckband"]
    for row in band.rows:
        first = row.waiting % 2
        assert row.ops == (bytes((KNIT, PURL)) * 40)[first : first + len(row.ops)]


def test_the_cardigan_s_collar_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """5 cm x 4 rows are 20, so 21 in front; 14 cm are 56, (56 - 21) / 2 = 17.5, 18 pairs: 57 rows behind."""
    done = compile_spec(world(LEAT), "a.wale")
    assert done.plan is not None and done.problems == ()
    (plan,) = done.plan.bands
    assert plan.collar is not None and set(plan.rows) == {57} and set(plan.collar.base) == {19}
    for size, gaps in enumerate(plan.collar.gaps):
        edge, side = plan.picked[0][1][size], plan.picked[1][1][size]
        assert plan.collar.ends[size] == (edge, edge)
        assert len(gaps) == 18 and sum(gaps) == max(18, (side + 1) // 2) and max(gaps) - min(gaps) <= 1
    for number, band in enumerate(one for one in proven(done, monkeypatch) if one.piece == "collar"):
        edge, gaps = plan.picked[0][1][number], plan.collar.gaps[number]
        deep = [row for row in heights_with_holes(band) if row]
        assert deep[0] == deep[edge - 1] == deep[-1] == 21
        assert deep[edge + sum(gaps)] == deep[len(deep) // 2] == 57
        # from the foot of the neck on no stitch is lower than its neighbour nearer to the front
        assert deep[edge : len(deep) // 2] == sorted(deep[edge : len(deep) // 2])
        assert deep[edge:-edge] == deep[edge:-edge][::-1]


def heights_with_holes(fabric: Fabric) -> list[int]:
    """Rows over each stitch; a buttonhole's row counts for the stitches that it binds off, too."""
    gone = sum(each for _, each in fabric.holes)
    found = [0] * fabric.cast_on
    for row in fabric.rows:
        whole = len(row.ops) + (gone if row.number == fabric.hole_row else 0)
        for place in range(whole):
            found[row.waiting + place] += 1
    return found


def test_buttonholes_lie_along_the_right_front() -> None:
    """Half an inch at 2 sts in a cm is 2 sts; 5 holes of 2 lie along the right front, in the middle of 21 rows."""
    (band,) = planned(LEAT).bands
    for size, gaps in enumerate(band.holes):
        edge = band.picked[0][1][size]
        assert gaps[0] == 2 and sum(gaps[:-1]) + 5 * 2 == edge - 2
        assert gaps[-1] == band.stitches[size] - edge + 2
    assert set(band.hole_rows) == {10}


def test_counts_of_a_collar() -> None:
    assert (front_rows(12), front_rows(13), front_rows(1)) == (13, 13, 5)
    assert (short_pairs(56, 21), short_pairs(20, 21)) == (18, 1)
    # 54 sts, 18 turns: 27 sts, nine gaps of 2 and nine of 1
    assert turn_gaps(54, 18) == (2,) * 9 + (1,) * 9


@given(st.integers(1, 200), st.integers(1, 60))
def test_turns_end_halfway_up_where_there_is_room(side: int, pairs: int) -> None:
    gaps = turn_gaps(side, pairs)
    assert (gaps is None) == (pairs > side)
    if gaps is not None:
        assert len(gaps) == pairs and min(gaps) >= 1 and sum(gaps) <= side
        assert sum(gaps) == pairs or 2 * sum(gaps) - side in (0, 1)


OPEN = ROUND.replace(OLD, "    {line}\n")


@pytest.mark.parametrize(
    ("line", "look"),
    [
        ("rib 8 rows, 1x1, open in front", ["kp"] * 8),
        ("garter 8 rows, open in front", ["p", "k"] * 4),
        ("seed 8 rows, open in front", ["pk", "kp"] * 4),
        ("moss 8 rows, open in front", ["kp", "pk", "pk", "kp"] * 2),
        ("rolled 8 rows, open in front", ["k"] * 8),
    ],
)
def test_a_collar_that_stands_is_worked_flat(line: str, look: Sequence[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Row 1 is a wrong-side row, the second of its texture."""
    done = written(OPEN.format(line=line))
    (band,) = [one for one in proven(done, monkeypatch) if one.piece == "neckband"]
    for row, unit in zip(band.rows, look, strict=True):
        assert row.ops.decode() == (unit * 100)[: len(row.ops)]
    assert "Begin at the middle of the front neck" in words_of(done)


def test_a_hood_of_a_pullover_by_hand() -> None:
    """The middle of the front neck: 5 sts of 13 at 2.6 to 2.4 in a cm; with an overlap of 6 the first end begins 3
    before the middle, and the last 6 lie behind its first ones."""
    plain = planned(OPEN.format(line="hood 120 sts wide, 60 rows deep")).bands[0]
    lapped = planned(OPEN.format(line="hood 120 sts wide, 60 rows deep, overlap 6 sts")).bands[0]
    names = [name for name, _ in lapped.picked]
    assert names[0] == "the first part of the centre of the front neck"
    assert names[-2:] == ["the last part of the centre of the front neck", "the wrong side of the first sts picked up"]
    counts = [counts[0] for _, counts in plain.picked]
    assert [each[0] for _, each in lapped.picked] == [counts[0] + 3, *counts[1:-1], counts[-1] - 3, 6]
    assert counts[1] == counts[-2] and counts[2] == counts[4]
    assert abs(counts[0] - counts[-1]) <= 1
    assert (lapped.hood, lapped.rows, lapped.is_flat) == ((120,), (60,), True)


def test_its_ends_are_told() -> None:
    text = words_of(written(OPEN.format(line="hood 120 sts wide, 60 rows deep, overlap 6 sts")))
    assert "Begin at a place 3 sts to the left of the middle of the front neck" in text
    assert "pick the last 6 up behind the first, in the same loops" in text
    assert "120 sts by a three-needle bind-off" in text


@pytest.mark.parametrize(
    "text",
    [
        COLLAR,
        OPEN.format(line="hood 120 sts wide, 60 rows deep, overlap 6 sts"),
        OPEN.format(line="moss 8 rows, open in front"),
    ],
)
def test_their_printed_text_is_knitted_as_it_stands(text: str) -> None:
    """Every line of the text instructs, or is known as a remark."""
    done = written(text)
    assert done.pattern is not None
    assert knit_pattern(Source("made.txt", to_text(done.pattern))).problems == ()


@pytest.mark.parametrize("line", ["hood 120 sts wide, 60 rows deep, overlap 6 sts", "shawl collar 16 cm, 1x1"])
def test_left_hand(line: str) -> None:
    text = COLLAR.replace("shawl collar 16 cm, garter", line) if "shawl" in line else OPEN.format(line=line)
    done = compile_spec(world(text), "a.wale", is_left_handed=True)
    told = words_of(done)
    assert "go up its left side as worn, over the back and down its right side" in told


@pytest.mark.parametrize(
    ("text", "old", "new", "code"),
    [
        (COLLAR, ", garter", "", "E206"),
        (COLLAR, ", garter", ", garter, 1x1", "E206"),
        (COLLAR, "16 cm, garter", "16 cm, 5 cm in front, garter", "E405"),
        (COLLAR, "20 rows deep, square", "20 rows deep", "E405"),
        (COLLAR, "16 cm, garter", "8 cm, garter", "E303"),
        (COLLAR, "16 cm, garter", "24 cm, garter", "E303"),
        (COLLAR, "along back neck, front neck", "along front neck", "E405"),
        (CARDIGAN, LINE, "14 cm, garter", "E206"),
        (CARDIGAN, LINE, "60 cm, 5 cm in front, garter", "E303"),
        (CARDIGAN, "right-front front-edge, right-front neck, back neck", "right-front neck, back neck", "E405"),
        (CARDIGAN, "in front, garter", "in front, garter, on 3 mm, on US 4", "E205"),
        (CARDIGAN, "shawl collar 14 cm, 5 cm in front, garter", "rib 5 cm, 1x1, open in front", "E405"),
        (OPEN, "{line}", "hood 120 sts wide, 60 rows deep, overlap 40 sts", "E405"),
        (OPEN, "{line}", "hood 120 sts wide, 60 rows deep, overlap 90 sts", "E223"),
        (OPEN, "{line}", "rib 8 rows, 1x1, twisted, open in front", "E405"),
        (OPEN.replace("along back neck,", "along"), "{line}", "hood 120 sts wide, 60 rows deep", "E405"),
    ],
)
def test_what_is_refused(text: str, old: str, new: str, code: str) -> None:
    assert old in text
    found = [one for one in checked(text.replace(old, new)).problems if one.severity == "error"]
    assert [one.code for one in found] == [code], found


def test_buttonholes_need_a_front() -> None:
    start, end = CARDIGAN.index("right-front front-edge"), CARDIGAN.index(" in ridged")
    text = f"{CARDIGAN[:start]}right-front neck, back neck, left-front neck{CARDIGAN[end:]}"
    (found,) = [one for one in checked(text).problems if one.severity == "error"]
    assert found.code == "E518" and "no front edge" in found.message


def test_what_opens_in_front_has_nothing_to_button() -> None:
    text = ROUND.replace(OLD, "    rib     8 rows, 1x1, open in front\n")
    assert [one for one in checked(text).problems if one.is_error] == []
    assert [one.code for one in checked(f"{text}    buttonholes 2\n").problems if one.is_error] == ["E518"]


def test_a_mitred_band_does_not_open_in_front() -> None:
    (found,) = [one for one in checked(FLAT.replace(", mitred", ", mitred, open in front")).problems if one.is_error]
    assert found.code == "E405" and "mitred" in found.message


@pytest.mark.parametrize(("front", "below"), [(5, 1), (7, 3)])
def test_no_line_tells_of_no_rows(front: int, below: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of 5 rows in front two close the turns and two are the buttonhole's, so one is left, below it; of 7 three are."""
    done = written(CARDIGAN.replace(LINE, f"12 rows, {front} rows in front, garter"))
    text = words_of(done)
    assert f"Garter: work {below} row" in text and " 0 rows" not in text
    (band,) = [one for one in proven(done, monkeypatch) if one.piece == "collar"]
    deep = [row for row in heights_with_holes(band) if row]
    assert deep[0] == deep[-1] == front and band.hole_row == below + 1
