"""Yarn: hand-computed strips, and stitch counts against the expanded rows."""

from fractions import Fraction

import pytest
from specs import YARNS, compiled, example
from support import EXAMPLES

from wale.checks import check
from wale.write.context import Context
from wale.write.rows import piece_rows
from wale.write.stitch_counts import Patch, row_stitches, stitch_counts
from wale.write.yarn_lengths import loop_grams, loop_length
from wale.write.yarn_needed import yarn_needed
from wale.write.yarn_table import yarn_parts

# 4.2 sts and 5.5 rows per cm: l = sqrt(23.1 / 23.1) = 1 cm of yarn in a stitch. The yarn has 1 m in a gram.
STRIP = (
    """wale 1
pattern "Strip"
sizes one
"""
    + YARNS
    + """
swatch plain, worked flat
    fabric stockinette in rye
    needle 3.25 mm
    washed 42 sts and 55 rows in 10 cm
{more}
piece strip, worked flat{make}
    cast on 20 sts in plain
    work 50 rows
    bind off
"""
)
# A row of four: 1 flour, 3 rye, then 4 rye. A hundred rows of 20 sts: 50 of each, 1000 sts each.
SPECKS = (
    """wale 1
pattern "Specks"
sizes one
"""
    + YARNS
    + """
motif specks
    repeat 4 sts, 2 rows
    key |-| rye, |x| flour
    | - - - - |
    | x - - - |
swatch specked, in the round
    motif specks in rye, flour
    needle 3.5 mm
    washed 42 sts and 55 rows in 10 cm
{more}
piece tube, in the round
    cast on 20 sts in specked
    work in specks on specked, whole repeats
    work 100 rows
    bind off
"""
)


def test_loop_a_thousand_stitches_of_a_centimetre_are_ten_metres_and_ten_grams():
    spec, plan = compiled(STRIP.format(more="", make=""))
    assert loop_length(spec.swatches["plain"]) == 1
    (need,) = yarn_needed(spec, plan).of("rye")
    assert need.by_loop == 10
    assert need.by_weight is None
    # Cast-on 3 * 20/4.2 + 25.4 cm, bind-off 3 * 20/4.2 + 15 cm: 68.97 cm, 0.69 g.
    assert need.finish == Fraction(6 * 20 * 10, 42 * 100) + Fraction("0.404")
    # A swatch of 15 cm: 63 sts, 82.5 rows, so 83: 52.29 g. (10 + 0.69) * 1.1 + 52.29 = 64.05, up to 65 g; 70 m.
    assert need.swatches == Fraction("52.29")
    assert (need.grams, need.metres) == (65, 70)


def test_pieces_made_twice_take_twice():
    spec, plan = compiled(STRIP.format(more="", make=", make 2"))
    assert yarn_needed(spec, plan).of("rye")[0].by_loop == 20


def test_a_test_knit_is_held_against_the_estimate_that_comes_nearest():
    # 1000 sts by the loop 10 g, at 6 g for 500 of them 12 g; with 0.69 g of ends 10.69 and 12.69 g.
    text = STRIP.format(more="    weight 6 g of 10 sts, 50 rows", make="")
    for grams, estimate, apart in ((5, 11, 53), (20, 13, 37)):  # 5 / 10.69 is 47 %, 12.69 / 20 is 63 %
        found = [one for one in check(*compiled(f"{text}    knitted {grams} g in one\n")) if one.code == "W614"]
        assert len(found) == 1
        assert f"about {estimate} g as estimated in size one ({apart} % apart)" in found[0].message


def test_weight_a_thousand_stitches_at_the_swatch_s_grams_a_stitch():
    # 6 g of 10 x 50 sts: 1000 sts weigh 12 g.
    spec, plan = compiled(STRIP.format(more="    weight 6 g of 10 sts, 50 rows", make=""))
    (need,) = yarn_needed(spec, plan).of("rye")
    assert (need.by_weight, need.by_loop) == (12, 10)
    assert need.grams == 20  # (12 + 0.69) * 1.1 + 6 of the swatch = 19.96
    # 500 sts by the loop: 5 m, 5 g.
    assert loop_grams(spec, spec.swatches["plain"]) == 5


def test_strands_held_together_take_their_number():
    spec, plan = compiled(
        STRIP.format(more="", make="").replace("    colour #8a5a2b", "    colour #8a5a2b\n    strands 2")
    )
    assert yarn_needed(spec, plan).of("rye")[0].by_loop == 20


