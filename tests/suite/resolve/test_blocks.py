"""Yarns, motifs, swatches, sizes and the pattern block: what a file says, as exact values reckoned by hand."""

from fractions import Fraction

import pytest
from resolve_frame import codes, framed, resolved, spec_of

from wale.materials import PutUp


def test_pattern_block():
    spec = spec_of(
        """pattern "Millrace"
    about "A pullover."
    units inch
    paper letter
    tolerance 1 inch
    tolerance lengths 5 mm
    floats 5 sts
"""
    )
    assert (spec.title, spec.about, spec.units, spec.paper) == ("Millrace", "A pullover.", "inch", "letter")
    assert spec.width_tolerance == Fraction(254, 100)
    assert spec.length_tolerance == Fraction(1, 2)
    assert spec.float_limit == (Fraction(5), "stitches")


def test_defaults_of_the_pattern_block_are_assumptions():
    spec = spec_of('pattern "Frame"\n')
    assert (spec.units, spec.paper) == ("cm", "A4")
    assert spec.width_tolerance == spec.length_tolerance == Fraction(3, 2)
    assert spec.float_limit == (Fraction(5, 2), "length")
    texts = " ".join(assumption.said() for assumption in spec.assumptions)
    assert "1.5 cm" in texts and "2.5 cm" in texts


@pytest.mark.parametrize(
    ("count", "text", "fibre", "metres"),
    [
        ("2/8 Nm wool", "2/8 Nm", "wool", 400),  # two strands of 8 m per g: 4 m per g
        ("8/2 Nm wool", "8/2 Nm", "wool", 400),
        ("4 Nm", "4 Nm", "", 400),
        ("Nm 28/3 wool", "Nm 28/3", "wool", Fraction(2800, 3)),
        ("Nm 28/3", "Nm 28/3", "", Fraction(2800, 3)),
        ("400 m per 100 g wool", "400 m per 100 g", "wool", 400),
        ("210 m per 50 g soft wool", "210 m per 50 g", "soft wool", 420),
        ("250 tex", "250 tex", "", 400),  # 250 g per 1000 m: 100 g are 400 m
        ("9 wpi wool", "9 wpi", "wool", None),
    ],
)
def test_yarn_counts(count, text, fibre, metres):
    yarn = spec_of(f"yarn rye\n    count {count}\n    colour #8A5A2B\n").yarns["rye"]
    assert (yarn.count, yarn.fibre, yarn.metres_per_100g) == (text, fibre, metres)
    assert yarn.colour == "#8a5a2b"
    assert (yarn.strands, yarn.put_ups, yarn.on_hand) == (1, (), None)


@pytest.mark.parametrize(("on_hand", "grams"), [("3 cones", 300), ("1 ball", 50), ("250 g", 250), ("0 g", 0)])
def test_yarn_put_ups(on_hand, grams):
    yarn = spec_of(
        f"""yarn rye
    count 2/8 Nm wool
    strands 2
    colour #8a5a2b
    put-up 100 g cone, 11.50 EUR
    put-up 50 g ball
    on-hand {on_hand}
"""
    ).yarns["rye"]
    assert yarn.strands == 2
    assert yarn.put_ups == (PutUp(Fraction(100), "cone", Fraction(23, 2), "EUR"), PutUp(Fraction(50), "ball"))
    assert yarn.on_hand == grams


def test_motif_rows_stand_bottom_first():
    motif = spec_of(
        """motif ear
    repeat 3 sts, 2 rows
    key |-| rye, |x| flour
    | x - - |
    | - - x |
    next shifts 1 sts
"""
    ).motifs["ear"]
    assert motif.rows == (("rye", "rye", "flour"), ("flour", "rye", "rye"))
    assert motif.marks == (("rye", "-"), ("flour", "x"))
    assert (motif.shift, motif.wedge, motif.width) == (1, False, 3)
    assert motif.row_spans[0].start > motif.row_spans[1].start  # row 1 is typed last


def test_wedge_rows_get_shorter_upwards():
    motif = spec_of(
        "motif top\n    repeat 3 sts, 2 rows\n    key |-| rye, |x| flour\n    | x |\n    | - x - |\n    wedge\n"
    )
    assert motif.motifs["top"].wedge
    assert [len(row) for row in motif.motifs["top"].rows] == [3, 1]


