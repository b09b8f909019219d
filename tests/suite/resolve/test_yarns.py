"""Ways to say a yarn, each reckoned by hand; yarns made of others; what is refused."""

from fractions import Fraction

import pytest
from resolve_frame import codes, framed, resolved, spec_of


def yarn_of(*lines):
    return spec_of("yarn rye\n" + "".join(f"    {line}\n" for line in (*lines, "colour #8a5a2b"))).yarns["rye"]


@pytest.mark.parametrize(
    ("count", "text", "fibre", "metres"),
    [
        ("R 68 tex/2 wool", "R 68 tex/2", "wool", Fraction(100_000, 68)),  # the folded yarn is 68 tex
        ("R 68 tex/2", "R 68 tex/2", "", Fraction(100_000, 68)),
        ("R 250 tex wool", "R 250 tex", "", 400),
        ("34 tex x 2 merino wool", "34 tex x 2", "merino wool", Fraction(100_000, 68)),
        ("8 Nm x 2", "8 Nm x 2", "", 400),
        ("Ne 30/2 cotton", "Ne 30/2", "cotton", 15 * 840 * Fraction("0.9144") * 100 / Fraction("453.59237")),
        ("2/16 NeW wool", "2/16 NeW", "wool", 8 * 560 * Fraction("0.9144") * 100 / Fraction("453.59237")),
        ("2 run", "2 run", "", 2 * 1600 * Fraction("0.9144") * 100 / Fraction("453.59237")),
        ("12 cut", "12 cut", "", 12 * 300 * Fraction("0.9144") * 100 / Fraction("453.59237")),
        ("10 lea linen", "10 lea", "linen", 10 * 300 * Fraction("0.9144") * 100 / Fraction("453.59237")),
        ("2500 dtex", "2500 dtex", "", 400),
        ("0.25 ktex", "0.25 ktex", "", 400),
        ("2250 den", "2250 den", "", 400),
        ("220 yd per 50 g", "220 yd per 50 g", "", 440 * Fraction("0.9144")),
        # the designer's: 3/28 Nm is 9.33 m per g, 4/20 is 5, 5/28 is 5.6
        ("3/28 Nm", "3/28 Nm", "", Fraction(2800, 3)),
    ],
)
def test_counts(count, text, fibre, metres):
    yarn = yarn_of(f"count {count}")
    if count == "R 250 tex wool":
        fibre = "wool"
    assert (yarn.count, yarn.fibre, yarn.metres_per_100g, yarn.classes) == (text, fibre, metres, ())


@pytest.mark.parametrize(
    ("count", "fibre", "classes"),
    [("12 wpi wool", "wool", (2, 3, 4)), ("class 4 wool", "wool", (4,)), ("class 0", "", (0,))],
)
def test_a_count_that_says_a_class_only(count, fibre, classes):
    # 12 wraps lie in 12-18, 11-15 and 9-12: classes 2, 3 and 4
    yarn = yarn_of(f"count {count}")
    assert (yarn.metres_per_100g, yarn.fibre, yarn.classes) == (None, fibre, classes)


def problems_of(*lines, more=""):
    text = "yarn rye\n" + "".join(f"    {line}\n" for line in (*lines, "colour #8a5a2b")) + more
    return resolved(framed(text))


@pytest.mark.parametrize(
    ("count", "said", "other"),
    [
        # 8 strands of 36: 36/8 = 4.5 m per g; 36 strands of 8: 8/36 = 0.22 m per g
        ("8/36 Nm", "100 g are 450 m", "they would be 22.2 m"),
        ("4/9 Nm", "100 g are 225 m", "they would be 44.4 m"),
        # tex multiplies, so either way is 15 tex: 100 000/15 m
        ("5/3 tex", "Either way 100 g are 6667 m", ""),
    ],
)
def test_a_doubtful_fold_says_the_other_reading(count, said, other):
    spec, problems = problems_of(f"count {count}")
    assert codes(problems) == ["W260"] and spec is not None
    assert said in problems[0].help and other in problems[0].help


def test_fibres_with_their_shares():
    assert yarn_of("count 4 Nm", "fibre 80 percent superwash wool, 20 percent nylon").fibre == (
        "80 % superwash wool, 20 % nylon"
    )


MIST = "yarn mist\n    count 800 m per 100 g mohair\n    strands 2\n    colour #d9d4cc\n"
DUSK = "\nyarn dusk\n    strands {strands}\n    colour #9b7a5c\n"


