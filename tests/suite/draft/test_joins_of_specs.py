"""Edges that meet agree: shoulders, side seams, sleeve and armhole, the motif at the underarm, the neckband."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
from support import EXAMPLES, checked, errors, planned

MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
PER_STITCH, PER_ROW = Fraction(136, 400), Fraction(122, 400)
SIZES = range(7)


@pytest.fixture(scope="module")
def plan():
    return planned(MILLRACE)


@pytest.fixture(scope="module")
def pieces(plan):
    return {piece.name: piece for piece in plan.pieces}


def test_the_front_shares_the_backs_counts(pieces) -> None:
    back, front = pieces["back"], pieces["front"]
    assert [level.counts for level in front.levels] == [level.counts for level in back.levels]
    assert [level.address for level in front.levels] == ["front." + level.label for level in back.levels]
    assert [section.rows for section in front.sections] == [section.rows for section in back.sections]
    assert [section.schedules for section in front.sections] == [section.schedules for section in back.sections]


def test_shoulders_agree_and_make_the_width_with_the_neck(pieces) -> None:
    back, front = pieces["back"], pieces["front"]
    assert back.top.shoulder == front.top.shoulder
    for piece in (back, front):
        for size in SIZES:
            assert piece.top.neck[size] + 2 * piece.top.shoulder[size] == piece.level("bust").counts[size]


def test_the_neck_has_the_parity_of_its_row(pieces) -> None:
    """Shoulders are equal, so neck and row are both odd or both even; the centre follows the neck."""
    for piece in (pieces["back"], pieces["front"]):
        for size in SIZES:
            row, neck, centre = piece.level("bust").counts[size], piece.top.neck[size], piece.top.centre[size]
            assert (row - neck) % 2 == 0 and (neck - centre) % 2 == 0
            assert centre + 2 * sum(piece.top.steps[size]) == neck


def test_neck_depths_are_measured_from_the_high_point(pieces) -> None:
    """8 cm are 26.2 rows and 2 cm 6.6: the last 26 and 6 of the piece, even."""
    assert set(pieces["front"].top.neck_rows) == {26}
    assert set(pieces["back"].top.neck_rows) == {6}


def test_the_slope_lies_inside_the_length(pieces) -> None:
    """3 cm are 9.8 rows: 10, of which a shoulder is left in 10 / 2 + 1 = 6 groups."""
    for piece in (pieces["back"], pieces["front"]):
        assert set(piece.top.slope_rows) == {10}
        for size in SIZES:
            groups = piece.top.groups[size]
            assert len(groups) == 6 and sum(groups) == piece.top.shoulder[size]
            assert max(groups) - min(groups) <= 1


def test_side_seams_have_the_same_rows(pieces) -> None:
    back, front = pieces["back"], pieces["front"]
    for size in SIZES:
        assert back.total_rows(size) == front.total_rows(size)
    assert back.marks == front.marks


def test_the_sleeves_top_fits_the_armhole(pieces) -> None:
    """Twice the edge from the underarm to where the slope starts, within one stitch and one row."""
    back, sleeve = pieces["back"], pieces["sleeve"]
    underarm = dict(back.marks)["underarm"]
    for size in SIZES:
        edge = 2 * (back.total_rows(size) - underarm[size] - back.top.slope_rows[size]) * PER_ROW
        top = (sleeve.levels[-1].counts[size] - 2) * PER_STITCH
        assert abs(edge - top) <= PER_STITCH + PER_ROW


def test_a_sleeve_that_cannot_fit_is_refused() -> None:
    """A top of 20 cm less than the armhole."""
    done = checked(MILLRACE.replace("shape   to 2 * armhole over", "shape   to 2 * armhole - 20 cm over"))
    assert done.plan is None
    (found,) = [one for one in done.problems if one.is_error]
    assert found.code == "E501" and "armhole" in found.message


def test_the_sleeves_length_follows_the_solved_width(plan, pieces) -> None:
    """neck-to-wrist without ease less half of what the bust got; the table has 27 1/4 inch for XS (69.2 cm)."""
    solved, sleeve = pieces["back"].level("bust"), pieces["sleeve"]
    assert dict(plan.solved)["back.bust"] == tuple(solved.width(size) for size in SIZES)
    wishes = sleeve.sections[-1].wishes
    assert wishes is not None
    assert wishes[0] == Fraction("69.215") - solved.width(0) / 2
    for size in SIZES:
        assert abs(sleeve.sections[-1].deviation(size)) <= Fraction(3, 2)


def test_sleeves_of_a_drop_shoulder_may_shrink(pieces) -> None:
    """The body grows by 5.08 cm a size and half of a half of it goes off: wishes fall from L to 3XL."""
    wishes = pieces["sleeve"].sections[-1].wishes
    assert wishes is not None and wishes[6] < wishes[4]


def test_the_motif_meets_at_the_underarm(pieces) -> None:
    """The chart row that follows the sleeve's last row is the one on which the body's armhole starts; period 28."""
    back, sleeve = pieces["back"], pieces["sleeve"]
    fold = next(at for at, section in enumerate(back.sections) if section.kind == "turning") + 1
    underarm = dict(back.marks)["underarm"]
    for size in SIZES:
        below = underarm[size] - back.rows_to(fold, size)
        shape = next(section for section in sleeve.sections if section.kind == "shape")
        rows = sleeve.total_rows(size) - sleeve.rows_to(sleeve.sections.index(shape), size)
        assert (shape.chart_start[size] + rows - below) % 28 == 0


def test_chart_rows_run_on_from_section_to_section(pieces) -> None:
    for piece in pieces.values():
        worked = [section for section in piece.sections if section.chart_start is not None]
        for before, after in pairwise(worked):
            for size in SIZES:
                assert (before.chart_start[size] + before.rows[size]) % 28 == after.chart_start[size]


def test_a_sleeve_that_meets_a_plain_body_is_refused() -> None:
    plain = MILLRACE.replace("work      in grist on easy, centred on the stitch", "work      in plain")
    assert errors(checked(plain)) == ["E502"]


def test_the_band_is_picked_up_along_the_true_edge(plan, pieces) -> None:
    """Straight stitches by width, straight rows by height, slants by both; 27 sts in 10 cm; 1x1 rib, even."""
    (band,) = plan.bands
    for size in SIZES:
        length = 0.0
        for piece in (pieces["back"], pieces["front"]):
            top = piece.top
            length += float(top.centre[size] * PER_STITCH)
            slant = sum(hypot(float(step * PER_STITCH), 2 * float(PER_ROW)) for step in top.steps[size])
            straight = float((top.neck_rows[size] - 2 * len(top.steps[size])) * PER_ROW)
            length += 2 * (slant + straight)
        assert abs(band.stitches[size] - length * 2.7) <= 4  # each of six parts is rounded, and the whole to a pair
        assert band.stitches[size] % 2 == 0
        assert sum(part[size] for _, part in band.picked) == band.stitches[size]
        assert band.rows[size] == 9  # 2.5 cm at 37 rounds in 10 cm: 9.25


def test_a_band_along_an_edge_that_is_not_there_is_refused() -> None:
    text = MILLRACE.replace("along back neck, front neck", "along sleeve neck, front neck")
    assert [code for code in errors(checked(text)) if code[1] in "25"]


def test_a_square_neck_is_all_centre() -> None:
    front = planned(MILLRACE.replace("8 cm deep, round", "8 cm deep, square")).piece("front")
    assert front is not None and front.top is not None
    assert front.top.centre == front.top.neck and set(front.top.steps) == {()}


def test_a_sleeve_without_an_underarm_is_told_how_far_below_the_shoulder_it_starts() -> None:
    """A top of 40 cm sewn to 20 cm of edge, and 3 cm of slope (12 rows, 3.16 cm) above it: 23.2 cm below the end."""
    text = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
sizes one
piece back, worked flat
    cast on 50 cm in plain
    work 60 cm
    neck 18 cm wide, 2 cm deep
    shoulders slope 12 rows
piece sleeve, worked flat, make 2
    cast on 40 cm in plain
    work 30 cm
    bind off
join
    set sleeve top into armholes
    seam sides and sleeves
"""
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert found.code == "E505" and "40 cm" in found.help and "23.2 cm below" in found.help


