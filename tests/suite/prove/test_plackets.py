"""Plackets: a slit below a neck, reckoned by hand, on the proven fabric, and what is refused; bands along its edges."""

from __future__ import annotations

from fractions import Fraction

import pytest
from prove_corruptions import refute
from support import EXAMPLES, SPEC, checked, codes, errors, mended, planned, world, written
from test_floats_proven import knitted_all as proven

from wale.driver import compile_spec
from wale.outputs.text import render as to_text
from wale.prove.proof import prove_all
from wale.shaping.neck import neck_steps, with_placket
from wale.write.facts import facts, printed

PLACKET = "placket 6 sts wide over 20 rows"
HENLEY = f"""wale 1

pattern "Forebay"
    use "mill-yarns.wale"

sizes one

piece back, worked flat
    edge      1 st each side in rye
    cast on   80 sts in plain
    work      120 rows
    neck      20 sts wide, 6 rows deep
    shoulders slope 4 rows, short rows

piece front, as back
    neck 20 sts wide, 14 rows deep, round, {PLACKET}

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch

band collar
    pick up along front neck, back neck in plain
    rib     11 rows, 1x1

band right-band
    pick up along front right-placket, collar end in plain
    rib     9 rows, 1x1

band left-band
    pick up     along collar end, front left-placket in plain
    rib         9 rows, 1x1
    buttonholes 2 of 2 sts
"""
FOREBAY = (EXAMPLES / "forebay-pullover.wale").read_text("utf-8").replace("sizes men S M L XL 2XL", "sizes men M 2XL")


def in_words(text: str) -> str:
    done = written(text)
    assert done.pattern is not None and errors(done) == [], codes(done)
    return " ".join(to_text(done.pattern).split())


def front(text: str) -> str:
    told = in_words(text)
    return told[told.index("Front Worked flat") :]


def test_a_slit_below_the_neck_of_a_handbook() -> None:
    """32 sts in 14 rows are 12; 3, 2, 2, 1, 1, 1 (docs/maths.md#neck-curve). (12 - 6) / 2 = 3 lie beside a slit of 6;
    the foot is row 1, so two rows on 0 and four rows on, where the neck alone would begin, these 3."""
    neck = with_placket(neck_steps(32, 14), 6, 4)
    assert (neck.centre, neck.steps, neck.rows) == (6, (0, 3, 3, 2, 2, 1, 1, 1), 18)
    assert neck.stitches == 32


def test_its_words_by_hand() -> None:
    """Of 12 rows of steps: a third of 20 is 7, even 8 are the centre, 6 a side by weights 5 to 1 are 2, 2, 1, 1; one
    stitch lies at either side of the slit. 80 - 20 are 30 a shoulder, and 7 of the neck before the slit: 37. The neck
    begins 20 rows after the foot, row 1: at the left on row 21, at the right a row earlier."""
    told = front(HENLEY)
    assert "Neck row (RS): on row 1: work 37 sts, bind off the next 6 sts, work to the end of the row." in told
    steps = "bind off 1 st once, then 2 sts twice, then 1 st twice."
    assert f"at the start of RS rows, from row 21 on, {steps}" in told
    assert f"join the yarn at the neck edge with row 2 (WS); at the start of WS rows, from row 20 on, {steps}" in told


def test_other_forms_by_hand() -> None:
    """A square leaves 14 sts beside the slit, 7 a side. A boat has 2.5 cm x 2.7 = 7 sts at its ends: 20 - 7, even 14,
    are its centre, 4 a side, and 3 sts by weights 2, 1. A V of 14 sts beside 6 loses 7 a side in 13 pairs of rows, the
    first on the row on which the neck begins."""
    assert "from row 21 on, bind off 7 sts once." in front(HENLEY.replace("round,", "square,"))
    told = front(HENLEY.replace("round,", "boat,"))
    assert "from row 21 on, bind off 4 sts once, then 2 sts once, then 1 st once." in told
    told = front(HENLEY.replace("14 rows deep, round,", "30 rows deep, V,"))
    assert "at the start of RS rows work 1 edge st, ssk: on row 21, then on every 4th row 6 times" in told


def test_a_width_becomes_stitches_like_those_of_the_neck() -> None:
    """3 cm x 2.7 = 8.1: 8 beside an even neck, 9 beside an odd one."""
    for stitches, foot in (("20", 8), ("21", 9)):
        text = HENLEY.replace("6 sts wide over", "3 cm wide over").replace("neck      20", f"neck      {stitches}")
        text = text.replace("neck 20", f"neck {stitches}").replace("80 sts", f"{60 + int(stitches)} sts")
        top = next(piece.top for piece in planned(text).pieces if piece.name == "front")
        assert top is not None and top.centre == (foot,) and top.neck == (int(stitches),)


