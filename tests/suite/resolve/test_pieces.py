"""Pieces, joins and bands: steps, addresses, levels and `as`, with values reckoned by hand."""

from fractions import Fraction

import pytest
from resolve_frame import codes, framed, resolved, spec_of

from wale.actions import (
    BindOff,
    CastOn,
    Crown,
    Edge,
    Fabric,
    Fit,
    Hem,
    Mark,
    Neck,
    Note,
    PomPom,
    Rib,
    Shape,
    Shoulders,
    Work,
)
from wale.measure import Combine, Solved
from wale.spec import Band, Seam, SetIn

OWN = "sizes small large\n    measure bust 80 (100) cm\n    measure hip 90 (110) cm\n    ease bust 10 cm, hip 6 cm\n\n"
BACK = OWN + "piece back, worked flat\n    cast on bust/2 in plain\n    {}\n"


def piece(spec, name="back"):
    return next(each for each in spec.pieces if each.name == name)


def step(line, kind):
    """Give the one step of a kind in a back with one more line."""
    spec = spec_of(BACK.format(line))
    found = [each for each in piece(spec).steps if isinstance(each.action, kind)]
    assert len(found) == 1
    return found[0].address, found[0].action


def values(measure):
    return [measure.at(size) for size in (0, 1)]


def test_cast_on():
    spec = spec_of(OWN + "piece back, worked flat\n    cast on bust/2 in plain, 5 percent narrower, provisional\n")
    back = piece(spec)
    assert back.steps[0].address == "back.cast-on"
    action = back.steps[0].action
    assert isinstance(action, CastOn)
    assert values(action.width) == [45, 55]  # (80 + 10) / 2, (100 + 10) / 2
    assert (action.width.words, action.width.names, action.width.dimension) == ("bust/2", ("bust",), "length")
    assert (action.swatch, action.narrower, action.manner) == ("plain", 5, "provisional")
    assert (back.make, back.in_round, back.edge) == (1, False, Edge(1, None))


def test_inputs_lead_to_the_lines_that_a_value_comes_from():
    text = framed(OWN + "let half = bust/2\n\npiece back, worked flat\n    cast on half in plain\n")
    spec, _ = resolved(text)
    action = piece(spec).steps[0].action
    assert isinstance(action, CastOn)
    assert [text[span.start : span.end] for span in action.width.inputs] == [
        "half",
        "let half = bust/2",
        "ease bust 10 cm",
        "measure bust 80 (100) cm",
    ]
    assert action.width.names == ("half",)


def test_edge_make_and_counts():
    spec = spec_of(
        OWN + "piece back, worked flat, make 2\n    edge 2 sts each side in flour\n"
        "    cast on 80 sts in plain\n    work 7 rows\n"
    )
    back = piece(spec)
    assert (back.make, back.edge.stitches, back.edge.yarn) == (2, 2, "flour")
    cast_on, work = back.steps[0].action, back.steps[1].action
    assert isinstance(cast_on, CastOn) and isinstance(work, Work)
    assert (cast_on.width.dimension, cast_on.width.is_count, values(cast_on.width)) == ("stitches", True, [80, 80])
    assert (work.length.dimension, work.length.is_count, values(work.length)) == ("rows", True, [7, 7])


def test_hem():
    address, action = step("hem 30 mm, folded, purl ridge, front in plain, knitted together", Hem)
    assert address == "back.hem"
    assert (values(action.depth), action.front, action.knitted_together) == ([3, 3], "plain", True)


def test_rib():
    address, action = step("rib 5 cm, 2x3, on US 2", Rib)
    assert address == "back.rib[1]"
    assert (values(action.depth), action.knit, action.purl, action.needle_mm) == (
        [5, 5],
        2,
        3,
        Fraction(11, 4),
    )  # US 2 is 2.75 mm


@pytest.mark.parametrize(
    ("options", "fit"),
    [
        ("centred on the stitch", {"kind": "centred", "axis": "stitch", "is_centred": True}),
        ("centred on the first axis", {"kind": "centred", "axis": "first", "is_centred": True}),
        ("centred, whole repeats at bust", {"kind": "whole", "at": ("bust",), "is_centred": True}),
        ("whole repeats, tolerance 2 cm", {"kind": "whole", "tolerance": Fraction(2)}),
        ("half repeats at bust and chest", {"kind": "half", "at": ("bust", "chest")}),
        ("from the edge, seams unbroken", {"kind": "edge", "seams": "unbroken"}),
        ("centred, meets back at elbow", {"kind": "centred", "meets": ("back", "elbow"), "is_centred": True}),
    ],
)
def test_fit(options, fit):
    spec = spec_of(
        BACK.format(f"work in seed on easy, {options}\n    shape to 40 cm over 9 cm, named chest\n    mark elbow")
    )
    found = piece(spec).steps[1]
    assert found.address == "back.fabric[1]"
    assert isinstance(found.action, Fabric)
    assert (found.action.swatch, found.action.motif) == ("easy", "seed")
    assert found.action.fit == Fit(span=found.action.fit.span, **fit)


