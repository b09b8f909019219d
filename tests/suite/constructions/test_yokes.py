"""Pullovers without seams: counts by hand, stitches held and joined, proof, and what is refused."""

import pytest
from msgspec.structs import replace
from support import EXAMPLES, checked, errors, planned, world, written

from wale.driver import compile_spec
from wale.prove.proof import prove
from wale.write.facts import facts, printed

YOKE = (EXAMPLES / "weir-yoke.wale").read_text("utf-8")
FRAME = """wale 1

pattern "Weir"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

yarn flour
    count  2/8 Nm wool
    colour #e8dcc0

motif tooth
    repeat 6 sts, 2 rows
    key    |-| rye, |x| flour
    | - - x - - x |
    | - - - x x - |

swatch plain, in the round
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rounds in 10 cm

swatch teeth, in the round
    motif  tooth in rye, flour
    needle 4 mm
    washed 20 sts and 28 rounds in 10 cm

sizes one
    measure bust 90 cm
    ease    bust 10 cm
"""
BODY = """
piece body, in the round
    cast on {body} in plain
    work    to 30 cm
    hold,   underarm {underarm}
"""
SLEEVE = """
piece sleeve, in the round, make 2
    cast on {sleeve} in plain
    work    to 40 cm
    hold,   underarm {underarm}
"""
JOINED = """
piece yoke, in the round
    join body with sleeve in plain
    work 20 rounds
    decrease evenly to 75 percent of joined, named half
    work 10 rounds
    decrease evenly to 50 percent of joined, named three-quarters
    work 10 rounds
    decrease evenly to 30 percent of joined, named neck
    work 4 rounds
    bind off
"""


def garment(body="160 sts", sleeve="64 sts", underarm="12 sts"):
    parts = (FRAME, BODY, SLEEVE, JOINED)
    return "".join(parts).format(body=body, sleeve=sleeve, underarm=underarm)


def ring(*lines):
    return FRAME + "\npiece cowl, in the round\n    cast on 60 cm in plain\n    " + "\n    ".join(lines) + "\n"


def counts(plan, piece="yoke", size=0):
    return {level.label: level.counts[size] for level in plan.piece(piece).levels}


def test_the_percentage_yoke_of_240_stitches():
    # W119: percentage yoke (E. Zimmermann), 240 sts at joining: 240 x 0.75 = 180, x 2/3 = 120, x 0.6 = 72.
    # 160 + 2 x 64 - 4 x 12 = 240 sts are joined.
    assert counts(planned(garment())) == {"joined": 240, "half": 180, "three-quarters": 120, "neck": 72}


def test_the_percentages_of_the_knitting_workshop():
    # W120: of K = 200 sts an upper arm has 33 %, 66, and an underarm 8 %, 16: 200 + 2 x 66 - 4 x 16 = 268 are joined.
    plan = planned(garment("200 sts", "66 sts", "16 sts"))
    assert counts(plan)["joined"] == 268
    # front and back: 200 / 2 - 16 = 84; of a sleeve 66 - 16 = 50 are left
    assert plan.piece("body").holders == ((16, 84, 16, 84),)
    assert plan.piece("sleeve").holders == ((16, 50),)
    assert plan.piece("yoke").joined == (("sleeve", (50,)), ("body", (84,)), ("sleeve", (50,)), ("body", (84,)))


def test_three_decrease_rounds_are_written_as_published():
    # W119: (k2, k2tog) takes a quarter, (k1, k2tog) a third
    done = written(garment())
    steps = [
        f"{item.strong} {item.text}"
        for section in done.pattern.sections
        if section.id == "piece-yoke"
        for part in section.parts
        for item in getattr(part, "items", ())
    ]
    text = "\n".join(steps)
    assert "decrease 60 sts evenly: (k2, k2tog) 60 times. 180 sts." in text
    assert "decrease 60 sts evenly: (k1, k2tog) 60 times. 120 sts." in text
    assert "Join: slip onto one 4 mm (US 6) circular needle 52 held sts of the sleeve, 68 held sts of the body" in text


