"""What was weighed in the middle of the work, reckoned by hand on the two cloths; what is refused."""

from fractions import Fraction

import pytest
from mill_cloth import CLOTH
from specs import compiled, example

from wale.write.yarn_used import Rates
from wale.yardage.report import yarn_report
from wale.yardage.walk import events
from wale.yardage.weighed import read_left, weigh

# One way only (nothing is weighed). Rye of the first cloth up to row 56: 12 plain rows of 42 cm, 22 rows of 32 cm and
# 10 carried sts, 22 rows of 42 cm, and the cast-on of 55.4 cm; the yarn has 1 m in a gram.
FIRST = (12 * 42 + 22 * (32 + 10 * Fraction(10, 42)) + 22 * 42 + Fraction("55.4")) / 100
# The second cloth is the same again; hems and bind-offs of both, and the seams.
REST = FIRST + (2 * Fraction(105) + 108) / 100


def weighed(left):
    spec, plan = compiled(CLOTH.format(plain="", specked=""))
    work = events(spec, plan, 0, Rates(spec, plan, 0))
    weighing = read_left(left, spec, work)
    assert not hasattr(weighing, "code"), weighing
    return weigh(weighing, spec, work)


def test_half_as_much_again_is_used():
    spent = FIRST * Fraction(3, 2)
    left = round(1000 * (100 - spent))
    found = weighed(f"rye {left / 1000:.3f} g of 100 g at cloth row 56")
    assert found.where == "row 56 of 56 of cloth 1"
    assert found.used == 100 - Fraction(left, 1000)
    # A gram of the scales either way: 0.5 g at each of the two weighings.
    assert found.factor == ((found.used - 1) / FIRST, (found.used + 1) / FIRST)
    assert found.rest == (found.factor[0] * REST, found.factor[1] * REST)
    assert Fraction(149, 100) > found.factor[0] > Fraction(14, 10) and found.why == ""
    assert found.verdict == "enough"  # 66 g are left, 1.5 * 25.6 g are needed


def test_far_from_the_estimate_is_doubted():
    # 22.4 g are estimated: 38 g are 170 %, 25 g 112 %, 15 g (of 20 and more) nothing is said of.
    assert weighed("rye 60 g of 98 g at cloth row 56").is_doubtful
    assert not weighed("rye 60 g of 85 g at cloth row 56").is_doubtful
    assert not weighed("rye 60 g of 75 g at cloth row 56").is_doubtful


@pytest.mark.parametrize(
    ("left", "verdict", "is_missing"),
    [("60", "enough", False), ("43", "perhaps not enough", True), ("20", "not enough", True)],
)
def test_verdicts(left, verdict, is_missing):
    # 38 g were used of 22.4 estimated; the rest takes 25.6 * 38 / 22.4 = 43.4 g, with a gram either way 42.2 to 44.5.
    found = weighed(f"rye {left} g of {38 + int(left)} g at cloth row 56")
    assert (found.verdict, found.missing > 0) == (verdict, is_missing)
    assert found.missing == max(Fraction(0), found.rest[1] - int(left))


def test_the_second_copy_comes_after_the_first():
    found = weighed("rye 10 g of 60 g at cloth 2 row 1")
    assert found.where == "row 1 of 56 of cloth 2"
    low, high = found.estimated
    middle = FIRST + (Fraction(105) + Fraction("55.4") + 42) / 100  # hem and bind-off of the first, cast-on, a row
    assert low < middle < high


@pytest.mark.parametrize(
    ("left", "why"),
    [
        ("rye 40 g at cloth row 56", "it is not known how much the work began with"),
        ("rye 99 g of 100 g at cloth row 56", "under 20 g are knitted, too little to correct by"),
        ("rye 50 g of 100 g at cloth row 3", "under 20 g are knitted, too little to correct by"),
    ],
)
def test_where_nothing_can_be_corrected_the_estimate_stands(left, why):
    found = weighed(left)
    assert (found.why, found.factor) == (why, None)
    assert found.rest[0] < found.rest[1]


def test_what_is_on_hand_is_what_the_work_began_with():
    spec, plan = example("millrace-pullover.wale")
    report, problems = yarn_report(spec, plan, (2,), ("rye 212 g at back row 150",))
    assert problems == []
    (found,) = report.sizes[0].weighed
    assert found.used == 300 - 212


@pytest.mark.parametrize(
    ("left", "said"),
    [
        ("rye", "does not read"),
        ("rye 212 at back row 84", "does not read"),
        ("rye 212 g at back", "does not read"),
        ("rye -3 g at back row 84", "does not read"),
        ("rye 1e9 g at back row 84", "does not read"),
        ("rye 212 g at back row 0x9", "does not read"),
        ("x" * 100_000, "does not read"),
        ("ray 212 g at back row 84", "no yarn `ray`"),
        ("rye 212 g at bag row 84", "no piece or band `bag`"),
        ("rye 212 g at back row 100000", "rows in this size"),
        ("rye 212 g at back 2 row 8", "is made once"),
        ("rye 212 g at sleeve 3 row 8", "is made 2 times"),
        ("rye 312 g at back row 84", "are left of 300 g"),
        ("rye 312 g of 200 g at back row 84", "are left of 200 g"),
    ],
)
def test_nonsense_is_refused_with_a_reason(left, said):
    spec, plan = example("millrace-pullover.wale")
    report, problems = yarn_report(spec, plan, (2,), (left,))
    assert report is None and [one.code for one in problems] == ["E308"]
    assert said in problems[0].message and problems[0].help and len(problems[0].message) < 200
