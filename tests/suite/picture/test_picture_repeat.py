"""A motif that was drawn comes back as it is: tiled, with noise, in five proportions, cut off, brick-wise."""

from fractions import Fraction

import pytest
from picture_drawn import GRIST, HEX, drawn, rows

from wale.picture.make import Wish, make

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
