"""Yarn counts against published constants, worked examples and definitions worked by hand."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wale import yarn

DATA = Path(__file__).parents[2] / "data"


def rows(name):
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


WORDS = {
    "tex": "tex",
    "decitex": "dtex",
    "denier": "den",
    "American grain count": "grains",
    "jute (spyndle)": "spyndle",
    "metric count": "Nm",
    "English cotton count": "Ne",
    "English worsted count": "NeW",
    "American woollen run": "run",
    "American woollen cut": "cut",
    "linen lea": "lea",
    "yards per pound": "ypp",
    "Yorkshire woollen skein": "YSW",
    "Galashiels cut": "gala",
}


@pytest.mark.parametrize("row", rows("yarn_systems.csv"), ids=lambda row: row["symbol"])
def test_published_constant(row):
    if row["system"] == "kilotex / millitex":
        kilo, milli = (float(word) for word in row["constant"].split(" / "))
        assert (float(yarn.SYSTEMS["ktex"].tex), float(yarn.SYSTEMS["mtex"].tex)) == (kilo, milli)
    elif row["system"] == "ball-band length":
        unit, _, weight, _ = row["symbol"].split()  # "yd per 50 g"
        length = Fraction("0.9144") if unit == "yd" else Fraction(1)
        per_100g = yarn.band_metres_per_100g(length, Fraction(weight))
        assert float(100_000 / per_100g) == pytest.approx(float(row["constant"]), rel=1e-6)
    else:
        system = yarn.SYSTEMS[WORDS[row["system"]]]
        assert system.kind == row["kind"]
        assert float(system.tex) == pytest.approx(float(row["constant"]), rel=6e-6)


def test_every_system_is_in_the_published_table():
    assert set(yarn.SYSTEMS) == set(WORDS.values()) | {"ktex", "mtex"}
    found = [(row["system"], row["symbol"]) for row in rows("yarn_systems.csv")]
    assert {system for system, _ in found} == {*WORDS, "kilotex / millitex", "ball-band length"}
    bands = {f"{unit} per {grams} g" for unit in ("m", "yd") for grams in (50, 100)}
    assert {symbol for system, symbol in found if system == "ball-band length"} == bands


@pytest.mark.parametrize(
    ("number", "system", "other", "expected", "tolerance"),
    [
        # ASTM D2260 and handbook examples: 590.54/30, 1000/30, 590.5/30
        (30, "tex", "Ne", 19.7, 0.05),
        (30, "tex", "Nm", 33.33, 0.005),
        (30, "Ne", "tex", 19.7, 0.05),
    ],
)
def test_converted_count(number, system, other, expected, tolerance):
    metres = yarn.metres_per_100g(Fraction(number), system)
    assert float(yarn.count_in(metres, other)) == pytest.approx(expected, abs=tolerance)


@pytest.mark.parametrize(
    ("system", "expected", "tolerance"),
    [
        ("tex", 250, 0),
        ("Nm", 4, 0),
        ("Ne", 2.362, 5e-4),
        ("NeW", 3.543, 5e-4),
        ("run", 1.240, 5e-4),
        ("lea", 6.614, 5e-4),
        ("den", 2250, 0),
        ("ypp", 1984.2, 0.05),
    ],
)
def test_400_metres_in_every_system(system, expected, tolerance):
    # 100 000 / 400 = 250 tex; the others divide their published constant by it
    assert abs(float(yarn.count_in(Fraction(400), system)) - expected) <= tolerance


def test_cotton_count_from_the_definition():
    # Ne 1: 840 yd weigh 1 lb, so 100 g are 840 * 0.9144 m * 100 / 453.59237
    assert yarn.metres_per_100g(Fraction(1), "Ne") == Fraction("76809.6") / Fraction("453.59237")


def test_ratios_of_hank_systems():
    # ASTM D2260: worsted = 1.5 cotton, run = 0.525 cotton, lea = 2.8 cotton
    one = yarn.metres_per_100g(Fraction(1), "Ne")
    assert yarn.count_in(one, "NeW") == Fraction(3, 2)
    assert yarn.count_in(one, "run") == Fraction(525, 1000)
    assert yarn.count_in(one, "lea") == Fraction(28, 10)


@given(st.fractions(min_value=Fraction(1, 100), max_value=5000), st.sampled_from(sorted(yarn.SYSTEMS)))
def test_there_and_back(number, system):
    assert yarn.count_in(yarn.metres_per_100g(number, system), system) == number


@pytest.mark.parametrize(
    ("first", "second", "fold", "single", "doubtful"),
    [
        (2, 8, 2, 8, False),
        (8, 2, 2, 8, False),
        (8, 36, 8, 36, True),  # eight-fold is rare
        (2, 5, 2, 5, True),  # within a factor of 3
        (2, 6, 2, 6, False),  # exactly 3 times
        (4, 12, 4, 12, False),
        (5, 60, 5, 60, True),
        (3, 3, 3, 3, True),
    ],
)
def test_fold(first, second, fold, single, doubtful):
    read = yarn.read_fold(first, second)
    assert (read.fold, read.single, bool(read.doubt)) == (fold, single, doubtful)


def test_fold_doubt_says_how_it_was_read():
    assert yarn.read_fold(36, 8).doubt == "36/8 is read as 8 strands of 36 twisted together; 8 is a rare fold"


def test_resultant():
    # 2/8 Nm = Nm 4 = R 250 tex = 400 m; 34 tex x 2 = R 68 tex (ISO 1139 notation)
    two_eight = yarn.resultant(yarn.read_fold(2, 8), "Nm")
    assert two_eight == 4 and yarn.metres_per_100g(two_eight, "Nm") == 400
    assert yarn.resultant(yarn.read_fold(2, 34), "tex") == 68


def test_strands_of_metric_count():
    # three strands of Nm 28: 1/(3/28) = Nm 9.33 = 933.3 m = 107.1 tex
    metres = yarn.held_together([yarn.metres_per_100g(Fraction(28), "Nm")] * 3)
    assert metres == Fraction(2800, 3)
    assert float(yarn.count_in(metres, "tex")) == pytest.approx(107.1, abs=0.05)


def test_unlike_strands():
    # Ne 20 with Ne 30: 1/(1/20 + 1/30) = Ne 12
    metres = yarn.held_together(yarn.metres_per_100g(Fraction(n), "Ne") for n in (20, 30))
    assert yarn.count_in(metres, "Ne") == 12


@pytest.mark.parametrize(("strands", "leaflet"), [(2, 400), (3, 265), (4, 200), (5, 160), (6, 130), (8, 100)])
def test_leaflet_of_strands(strands, leaflet):
    # a shop's leaflet for 800 m per 100 g, printed in steps of 5 m
    assert abs(yarn.held_together([Fraction(800)] * strands) - leaflet) < 5


@pytest.mark.parametrize("row", rows("yarn_weights.csv"), ids=lambda row: row["name"])
def test_weight_class_is_the_published_row(row):
    found = yarn.weight_classes()[int(row["cyc_number"])]
    assert (found.number, found.name, found.yarns) == (int(row["cyc_number"]), row["name"], row["yarn_types"])
    columns = (
        ("sts_per_4in", found.stitches),
        ("needle_mm", found.needle_mm),
        ("wpi", found.wpi),
        ("m_per_100g", found.metres),
    )
    for column, pair in columns:
        published = tuple(
            Fraction(row[f"{column}_{end}"]) if row[f"{column}_{end}"] else None for end in ("min", "max")
        )
        assert pair == published


def test_no_class_is_without_its_row():
    published = [int(row["cyc_number"]) for row in rows("yarn_weights.csv")]
    assert published == [each.number for each in yarn.weight_classes()] == list(range(8))


def test_every_row_names_its_source():
    for name in ("yarn_systems.csv", "needles.csv"):
        assert all(row["source"].strip() for row in rows(name)), name
    for row in rows("yarn_weights.csv"):
        assert all(text.strip() for column, text in row.items() if column.startswith("source"))


@pytest.mark.parametrize(
    ("metres", "numbers"), [(700, [0]), (400, [1]), (350, [1, 2]), (225, [3]), (125, [4, 5]), (80, [6, 7])]
)
def test_classes_by_metres(metres, numbers):
    assert [each.number for each in yarn.classes_by_metres(Fraction(metres))] == numbers


@pytest.mark.parametrize(
    ("wraps", "numbers"), [("7", [5]), ("14", [1, 2, 3]), ("45", [0]), ("4.5", [6, 7]), ("0.5", [7])]
)
def test_classes_by_wraps(wraps, numbers):
    assert [each.number for each in yarn.classes_by_wraps(Fraction(wraps))] == numbers


@given(st.fractions(min_value=Fraction(1), max_value=3000))
def test_every_yarn_has_a_class(value):
    assert yarn.classes_by_metres(value) and yarn.classes_by_wraps(value)


def test_needles_for_classes():
    one, four, five, seven = (yarn.weight_classes()[n] for n in (1, 4, 5, 7))
    assert yarn.needle_range([one]) == (Fraction("2.25"), Fraction("3.25"))
    assert yarn.needle_range([four, five]) == (Fraction("4.5"), Fraction(8))
    assert yarn.needle_range([seven]) == (Fraction("12.75"), None)
    assert yarn.metres_range([four, five]) == (100, 200)


def test_the_document_lists_every_system():
    lines = (DATA.parents[1] / "docs" / "yarn.md").read_text(encoding="utf-8").splitlines()
    for word, system in yarn.SYSTEMS.items():
        assert f"| {word} | {system.kind} | {system.words} | {float(system.tex):.8g} |" in lines
