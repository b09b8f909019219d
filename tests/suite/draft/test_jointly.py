"""Stitches that no rows suit give way to the next best that rows suit; tried against every count."""

from __future__ import annotations

import random
from itertools import product

import pytest
from support import PLAIN, SPEC, checked, errors, planned

from wale.draft.jointly import solved_widths
from wale.draft.lay_out import lay_out
from wale.draft.layout import Layout
from wale.draft.lengths import length_model
from wale.draft.widths import width_model
from wale.solve.exact import feasible
from wale.solve.model import Model
from wale.spec import Spec

HEAD = (
    'wale 1\n\npattern "Panel"\n\n'
    + PLAIN
    + """
swatch round, in the round
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

"""
)
ONE = """sizes one
    measure bust 100 cm
    ease    bust 0 cm

"""
TWO = """sizes one two
    measure bust 100 (104) cm
    ease    bust 0 cm

"""
SHAPED = """piece panel, worked flat
    edge    0 sts each side
    cast on {low} cm in plain
    shape   to {high} cm over {over} cm{any_row}
    work    to {to} cm
    bind off
"""
SET_IN = """piece back, worked flat
    edge      0 sts each side
    cast on   50 cm in plain
    work      20 rows
    mark      underarm
    work      {armhole} rows
    neck      20 cm wide, 2 cm deep
    shoulders slope 4 rows, short rows

piece sleeve, worked flat, make 2
    edge     0 sts each side
    cast on  {top} cm in plain
    work     20 rows
    bind off

join
    set sleeve top into armholes
"""
WAITS = """piece back, worked flat
    edge     0 sts each side
    cast on  bust/2 in plain
    work     20 rows
    bind off

piece sleeve, worked flat, make 2
    edge     0 sts each side
    cast on  20 cm in plain
    work     30 rows
    work     to {length}
    bind off
"""
HAT = """piece hat, in the round
    cast on {round} cm in round
    work    10 rows
    crown   {wedges} wedges over {over} rows
"""


def counts(text: str, sizes: str = TWO) -> list[tuple[int, ...]]:
    """Give the counts of all levels, piece by piece."""
    return [level.counts for piece in planned(HEAD + sizes + text).pieces for level in piece.levels]


def test_shaping_that_has_too_few_rows_before_the_next_line_is_less() -> None:
    # 20 and 28 cm are 40 and 56 sts: 8 shapings on right-side rows, 16 rows. `over 6 cm` may have them (up to 7.5 cm),
    # but 4 + 1.5 cm from the cast-on are 15.4 rows, 14 even ones: 7 shapings, 14 sts. 41 and 55 are off by 0.5 cm each.
    assert counts(SHAPED.format(low=20, high=28, over=6, any_row="", to=4)) == [(41, 41), (55, 55)]


def test_shaping_on_any_row_fits() -> None:
    assert counts(SHAPED.format(low=20, high=28, over=6, any_row=", on any row", to=4)) == [(40, 40), (56, 56)]


def test_a_sleeve_top_gives_way_to_the_armhole() -> None:
    # 28 rows less 4 of the slope: an edge of 2 x 24 / 2.8 = 17.14 cm. A top of 18.4 cm is nearest with 37 sts, 18.5 cm;
    # half a stitch pair and a row allow 1 / 2 + 1 / 2.8 = 0.857 cm: up to 18.0 cm, 36 sts.
    assert counts(SET_IN.format(top="18.4", armhole=28))[-1] == (36, 36)


def test_a_width_gives_way_to_a_length_that_waits_for_it() -> None:
    # 30 rows are 10.71 cm, so the sleeve's wish is 9.214 cm at least: half of the bust is at most 2 x (L - 9.214) cm.
    # L = 34.1: 49.77 cm, 99 sts, instead of 100
    assert counts(WAITS.format(length="34.1 cm - back.bust/2"), ONE)[0] == (99,)
    # L = 34.6: 50.77 cm, 101 sts; size one keeps its 100, size two gives way from 104
    assert counts(WAITS.format(length="34.6 cm - back.bust/2"))[0] == (100, 101)


def test_where_no_stitches_suit_either_the_clash_is_told() -> None:
    # L = 34.1 in size two: half of the bust is 52 cm, so 50.5 cm at least, but 49.77 at most
    assert errors(checked(HEAD + TWO + WAITS.format(length="34.1 cm - back.bust/2"))) == ["E406"]


def test_a_length_that_is_no_sum_of_widths_is_a_problem() -> None:
    # `max` has no linear form: the plan is refused, though 101 sts would do
    assert errors(checked(HEAD + TWO + WAITS.format(length="max(2 cm, 34.6 cm - back.bust/2)"))) == ["E406"]


def test_the_lines_of_both_widths_are_told() -> None:
    # 1 + 1.5 cm are 7 rows, 6 even ones: 6 sts, but within 1.5 cm the widths are 43 and 53 sts at the nearest
    done = checked(HEAD + ONE + SHAPED.format(low=20, high=28, over=3, any_row="", to=1))
    assert errors(done) == ["E401"]
    (found,) = [one for one in done.problems if one.is_error]
    source = done.sources[SPEC]
    told = {source.line(source.place(label.span.start)[0]).split()[0] for label in found.labels}
    assert {"cast", "shape"} <= told


def by_trying(text: str) -> dict[str, int] | None:
    """Give the cheapest stitches for which rows can be found, trying all; None if there are none."""
    spec = checked(text).spec
    assert spec is not None
    layouts = [layout for layout, _ in (lay_out(spec, piece) for piece in spec.pieces) if layout is not None]
    model = width_model(spec, layouts)
    best = None
    for values in product(*(_near(model, one.key) for one in model.unknowns)):
        named = {one.key: value for one, value in zip(model.unknowns, values, strict=True)}
        if all(rule.holds(named) for rule in model.rules):
            found = (sum(wish.cost(named) for wish in model.wishes), values)
            if (best is None or found < best) and _rows_suit(spec, layouts, named):
                best = found
    return None if best is None else {one.key: value for one, value in zip(model.unknowns, best[1], strict=True)}


def _near(model: Model, key: str) -> range:
    own = [rule for rule in model.rules if rule.terms == ((1, key),)]
    lows, highs = (
        [one.lower for one in own if one.lower is not None],
        [one.upper for one in own if one.upper is not None],
    )
    return range(max(lows), min(highs) + 1)


def _rows_suit(spec: Spec, layouts: list[Layout], named: dict[str, int]) -> bool:
    return feasible(length_model(spec, layouts, named, solved_widths(spec, layouts, named)))


@pytest.mark.parametrize("seed", range(40))
def test_no_cheaper_stitches_have_rows(seed: int) -> None:
    chance = random.Random(seed)
    low, change = chance.randint(150, 300), chance.randint(-80, 80)
    text = SHAPED.format(
        low=low / 10,
        high=(low + change) / 10,
        over=chance.randint(10, 80) / 10,
        any_row=chance.choice(("", "", ", on any row")),
        to=chance.randint(20, 80) / 10,
    )
    if seed % 4 == 3:
        text = HAT.format(round=chance.randint(400, 600) / 10, wedges=chance.randint(5, 8), over=chance.randint(12, 20))
    text = HEAD + ONE + text
    done, expected = checked(text), by_trying(text)
    if expected is None:
        assert len(errors(done)) == 1
    else:
        assert done.plan is not None
        got = [level.counts[0] for piece in done.plan.pieces for level in piece.levels]
        assert got == list(expected.values())
