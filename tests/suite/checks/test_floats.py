"""Floats against the published rule, and against a count on a widely tiled fabric."""

from fractions import Fraction
from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from specs import example

from wale.checks.catching import stagger, staggered
from wale.checks.floats import catches, long_floats, most_stitches, row_floats
from wale.materials import Gauge, Motif
from wale.source import Span

NOWHERE = Span("", 0, 0)


def motif(rows: list[str], shift: int = 0) -> Motif:
    return Motif("m", NOWHERE, tuple(tuple(row) for row in rows), (NOWHERE,) * len(rows), (), shift)


def test_w117_at_22_sts_in_10_cm_runs_longer_than_6_are_caught_and_8_at_3_4_or_5():
    spec, _ = example("sluice-hat.wale")
    swatch = replace(spec.swatches["easy-round"], washed=Gauge(Fraction(22, 10), Fraction(3), NOWHERE))
    most = most_stitches(spec, swatch)
    assert most == 6
    assert catches(6, most) == ()
    assert catches(8, most) == ((3, 4, 5),)


def test_a_limit_in_stitches_is_kept_as_it_is():
    spec, _ = example("sluice-hat.wale")
    assert most_stitches(replace(spec, float_limit=(Fraction(4), "stitches")), spec.swatches["easy-round"]) == 4


def test_a_run_goes_on_over_the_end_of_the_repeat():
    # As seen, columns 7 to 0. Of the lone x at column 7 the run starts over at column 0; the dashes pass just the x.
    assert set(row_floats(motif(["x-------"]), 0)) == {("x", 0, 7), ("-", 7, 1)}
    assert set(row_floats(motif(["xx--xx--"]), 0)) == {("x", 0, 2), ("x", 4, 2), ("-", 2, 2), ("-", 6, 2)}
    # One x at column 5 of 8: seven stitches from column 6 over the end to column 4.
    assert ("x", 6, 7) in row_floats(motif(["--x-----"]), 0)


def test_a_row_of_one_yarn_carries_nothing():
    assert row_floats(motif(["------"]), 0) == ()


def test_grist_at_its_gauge_needs_no_catch_and_at_two_stitches_it_does():
    # The longest run in Grist is 5 sts; 2.5 cm at 40 sts in 13.6 cm are 7.35, so 7 sts.
    spec, plan = example("millrace-pullover.wale")
    assert most_stitches(spec, spec.swatches["easy"]) == 7
    assert long_floats(spec, plan) == ()
    tight = long_floats(replace(spec, float_limit=(Fraction(4), "stitches")), plan)
    assert {one.stitches for one in tight} == {5}
    # Bottom row as typed: x - - - - - x - - - - -; the x stand in columns 6 and 12 of 12 from the right, so flour
    # passes 5 sts from columns 1 and 7 on; of 5 sts with at most 4 loose the middle three may be caught.
    first = [(one.yarn, one.column, one.catch) for one in tight if one.row == 1]
    assert first == [("flour", 1, ((2, 3, 4),)), ("flour", 7, ((2, 3, 4),))]


@given(st.integers(1, 60), st.integers(1, 12))
def test_caught_strands_pass_no_more_than_the_limit(run, most):
    found = catches(run, most)
    assert bool(found) == (run > most)
    # any choice of one catch may stand beside any of the next, so the farthest of neighbours is enough to look at
    for before, after in pairwise([(0,), *found, (run + 1,)] if found else ()):
        assert before[-1] < after[0]
        assert max(after) - min(before) - 1 <= most
    assert all(1 <= at <= run for choice in found for at in choice)


def test_several_catches_may_be_moved_where_the_limit_leaves_room():
    # 15 sts with at most 6 loose: two catches leave 13 sts in three parts of 18 at most, 5 to spare. Spread evenly at
    # 5 and 10: parts of 4, 4, 5. Each a stitch to either side: 5, 6, 6 at the most. With 20 sts, 18 in three parts of
    # 6, there is none to spare: 7 and 14.
    assert catches(15, 6) == ((4, 5, 6), (9, 10, 11))
    assert catches(20, 6) == ((7,), (14,))


