"""What is kept and what comes out, reckoned by hand: counts / gauge, and repeats x stitches."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from regrading import checked_source, counts, done
from strategies import lines, plain
from support import EXAMPLES

from wale.materials import Gauge
from wale.quantity import CM_PER_INCH
from wale.regrade.change import Asked
from wale.regrade.counted import as_they_are
from wale.regrade.fitting import fitted
from wale.regrade.keeping import Take, _wide, not_kept, other_repeats
from wale.regrade.outcome import Garment, Outcome, outcome
from wale.source import Span

HAT = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
TUBE = """wale 1

pattern "Tube"
    tolerance 6 cm

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif dot
    repeat 4 sts, 2 rows
    key |-| rye, |x| flour
    | - - - x |
    | - - - - |

motif spot
    repeat 6 sts, 2 rows
    key |-| rye, |x| flour
    | - - - - - x |
    | - - - - - - |

swatch dotted, in the round
    motif  dot in rye, flour
    needle 4 mm
    washed 20 sts and 24 rows in 10 cm  -- my first one
    weight 10 g of 30 sts, 30 rows

swatch spotted, in the round
    motif  spot in rye, flour
    needle 4 mm
    washed 25 sts and 30 rows in 10 cm

sizes small large
    measure bust 80 (96) cm
    ease    bust 0 cm

piece tube, in the round
    cast on bust in dotted
    work    in dot on dotted, whole repeats
    work    to 20 cm
    knitted 68 g in large
    bind off
