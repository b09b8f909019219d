"""Textured edges: what each row looks like from the right side, and words that make another texture."""

from __future__ import annotations

from itertools import pairwise

import pytest
from msgspec.structs import replace
from prove_variants import VARIANTS
from support import checked, codes, planned, written
from test_floats_proven import knitted as proven

from wale.prove.compare import compare
from wale.prove.fabric import Contradiction
from wale.prove.machine import Machine
from wale.prove.reader import read
from wale.write.facts import facts
from wale.write.stitch_counts import Patch, stitch_counts
from wale.write.yarn_lengths import cells

FLAT = """wale 1
pattern "Apron"
yarn rye
    count  2/8 Nm wool
    colour #8a5a2b
swatch plain, {how}
    fabric stockinette in rye
    needle 3.5 mm
    washed 22 sts and 30 rows in 10 cm
sizes one
piece apron, {how}
    cast on {sts} sts in plain
    {edge} 8 rows
    work 4 rows
    bind off
"""


def rows_of(edge: str, sts: int, how: str, monkeypatch: pytest.MonkeyPatch) -> list[bytes]:
    """Knit the printed words and give the edge's 8 rows from the right side."""
    (fabric,) = proven(written(FLAT.format(edge=edge, sts=sts, how=how)), monkeypatch)
    return [row.ops for row in fabric.rows[:8]]


def test_garter_has_a_ridge_on_every_other_row(monkeypatch: pytest.MonkeyPatch) -> None:
    """Knitted on both sides: a WS row shows its purl bumps on the right side. Round 2 is purled."""
    for how in ("worked flat", "in the round"):
        assert rows_of("garter", 20, how, monkeypatch) == [b"k" * 20, b"p" * 20] * 4


def test_a_rolled_edge_is_stockinette(monkeypatch: pytest.MonkeyPatch) -> None:
    for how in ("worked flat", "in the round"):
        assert rows_of("rolled", 20, how, monkeypatch) == [b"k" * 20] * 8