@given(
    st.integers(2, 7).flatmap(
        lambda width: st.tuples(
            st.lists(st.text("x-", min_size=width, max_size=width), min_size=1, max_size=4),
            st.integers(0, width - 1),
        )
    )
)
def test_runs_equal_a_count_on_a_widely_tiled_fabric(drawn):
    rows, shift = drawn
    made = motif(rows, shift)
    width = made.width
    for row in range(made.period):
        # Built from the typed rows alone: the repeat above starts `shift` further left, so rightwards cells move on.
        line = rows[row % len(rows)][::-1]
        moved = shift * (row // len(rows))
        wide = [line[(column - moved) % width] for column in range(6 * width)]
        expected = set()
        for yarn in set(wide):
            places = [column for column, cell in enumerate(wide) if cell == yarn]
            if len(set(wide)) > 1:
                expected |= {
                    (yarn, (before + 1) % width, after - before - 1)
                    for before, after in pairwise(places)
                    if after - before > 1
                }
        assert set(row_floats(made, row)) == expected


def cost(drawn: Motif, rows, ways) -> int:
    """What catches cost, counted cell by cell: stacked 8, under or beside their own yarn 2, beside the middle 1."""
    total = 0
    for number, (runs, way) in enumerate(zip(rows, ways, strict=True)):
        below = {column for one in ways[number - 1] for column in one} if len(rows) > 1 else set()
        for (yarn, start, _, choices), columns in zip(runs, way, strict=True):
            for choice, column in zip(choices, columns, strict=True):
                place = (column - start) % drawn.width + 1
                total += 8 * (column in below) + 2 * (drawn.cell(column, number + 1) == yarn)
                total += place != choice[len(choice) // 2]
                total += 2 * (yarn in (drawn.cell(column - 1, number), drawn.cell(column + 1, number)))
    return total


@given(st.lists(st.text("xo", min_size=7, max_size=7), min_size=1, max_size=4), st.integers(0, 3))
def test_catches_are_staggered_as_well_as_any_choice(cells, shift):
    drawn = motif(cells, shift)
    if drawn.period > 4:
        return
    rows = []
    for row in range(drawn.period):
        long = [one for one in row_floats(drawn, row) if one[2] > 3][:2]
        rows.append([(yarn, column, run, catches(run, 3)) for yarn, column, run in long])
    found = staggered(drawn, rows)
    every = []
    for runs in rows:
        each = [
            [tuple((start + place - 1) % drawn.width for place in places) for places in product(*choices)]
            for _, start, _, choices in runs
        ]
        every.append(list(product(*each)))
    assert cost(drawn, rows, found) == min(cost(drawn, rows, ways) for ways in product(*every))


@given(st.data())
def test_catches_are_apart_however_stitches_stand_upon_one_another(data):
    """Of up to six catches over three rows, a stitch standing upon one or two: as cheap as the best of all choices."""
    under = st.lists(st.integers(0, 3), max_size=2, unique=True)
    stands = {(row, at): data.draw(under) for row in (1, 2) for at in range(4)}
    offered = []
    for _ in range(data.draw(st.integers(1, 6))):
        row = data.draw(st.integers(0, 2))
        places = data.draw(st.lists(st.integers(0, 3), min_size=1, max_size=3, unique=True))
        offered.append(tuple((data.draw(st.integers(0, 3)), (row, at)) for at in places))

    def price(chosen):
        own = sum(next(cost for cost, mark in each if mark == one) for each, one in zip(offered, chosen, strict=True))
        return own + 8 * sum(
            low == (high[0] - 1, place) for high in chosen for place in stands.get(high, ()) for low in chosen
        )

    found = stagger(offered, lambda mark: [(mark[0] - 1, place) for place in stands.get(mark, ())])
    every = product(*[[mark for _, mark in each] for each in offered])
    assert price(found) == min(price(chosen) for chosen in every)


def test_catches_of_a_column_of_lone_stitches_do_not_stack():
    """One x in nine, twice: each row passes 8, catch at 3, 4 or 5 with at most 6 loose; the rows take turns."""
    drawn = motif(["xoooooooo"] * 2)
    rows = [[("x", at, run, catches(run, 6)) for yarn, at, run in row_floats(drawn, row) if run > 6] for row in (0, 1)]
    (first,), (second,) = staggered(drawn, rows)
    assert set(first).isdisjoint(second)


@given(st.lists(st.integers(4, 12), min_size=2, max_size=5), st.integers(0, 11))
def test_a_wedge_is_caught_at_columns_that_its_row_has(lengths, place):
    """Rows of a wedge get shorter: a lone x in o passes all others, over the end of that row, not of the widest."""
    rows = ["".join("x" if at == place % length else "o" for at in range(length)) for length in sorted(lengths)[::-1]]
    wedge = replace(motif(rows), wedge=True)
    runs = [
        [("x", at, run, catches(run, 3)) for yarn, at, run in row_floats(wedge, row) if run > 3]
        for row in range(len(rows))
    ]
    for text, way, own in zip(rows, staggered(wedge, runs), runs, strict=True):
        for columns, (_, start, _, choices) in zip(way, own, strict=True):
            assert [text[::-1][column] for column in columns] == ["o"] * len(choices)
            assert all((at - start) % len(text) + 1 in choice for at, choice in zip(columns, choices, strict=True))
