"""Gauge from the swatch, published sizes and their second names, growth from size to size, bodies beside sizes."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from support import EXAMPLES, checked, codes, errors, planned

PLAIN = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
sizes women {sizes}
    ease bust {ease} cm
piece back, worked flat
    edge 1 st each side in rye
    cast on bust/2 in {swatch}
    work 10 cm
    bind off
join
    seam sides, mattress stitch
"""
MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")


def test_the_gauge_is_that_of_the_washed_swatch() -> None:
    """40 sts = 13.6 cm and 40 rows = 12.2 cm are 29.41 sts and 32.79 rows in 10 cm; counted before washing: 28.8."""
    done = checked(
        PLAIN.format(sizes="M", ease=14, swatch="easy").replace("work 10", "work in grist on easy\n    work 10")
    )
    assert done.plan is not None
    back = done.plan.pieces[0]
    assert back.levels[0].sts_per_cm * 10 == Fraction(400 * 10, 136)
    assert back.sections[0].rows_per_cm * 10 == Fraction(400 * 10, 122)
    assert round(float(back.levels[0].sts_per_cm * 10), 2) == 29.41
    assert round(float(back.sections[0].rows_per_cm * 10), 2) == 32.79


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("XS S M L XL 2XL 3XL", "X-Small Small Medium Large X-Large XXL XXXL"),
        ("XL 2XL 3XL 4XL 5XL", "1X 2X 3X 4X 5X"),
    ],
)
def test_second_names_mean_the_same_sizes(first: str, second: str) -> None:
    """The table gives 1X, 2X ... as second names of XL, 2XL ..."""
    one = planned(PLAIN.format(sizes=first, ease=4, swatch="plain"))
    other = planned(PLAIN.format(sizes=second, ease=4, swatch="plain"))
    assert one.pieces[0].levels[0].counts == other.pieces[0].levels[0].counts
    assert one.pieces[0].levels[0].wishes == other.pieces[0].levels[0].wishes


def test_the_same_size_under_two_names_stands_twice() -> None:
    assert errors(checked(PLAIN.format(sizes="XL 1X", ease=4, swatch="plain"))) == ["E207"]


def test_even_steps_by_brute_force() -> None:
    """Five women's sizes, busts 4 inches apart: the least of squared misses + 0.05 x squared second differences."""
    level = planned(PLAIN.format(sizes="XS S M L XL", ease=4, swatch="plain")).pieces[0].levels[0]
    per_stitch = Fraction(10, 27)
    wishes = [(inch * Fraction("2.54") + 4) / 2 for inch in (29, 33, 37, 41, 45)]
    near = [[n for n in range(400) if abs((n - 2) * per_stitch - wish) <= Fraction(3, 4)] for wish in wishes]

    def cost(counts: tuple[int, ...]) -> Fraction:
        misses = sum(((n - 2) * per_stitch - wish) ** 2 for n, wish in zip(counts, wishes, strict=True))
        bends = sum(
            ((a - 2 * b + c) * per_stitch) ** 2 for a, b, c in zip(counts, counts[1:], counts[2:], strict=False)
        )
        return misses + bends / 20

    assert level.counts == min(product(*near), key=lambda counts: (cost(counts), counts))


def test_even_steps_keep_l_at_175() -> None:
    """Centred, the nearest odd counts of the pullover's busts: L is 59.07 / 0.34 + 2 = 175.7, so 175 or 177."""
    bust = planned(MILLRACE).pieces[0].level("bust")
    assert bust is not None
    assert bust.counts[3] == 175
    steps = [large - small for small, large in zip(bust.counts, bust.counts[1:], strict=False)]
    assert max(steps) - min(steps) <= 2  # 10.16 / 2 / 0.34 = 14.9 sts a size: 14 or 16


def test_widths_never_shrink() -> None:
    plan = planned(MILLRACE)
    for piece in plan.pieces:
        for level in piece.levels:
            assert list(level.counts) == sorted(level.counts), level.address