def test_a_yarn_made_of_others_has_their_length():
    spec = spec_of(MIST + DUSK.format(strands="rye + mist"))
    dusk = spec.yarns["dusk"]
    # 400 m and twice 800 m in 100 g: 100 m weigh 25 g, 12.5 g and 12.5 g: 200 m in 100 g.
    assert (dusk.held, dusk.metres_per_100g, dusk.strands) == (("rye", "mist"), 200, 1)
    assert (dusk.count, dusk.fibre) == ("rye + mist", "wool and mohair")
    assert spec_of(DUSK.format(strands="rye + flour + rye")).yarns["dusk"].metres_per_100g == Fraction(400, 3)


def test_a_yarn_made_of_others_is_knitted_like_any():
    swatch = "\nswatch plain, worked flat\n    fabric stockinette in dusk\n    needle 4 mm\n"
    text = DUSK.format(strands="rye + flour") + swatch + "    washed 16 sts and 22 rows in 10 cm\n"
    assert spec_of(text).swatches["plain"].yarns == ("dusk",)


def test_a_part_of_unknown_length_leaves_it_unknown():
    text = "yarn mist\n    count 12 wpi\n    colour #d9d4cc\n" + DUSK.format(strands="rye + mist")
    assert spec_of(text).yarns["dusk"].metres_per_100g is None


@pytest.mark.parametrize(
    ("strands", "code"),
    [
        ("rye + fog", "E211"),
        ("rye + dusk", "E217"),
        ("rye - flour", "E203"),
        ("2 * rye", "E203"),
        ("rye + 2", "E203"),
        ("1000000000", "E223"),
        ("101", "E223"),
        ("0", "E222"),
        ("1.5", "E228"),
    ],
)
def test_strands_that_are_refused(strands, code):
    text = DUSK.format(strands=strands)
    if code in ("E222", "E223", "E228"):
        text = text.replace("    colour", "    count 4 Nm\n    colour")
    spec, problems = resolved(framed(text))
    assert spec is None and codes(problems) == [code]


@pytest.mark.parametrize("line", ["count 4 Nm", "put-up 100 g cone", "on-hand 100 g", "fibre 100 percent wool"])
def test_a_yarn_made_of_others_has_nothing_of_its_own(line):
    text = DUSK.format(strands="rye + flour").replace("    colour", f"    {line}\n    colour")
    spec, problems = resolved(framed(text))
    assert spec is None and codes(problems) == ["E204"]


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (("count 0 Nm",), "E222"),
        (("count class 8",), "E222"),
        (("count class 1.5",), "E222"),
        (("count R 0 tex/2",), "E222"),
        (("count R 68 foo/2",), "E220"),
        (("count R 68 tex/0",), "E222"),
        (("count R 68 tex + 2",), "E203"),
        (("count 34 tex x 0",), "E222"),
        (("count 34 tex x 1000000",), "E223"),
        (("count 34 foo x 2",), "E220"),
        (("count 2/34 tex x 2",), "E222"),
        (("count 400 m per 0 g",), "E222"),
        (("count 4 Nm", "put-up 0 g cone, 3 EUR"), "E222"),
        (("count 4 Nm", "put-up 0.1 g cone, 3 EUR"), "E223"),
        (("count 4 Nm", "put-up 100 g cone, -3 EUR"), "E222"),
        (("count 4 Nm", "put-up 100 g cone, -3 EUR", "on-hand 3 cones"), "E222"),
        (("count 4 Nm", "put-up 0 g cone, 3 EUR", "on-hand 3 cones"), "E222"),
        (("count 4 Nm", "put-up 100 g cone", "on-hand 3 cubes"), "E220"),
        (("count 4 Nm", "on-hand 3 cones"), "E220"),
        (("count 4 Nm", "put-up 100 g cone, 10000000 EUR"), "E203"),
        (("count 4 Nm", *(["put-up 100 g cone"] * 13)), "E223"),
        (("count 4 Nm", "fibre 70 percent wool, 20 percent nylon"), "E232"),
        (("count 4 Nm", "fibre 120 percent wool, 0 percent silk"), "E232"),
        (("count 4 Nm wool", "fibre 100 percent wool"), "E205"),
    ],
)
def test_nonsense_is_refused(lines, code):
    spec, problems = problems_of(*lines)
    assert spec is None and codes(problems) == [code], [one.message for one in problems]
