"""Closed surfaces: what is knitted from the words hangs together, and opens where it should and nowhere else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import pytest
from support import EXAMPLES, ROOT, written
from surface import Surface
from surface_knitter import SurfaceKnitter

from wale.prove.book import read_book
from wale.prove.reader import lines_of, read_by_hand

BOOKS = ROOT / "tests" / "data" / "books"
OPENINGS = {
    ("service-sock", "Service sock"): 1,
    ("childs-mitten", "Child's mitten"): 1,
    ("helmet", "One-piece helmet"): 2,
    # The toe is bound off with both layers held together, which only a note says.
    ("knickerbocker-stocking", "Knickerbocker stocking"): 2,
    ("crowns-and-toes", "Crown of eight wedges"): 1,
    ("crowns-and-toes", "Crown of nine wedges"): 1,
    # Flat pieces, with bind-offs, short rows, and an instep that is picked up along: all round the edge.
    ("serviceable-sweater", "Left front"): 1,
    ("serviceable-sweater", "Back"): 1,
    ("serviceable-sweater", "Sleeve"): 1,
    ("serviceable-sweater", "Pocket"): 1,
    ("babies-bootees", "Babies' long bootees"): 1,
}
"""Top of a sock, cuff of a mitten, edge of a crown; neck and face of a helmet."""
COMPILED = {
    "penstock-socks": 1,
    "wheelpit-socks": 2,
    "millstone-ball": 1,
    "sack-mittens": 1,
    "hopper-mitts": 3,
    "tailpool-shawl": 1,
    "sluice-hat": 1,
    "headrace-raglan": 4,
}
"""Top of a sock; top of one from the toe up and its cast-on, which no row closes; that of a ball; cuff of a mitten;
cuff, knuckles and thumb of a mitt; all round the edge of a shawl; the edge of a hat whose hem is sewn up inside; neck,
hem and two cuffs.
"""
VARIANTS = [
    ("penstock-socks", "heel    flap", "heel    short rows"),
    ("penstock-socks", "toe     wedge", "toe     short rows"),
    ("penstock-socks", "toe     wedge", "toe     round"),
    ("sack-mittens", "thumb-gusset", "afterthought thumb"),
]
"""Other heels, toes and tops in the same garments."""
MITTEN = """Mitten
Cast on 12 sts. Join to a round.
Knit 2 rounds.
Next round: k4, put the next 3 sts on a holder, cast on 3 sts, k to the end.
Knit 2 rounds.
Draw the yarn through all sts.
"""
THUMB = """Take up the 3 held sts.
Pick up and knit 3 sts along the edge that was cast on.
Knit 2 rounds.
Draw the yarn through all sts.
"""


def typed(text: str, name: str = "") -> list[Any]:
    """Give the lines of a piece that is typed in."""
    book = read_book(text)
    piece = next(one for one in book.pieces if name in ("", one.name))
    readings = [step.reading for step in piece.steps if step.reading is not None]
    return [said for _, said in lines_of(readings, book.sizes, 0)]


def example(name: str) -> str:
    """Give the text of an example."""
    return (EXAMPLES / f"{name}.wale").read_text("utf-8")


def printed(text: str) -> Iterator[list[Any]]:
    """Give the printed lines of a spec's piece, size by size."""
    done = written(text)
    assert done.proof is not None
    pattern = done.proof.printed
    (piece,) = pattern.pieces
    readings = [read_by_hand(step) for step in piece.steps if step]
    for size in range(len(pattern.sizes)):
        yield [said for _, said in lines_of(readings, pattern.sizes, size)]


