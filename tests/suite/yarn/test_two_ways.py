"""The two ways to reckon yarn: by hand on a small garment, on fabrics of published constants, with parts left out."""

from fractions import Fraction

import pytest
from mill_cloth import CLOTH
from specs import YARNS, compiled

from wale.write import finishing, stitch_counts, yarn_lengths, yarn_used
from wale.write.yarn_needed import yarn_of_size

WEIGHED = {"plain": "    weight 6 g of 10 sts, 50 rows", "specked": "    weight 10 g of 10 sts, 50 rows"}


def cloth():
    spec, plan = compiled(CLOTH.format(**WEIGHED))
    return {need.yarn: need for need in yarn_of_size(spec, plan, 0)}


# Two cloths of 42 sts: 11 rows of facing and the turning row plain, 44 rows of specks, 40 sts wide without edges.
PLAIN = 2 * 42 * 12  # 1008 sts
EDGES = 2 * 2 * 44  # 176 sts
SPECKS = 2 * 40 * 22  # 1760 sts of either row: 1 flour and 3 rye in 4, and rye alone
# A stitch is 1 cm; a strand that is carried takes 10/42 cm a stitch.
RYE_CM = EDGES + SPECKS * Fraction(3, 4) + SPECKS + SPECKS * Fraction(1, 4) * Fraction(10, 42)
FLOUR_CM = SPECKS * Fraction(1, 4) + SPECKS * Fraction(3, 4) * Fraction(10, 42)
# 12 g in 1000 sts of plain, 20 g in 1000 of specks; shared by the lengths.
SPECKED_G = (EDGES + 2 * SPECKS) * Fraction(20, 1000)
# Each cloth is 10 cm wide: cast-on 3 * 10 + 25.4 cm, hem sewn 3 * 10 + 30, bind-off 3 * 10 + 15. Two side seams of 8 cm
# (44 rows of 5.5 in a cm): 2 * (3 * 8 + 30).
FINISH_CM = 2 * (Fraction("55.4") + 60 + 45) + 108


def by_hand():
    return {
        "rye by loop": (PLAIN + RYE_CM) / 100,
        "flour by loop": FLOUR_CM / 100,
        "rye by weight": PLAIN * Fraction(12, 1000) + SPECKED_G * RYE_CM / (RYE_CM + FLOUR_CM),
        "flour by weight": SPECKED_G * FLOUR_CM / (RYE_CM + FLOUR_CM),
        "rye ends": FINISH_CM / 100,
    }


def reckoned():
    needs = cloth()
    return {
        "rye by loop": needs["rye"].by_loop,
        "flour by loop": needs["flour"].by_loop,
        "rye by weight": needs["rye"].by_weight,
        "flour by weight": needs["flour"].by_weight,
        "rye ends": needs["rye"].finish,
    }


def test_a_cloth_by_hand():
    assert reckoned() == by_hand()


def without_floats(patch):
    patch.setattr(yarn_lengths, "CARRIED", Fraction(0))
    patch.setattr(yarn_used, "CARRIED_MOST", Fraction(0))


def without_facings(patch):
    rows = stitch_counts.row_stitches
    patch.setattr(
        stitch_counts,
        "row_stitches",
        lambda at, section: [] if section.kind in ("facing", "turning") else rows(at, section),
    )


def without_seams(patch):
    patch.setattr(finishing, "_seam", lambda *_: [])


@pytest.mark.parametrize(
    ("mutation", "changed"),
    [
        (without_floats, {"rye by loop", "flour by loop", "rye by weight", "flour by weight"}),
        (without_facings, {"rye by loop", "rye by weight"}),
        (without_seams, {"rye ends"}),
    ],
)
def test_whatever_is_left_out_shows_in_both_ways(mutation, changed, monkeypatch):
    mutation(monkeypatch)
    found, expected = reckoned(), by_hand()
    assert {name for name in expected if found[name] != expected[name]} == changed


def test_ends_and_seams_are_in_what_the_garment_takes():
    need = cloth()["rye"]
    assert need.used.middle == max(need.by_weight, need.by_loop) + FINISH_CM / 100


def plain_tube(loop_cm, metres, swatch_g):
    """A tube of plain knitting in the gauge that kw 4.2 and kc 5.5 give for a loop: 42 sts = 10 loops, 55 rows too."""
    return f"""wale 1
pattern "Tube"
sizes one
yarn rye
    count {metres} m per 100 g
    colour #8a5a2b
swatch plain, in the round
    fabric stockinette in rye
    needle 3.25 mm
    washed 42 sts = {10 * loop_cm} cm, 55 rows = {10 * loop_cm} cm
    weight {swatch_g} g of 42 sts, 55 rows
piece tube, in the round
    cast on 120 sts in plain
    rib 4 cm, 2x2
    work 30 cm
    bind off
"""