def test_all_sizes_are_found_together():
    plan = planned(YOKE)
    body, sleeve, yoke = (plan.piece(name) for name in ("torso", "sleeve", "yoke"))
    for size in range(len(plan.sizes)):
        girth, arm = body.levels[-1].counts[size], sleeve.levels[-1].counts[size]
        underarm = body.holders[size][0]
        assert body.holders[size] == (underarm, girth // 2 - underarm) * 2 and girth % 2 == 0
        assert sleeve.holders[size] == (underarm, arm - underarm)
        assert yoke.levels[0].counts[size] == girth + 2 * arm - 4 * underarm
        # 2.2 sts in a cm: 5 cm are 11 sts
        assert underarm == 11
        assert yoke.level("half").counts[size] % 4 == 0
        # as deep as a quarter of the girth: the decrease for the neck ends it; a round is a thirtieth of 10 cm
        deep = next(
            section.position[size] for section in yoke.sections if section.last == yoke.levels.index(yoke.level("neck"))
        )
        assert abs(deep - body.level("bust").width(size) / 4) <= 10 / 26


@pytest.mark.parametrize("is_left_handed", [False, True])
def test_the_example_is_proven(is_left_handed):
    done = compile_spec(world(YOKE), "a.wale", is_left_handed=is_left_handed)
    assert done.proof is not None, done.problems
    assert [one.code for one in done.problems if one.code[0] in "EW"] == []


@pytest.mark.parametrize(
    ("piece", "old", "new", "told"),
    [
        ("body", "68 sts, 12 sts", "67 sts, 13 sts", "are underarms"),
        ("body", "12 sts (underarm), 68 sts, 12", "12 sts, 68 sts, 12", "are underarms"),
        ("sleeve", "12 sts (underarm), 52 sts", "13 sts (underarm), 51 sts", "are underarms"),
        ("sleeve", "52 sts", "53 sts", "65 sts are held of 64"),
        (
            "yoke",
            "52 held sts of the sleeve, 68 held sts of the body",
            "68 held sts of the body, 52 held sts of the sleeve",
            "are joined",
        ),
        ("yoke", "held sts of the body: 240 sts", "held sts of the body: 241 sts", "240 sts are joined, not 241"),
    ],
)
def test_words_that_hold_or_join_others_are_caught(piece, old, new, told):
    done = written(garment())
    whole, known = printed(done.spec, done.plan, done.pattern, [0]), facts(done.spec, done.plan, [0])
    assert prove(whole, known) == []
    pieces = tuple(
        replace(one, steps=tuple(step.replace(old, new, 1) for step in one.steps)) if one.name == piece else one
        for one in whole.pieces
    )
    assert pieces != whole.pieces
    found = prove(replace(whole, pieces=pieces), known)
    assert told in "; ".join(one.message for one in found)


def test_what_is_taken_is_held_against_what_others_hold():
    """The facts of the yoke alone agree with its words here; only the pieces side by side show it."""
    done = written(garment())
    whole, known = printed(done.spec, done.plan, done.pattern, [0]), facts(done.spec, done.plan, [0])
    pieces, wrong = [], []
    for piece in whole.pieces:
        if piece.name == "sleeve":
            held = "13 sts (underarm), 51 sts"
            piece = replace(piece, steps=tuple(one.replace("12 sts (underarm), 52 sts", held) for one in piece.steps))
        pieces.append(piece)
    for fact in known.pieces:
        wrong.append(replace(fact, waiting=(13, 51), underarms=(13,)) if fact.piece == "sleeve" else fact)
    found = prove(replace(whole, pieces=tuple(pieces)), replace(known, pieces=tuple(wrong)))
    assert [one.piece for one in found] == ["yoke", "body"]


def test_one_row_reaches_a_change_of_fabric_and_a_width():
    lines = ("work 10 rounds", "decrease evenly to 50 cm", "work in tooth on teeth, whole repeats", "work 4 rounds")
    plan = planned(ring(*lines, "work in plain", "increase evenly to 66 cm", "work 5 rounds", "bind off"))
    # 60, 50 and 66 cm at 2 sts in a cm: 120, 100 and 132; whole repeats of 6 near 100 are 102 (51 cm)
    (cowl,) = plan.pieces
    assert [level.counts for level in cowl.levels] == [(120,), (102,), (132,)]
    assert [section.even_change for section in cowl.sections] == [(-18,), None, None]
    # above the motif the first plain round gains them, so that no round of the motif is lost
    assert [section.even_start for section in cowl.sections] == [None, None, (30,)]


def test_flat_pieces_change_evenly_too():
    text = FRAME.replace("swatch plain, in the round", "swatch plain, worked flat").replace("28 rounds", "28 rows")
    text += "\npiece panel, worked flat\n    cast on 40 cm in plain\n    work 10 rows\n    increase evenly to 50 cm\n"
    done = written(text + "    work 10 rows\n    bind off\n")
    assert done.proof is not None
    # 80 sts; no seam takes the edge stitches, so they count
    assert counts(done.plan, "panel") == {"cast-on": 80, "evenly": 100}


@pytest.mark.parametrize(
    "lines",
    [
        ("decrease evenly to 50 cm", "work 4 rounds"),
        ("work 4 rounds", "decrease evenly to 50 cm", "decrease evenly to 40 cm", "work 4 rounds"),
        ("work in tooth on teeth, whole repeats", "work 4 rounds", "decrease evenly to 50 cm", "work 4 rounds"),
        ("work 4 rounds", "decrease evenly to 90 percent of waist", "work 4 rounds"),
        ("work 4 rounds", "bind off", "decrease evenly to 50 cm"),
    ],
    ids=["no rows above", "two at once", "within a motif", "no such level", "after the end"],
)
def test_an_even_change_that_cannot_stand_there_is_refused(lines):
    assert errors(checked(ring(*lines))) == ["E405"]


@pytest.mark.parametrize("line", ["decrease evenly to 70 cm", "increase evenly to 50 cm", "decrease evenly to 20 cm"])
def test_a_row_that_cannot_lead_there_is_a_conflict(line):
    (code,) = errors(checked(ring("work 4 rounds", line, "work 4 rounds", "bind off")))
    assert code.startswith("E3")


@pytest.mark.parametrize("percent", ["decrease evenly to 120", "increase evenly to 80", "increase evenly to 4000"])
def test_a_share_that_is_none_is_refused(percent):
    assert errors(checked(ring("work 4 rounds", f"{percent} percent of cast-on", "work 4 rounds"))) == ["E223"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("    hold,   underarm 12 sts\n\npiece sleeve", "    bind off\n\npiece sleeve"),
        ("sleeve, in the round, make 2", "sleeve, in the round"),
        ("join body with sleeve", "join body with body"),
        (JOINED, ""),
    ],
    ids=["not held", "one sleeve", "joined twice", "held for nothing"],
)
def test_pieces_that_do_not_fit_are_refused(old, new):
    text = garment().replace(old, new)
    assert text != garment()
    assert set(errors(checked(text))) == {"E440"}


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("    join body with sleeve in plain\n    work 20 rounds\n", "    join body with sleeve in plain\n", "E405"),
        ("    join body with sleeve in plain\n", "    join body with sleeve in plain\n    rib 2 cm, 2x2\n", "E405"),
        ("    join body with", "    cast on 240 sts in plain\n    join body with", "E405"),
        ("hold,   underarm 12 sts", "hold", "E206"),
        ("work    to 30 cm\n    hold,", "work    to 30 cm\n    bind off\n    hold,", "E405"),
    ],
    ids=["no rounds", "a rib at once", "cast on as well", "no underarm", "bound off as well"],
)
def test_lines_that_cannot_hold_or_join_are_refused(old, new, code):
    text = garment().replace(old, new)
    assert text != garment()
    assert code in errors(checked(text))


