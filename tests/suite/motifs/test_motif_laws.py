"""Tiling laws: each change against the definition of it, cell for cell, and the group that the changes make."""

from hypothesis import given, settings
from hypothesis import strategies as st
from motif_cases import drawn, same, shown, tilings

from wale.motifs import changes
from wale.motifs.tiling import Tiling

steady = settings(deadline=None, derandomize=True, max_examples=60)
PLANE = [(x, y) for x in range(-5, 9) for y in range(-4, 8)]


def rectangle(motif: Tiling) -> list[list[str]]:
    """The whole period as m[y][x], x from the right: the definitions below speak of motifs without a shift."""
    return [[motif.cell(x, y) for x in range(motif.width)] for y in range(motif.period)]


@steady
@given(tilings())
def test_a_cell_is_that_of_its_row_and_each_repeat_above_is_shifted(motif):
    height = len(motif.rows)
    for x, y in PLANE:
        assert (
            motif.cell(x, y)
            == motif.rows[y % height][motif.width - 1 - (x - motif.shift * (y // height)) % motif.width]
        )
        assert motif.cell(x + motif.width, y) == motif.cell(x, y + motif.period) == motif.cell(x, y)
        assert motif.cell(x + motif.shift, y + height) == motif.cell(x, y)


@steady
@given(tilings())
def test_the_rectangle_is_the_same_fabric(motif):
    flat = motif.rectangle()
    assert flat.shift % motif.width == 0
    assert (flat.width, len(flat.rows)) == (motif.width, motif.period)
    assert same(motif, flat)


@steady
@given(tilings())
def test_mirror_flip_and_turn_are_the_isometries_they_are_named_after(motif):
    width, height = motif.width, len(motif.rows)
    mirrored, flipped, turned = changes.mirrored(motif), changes.flipped(motif), changes.turned(motif)
    for x, y in PLANE:
        assert mirrored.cell(x, y) == motif.cell(width - 1 - x, y)
        assert flipped.cell(x, y) == motif.cell(x, height - 1 - y)
        assert turned.cell(x, y) == motif.cell(width - 1 - x, height - 1 - y)


@steady
@given(tilings(colours=3))
def test_mirror_flip_and_turn_are_a_group_of_four(motif):
    mirror, flip, turn = changes.mirrored, changes.flipped, changes.turned
    for change in (mirror, flip, turn):
        assert same(change(change(motif)), motif)
    for one, other, third in ((mirror, flip, turn), (mirror, turn, flip), (flip, turn, mirror)):
        assert same(one(other(motif)), third(motif))
        assert same(other(one(motif)), third(motif))


@steady
@given(tilings(), st.integers(-9, 9), st.integers(-9, 9), st.integers(-9, 9), st.integers(-9, 9))
def test_shifts_move_the_fabric_and_add_up(motif, a, b, c, d):
    moved = changes.shifted(motif, a, b)
    for x, y in PLANE[::7]:
        assert moved.cell(x, y) == motif.cell(x - a, y - b)
    assert same(changes.shifted(moved, c, d), changes.shifted(motif, a + c, b + d))
    assert same(changes.shifted(motif, motif.width), motif)
    assert same(changes.shifted(motif, motif.shift, len(motif.rows)), motif)
    # Mirroring turns the way round: m t = t^-1 m.
    assert same(changes.mirrored(moved), changes.shifted(changes.mirrored(motif), -a, b))
    assert same(changes.flipped(moved), changes.shifted(changes.flipped(motif), a, -b))


@steady
@given(tilings(colours=3), st.permutations(["rye", "flour", "bran"]))
def test_colours_change_cell_for_cell_and_back(motif, names):
    there = dict(zip(("rye", "flour", "bran"), names, strict=True))
    back = {new: old for old, new in there.items()}
    changed = changes.recoloured(motif, there)
    assert all(changed.cell(x, y) == there[motif.cell(x, y)] for x, y in PLANE[::3])
    assert changes.recoloured(changed, back) == motif
    assert changes.recoloured(changes.mirrored(motif), there) == changes.mirrored(changed)


@steady
@given(tilings(widest=3, tallest=3, even=True))
def test_half_drop_by_its_definition(motif):
    """cell (x, y) = m[x mod w][(y + (h/2)((x div w) mod 2)) mod h]."""
    m, w, h = rectangle(motif), motif.width, motif.period
    drop = changes.dropped(motif, 2)
    for x, y in PLANE:
        assert drop.cell(x, y) == m[(y + (h // 2) * ((x // w) % 2)) % h][x % w]
        # Its lattice holds (w, h/2) and (0, h); half a drop twice is a step of a whole repeat.
        assert drop.cell(x + w, y + h // 2) == drop.cell(x, y) == drop.cell(x + 2 * w, y) == drop.cell(x, y + h)
    assert (drop.width, len(drop.rows)) == (2 * w, h)
    step = changes.shifted(drop, w, h // 2)
    assert same(step, drop) and same(changes.shifted(step, w, h // 2), drop)


@steady
@given(tilings(widest=3, tallest=3, even=True))
def test_brick_by_its_definition(motif):
    """cell (x, y) = m[(x + (w/2)((y div h) mod 2)) mod w][y mod h]."""
    m, w, h = rectangle(motif), motif.width, motif.period
    brick = changes.bricked(motif)
    for x, y in PLANE:
        assert brick.cell(x, y) == m[y % h][(x + (w // 2) * ((y // h) % 2)) % w]
        assert brick.cell(x + w // 2, y + h) == brick.cell(x, y)
    assert (brick.width, brick.period) == (w, 2 * h)
    assert same(changes.bricked(Tiling(motif.rows)), Tiling(motif.rows, motif.width // 2))


@steady
@given(tilings(widest=4, tallest=2), st.integers(1, 4))
def test_drop_of_any_part_by_its_definition(motif, parts):
    """Each repeat to the left stands h/n lower: smallest rectangle n w x h, lattice (w, -h/n), (0, h)."""
    tall = Tiling(motif.rectangle().rows * parts)
    m, w, h = rectangle(tall), tall.width, tall.period
    drop = changes.dropped(tall, parts)
    assert (drop.width, len(drop.rows)) == (parts * w, h)
    for x, y in PLANE:
        assert drop.cell(x, y) == m[(y + (h // parts) * (x // w)) % h][x % w]
        assert drop.cell(x + w, y - h // parts) == drop.cell(x, y)


@steady
@given(tilings(widest=3, tallest=2, even=True))
def test_a_half_drop_of_a_brick_laid_on_its_side_is_the_other(motif):
    """Rows and columns change places: the half drop of the transposed motif is the transposed brick."""

    def transposed(one: Tiling) -> Tiling:
        # Row y from the bottom, column x from the right: (x, y) becomes (y, x).
        m = rectangle(one)
        return Tiling(tuple(tuple(m[y][x] for y in reversed(range(one.period))) for x in range(one.width)))

    flat = motif.rectangle()
    assert same(changes.dropped(transposed(flat), 2), transposed(changes.bricked(flat)))


@steady
@given(tilings(colours=3))
def test_doubling_mirrors_about_the_gap_or_the_stitch(motif):
    w, h = motif.width, motif.period
    gap, stitch, both = (changes.doubled(motif, axis) for axis in ("gap", "stitch", "both stitches"))
    assert (gap.width, stitch.width, both.width) == (2 * w, 2 * w - 1, max(2 * w - 2, 1))
    for y in range(h):
        for x in range(w):
            assert gap.cell(x, y) == stitch.cell(x, y) == motif.cell(x, y)
        for x in range(-w, 3 * w):
            assert gap.cell(x, y) == gap.cell(2 * w - 1 - x, y)  # about the gap after column w - 1
            assert stitch.cell(x, y) == stitch.cell(2 * w - 2 - x, y)  # about column w - 1
            assert both.cell(x, y) == both.cell(2 * w - 2 - x, y) == both.cell(-x, y)  # and about column 0


def test_changes_that_are_drawn_out_by_hand():
    motif = drawn(
        "x--",
        "xx-",
    )
    assert shown(changes.mirrored(motif)) == ["--x", "-xx"]
    assert shown(changes.flipped(motif)) == ["xx-", "x--"]
    assert shown(changes.turned(motif)) == ["-xx", "--x"]
    assert shown(changes.shifted(motif, 1)) == ["--x", "x-x"]
    assert shown(changes.shifted(motif, 0, 1)) == ["xx-", "x--"]
    assert shown(changes.doubled(motif, "gap")) == ["--xx--", "-xxxx-"]
    assert shown(changes.doubled(motif, "stitch")) == ["--x--", "-xxx-"]
    assert shown(changes.doubled(motif, "both stitches")) == ["-x--", "xxx-"]
    # the repeat at the left stands a row lower: its upper row is below, its lower one comes in from above
    assert shown(changes.dropped(motif, 2)) == ["xx-x--", "x--xx-"]
    assert changes.offset(motif, 2) == drawn("x--", "xx-", shift=2)
