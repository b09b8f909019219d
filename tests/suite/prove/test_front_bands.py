"""Bands that are worked along with half pieces: counts by hand, buttonholes, proof, and what is refused."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import jsonschema
import pytest
from prove_corruptions import refute
from support import SPEC, checked, codes, errors, planned, world, written
from test_floats_proven import knitted as proven
from test_halves import BODY, CARDIGAN, SET_IN

import wale.outputs
from wale.driver import compile_spec, render_plan
from wale.explain import drafted
from wale.explain.printed import numbers
from wale.prove.fabric import KNIT, PURL
from wale.write.facts import printed

SCHEMA = Path(wale.outputs.__file__).parent / "plan.schema.json"
MIRROR = "piece right-front, as left-front, mirrored"


def along(text: str, band: str = "8 sts in garter", holes: str = "5 of 2 sts, first 2 cm from the ends") -> str:
    """The cardigan with its bands worked along, no band picked up, buttonholes in the right front."""
    text = text[: text.index("band ")] if "band neckband" not in text else text[: text.index("band button-band")]
    for gap in ("3 cm", "2.5 cm"):
        text = text.replace(f"    opening {gap}\n", f"    front band {band}\n")
    return text.replace(MIRROR, f"{MIRROR}\n    buttonholes {holes}")


ALONG = along(BODY)
COLOURS = along(CARDIGAN).replace("hip/2 in facing", "hip/2 in plain")
COLOURS = COLOURS.replace("    hem       3 cm, folded, purl ridge\n", "    rib       5 cm, 2x2, on 3 mm\n")
V_NECK = along(SET_IN)
RIBBED = ALONG.replace("    work      5 cm\n", "    rib       5 cm, 2x2\n    work      in plain\n")
VARIANTS = {
    "garter": ALONG,
    "seed": along(BODY, "9 sts in seed", "5 of 3 sts"),
    "rib": along(BODY, "8 sts in rib"),
    "above a rib": RIBBED,
    "above garter": RIBBED.replace("rib       5 cm, 2x2", "garter    5 cm"),
    "above seed": RIBBED.replace("rib       5 cm, 2x2", "seed      5 cm"),
    "in seed above garter": along(BODY, "9 sts in seed").replace("    work      5 cm\n", "    garter    5 cm\n"),
    "above a rolled edge": RIBBED.replace("rib       5 cm, 2x2", "rolled    5 cm"),
    "in steps": ALONG.replace("short rows", "bound off in steps"),
    "square": ALONG.replace("8 cm deep, round", "8 cm deep, square"),
    "on any row": ALONG.replace("over 10 cm", "over 10 cm, on any row"),
    "right half first": ALONG.replace("left half", "right half"),
    "in two colours": COLOURS,
    "seed beside an evened row of garter": COLOURS.replace("rib       5 cm, 2x2, on 3 mm", "garter    5 cm").replace(
        "8 sts in garter", "7 sts in seed"
    ),
    "no edge stitches": COLOURS.replace("1 st each side", "0 sts each side"),
    "set in, a V neck": V_NECK,
    "set in, right half first, seed": V_NECK.replace("left half", "right half").replace("garter", "seed"),
}


def test_stitches_by_hand() -> None:
    """At 2 sts in a cm 8 sts are 4 cm, and one band lies on the other: (50 + 4) / 2 = 27 cm are 54 sts.

    With the edge stitch that the side seam takes up that is 55, below the shaping (52 + 4) / 2 = 28 cm, 57. Half the
    neck is (18 + 4) / 2 = 11 cm, 22 sts, and the shoulder the back's 33. Of the neck of 36 the centre is 12; with the
    8 of the overlap 10 are on either side of the middle of it, the band's 8 among them, and 12 are left for the steps.
    """
    back, left, right = planned(ALONG).pieces
    assert [level.counts[0] for level in back.levels] == [106, 102]
    assert [level.counts[0] for level in left.levels] == [level.counts[0] for level in right.levels] == [57, 55]
    assert (left.levels[1].width(0), left.levels[1].edges, left.levels[1].taken) == (27, 9, 1)
    assert (left.top.neck[0], left.top.shoulder[0]) == (22, 33)
    assert (left.top.centre[0], sum(left.top.steps[0])) == (10, 12)


def test_the_girth_counts_the_overlap_once() -> None:
    """The back's 50 cm and twice 27 cm, less the 4 cm that lie on each other."""
    table = next(
        part
        for section in written(ALONG).pattern.sections
        for part in section.parts
        if getattr(part, "caption", "").startswith("Finished measurements")
    )
    assert next(row for row in table.rows if row[0].startswith("bust"))[1] == "100.0"