@pytest.mark.parametrize("loop_mm", [9, 12, 15, 19, 24])
@pytest.mark.parametrize("tex", [200, 250, 400])
def test_plain_fabrics_of_published_constants_agree_within_a_tenth(loop_mm, tex):
    # The swatch is as many loops wide as high; g/m2 = sts/cm * rows/cm * loop in mm * tex / 100 (Texcoms 2023).
    loop = Fraction(loop_mm, 10)
    weight = Fraction(42, 10) / loop * Fraction(55, 10) / loop * loop_mm * tex / 100
    grams = weight * (10 * loop / 100) ** 2
    text = plain_tube(float(loop), 100_000 // tex, f"{float(grams):.1f}")
    (need,) = yarn_of_size(*compiled(text), 0)
    assert abs(need.by_weight - need.by_loop) <= max(need.by_weight, need.by_loop) / 10


STRANDED = (
    """wale 1
pattern "Stranded"
sizes one
"""
    + YARNS
    + """
motif ears
    repeat 4 sts, 3 rows
    key |-| rye, |x| flour
    | - x - x |
    | - - - x |
    | - - x x |
swatch eared, in the round
    motif ears in rye, flour
    needle 3.5 mm
    washed {sts} sts and {rows} rows in 10 cm
    weight {grams} g of 40 sts, 42 rows
piece tube, in the round
    cast on 120 sts in eared
    work in ears on eared, whole repeats
    work 30 cm
    bind off
"""
)


@pytest.mark.parametrize(("sts", "rows"), [(20, 24), (24, 27), (28, 32), (30, 33)])
@pytest.mark.parametrize("carried", ["1.0", "1.2"])
def test_stranded_fabrics_agree_within_a_fifth(sts, rows, carried):
    # A stitch takes kw widths of its own yarn and 1.0 to 1.2 of the other, which each row of two colours carries.
    metres = 40 * 42 * (Fraction(42, 10) + Fraction(carried)) * Fraction(10, sts) / 100
    text = STRANDED.format(sts=sts, rows=rows, grams=f"{float(metres):.1f}")
    for need in yarn_of_size(*compiled(text), 0):
        assert abs(need.by_weight - need.by_loop) <= max(need.by_weight, need.by_loop) / 5


def test_ranges_hold_both_ways_and_their_bounds():
    for need in cloth().values():
        whole = need.knitted.spread
        for way in (need.knitted.by_weight, need.knitted.by_loop):
            assert whole.low <= way.low < way.middle < way.high <= whole.high
    # By weight half a gram in 6 and in 10: 1008 sts of 12.096 g, and the rest.
    plain, specked = PLAIN * Fraction(12, 1000), SPECKED_G * RYE_CM / (RYE_CM + FLOUR_CM)
    assert cloth()["rye"].knitted.by_weight.low == plain * Fraction(11, 12) + specked * Fraction(19, 20)
    # By loop at most: 1.2 widths carried, and 3 % of take-up.
    most = PLAIN + RYE_CM + SPECKS * Fraction(1, 4) * Fraction(2, 42)
    assert cloth()["rye"].knitted.by_loop.high == most / 100 * Fraction(103, 100)


MADE = """
yarn dusk
    strands rye + rye + flour
    colour #9b7a5c
"""


def test_a_yarn_made_of_others_is_bought_as_those():
    text = plain_tube(1.0, 100, "10.0").replace("swatch plain", MADE + "\nswatch plain")
    text = text.replace("stockinette in rye", "stockinette in dusk") + (
        "\nyarn flour\n    count 200 m per 100 g\n    colour #efe6d2\n"
    )
    spec, plan = compiled(text)
    rye, flour = yarn_of_size(spec, plan, 0)
    assert (rye.yarn, flour.yarn) == ("rye", "flour")
    # Two strands of rye (a gram a metre each) weigh four times the one of flour.
    assert rye.by_loop == 4 * flour.by_loop and rye.by_weight == 4 * flour.by_weight
    stitches = sum(stitch_counts.stitch_counts(spec, plan, 0).values())
    assert rye.by_loop == 2 * stitches * yarn_lengths.loop_length(spec.swatches["plain"]) / 100
    assert rye.finish == 4 * flour.finish > 0
