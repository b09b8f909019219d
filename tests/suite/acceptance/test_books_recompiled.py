"""Whole patterns of old books, written as specs: the counts that the books state come out.

The stocking is of H. P. Ryder, Cycling and Shooting Knickerbocker Stockings (Macmillan, 1896), Project Gutenberg 37456;
all else of the Handbook of Wool Knitting and Crochet (Needlecraft Publishing Co., 1918), Project Gutenberg 26113. Both
are public domain. Each function names its heading and quotes it. Where the book gives a gauge, it is the spec's. Else a
gauge is ours, and widths that the book tells as stitches are written at it. What differs by rule stands in
docs/constructions.md, "Patterns of old books", and is asserted here too.
"""

from __future__ import annotations

from fractions import Fraction

from support import errors, written

from wale.constructions.mittens import THUMB_GUSSET
from wale.course import rows_made
from wale.plan import PiecePlan, Section

HEAD = """wale 1

pattern "From an old book"

yarn rye
    count   400 m per 100 g wool
    colour  #8a5a2b

swatch plain, GAUGE
    stretch 40 sts = 24 cm

sizes one
"""


def piece(gauge: str, body: str, name: str) -> PiecePlan:
    """Give a piece of a spec that is compiled and proven."""
    done = written(HEAD.replace("GAUGE", gauge) + body)
    assert errors(done) == []
    assert done.proof is not None
    assert done.plan is not None
    found = done.plan.piece(name)
    assert found is not None
    return found


def section(found: PiecePlan, name: str) -> Section:
    """Give the section of a piece by the end of its address."""
    (one,) = (one for one in found.sections if one.address == f"{found.name}.{name}")
    return one


def numbers(found: PiecePlan, name: str, *asked: str) -> tuple[int, ...]:
    """Give numbers of a course."""
    return tuple(int(section(found, name).numbers[0][one]) for one in asked)


ROUND = "in the round\n    fabric stockinette in rye\n    needle 3 mm\n    washed "


