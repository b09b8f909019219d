"""Heels and toes against the books, and by reckoning of their own."""

from fractions import Fraction
from math import lcm

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from support import EXAMPLES, world

from wale.constructions import COURSES
from wale.constructions.heels import HEEL_FLAP
from wale.constructions.phases import phase
from wale.course import Part, rows_made, told
from wale.driver import check_spec, compile_spec, render

SOCK = (EXAMPLES / "penstock-socks.wale").read_text("utf-8")


def words(course, before):
    """All lines of a course as one text each."""
    numbers = course.worked_out(before)
    found = []
    for part in course.parts:
        for one in told(part, numbers):
            if not one.passage.is_remark:
                text = one.passage.words.replace("!sts", "").replace("!times", "")
                found.append(text.format(**one.numbers))
    return found


def test_ryders_heel_of_28_stitches():
    # W098: H. P. Ryder, Cycling and Shooting Knickerbocker Stockings (1896): "sl1 k15 k2tog k1; sl1 p5 p2tog p1;
    # sl1 k6 ...; last two rows without the end stitch": 12 decreases, 16 sts left. We lean the first decrease left.
    lines = words(HEEL_FLAP, 56)
    turn = [line for line in lines if line.startswith("sl1, ") and "turn" in line]
    assert turn[:3] == ["sl1, k15, ssk, k1, turn.", "sl1, p5, p2tog, p1, turn.", "sl1, k6, ssk, k1, turn."]
    assert len(turn) == 12
    assert [line.count("1, turn") for line in turn] == [1] * 10 + [0] * 2
    assert 2 * HEEL_FLAP.worked_out(56)["half"] == 16


def test_a_heel_of_32_stitches_ends_with_half_and_two():
    # W102: https://forum.knittinghelp.com/t/math-for-turning-the-heel/52340
    assert HEEL_FLAP.worked_out(64)["heel"] == 32
    assert 2 * HEEL_FLAP.worked_out(64)["half"] == 18


def test_a_stitch_is_picked_up_for_two_rows_and_one_in_the_corner():
    # 14 chains for 28 rows, and 1: https://www.craicnyarn.com/single-post/2016/02/12/back-to-the-heel
    assert HEEL_FLAP.worked_out(56)["picked"] == 14 + 1


@given(st.integers(7, 60), st.sampled_from(sorted(COURSES)))
def test_rows_follow_one_another(fours, form):
    course = COURSES[form]
    assume(not course.to and not course.example)
    before = max(lcm(4, course.modulus) * fours, course.least) + course.residue
    earlier = COURSES[course.follows[0]].worked_out(before) if course.follows else {}
    numbers = course.worked_out(before, {**earlier, "length": 5, "gauge": 3})
    rows = [row for part in course.parts for row in rows_made(part, numbers)]
    assert all(row.waiting >= 0 and row.waiting + row.worked <= row.after for row in rows)
    assert rows[-1].after == (numbers[course.final.number] if course.final else before)


def test_the_square_heel_of_72_stitches():
    # W105: half of 72 sts are the heel, a third of those the sole: N. Bush, Folk Socks (1994), as quoted at
    # http://curiousknitter.blogspot.com/2022/05/my-square-heel.html
    numbers = COURSES["heel square"].worked_out(72)
    assert (numbers["heel"], numbers["strip"]) == (36, 12)
    turn = rows_made(COURSES["heel square"].parts[1], numbers)
    assert len(turn) == 36 - 12
    assert turn[-1].after == 12


def test_the_round_toe_of_80_stitches():
    # W106: Dillmont (1886), Encyclopedia of Needlework: (k8, k2tog), 8 plain rounds, (k7, k2tog), 7 plain ... (k2,
    # k2tog), 2 plain: 72, 64, 56, 48, 40, 32, 24. Then 16, a plain round, and 8.
    course = COURSES["toe round"]
    rows = [row.after for row in rows_made(course.parts[0], course.worked_out(80))]
    hers = [left for left, plain in zip(range(72, 23, -8), range(8, 1, -1), strict=True) for _ in range(1 + plain)]
    assert rows == [*hers, 16, 16, 8]


