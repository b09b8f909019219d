"""Front and back of different width, and ease and lengths that differ from size to size."""

from __future__ import annotations

from fractions import Fraction

from support import PLAIN, checked, codes, errors, planned, written

TOP = f"""wale 1

pattern "Hopper"

{PLAIN}
sizes S M L
    measure bust 80 (90, 100) cm
    ease    bust 10 (6, 12) cm

"""
VEST = (
    TOP
    + """piece back, worked flat
    cast on   bust/2 - 3 cm in plain
    work      to 30 (32, 33) cm
    mark      underarm
    bind off  2 cm each side
    work      to 50 (52, 55) cm
    neck      16 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, as back
    cast on  bust/2 + 3 cm in plain
    bind off 5 cm each side
    neck     16 cm wide, 8 cm deep

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
"""
)


def test_a_front_that_is_wider_meets_the_back_in_rows_and_at_the_shoulders() -> None:
    plan = planned(VEST)
    back, front = plan.pieces
    # 2 sts in a cm, a seam stitch at each side: (90/2 - 3) x 2 + 2 = 86 and (90/2 + 3) x 2 + 2 = 98 in size S
    assert (back.levels[0].counts[0], front.levels[0].counts[0]) == (86, 98)
    # 2 cm and 5 cm are 4 and 10 sts at each side, so that both go on with 78
    assert (back.levels[1].counts[0], front.levels[1].counts[0]) == (78, 78)
    assert [section.rows for section in back.sections] == [section.rows for section in front.sections]
    assert back.top is not None and front.top is not None
    assert back.top.shoulder == front.top.shoulder
    # finished round both: the bust with its ease, as both widths together
    around = back.levels[0].width(0) + front.levels[0].width(0)
    assert abs(around - 90) <= 3


def test_what_is_printed_of_both_is_knitted_and_joined() -> None:
    done = written(VEST)
    assert done.pattern is not None and done.proof is not None
    assert errors(done) == []


def test_shoulders_that_cannot_meet_are_told_with_both_widths() -> None:
    straight = "\n".join(line for line in VEST.split("\n") if not line.startswith("    bind off"))
    done = checked(straight.replace("bust/2 + 3 cm", "bust/2 + 6 cm"))
    assert codes(done) == ["E303"]
    places = [done.sources["a.wale"].cut(label.span) for label in done.problems[0].labels]
    assert any("shoulders with front shoulders" in place for place in places)


def test_ease_and_lengths_of_each_size_are_its_own() -> None:
    plan = planned(VEST)
    back = plan.pieces[0]
    # bust 80 + 10, 90 + 6, 100 + 12 cm: halves of 45, 48, 56 less 3 cm, 2 sts in a cm, 2 seam sts
    assert back.levels[0].counts == (86, 92, 108)
    ends = [sum((section.length(size) for section in back.sections), Fraction(0)) for size in range(3)]
    for end, wanted in zip(ends, (50, 52, 55), strict=True):
        assert abs(end - wanted) <= Fraction(3, 2)
