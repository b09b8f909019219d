"""The chart's caption: a motif's symmetries in words, in the numbers of its chart."""

import re

import pytest
from hypothesis import given, settings
from motif_cases import drawn, tilings

from wale.motifs.words import figures, in_words


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (["x---", "xx--", "----"], ""),
        # stitches count from the right: of `-x----` the flour stitch is 5, half a repeat away is 2
        (["-x----", "xxx---", "------"], "It mirrors about stitches 2 and 5."),
        (["xx-x"], "It mirrors about stitches 2 and 4."),
        (["-x-", "xxx", "---"], "It mirrors about stitch 2 and the gap after stitch 3."),
        (["xx--", "xxxx", "----"], "It mirrors about the gaps after stitches 1 and 3."),
        # the upper two rows are the lower two read backwards
        (["---x", "--xx", "x---", "xx--"], "It shows its mirror image 2 rows higher."),
        # row 2 turns about the gap after st 1 (and 3), and takes the stitch of row 1 to that of row 3
        (["-x--", "xx--", "x---"], "It is the same after half a turn about the gap after stitch 1, row 2."),
        (["x---", "xx--", "x---", "----"], "It mirrors from top to bottom about rows 1 and 3."),
        # footprints
        (["---xx-", "---x--", "x-----", "xx----", "------"], "It mirrors from top to bottom 3 sts along."),
        (
            ["x-x-", "-x-x", "----"],
            "It mirrors about stitches 1 and 2 and mirrors from top to bottom 1 st along. "
            "It repeats after 2 sts already.",
        ),
        # rows 1 to 2 and 4 to 6, plain ones between: the lower one turns, the upper one mirrors both ways
        (
            ["------", "x--x--", "-xx-xx", "x--x--", "------", "xx----", "-xx---"],
            "Bands by themselves: rows 1 to 2 are the same after half a turn; rows 4 to 6 mirror both ways.",
        ),
    ],
)
def test_captions_by_hand(lines, words):
    assert in_words(drawn(*lines)) == words


@settings(deadline=None, derandomize=True)
@given(tilings())
def test_captions_are_short_and_whole_sentences(motif):
    text = in_words(motif)
    assert text == "" or (text[0] in "IB" and text.endswith(".") and len(text) < 200)


@settings(deadline=None, derandomize=True)
@given(tilings())
def test_the_figures_are_the_numbers_of_the_words(motif):
    told = [str(one.found + one.added) for one in figures(motif)]
    assert told == re.findall(r"\d+", in_words(motif))
