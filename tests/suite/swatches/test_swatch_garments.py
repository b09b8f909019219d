"""What a swatch would do to the garment: held against the same change made by hand in the text of the spec."""

from __future__ import annotations

from fractions import Fraction

import pytest
from msgspec.structs import replace
from support import EXAMPLES, checked

from wale.swatching.compare import Comparison, compare
from wale.swatching.garment import Outcome
from wale.write.yarn_needed import yarn_needed

PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
HAT = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")


def compared(text: str, asked: tuple[str, ...] = ()) -> Comparison:
    done = checked(text)
    assert done.spec is not None, done.problems
    return compare(done.spec, done.plan, range(len(done.spec.sizes)), asked)


def of(found: Comparison, name: str) -> Outcome:
    return next(one for one in found.outcomes if one.swatch.name == name)


ASKED = ("plain", "facing", "firm", "broad")
MILLRACE = compared(PULLOVER, ASKED)
BY_HAND = {
    "easy": PULLOVER,
    "firm": PULLOVER.replace("grist on easy", "grist on firm"),
    "broad": PULLOVER.replace("grist on easy", "sheaf on broad"),
    "plain": PULLOVER.replace("in grist on easy, centred on the stitch, meets back at underarm", "in plain").replace(
        "in grist on easy, centred on the stitch", "in plain"
    ),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_it_is_the_garment_of_the_changed_file(name: str) -> None:
    done = checked(BY_HAND[name])
    assert done.spec is not None and done.plan is not None
    bust = done.plan.pieces[0].level("bust")
    assert bust is not None and bust.swatch == name
    mine = of(MILLRACE, name)
    assert [one.stitches for one in mine.sizes] == list(bust.counts)
    needs = yarn_needed(done.spec, done.plan).yarns
    for number, size in enumerate(mine.sizes):
        assert size.girth_cm == 2 * bust.width(number)
        assert size.off_cm == bust.deviation(number)
        assert size.grams == sum(each[number].grams or 0 for each in needs)


def test_the_swatches_that_could_be_the_main_fabric() -> None:
    assert MILLRACE.main.name == "easy"
    assert [one.swatch.name for one in MILLRACE.outcomes] == ["easy", "plain", "facing", "firm", "broad"]
    assert {name for name, _ in MILLRACE.left_out} == {"easy-round", "plain-round", "facing-round"}
    assert len(MILLRACE.facts) == 8


def test_plain_swatches_of_hems_and_cuffs_are_tried_only_where_asked_for() -> None:
    found = compared(PULLOVER)
    assert [one.swatch.name for one in found.outcomes] == ["easy", "firm", "broad"]
    assert dict(found.left_out)["facing"] == dict(found.left_out)["plain"] != ""


def test_repeats_and_their_size_by_hand() -> None:
    """`broad`: 40 sts = 14.2 cm, so 16 sts are 5.68 cm; 40 rows = 12.6 cm, so 20 rows are 6.3 cm."""
    broad = of(MILLRACE, "broad")
    assert broad.motif_cm == (Fraction("5.68"), Fraction("6.3"))
    for size in broad.sizes:
        assert size.repeats == Fraction(size.stitches - 2, 16)
        assert size.around == Fraction(2 * (size.stitches - 2), 16)
    assert of(MILLRACE, "plain").motif_cm is None


def test_cost_is_that_of_whole_cones() -> None:
    """All put-ups are cones of 100 g at 11.50 EUR."""
    for outcome in MILLRACE.outcomes:
        for size in outcome.sizes:
            assert size.costs is not None and size.grams is not None
            ((currency, cost),) = size.costs
            cones = cost / Fraction("11.50")
            assert currency == "EUR" and cones.denominator == 1
            assert size.grams / 100 <= cones <= size.grams / 100 + 2  # two yarns, each rounded up


def test_of_several_put_ups_the_cheapest_count() -> None:
    """Balls of 50 g at 5 EUR beat cones of 100 g at 11.50 EUR."""
    done = checked(HAT)
    assert done.spec is not None
    dear = done.spec.yarns["rye"].put_ups[0]
    cheap = replace(dear, weight=Fraction(50), price=Fraction(5))
    yarns = {name: replace(yarn, put_ups=(dear, cheap)) for name, yarn in done.spec.yarns.items()}
    spec = replace(done.spec, yarns=yarns)
    assert done.plan is not None
    (first, *_) = compare(spec, done.plan, (0,)).outcomes
    grams = [needs[0].grams or 0 for needs in yarn_needed(spec, done.plan).yarns]
    assert first.sizes[0].costs == (("EUR", 5 * sum(-(-each // 50) for each in grams)),)
    bare = replace(spec, yarns={name: replace(yarn, put_ups=()) for name, yarn in yarns.items()})
    assert compare(bare, done.plan, (0,)).outcomes[0].sizes[0].costs is None


def test_a_miscount_is_the_swatch_s_share_of_the_girth() -> None:
    """`easy` was counted over 40 sts: 1/79 of every width."""
    for size in of(MILLRACE, "easy").sizes:
        assert size.miscount_cm == size.girth_cm / 79


def test_never_stretched_is_not_known() -> None:
    for size in of(MILLRACE, "broad").sizes:
        assert size.tightest["shoulders"].verdict == "not known"
        assert size.tightest["hip"].verdict == "goes on"  # a fit at rest


def test_what_cannot_be_planned_is_told_with_its_reason_and_stands_last() -> None:
    """Whole repeats within 0.3 cm: none of the motifs fits all sizes, plain fabric does."""
    text = PULLOVER.replace("on the stitch\n", "on the stitch, whole repeats at bust, tolerance 0.3 cm\n")
    found = compared(text, ASKED)
    refused = [one for one in found.outcomes if not one.compiles]
    assert [one.swatch.name for one in refused] == ["easy", "firm", "broad"]
    assert all(one.refusals[0].code == "E301" and one.sizes == () for one in refused)
    assert [place.outcome.compiles for place in found.ranking] == [True, True, False, False, False]


def test_an_axis_that_the_other_motif_lacks_is_left_out_and_said() -> None:
    text = PULLOVER + (
        "motif slope\n    repeat 3 sts, 3 rows\n    key    |-| rye, |x| flour\n"
        "    | - - x |\n    | - x - |\n    | x - - |\n"
        "swatch slant, worked flat\n    motif slope in rye, flour\n    needle 3.5 mm\n"
        "    washed 40 sts = 13.6 cm, 40 rows = 12.2 cm\n"
    )
    slant = of(compared(text), "slant")
    assert slant.compiles and "no mirror axis on the stitch" in slant.remarks[0]


def test_the_hat_in_the_round() -> None:
    found = compared(HAT, ("plain-round",))
    assert found.main.name == "easy-round"
    plain = of(found, "plain-round")
    by_hand = checked(HAT.replace("in grist on easy-round, whole repeats, tolerance 2.1 cm", "in plain-round"))
    assert by_hand.plan is not None
    assert [one.stitches for one in plain.sizes] == list(by_hand.plan.pieces[0].levels[-1].counts)
    assert set(plain.sizes[0].tightest) == {"head"}


STRIP = """wale 1
pattern "Cowl"
    use "mill-yarns.wale"
sizes one
    measure head 56 cm
piece cowl, in the round
    cast on 62 cm in plain-round
    work 20 cm
    bind off
"""


def test_without_a_work_in_line_the_cast_on_s_swatch_is_the_main_one() -> None:
    found = compared(STRIP)
    assert found.main.name == "plain-round"
    assert [one.swatch.name for one in found.outcomes] == ["plain-round", "facing-round"]
    # 62 cm at 28 sts in 10 cm are 173.6 sts.
    assert of(found, "facing-round").sizes[0].stitches == 174
    assert dict(found.left_out)["easy-round"].startswith("in a motif")