def test_plain_fabric():
    address, action = step("work in plain", Fabric)
    assert (address, action.swatch, action.motif, action.fit.kind) == ("back.fabric[1]", "plain", None, "plain")


def test_work_even():
    spec = spec_of(BACK.format("work 6 cm\n    work to hip/2 - 5 cm"))
    first, second = (each.action for each in piece(spec).steps[1:])
    assert isinstance(first, Work) and isinstance(second, Work)
    assert (values(first.length), first.to) == ([6, 6], False)
    assert (values(second.length), second.to) == ([43, 53], True)  # 96 / 2 - 5, 116 / 2 - 5


def test_shapings_name_levels():
    spec = spec_of(
        BACK.format(
            "shape to hip/2 over 10 cm, on any row\n    shape to 2 * girth over 20 rows\n"
            "    shape to bust/2 over 9 cm\n    shape to 30 cm over 9 cm\n\nlet girth = 21 cm"
        )
    )
    found = [each for each in piece(spec).steps if isinstance(each.action, Shape)]
    assert [each.address for each in found] == ["back.shape[1]", "back.shape[2]", "back.shape[3]", "back.shape[4]"]
    # `bust` is the cast-on's level already, so the third is a second one of that name
    assert [each.action.label for each in found] == ["hip", "girth", "bust-2", "shape"]
    assert [each.action.any_row for each in found] == [True, False, False, False]
    assert [values(each.action.width) for each in found[:3]] == [[48, 58], [42, 42], [45, 55]]


def test_neck_shoulders_and_the_rest():
    spec = spec_of(
        BACK.format(
            "mark underarm\n    neck 18 (20) cm wide, 8 cm deep, square\n    shoulders slope 3 cm, bound off in steps\n"
            '    bind off, loosely\n    note "Block it."'
        )
    )
    steps = piece(spec).steps[1:]
    assert [each.address for each in steps] == [
        "back.underarm",
        "back.neck",
        "back.shoulders",
        "back.bind-off",
        "back.note[1]",
    ]
    mark, neck, shoulders, bind_off, note = (each.action for each in steps)
    assert isinstance(mark, Mark) and mark.name == "underarm"
    assert isinstance(neck, Neck)
    assert (values(neck.width), values(neck.depth), neck.curve) == ([18, 20], [8, 8], "square")
    assert isinstance(shoulders, Shoulders)
    assert (values(shoulders.slope), shoulders.manner) == ([3, 3], "steps")
    assert isinstance(bind_off, BindOff) and bind_off.manner == "loosely"
    assert isinstance(note, Note) and note.text == "Block it."


def test_wide_and_deep_are_no_units():
    _, action = step("neck bust/5 wide, hip/12 deep", Neck)
    assert (values(action.width), values(action.depth), action.curve) == ([18, 22], [8, Fraction(29, 3)], "round")
    assert (action.width.words, action.depth.words) == ("bust/5", "hip/12")


def test_neck_width_and_body_length_follow_from_the_body_unless_stated():
    lines = "piece back, worked flat\n    cast on 40 cm in plain\n    work to body-length\n"
    spec = spec_of(lines)
    work = piece(spec).steps[1].action
    assert isinstance(work, Work)
    body = spec.sizes[0].measures
    assert work.length.at(0) == body["back-waist"].value + body["hip-length"].value
    noted = [each.origin() for each in spec.assumptions if "`body-length`" in each.text]
    assert len(noted) == 1 and noted[0].startswith("back-waist + hip-length")
    spec = spec_of("let body-length = 60 cm\n\n" + lines)
    work = piece(spec).steps[1].action
    assert isinstance(work, Work)
    assert work.length.at(0) == 60
    assert not [each for each in spec.assumptions if "`body-length`" in each.text]


@pytest.mark.parametrize(
    ("option", "expected"),
    [
        ("", ("in pattern", None, None)),
        (", in pattern", ("in pattern", None, None)),
        (", plain in rye", ("plain", None, "rye")),
        (", chart top", ("chart", "top", None)),
    ],
)
def test_hat(option, expected):
    spec = spec_of(
        f"""motif top
    repeat 3 sts, 2 rows
    key |-| rye, |x| flour
    | x |
    | - x - |
    wedge

piece hat, in the round
    cast on 50 cm in plain-round
    crown 6 wedges over 9 cm{option}
    pom-pom 8 cm in flour
"""
    )
    hat = piece(spec, "hat")
    assert (hat.in_round, hat.edge) == (True, Edge(0, None))
    crown, pom_pom = hat.steps[1], hat.steps[2]
    assert (crown.address, pom_pom.address) == ("hat.crown", "hat.pom-pom")
    assert isinstance(crown.action, Crown) and isinstance(pom_pom.action, PomPom)
    assert (crown.action.wedges, crown.action.over.at(0)) == (6, 9)
    assert (crown.action.manner, crown.action.chart, crown.action.yarn) == expected
    assert (pom_pom.action.diameter.at(0), pom_pom.action.yarn) == (8, "flour")


