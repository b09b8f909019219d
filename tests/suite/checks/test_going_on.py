"""The printed tables of rings and floats say what the checks found."""

from dataclasses import replace
from fractions import Fraction

from specs import example

from wale.write.going_on import float_list, ring_table


def test_the_hat_s_rings_against_the_heads():
    spec, plan = example("sluice-hat.wale")
    (table,) = ring_table(spec, plan, (0, 2))
    assert table.header == ("", "small", "large")
    # Facing, small: 134 sts at 28 sts in 10 cm are 47.86 cm; pulled, 28 sts are 14.5 cm: 69.4 cm, for a head of 52.
    facing = table.rows[0]
    assert plan.pieces[0].levels[0].counts[0] == 134
    assert facing[:2] == ("hat, facing of the hem over the head", "69.4 for 52.0: goes on")


def test_a_pullover_s_estimated_parts_are_named():
    spec, plan = example("millrace-pullover.wale")
    (table,) = ring_table(spec, plan, range(len(plan.sizes)))
    assert "Estimated from the bust" in table.note and "shoulder-girth" in table.note


def test_strands_are_listed_only_where_too_long():
    spec, plan = example("millrace-pullover.wale")
    assert float_list(spec, plan) == ()
    words, listed = float_list(replace(spec, float_limit=(Fraction(4), "stitches")), plan)
    assert "from either end" in words.text
    assert listed.items[0].text == "row 1: flour passes 5 sts from column 1 on, catch at st 2, 3 or 4."
