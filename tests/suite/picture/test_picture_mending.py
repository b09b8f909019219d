"""Forced symmetry and shorter floats: against all motifs of a size, and what must hold of every one."""

from itertools import groupby, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale.colour import difference
from wale.picture.floats import shortened
from wale.picture.matching import costs, nearest, total
from wale.picture.symmetry import singles, symmetric

KINDS = ("sides", "rows", "both", "turn")


def tables(most_columns=6, most_rows=4, yarns=2):
    cell = st.tuples(*[st.integers(0, 50)] * yarns)
    return st.integers(1, most_rows).flatmap(
        lambda rows: st.integers(2, most_columns).flatmap(
            lambda columns: st.lists(
                st.lists(cell, min_size=columns, max_size=columns).map(tuple), min_size=rows, max_size=rows
            ).map(tuple)
        )
    )


def is_like(motif, kind):
    """Say whether some axis leaves the motif, repeated to all sides, as it is."""
    rows, columns = len(motif), len(motif[0])

    def same(image):
        return all(image(row, column) == motif[row][column] for row, column in product(range(rows), range(columns)))

    def mirrored(axis):
        return same(lambda row, column: motif[row][(axis - column) % columns])

    def flipped(axis):
        return same(lambda row, column: motif[(axis - row) % rows][column])

    def turned(up, along):
        return same(lambda row, column: motif[(up - row) % rows][(along - column) % columns])

    if kind == "turn":
        return any(turned(up, along) for up in range(rows) for along in range(columns))
    sides = kind == "rows" or any(map(mirrored, range(columns)))
    return sides and (kind == "sides" or any(map(flipped, range(rows))))


@given(tables(most_columns=4, most_rows=2), st.sampled_from(KINDS))
def test_of_all_motifs_with_the_symmetry_none_is_cheaper(table, kind):
    motif, _ = symmetric(table, kind)
    rows, columns = len(table), len(table[0])
    prices = []
    for cells in product((0, 1), repeat=rows * columns):
        other = tuple(cells[start : start + columns] for start in range(0, len(cells), columns))
        if is_like(other, kind):
            prices.append(total(table, other))
    assert is_like(motif, kind)
    assert total(table, motif) == min(prices)


@given(tables(yarns=3), st.sampled_from(KINDS))
def test_what_has_the_symmetry_stays_and_cells_that_go_together_are_alike(table, kind):
    motif, orbits = symmetric(table, kind)
    assert sorted(cell for orbit in orbits for cell in orbit) == sorted(
        product(range(len(table)), range(len(table[0])))
    )
    for orbit in orbits:
        assert len({motif[row][column] for row, column in orbit}) == 1
    again = tuple(tuple(tuple(int(yarn != mine) for yarn in range(3)) for mine in row) for row in motif)
    assert symmetric(again, kind)[0] == motif


def longest(row):
    """Count the longest run without one of the row's yarns, the row written three times."""
    runs = [0]
    for yarn in set(row) if len(set(row)) > 1 else ():
        runs += [len(list(group)) for used, group in groupby(list(row) * 3, key=lambda each: each == yarn) if not used]
    return max(runs)


@given(tables(most_columns=12), st.integers(2, 5))
def test_no_float_is_longer_and_short_ones_stay(table, limit):
    motif = nearest(table)
    kept = shortened(table, motif, singles(table), limit)
    assert kept is not None
    for row, before in zip(kept, motif, strict=True):
        assert longest(row) <= limit
        if longest(before) <= limit:
            assert row == before


@given(tables(most_columns=9), st.sampled_from(("sides", "turn")), st.integers(3, 5))
def test_a_symmetry_is_kept_while_floats_are_shortened(table, kind, limit):
    motif, orbits = symmetric(table, kind)
    kept = shortened(table, motif, orbits, limit)
    if kept is not None:
        assert is_like(kept, kind)
        assert max(map(longest, kept)) <= limit


def test_the_cheapest_cell_that_mends_a_float_is_changed():
    # One row, 7 of yarn 0 between two of yarn 1, limit 5: cells 2 to 6 of the seven mend it; the fifth is cheapest.
    prices = {1: 1, 2: 9, 3: 8, 4: 7, 5: 3, 6: 9, 7: 1}
    row = [(9, 0), *((0, prices[cell]) for cell in range(1, 8)), (9, 0)]
    table = (tuple(row),)
    assert nearest(table) == ((1, 0, 0, 0, 0, 0, 0, 0, 1),)
    assert shortened(table, nearest(table), singles(table), 5) == ((1, 0, 0, 0, 0, 1, 0, 0, 1),)


def test_a_limit_that_no_change_reaches_is_told():
    # Three stitches in two yarns have two neighbours of one yarn, a float of 2 behind them.
    table = (((0, 9), (0, 9), (9, 0)),)
    assert shortened(table, nearest(table), singles(table), 1) is None


def test_each_cell_gets_the_yarn_that_is_nearest_by_ciede2000():
    yarns = ["#8a5a2b", "#efe6d2", "#2b4a6a", "#9c4a3c"]
    seen = [(120, 90, 60), (200, 190, 170), (60, 80, 120), (150, 80, 70), (128, 128, 128), (0, 0, 0)]
    table = costs((tuple(seen),), yarns)
    for cell, prices in zip(seen, table[0], strict=True):
        colour = "#{:02x}{:02x}{:02x}".format(*cell)
        assert list(prices) == pytest.approx([1000 * difference(colour, yarn) for yarn in yarns], abs=0.6)
    assert nearest(table)[0] == tuple(prices.index(min(prices)) for prices in table[0])
