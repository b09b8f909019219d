"""Bands stacked and figures scattered: every cell comes from the band or figure that stands there."""

from math import lcm

from hypothesis import given, settings
from hypothesis import strategies as st
from motif_cases import drawn, shown, tilings

from wale.motifs import changes
from wale.motifs.compose import Band, Figure, Overlap, scattered, stacked
from wale.motifs.symmetry import find, mirror_axes
from wale.motifs.tiling import Tiling

steady = settings(deadline=None, derandomize=True, max_examples=80)
BANDS = st.lists(
    st.builds(Band, tilings(widest=4, tallest=3), st.integers(1, 2), st.just(False)), min_size=1, max_size=3
)


@steady
@given(BANDS)
def test_a_stack_is_its_bands_from_the_lowest_up(bands):
    stack = stacked(bands)
    assert stack.width == lcm(*(band.motif.width for band in bands))
    row = 0
    for band in bands:
        for inside in range(len(band.motif.rows) * band.times):
            for column in range(stack.width):
                assert stack.cell(column, row) == band.motif.cell(column, inside)
            row += 1
    assert row == len(stack.rows) and stack.shift == 0


@steady
@given(st.lists(tilings(widest=4, tallest=2).map(Tiling.rectangle), min_size=1, max_size=3), st.booleans())
def test_bands_that_mirror_make_a_stack_that_mirrors(motifs, on_stitches):
    """Doubled about both stitches each has an axis on a stitch, about the gap one on a gap: one sort in common."""
    axis, kind = ("both stitches", 1) if on_stitches else ("gap", 2)
    bands = [changes.shifted(changes.doubled(motif, axis), number) for number, motif in enumerate(motifs)]
    stack = stacked([Band(motif) for motif in bands])
    assert any(axis.denominator == kind for axis in mirror_axes(stack))
    for number, motif in enumerate(bands):
        start = sum(len(below.rows) for below in bands[:number])
        rows = Tiling(stack.rows[start : start + len(motif.rows)])
        assert any(
            all(rows.cell(x, y) == motif.cell(x - move, y) for x in range(stack.width) for y in range(len(motif.rows)))
            for move in range(motif.width)
        )


def test_a_stack_by_hand():
    wide, narrow = drawn("x---", "xx-x"), drawn("-x")
    # 4 and 2 sts; the wide one mirrors about the leftmost stitch, the narrow one about any
    assert shown(stacked([Band(wide), Band(narrow, 2)])) == ["-x-x", "-x-x", "x---", "xx-x"]
    shift = drawn("x---", shift=1)
    # a band that shifts goes on shifting: three rows of it
    assert shown(stacked([Band(shift, 3)])) == ["--x-", "---x", "x---"]


def test_bands_without_a_common_sort_of_axis_stay_as_they_are_typed():
    # 3 sts in pairs: axes on a stitch and on a gap; 4 sts in pairs: on gaps only; `xx-x--` mirrors nowhere
    pairs, lone = drawn("xx--"), drawn("xx-x--")
    stack = stacked([Band(lone), Band(pairs)])
    assert shown(stack) == ["xx--xx--xx--", "xx-x--xx-x--"]
    assert find(stack).mirrors == ()
    stitches = drawn("x---")
    assert shown(stacked([Band(pairs), Band(stitches)])) == ["x---", "xx--"]


def test_a_band_takes_the_nearest_of_its_axes_and_the_lowest_stays():
    lowest, above = drawn("-x----"), drawn("---x--")
    # axes of the lowest at columns 4 and 1, of the one above at 2 and 5: it moves a stitch to the right, so 5 is at 4
    assert shown(stacked([Band(lowest), Band(above)])) == ["----x-", "-x----"]
    assert shown(stacked([Band(lowest), Band(above, aligned=False)])) == ["---x--", "-x----"]


@steady
@given(
    st.integers(3, 9),
    st.integers(3, 8),
    st.integers(0, 2),
    st.lists(st.tuples(tilings(widest=3, tallest=3), st.integers(0, 12), st.integers(0, 12)), max_size=3),
)
def test_figures_stand_where_they_are_placed_or_the_first_that_meet_are_told(width, height, shift, placed):
    figures = [Figure(motif.rows, column, row) for motif, column, row in placed]
    tiling, overlap = scattered(width, height, "rye", shift, figures)
    # The cells of the whole fabric that a figure takes, folded back into the repeat by hand.
    taken = []
    for number, figure in enumerate(figures):
        for up, line in enumerate(figure.rows):
            for along, yarn in enumerate(reversed(line)):
                x, y = figure.column + along, figure.row + up
                while y >= height:
                    x, y = x - shift, y - height
                if yarn != "rye":
                    taken.append((x % width, y, number, yarn))
    places = [(x, y) for x, y, _, _ in taken]
    if len(set(places)) == len(places):
        assert overlap is None
        there = {(x, y): yarn for x, y, _, yarn in taken}
        for x in range(width):
            for y in range(height):
                assert tiling.cell(x, y) == there.get((x, y), "rye")
    else:
        first = next(i for i, place in enumerate(places) if place in places[:i])
        x, y, number, _ = taken[first]
        assert overlap == Overlap(number, taken[places.index((x, y))][2], x, y)


def test_a_figure_runs_on_over_the_edges_of_its_ground():
    cross = drawn("-x-", "xxx", "-x-").rows
    tiling, overlap = scattered(5, 4, "rye", 0, [Figure(cross, 3, 2)])
    assert overlap is None
    # centre at column 4 (the leftmost), row 3; its top comes out at the bottom, its left arm at the right
    assert shown(tiling) == ["xx--x", "x----", "-----", "x----"]
    # where the repeat above is shifted by 2, the top stands 2 sts to the right of where it would
    tiling, _ = scattered(5, 4, "rye", 2, [Figure(cross, 3, 2)])
    assert shown(tiling) == ["xx--x", "x----", "-----", "--x--"]
    assert tiling.cell(4, 4) == "flour"