def test_solved_widths_stay_terms():
    spec = spec_of(
        OWN + "let sleeve = 74 cm - back.bust/2\n\npiece back, worked flat\n    cast on bust/2 in plain\n\n"
        "piece arm, worked flat\n    cast on 20 cm in plain\n    work to sleeve - 1 cm\n"
    )
    work = piece(spec, "arm").steps[1].action
    assert isinstance(work, Work) and isinstance(work.length.term, Combine)
    assert work.length.waits_for() == ("back.bust",)
    assert work.length.at(0, {"back.bust": Fraction(46)}) == 50  # 74 - 46 / 2 - 1
    assert isinstance(work.length.term.left, Combine) and isinstance(work.length.term.left.right, Combine)
    assert isinstance(work.length.term.left.right.left, Solved)


AS_BACK = """piece back, worked flat
    edge 2 sts each side
    cast on hip/2 in plain
    shape to bust/2 over 10 cm
    shape to 30 cm over 10 cm, named top
    mark underarm
    neck 18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, as back
"""


def test_as_replaces_by_keyword_and_keeps_the_rest():
    spec = spec_of(OWN + AS_BACK + "    neck 18 cm wide, 8 cm deep\n")
    back, front = piece(spec), piece(spec, "front")
    assert [each.address for each in front.steps] == [
        "back.cast-on",
        "back.shape[1]",
        "back.shape[2]",
        "back.underarm",
        "front.neck",
        "back.shoulders",
    ]
    assert all(
        mine is theirs for mine, theirs in zip(front.steps, back.steps, strict=True) if mine.address[:4] == "back"
    )
    assert (front.edge, front.in_round) == (back.edge, False)
    neck = front.steps[4].action
    assert isinstance(neck, Neck) and neck.depth.at(0) == 8


def test_as_replaces_by_name_and_adds():
    spec = spec_of(
        OWN
        + AS_BACK
        + '    shape to 32 cm over 10 cm, named top\n    edge 1 st each side\n    hem 3 cm\n    note "So."\n'
    )
    front = piece(spec, "front")
    assert front.edge.stitches == 1
    assert [each.address for each in front.steps] == [
        "back.cast-on",
        "front.hem",
        "back.shape[1]",
        "front.shape[2]",
        "back.underarm",
        "back.neck",
        "back.shoulders",
        "front.note[1]",
    ]
    shape = front.steps[3].action
    assert isinstance(shape, Shape) and (shape.label, shape.width.at(0)) == ("top", 32)


def test_as_in_a_ring_and_unclear():
    _, problems = resolved(framed('piece back, as front\n    note "a"\n\npiece front, as back\n    note "b"\n'))
    assert codes(problems) == ["E217"]
    _, problems = resolved(framed(OWN + AS_BACK + "    shape to 33 cm over 2 cm\n"))
    assert codes(problems) == ["E252"]


def test_short_rows_at_the_bust_are_not_put_where_nobody_said():
    _, problems = resolved(framed(OWN + AS_BACK + "    raise bust 4 cm\n"))
    assert codes(problems) == ["E405"] and "no place" in problems[0].message


JOINED = """piece front, as back
    neck 18 cm wide, 8 cm deep

piece sleeve, worked flat, make 2
    cast on 20 cm in plain
    bind off

piece scarf, in the round
    cast on 20 cm in plain-round

"""


def test_joins():
    spec = spec_of(
        JOINED + "join\n    seam back shoulders with front shoulders, three-needle bind-off\n"
        "    set sleeve top into armholes\n    seam sides and sleeves, mattress stitch\n"
    )
    first, second, third = spec.joins
    assert isinstance(first, Seam) and isinstance(second, SetIn) and isinstance(third, Seam)
    assert (first.edges, first.manner) == ((("back", "shoulders"), ("front", "shoulders")), "three-needle bind-off")
    assert second.piece == "sleeve"
    assert third.edges == (("back", "sides"), ("front", "sides"), ("sleeve", "sides"))
    assert third.manner == "mattress stitch"


def test_band():
    spec = spec_of(
        JOINED + "band neckband\n    pick up along back neck, front neck in plain-round\n    rib 2.5 cm, 1x1, on 3 mm\n"
        "    bind off, in purl\n\nband hemband\n    pick up along back cast-on in plain\n    rib 2 cm, 1x1\n"
    )
    assert [band.name for band in spec.bands] == ["neckband", "hemband"]
    band = spec.bands[0]
    assert isinstance(band, Band)
    assert (band.edges, band.swatch, band.manner) == ((("back", "neck"), ("front", "neck")), "plain-round", "in purl")
    assert (band.rib.depth.at(0), band.rib.knit, band.rib.purl, band.rib.needle_mm) == (Fraction(5, 2), 1, 1, 3)
    assert (spec.bands[1].edges, spec.bands[1].manner) == ((("back", "cast-on"),), "loosely in rib")