def test_swatch_values():
    swatch = spec_of(
        """swatch easy, worked flat
    motif seed in rye, flour
    needle US 4
    counted 40 sts = 13.9 cm, 40 rows = 12 cm
    washed 40 sts = 13.6 cm, 40 rows = 12.2 cm
    weight 14.5 g of 52 sts, 60 rows
    stretch 40 sts = 17.4 cm
"""
    ).swatches["easy"]
    assert (swatch.in_round, swatch.stitch, swatch.motif, swatch.yarns) == (False, "motif", "seed", ("rye", "flour"))
    assert swatch.needle_mm == Fraction(7, 2)  # US 4 is 3.5 mm
    assert (swatch.washed.stitches, swatch.washed.rows) == (Fraction(400, 136), Fraction(400, 122))
    assert swatch.counted is not None
    assert (swatch.counted.stitches, swatch.counted.rows) == (Fraction(400, 139), Fraction(400, 120))
    assert swatch.weight == (Fraction(29, 2), 52, 60)
    assert swatch.stretch == Fraction(174, 136)  # the same 40 stitches: 17.4 cm against 13.6 cm


@pytest.mark.parametrize(
    ("fabric", "stitch"),
    [("stockinette in rye", "stockinette"), ("garter in rye", "garter"), ("rib 2x2 in rye", "rib 2x2")],
)
def test_plain_fabrics_and_the_other_form_of_a_gauge(fabric, stitch):
    swatch = spec_of(
        f"swatch cuff, in the round\n    fabric {fabric}\n    needle 3.25 mm\n"
        "    washed 27 sts and 38 rounds in 10 cm\n"
    ).swatches["cuff"]
    assert (swatch.in_round, swatch.stitch, swatch.motif, swatch.yarns) == (True, stitch, None, ("rye",))
    assert (swatch.washed.stitches, swatch.washed.rows) == (Fraction(27, 10), Fraction(38, 10))
    assert (swatch.weight, swatch.stretch, swatch.counted) == (None, None, None)


def test_published_sizes_with_ease():
    spec = spec_of("sizes women S M XXL\n    ease bust 10 (11, 12) cm, hip 6 cm\n    ease waist 20 cm\n")
    assert spec.group == "women"
    assert spec.size_names == ("S", "M", "XXL")
    assert [size.measures["bust"].value for size in spec.sizes] == [
        Fraction(33) * Fraction(254, 100),  # 32 to 34 inches
        Fraction(37) * Fraction(254, 100),
        Fraction(49) * Fraction(254, 100),
    ]
    assert [size.ease["bust"] for size in spec.sizes] == [10, 11, 12]
    assert [size.ease["hip"] for size in spec.sizes] == [6, 6, 6]
    assert {size.measures["bust"].confidence for size in spec.sizes} == {"confirmed"}


def test_sizes_of_the_file_and_a_body():
    spec = spec_of(
        """sizes 1 2
    measure bust 86 (94) cm
    measure hip 36 (38) inch
    ease bust 10 (12) cm, hip 6 cm

body mine
    measure bust 97 cm
    measure hip 103 cm
    ease bust 8 cm
"""
    )
    assert spec.group == ""
    assert spec.size_names == ("1", "2", "mine")
    assert [size.measures["hip"].value for size in spec.sizes] == [Fraction("91.44"), Fraction("96.52"), 103]
    assert [size.ease for size in spec.sizes] == [{"bust": 10, "hip": 6}, {"bust": 12, "hip": 6}, {"bust": 8, "hip": 6}]
    assert [size.made_to_measure for size in spec.sizes] == [False, False, True]
    assert {size.measures["bust"].confidence for size in spec.sizes} == {"given"}


def test_a_body_does_not_inherit_an_uneven_ease():
    _, problems = resolved(
        framed(
            "sizes women S M L\n    ease bust 8 (9, 10) cm, hip 6 cm\n\n"
            "body mine\n    measure bust 97 cm\n    measure hip 103 cm\n"
        )
    )
    assert codes(problems) == ["E215"]
    assert "mine" in problems[0].message


def test_bodies_alone_make_a_spec():
    text = framed("body mine\n    measure bust 97 cm\n    measure hip 103 cm\n    ease bust 8 cm, hip 4 cm\n")
    lines = text.split("\n")
    start = next(index for index, line in enumerate(lines) if line.startswith("sizes"))
    spec, problems = resolved("\n".join(lines[:start] + lines[start + 2 :]))
    assert problems == []
    assert spec is not None and spec.size_names == ("mine",)


def test_used_files_lend_their_blocks():
    spec = spec_of(
        'pattern "Frame"\n    use "shared.wale"\n',
        {"shared.wale": "wale 1\n\nlet depth = 3 cm\n\nyarn bran\n    count 4 Nm\n    colour #c9a36b\n"},
    )
    assert spec.yarns["bran"].span.file == "shared.wale"