def test_buttonholes_by_hand() -> None:
    """168 rows, 22 of them the neck's and one below it: 72 pairs and a row.

    2 cm are 2 pairs of 5.6 rows, so the first hole is worked on row 5 and the last on row 2 * 69 + 1. Of 72 pairs 5
    hold holes and 4 lie outside them; 63 in 4 stretches are 15 or 16.
    """
    (rows,) = planned(ALONG).piece("right-front").hole_rows
    assert planned(ALONG).piece("left-front").hole_rows == ()
    assert (rows[0], rows[-1], len(rows)) == (5, 139, 5)
    between = [(after - row) // 2 - 1 for row, after in itertools.pairwise(rows)]
    assert sum(between) == 63 and set(between) == {15, 16}


@pytest.mark.parametrize("text", VARIANTS.values(), ids=VARIANTS)
def test_bands_are_proven(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The band stands at the front edge on each row up to its bind-off, and no other stitch is lost."""
    done = written(text)
    assert [code for code in codes(done) if code[0] in "EW"] == []
    found = {one.piece: one for one in proven(done, monkeypatch) if one.size == done.plan.sizes[0]}
    looks = {"garter": (b"kk", b"pp"), "rib": (b"kp", b"kp"), "seed": (b"kp", b"pk")}
    names = {ord("k"): KNIT, ord("p"): PURL}
    for name in ("left-front", "right-front"):
        half = done.plan.piece(name).half
        band, at_left = half.band, half.hand == "left"
        fabric = found[name]
        assert len(fabric.rows) > fabric.neck_row > 100
        for row in fabric.rows[: fabric.neck_row - 1]:
            unit = looks[band.texture][row.side == "WS"]
            wanted = [names[unit[at % 2]] for at in range(band.stitches)]
            ops = row.ops[::-1] if at_left else row.ops
            assert list(ops[: band.stitches]) == wanted, row.number
            assert {fabric.colour(row, -1 - at if at_left else at) for at in range(band.stitches)} == {"rye"}
    holes = done.plan.piece("right-front").half.holes
    assert [row for row, _, _ in found["right-front"].band_holes] == list(done.plan.piece("right-front").hole_rows[0])
    assert {each for _, _, each in found["right-front"].band_holes} == {holes.each}
    assert found["left-front"].band_holes == ()


def test_the_motif_goes_on_as_on_the_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Beside the edge stitch the left front has the right end of the back's rows, up to the band."""
    done = written(COLOURS)
    found = {one.piece: one for one in proven(done, monkeypatch) if one.size == done.plan.sizes[0]}
    back, left, right = (found[name] for name in ("back", "left-front", "right-front"))
    seen = 0
    for whole, one, other in zip(back.rows, left.rows, right.rows, strict=False):
        if one.number >= left.neck_row - 12 or not whole.chart:
            continue
        n = len(one.ops) - 8
        of_back = [back.colour(whole, stitch) for stitch in range(len(whole.ops))]
        assert [left.colour(one, stitch) for stitch in range(1, n)] == of_back[1:n]
        assert [right.colour(other, stitch) for stitch in range(8, len(other.ops) - 1)] == of_back[-n:-1]
        seen += 1
    assert seen > 120


@pytest.mark.parametrize(
    ("piece", "old", "new"),
    [
        ("left-front", "k8 on RS rows, k8 on WS rows", "k8 on RS rows, p8 on WS rows"),
        ("left-front", "the last 8 sts of RS rows and the first", "the first 8 sts of RS rows and the last"),
        ("left-front", "the last 8 sts of RS rows and the first", "the last 8 sts of RS rows and the last"),
        ("right-front", "the last 8 sts of WS rows", "the last 7 sts of WS rows"),
        ("right-front", "on row 5,", "on row 7,"),
        ("right-front", "on row 5,", "on row 4,"),
        ("right-front", "in the band work 3, bind off 2", "in the band work 2, bind off 2"),
        ("right-front", "cast on 2 in their place", "cast on 3 in their place"),
        ("left-front", "to the last 8 sts, 8 band sts", "to the last 8 sts, 8 edge sts"),
        ("left-front", "to the last 8 sts, 8 band sts", "to the last 7 sts, 7 band sts"),
        ("left-front", "1 edge st, ssk", "1 band st, ssk"),
    ],
)
def test_a_wrong_word_is_found(piece: str, old: str, new: str) -> None:
    refute(ALONG, piece, old, new)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("the 8 sts of the front band in rye", "the 8 sts of the front band in flour"),
        ("the 8 sts of the front band in rye", "the 7 sts of the front band in rye"),
        ("2 times, k2, k8.", "2 times, k2, p8."),
    ],
)
def test_a_wrong_word_beside_a_chart_is_found(old: str, new: str) -> None:
    text = COLOURS if "times" not in old else COLOURS.replace("women XS S M L XL 2XL 3XL", "women M")
    page = printed((done := written(text)).spec, done.plan, done.pattern, done.sizes)
    steps = [step for one in page.pieces if one.name == "left-front" for step in one.steps]
    if "times" in old:
        old = next(step for step in steps if step.startswith("Each rib row (RS)"))
        new = old.replace("k8.", "p8.")
    refute(text, "left-front", old, new)


