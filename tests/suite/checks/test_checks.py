"""Colours, swatches, steps, joins, care and safety on small specs."""

import pytest
from specs import ROOT, YARNS, codes, compiled, example
from support import written

from wale.checks.care import care
from wale.checks.safety import young
from wale.colour import lightness

PLAIN = (
    """wale 1
pattern "Plain"
"""
    + YARNS
    + """
swatch plain, in the round
    fabric stockinette in rye
    needle 5 mm
    washed {gauge} in 10 cm
    stretch 20 sts = 12 cm
sizes {sizes}
    ease head -2 cm
{measure}
piece hat, in the round
    cast on head in plain
    work 40 rows
    bind off
{more}
"""
)


HOODED = """wale 1
pattern "Plain"
{yarns}
swatch flat, worked flat
    fabric stockinette in rye
    needle 5 mm
    washed 20 sts and 26 rows in 10 cm
swatch round, in the round
    fabric stockinette in rye
    needle 5 mm
    washed 20 sts and 26 rounds in 10 cm
sizes one
piece back, worked flat
    cast on 50 cm in flat
    work 50 cm
    neck 18 cm wide, 2 cm deep
    shoulders straight
piece front, as back
    neck 18 cm wide, 8 cm deep
join
    seam back shoulders with front shoulders, back stitch
band collar
    pick up along front neck, back neck in {swatch}
    {band}
"""


def plain(gauge="20 sts and 26 rows", sizes="one", measure="    measure head 56 cm", more=""):
    return PLAIN.format(gauge=gauge, sizes=sizes, measure=measure, more=more)


@pytest.mark.parametrize(
    ("gauge", "odd"),
    [
        ("20 sts and 22 rows", False),  # 1.1
        ("20 sts and 21 rows", True),  # 1.05
        ("20 sts and 34 rows", False),  # 1.7
        ("20 sts and 35 rows", True),  # 1.75
    ],
)
def test_rows_to_a_stitch_of_stockinette_lie_between_1_1_and_1_7(gauge, odd):
    assert ("W604" in codes(plain(gauge))) == odd


@pytest.mark.parametrize(
    ("band", "swatch", "warned"),
    [
        ("rib 2 cm, 1x1", "round", False),
        ("rib 2 cm, 1x1", "flat", True),
        ("moss 5 cm, open in front", "flat", False),
        ("moss 5 cm, open in front", "round", True),
        ("hood 60 cm wide, 30 cm deep", "round", True),
    ],
)
def test_a_band_asks_for_a_swatch_worked_as_it_is(band, swatch, warned):
    """A closed neckband is worked in the round; one that is open in front and a hood are worked flat."""
    text = HOODED.format(yarns=YARNS, band=band, swatch=swatch)
    done = written(text)
    assert done.pattern is not None
    assert ("W261" in codes(text)) == warned


def test_lightness_of_greys_by_the_formula():
    # Published: L* = 116 Y^(1/3) - 16. Y of #777777 is ((0.46667 + 0.055) / 1.055)^2.4 = 0.18447, its root 0.56925.
    assert lightness("#777777") == pytest.approx(50.03, abs=0.01)
    assert (lightness("#000000"), lightness("#ffffff")) == (0, pytest.approx(100))


@pytest.mark.parametrize(
    ("sizes", "measure", "users"),
    [
        ("women S", "", ""),
        ("babies 6-months", "", "babies"),
        ("children 4", "", "children"),
        ("one", "    measure head 56 cm", ""),
        ("one", "    measure head 48 cm", "children"),
    ],
)
def test_who_wears_it(sizes, measure, users):
    spec, _ = compiled(plain(sizes=sizes, measure=measure))
    assert young(spec) == users
    assert ("C705" in codes(plain(sizes=sizes, measure=measure))) == bool(users)


def test_an_adult_s_pom_pom_is_no_caution_and_a_child_s_is():
    pom_pom = "    pom-pom 6 cm in rye"
    assert "C701" not in codes(plain(more=pom_pom))
    assert "C701" in codes(plain(measure="    measure head 48 cm", more=pom_pom))


def test_a_tassel_is_a_caution_for_the_young_alone():
    tassel = "    tassel 8 cm in rye"
    assert "C701" not in codes(plain(more=tassel))
    done = written(plain(measure="    measure head 48 cm", more=tassel))
    assert done.proof is not None
    (found,) = [one for one in done.problems if one.code == "C701"]
    assert [one.text for one in found.labels] == ["this tassel"]
    assert "a tassel on a garment for children" in found.message


def test_each_caution_names_its_scope_and_defers():
    from wale.checks import check

    text = plain(sizes="babies 6-months", measure="", more='    note "Tie a ribbon on."\n    pom-pom 6 cm in rye')
    cautions = [one for one in check(*compiled(text)) if one.severity == "caution"]
    assert {one.code for one in cautions} >= {"C701", "C703", "C705"}
    for one in cautions:
        assert "code in force" in one.help and "qualified person" in one.help


def test_a_knitted_cord_is_a_caution_for_the_young_alone():
    cord = "\n\npiece tie, in the round, make 2\n    cast on 4 sts in plain\n    cord    over 20 cm\n"
    for head, is_told in (("48 cm", True), ("56 cm", False)):
        text = plain(measure=f"    measure head {head}") + cord
        done = written(text)
        assert done.proof is not None
        found = [one for one in done.problems if one.code == "C703"]
        assert bool(found) == is_told
        for one in found:
            assert text[one.labels[0].span.start :].startswith("cord    over 20 cm")


def test_a_word_inside_another_is_no_small_part():
    assert "C703" not in codes(plain(measure="    measure head 48 cm", more='    note "Record the rows."'))


@pytest.mark.parametrize(
    ("fibre", "washed", "ironed"),
    [
        ("wool", "Hand wash", "cool"),
        ("cotton", "30 °C on a gentle cycle", "150"),
        ("acrylic", "slow spin", "Do not iron"),
        ("cotton wool", "Hand wash", "cool"),
    ],
)
def test_the_mildest_care_governs(fibre, washed, ironed):
    first = fibre.split()[0]
    text = plain().replace("count  100 m per 100 g", f"count  2/8 Nm {first}", 1)
    spec, _ = compiled(text)
    from msgspec.structs import replace

    yarns = {**spec.yarns, "rye": replace(spec.yarns["rye"], fibre=fibre, count="")}
    lines = care(replace(spec, yarns=yarns))
    assert washed in lines[0]
    assert any(ironed in line for line in lines)
    assert not any("No fibre" in line for line in lines)


def test_an_unknown_fibre_is_cared_for_like_wool_and_said_so():
    spec, _ = compiled(plain())
    lines = care(spec)
    assert "Hand wash" in lines[0] and any("No fibre is given for rye" in line for line in lines)


def test_the_hat_s_pom_pom_comes_off_for_washing():
    assert any("pom-pom off" in line for line in care(example("sluice-hat.wale")[0]))


def test_the_longest_strand_of_a_childs_hat_lies_where_its_wedges_meet():
    """One stitch in six passes 5 sts, where round 1 of the crown joins one away 10: at 28 sts in 10 cm 3.6 cm."""
    from wale.checks import check

    page = (ROOT / "docs/problems/N620.md").read_text("utf-8").split("```wale\n")[1].split("```")[0]
    found = check(*compiled(page.replace("head 52 cm", "head 48 cm")))
    (caution,) = [one for one in found if one.code == "C702"]
    assert caution.message.endswith("the longest passes 3.6 cm")