"""
"""80 cm at 2 sts in a cm are 160 sts, 40 repeats; 96 cm are 192 sts, 48 repeats. 20 cm at 2.4 rows are 48 rows."""


def told(text: str, **asked: str) -> Outcome:
    """Give the outcome as the command has it."""
    found = done(text, **asked)
    before, after = (
        Garment(one.spec, one.plan) if one.spec and one.plan else None for one in (found.before, found.after)
    )
    assert before is not None
    return outcome(
        Asked(**asked),
        found.change,
        before,
        found.before.problems,
        after,
        found.after.problems,  # type: ignore[arg-type]
    )


def test_counts_divided_by_the_gauge():
    """160 and 192 sts at 2.5 sts in a cm are 64 and 76.8 cm; 48 rows at 3 rows in a cm are 16 cm."""
    found = told(TUBE, kind="gauge", words="25 sts, 30 rows in 10 cm", keep="counts")
    assert not found.refusals and found.after is not None
    (piece,) = found.after.plan.pieces
    assert [level.counts for level in piece.levels] == [(160, 192)]
    assert [piece.levels[0].width(size) for size in (0, 1)] == [64, Fraction(768, 10)]
    assert [(section.rows, section.position) for section in piece.sections] == [((48, 48), (16, 16))]


def test_whom_the_counts_fit():
    """64 cm with no ease fit a bust of 64 cm, nearest to 80; 76.8 cm are nearest to 80 as well, not to 96."""
    found = told(TUBE, kind="gauge", words="25 sts, 30 rows in 10 cm", keep="counts")
    assert [(one.size, one.body_cm, one.nearest, one.nearest_cm) for one in found.fits] == [
        ("small", 64, "small", 80),
        ("large", Fraction(768, 10), "small", 80),
    ]


def test_equally_near_sizes_give_the_smaller():
    """192 sts at 192 / 88 sts in a cm, which are 24 sts in 11 cm, are 88 cm: 8 from 80 and 8 from 96."""
    found = told(TUBE, kind="gauge", words="24 sts = 11 cm, 24 rows = 10 cm", keep="counts")
    assert [(one.body_cm, one.nearest) for one in found.fits][1] == (88, "small")


def test_the_repeats_of_another_motif():
    """40 repeats of 6 sts are 240 sts, 96 cm at 2.5 sts in a cm; 48 are 288 sts, 115.2 cm. 20 cm are 60 rows."""
    found = told(TUBE, kind="swatch", words="spotted", keep="motif")
    assert not found.refusals and found.after is not None
    (piece,) = found.after.plan.pieces
    assert [level.counts for level in piece.levels] == [(240, 288)]
    assert [piece.levels[0].width(size) for size in (0, 1)] == [96, Fraction(1152, 10)]
    assert piece.sections[0].rows == (60, 60)


def test_the_repeats_of_the_same_motif():
    """The same 160 and 192 sts; the 20 cm are kept, so they are 60 rows."""
    found = told(TUBE, kind="gauge", words="25 sts, 30 rows in 10 cm", keep="motif")
    assert not found.refusals and found.after is not None
    (piece,) = found.after.plan.pieces
    assert piece.levels[0].counts == (160, 192) and piece.sections[0].rows == (60, 60)


def test_lengths_are_kept_by_default():
    """80 cm are 200 sts, 50 repeats; 96 cm are 240 sts, 60 repeats; 20 cm are 60 rows."""
    found = told(TUBE, kind="gauge", words="25 sts, 30 rows in 10 cm")
    assert found.after is not None and found.fits == ()
    (piece,) = found.after.plan.pieces
    assert piece.levels[0].counts == (200, 240) and piece.sections[0].rows == (60, 60)


INCHES = (
    TUBE.replace("tolerance 6 cm", "units inch\n    tolerance 2 inch")
    .replace("80 (96) cm", "32 (40) inch")
    .replace("20 sts and 24 rows in 10 cm", "20 sts and 24 rows in 4 inch")
    .replace("25 sts and 30 rows in 10 cm", "24 sts and 32 rows in 4 inch")
    .replace("work    to 20 cm", "work    to 8 inch")
    .replace("bust 0 cm", "bust 0 inch")
)
"""32 inches at 5 sts in an inch are 160 sts, 40 repeats; 40 inches are 200 sts, 50 repeats."""


def test_a_spec_in_inches_is_given_inches():
    """40 repeats of 6 sts are 240, at 6 sts in an inch 40 inches, 8 more; 50 are 300 sts, 50 inches, 10 more.

    160 sts at 7 in an inch are 22.857 inches, 9.143 less than 32; 200 are 28.571, 11.429 less than 40.
    """
    found = done(INCHES, kind="swatch", words="spotted", keep="motif")
    assert "cast on bust + 8 (10) inches in spotted" in found.text and found.after.plan is not None
    assert found.after.plan.pieces[0].levels[0].counts == (240, 300)
    found = done(INCHES, kind="gauge", words="28 sts, 36 rows in 4 inch", keep="counts")
    assert "cast on bust - 9.143 (11.429) inches in dotted" in found.text and found.after.plan is not None
    assert found.after.plan.pieces[0].levels[0].counts == (160, 200)


def test_a_width_that_grows_and_shrinks_is_told_in_inches():
    """150 sts at 6 in an inch are 25 inches, 7 less than 32; 300 are 50, 10 more than 40. Nothing below 0 is added."""
    plan = checked_source(INCHES).plan
    assert plan is not None
    take = Take("dotted", Gauge(6 / CM_PER_INCH, 9 / CM_PER_INCH, Span("", 0, 0)), None)
    edit = _wide("inch", plan.pieces[0].levels[0], take, [Fraction(150), Fraction(300)])
    assert edit is not None and edit.text == " - 7 inches + 0 (17) inches"


def test_the_ease_of_one_body_alone_is_written_in_inches():
    text = (
        INCHES.replace("\npiece tube", "\nbody mine\n    measure bust 36 inch\n\npiece tube")
        .replace("bust 0 inch", "bust 2.5 inch")
        .replace("    knitted 68 g in large\n", "")
    )
    assert "ease bust 2.5 inches\n" in done(text, kind="body", words="mine").text


def test_counts_that_no_spec_can_hold_are_told_all_the_same():
    """At 28 sts and 32 rows the sleeve's top no longer fits the armhole. 161 sts less 2 in seams: 159 / 2.8 cm."""
    found = told(PULLOVER, kind="gauge", words="28 sts, 32 rows in 10 cm", keep="counts")
    assert [one.code for one in found.refusals] == ["E501"]
    assert found.after is not None and counts(found.after.plan) == counts(found.before.plan)
    back = found.after.plan.piece("back")
    assert back is not None
    bust = back.level("bust")
    assert bust is not None and bust.counts[2] == 161 and bust.width(2) == Fraction(159 * 10, 28)
    # both halves, less the ease of 14 cm
    assert found.fits[2].body_cm == 2 * Fraction(1590, 28) - 14
    # 8 rows of slope and all below them lie inside the piece's own rows, at 3.2 rows in a cm
    above = [section for section in back.sections if section.swatch == "easy"]
    assert back.sections[-1].position[2] == sum(section.rows[2] for section in above) / Fraction(32, 10)


