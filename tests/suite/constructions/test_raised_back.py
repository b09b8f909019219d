"""The back of a neck raised by short rows: turns by hand, rows over each stitch, proof, refusals."""

import pytest
from bodies_kit import FRAME, fabric, garment
from support import EXAMPLES, checked, errors, planned, world, written

from wale.driver import compile_spec

RING = (
    FRAME
    + """
piece pullover, in the round
    cast   on 100 sts in plain
    work   4 rounds
    raise  back 4 cm
    raglan to 102 cm over 22 cm, sleeves 34 cm, underarm 5 cm
    work   10 rounds
    bind   off
    sleeves to 22 cm over 10 cm, cuff 2 cm
"""
)


def numbers(plan, piece="pullover", size=0):
    section = next(one for one in plan.piece(piece).sections if one.address == f"{piece}.raise.rows")
    return {name: int(value) for name, value in section.numbers[size].items() if value.denominator == 1}


def test_turns_by_hand():
    # 4 cm are 11.2 rounds, 5.6 pairs: 6. Of 100 sts the first turns at 20 sts from the middle of the back, the last
    # within 37.5: (37.5 - 20) / 6 = 2.9, so 2 further each time, the last at 20 + 5 x 2 = 30.
    found = numbers(planned(RING))
    assert [found[name] for name in ("pairs", "half", "first", "each", "rest")] == [6, 50, 20, 2, 20]


def test_the_middle_of_the_back_has_two_rows_more_for_each_pair():
    done = written(RING)
    rows = fabric(done, "pullover").rows[4:17]
    # stitch 0 is the first of a round that begins in the middle of the front; 50 the first behind its middle
    worked = [0] * 100
    for row in rows:
        for stitch in range(row.waiting, row.waiting + len(row.ops)):
            worked[stitch] += 1
    # then the round goes on from the middle of the front to that of the back, and it came there before
    worked = [times + 1 for times in worked]
    front, back = worked[0], worked[50]
    assert back - front == 2 * 6 == worked[49] - worked[99]
    # evenly: at the right and the left of the back as many, and fewer by two for each turn that is passed
    assert worked == worked[::-1]
    assert sorted(set(worked)) == list(range(front, back + 1, 2))
    # all from 20 sts at either side of the middle on to 30
    assert worked.count(back) == 2 * 20 and worked.count(front) == 2 * 20


@pytest.mark.parametrize("example", ["headrace-raglan", "tailrace-yoke"])
@pytest.mark.parametrize("is_left_handed", [False, True])
def test_raglans_and_yokes_from_the_neck_down_are_proven(example, is_left_handed):
    text = (EXAMPLES / f"{example}.wale").read_text("utf-8")
    text = text.replace("    work    2 rounds\n", "    work    2 rounds\n    raise   back 5 cm\n")
    done = compile_spec(world(text), "a.wale", is_left_handed=is_left_handed)
    assert done.proof is not None, done.problems
    assert "raise.rows" in done.plan.pieces[0].sections[2].address


@pytest.mark.parametrize(
    "line", ["raglan up to 80 sts over 22 cm", "saddles to 72 sts over 22 cm, straps 16 sts, shoulders 20 sts"]
)
def test_joined_pieces_are_raised_above_their_course(line):
    yoke = f"\npiece yoke, in the round\n    join body with sleeve in plain\n    {line}\n    raise back 3 cm\n"
    done = written(garment(yoke + "    work 4 rounds\n    bind off\n"))
    assert done.proof is not None, done.problems
    # 3 cm are 8.4 rounds: 4 pairs
    assert numbers(done.plan, "yoke")["pairs"] == 4


def test_a_round_that_begins_where_the_back_ends_is_not_raised():
    yoke = "\npiece yoke, in the round\n    join body with sleeve in plain\n    work 4 rounds\n    raise back 3 cm\n"
    assert errors(checked(garment(yoke + "    work 4 rounds\n    bind off\n"))) == ["E405"]


def test_more_turns_than_there_is_room_for_are_refused():
    # 30 cm are 42 pairs, each a stitch further than the one before: from 20 to 61 of the 50 sts at each side
    (code,) = errors(checked(RING.replace("back 4 cm", "back 30 cm")))
    assert code.startswith("E3")
