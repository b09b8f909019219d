"""Where yarn runs out, against a walk over the expanded rows of the writer; what a change saves; what is wound off."""

from fractions import Fraction

import pytest
from mill_cloth import CLOTH
from specs import compiled, example

from wale.write.context import Context
from wale.write.rows import piece_rows
from wale.write.yarn_needed import yarn_of_size
from wale.write.yarn_used import Rates
from wale.yardage.report import winding, yarn_report
from wale.yardage.savings import savings
from wale.yardage.walk import events, run_outs, used

# Grams of rye in the rows of a cloth, the yarn 1 m to a gram, at the middle of the loop: plain rows of 42 cm, rows of
# specks 40 sts: 30 knitted, 10 passed, and 2 edge sts; rows of rye alone 42.
PLAIN_ROW = Fraction(42, 100)
SPECKED_ROW = (32 + 10 * Fraction(10, 42)) / 100


def work_of(text):
    spec, plan = compiled(text)
    return spec, plan, events(spec, plan, 0, Rates(spec, plan, 0))


def walk_by_hand(stock):
    """Walk both cloths row by row with the greatest use: 3 % more, 1.2 widths carried; ends as in the other tests."""
    most = {
        "plain": PLAIN_ROW * Fraction(103, 100),
        "specked": (32 + 12 * Fraction(10, 42)) / 100 * Fraction(103, 100),
    }
    taken = Fraction(0)
    for copy in (1, 2):
        steps = [("cast-on", 0, Fraction("0.554"))]
        steps += [("row", row, most["plain"]) for row in range(1, 13)]
        steps += [("row", row, most["specked"] if row % 2 else most["plain"]) for row in range(13, 57)]
        steps += [("hem", 56, Fraction("0.60")), ("bind-off", 56, Fraction("0.45"))]
        for what, row, grams in steps:
            taken += grams
            if taken > stock:
                return copy, what, row
    return None if taken + Fraction("1.08") <= stock else (1, "making up", 0)


@pytest.mark.parametrize("stock", [0, *range(1, 60, 3), "23.9", "45.5", "50.2"])
def test_the_first_row_that_the_stock_does_not_reach(stock):
    stock = Fraction(stock)
    _, _, work = work_of(CLOTH.format(plain="", specked=""))
    (found,) = run_outs(work, {"rye": stock})
    event = found.earliest
    expected = walk_by_hand(stock)
    if expected is None:
        assert event is None
    else:
        assert event is not None and event.what == expected[1]
        assert (event.copy, event.row) == (expected[0], expected[2])


@pytest.mark.parametrize("name", ["millrace-pullover.wale", "sluice-hat.wale", "first-cowl.wale"])
def test_the_rows_take_what_the_garment_takes(name):
    spec, plan = example(name)
    for size in range(len(plan.sizes)):
        work = events(spec, plan, size, Rates(spec, plan, size))
        for need in yarn_of_size(spec, plan, size):
            assert used(work, need.yarn).spread == need.used
        for piece in plan.pieces:
            rows = [one for one in work if one.place == piece.name and one.copy == 1 and one.what == "row"]
            written = len(piece_rows(Context(spec, plan, piece, size)))
            # Neck and shoulders are worked side by side here, one after the other in the written rows.
            assert len(rows) == written if piece.top is None else len(rows) >= piece.total_rows(size)


def test_the_yarn_that_runs_out_first_comes_first():
    spec, plan = example("millrace-pullover.wale")
    work = events(spec, plan, 2, Rates(spec, plan, 2))
    found = run_outs(work, {"rye": Fraction(200), "flour": Fraction(40)})
    assert [one.yarn for one in found] == ["flour", "rye"]
    assert found[0].earliest.place == "back" and found[1].earliest.place in ("front", "sleeve")
    late = [work.index(one.latest) for one in found]
    assert all(work.index(one.earliest) <= after for one, after in zip(found, late, strict=True))


def test_more_yarn_never_ends_earlier():
    spec, plan = example("sluice-hat.wale")
    work = events(spec, plan, 0, Rates(spec, plan, 0))
    ends = [run_outs(work, {"rye": Fraction(grams)})[0].index for grams in range(0, 60, 5)]
    assert ends == sorted(ends) and ends[-1] == len(work)


