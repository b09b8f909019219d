"""Each structure of a garment once, with the answer worked out by hand."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import pytest

from wale.solve.exact import feasible, solve
from wale.solve.model import Conflict, Model, Rule, Solution, Unknown, Wish


def unknowns(*keys: str, lower: int = 0, upper: int = 300) -> tuple[Unknown, ...]:
    return tuple(Unknown(key, lower, upper) for key in keys)


def near(key: str, wish: int | F, weight: int | F = 1) -> Wish:
    return Wish(((F(1), key),), -F(wish), F(weight))


def rule(*terms: tuple[int, str], kind: str = "join", **bounds: int) -> Rule:
    return Rule(terms, kind, kind, **bounds)


def solved(model: Model) -> tuple[dict[str, int], F]:
    answer = solve(model)
    assert isinstance(answer, Solution)
    return dict(answer.values), answer.cost


# 40 sts = 13.6 cm; finished width = (count - 2) / gauge: both edge stitches go into the seams
GAUGE = F(400, 136)
BUSTS = {"XS": 29, "S": 33, "M": 37, "L": 41, "XL": 45, "2XL": 49, "3XL": 53}  # inches
COUNTS = {"XS": 135, "S": 147, "M": 159, "L": 171, "XL": 195, "2XL": 207, "3XL": 219}


def half_bust(size: str) -> F:
    """Half of bust and 14 cm ease, e.g. L: (41 * 2.54 + 14) / 2 = 59.07 cm."""
    return (BUSTS[size] * F(254, 100) + 14) / 2


def bust_model(sizes: tuple[str, ...], tolerance: F) -> Model:
    rules, wishes = [], []
    for size in sizes:
        middle = half_bust(size)
        low, high = (middle - tolerance) * GAUGE + 2, (middle + tolerance) * GAUGE + 2
        rules.append(rule((1, size), kind="tolerance", lower=-int(-low // 1), upper=int(high // 1)))
        rules.append(rule((1, size), kind="repeat", modulus=12, residue=3))
        wishes.append(Wish(((1 / GAUGE, size),), -2 / GAUGE - middle))
    return Model(unknowns(*sizes), tuple(rules), tuple(wishes))


def test_whole_repeats_nearest_to_seven_busts() -> None:
    # 12 k + 1 balance + 2 edges; one repeat is 12 * 0.34 = 4.08 cm, so up to 2.04 cm off
    values, cost = solved(bust_model(tuple(BUSTS), F(17, 10)))
    assert values == COUNTS
    # widths (count - 2) * 0.34: 45.22, 49.30, 53.38, 57.46, 65.62, 69.70, 73.78 cm
    off = [F(139, 100), F(39, 100), F(-61, 100), F(-161, 100), F(147, 100), F(47, 100), F(-53, 100)]
    exact = [(COUNTS[size] - 2) * F(34, 100) - half_bust(size) for size in BUSTS]
    assert [round(miss, 2) for miss in exact] == off
    assert cost == sum(miss * miss for miss in exact)


@pytest.mark.parametrize("size", [size for size in BUSTS if size != "L"])
def test_each_size_but_l_fits_within_one_and_a_half_cm(size: str) -> None:
    assert solved(bust_model((size,), F(3, 2)))[0] == {size: COUNTS[size]}


def test_size_l_does_not_fit_and_says_which_two_rules_clash() -> None:
    # 59.07 +- 1.5 cm is 57.57 to 60.57 cm: 171.3 to 180.1 sts; 171 is too narrow (57.46 cm), 183 too wide (61.54 cm)
    model = bust_model(tuple(BUSTS), F(3, 2))
    answer = solve(model)
    assert isinstance(answer, Conflict)
    assert answer.rules == (model.rules[6], model.rules[7])
    assert [broken.kind for broken in answer.rules] == ["tolerance", "repeat"]
    assert not feasible(model)


def test_parity_links_two_levels() -> None:
    # wishes 20.4 and 31.4, both even or both odd: (20, 32) costs .16 + .36 = .52, (21, 31) .36 + .16 the same: tie
    model = Model(
        unknowns("hem", "bust"),
        (rule((1, "bust"), (-1, "hem"), kind="parity", modulus=2),),
        (near("hem", F(204, 10)), near("bust", F(314, 10))),
    )
    assert solved(model) == ({"hem": 20, "bust": 32}, F(52, 100))


def test_ties_go_to_the_smallest_in_declaration_order() -> None:
    model = Model(unknowns("b", "a"), (rule((1, "a"), (1, "b"), lower=7, upper=7),), (near("a", 3), near("b", 3)))
    assert solved(model) == ({"b": 3, "a": 4}, F(1))


def test_cap_on_shaping() -> None:
    # |c1 - c0| <= 2 * 4 with wishes 20 and 34: 14 apart, cap 8; 6 to share, 3 each: 9 + 9
    cap = rule((1, "c1"), (-1, "c0"), kind="shaping", lower=-8, upper=8)
    assert solved(Model(unknowns("c0", "c1"), (cap,), (near("c0", 20), near("c1", 34)))) == (
        {"c0": 23, "c1": 31},
        F(18),
    )


def test_bust_is_neck_and_two_shoulders() -> None:
    # wishes 100, 40, 28: 40 + 56 = 96, 4 short. Best bust 99, neck 41, shoulder 29: 1 + 1 + 1
    equality = rule((1, "bust"), (-1, "neck"), (-2, "shoulder"), kind="exact", lower=0, upper=0)
    model = Model(
        unknowns("bust", "neck", "shoulder"), (equality,), (near("bust", 100), near("neck", 40), near("shoulder", 28))
    )
    assert solved(model) == ({"bust": 99, "neck": 41, "shoulder": 29}, F(3))


def test_join_with_factors() -> None:
    # 3 sts on 4 rows: |3 * rows - 4 * sts| <= 4; 61 rows want 45.75 sts: 45 gives 3, so 45 and 46 keep 61; wish 40
    join = rule((3, "rows"), (-4, "sts"), lower=-4, upper=4)
    model = Model(unknowns("rows", "sts"), (join,), (near("rows", 61, 100), near("sts", 40)))
    # rows 61: sts 45 (183 - 180 = 3), cost 25; rows 60: sts 44 (180 - 176 = 4), cost 100 + 16
    assert solved(model) == ({"rows": 61, "sts": 45}, F(25))


def test_a_larger_size_is_never_smaller() -> None:
    # wishes fall from 50 to 47; with equal weights both take 48 or 49 (4 + 1 either way): the smaller
    order = rule((1, "M"), (-1, "S"), kind="order", lower=0)
    assert solved(Model(unknowns("S", "M"), (order,), (near("S", 50), near("M", 47)))) == ({"S": 48, "M": 48}, F(5))


def test_order_over_a_chain_of_sizes() -> None:
    # 30, 40, 10, 20: all four must meet; the last three pool at their mean 23.33, below 30: so all pool at mean 25
    keys = ("S", "M", "L", "XL")
    orders = [rule((1, b), (-1, a), kind="order", lower=0) for a, b in pairwise(keys)]
    model = Model(unknowns(*keys), tuple(orders), tuple(map(near, keys, (30, 40, 10, 20))))
    assert solved(model) == (dict.fromkeys(keys, 25), F(25 + 225 + 225 + 25))


def test_even_steps_between_sizes() -> None:
    # wishes 40, 47, 50 cost nothing off; second difference 40 - 94 + 50 = -4. One stitch down at the middle costs 1 and
    # saves 16 - 4 = 12; one more costs 3 more and saves 4: (40, 45, 50) costs 4, (40, 46, 51): 1 + 1 + 1 = 3,
    # (41, 46, 50): 1 + 1 + 1 = 3, (40, 46, 50): 1 + 4 = 5, (41, 46, 51): 1 + 1 + 1 + 0 = 3; the first by values wins
    keys = ("S", "M", "L")
    even = Wish(((F(1), "S"), (F(-2), "M"), (F(1), "L")), F(0))
    assert solved(Model(unknowns(*keys), (), (*map(near, keys, (40, 47, 50)), even))) == (
        {"S": 40, "M": 46, "L": 51},
        F(3),
    )


def test_work_to_measures_from_the_fold() -> None:
    # ten sections that each want 6 rows, but 64 in all, weight 10, every section even: two of them take 8 (4 each)
    keys = tuple(f"rows{i}" for i in range(10))
    rules = tuple(rule((1, key), kind="parity", modulus=2) for key in keys)
    total = Wish(tuple((F(1), key) for key in keys), F(-64), F(10))
    values, cost = solved(Model(unknowns(*keys, lower=1, upper=40), rules, (*(near(key, 6) for key in keys), total)))
    # smallest in declaration order: the last two
    assert list(values.values()) == [6] * 8 + [8] * 2
    assert cost == 8


def test_stretches_share_their_partial_sums() -> None:
    # six sections want 5 each; the first four are 22 exactly, the last four 18: 2 more, 2 fewer. The shared middle two
    # stay, so sections 0, 1 take one more, 4, 5 one fewer: 4 in all
    keys = tuple(f"rows{i}" for i in range(6))
    rules = (
        rule(*((1, key) for key in keys[:4]), kind="tolerance", lower=22, upper=22),
        rule(*((1, key) for key in keys[2:]), kind="tolerance", lower=18, upper=18),
    )
    model = Model(unknowns(*keys, lower=1, upper=20), rules, tuple(near(key, 5) for key in keys))
    assert solved(model) == (dict(zip(keys, (6, 6, 5, 5, 4, 4), strict=True)), F(4))


def test_order_on_sums_of_sections() -> None:
    # wishes 4 * 9 and 4 * 8: the sums, 36 and 32, must meet, so four rows move; each costs 1 on whichever side
    small, large = [tuple(f"{size}{i}" for i in range(4)) for size in "SM"]
    order = rule(*((1, key) for key in large), *((-1, key) for key in small), kind="order", lower=0)
    wishes = (*(near(key, 9) for key in small), *(near(key, 8) for key in large))
    values, cost = solved(Model(unknowns(*small, *large, lower=1, upper=20), (order,), wishes))
    # the smallest in declaration order: the small size gives way in all its sections
    assert [values[key] for key in (*small, *large)] == [8] * 8
    assert cost == 4


def test_no_wish_gives_the_smallest_values() -> None:
    assert solved(Model(unknowns("a", "b", lower=2), (rule((1, "a"), (1, "b"), lower=7),), ())) == (
        {"a": 2, "b": 5},
        F(0),
    )


def test_empty_model() -> None:
    assert solve(Model((), (), ())) == Solution({}, F(0))


def test_a_wish_of_negative_weight_is_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        solve(Model(unknowns("a"), (), (near("a", 1, -1),)))
