"""What holds a ring back, and what would let it pass: hand-computed."""

from fractions import Fraction

from specs import YARNS, compiled

from wale.checks import check
from wale.checks.rings import rings

# 3 sts per cm; the fabric gives a half, its edge a fifth.
TUBE = (
    """wale 1
pattern "Tube"
"""
    + YARNS
    + """
motif dots
    repeat 2 sts, 2 rows
    key    |-| rye, |x| flour
    | - x |
    | x - |
swatch plain, {worked}
    fabric stockinette in rye
    needle 5 mm
    washed 30 sts and 39 rows in 10 cm
    stretch 30 sts = 15 cm{edge}
sizes {sizes}
    measure head {heads} cm
piece hat, {worked}
{lines}
{join}
"""
)
EVEN = "    cast on 150 sts in plain\n    work 40 rows\n    bind off"


def tube(lines=EVEN, edge=", edge 30 sts = 12 cm", sizes="one", heads="58", worked="in the round", join=""):
    return compiled(TUBE.format(lines=lines, edge=edge, sizes=sizes, heads=heads, worked=worked, join=join))


def told(spec, plan, code):
    return next(one for one in check(spec, plan) if one.code == code)


def test_an_edge_that_gives_less_holds_its_ring_back():
    (ring,) = rings(*tube())
    assert (ring.girth_cm, ring.give, ring.limit, ring.pulled_cm) == (50, Fraction(1, 5), "its edge", 60)
    (ring,) = rings(*tube(edge=""))
    assert (ring.give, ring.limit) == (Fraction(1, 2), "the fabric")
    (ring,) = rings(*tube(edge=", edge 30 sts = 16 cm"))
    assert (ring.give, ring.limit) == (Fraction(1, 2), "the fabric")


def test_rings_between_the_edges_give_like_the_fabric():
    lines = "    edge 1 st each side\n    cast on 152 sts in plain\n    shape to 132 sts over 40 rows\n    work 10 rows"
    found = rings(*tube(lines, worked="worked flat", join="join\n    seam sides"))
    assert [(ring.girth_cm, ring.give) for ring in found] == [(50, Fraction(1, 5)), (Fraction(130, 3), Fraction(1, 2))]


def test_a_provisional_cast_on_does_not_hold_back():
    (ring,) = rings(*tube("    cast on 150 sts in plain, provisional\n    work 40 rows"))
    assert ring.give == Fraction(1, 2)


def test_strands_that_the_swatch_does_not_show_are_not_known():
    lines = "    cast on 150 sts in plain\n    rib 4 rows, 1x1\n    work in dots on plain\n    work 40 rows"
    spec, plan = tube(lines)
    verdicts = {ring.ring: (ring.give, ring.verdict) for ring in rings(spec, plan)}
    assert (None, "not known") in verdicts.values()
    assert "was not knitted in dots" in told(spec, plan, "N607").message


def test_how_much_is_missing_and_whose_ring_would_do():
    """50 cm pull to 60; a head of 66 cm needs 66 / 1.2 = 55 cm at rest, or 66 / 50 - 1 = 32 % at 50 cm."""
    lines = "    cast on 150 sts in plain\n    work 40 rows\n    bind off"
    spec, plan = tube(lines, heads="66")
    (ring,) = rings(spec, plan)
    assert (ring.verdict, ring.needed_cm, ring.missing_cm) == ("too tight", 55, 5)
    assert ring.needed_give == Fraction(32, 100)
    help = told(spec, plan, "W606").help
    assert "55 cm (5 cm more)" in help and "a give of one 32 %" in help and "give of its edge (20 %)" in help


def test_the_size_whose_ring_would_pass_is_named():
    """Small: 40 cm pull to 48, too tight for 50; large: 46 2/3 cm pull to 56, wide enough for 50, and for 55."""
    lines = "    cast on 120 (140) sts in plain\n    work 40 rows\n    bind off"
    spec, plan = tube(lines, sizes="small large", heads="50 (55)")
    assert [ring.verdict for ring in rings(spec, plan)] == ["too tight", "goes on"]
    assert "For small the ring of size large would do." in told(spec, plan, "W606").help


def test_a_flat_piece_seamed_to_itself_is_a_ring():
    lines = "    edge 1 st each side\n    cast on 152 sts in plain\n    work 40 rows\n    bind off"
    (ring,) = rings(*tube(lines, worked="worked flat", join="join\n    seam sides"))
    assert (ring.piece, ring.girth_cm, ring.part) == ("hat", 50, "head")
    assert rings(*tube(lines, worked="worked flat")) == ()


BODY = (
    """wale 1
pattern "Vest"
"""
    + YARNS
    + """
swatch plain, worked flat
    fabric stockinette in rye
    needle 5 mm
    washed 30 sts and 39 rows in 10 cm
{stretch}
body mine
    measure hip 100 cm
    measure bust 80 cm
    measure shoulder-girth 90 cm
    ease hip {ease} cm, bust 10 cm
piece panel, worked flat, make 2
    cast on hip/2 in plain
    work 40 rows
    bind off
join
    seam sides
"""
)


def hips(ease, stretch="    stretch 30 sts = 12 cm"):
    found = rings(*compiled(BODY.format(ease=ease, stretch=stretch)))
    return next(ring for ring in found if ring.ring == "hip at rest")


def test_the_hip_fits_at_rest_whether_or_not_the_swatch_was_pulled():
    for stretch in ("    stretch 30 sts = 12 cm", ""):
        ring = hips(6, stretch)
        # 53 cm are 159 sts, and twice that is 106 cm.
        assert (ring.girth_cm, ring.part_cm, ring.verdict, ring.give) == (106, 100, "goes on", 0)


def test_a_hip_narrower_than_the_body_depends_on_the_give():
    ring = hips(-10)
    assert (ring.girth_cm, ring.give, ring.verdict) == (90, Fraction(1, 5), "goes on")  # 90 * 1.2 = 108
    ring = hips(-22)
    assert (ring.girth_cm, ring.verdict) == (78, "too tight")  # 78 * 1.2 = 93.6
    assert hips(-10, "").verdict == "not known"


def test_a_swatch_never_washed_keeps_its_gauge_and_says_so():
    from wale.write.materials import gauge_parts

    spec, plan = compiled(
        TUBE.format(lines=EVEN, edge="", sizes="one", heads="58", worked="in the round", join="").replace(
            "washed", "counted"
        )
    )
    assert not spec.swatches["plain"].is_washed
    assert spec.swatches["plain"].washed.stitches == 3
    assert "never washed" in told(spec, plan, "W611").message
    assert "off the needle, never washed" in gauge_parts(spec, plan)[0].items[0].text
