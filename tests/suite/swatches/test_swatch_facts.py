"""What a swatch tells by itself, by hand: shape, wash, weight, loop, give, strands, and what it does not tell."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from support import checked

from wale.materials import Gauge
from wale.swatching.facts import Facts, facts, miscount

SPEC = """wale 1
pattern "Bench"
yarn rye
    count  225 m per 100 g
    colour #8a5a2b
yarn flour
    count  225 m per 100 g
    colour #efe6d2
yarn mist
    count  7 wpi
    colour #aabbcc
motif lone
    repeat 12 sts, 2 rows
    key    |-| rye, |x| flour
    | - - - - - x - - - - - - |
    | x - x - x - x - x - x - |
swatch tried, worked flat
{lines}
sizes one
    measure head 56 cm
piece strip, worked flat
    cast on 40 sts in tried
    work    40 rows
    bind off
"""
PLAIN = """    fabric stockinette in rye
    needle 4 mm
    washed 22 sts and 30 rows in 10 cm
"""


def tried(lines: str) -> Facts:
    done = checked(SPEC.format(lines=lines))
    assert done.spec is not None, done.problems
    return facts(done.spec, done.spec.swatches["tried"])


def test_the_loop_of_hand_knit_stockinette() -> None:
    """22 sts and 30 rows in 10 cm of 225 m per 100 g: l = 4.2/2.2 and 5.5/3, K = 11.3, 548 g/m2 (trade figures)."""
    found = tried(PLAIN)
    assert found.ratio == Fraction(30, 22)
    assert found.is_plausible
    assert found.by_width == Fraction(42, 22) and found.by_height == Fraction(55, 30)
    assert found.tightness is not None and found.reckoned is not None
    assert abs(float(found.tightness) - 11.3) < 0.05
    assert abs(float(found.reckoned) - 548) < 1
    assert found.weighed is None and found.give is None and found.change is None


def test_a_weighed_square_metre() -> None:
    """A piece of 22 sts and 30 rows is a square of 10 cm; at 5 g a hundred of them weigh 500 g."""
    assert tried(PLAIN + "    weight 5 g of 22 sts, 30 rows\n").weighed == 500


def test_what_the_wash_did() -> None:
    """20 cm of 40 sts became 21 cm: 5 % more; 20 cm of 60 rows became 19 cm: 5 % less."""
    lines = """    fabric stockinette in rye
    needle 4 mm
    counted 40 sts = 20 cm, 60 rows = 20 cm
    washed 40 sts = 21 cm, 60 rows = 19 cm
"""
    assert tried(lines).change == (Fraction(5, 100), Fraction(-5, 100))


def test_strands_add_a_stitch_width_for_each_stitch_passed() -> None:
    """Row 1 half and half, row 2 one of twelve: over both each stitch is passed by one strand; l + w cm a stitch."""
    lines = """    motif lone in rye, flour
    needle 4 mm
    washed 25 sts and 25 rows in 10 cm
"""
    found = tried(lines)
    in_stitch = sqrt(4.2 * 5.5 / 2.5 / 2.5) + 1 / 2.5
    assert found.reckoned is not None
    assert abs(float(found.reckoned) - in_stitch * 2.5 * 2.5 * 1e4 / 225) < 0.01
    longest = found.longest
    assert longest is not None
    # 2.5 cm at 2.5 sts a cm are 6.25, so 6 sts.
    assert (longest.yarn, longest.stitches, longest.cm, longest.limit) == ("flour", 11, Fraction(44, 10), 6)
    assert longest.rows == (2,)


def test_plain_fabric_has_no_strands() -> None:
    assert tried(PLAIN).longest is None


@pytest.mark.parametrize("stitches", [10, 27, 40])
def test_half_a_stitch_miscounted(stitches: int) -> None:
    """The swatch is 10 cm wide; counted half a stitch short, a garment cast on for 100 cm comes out so much wider."""
    true, counted = Fraction(stitches, 10), (stitches - Fraction(1, 2)) / 10
    cast_on = 100 * true  # what was planned with the full count
    wide = cast_on / counted
    gauge = Gauge(true, Fraction(3), None, (stitches, 30))  # type: ignore[arg-type]
    assert miscount(gauge) == wide / 100 - 1
    assert miscount(Gauge(true, Fraction(3), None)) is None  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (PLAIN, ["not measured before washing", "never stretched", "never weighed"]),
        (PLAIN.replace("washed", "counted"), ["never washed", "never stretched", "never weighed"]),
        (PLAIN.replace("22 sts and 30 rows in 10", "11 sts and 15 rows in 5"), ["11 sts only", "15 rows only"]),
        (PLAIN.replace("22 sts and 30 rows", "19 sts and 28 rows"), ["19 sts only"]),
        (PLAIN.replace("22 sts and 30 rows in 10", "24 sts and 33 rows in 9.9"), ["24 sts only", "33 rows only"]),
        (PLAIN.replace("in rye", "in mist"), ["no length of mist"]),
    ],
)
def test_what_is_not_known_is_named(lines: str, words: list[str]) -> None:
    unknown = tried(lines).unknown
    for word in words:
        assert any(word in one for one in unknown), unknown


def test_a_swatch_measured_in_every_way_leaves_nothing_unknown() -> None:
    lines = """    fabric stockinette in rye
    needle 4 mm
    counted 22 sts and 30 rows in 10 cm
    washed 22 sts and 30 rows in 10 cm
    weight 5 g of 22 sts, 30 rows
    stretch 22 sts = 13 cm, edge 22 sts = 12 cm
"""
    found = tried(lines)
    assert found.unknown == ()
    assert (found.give, found.edge_give) == (Fraction(3, 10), Fraction(2, 10))
    assert found.change == (0, 0)


def test_an_odd_shape_of_stitch_is_not_plausible() -> None:
    assert tried(PLAIN.replace("30 rows", "40 rows")).is_plausible is False
    assert tried(PLAIN.replace("stockinette", "garter")).is_plausible is None


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("washed 22 sts and 30 rows in 10 cm", "washed 2 sts and 30 rows in 10 cm"),
        ("washed 22 sts and 30 rows in 10 cm", "washed 22 sts and 2 rows in 10 cm"),
        ("in 10 cm", "in 10 cm\n    weight 1 g of 2 sts, 30 rows"),
        ("in 10 cm", "in 10 cm\n    weight 0 g of 22 sts, 30 rows"),
        ("in 10 cm", "in 10 cm\n    stretch 2 sts = 1 cm"),
        ("in 10 cm", "in 10 cm\n    stretch 22 sts = 13 cm, edge 22 sts = 9 cm"),
    ],
)
def test_nonsense_is_refused_at_its_place(old: str, new: str) -> None:
    """Two stitches measure nothing; no weight is none; nothing is narrower pulled than at rest."""
    text = SPEC.format(lines=PLAIN.replace(old, new))
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert found.code == "E222" and found.help
    assert found.labels[0].span.start > text.index("needle 4 mm")
