"""A motif that was drawn comes back as it is: tiled, with noise, in five proportions, cut off, brick-wise."""

from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from picture_drawn import GRIST, HEX, drawn, rows

from wale.picture.make import Wish, make
from wale.refusals import Refused

MOTIF = rows(GRIST)
# Rows and stitches in one length: the proportions of a stitch, from tall to flat.
GAUGES = [(30, 24), (28, 28), (26, 29), (24, 32), (20, 30)]


def back(image, wish, marks="-x"):
    """Give the rows of marks from the top down, and the shift, of the motif that is made of a picture."""
    made = make("drawn.png", image, wish, [HEX[mark] for mark in marks])
    return tuple(tuple(marks[yarn] for yarn in row) for row in reversed(made.motif)), made.shift


def cell(stitches, lines):
    """A stitch is 1/stitches wide and 1/rows high."""
    return Fraction(stitches, lines)


@pytest.mark.parametrize("gauge", GAUGES, ids=[f"{sts} sts {lines} rows" for sts, lines in GAUGES])
@pytest.mark.parametrize("width", [7, 10.4])
def test_a_motif_tiled_three_by_two_with_noise_comes_back(gauge, width):
    shape = cell(*gauge)
    image = drawn(MOTIF, 3, 2, width, width * float(shape), noise=35, specks=0.02)
    assert back(image, Wish(8, cell=shape)) == (MOTIF, 0)


@pytest.mark.parametrize(("across", "up"), [(2, 3), (2.6, 1.7), (5, 1), (1, 2), (1.5, 4.3)])
def test_other_numbers_of_repeats_and_pictures_cut_off(across, up):
    image = drawn(MOTIF, across, up, 11, 9.3, noise=20)
    assert back(image, Wish(8, cell=Fraction(93, 110))) == (MOTIF, 0)


def test_one_repeat_alone_is_the_whole_picture():
    image = drawn(MOTIF, 1, 1, 12, 10, noise=20)
    assert back(image, Wish(8, cell=Fraction(10, 12))) == (MOTIF, 0)
    made = make("drawn.png", image, Wish(8, cell=Fraction(10, 12)), [HEX["-"], HEX["x"]])
    assert (made.across, made.up) == (1, 1)


@pytest.mark.parametrize("shift", [4, 3, 1])
def test_a_repeat_that_starts_along_is_found_with_its_shift(shift):
    image = drawn(MOTIF, 4, 3, 8, 7, shift, noise=25, specks=0.01)
    assert back(image, Wish(8, cell=Fraction(7, 8))) == (MOTIF, shift)


def test_a_half_drop_whose_whole_repeat_shows_is_written_with_its_shift():
    image = drawn(MOTIF, 2, 4, 8, 7, 4, noise=25)
    assert back(image, Wish(8, cell=Fraction(7, 8))) == (MOTIF, 4)


def test_halves_that_differ_in_one_stitch_are_no_repeat():
    # Twice the motif side by side, but for one stitch: the repeat is 16, not 8.
    twice = [list(row + row) for row in MOTIF]
    assert twice[4][12] == "-"
    twice[4][12] = "x"
    double = tuple(tuple(row) for row in twice)
    image = drawn(double, 3, 2, 7, 6, noise=25)
    assert back(image, Wish(16, cell=Fraction(6, 7))) == (double, 0)


def test_three_colours():
    motif = tuple(
        tuple("o" if (x + 3 * y) % 11 == 0 else mark for x, mark in enumerate(row)) for y, row in enumerate(MOTIF)
    )
    image = drawn(motif, 3, 2, 9, 8, noise=25)
    assert back(image, Wish(8, cell=Fraction(8, 9)), "-xo") == (motif, 0)


def test_the_whole_picture_on_demand_and_rows_that_are_asked_for():
    image = drawn(MOTIF, 2, 1, 10, 9)
    assert back(image, Wish(16, cell=Fraction(9, 10), is_whole=True))[0] == tuple(row + row for row in MOTIF)
    found, _ = back(image, Wish(8, rows=20))  # each row twice, for the cells are half as high
    assert found == tuple(row for row in MOTIF for _ in range(2))


