"""Yokes, caps, raglans and heels on a strip: what holds for all numbers, by working the rows."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from wale.shaping.cap import cap_decreases, cap_height
from wale.shaping.heel import strip_heel
from wale.shaping.phrases import Plain, Repeat, Shaped
from wale.shaping.yoke import (
    ShareRound,
    raglan_depths,
    raglan_neck,
    raglan_rounds,
    yoke_counts,
    yoke_depth,
    yoke_multiple,
)


@given(st.integers(3, 40), st.integers(1, 40))
def test_a_heel_on_a_strip_takes_in_all_stitches_and_is_symmetric(strip: int, side: int) -> None:
    made = strip_heel(strip + 2 * side, strip)
    assert made is not None
    # `left` is in front of the needle, `right` behind it, as knitters turn them.
    left, right = strip + 2 * side, 0
    ends = []
    for number in range(made.rows):
        worked = made.first if number == 0 else 1 + made.between
        assert left >= worked + 2, "a row has its decrease to work"
        right += worked + 1
        left -= worked + 2
        ends.append(left)
        left, right = right, left
    assert left + right == strip
    # Right-side and wrong-side ends come in by one each: the two sides are alike.
    assert ends[0::2] == ends[1::2] == list(range(side - 1, -1, -1))


@given(st.integers(0, 60), st.integers(0, 60))
def test_a_strip_that_cannot_lie_in_the_middle_is_no_heel(heel: int, strip: int) -> None:
    possible = strip >= 3 and heel > strip and (heel - strip) % 2 == 0
    assert (strip_heel(heel, strip) is not None) == possible


SHARES = st.tuples(st.integers(2, 8), st.integers(1, 4)).filter(lambda pair: pair[0] >= 2 * pair[1])
ROUNDS = st.lists(SHARES.map(lambda pair: ShareRound(*pair)), min_size=1, max_size=3)


@given(ROUNDS)
def test_the_multiple_of_a_yoke_is_the_least_that_fits(rounds: list[ShareRound]) -> None:
    fitting = [count for count in range(1, yoke_multiple(rounds) * 2 + 1) if yoke_counts(count, rounds) is not None]
    assert fitting == [yoke_multiple(rounds), 2 * yoke_multiple(rounds)]


@given(SHARES, st.integers(1, 30))
def test_the_words_of_a_share_take_all_stitches(pair: tuple[int, int], groups: int) -> None:
    one = ShareRound(*pair)
    before = one.group * groups

    def taken(phrases: tuple[object, ...]) -> tuple[int, int]:
        took = lost = 0
        for phrase in phrases:
            match phrase:
                case Plain(stitches):
                    took += stitches
                case Shaped(times):
                    took, lost = took + 2 * times, lost + times
                case Repeat(inner, times):
                    inside = taken(inner)
                    took, lost = took + inside[0] * times, lost + inside[1] * times
        return took, lost

    assert taken(one.phrases(before)) == (before, one.lost * groups)
    assert yoke_counts(before, [one]) == (before - one.lost * groups,)


def test_yokes_and_raglans_by_hand() -> None:
    assert yoke_depth(100) == 25
    # 80 at the neck, 240 at the underarm: 160 gained, 8 a round.
    assert (raglan_rounds(80, 240), raglan_rounds(240, 80), raglan_rounds(80, 241)) == (20, 20, None)


@given(st.integers(20, 200), st.integers(100, 400))
def test_back_and_sleeve_top_share_what_the_neck_gives_both(neck: int, garment: int) -> None:
    back, sleeve = raglan_neck(neck, garment)
    assert (back + sleeve) * 10 == neck * 6 and (back - sleeve) * 50 == garment * 7


@given(st.integers(1, 40), st.integers(1, 20))
def test_an_armhole_is_the_raglan_and_the_neck_behind(worked: int, top: int) -> None:
    neck, armhole = raglan_depths(worked, top)
    assert armhole - worked == neck and 2 * neck == top


@given(st.integers(0, 120), st.lists(st.integers(0, 30), max_size=4))
def test_no_stitch_of_a_cap_is_lost(stitches: int, parts: list[int]) -> None:
    each = cap_decreases(stitches, *parts)
    rest = stitches - sum(parts)
    assert (each is None) == (rest < 0 or rest % 2 == 1)
    assert each is None or 2 * each + sum(parts) == stitches


@given(st.integers(4, 14), st.integers(1, 5), st.integers(20, 60))
def test_a_cap_in_centimetres_is_the_cap_in_inches(armhole: int, top: int, chest: int) -> None:
    inches = cap_height(armhole, top, chest)
    assert cap_height(254 * armhole, 254 * top, 254 * chest, inch=254) == 254 * inches
