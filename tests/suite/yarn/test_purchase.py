"""The cheapest put-ups against trying all; the designer's cones."""

from fractions import Fraction
from itertools import product
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wale.materials import PutUp
from wale.yardage.purchase import purchases

CONE, BALL = PutUp(Fraction(100), "cone", Fraction("11.50"), "EUR"), PutUp(Fraction(50), "ball", Fraction(6), "EUR")


def best_by_trying(put_ups, grams):
    counts = product(*(range(ceil(Fraction(grams) / one.weight) + 1) for one in put_ups))
    return min(
        (
            sum(one.price * number for one, number in zip(put_ups, each, strict=True)),
            sum(each),
            sum(one.weight * number for one, number in zip(put_ups, each, strict=True)),
        )
        for each in counts
        if sum(one.weight * number for one, number in zip(put_ups, each, strict=True)) >= grams
    )


put_up = st.builds(
    lambda weight, price: PutUp(Fraction(weight), "ball", Fraction(price, 100), "EUR"),
    st.one_of(st.integers(20, 200), st.sampled_from(["28.349", "56.7", "113.4"])),
    st.integers(0, 3000),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(put_up, min_size=1, max_size=3), st.integers(1, 400))
def test_no_other_purchase_is_cheaper(put_ups, grams):
    (found,) = purchases(put_ups, grams)
    assert found.grams >= grams
    assert (found.cost, found.number, found.grams) == best_by_trying(put_ups, grams)


@pytest.mark.parametrize(
    ("grams", "words", "cost"),
    [
        (0, "nothing", 0),
        (1, "1 ball of 50 g", 6),
        (100, "1 cone of 100 g", "11.50"),
        (101, "1 cone of 100 g and 1 ball of 50 g", "17.50"),
        (355, "4 cones of 100 g", 46),  # 3 cones and 2 balls: 46.50
    ],
)
def test_cones_and_balls(grams, words, cost):
    (found,) = purchases((CONE, BALL), grams)
    assert (found.words, found.cost, found.currency) == (words, Fraction(cost), "EUR")


def test_the_designer_s_sixty_squares():
    # 60 squares of 6 g are 360 g, in two colours 180 g each: two cones of 150 g of either, four cones.
    cone = PutUp(Fraction(150), "cone", Fraction(20), "EUR")
    assert sum(purchases((cone,), 60 * 6 // 2)[0].number for _ in range(2)) == 4


def test_each_currency_has_its_own_purchase():
    found = purchases((CONE, PutUp(Fraction(100), "cone", Fraction(9), "GBP")), 150)
    assert [(one.number, one.cost, one.currency) for one in found] == [(2, 23, "EUR"), (2, 18, "GBP")]


def test_without_prices_the_least_weight_is_bought():
    loose = (PutUp(Fraction(100), "cone"), PutUp(Fraction(30), "ball"))
    (found,) = purchases(loose, 125)
    assert (found.words, found.cost) == ("1 cone of 100 g and 1 ball of 30 g", None)


def test_nothing_offered_nothing_bought():
    assert purchases((), 100) == ()


def test_a_great_deal_is_bought_all_the_same():
    small = PutUp(Fraction(1), "ball", Fraction(1), "EUR")
    (found,) = purchases((small, CONE), 90_000)
    assert found.grams >= 90_000 and found.words == "900 cones of 100 g"
    (found,) = purchases((small,), 90_000)
    assert found.number == 90_000