def test_a_larger_motif_in_a_large_picture():
    motif = tuple(tuple("x" if (x * x + 7 * y * y + 3 * x * y) % 17 < 6 else "-" for x in range(40)) for y in range(46))
    image = drawn(motif, 2, 2, 6, 5, noise=20)
    assert back(image, Wish(40, cell=Fraction(5, 6))) == (motif, 0)


@st.composite
def motifs(draw):
    stitches, lines = draw(st.integers(4, 12)), draw(st.integers(4, 12))
    cells = draw(st.lists(st.sampled_from("--x"), min_size=stitches * lines, max_size=stitches * lines))
    return tuple(tuple(cells[start : start + stitches]) for start in range(0, len(cells), stitches))


@settings(max_examples=15, deadline=None)
@given(motifs(), st.integers(6, 11), st.integers(70, 120))
def test_any_motif_without_a_smaller_repeat_comes_back(motif, width, percent):
    # No move of less than a repeat leaves it as it is, tried one by one.
    lines, stitches = len(motif), len(motif[0])
    moves = [(up, along) for up in range(lines) for along in range(stitches) if (up, along) != (0, 0)]
    assume(all(tuple(row[along:] + row[:along] for row in motif[up:] + motif[:up]) != motif for up, along in moves))
    shape = Fraction(percent, 100)
    image = drawn(motif, 3, 2, width, width * float(shape), noise=20)
    assert back(image, Wish(stitches, cell=shape)) == (motif, 0)


def turned_round(motif):
    """Give the motif begun at every stitch and row."""
    return {
        tuple(row[along:] + row[:along] for row in motif[up:] + motif[:up])
        for up in range(len(motif))
        for along in range(len(motif[0]))
    }


@pytest.mark.parametrize(("left", "low"), [(5, 0), (0, 4), (4, 5), (13, 30), (7, 2)])
def test_a_picture_cut_within_a_stitch_gives_the_motif_begun_elsewhere(left, low):
    image = drawn(MOTIF, 3, 3, 9, 8, noise=20)
    image = image.crop((left, 0, image.width, image.height - low))
    found, shift = back(image, Wish(8, cell=Fraction(8, 9)))
    assert shift == 0 and found in turned_round(MOTIF)


def test_squared_paper_with_lines_between_the_stitches():
    image = drawn(MOTIF, 2, 2, 12, 11)
    for x in range(0, image.width, 12):
        image.paste((30, 30, 30), (x, 0, x + 1, image.height))
    for y in range(0, image.height, 11):
        image.paste((30, 30, 30), (0, y, image.width, y + 1))
    assert back(image, Wish(8, cell=Fraction(11, 12))) == (MOTIF, 0)


def test_a_drawing_without_stitches_begins_at_its_corner():
    from PIL import Image, ImageDraw

    image = Image.new("RGB", (120, 100), HEX["-"])
    ImageDraw.Draw(image).ellipse((20, 15, 100, 85), fill=HEX["x"])
    made = make("drawn.png", image, Wish(12, cell=Fraction(10, 12), is_whole=True), [HEX["-"], HEX["x"]])
    # Rows are 8.33 px, stitches 10 px. The middle of stitch (c, r) lies in the ellipse of half axes 40 and 35 or not.
    for up, row in enumerate(made.motif):
        for along, yarn in enumerate(row):
            x, y = 10 * along + 5 - 60, 100 - (up + 0.5) * 100 / 12 - 50
            share = (x / 40) ** 2 + (y / 35) ** 2
            if not 0.75 < share < 1.25:
                assert yarn == (share < 1)


@pytest.mark.parametrize("size", [(50, 1), (300, 2), (2400, 5), (120, 9)])
@pytest.mark.parametrize("stitches", [2, 8])
def test_a_strip_of_one_row_has_no_room_to_begin_higher_up(size, stitches):
    from PIL import Image

    image = Image.new("RGB", size, HEX["-"])
    for left in range(0, size[0], 10):
        image.paste(HEX["x"], (left, 0, left + 5, size[1]))
    try:
        motif = make("strip.png", image, Wish(stitches), [HEX["-"], HEX["x"]]).motif
    except Refused as refused:
        assert refused.problem.code == "E924"
    else:
        assert len(motif[0]) == stitches and len(motif) >= 1
