"""What the compiler finds of a motif's symmetries against trying every isometry on its fabric."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from motif_brute import axes_of, glides_of, group_of, moves_of_bits, moves_of_cells, size_of
from motif_cases import drawn, tilings

from wale.motifs import changes
from wale.motifs.frieze import bands, frieze
from wale.motifs.symmetry import Symmetry, find, mirror_axes, smallest
from wale.motifs.tiling import Tiling

steady = settings(deadline=None, derandomize=True, max_examples=100)
SHAPES = [(width, height) for width in range(1, 5) for height in range(1, 5)]


def agrees(found: Symmetry, moves, width: int, height: int) -> bool:
    """Say whether all that was found is what trying gives."""
    mirrors, flips, turns = axes_of(moves, width, height)
    glides, slides = glides_of(moves, width, height)
    # A glide once more along the axis by a whole repeat is the same axis; the shortest step is told.
    return (
        (found.width, found.period) == size_of(moves, width, height)
        and len(moves[1, 1]) * found.width * found.height == width * height
        and (set(found.mirrors), set(found.flips), set(found.turns)) == (mirrors, flips, turns)
        and set(found.glides) == {(axis, step) for axis, step in glides if 2 * step == found.period}
        and {axis for axis, _ in found.glides} == {axis for axis, _ in glides}
        and set(found.slides) == {(axis, step) for axis, step in slides if 2 * step == found.width}
        and {axis for axis, _ in found.slides} == {axis for axis, _ in slides}
        and found.group == group_of(moves, width, height)
        and all(list(each) == sorted(each) for each in (found.mirrors, found.flips, found.glides, found.slides))
    )


@pytest.mark.parametrize(("width", "height"), SHAPES, ids=[f"{w}x{h}" for w, h in SHAPES])
def test_all_motifs_of_two_colours_up_to_four_by_four(width, height):
    """The lower right cell is rye in all of them; the other half are these with the colours changed over (below)."""
    for bits in range(0, 1 << width * height, 2):
        cells = ["flour" if bits >> place & 1 else "rye" for place in range(width * height)]
        rows = tuple(tuple(cells[row * width : (row + 1) * width][::-1]) for row in range(height))
        found = find(Tiling(rows))
        assert agrees(found, moves_of_bits(bits, width, height), width, height), rows


@steady
@given(tilings(widest=4, tallest=4))
def test_colours_play_no_part(motif):
    assert find(changes.recoloured(motif, {"rye": "flour", "flour": "rye"})) == find(motif)


MADE = st.sampled_from(
    [
        lambda m: m,
        lambda m: changes.doubled(m, "gap"),
        lambda m: changes.doubled(m, "both stitches"),
        lambda m: changes.bricked(changes.doubled(m, "gap")),
        lambda m: Tiling(m.rectangle().rows + changes.mirrored(m.rectangle()).rows),
        lambda m: Tiling(m.rectangle().rows + changes.turned(m.rectangle()).rows),
        lambda m: changes.dropped(Tiling(m.rectangle().rows + changes.flipped(m.rectangle()).rows), 2),
    ]
)


@settings(deadline=None, derandomize=True, max_examples=200)
@given(tilings(widest=4, tallest=3, colours=3), MADE)
def test_motifs_that_shift_or_are_made_of_others(motif, make):
    made = make(motif)
    width, height = made.width, made.period
    cells = [made.cell(x, y) for y in range(height) for x in range(width)]
    assert agrees(find(made), moves_of_cells(cells, width, height), width, height)
    assert smallest(made) == size_of(moves_of_cells(cells, width, height), width, height)


@steady
@given(tilings(widest=5, tallest=3))
def test_axes_of_the_repeat_as_written_are_those_about_which_all_cells_agree(motif):
    w, h = motif.width, motif.period
    tried = [
        Fraction(twice, 2)
        for twice in range(2 * w)
        if all(motif.cell(x, y) == motif.cell(twice - x, y) for x in range(w) for y in range(h))
    ]
    assert list(mirror_axes(motif)) == tried


def test_half_drop_or_brick_of_a_mirrored_motif_is_cm_and_of_a_doubly_mirrored_one_cmm():
    """From memory in the trade's notes on symmetry; the recognition chart above agrees."""
    one, two = drawn("--x-", "-xxx", "-x-x", "----"), drawn("--x-", "-xxx", "--x-", "----")
    assert (find(one).group, find(two).group) == ("pm", "pmm")
    for motif, group in ((one, "cm"), (two, "cmm")):
        assert find(changes.dropped(motif, 2)).group == group
        assert find(changes.bricked(motif)).group == group


@pytest.mark.parametrize(
    ("lines", "group"),
    [
        (["x---", "xx--"], "p1"),
        (["xx----", "x-----", "---x--", "---xx-"], "p11g"),  # footprints
        (["-x-", "xxx", "---"], "p1m1"),
        (["x--", "xx-", "x--"], "p11m"),
        (["xx--", "-xx-"], "p2"),
        (["x---", "x-x-", "--x-"], "p2mg"),
        (["-x-x-", "xx-xx", "-x-x-"], "p2mm"),
    ],
)
def test_friezes_drawn_by_hand(lines, group):
    assert frieze(drawn(*lines).rows) == group


@steady
@given(tilings(widest=5, tallest=4))
def test_friezes_by_trying(motif):
    """Mirror upright, mirror along, glide along and half a turn, tried over the rows of one band."""
    rows, w, top = motif.rows, motif.width, len(motif.rows) - 1
    cell = Tiling(rows).cell
    plane = [(x, y) for x in range(w) for y in range(top + 1)]
    upright = any(all(cell(a - x, y) == cell(x, y) for x, y in plane) for a in range(w))
    along = all(cell(x, top - y) == cell(x, y) for x, y in plane)
    glide = any(all(cell(x + a, top - y) == cell(x, y) for x, y in plane) for a in range(w))
    turn = any(all(cell(a - x, top - y) == cell(x, y) for x, y in plane) for a in range(w))
    name = {
        (True, True, True, True): "p2mm",
        (True, False, True, True): "p2mg",
        (True, False, False, False): "p1m1",
        (False, True, True, False): "p11m",
        (False, False, True, False): "p11g",
        (False, False, False, True): "p2",
        (False, False, False, False): "p1",
    }[upright, along, glide, turn]
    assert frieze(rows) == name


def test_bands_lie_between_plain_rows_and_may_run_over_the_top_of_the_repeat():
    motif = drawn(
        "xx--",  # row 5, one band with row 0 of the repeat above
        "----",  # row 4
        "-x--",  # row 3
        "xxx-",  # row 2
        "xxxx",  # row 1
        "-xx-",  # row 0
    )
    assert [(band.first, band.last, band.group) for band in bands(motif)] == [(2, 3, "p1m1"), (5, 6, "p2")]
    assert [(band.first, band.last) for band in bands(drawn("x-", "-x"))] == [(0, 1)]
    assert bands(drawn("--", "xx")) == ()
