"""Will it go on: hand-computed rings and what is not known."""

from fractions import Fraction

from specs import YARNS, codes, compiled, example

from wale.checks.ring_shapes import neck_edge
from wale.checks.rings import rings

# 3 sts per cm. 150 sts are 50 cm; pulled by a fifth 60 cm.
HAT = (
    """wale 1
pattern "Hat"
"""
    + YARNS
    + """
swatch plain, in the round
    fabric stockinette in rye
    needle 5 mm
    washed 30 sts and 39 rows in 10 cm
{stretch}
sizes {sizes}
{measure}
piece {name}, in the round
    cast on 150 sts in plain
    work 40 rows
    bind off
"""
)
GIVES = "    stretch 30 sts = 12 cm"


def hat(stretch=GIVES, measure="    measure head 58 cm", sizes="one", name="hat"):
    return rings(*compiled(HAT.format(stretch=stretch, measure=measure, sizes=sizes, name=name)))


def test_a_ring_passes_when_its_pulled_girth_reaches_the_part():
    (ring,) = hat()
    assert (ring.girth_cm, ring.give, ring.part, ring.part_cm) == (50, Fraction(1, 5), "head", 58)
    assert ring.verdict == "goes on"
    (ring,) = hat(measure="    measure head 60 cm")
    assert ring.verdict == "goes on"  # 50 * 1.2 = 60, just


def test_a_ring_that_stays_below_is_too_tight_with_the_girth_that_would_do():
    (ring,) = hat(measure="    measure head 61.2 cm")
    assert ring.verdict == "too tight"
    assert ring.needed_cm == 51  # 61.2 / 1.2


def test_without_stretch_or_measure_it_is_not_known_however_wide():
    for found in (hat(stretch=""), hat(measure=""), hat(stretch="", measure="    measure head 20 cm")):
        assert [(ring.verdict, bool(ring.why)) for ring in found] == [("not known", True)]


def test_a_tube_that_names_nothing_is_not_known():
    (ring,) = hat(name="strip")
    assert (ring.part, ring.verdict) == ("", "not known")


def test_a_body_that_is_too_tight_for_the_bust_is_too_tight_though_the_shoulders_are_not_known():
    (ring,) = hat(name="vest", measure="    measure bust 70 cm")
    assert (ring.part, ring.verdict) == ("bust", "too tight")
    (ring,) = hat(name="vest", measure="    measure bust 55 cm")
    assert (ring.part, ring.part_cm, ring.verdict) == ("shoulder-girth", None, "not known")


def test_a_pullover_s_body_closes_from_back_and_front_and_passes_the_shoulders():
    spec, plan = example("millrace-pullover.wale")
    found = {(ring.piece, ring.ring): ring for ring in rings(spec, plan) if ring.size == "M"}
    bust = found["body", "bust"]
    size = plan.sizes.index("M")
    count = plan.piece("back").level("bust").counts[size]
    assert bust.girth_cm == 2 * (count - 2) * Fraction(136, 10) / 40
    assert bust.part == "shoulder-girth" and bust.estimated
    assert bust.part_cm == spec.sizes[size].measures["bust"].value * Fraction("1.09")
    assert {ring for piece, ring in found if piece == "sleeve"} >= {"rib at the cast-on"}
    assert found["sleeve", "rib at the cast-on"].part == "hand"
    assert found["neckband", "band"].part == "head"


def test_a_square_neck_s_edge_is_its_centre_and_its_straight_rows():
    spec, plan = example("millrace-pullover.wale")
    back = plan.piece("back")
    gauge = spec.swatches["easy"].washed
    for size in range(len(plan.sizes)):
        edge = neck_edge(spec, back, size)
        across = back.top.neck[size] / gauge.stitches
        down = back.top.neck_rows[size] / gauge.rows
        # Steps cut the corners: longer than the straight line over the centre, shorter than down, across and up.
        assert across < edge <= across + 2 * down


def test_the_problems_say_it():
    text = HAT.format(stretch=GIVES, measure="    measure head 62 cm", sizes="one", name="hat")
    assert "W606" in codes(text) and "N607" not in codes(text)
    text = HAT.format(stretch="", measure="    measure head 62 cm", sizes="one", name="hat")
    assert "N607" in codes(text) and "W606" not in codes(text)
