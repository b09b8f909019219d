"""Published examples of yarn and fabric, row by row: expected figures are read from tests/data/worked_examples.csv."""

import re
from fractions import Fraction

import pytest
from worked import as_printed, read_rows

from wale.shaping import amounts, fabric
from wale.shaping.proportions import foot_girths
from wale.yarn import count_in, held_together, metres_per_100g

KINDS = {
    *("yarn_count", "yarn_fold", "yarn_strands", "yarn_diameter", "loop_density", "fabric_weight", "tightness"),
    *("area", "yarn_estimate", "cast_on_tail", "foot"),
}
ROWS = [row for row in read_rows() if row.kind in KINDS]
CHECKS = {}


def example(*row_ids):
    def register(check):
        CHECKS.update(dict.fromkeys(row_ids, check))
        return check

    return register


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.kind}-{row.id}-{row.source}"[:110] for row in ROWS])
def test_agrees_with_its_source(row):
    assert row.id in CHECKS, f"no check of {row.id} ({row.kind}; {row.source})"
    CHECKS[row.id](row)


def test_every_check_and_every_kind_has_a_row():
    assert set(CHECKS) == {row.id for row in ROWS}
    assert {row.kind for row in ROWS} == KINDS


def near(value, printed, share):
    """Whether a value is within a share of a printed number; for pages that round on the way."""
    return abs(Fraction(value) - Fraction(printed)) <= share * Fraction(printed)


@example("W002", "W003", "W004")
def one_system_to_another(row):
    first, number, second = re.fullmatch(r"(\w+)=(\d+) -> (\w+)", row.inputs).groups()
    printed = re.search(r"\((.*)\)", row.expected)
    found = count_in(metres_per_100g(Fraction(number), first), second)
    assert as_printed(found, printed[1] if printed else row.expected)


@example("W006")
def one_yarn_in_every_system(row):
    words = ("tex", "Nm", "Ne", "NeW", "run", "lea", "den", "ypp")
    for word, printed in zip(words, row.expected.split("; "), strict=True):
        assert as_printed(count_in(row.given[0], word), printed)


@example("W008")
def three_strands(row):
    strands, number = row.given
    together = held_together([metres_per_100g(number, "Nm")] * int(strands))
    for system, printed in zip(("Nm", "tex"), re.findall(r"[\d.]+", row.expected), strict=False):
        assert as_printed(count_in(together, system), printed)
    assert as_printed(together, "933")


@example("W009")
def unlike_strands(row):
    assert count_in(held_together(metres_per_100g(number, "Ne") for number in row.given), "Ne") == row.wanted[0]


@example("W010", "W011", "W012", "W013", "W014", "W016")
def strands_of_a_leaflet(row):
    metres, _, strands = row.given[:3]
    together = held_together([metres] * int(strands))
    leaflet, exact = re.match(r"(\d+) \(exact ([\d.]+)", row.expected).groups()
    assert as_printed(together, exact)
    assert abs(together - int(leaflet)) < 5  # printed in steps of 5 m


@example("W018")
def diameter_by_peirce(row):
    inches = fabric.cotton_diameter(row.given[0])
    assert 1 / inches == row.wanted[1]
    assert as_printed(inches * Fraction("2.54"), "0.0151")


@example("W020")
def diameter_by_density(row):
    # the page's 4.44e-3 sqrt(tex / density) cm is a volume of 1.55 / density
    tex, density = row.given
    found = fabric.yarn_diameter(tex, Fraction("1.55") / density) / 10
    assert near(found, "0.01386", Fraction(1, 1000)) and near(found, row.wanted[0], Fraction(15, 1000))


@example("W021")
def tex_from_diameter(row):
    found = fabric.tex_of_diameter(Fraction("0.1627"), Fraction("1.55") / Fraction("1.54"))
    assert near(found, "20.68", Fraction(2, 1000))
    assert near(found, row.wanted[0], Fraction(15, 1000))  # the page rounds early


@example("W022")
def diameter_of_a_hand_knitting_yarn(row):
    tex, volume = row.given[:2]
    found = fabric.yarn_diameter(tex, volume)
    assert as_printed(found, "0.592")
    assert near(found, Fraction("0.0374") * fabric.root(tex), Fraction(1, 1000))


@example("W023")
def loops_in_a_square_cm(row):
    kw, kc, loop = row.given
    assert (kw, kc) == (fabric.KW, fabric.KC)
    assert fabric.stitch_density(loop) == fabric.stitch_density(loop, kw, kc) == row.wanted[0]


@example("W024")
def weight_of_a_machine_knit(row):
    inch = Fraction("2.54")
    tex = count_in(metres_per_100g(Fraction(30), "Ne"), "tex")
    found = fabric.area_weight(30 / inch, 40 / inch, Fraction(3, 10), tex)
    assert as_printed(found, "109.84")  # by the exact formula (a)
    assert near(found, row.expected.split()[0], Fraction(1, 1000))  # by the handbook's rounded factor


@example("W025")
def weight_of_a_hand_knit(row):
    sts, rows, loop, tex = row.given[:4]
    assert as_printed(fabric.area_weight(sts, rows, loop / 10, tex), "548")
    assert as_printed(fabric.yarn_per_area(sts, rows, loop / 10), "1234")
    assert [row.wanted[0], row.wanted[2]] == [548, 1234]


@example("W026")
def tightness_factor(row):
    assert as_printed(fabric.tightness(*row.given), row.expected)


@example("W110")
def sleeve_area(row):
    assert amounts.trapezium(*row.given) == row.wanted[0]


@example("W111")
def back_area(row):
    pairs = [(Fraction(a), Fraction(b)) for a, b in re.findall(r"([\d.]+)x([\d.]+)", row.inputs)]
    rectangles = sum(amounts.trapezium(wide, wide, high) for wide, high in pairs[:3])
    triangles = sum(2 * amounts.trapezium(0, wide, high) for wide, high in pairs[3:])
    assert [rectangles, triangles, rectangles + triangles] == row.wanted


@example("W112")
def scarf(row):
    assert [amounts.scarf_yards(*row.given[:3])] == row.wanted[:1]


@example("W113")
def sweater_by_swatch(row):
    girth, length, swatch, grams = row.given[-4:]
    area = amounts.sweater_area(girth, length)
    assert [area, amounts.grams_by_area(area, swatch, grams)] == row.wanted


@example("W114")
def tail(row):
    assert amounts.cast_on_tail(row.given[0]) == row.wanted[-1]


@example("W116")
def tail_from_a_sample(row):
    sample, stitches = row.given
    assert amounts.cast_on_tail_from_sample(int(stitches), int(sample), 1) == row.wanted[0]


@example("W121")
def foot(row):
    round_foot, gusset, heel = foot_girths(row.given[0])
    assert round_foot == row.wanted[0]
    assert (gusset / round_foot, heel / round_foot) == (1 + row.wanted[2] / 100, 1 + row.wanted[3] / 100)