@pytest.mark.parametrize(
    ("code", "old", "new"),
    [
        ("E517", "    front band 8 sts in garter", "    front band 8 sts in garter\n    opening 3 cm"),
        ("E517", "piece left-front, as back, left half", "piece left-front, as back"),
        ("E517", "front band 8 sts", "front band 36 sts"),
        ("E223", "front band 8 sts", "front band 2 sts"),
        ("E223", "front band 8 sts", "front band 41 sts"),
        ("E206", "    front band 8 sts in garter\n", ""),
        ("E516", MIRROR, MIRROR + "\n    front band 8 sts in garter"),
        ("E518", "buttonholes 5 of 2 sts", "buttonholes 90 of 2 sts"),
        ("E518", "buttonholes 5 of 2 sts", "buttonholes 5 of 7 sts"),
        ("E518", "    front band 8 sts in garter", "    opening 3 cm"),
        ("E405", "work      5 cm\n", "hem       5 cm, folded, purl ridge\n    work      2 cm\n"),
        ("E503", "join\n", "band more\n    pick up along left-front front-edge in plain\n    rib 3 cm, 2x2\n\njoin\n"),
    ],
)
def test_what_is_refused(code: str, old: str, new: str) -> None:
    assert old in ALONG
    assert code in errors(checked(ALONG.replace(old, new)))


def test_a_whole_piece_has_no_buttonholes() -> None:
    text = ALONG.replace("piece back, worked flat\n", "piece back, worked flat\n    buttonholes 5 of 2 sts\n")
    assert errors(checked(text)) == ["E517"]


def test_buttons_for_children_are_cautioned() -> None:
    sizes = "sizes children 4\n    ease chest 10 cm\n"
    text = ALONG[: ALONG.index("sizes medium")] + sizes + ALONG[ALONG.index("\npiece back") :]
    text = text.replace("hip/2", "chest/2 + 1 cm").replace("bust/2", "chest/2").replace("18 cm wide", "13 cm wide")
    found = checked(text)
    assert errors(found) == []
    caution = next(one for one in found.problems if one.code == "C707")
    assert text[caution.labels[0].span.start : caution.labels[0].span.end].startswith("buttonholes 5 of 2 sts")


def test_the_plan_tells_of_the_band() -> None:
    """In JSON the halves lie on each other by 8 sts at 2 in a cm."""
    plan = json.loads(render_plan(compile_spec(world(ALONG), SPEC)))
    jsonschema.validate(plan, json.loads(SCHEMA.read_text("utf-8")))
    left, right = (next(one for one in plan["pieces"] if one["name"] == f"{hand}-front") for hand in ("left", "right"))
    assert left["half"]["band"] == {"stitches": 8, "texture": "garter"}
    assert left["half"]["buttonholes"] is None
    assert (right["half"]["buttonholes"]["each"], right["half"]["buttonholes"]["on_rows"][0][0]) == (2, 5)
    assert left["half"]["opening"][0]["exact"] == "-4/1"


@pytest.mark.parametrize(
    "text", [ALONG, VARIANTS["seed"], VARIANTS["rib"], COLOURS], ids=["garter", "seed", "rib", "colours"]
)
def test_every_printed_number_has_a_reason(text: str) -> None:
    done = written(text)
    drafts, _ = drafted(done.spec, done.plan, done.sources)
    found = numbers(done.pattern, done.spec, done.plan, done.sizes, drafts)
    assert [one.text for one in found if not one.address and not one.kind] == []
    holes = {one.address for one in found if one.address.startswith("right-front.front-band.holes")}
    assert len(holes) >= 6


def test_each_size_has_its_own_place_of_the_first_buttonhole() -> None:
    """At 2.8 rows in a cm a cm holds 1.4 pairs of rows: 1 below the first hole, 2 of 2 cm, 5 of 4 cm."""
    text = ALONG.replace("sizes medium\n    measure bust 100 cm\n    measure hip  104 cm", "sizes small medium large\n"
                         "    measure bust 96 (100, 104) cm\n    measure hip  100 (104, 108) cm")  # fmt: skip
    assert text != ALONG
    right = planned(text.replace("first 2 cm", "first 1 (2, 4) cm")).pieces[2]
    assert [rows[0] for rows in right.hole_rows] == [3, 5, 11]


def test_sides_bound_off_leave_more_than_the_band() -> None:
    """Of 51 cm 24.5 on either side leave 2 cm, less than the band's 4: half of it would be no more than the band."""
    old = "    shape     to bust/2 over 10 cm\n"
    assert old in ALONG
    text = ALONG.replace(old, "").replace("    mark      underarm\n", "    bind off 25 cm each side\n    work 2 rows\n")
    found = [one for one in checked(text).problems if one.code == "E410"]
    assert "left-front" in " ".join(one.message for one in found)