def test_a_plan_that_keeps_the_counts_is_known_from_one_that_does_not():
    same = done(HAT, kind="gauge", words="28 sts, 32 rows in 10 cm", keep="counts")
    assert same.before.plan is not None and same.after.plan is not None and same.before.spec is not None
    assert not_kept(same.before.plan, same.after.plan, same.change.takes) is None
    other = done(PULLOVER, kind="gauge", words="28 sts, 32 rows in 10 cm")
    assert other.before.plan is not None and other.after.plan is not None and other.before.spec is not None
    for lost in (
        not_kept(other.before.plan, other.after.plan, other.change.takes),
        other_repeats(other.before.plan, other.after.plan, other.before.spec, other.change.takes),
    ):
        # 139 sts at the hip in XS become 133
        assert lost is not None and lost.code == "E314" and "back.hip: 133 sts in size XS, not 139" in lost.message


def test_a_stitch_that_is_lost_of_the_same_motif_is_told():
    """40 repeats of 4 sts are 160, so a plan of 161 has a stitch more than as many repeats."""
    found = done(TUBE, kind="gauge", words="25 sts, 30 rows in 10 cm", keep="motif")
    before, after, spec = found.before.plan, found.after.plan, found.before.spec
    assert before is not None and after is not None and spec is not None
    assert other_repeats(before, after, spec, found.change.takes) is None
    (piece,) = after.pieces
    level = replace(piece.levels[0], counts=(161, 192))
    moved = replace(after, pieces=(replace(piece, levels=(level,)),))
    lost = other_repeats(before, moved, spec, found.change.takes)
    assert lost is not None and lost.code == "E314" and "161 sts in size small, not 160" in lost.message


def test_a_half_may_lose_a_stitch_to_its_opening_which_stays_as_wide():
    """Half of 2.5 cm at 40 / 13.6 = 2.94 sts in a cm are 3.7 sts, at 3.3 4.1: a front loses one, the back none."""
    weir = (EXAMPLES / "weir-cardigan.wale").read_text("utf-8")
    found = told(weir, kind="gauge", words="33 sts, 37 rows in 10 cm", keep="motif")
    assert not found.refusals and found.after is not None
    before, after = (
        {level.address: level.counts for piece in plan.pieces for level in piece.levels}
        for plan in (found.before.plan, found.after.plan)
    )
    assert before["back.bust"] == after["back.bust"]
    lost = [one - two for one, two in zip(before["left-front.bust"], after["left-front.bust"], strict=True)]
    assert set(lost) == {1}


@settings(
    max_examples=30,
    deadline=None,
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(lines(), st.sampled_from(["easy", "plain", "plain-round"]), st.integers(18, 34), st.integers(24, 44))
def test_widths_and_lengths_are_counts_divided_by_the_gauge(spec, name, stitches, rows):
    text = plain(spec)
    assume(checked_source(text).plan is not None)
    found = done(text, kind="gauge", words=f"{stitches} sts, {rows} rows in 10 cm", of=name, keep="counts")
    plan = found.before.plan
    assert plan is not None and found.before.spec is not None
    _, after = as_they_are(found.before.spec, plan, found.change.takes)
    assert counts(after) == counts(plan)
    for old, new in zip(plan.pieces, after.pieces, strict=True):
        for before, level in zip(old.levels, new.levels, strict=True):
            gauge = Fraction(stitches, 10) if level.swatch == name else before.sts_per_cm
            assert level.width(0) == (before.counts[0] - before.taken) / gauge
        for section, again in zip(old.sections, new.sections, strict=True):
            gauge = Fraction(rows, 10) if section.swatch == name else section.rows_per_cm
            assert again.length(0) == section.rows[0] / gauge
    if found.after.plan is not None and not_kept(plan, found.after.plan, found.change.takes) is None:
        for old, new in zip(plan.pieces, found.after.plan.pieces, strict=True):
            # a facing or a rib below is counted to fit what the same line asks for above it
            assert new.levels[-1].swatch != name or new.levels[-1].counts == old.levels[-1].counts


def test_a_garment_without_a_measured_girth_fits_nobody_known():
    done_ = checked_source(TUBE.replace("cast on bust in", "cast on 80 cm in"))
    assert done_.spec is not None and done_.plan is not None and fitted(done_.spec, done_.plan) == ()