@pytest.mark.parametrize(("edge", "every"), [("seed", 1), ("moss", 2)])
@pytest.mark.parametrize(("how", "sts", "edges"), [("worked flat", 21, 1), ("in the round", 20, 0)])
def test_single_stitches_change_places(
    edge: str, every: int, how: str, sts: int, edges: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No stitch is as its neighbour, and each changes from one row to the next (seed) or the one after that (moss)."""
    rows = rows_of(edge, sts, how, monkeypatch)
    inner = [row[edges : len(row) - edges] for row in rows]
    assert all(one != other for row in inner for one, other in pairwise(row))
    for below, above in zip(inner, inner[every:], strict=False):
        assert all(one != other for one, other in zip(below, above, strict=True))
    if every == 2:
        assert inner[0] == inner[1] and inner[2] == inner[3]


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (("Seed round 1: (k1, p1) 5 times.", "Seed round 2: (k1, p1) 5 times."), "do not make seed"),
        (("Garter round 1: k10.", "Garter round 2: k10."), "do not make garter"),
        (("Seed round 1: (k1, p1) 5 times.",), "1 rows are told, not 2"),
        (("Seed round 1: (k1, p1) 4 times.", "Seed round 2: (p1, k1) 5 times."), "take 8 sts"),
    ],
)
def test_words_that_make_another_texture_are_found(lines: tuple[str, ...], why: str) -> None:
    name = lines[0].split()[0]
    machine = Machine({})
    start = "Cast on 10 sts in rye on 3 mm needles. Join to a round without twisting; mark its start."
    last = f"{name}: work 4 rounds, repeating these 2 rounds, beginning with round 1."
    with pytest.raises(Contradiction, match=why):
        for line in (start, *lines, last):
            machine.work(read(line).instructions[0])


def test_a_rolled_edge_says_how_its_length_counts() -> None:
    done = written(VARIANTS["rolled-edge"])
    assert any("lengths count it unrolled" in one.text for one in done.spec.assumptions)


def test_a_band_has_one_texture() -> None:
    spec = VARIANTS["short-rows"] + "band collar\n    pick up along back neck, front neck in plain-round\n"
    found = checked(spec + "    garter 3 cm\n    seed 3 cm\n")
    assert codes(found) == ["E405"]


BORDER = """wale 1
pattern "Blanket"
    use "mill-yarns.wale"
sizes one
piece blanket, worked flat
    edge    4 sts each side in garter
    cast on 40 cm in plain
    rib     3 cm, 2x2
    work    in grist on easy, centred on the stitch
    work    10 cm
    shape   to 50 cm over 10 cm
    work    2 rows
    work    in plain
    work    4 cm
    bind off
"""


def test_a_border_is_knitted_on_every_row_beside_ribs_charts_and_shapings(monkeypatch: pytest.MonkeyPatch) -> None:
    """Knitted on the wrong side, a stitch shows its purl bump on the right side."""
    (fabric,) = proven(written(BORDER), monkeypatch)
    assert {row.chart for row in fabric.rows} == {"", "grist"}
    assert any(row.stitches > fabric.cast_on for row in fabric.rows)
    for row in fabric.rows:
        look = b"p" * 4 if row.side == "WS" else b"k" * 4
        assert row.ops[:4] == row.ops[-4:] == look


def test_a_border_counts_as_width() -> None:
    """No seam takes it up; a 2x2 rib flat is 4 k + 2 beside its 8 sts."""
    (piece,) = planned(BORDER).pieces
    assert all(level.taken == 0 and level.edges == 8 for level in piece.levels)
    assert (piece.levels[0].counts[0] - 8 - 2) % 4 == 0


@pytest.mark.parametrize("name", ["short-rows", "sleeve"])
def test_a_border_beside_a_neck_or_a_seam_is_refused(name: str) -> None:
    spec = VARIANTS[name].replace("1 st each side in rye", "4 sts each side in garter")
    spec += "join\n    seam sides, mattress stitch\n" if name == "sleeve" else ""
    assert set(codes(checked(spec))) == {"E405"}


def test_a_border_that_is_purled_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """Rib rows whose ends are purled on the wrong side do not make the border that is planned."""
    done = written(BORDER)
    plan_facts = facts(done.spec, done.plan, done.sizes)
    (piece,) = plan_facts.pieces
    (fabric,) = proven(done, monkeypatch)
    rows = tuple(replace(row, ops=b"k" * len(row.ops)) if row.number == 2 else row for row in fabric.rows)
    found = compare(replace(fabric, rows=rows), piece, plan_facts, [""] * 200)
    assert [(one.row, one.message) for one in found] == [(2, "the border is not garter")]


@pytest.mark.parametrize("how", ["worked flat", "in the round"])
@pytest.mark.parametrize(("sts", "flat", "around"), [(40, 19, 20), (41, 19, 20), (42, 20, 21)])
def test_a_picot_fold_keeps_the_stitches(
    how: str, sts: int, flat: int, around: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Pairs of k2tog and yo: in the round of all, flat of those inside one at each end; one left over is plain."""
    spec = FLAT.format(edge="EDGE", sts=sts, how=how).replace("EDGE 8 rows", "hem 3 cm, folded, picot")
    (fabric,) = proven(written(spec), monkeypatch)
    fold = fabric.rows[fabric.fold - 1]
    assert fold.stitches == len(fold.ops) == sts
    pairs = flat if how == "worked flat" else around
    assert (fold.ops.count(b"m"), fold.ops.count(b"R"), fold.ops.count(b"k")) == (pairs, pairs, sts - 2 * pairs)


@pytest.mark.parametrize(("how", "rest", "each", "slips"), [("worked flat", 3, 2, 19), ("in the round", 1, 2, 20)])
def test_a_slipped_fold_slips_every_second_stitch(
    how: str, rest: int, each: int, slips: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """41 stitches: 20 pairs in the round and one left over; flat 19 pairs with one before and two after them."""
    spec = FLAT.format(edge="EDGE", sts=41, how=how).replace("EDGE 8 rows", "hem 3 cm, folded, slipped")
    (fabric,) = proven(written(spec), monkeypatch)
    fold = fabric.rows[fabric.fold - 1]
    assert fold.ops.count(b"s") == slips and fold.ops.count(b"k") == slips + rest
    places = [place for place, op in enumerate(fold.ops) if op == ord("s")]
    assert {after - before for before, after in pairwise(places)} == {each}


def test_a_fold_with_fewer_slips_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    spec = FLAT.format(edge="EDGE", sts=41, how="in the round").replace("EDGE 8 rows", "hem 3 cm, folded, slipped")
    done = written(spec)
    plan_facts = facts(done.spec, done.plan, done.sizes)
    (piece,) = plan_facts.pieces
    (fabric,) = proven(done, monkeypatch)
    rows = tuple(
        replace(row, ops=row.ops.replace(b"s", b"k", 1)) if row.number == fabric.fold else row for row in fabric.rows
    )
    found = compare(replace(fabric, rows=rows), piece, plan_facts, [""] * 200)
    assert [one.message for one in found] == ["the fold has 19 slipped sts, not 20"]


def test_a_twisted_rib_is_twisted_on_both_sides(monkeypatch: pytest.MonkeyPatch) -> None:
    """(k1 tbl, p1) seen from the right side on RS rows and on WS rows, where it is p1 tbl."""
    spec = FLAT.format(edge="EDGE", sts=21, how="worked flat").replace("EDGE 8 rows", "rib 8 rows, 1x1, twisted")
    (fabric,) = proven(written(spec), monkeypatch)
    assert [row.ops for row in fabric.rows[:8]] == [b"k" + b"tp" * 9 + b"t" + b"k"] * 8


def test_a_hem_folds_one_way() -> None:
    for both in ("purl ridge, picot", "picot, slipped", "purl ridge, slipped"):
        assert codes(checked(VARIANTS["picot-hem"].replace("folded, picot", f"folded, {both}"))) == ["E204"]


def spun(edge: str, sts: int, how: str) -> str:
    """The apron in two yarns with an edge."""
    flour = "yarn flour\n    count  2/8 Nm wool\n    colour #efe6d2\nswatch plain"
    return FLAT.format(edge="EDGE", sts=sts, how=how).replace("EDGE 8 rows", edge).replace("swatch plain", flour)


@pytest.mark.parametrize(
    ("how", "sts", "faces", "colours"),
    [
        # in the round (k2, p2) all round, from the right; flat k2 again at the end, and an edge stitch at both ends
        ("in the round", 20, "ppkk" * 5, "ffrr" * 5),
        ("worked flat", 20, "k" + "kkpp" * 4 + "kk" + "k", "r" + "rrff" * 4 + "rr" + "r"),
    ],
)
def test_a_corrugated_rib_has_its_purl_columns_in_the_other_yarn(
    how: str, sts: int, faces: str, colours: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every row from the right side: faces and yarns stand in the same columns."""
    (fabric,) = proven(written(spun("rib 8 rows, 2x2, corrugated with flour", sts, how)), monkeypatch)
    assert fabric.palette == ("rye", "flour")
    for row in fabric.rows[:8]:
        seen = row.ops.decode(), "".join("rf"[colour] for colour in row.colours)
        assert seen in ((faces, colours), (faces[::-1], colours[::-1]))


def test_a_corrugated_rib_takes_yarn_for_its_stitches_and_the_strands_behind() -> None:
    """8 rounds of 20 sts, half in flour: 80 sts knitted, and 80 passed, a stitch width each (CARRIED)."""
    done = written(spun("rib 8 rounds, 2x2, corrugated with flour", 20, "in the round"))
    counts = stitch_counts(done.spec, done.plan, 0)
    assert counts[Patch("plain", None, 0, "rye rye flour flour")] == 160
    assert cells(done.spec, counts)["plain", "flour"] == (80, 80)


@pytest.mark.parametrize(
    ("words", "why"),
    [
        ("2x2 corrugated rib: (k2 in rye, p2 in rye) 5 times.", "not of two colours"),
        ("2x2 rib: (k2 in rye, p2 in flour) 5 times.", "not of one colour"),
        ("2x2 corrugated rib: (k1 in rye, k1 in flour, p2 in flour) 5 times.", "do not follow the columns"),
    ],
)
def test_yarns_that_do_not_follow_the_columns_are_found(words: str, why: str) -> None:
    machine = Machine({})
    machine.work(
        read("Cast on 20 sts in rye on 3 mm needles. Join to a round without twisting; mark its start.").instructions[0]
    )
    with pytest.raises(Contradiction, match=why):
        machine.work(read(f"Rib: work 4 rounds in {words}").instructions[0])


def test_a_corrugated_rib_in_another_yarn_than_planned_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    done = written(spun("rib 8 rows, 2x2, corrugated with flour", 20, "worked flat"))
    plan_facts = facts(done.spec, done.plan, done.sizes)
    (piece,) = plan_facts.pieces
    (fabric,) = proven(done, monkeypatch)
    rows = tuple(replace(row, colours=bytes(20)) if row.number == 3 else row for row in fabric.rows)
    found = compare(replace(fabric, rows=rows), piece, plan_facts, [""] * 200)
    assert [(one.row, one.message) for one in found] == [(3, "its columns are not by turns in rye and flour")]


def test_a_column_wider_than_a_float_may_be_is_warned_of() -> None:
    """2.5 cm at 22 sts in 10 cm are 5.5 sts, rounded up to 6: columns of 7 are too wide, those of 6 are not."""
    for rib, found in (("7x1", ["W601"]), ("6x2", [])):
        problems = checked(spun(f"rib 4 cm, {rib}, corrugated with flour", 40, "in the round"))
        assert [code for code in codes(problems) if code.startswith("W")] == found