FINE = """swatch fine, in the round
    motif  tooth in rye, flour
    needle 4 mm
    washed 22 sts and 28 rounds in 10 cm

sizes one
"""


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("sleeve in plain\n", "sleeve in plain\n    work in tooth on fine\n"),
        ("sleeve in plain\n", "sleeve in fine\n"),
    ],
)
def test_joined_stitches_have_the_gauge_in_which_they_were_worked(old, new):
    """The 240 sts are as many at any gauge: at 22 sts in 10 cm they would be 109 cm, and 120 cm were joined."""
    text = garment().replace("sizes one\n", FINE).replace(old, new)
    assert errors(checked(text)) == ["E405"]
    later = (
        garment()
        .replace("sizes one\n", FINE)
        .replace("20 rounds", "2 rounds\n    work in tooth on fine\n    work 18 rounds")
    )
    later = later.replace("    decrease evenly to 75 percent", "    work in plain\n    decrease evenly to 75 percent")
    assert errors(checked(later)) == []


def test_underarms_that_cannot_match_are_a_conflict():
    text = garment().replace("hold,   underarm 12 sts\n\npiece yoke", "hold,   underarm 13 sts\n\npiece yoke")
    (code,) = errors(checked(text))
    assert code.startswith("E3")


def test_a_yoke_has_to_pass_the_head():
    # 72 sts at 2 in a cm are 36 cm; without a swatch that was pulled it is not known whether that passes a head
    done = checked(garment())
    (found,) = (one for one in done.problems if one.code == "N607")
    assert "the yoke at the neck" in found.message and "the yoke at the joined" not in found.message


def test_the_drawing_sets_the_yoke_on_the_body():
    # 160 sts at 2 in a cm lie 40 cm wide, 30 cm high; the yoke begins 240 / 2 / 2 = 60 cm wide at that height
    done = written(garment())
    assert done.pattern.drawing is not None
    shapes = [part.outline for part in done.pattern.drawing.parts]
    body, yoke = shapes[-2], shapes[-1]
    assert {(round(x, 6), round(y, 6)) for x, y in body} == {(-20.0, 0.0), (20.0, 0.0), (-20.0, 30.0), (20.0, 30.0)}
    assert min(y for _, y in yoke) == pytest.approx(30)
    assert {round(x, 6) for x, y in yoke if y == min(at for _, at in yoke)} == {-30.0, 30.0}
    # 44 rounds at 2.8 in a cm
    assert max(y for _, y in yoke) == pytest.approx(30 + 44 / 2.8)
