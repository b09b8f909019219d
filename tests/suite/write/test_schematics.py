"""Schematics of garments planned by hand (see garments.py): 2 sts and 3 rows to the cm."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import combinations

import pytest
from garments import cowl, hat, pullover
from msgspec.structs import replace
from support import PLAIN, written

from wale.pattern import Schematic
from wale.write.outline import straightened
from wale.write.schematics import schematics


def mirrored(*right: tuple[float, float]) -> list[tuple[float, float]]:
    return [*right, *((-x, y) for x, y in reversed(right))]


def near(points: tuple[tuple[float, float], ...]) -> list[object]:
    return [pytest.approx(point) for point in points]


def letters(schematic: Schematic) -> dict[str, str]:
    return {one.name: one.letter for one in schematic.dimensions}


def values(schematic: Schematic) -> dict[str, tuple[float, ...]]:
    return {one.name: tuple(map(float, one.values)) for one in schematic.dimensions}


def test_the_back_stands_from_the_fold_to_the_shoulders_without_its_edge_stitches() -> None:
    back = schematics(*pullover(), (0, 1, 2))[0]
    assert (back.name, back.size) == ("Back", "M")
    # 102 sts: (102 - 2)/2 = 50 cm, half 25; 112 sts: 55, half 27.5. Tip 6 rows = 2 cm below 54. Neck 36 sts: half 9.
    # Its 6 rows begin at 52: centre 28 sts (half 7), 3 more after 2 rows (8.5), 1 after 4 rows (9), then straight.
    right = [(25, 0), (25, 10), (27.5, 30), (27.5, 52), (9, 54), (9, 52 + 4 / 3), (8.5, 52 + 2 / 3), (7, 52)]
    assert mirrored(*right) == near(back.outline)


def test_the_front_has_a_deeper_neck_and_else_the_letters_of_the_back() -> None:
    back, front, _ = schematics(*pullover(), (0, 1, 2))
    # 24 rows: from 54 - 8 = 46; centre 12 sts, then 4, 3, 2, 2, 1 on every second row, then straight. The
    # two steps of 2 lie on one line, from 6.5 to 8.5.
    neck = [(9, 54), (9, 46 + 10 / 3), (8.5, 46 + 8 / 3), (6.5, 46 + 4 / 3), (5, 46 + 2 / 3), (3, 46)]
    assert neck == near(front.outline[4 : 4 + len(neck)])
    assert {name for name, letter in letters(front).items() if letters(back)[name] != letter} == {"neck depth"}
    assert letters(front)["neck depth"] not in letters(back).values()


def test_every_measure_has_a_value_for_each_printed_size() -> None:
    back, front, sleeve = schematics(*pullover(), (0, 1, 2))
    assert values(back) == {
        "hip": (45, 50, 55),
        "bust": (50, 55, 60),
        "hem": (3, 3, 3),
        "to underarm": (30, 30, 30),
        "armhole edge": (22, 22, 22),
        "length to high point": (54, 54, 54),
        "neck width": (18, 18, 18),
        "neck depth": (2, 2, 2),
        "shoulder": (16, 18.5, 21),
        "slope": (2, 2, 2),
    }
    assert values(front)["neck depth"] == (8, 8, 8)
    assert [one.letter for one in back.dimensions] == list("ABCDEFGHIJ")
    assert [one.letter for one in sleeve.dimensions] == list("LMNOP")


def test_the_sleeve_is_a_trapezoid_on_its_rib() -> None:
    sleeve = schematics(*pullover(), (0, 1, 2))[2]
    # 36 - 2 = 34 sts: 17 cm; 42 - 2: 20; 90 - 2: 44. Rib 6 cm, taper to 36, top at 40.
    assert mirrored((8.5, 0), (8.5, 6), (10, 6), (22, 36), (22, 40)) == near(sleeve.outline)
    assert values(sleeve) == {
        "cuff": (17,) * 3,
        "wrist": (20,) * 3,
        "sleeve top": (44,) * 3,
        "rib": (6,) * 3,
        "length": (40,) * 3,
    }


def test_only_printed_sizes_are_listed_and_the_middle_one_is_drawn() -> None:
    (back, *_) = schematics(*pullover(), (2,))
    assert back.size == "L"
    assert values(back)["bust"] == (60,)
    assert max(x for x, _ in back.outline) == 30


def test_dashed_lines_show_fold_hem_underarm_and_the_end_of_the_rib() -> None:
    back, _, sleeve = schematics(*pullover(), (0, 1, 2))
    assert back.lines == (
        ((-25, 0), (25, 0)),
        ((-25, 3), (25, 3)),
        ((-27.5, 30), (-24.75, 30)),
        ((27.5, 30), (24.75, 30)),
    )
    assert sleeve.lines == (((-8.5, 6), (8.5, 6)),)


def test_a_hat_lies_flat_at_half_its_circumference_under_its_crown() -> None:
    (flat,) = schematics(*hat(), (0,))
    # 80 sts in the round: 40 cm, 20 laid flat. 72 sts after round 1, a wedge less every second round, 8 after round 17.
    assert mirrored((10, 0), (10, 10), (9, 10 + 1 / 3), (1, 10 + 17 / 3), (1, 16)) == near(flat.outline)
    assert values(flat) == {"head around": (40,), "to crown": (10,), "crown": (6,), "length": (16,)}
    assert flat.lines == (((-10, 10), (10, 10)),)


def test_a_cowl_is_a_rectangle_with_its_rib() -> None:
    (flat,) = schematics(*cowl(), (0,))
    assert mirrored((15, 0), (15, 18)) == near(flat.outline)
    assert values(flat) == {"lower edge around": (60,), "rib": (3,), "length": (18,)}


def test_pieces_that_are_the_same_share_one_schematic() -> None:
    spec, plan = pullover()
    back, front, sleeve = plan.pieces
    same = replace(plan, pieces=(back, replace(back, name="front"), sleeve))
    assert [one.name for one in schematics(spec, same, (0, 1, 2))] == ["Back and front", "Sleeve"]
    assert [one.name for one in schematics(spec, plan, (0, 1, 2))] == ["Back", "Front", "Sleeve"]
    assert front.name == "front"


@pytest.mark.parametrize("garment", [pullover, hat, cowl])
def test_no_two_dimensions_measure_between_the_same_points(garment: object) -> None:
    spec, plan = garment()  # type: ignore[operator]
    for schematic in schematics(spec, plan, (0,)):
        ends = [(one.start, one.end) for one in schematic.dimensions]
        assert all(one != other for one, other in combinations(ends, 2))
        assert all(one.start[0] == one.end[0] or one.start[1] == one.end[1] for one in schematic.dimensions)


def test_points_on_a_straight_line_are_dropped() -> None:
    square = [(F(0), F(0)), (F(1), F(0)), (F(2), F(0)), (F(2), F(2)), (F(2), F(2)), (F(0), F(2)), (F(0), F(1))]
    assert straightened(square) == ((0, 0), (2, 0), (2, 2), (0, 2))


def test_a_width_that_is_called_as_another_measure_keeps_a_name_of_its_own() -> None:
    """`cuff` is what a sleeve's cast-on is called, `length` the height: two measures never share a name."""
    lines = """
let cuff   = 20 cm
let length = 30 cm

piece sleeve, worked flat
    cast on cuff in plain
    rib     4 cm, 1x1
    shape   to length over 20 cm
    work    to 30 cm
    shape   to 40 cm over 10 cm, named sleeve-top
    bind off

piece front, worked flat
    cast on 30 cm in plain
    work    to 60 cm
    bind off

join
    seam sides and sleeves, mattress stitch
    set  sleeve top into armholes
"""
    done = written(f'wale 1\n\npattern "Names"\n\n{PLAIN}\nsizes one\n{lines}')
    assert done.proof is not None, done.problems
    drawn = schematics(done.spec, done.plan, (0,))[0]
    names = [one.name for one in drawn.dimensions]
    assert len(set(names)) == len(names) and {"cuff", "length across", "sleeve top", "length"} <= set(names)
