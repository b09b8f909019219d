"""Patch pockets: their place in whole rows and stitches, and the five ways in which one does not lie on its piece."""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import PLAIN, checked, codes, planned, written

from wale.outputs.text import render as to_text
from wale.pockets import place_of
from wale.spec import SewnOn

PULLOVER = f"""wale 1

pattern "Sluice"

{PLAIN}
sizes one

piece back, worked flat
    cast on   50 cm in plain
    rib       5 cm, 2x2
    work      to 36 cm
    mark      underarm
    work      to 58 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, as back
    neck 18 cm wide, 8 cm deep

piece pocket, worked flat, make 2
    cast on 13 cm in plain
    work    13 cm
    bind off

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
    sew  pocket on front, 8 cm up, 4 cm from the centre
"""
SEW = "sew  pocket on front, 8 cm up, 4 cm from the centre"


def test_the_place_by_hand() -> None:
    """2 sts and 2.8 rows a cm: 8 cm are 22.4 rows, so 22, 7.857 cm; 4 cm are 8 sts. 26 sts are 13 cm wide, 36 rows
    12.857 cm high. A 2x2 rib that ends as it begins has 4n + 2 sts, so 98 and two edges in the seam, 49 cm: 24.5 - 4 -
    13 = 7.5 cm are left beside the pocket. The front is 58 cm high, 162 rows, its neck 22 rows deep: (162 - 22 - 22 -
    36) / 2.8 cm are left above it."""
    plan = planned(PULLOVER)
    (join,) = (one for one in checked(PULLOVER).spec.joins if isinstance(one, SewnOn))  # type: ignore[union-attr]
    place = place_of(plan, join, 0)
    assert place is not None
    front, pocket = plan.pieces[1], plan.pieces[2]
    assert pocket.levels[0].counts == (26,) and pocket.total_rows(0) == 36
    assert front.levels[-1].counts == (100,) and front.total_rows(0) == 162 and front.top.neck_rows == (22,)  # type: ignore[union-attr]
    assert (place.rows, place.stitches) == (22, 8)
    assert (place.up, place.aside) == (22 / Fraction("2.8"), 4)
    assert place.room == (Fraction("7.5"), (162 - 22 - 22 - 36) / Fraction("2.8"))


def test_making_up_says_where_they_go() -> None:
    done = written(PULLOVER)
    assert done.pattern is not None
    assert (
        "Sew the two pockets onto the front by lower edge and sides, in rye: the lower edge 22 rows (7.9 cm) above the "
        "cast-on, the nearer side 8 sts (4.0 cm) from the middle, one to the left of it and one to the right."
    ) in " ".join(to_text(done.pattern).split())


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        (SEW, "sew  pocket on front, 8 cm up, 14 cm from the centre", "2.5 cm beyond the side"),
        (SEW, "sew  pocket on front, 40 cm up, 4 cm from the centre", "beyond the neck"),
        (SEW, "sew  pocket on front, 8 cm up", "how far from the middle"),
        ("make 2", "make 1", "lies in the middle"),
        ("make 2", "make 3", "room for two"),
        (SEW, "sew  front on front, 8 cm up, 4 cm from the centre", "same piece"),
        ("cast on 13 cm", "cast on 40 cm", "beyond the side"),
    ],
)
def test_a_pocket_that_does_not_lie_there(old: str, new: str, words: str) -> None:
    done = checked(PULLOVER.replace(old, new))
    (found,) = (one for one in done.problems if one.code == "E511")
    assert words in found.message


HALVES = (
    PULLOVER.replace("piece front, as back\n", "piece left, as back, left half\n    opening 3 cm\n")
    .replace("piece pocket", "piece right, as left, mirrored\n\npiece pocket")
    .replace(f"    {SEW}\n", "")
    .replace(
        "    seam back shoulders with front",
        "    seam back shoulders with right shoulders, back stitch\n    seam back shoulders with left",
    )
)
SEWN = "".join(f"    sew pocket on {half}, 8 cm up, 4 cm from the centre\n" for half in ("left", "right"))


def test_one_pocket_for_each_half() -> None:
    """Two of them are made, and each half has one."""
    done = written(HALVES + SEWN)
    assert done.pattern is not None and [one.code for one in done.problems if one.is_error] == []
    words = " ".join(to_text(done.pattern).split())
    assert "Sew one pocket onto the left by" in words and "Sew one pocket onto the right by" in words
    assert "one to the left of it" not in words


@pytest.mark.parametrize(
    ("made", "sewn", "words"),
    [
        ("piece pocket, worked flat", SEWN, "2 places for the 1 that is made"),
        ("piece pocket, worked flat, make 2", SEWN.splitlines(keepends=True)[0], "1 place for the 2 that are made"),
    ],
)
def test_as_many_pockets_as_places(made: str, sewn: str, words: str) -> None:
    done = checked(HALVES.replace("piece pocket, worked flat, make 2", made) + sewn)
    found = [one for one in done.problems if one.code == "E511"]
    assert found and words in found[0].message


def test_a_place_that_is_not_said() -> None:
    done = checked(PULLOVER.replace(SEW, "sew  pocket on front"))
    assert codes(done)[0] == "E206" and "8 cm up" in done.problems[0].help