def test_the_fabric_is_open_beside_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The foot lies 34 rows below the end: 20 beside the slit, 14 of the neck. Each side keeps 37 sts beside it."""
    (fabric,) = [one for one in proven(written(HENLEY), monkeypatch) if one.piece == "front"]
    foot = fabric.neck_row
    assert (foot, fabric.slit, fabric.neck) == (120 - 34 + 1, (20, 6), 20)
    for side, last in (("left", foot + 19), ("right", foot + 18)):
        beside = [row for row in fabric.rows if row.part == side and row.number <= last]
        assert [row.number for row in beside] == list(range(foot + 1, last + 1))
        assert {len(row.ops) for row in beside} == {37}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("from row 21 on", "from row 23 on"),
        ("from row 20 on", "from row 18 on"),
        ("bind off the next 6 sts", "bind off the next 8 sts"),
        ("bind off 1 st once, then", "bind off 2 sts once, then"),
    ],
)
def test_a_wrong_word_is_found(old: str, new: str) -> None:
    refute(HENLEY, "front", old, new)


def test_every_size_of_the_example_is_proven_for_either_hand() -> None:
    done = written(FOREBAY)
    assert done.proof is not None and codes(done) == []
    mirrored = compile_spec(world(FOREBAY), SPEC, is_left_handed=True)
    assert mirrored.proof is not None and codes(mirrored) == [] and mirrored.pattern is not None
    told = " ".join(to_text(mirrored.pattern).split())
    # the left hand's band that is picked up from below lies at the left as worn, and takes the other band's name
    assert "Begin at the foot of the front placket and go up its left edge as worn." in told
    assert "lay the right-band over the left-band" in told


def test_its_measures_are_those_of_the_fabric() -> None:
    """20 and 14 rows of 3.8 in a cm, 6 sts of 2.7."""
    done = written(HENLEY)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    page, wanted = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    found = {one.name: one.found for one in prove_all(page, wanted).measured if one.piece == "front"}
    assert found["placket"] == Fraction(200, 38) and found["neck depth"] == Fraction(140, 38)
    assert found["placket width"] == Fraction(60, 27)


def test_bands_along_it_by_hand() -> None:
    """27 sts to 38 rows are nearly 5 to 7: 20 rows give 14 sts, 11 of the collar 8; 22 are one short of whole ribs that
    begin and end alike, 23, which the straight edge takes up."""
    bands = {band.name: dict(band.picked) for band in planned(HENLEY).bands}
    slit = {"the edge of the front placket": (15,), "the end of the collar": (8,)}
    assert bands["right-band"] == slit and bands["left-band"] == slit
    assert list(bands["left-band"]) == list(slit)[::-1]
    collar = list(bands["collar"])
    assert collar[0] == "the first part of the centre of the front neck"
    assert collar[-1] == "the last part of the centre of the front neck"
    told = in_words(HENLEY)
    assert "Begin at the foot of the front placket and go up its right edge as worn." in told
    assert "Begin at the bound-off edge of the collar and go down the left edge as worn of the front placket." in told
    assert "lay the left-band over the right-band; sew the lower end of the left-band to the bound-off sts" in told


def test_a_button_band_reaches_over_the_end_of_the_neckband() -> None:
    """At the left it begins there, at the right it ends there: 10 rows of 3.8 in a cm, 5 sts to 7 rows, are 7 sts."""
    text = (EXAMPLES / "weir-cardigan.wale").read_text("utf-8")
    bands = {band.name: band.picked for band in planned(text).bands}
    assert bands["button-band"][0][0] == bands["buttonhole-band"][-1][0] == "the end of the neckband"
    assert set(bands["button-band"][0][1]) == {7}
    assert errors(written(text)) == []


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("round,", "scoop,", "E405"),
        ("6 sts wide over", "20 sts wide over", "E303"),
        ("over 20 rows", "over 120 rows", "E401"),
        ("    rib     11 rows, 1x1\n", "    rib     11 rows, 1x1, mitred\n", "E503"),
        ("    rib     11 rows, 1x1\n", "    hood    40 cm wide, 30 cm deep, overlap 6 sts\n", "E405"),
        ("front right-placket, collar end", "back right-placket, collar end", "E216"),
        ("front right-placket, collar end", "collar end", "E216"),
        ("front right-placket, collar end", "back neck, collar end", "E503"),
        ("front right-placket, collar end", "front right-placket, left-band end", "E503"),
        ("front right-placket, collar end", "front right-placket, right-band end", "E216"),
        ("front right-placket, collar end", "front right-placket, coller end", "E216"),
        ("right-placket, collar", "right-plackett, collar", "E216"),
    ],
)
def test_what_cannot_be_is_refused(old: str, new: str, code: str) -> None:
    text = HENLEY.replace(old, new)
    assert text != HENLEY
    assert code in errors(checked(text))


def test_a_half_has_no_placket() -> None:
    text = (EXAMPLES / "weir-cardigan.wale").read_text("utf-8")
    (found,) = checked(text.replace("8 cm deep, round", "8 cm deep, round, placket 2 cm wide over 6 cm")).problems
    assert found.code == "E405" and "open in front" in found.message


def test_bands_fill_the_slit() -> None:
    """6 sts are 2.2 cm wide; 9 rows 2.4 cm deep, 16 rows 4.2 cm."""
    assert "W623" not in codes(checked(HENLEY))
    wide = HENLEY.replace("rib     9 rows, 1x1\n\n", "rib     16 rows, 1x1\n\n")
    (found,) = [one for one in checked(wide).problems if one.code == "W623"]
    assert "right-band is 4.2 cm deep" in found.message and "2.2 cm wide" in found.message


def test_a_placket_that_is_too_long_is_offered_one_that_fits() -> None:
    """120 rows of 3.8 in a cm are 31.6 cm; 14 of them, 3.7 cm, are the neck's: 27.9, so 27.5 cm is offered."""
    text = HENLEY.replace("over 20 rows", "over 120 rows")
    (found,) = [one for one in checked(text).problems if one.is_error]
    (fix,) = found.fixes
    assert fix.title == "write `over 27.5 cm`"
    assert errors(checked(mended(text, fix))) == []


def test_the_end_of_a_band_that_is_near_by_name_is_proposed() -> None:
    text = HENLEY.replace("right-placket, collar end", "right-placket, colar end")
    (found,) = checked(text).problems
    assert found.code == "E216" and found.fixes[0].title == "write `collar`"
    assert errors(checked(mended(text, found.fixes[0]))) == []