def test_the_flat_top_of_96_stitches():
    # W088: a flat circle takes eight stitches on every other round:
    # http://www.woollywormhead.com/blog/2016/9/20/crown-shaping-masterclass. 96: 88 88, 80 80 ... 16 16, 8.
    course = COURSES["top flat"]
    rows = [row.after for row in rows_made(course.parts[0], course.worked_out(96))]
    assert rows == [left for left in range(88, 15, -8) for _ in range(2)] + [8]


@pytest.mark.parametrize("ankle", [6, 13, 20, 38, 60])
def test_tubes_of_all_girths_are_closed_flat(ankle):
    head, _, _ = SOCK.replace("ankle         21 (23, 25) cm", f"ankle {ankle} ({ankle + 1}, {ankle + 2}) cm").partition(
        "    heel "
    )
    done = compile_spec(world(head + "    top     flat\n"), "a.wale")
    assert done.proof is not None, done.problems
    words = render(done, "text", world(head))[0].decode()
    assert "k2tog 8 times. 8 sts." in words and "Draw the yarn through the last 8 sts." in words


@pytest.mark.parametrize(
    ("apart", "leads"),
    [
        (1, ["Round 1"]),
        (2, ["Round 1", "Round 2"]),
        (3, ["Round 1", "Rounds 2 and 3"]),
        (5, ["Round 1", "Rounds 2 to 5"]),
    ],
)
def test_plain_rounds_between_shapings_are_named(apart, leads):
    """From 50 sts two fewer on round 1, then plain up to the next shaping, and all of it once more."""
    part = Part("arm", phase("arm", "k2tog, k to the last 2 sts, k2tog.", "50", -2, is_late=False))
    numbers = {"often": Fraction(apart), "early": Fraction(2), "early_again": Fraction(1)}
    lines = list(told(part, numbers))
    said = [one.passage.lead.format(often=apart) for one in lines if one.passage.lead]
    assert said == leads
    assert [row.after for row in rows_made(part, numbers)] == [48] * apart + [46] * apart


@pytest.mark.parametrize(("heel", "toe"), [("flap", "wedge"), ("square", "wedge"), ("flap", "round")])
@pytest.mark.parametrize("ankle", [13, 15, 18, 20, 22, 25, 30, 38])
def test_socks_of_all_girths_are_proven(ankle, heel, toe):
    text = SOCK.replace("ankle         21 (23, 25) cm", f"ankle {ankle} ({ankle + 1}, {ankle + 2}) cm")
    text = text.replace("heel    flap", f"heel    {heel}").replace("toe     wedge", f"toe     {toe}")
    done = compile_spec(world(text), "a.wale")
    assert done.proof is not None, done.problems


def test_the_left_hand_is_proven_too():
    assert compile_spec(world(SOCK), "a.wale", is_left_handed=True).proof is not None


def test_a_heel_in_a_motif_or_worked_flat_is_refused():
    cowl = (EXAMPLES / "first-cowl.wale").read_text("utf-8")
    in_motif = cowl.replace("    bind off", "    heel    flap\n    bind off")
    flat = SOCK.replace("piece sock, in the round", "piece sock, worked flat")
    for text in (in_motif, flat):
        problems = check_spec(world(text), "a.wale").problems
        assert [one.code for one in problems if one.is_error] == ["E405"]


def test_lengths_after_the_heel_are_measured_from_it():
    # 23 - 1 - 5 = 17 cm at 4.2 rounds/cm: 71.4, so 71 rounds from the turn on = 16.9 cm
    done = compile_spec(world(SOCK), "a.wale")
    text = render(done, "text", world(SOCK))[0].decode()
    assert "16.9 (19.0, 21.0) cm\n   from the heel" in text or "16.9 (19.0, 21.0) cm from the heel" in text.replace(
        "\n    ", " "
    )