def test_colours_by_their_cells_and_the_strands_that_wait():
    spec, plan = compiled(SPECKS.format(more=""))
    counts = stitch_counts(spec, plan, 0)
    assert counts == {Patch("specked", "specks", 0, ""): 1000, Patch("specked", "specks", 1, ""): 1000}
    # rye knits 750 + 1000 sts of 1 cm and passes 250 sts of 10/42 cm; flour knits 250 and passes 750.
    width = Fraction(10, 42)
    needed = yarn_needed(spec, plan)
    assert needed.of("rye")[0].by_loop == (1750 + 250 * width) / 100
    assert needed.of("flour")[0].by_loop == (250 + 750 * width) / 100


def test_weighed_grams_are_shared_wholly_in_the_ratio_of_the_lengths():
    # 10 g of 500 sts: 2000 sts weigh 40 g.
    spec, plan = compiled(SPECKS.format(more="    weight 10 g of 10 sts, 50 rows"))
    needed = yarn_needed(spec, plan)
    rye, flour = needed.of("rye")[0], needed.of("flour")[0]
    assert rye.by_weight + flour.by_weight == 40
    assert rye.by_weight / flour.by_weight == rye.by_loop / flour.by_loop


def test_put_ups_on_hand_and_cost():
    text = STRIP.format(more="    weight 200 g of 10 sts, 50 rows", make="").replace(
        "    colour #8a5a2b", "    colour #8a5a2b\n    put-up 100 g cone, 11.50 EUR\n    on-hand 1 cones"
    )
    (need,) = yarn_needed(*compiled(text)).of("rye")
    # 400 g knitted, 0.69 g of ends; * 1.1, and 200 g of the swatch: 640.8, up to 645 g; 100 g are on hand.
    assert (need.grams, need.to_buy) == (645, 545)
    (cones,) = need.put_ups
    assert (cones.needed, cones.to_buy, cones.cost, cones.cost_to_buy) == (7, 6, Fraction("80.50"), Fraction(69))


def test_a_pom_pom_takes_its_cube_over_thirty():
    spec, plan = example("sluice-hat.wale")
    assert [need.pom_pom for need in yarn_needed(spec, plan).of("flour")] == [Fraction(512, 30)] * 3
    assert {need.pom_pom for need in yarn_needed(spec, plan).of("rye")} == {0}


def test_a_tassel_takes_a_quarter_of_a_gram_for_each_centimetre():
    text = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
    spec, plan = compiled(text.replace("pom-pom 8 cm", "tassel 10 cm"))
    assert [need.pom_pom for need in yarn_needed(spec, plan).of("flour")] == [Fraction(10, 4)] * 3


@pytest.mark.parametrize("name", ["millrace-pullover.wale", "sluice-hat.wale", "first-cowl.wale"])
def test_stitches_equal_the_expanded_rows(name):
    spec, plan = example(name)
    for size in range(len(plan.sizes)):
        total = sum(band.stitches[size] * band.rows[size] for band in plan.bands)
        for piece in plan.pieces:
            stitches = sum(row.stitches for row in piece_rows(Context(spec, plan, piece, size)))
            if piece.top is not None:
                # At each of a shoulder's turns all groups left so far wait for two rows, on two shoulders.
                groups = piece.top.groups[size][:-1]
                waiting = sum(sum(groups[: turn + 1]) for turn in range(len(groups)))
                stitches -= 4 * waiting
            total += stitches * piece.make
        assert sum(stitch_counts(spec, plan, size).values()) == total


def test_rows_of_a_neck_by_hand():
    """Each row holds both sides; the widest row is never passed and the last ones are the shoulders' alone."""
    spec, plan = example("millrace-pullover.wale")
    front = plan.piece("front")
    at = Context(spec, plan, front, 0)
    rows = row_stitches(at, front.sections[-1])
    assert len(rows) == front.sections[-1].rows[0] + 1
    assert max(rows) == front.levels[-1].counts[0]
    assert rows[-1] == front.top.shoulder[0]


def test_both_ways_agree_on_the_pullover_within_a_fifth():
    spec, plan = example("millrace-pullover.wale")
    for needs in yarn_needed(spec, plan).yarns:
        for need in needs:
            assert abs(need.by_weight - need.by_loop) <= max(need.by_weight, need.by_loop) / 5


def test_larger_sizes_never_take_less():
    spec, plan = example("millrace-pullover.wale")
    for needs in yarn_needed(spec, plan).yarns:
        grams = [need.grams for need in needs]
        assert grams == sorted(grams)


def test_the_table_has_a_column_for_each_printed_size():
    spec, plan = example("millrace-pullover.wale")
    table, lots, words = yarn_parts(spec, plan, (1, 3))
    assert "one dye lot" in lots.text and "alternate them every two rows" in lots.text
    assert table.header == ("", "S", "L")
    assert all(len(row) == 3 for row in table.rows)
    assert "common practice" in words.text
