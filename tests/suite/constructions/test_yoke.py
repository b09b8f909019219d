"""A round yoke from the neck down, against the percentage system and by hand."""

from itertools import pairwise

import pytest
from bodies_kit import FRAME
from hypothesis import given
from hypothesis import strategies as st
from support import EXAMPLES, checked, errors, mended, world

from wale.constructions.yoke import YOKE
from wale.course import rows_made
from wale.driver import check_spec, compile_spec

TEXT = (EXAMPLES / "tailrace-yoke.wale").read_text("utf-8")


def yoke(before, after, sleeve, under, rounds=60):
    """The numbers of a yoke of so many stitches, at one stitch and one round a cm."""
    line = {"sleeves": sleeve, "underarm": under, "over": rounds, "sts_per_cm": 1, "rows_per_cm": 1, "after": after}
    return YOKE.worked_out(before, line)


def test_the_percentage_yoke_of_240_stitches_backwards():
    # W119: E. Zimmermann's percentage yoke: 240 sts, - 25 % = 180, - 33 % = 120, - 40 % = 72
    # (https://www.scribd.com/document/471250318/jenjoycedesign-com-Percentage-Systems): (k2, k2tog), (k1, k2tog),
    # ((k2tog) twice, k1). From the neck up: 72 to 120 is 48 of 168 increases; body 180, sleeves 58, underarms 14:
    # 180 + 2 * 58 - 4 * 14 = 240.
    found = yoke(72, 180, 58, 14)
    assert [found[name] for name in ("total1", "total2", "total3", "all")] == [120, 180, 240, 240]
    assert (found["group2"], found["over2"], found["group3"], found["over3"]) == (2, 0, 3, 0)


def test_increases_stand_at_the_neck_after_a_quarter_and_after_half():
    rows = rows_made(YOKE.parts[0], yoke(72, 180, 58, 14))
    counts = [72, *(row.after for row in rows)]
    assert len(rows) == 60
    gains = [number for number, (one, other) in enumerate(pairwise(counts), 1) if other > one]
    assert gains == [1, 60 // 4 + 1, 60 // 2 + 1]


@given(st.integers(30, 90), st.integers(1, 40), st.integers(1, 12), st.integers(30, 90))
def test_no_stitch_is_lost(half_neck, more, half_under, rounds):
    before, under = 2 * half_neck, 2 * half_under
    after = 2 * before + 2 * more
    sleeve = 2 * (under + 5)
    found = yoke(before, after, sleeve, under, rounds)
    rows = [row for part in YOKE.parts for row in rows_made(part, found)]
    assert rows[-2].after == found["all"] == after + 2 * sleeve - 4 * under
    assert rows[-1].after == after == 2 * (found["back"] + under)
    assert len(rows) == rounds + 1


def test_it_is_proven_in_all_sizes():
    assert compile_spec(world(TEXT), "a.wale").proof is not None


@pytest.mark.parametrize("neck", ["200 cm", "16 cm"])
def test_a_neck_too_wide_or_too_narrow_is_refused(neck):
    text = TEXT.replace("cast on neck-base in", f"cast on {neck} in")
    problems = [one for one in check_spec(world(text), "a.wale").problems if one.is_error]
    assert problems
    assert all(one.code.startswith("E3") for one in problems)


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("sleeves 12 cm, underarm 14 cm", "wider than its underarm"),
        ("sleeves 60 cm, underarm 58 cm", "beside the underarms"),
    ],
)
def test_sleeves_and_underarms_leave_stitches_to_each_part(line, what):
    """120 sts are the body: two underarms of 58 cm, 116 sts each, are more; a sleeve of 24 sts has none of 28."""
    yoke = f"yoke to 120 sts over 20 cm, {line}"
    lines = f"cast on 60 sts in plain\n    work 2 rounds\n    {yoke}\n    work 10 cm\n    bind off\n"
    done = checked(f"{FRAME}\npiece tube, in the round\n    {lines}    sleeves to 20 cm over 30 cm, cuff 4 cm\n")
    assert errors(done) == ["E303"]
    assert any(what in label.text for found in done.problems if found.is_error for label in found.labels)


@pytest.mark.parametrize("rounds", range(3, 30))
def test_a_shallow_yoke_has_the_rounds_that_it_is_asked_for(rounds):
    """Three of them gain; those between are at least none: of 3 rounds all gain, of 4 the last is plain."""
    rows = rows_made(YOKE.parts[0], yoke(72, 180, 58, 14, rounds))
    counts = [72, *(row.after for row in rows)]
    assert len(rows) == rounds
    assert sum(other > one for one, other in pairwise(counts)) == 3


def test_a_yoke_of_fewer_than_three_rounds_is_refused_with_a_way_out():
    """At 28 rounds in 10 cm 0.8 cm are 2.24 rounds, so 2; 1 cm is 2.8, so 3."""
    text = TEXT.replace("over armhole-depth", "over 0.8 cm")
    done = check_spec(world(text), "a.wale")
    (found,) = (one for one in done.problems if one.is_error)
    assert found.code == "E303"
    assert [label.text for label in found.labels] == [
        "a yoke has its three rounds of increases, so it is three rounds deep at least"
    ]
    (fix,) = found.fixes
    assert errors(check_spec(world(mended(text, fix)), "a.wale")) == []


def test_a_yoke_of_three_rounds_is_proven():
    """At 28 rounds in 10 cm 1 cm is 2.8 rounds, so 3, and the round on which body and sleeves part."""
    done = compile_spec(world(TEXT.replace("over armhole-depth", "over 1 cm")), "a.wale")
    assert done.plan is not None
    assert [set(one.rows) for one in done.plan.pieces[0].sections if ".yoke" in one.address] == [{3}, {1}]
    assert done.proof is not None
