"""The printed tables of rings and floats say what the checks found."""

from fractions import Fraction

from msgspec.structs import replace
from specs import example

from wale.write.going_on import float_list, ring_table


def test_the_hat_s_rings_go_on_and_only_the_closest_has_figures():
    spec, plan = example("sluice-hat.wale")
    words, table = ring_table(spec, plan, (0, 2))
    assert words.text == (
        "These go on in all sizes, pulled as far as the swatch was: over the head: the facing of the hat's hem, the "
        "hat at the head."
    )
    assert table.header == ("", "small", "large")
    # Small: 144 sts at 40 sts in 13.8 cm are 49.68 cm; pulled, 40 sts are 17.6 cm: 63.4 cm, for a head of 52.
    # Large: 168 sts are 73.9 cm, for 60. The facing of 134 sts pulls further: 134 * 14.5 / 28 = 69.4 cm.
    assert table.rows == (("the hat at the head, over the head", "63.4 for 52.0", "73.9 for 60.0"),)
    assert table.note == ""


def test_a_ring_that_is_too_tight_has_its_figures_and_its_verdict():
    spec, plan = example("sluice-hat.wale")
    heads = [replace(size.measures["head"], value=Fraction(70)) for size in spec.sizes]
    sizes = tuple(
        replace(size, measures={**size.measures, "head": head}) for size, head in zip(spec.sizes, heads, strict=True)
    )
    *_, table = ring_table(replace(spec, sizes=sizes), plan, (0, 1, 2))
    # The facing pulls to 69.4, 75.1 and 80.8 cm, the body to 63.4, 68.6 and 73.9 cm.
    assert [row[1:] for row in table.rows] == [
        ("69.4 for 70.0: too tight", "75.1 for 70.0", "80.8 for 70.0"),
        ("63.4 for 70.0: too tight", "68.6 for 70.0: too tight", "73.9 for 70.0"),
    ]
    # Only large is printed: both pass, and no word of the others.
    words, large = ring_table(replace(spec, sizes=sizes), plan, (2,))
    assert words.text.startswith("These go on, pulled")
    assert large.rows[0][1:] == ("73.9 for 70.0",)


def test_estimated_parts_are_named_with_their_own_source():
    spec, plan = example("millrace-pullover.wale")
    *_, table = ring_table(spec, plan, range(len(plan.sizes)))
    girth, source = "shoulder-girth", spec.sizes[0].measures["shoulder-girth"].source
    assert f"{girth.replace('-', ' ')}: {source}" in table.note


def test_strands_are_listed_only_where_too_long():
    spec, plan = example("millrace-pullover.wale")
    assert float_list(spec, plan) == ()
    words, listed = float_list(replace(spec, float_limit=(Fraction(4), "stitches")), plan)
    assert "from either end" in words.text
    assert (
        listed.items[0].text == "row 1: flour passes 5 sts from column 1 on, catch at st 2, 3 or 4, best in column 3."
    )
