"""Two small garments planned by hand: 2 sts and 3 rows to the cm everywhere, so that each coordinate is easy to reckon.

Pullover, sizes S, M, L (values below are M): back and front of 102 sts (50 cm and 1 edge stitch each side), 10 cm even,
20 cm to 112 sts (55 cm), underarm at 30 cm, 24 cm more; neck 36 sts, shoulders 38, slope 6 rows. Sleeve: 6 cm rib of
36 sts, 42 after it, 30 cm to 90 sts, 4 cm even. Hat, one size: 80 sts, 10 cm, a crown of 8 wedges in 18 rounds.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from wale.actions import Crown, Edge, Fabric, Fit, Hem, Neck, PomPom, Rib, Shape, Shoulders, Step, Work
from wale.materials import Gauge, Motif, Swatch, Yarn
from wale.measure import Constant, Measure
from wale.plan import BandPlan, CrownPlan, Level, PiecePlan, Plan, Section, Top
from wale.shaping.taper import schedule
from wale.source import Source, Span
from wale.spec import Band, Seam, SetIn, Size, Spec

SOURCE = Source("hand.wale", 'wale 1\n\npattern "By hand"\n')
AT = Span("hand.wale", 8, 12)
STS, ROWS = Fraction(2), Fraction(3)
SIZES = ("S", "M", "L")
RYE, FLOUR = "#8a5a2b", "#efe6d2"
GRAIN = Motif("grain", AT, (("rye", "rye", "rye", "flour"), ("rye",) * 4), (AT, AT), (("rye", "-"), ("flour", "x")), 2)
"""Row 1 has flour in column 0, row 3 in column 2 (a shift of 2); rows 2 and 4 are plain."""


def cm(value: object, sizes: int = 3, words: str = "") -> Measure:
    return Measure(Constant((Fraction(str(value)),) * sizes), "length", AT, words or f"{value} cm")


EASY = Fabric("easy", "grain", Fit("edge", AT), AT)


def _spec(title: str, sizes: tuple[str, ...]) -> Spec:
    gauge = Gauge(STS, ROWS, AT)
    swatches = {
        "easy": Swatch("easy", AT, False, "motif", "grain", ("rye", "flour"), Fraction(7, 2), gauge),
        "plain": Swatch("plain", AT, False, "stockinette", None, ("rye",), Fraction(3), gauge),
    }
    yarns = {
        "rye": Yarn("rye", AT, RYE, "2/8 Nm", "wool", Fraction(400)),
        "flour": Yarn("flour", AT, FLOUR, "2/8 Nm", "wool", Fraction(400)),
    }
    return Spec(
        title,
        "",
        "A4",
        "cm",
        "",
        tuple(Size(name, {}, {}, AT) for name in sizes),
        yarns,
        swatches,
        {"grain": GRAIN},
        (),
        (),
        (),
    )


def _level(piece: str, label: str, counts: tuple[int, ...], edges: int, off: Fraction = Fraction(0)) -> Level:
    wishes = tuple((count - edges) / STS - off for count in counts)
    return Level(f"{piece}.{label}", label, counts, edges, STS, wishes, cm(1, len(counts), label), "easy", edges)


def _body(name: str, neck_rows: int, centre: int, steps: tuple[int, ...]) -> PiecePlan:
    hem = Step("back.hem", Hem(cm(3), None, False, AT))
    work, more = Step("back.work[1]", Work(cm(10), False, AT)), Step("back.work[2]", Work(cm(54), True, AT))
    shape = Step("back.shape[1]", Shape(cm(55), cm(20), False, "bust", AT))
    neck = Step(f"{name}.neck", Neck(cm(18), cm(Fraction(neck_rows, 3)), "round", AT))
    shoulders = Step("back.shoulders", Shoulders(cm(2), "short rows", AT))
    taper = schedule(5, 60)
    assert taper is not None
    where = tuple(Fraction(value) for value in (0, 10, 30, 54))
    three = [(at,) * 3 for at in where]
    sections = (
        Section(
            f"{name}.hem.facing",
            "facing",
            hem,
            (9,) * 3,
            ROWS,
            "plain",
            0,
            0,
            (Fraction(3),) * 3,
            False,
            three[0],
            cm(3),
        ),
        Section(f"{name}.hem.turning", "turning", hem, (1,) * 3, ROWS, "plain", 0, 0, None, False, three[0], None),
        Section(
            f"{name}.work[1]",
            "work",
            work,
            (30,) * 3,
            ROWS,
            "easy",
            1,
            1,
            (Fraction(10),) * 3,
            False,
            three[1],
            cm(10),
            EASY,
            (),
            (0,) * 3,
            None,
            (Fraction(1, 2),) * 3,
        ),
        Section(
            f"{name}.shape[1]",
            "shape",
            shape,
            (60,) * 3,
            ROWS,
            "easy",
            1,
            2,
            (Fraction(20),) * 3,
            False,
            three[2],
            cm(20),
            EASY,
            (taper,) * 3,
            (2,) * 3,
            None,
            (Fraction(1, 2),) * 3,
        ),
        Section(
            f"{name}.work[2]",
            "work",
            more,
            (72,) * 3,
            ROWS,
            "easy",
            2,
            2,
            (Fraction(54),) * 3,
            True,
            three[3],
            cm(54),
            EASY,
            (),
            (2,) * 3,
            None,
            (Fraction(1, 2),) * 3,
        ),
    )
    neck_stitches = centre + 2 * sum(steps)
    held = tuple((count - neck_stitches) // 2 for count in (102, 112, 122))
    top = Top(
        (neck_stitches,) * 3,
        held,
        (neck_rows,) * 3,
        (centre,) * 3,
        (steps,) * 3,
        (6,) * 3,
        tuple((one // 4, one // 4, one // 4, one - 3 * (one // 4)) for one in held),
        (Fraction(18),) * 3,
        (Fraction(neck_rows, 3),) * 3,
        (Fraction(3),) * 3,
        neck,
        shoulders,
        "short rows",
    )
    levels = (
        _level(name, "cast-on", (90, 100, 110), 2, Fraction(1, 2)),
        _level(name, "hip", (92, 102, 112), 2),
        _level(name, "bust", (102, 112, 122), 2, Fraction(1, 4)),
    )
    steps_of = (hem, work, shape, more, neck, shoulders)
    return PiecePlan(
        name, AT, False, 1, Edge(1, "rye"), levels, sections, top, None, steps_of, (("underarm", (100,) * 3),)
    )


def _sleeve() -> PiecePlan:
    rib = Step("sleeve.rib", Rib(cm(6), 2, 2, None, AT))
    shape = Step("sleeve.shape[1]", Shape(cm(44), cm(30), False, "armhole", AT))
    work = Step("sleeve.work[1]", Work(cm(40), True, AT))
    taper = schedule(24, 90)
    assert taper is not None
    where = [(Fraction(value),) * 3 for value in (6, 36, 40)]
    sections = (
        Section(
            "sleeve.rib",
            "rib",
            rib,
            (18,) * 3,
            ROWS,
            "plain",
            0,
            1,
            (Fraction(6),) * 3,
            False,
            where[0],
            cm(6),
            None,
            (),
            None,
            (6,) * 3,
        ),
        Section(
            "sleeve.shape[1]",
            "shape",
            shape,
            (90,) * 3,
            ROWS,
            "easy",
            1,
            2,
            (Fraction(30),) * 3,
            False,
            where[1],
            cm(30),
            EASY,
            (taper,) * 3,
            (3,) * 3,
            None,
            (Fraction(1, 2),) * 3,
        ),
        Section(
            "sleeve.work[1]",
            "work",
            work,
            (12,) * 3,
            ROWS,
            "easy",
            2,
            2,
            (Fraction(40),) * 3,
            True,
            where[2],
            cm(40),
            EASY,
            (),
            (1,) * 3,
            None,
            (Fraction(1, 2),) * 3,
        ),
    )
    levels = (
        _level("sleeve", "cast-on", (36,) * 3, 2),
        _level("sleeve", "wrist", (42,) * 3, 2),
        _level("sleeve", "armhole", (90,) * 3, 2),
    )
    return PiecePlan("sleeve", AT, False, 2, Edge(1, "rye"), levels, sections, None, None, (rib, shape, work))


def pullover() -> tuple[Spec, Plan]:
    rib = Rib(cm(Fraction(2)), 1, 1, None, AT)
    edges = (("back", "neck"), ("front", "neck"))
    joins = (Seam((("back", "shoulders"), ("front", "shoulders")), "three-needle bind-off", AT), SetIn("sleeve", AT))
    spec = replace(_spec("By hand", SIZES), bands=(Band("neckband", AT, edges, "plain", rib),), joins=joins)
    band = BandPlan("neckband", (("back neck, centre", (28,) * 3),), (28,) * 3, (6,) * 3, ROWS, STS, AT)
    pieces = (_body("back", 6, 28, (3, 1)), _body("front", 24, 12, (4, 3, 2, 2, 1)), _sleeve())
    return spec, Plan(SIZES, pieces, (band,))


def hat() -> tuple[Spec, Plan]:
    one = (Fraction(10),)
    work = Step("hat.work[1]", Work(cm(10, 1), False, AT))
    crown = Step("hat.crown", Crown(8, cm(6, 1), "in pattern", None, None, AT))
    ball = Step("hat.pom-pom", PomPom(cm(8, 1), "flour", AT))
    centre, level = (Fraction(79, 2) % 4,), _level("hat", "head", (80,), 0)
    sections = (
        Section(
            "hat.work[1]",
            "work",
            work,
            (30,),
            ROWS,
            "easy",
            0,
            0,
            one,
            False,
            one,
            cm(10, 1),
            EASY,
            (),
            (0,),
            None,
            centre,
        ),
        Section(
            "hat.crown",
            "crown",
            crown,
            (18,),
            ROWS,
            "easy",
            0,
            0,
            (Fraction(6),),
            False,
            (Fraction(16),),
            cm(6, 1),
            EASY,
            (),
            (2,),
            None,
            centre,
        ),
    )
    # One stitch a wedge goes on rounds 1, 3, 5 ... 17: 72, 64 ... 8 sts.
    rounds = tuple((2 * number + 1, 72 - 8 * number) for number in range(9))
    plan = CrownPlan(crown, 8, (80,), (18,), (rounds,), (8,))
    piece = PiecePlan("hat", AT, True, 1, Edge(0, None), (level,), sections, None, plan, (work, crown, ball))
    return _spec("Hat by hand", ("one",)), Plan(("one",), (piece,), ())


def cowl() -> tuple[Spec, Plan]:
    """A tube of 120 sts: 3 cm rib, 15 cm plain."""
    rib = Step("cowl.rib", Rib(cm(3, 1), 2, 2, None, AT))
    work = Step("cowl.work[1]", Work(cm(15, 1), False, AT))
    sections = (
        Section("cowl.rib", "rib", rib, (9,), ROWS, "plain", 0, 0, (Fraction(3),), False, (Fraction(3),), cm(3, 1)),
        Section(
            "cowl.work[1]", "work", work, (45,), ROWS, "plain", 0, 0, (Fraction(15),), False, (Fraction(18),), cm(15, 1)
        ),
    )
    level = _level("cowl", "cast-on", (120,), 0)
    piece = PiecePlan("cowl", AT, True, 1, Edge(0, None), (level,), sections, None, None, (rib, work))
    return _spec("Cowl by hand", ("one",)), Plan(("one",), (piece,), ())