def joined(name: str) -> Iterator[SurfaceKnitter]:
    """Knit the pieces of an example without seams, two sleeves, on one surface, in its first and last size."""
    done = written((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    assert done.proof is not None
    pattern = done.proof.printed
    makes = {piece.name: piece.make for piece in done.plan.pieces}
    for size in (0, len(pattern.sizes) - 1):
        knitter = SurfaceKnitter()
        for piece in pattern.pieces:
            readings = [read_by_hand(step) for step in piece.steps if step]
            lines = [said for _, said in lines_of(readings, pattern.sizes, size)]
            knitter.piece = piece.name
            for _ in range(makes[piece.name]):
                knitter.knit(lines)
        yield knitter


def closed(lines: Sequence[Any], openings: int) -> Surface:
    """See that the lines make one fabric, no stitch left, a sphere with so many openings."""
    knitter = SurfaceKnitter().knit(lines)
    surface = knitter.surface
    assert knitter.open == []
    assert surface.is_connected
    assert len(surface.rims) == openings
    # A sphere has 2, each opening takes 1 away, each handle would take 2.
    assert surface.euler == 2 - openings
    return surface


@pytest.mark.parametrize(("name", "piece"), OPENINGS)
def test_a_piece_of_an_old_book_opens_where_it_should(name: str, piece: str) -> None:
    closed(typed((BOOKS / f"{name}.txt").read_text("utf-8"), piece), OPENINGS[name, piece])


@pytest.mark.parametrize("name", COMPILED)
def test_a_compiled_piece_opens_where_it_should(name: str) -> None:
    for lines in printed(example(name)):
        closed(lines, COMPILED[name])


@pytest.mark.parametrize(("name", "old", "new"), VARIANTS)
def test_a_piece_with_another_end_opens_where_it_should(name: str, old: str, new: str) -> None:
    text = example(name)
    assert old in text
    for lines in printed(text.replace(old, new)):
        closed(lines, COMPILED[name])


def test_an_afterthought_heel_closes_its_opening() -> None:
    text = example("penstock-socks").replace("heel    flap", "afterthought heel")
    text = text.replace("toe     wedge", "toe     wedge\n    heel    wedge")
    for lines in printed(text):
        (waste,) = [at for at, line in enumerate(lines) if getattr(line, "kind", "") == "open"]
        unheeled = SurfaceKnitter().knit(lines[:waste])
        # Half of the stitches wait below the waste yarn; its loops are an opening beside the top.
        assert len(unheeled.surface.rims) == 2
        assert len(unheeled.open) == 2 * lines[waste].number / 2
        closed(lines, 1)


def test_the_ring_of_a_closed_cast_on_is_its_stitches_alone() -> None:
    # 6 cm at 3 sts in a cm, a multiple of four: 16 in each size; and the first of the round above,
    # where the spiral steps up.
    for lines in printed(example("wheelpit-socks")):
        assert frozenset(range(16 + 1)) in closed(lines, 2).rims


@pytest.mark.parametrize("name", ["grist-raglan", "flume-saddle", "weir-yoke"])
def test_body_and_sleeves_that_are_joined_open_at_neck_hem_and_cuffs(name: str) -> None:
    for knitter in joined(name):
        surface = knitter.surface
        assert knitter.open == []
        # hem, neck, two cuffs, and two underarms until they are grafted
        assert len(surface.rims) == 6
        knitter.graft_underarms()
        assert surface.is_connected
        assert len(surface.rims) == 4
        assert surface.euler == 2 - 4


def test_a_tube_has_two_openings_and_a_square_one_edge() -> None:
    tube = typed("Tube\nCast on 8 sts. Join to a round.\nKnit 3 rounds.\nBind off all 8 sts.\n")
    surface = closed(tube, 2)
    # 8 cast on and 3 rounds; one rim has the cast-on stitches and the last round's first step, the other the top's.
    assert surface.stitches == 8 * 4
    assert sorted(map(len, surface.rims)) == [8, 9]
    square = closed(typed("Square\nCast on 5 sts.\nWork 4 rows in stockinette.\nBind off all 5 sts.\n"), 1)
    # Round the edge: 5 below, 5 above, and 3 rows between them at either side.
    assert [len(rim) for rim in square.rims] == [5 + 5 + 2 * 3]


def test_stitches_that_wait_for_a_thumb_are_an_opening_until_it_is_worked() -> None:
    knitter = SurfaceKnitter().knit(typed(MITTEN))
    assert len(knitter.open) == 3
    assert len(knitter.surface.rims) == 2
    closed(typed(MITTEN + THUMB), 1)


def test_a_thumb_that_is_picked_up_short_of_the_gap_leaves_it_open() -> None:
    # Without stitches picked up, the round of the thumb runs across the gap.
    knitter = SurfaceKnitter().knit(typed(MITTEN + "Take up the 3 held sts.\nKnit 3 rounds.\n"))
    # The cuff, the gap, and the stitches of the thumb that are still on the needle.
    assert len(knitter.surface.rims) == 3


def test_an_unworked_stitch_is_found() -> None:
    knitter = SurfaceKnitter().knit(typed(MITTEN.replace("Draw the yarn through all sts.\n", "")))
    assert len(knitter.open) == 3 + 12


def test_a_dropped_stitch_is_found() -> None:
    lines = typed(
        "Cap\nCast on 12 sts. Join to a round.\nKnit 2 rounds.\nKnit 3 rounds.\nDraw the yarn through all sts.\n"
    )
    knitter = SurfaceKnitter()
    for line in lines[:2]:
        knitter.work(line)
    dropped = knitter.left.pop(5)
    assert dropped is not None
    knitter.knit(lines[2:])
    # The yarn passes it by in the next round: a hole beside the cast-on edge, and the stitch is on its rim.
    assert len(knitter.surface.rims) == 2
    assert knitter.surface.euler == 2 - 2
    assert sum(dropped.stitch in rim for rim in knitter.surface.rims) == 1


def test_short_rows_leave_no_opening() -> None:
    heel = "Heel\nCast on 9 sts.\nRow 1 (RS): k7, turn.\nRow 2 (WS): sl1, p4, turn.\nRow 3 (RS): sl1, k to the end.\n"
    closed(typed(heel + "Row 4 (WS): p to the end.\nBind off all 9 sts.\n"), 1)


def test_pieces_that_do_not_hang_together_are_found() -> None:
    surface = Surface()
    surface.sprout(surface.begin(), 1)
    surface.sprout(surface.begin(), 1)
    assert not surface.is_connected