def test_sizes_that_shrink_are_refused() -> None:
    text = MILLRACE.replace("ease bust 14 cm,", "ease bust 14 (14, 0, 14, 14, 14, 14) cm,")
    assert "E225" in errors(checked(text))


def test_an_order_that_no_count_keeps_is_refused() -> None:
    """Written counts that fall from S to M: the lines and sizes clash."""
    text = PLAIN.format(sizes="S M", ease=4, swatch="plain").replace("bust/2", "100 (90) sts")
    done = checked(text)
    assert done.plan is None
    assert set(errors(done)) <= {"E225", "E302"} and errors(done)


BODY = """body mine
    measure bust 97 cm
    measure waist 80 cm
    measure hip 103 cm
    measure upper-arm 30 cm
    measure armhole-depth 19 cm
    measure wrist 16 cm
    measure neck-to-wrist 76 cm
    measure neck-width 17 cm
    measure body-length 60 cm
    ease upper-arm 9 cm

"""
BESIDE = MILLRACE.replace("let armhole", BODY + "let armhole", 1)


def test_a_body_stands_after_the_sizes_with_their_ease() -> None:
    """Bust (97 + 14) / 2 = 55.5 cm, hip (103 + 8) / 2 = 55.5 cm: 163.2 sts + 2, odd: 165."""
    plan = planned(BESIDE)
    assert plan.sizes == ("XS", "S", "M", "L", "XL", "2XL", "3XL", "mine")
    bust, hip = plan.pieces[0].level("bust"), plan.pieces[0].level("hip")
    assert bust is not None and hip is not None and bust.wishes is not None
    assert bust.wishes[7] == Fraction(111, 2)
    assert (bust.counts[7], hip.counts[7]) == (165, 165)


def test_its_own_ease_goes_before_the_sizes_ease() -> None:
    """Armhole max(19 + 3, (30 + 9) / 2) = 22 cm, so the sleeve's top is 44 cm; with 16 cm ease: 23, so 46 cm."""
    assert "ease upper-arm 9 cm" in BESIDE
    for ease, top in ((9, 44), (16, 46)):
        sleeve = planned(BESIDE.replace("ease upper-arm 9 cm", f"ease upper-arm {ease} cm")).piece("sleeve")
        assert sleeve is not None and sleeve.levels[-1].wishes is not None
        assert sleeve.levels[-1].wishes[7] == top


def test_a_body_bends_no_size() -> None:
    """Sizes are the same with and without a body beside them, whose bust lies between two of theirs."""
    alone, beside = planned(MILLRACE), planned(BESIDE)
    for one, other in zip(alone.pieces, beside.pieces, strict=True):
        assert [level.counts for level in one.levels] == [level.counts[:7] for level in other.levels]
        assert [section.rows for section in one.sections] == [section.rows[:7] for section in other.sections]


def test_a_spec_may_have_bodies_only() -> None:
    head, _, rest = MILLRACE.partition("sizes women")
    ease = "    ease bust 14 cm, waist 24 cm, hip 8 cm, armhole-depth 3 cm, wrist 5 cm, neck-to-wrist 0 cm\n"
    text = head + BODY.rstrip("\n") + "\n" + ease + "\n" + rest.partition("\n\n")[2]
    plan = planned(text)
    assert plan.sizes == ("mine",)
    bust = plan.pieces[0].level("bust")
    assert bust is not None and bust.counts == (165,)


def test_every_number_has_its_deviation_within_the_tolerance() -> None:
    for piece in planned(MILLRACE).pieces:
        for level in piece.levels:
            assert level.wishes is not None
            for size in range(7):
                got = (level.counts[size] - level.edges) / level.sts_per_cm
                assert level.deviation(size) == got - level.wishes[size]
                assert abs(level.deviation(size)) <= Fraction(3, 2)
        for section in piece.sections:
            if section.wishes is None:
                assert section.kind == "turning"
                continue
            for size in range(7):
                assert abs(section.deviation(size)) <= Fraction(3, 2)


def test_the_example_has_no_error() -> None:
    assert not [code for code in codes(checked(MILLRACE)) if code.startswith(("E", "W"))]
