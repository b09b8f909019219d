"""Fibre and skin, superwash, mixed fibres, yarns that shed; the likely cause where weight and loop disagree."""

from fractions import Fraction

import pytest
from specs import compiled

from wale.checks import check
from wale.checks.care import care

HAT = """wale 1
pattern "Hat"
yarn rye
    count {count}
    strands {strands}
{fibre}    colour #8a5a2b
swatch plain, in the round
    {made} in rye
    needle 3.25 mm
    washed 27 sts and 37 rows in 10 cm
    stretch 27 sts = 14.5 cm
{weight}
sizes {sizes}
    ease head -1 cm
piece hat, in the round
    cast on head in plain
    work 12 cm
    crown 6 wedges over 8 cm, plain in rye
"""


def hat(count="2/8 Nm", fibre="", strands=1, weight="", sizes="babies 6-months 12-months", made="fabric stockinette"):
    fibre = f"    fibre {fibre}\n" if fibre else ""
    weight = f"    weight {weight}" if weight else ""
    return compiled(HAT.format(count=count, fibre=fibre, strands=strands, weight=weight, sizes=sizes, made=made))


def codes(*args, **kwargs):
    return [one.code for one in check(*hat(*args, **kwargs)) if one.code in ("C704", "C706")]


@pytest.mark.parametrize(
    ("count", "fibre", "expected"),
    [
        ("2/8 Nm wool", "", ["C704"]),
        ("2/8 Nm mohair", "", ["C704", "C706"]),
        ("2/8 Nm", "70 percent acrylic, 30 percent mohair", ["C704", "C706"]),
        ("2/8 Nm brushed acrylic", "", ["C706"]),
        ("2/8 Nm cotton", "", []),
    ],
)
def test_what_a_baby_wears(count, fibre, expected):
    assert codes(count, fibre) == expected


def test_each_caution_names_its_rule_scope_and_the_local_code():
    for one in check(*hat("2/8 Nm mohair")):
        if one.code == "C704":
            assert "Wool Textile Organisation" in one.help and "next to the skin" in one.help
        if one.code == "C706":
            assert "16 CFR 1501" in one.help and "no standard covers" in one.help
        if one.code in ("C704", "C706"):
            assert "code in force" in one.help


def lines(count, fibre=""):
    return " ".join(care(hat(count, fibre, sizes="women S M")[0]))


def test_superwash_grows():
    assert "grows when wet" in lines("2/8 Nm superwash wool")
    assert "grows when wet" in lines("2/8 Nm", "80 percent superwash merino, 20 percent nylon")
    assert "grows when wet" not in lines("2/8 Nm wool")


def test_the_mildest_care_of_mixed_fibres_governs():
    mixed = lines("2/8 Nm", "60 percent cotton, 30 percent wool, 10 percent nylon")
    assert "Hand wash" in mixed and "Do not iron" in mixed  # wool asks for the hand wash, nylon for no iron
    assert "Mixed fibres (animal fibre with plant fibre with man-made fibre)" in mixed
    assert "Mixed fibres" not in lines("2/8 Nm wool")


def test_coarse_wool_may_prickle():
    assert "prickle" in lines("2/8 Nm wool") and "22 micrometres" in lines("2/8 Nm wool")
    assert "prickle" not in lines("2/8 Nm merino") and "prickle" not in lines("2/8 Nm cotton")


# 2.7 by 3.7 sts in a square cm: sqrt(23.1 / 9.99) = 1.5206 cm a stitch, 2000 sts are 30.4 m; Nm 4 weighs 7.6 g.
ONE = 7.6


@pytest.mark.parametrize(
    ("count", "strands", "grams", "stitches", "cause"),
    [
        ("2/8 Nm", 1, 2 * ONE, "40 sts, 50 rows", "as if 2 strands together"),
        ("2/8 Nm", 2, ONE, "40 sts, 50 rows", "as if one strand"),
        ("4/9 Nm", 1, 5 * ONE * 4 / 2.25, "40 sts, 50 rows", "were 9 strands of 4"),  # 81/16 = 5.06
        ("3/24 Nm", 1, 0.33 * ONE / 2, "40 sts, 50 rows", "a single yarn of number 24"),
        ("2/8 Nm", 1, 0.7 * ONE, "40 sts, 50 rows", "below 8 g is hard to weigh"),
        ("2/8 Nm", 1, 7 * ONE, "80 sts, 125 rows", "weighs more than its stitches"),
        ("2/8 Nm", 1, 3.4 * ONE, "80 sts, 125 rows", "weighs less than its stitches"),
    ],
)
def test_the_likely_cause_of_a_disagreement(count, strands, grams, stitches, cause):
    found = [one for one in check(*hat(count, strands=strands, weight=f"{grams:.1f} g of {stitches}"))]
    (problem,) = [one for one in found if one.code == "W610"]
    assert cause in problem.help


def test_within_a_fifth_nothing_is_said():
    for factor in (Fraction(85, 100), Fraction(115, 100)):
        found = check(*hat(weight=f"{float(factor) * 5 * ONE:.1f} g of 80 sts, 125 rows"))
        assert "W610" not in [one.code for one in found]