def test_the_childs_mitten() -> None:
    """Counts of "Child's Knitted Mittens"; the gauge of 3 stitches in a cm is ours: the book has none.

    The book's hand goes on with 60 stitches; ours loses two of them three times, to 54. Its tip is narrowed in every
    5th, 4th ... stitch; ours is a crown of six wedges. Its hand is in a pattern of four rounds; ours is plain.
    """
    body = """
piece mitten, in the round, make 2
    cast on 54 sts in plain
    rib     2 inches, 2x1
    work    in plain
    thumb-gusset
    work    5 cm
    crown   6 wedges over 5 cm
    thumb   4 cm
"""
    mitten = piece(ROUND + "30 sts and 40 rounds in 10 cm", body, "mitten")
    # "Cast 18 stitches on each of three needles. Knit 2, purl 1 ... say two inches."
    assert mitten.levels[0].counts == (3 * 18,)
    # "until you have 21 stitches across the thumb"; "cast on 7 stitches, or one third the number widened"
    assert numbers(mitten, "thumb-gusset.gusset", "held", "cast") == (21, 7)
    # 54 and 20 widened, 21 off and 7 on
    assert numbers(mitten, "thumb-gusset.gusset", "all", "hand") == (54 + 20, 54 + 20 - 21 + 7)
    # "adding 2 stitches between the widenings every 3d row": 1, 3, 5 ... 21 stitches of the thumb
    made = rows_made(THUMB_GUSSET.parts[0], section(mitten, "thumb-gusset.gusset").numbers[0])
    assert [row.after for row in made[:28]] == [56 + 2 * (at // 3) for at in range(28)]
    # "with the 3d pick up and knit the stitches across the hand, which were cast on"
    assert numbers(mitten, "thumb.thumb", "picked") == (21 + 7,)
    # ours: back to 54 before the tip, 60 less 3 x 2
    assert numbers(mitten, "thumb-gusset.gusset", "losses") == (3,)
    assert mitten.levels[-1].counts == (60 - 3 * 2,)


def test_the_service_sock() -> None:
    """Counts of "Service Sock"; the gauge of 3 stitches in a cm is ours: the book has none.

    The book has a purled seam stitch at the back, so that its heel is worked over 31 stitches; ours has none and 30.
    The book turns it to 16 stitches and picks up 17 at each side; ours turns it to 18 and picks up 16: 80 in both.
    The book narrows the leg in four rounds, we in one. Its toe ends with 4 stitches on the front needle, ours with 8.
    """
    body = """
    measure ankle         20 cm
    measure foot-length   26 cm
    measure heel-diagonal 30 cm
    ease    ankle 0 cm, foot-length 0 cm

piece sock, in the round, make 2
    cast on 68 sts in plain
    rib     3 1/2 inches, 2x2
    work    in plain
    work    4 inches
    decrease evenly to ankle
    work    1 inch
    heel    flap
    work    to foot-length - 5 cm
    toe     wedge
"""
    sock = piece(ROUND + "30 sts and 40 rounds in 10 cm", body, "sock")
    # "Cast on 24 stitches on each of 2 needles, and 20 on the 3d."
    assert sock.levels[0].counts == (24 + 24 + 20,)
    # "narrowing as directed every 6th round, 4 times": 68 less 4 x 2, the seam stitch apart
    assert sock.levels[-1].counts == (68 - 4 * 2,)
    # "Place 15 stitches each side of the middle or seam-stitch"; "knit the 30 left on the needle for front of foot"
    assert numbers(sock, "heel.flap", "heel", "instep") == (15 + 15, 30)
    # "pick up 17 down other side of heel": 16 turned, 17 at each side, 30 in front
    assert numbers(sock, "heel.gusset", "around") == (16 + 2 * 17 + 30,)
    # ours: 30 rows of the flap give 15 at each side and one at the gap, which leaves 18
    assert numbers(sock, "heel.gusset", "picked") == (15 + 1,)
    assert section(sock, "heel.flap").rows == (30,)
    # "making 10 narrowings for the instep", every 2d round, "until there are 15 stitches on each side needle"
    assert numbers(sock, "heel.gusset", "decreases", "before") == (10, 15 + 30 + 15)
    # ours: four narrowings in a round of the toe, eleven times: 60 less 44 is the 8 and 8 that are grafted
    assert numbers(sock, "toe.toe", "side") == (8,)


def test_the_knickerbocker_stocking() -> None:
    """Counts of "Knickerbocker Stocking with Fancy Top, No. 1" in Ryder (1896); the gauge is ours: the book has none.

    The book has 57 stitches at the ankle, and takes one away before the toe; ours has 56 all along, for its heel is
    half of them. The book decreases the calf at the back, two and then one at a time; ours all round, in one round.
    Its ribs of 2, 2, 2, 2, 2 and 9 are plain in ours. Its flap has 30 rows and 17 picked up at each side; ours as many
    rows as stitches, 28, and 15 picked up: 74 stitches begin the foot, where the book has 79.
    """
    body = """
    measure ankle         18 2/3 cm
    measure foot-length   8 1/2 inches
    measure heel-diagonal 30 cm
    ease    ankle 0 cm, foot-length 0 cm

piece stocking, in the round, make 2
    cast on 78 sts in plain
    rib     6 inches, 1x1
    work    in plain
    decrease evenly to 76/3 * 1 cm, named leg
    work    to 8 inches
    increase evenly to 82/3 * 1 cm, named calf
    work    to 11 inches
    decrease evenly to ankle
    work    to 22 inches
    heel    flap
    work    to foot-length - 5 cm
    toe     wedge
"""
    stocking = piece(ROUND + "30 sts and 40 rounds in 10 cm", body, "stocking")
    # "cast on 78 stitches"; "29 stitches on back needle, 76 in all"; in the calf's 1st, 7th and 13th round 2 raised
    assert [level.counts for level in stocking.levels[:3]] == [(78,), (76,), (76 + 3 * 2,)]
    # "57 stitches in all on the needles", one of which goes before the toe: "28 stitches on instep needle, 14 on each"
    assert stocking.levels[-1].counts == (28 + 14 + 14,)
    # "Continue ribbing until the stocking measures, from casting on, 22 inches": 223.52 rounds of a quarter cm
    assert sum(one.rows[0] for one in stocking.sections[:4]) == 224
    # "This gives you 28 stitches on the heel needle."
    assert numbers(stocking, "heel.flap", "heel") == (28,)
    # "To round Heel": 12 rows, each with a decrease; "16 stitches will be left on the heel needle"
    assert section(stocking, "heel.turn").rows == (12,)
    around, picked, instep = numbers(stocking, "heel.gusset", "around", "picked", "instep")
    assert around - 2 * picked - instep == 28 - 12
    # ours: 28 rows of the flap give 14 at each side, and one at the gap
    assert picked == 14 + 1
    # "until you have only 8 stitches left on the instep and 8 on back needles": 56 less 4 x 10 are 16
    assert numbers(stocking, "toe.toe", "side", "decreases") == (8, 10)


FLAT = "worked flat\n    fabric FABRIC in rye\n    needle 4 mm\n    washed "


def test_the_red_cross_sleeveless_sweater() -> None:
    """Counts of "Sleeveless Sweater" for the Red Cross, at its gauge; rows in an inch are ours.

    The book knits it in one piece over the shoulders, with a straight neck; ours is a back and a front, the neck 1 inch
    deep in each (the 7 ridges of a shoulder), so that some of its stitches go in steps.
    """
    body = """
piece back, worked flat
    cast on   80 sts in plain
    rib       4 inches, 2x2
    work      in plain
    work      to 26 inches
    neck      48/11 inches wide, 1 inch deep
    shoulders straight

piece front, as back

join
    seam back shoulders with front shoulders, mattress stitch
"""
    # "11 stitches should measure two inches"
    back = piece(FLAT.replace("FABRIC", "stockinette") + "11 sts = 2 inches, 7 rows = 1 inch", body, "back")
    # "Cast on 80 stitches. Knit 2, purl 2 stitches for 4 inches."
    assert [level.counts for level in back.levels] == [(80,), (80,)]
    assert section(back, "rib[1]").length(0) == 4 * Fraction("2.54")
    # "Knit 28 stitches, bind off 24 stitches for neck, loose. Knit 28 stitches."
    assert back.top is not None
    assert (back.top.shoulder, back.top.neck) == ((28,), (24,))
    # "Knit plain until sweater measures 25 inches", and the shoulder's inch: 26 inches of 7 rows
    assert back.total_rows(0) == 26 * 7


def test_the_back_of_a_sleeveless_sweater() -> None:
    """Counts of the back of "A Sleeveless Sweater"; 5 stitches and 7 rows in an inch are ours: the book has no gauge.

    The book's border of 30 rows is in checks of 5; ours is garter. It binds all 17 stitches of the neck off in one row;
    ours goes round in steps over the 6 rows of the shoulder. Its fronts grow out of the shoulders: not asked of ours.
    """
    body = """
piece back, worked flat
    cast on   85 sts in plain
    garter    30 rows
    work      in plain
    work      84 rows
    shape     to 79/5 * 1 inch over 6 rows
    work      38 rows
    neck      17/5 * 1 inch wide, 6/7 * 1 inch deep
    shoulders straight
"""
    back = piece(FLAT.replace("FABRIC", "stockinette") + "5 sts = 1 inch, 7 rows = 1 inch", body, "back")
    # "Cast on 85 stitches"; "the border is five checks deep, or 30 rows"; "purl back for 84 rows"
    assert back.levels[0].counts == (85,)
    assert [one.rows for one in back.sections[:2]] == [(30,), (84,)]
    # "narrow 1 stitch each side every other row, three times, for the armhole, leaving 79 stitches"
    assert back.levels[-1].counts == (79,)
    (schedule,) = section(back, "shape[1]").schedules
    assert (schedule.first, schedule.then, schedule.total_rows) == (1, ((2, 2),), 6)
    # "knit 31, bind off 17 stitches for neck, and on the remaining 31 stitches, knit 6 rows"
    assert back.top is not None
    assert (back.top.shoulder, back.top.neck, back.top.neck_rows) == ((31,), (17,), (6,))


def test_the_muffler() -> None:
    """Counts of "Muffler", at its gauge in width; 7 rows in an inch are ours. Nothing differs."""
    body = """
piece muffler, worked flat
    cast on 11 inches in plain
    work    to 68 inches
    bind off
"""
    muffler = piece(FLAT.replace("FABRIC", "garter") + "50 sts = 11 inches, 7 rows = 1 inch", body, "muffler")
    # "Cast on 50 stitches, measuring 11 inches, and knit back and forth until the muffler is sixty-eight inches"
    assert [level.counts for level in muffler.levels] == [(50,)]
    assert muffler.levels[0].width(0) == 11 * Fraction("2.54")
    assert muffler.total_rows(0) == 68 * 7


def test_wristlets_made_in_one_piece() -> None:
    """Counts of "Thumbless Mitt or Wristlet", at its gauge in width; 12 rounds in an inch are ours.

    The book works back and forth for two inches, which leaves an opening for the thumb; ours is closed there.
    """
    body = """
piece wristlet, in the round, make 2
    cast on 52 sts in plain
    rib     14 inches, 2x2
    bind off, loosely
"""
    wristlet = piece(ROUND + "9 sts = 1 inch, 12 rounds = 1 inch", body, "wristlet")
    # "Cast on 52 stitches on 3 needles; 16-16-20. Knit 2, purl 2"
    assert wristlet.levels[0].counts == (16 + 16 + 20,)
    # "Knit 2, purl 2, for 8 inches"; "back and forth for 2 inches"; "continue as at first for 4 inches for the hand"
    assert wristlet.total_rows(0) == (8 + 2 + 4) * 12