def saved(name, size=0):
    spec, plan = example(name)
    needs = yarn_of_size(spec, plan, size)
    return {one.change: one for one in savings(spec, plan, (size,), [needs])}


def test_no_pom_pom_saves_the_pom_pom():
    # 8 cm: 512 / 30 g
    assert saved("sluice-hat.wale")["no pom-pom"].grams[0] == {"rye": 0, "flour": Fraction(512, 30)}


def test_one_size_smaller_saves_the_difference():
    spec, plan = example("millrace-pullover.wale")
    large, medium = yarn_of_size(spec, plan, 3), yarn_of_size(spec, plan, 2)
    expected = {one.yarn: one.used.middle - two.used.middle for one, two in zip(large, medium, strict=True)}
    assert saved("millrace-pullover.wale", 3)["one size smaller"].grams[0] == expected
    assert saved("millrace-pullover.wale", 0)["one size smaller"].grams == (None,)


def test_changes_of_a_pullover():
    found = saved("millrace-pullover.wale", 2)
    assert set(found) == {
        "one size smaller",
        "sleeves in one colour",
        "ribs instead of folded hems",
        "the body 2 cm shorter",
        "the sleeves 2 cm shorter",
    }
    # Sleeves in rye alone give back all flour of the sleeves, and take more rye.
    spec, plan = example("millrace-pullover.wale")
    work = events(spec, plan, 2, Rates(spec, plan, 2))
    flour = used([event for event in work if event.place == "sleeve"], "flour").spread.middle
    assert abs(found["sleeves in one colour"].grams[0]["flour"] - flour) < Fraction(1, 2)
    assert found["sleeves in one colour"].grams[0]["rye"] < 0
    # Two sleeves of about 40 cm, 2 cm of 7 rows shorter, some 120 sts each: a few grams, more than none.
    assert all(0 < grams < 10 for grams in found["the sleeves 2 cm shorter"].grams[0].values())


def wound(lines):
    text = CLOTH.format(plain="", specked="").replace("    colour #8a5a2b", f"    colour #8a5a2b\n{lines}", 1)
    spec, plan = compiled(text)
    return spec, winding(spec, next(one for one in yarn_of_size(spec, plan, 0) if one.yarn == "rye"))


def test_a_single_cone_that_is_held_double_is_wound_in_two():
    spec, one = wound("    strands 2\n    put-up 1000 g cone, 9 EUR")
    assert (one.yarn, one.strands, one.put_ups) == ("rye", 2, 1)
    need = next(need for need in yarn_of_size(spec, compiled_plan(spec), 0) if need.yarn == "rye")
    assert one.grams == Fraction(need.grams, 2) and one.metres == one.grams  # a metre in a gram


def compiled_plan(spec):
    from wale.draft.planner import plan

    return plan(spec)[0]


@pytest.mark.parametrize("lines", ["    put-up 1000 g cone, 9 EUR", "    strands 2\n    put-up 200 g cone, 9 EUR"])
def test_cones_that_go_round_are_not_wound(lines):
    # one strand; or two strands of which 310 g, two cones, are needed
    assert wound(lines)[1] is None


def test_two_cones_of_unlike_weight_do_not_go_round():
    # 310 g: 200 and 110 g for 8 EUR beat two of 200 g or three of 110 g; neither cone is half
    _, one = wound("    strands 2\n    put-up 200 g cone, 5 EUR\n    put-up 110 g cone, 3 EUR")
    assert one is not None and one.put_ups == 2 and 100 < one.grams <= 155


def test_what_is_left_over_is_stock_less_use_less_swatches():
    spec, plan = example("millrace-pullover.wale")
    report, problems = yarn_report(spec, plan, (2,))
    assert problems == []
    (one,) = report.sizes
    rye = one.needs[0]
    assert one.stock(rye) == 400  # 300 g on hand, a cone of 100 g bought
    assert one.left_over(rye).middle == 400 - rye.used.middle - rye.swatches