@pytest.mark.parametrize("more", [0, 8])
def test_an_armhole_that_grows_with_the_sleeve_is_told(more: int) -> None:
    """2 x 4 cm more of sleeve; the lines ask for an edge of max(15.9 + 3, (24.8 + 8) / 2) = 18.9 cm in size XS."""
    text = MILLRACE.replace("to 2 * armhole over", f"to 2 * armhole + {more} cm over")
    told = [one.message for one in checked(text).problems if one.code == "W613" and "armhole edge" in one.message]
    assert len(told) == (1 if more else 0)
    assert all("in size XS where 18.9 cm was asked" in one for one in told)


def test_a_shaping_that_takes_longer_than_it_was_given_is_told() -> None:
    """12 sts are 6 shaping rows, so 12 rows of flat work: 3.2 cm at 38 rows in 10 cm where 2 cm were asked."""
    text = """wale 1
pattern "Panel"
    use "mill-yarns.wale"
sizes one
piece panel, worked flat
    cast on 60 sts in plain
    work 10 cm
    shape to 72 sts over {over} cm
    work 10 cm
    bind off
"""
    told = [one.message for one in checked(text.format(over=2)).problems if one.code == "W613"]
    assert told == ["panel.shape[1] is 3.2 cm in size one where 2 cm was asked"]
    assert not [one for one in checked(text.format(over="3.2")).problems if one.code == "W613"]
