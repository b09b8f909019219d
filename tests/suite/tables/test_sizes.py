"""Size tables against the published figures, and estimates against the survey they come from."""

import csv
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from wale import sizes
from wale.published import rows_of
from wale.quantity import show_decimal

ROOT = Path(__file__).parents[3]
DATA = ROOT / "tests" / "data"


def rows(name):
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


GROUPS = {"woman": "women", "man": "men", "child_youth": "children", "baby": "babies"}
MEASURES = {
    "chest": "bust",
    "bust": "bust",
    "waist": "waist",
    "hips": "hip",
    "centre_back_neck_to_cuff": "neck-to-wrist",
    "back_waist_length": "back-waist",
    "back_hip_length": "body-length",
    "cross_back": "cross-back",
    "arm_length_to_underarm": "arm-length",
    "upper_arm": "upper-arm",
    "armhole_depth": "armhole-depth",
}


@pytest.mark.parametrize("group", GROUPS)
def test_published_rows(group):
    """Every published figure is found under its published size name: the middle of its inches, times 2.54."""
    checked = 0
    for row in rows("body_sizes.csv"):
        if row["group"] != group or row["confidence"] == "memory-low":
            continue
        body = sizes.group(GROUPS[group]).size(row["size"].replace(" mo", "mo"))
        found = body.measures[MEASURES[row["measure"]]]
        assert found.value_cm == (Fraction(row["in_min"]) + Fraction(row["in_max"])) / 2 * Fraction("2.54")
        assert found.confidence == row["confidence"]
        assert found.source.startswith("Craft Yarn Council")
        # the printed cm are rounded, the middle of a range at most 0.8 cm away
        assert abs(found.value_cm - (Fraction(row["cm_min"]) + Fraction(row["cm_max"])) / 2) <= Fraction(8, 10)
        checked += 1
    assert checked > 40


def test_women_bust_in_inches():
    bust = [body.measures["bust"].value_cm / Fraction("2.54") for body in sizes.group("women").bodies]
    assert bust == [29, 33, 37, 41, 45, 49, 53, 57, 61]


def test_names():
    assert sizes.group("women").names == ("XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL")
    assert sizes.group("men").names == ("S", "M", "L", "XL", "2XL")
    assert sizes.group("children").names == ("2", "4", "6", "8", "10", "12", "14", "16")
    assert sizes.group("babies").names == ("3-months", "6-months", "12-months", "18-months", "24-months")
    assert sizes.GROUPS == ("women", "men", "children", "babies")


@pytest.mark.parametrize(
    ("group", "second", "name"),
    [
        ("women", "X-Small", "XS"),
        ("women", "1X", "XL"),
        ("women", "XXL", "2XL"),
        ("women", "2x", "2XL"),
        ("women", "XXXL", "3XL"),
        ("men", "XX-Large", "2XL"),
        ("babies", "3mo", "3-months"),
        ("babies", "24-mo", "24-months"),
    ],
)
def test_second_names(group, second, name):
    assert sizes.group(group).size(second).name == name


@pytest.mark.parametrize(("group", "name"), [("men", "3XL"), ("men", "XS"), ("children", "3"), ("women", "")])
def test_sizes_that_are_not_there(group, name):
    assert sizes.group(group).size(name) is None


def test_left_out_sizes_are_told():
    assert "3XL" in sizes.group("men").left_out
    assert sizes.group("women").left_out == ""


def test_unknown_group():
    with pytest.raises(KeyError):
        sizes.group("dogs")


def test_users():
    assert [sizes.group(g).users for g in sizes.GROUPS] == ["adults", "adults", "children", "babies"]
    assert all(body.users == "babies" for body in sizes.group("babies").bodies)


@pytest.mark.parametrize("group", sizes.GROUPS)
def test_measures_are_named_and_never_shrink(group):
    bodies = sizes.group(group).bodies
    for body in bodies:
        assert set(body.measures) == set(bodies[0].measures) <= set(sizes.MEASURES)
    for smaller, larger in pairwise(bodies):
        for name, found in smaller.measures.items():
            assert found.value_cm <= larger.measures[name].value_cm, (name, larger.name)


def test_measures_that_are_not_known_are_absent():
    # no published table or survey at hand gives them, and nothing justifies a guess
    for group in ("children", "babies"):
        for body in sizes.group(group).bodies:
            assert not {"wrist", "hand", "neck-base", "shoulder-girth"} & set(body.measures)
    assert not {"back-waist", "hip-length"} & set(sizes.group("men").bodies[0].measures)


def test_measure_names():
    assert sizes.measure_name("chest") == "bust"
    assert sizes.measure_name("hips") == "hip"
    assert sizes.measure_name("wrist") == "wrist"
    assert sizes.measure_name("tail") is None


def fit(sex, column):
    """Least squares on the bust over the survey's bodies of one sex, exact: (factor, constant, variance)."""
    pairs = [(Fraction(r["chest_cm"]), Fraction(r[column])) for r in rows("bodies.csv") if r["sex"] == sex]
    n = len(pairs)
    mean_x, mean_y = sum(x for x, _ in pairs) / n, sum(y for _, y in pairs) / n
    factor = sum((x - mean_x) * (y - mean_y) for x, y in pairs) / sum((x - mean_x) ** 2 for x, _ in pairs)
    constant = mean_y - factor * mean_x
    return factor, constant, sum((y - factor * x - constant) ** 2 for x, y in pairs) / (n - 2)


@pytest.mark.parametrize(("group", "sex"), [("women", "female"), ("men", "male")])
@pytest.mark.parametrize("measure", ["wrist", "hand", "neck-base", "head"])
def test_estimates_are_the_fit(group, sex, measure):
    factor, constant, variance = fit(sex, measure.replace("-", "_") + "_cm")
    (row,) = (r for r in rows_of("estimates") if r["group"] == group and r["measure"] == measure)
    assert abs(Fraction(row["factor"]) - factor) <= Fraction(1, 2000)  # rounded to three places
    assert abs(Fraction(row["constant"]) - constant) <= Fraction(1, 200)
    assert abs(float(row["spread_cm"]) - float(variance) ** 0.5) <= 0.05
    busts = [Fraction(r["chest_cm"]) for r in rows("bodies.csv") if r["sex"] == sex]
    assert (Fraction(row["bust_min"]), Fraction(row["bust_max"])) == (min(busts), max(busts))


@pytest.mark.parametrize(("group", "sex", "factor"), [("women", "female", "1.09"), ("men", "male", "1.11")])
def test_shoulder_girth(group, sex, factor):
    for body in sizes.group(group).bodies:
        assert body.measures["shoulder-girth"].value_cm == body.measures["bust"].value_cm * Fraction(factor)
    # the factors are those of the whole survey: 102.8 / 94.7 and 117.9 / 105.9; the sample agrees within 0.01
    sample = [r for r in rows("bodies.csv") if r["sex"] == sex]
    ratio = sum(Fraction(r["shoulder_girth_cm"]) for r in sample) / sum(Fraction(r["chest_cm"]) for r in sample)
    assert abs(ratio - Fraction(factor)) < Fraction(1, 100)


def test_estimate_by_hand():
    # women M: bust 37 in = 93.98 cm; wrist 0.041 * 93.98 + 11.49 = 15.34318
    wrist = sizes.group("women").size("M").measures["wrist"]
    assert wrist.value_cm == Fraction("15.34318")
    assert wrist.confidence == "estimated"
    assert wrist.source.startswith("bust × 0.041 + 11.49 cm; ")
    assert "beyond the bodies measured" not in wrist.source
    assert "beyond the bodies measured" in sizes.group("women").size("3XL").measures["wrist"].source


@pytest.mark.parametrize("row", [r for r in rows("head_hand_foot.csv") if r["part"] == "hand_circumference"])
def test_hands_are_near_the_handbooks(row):
    # the handbooks' figures are from memory: within 2 cm is all that can be asked
    who, _, size = row["who"].partition(" ")
    if who != "child":
        body = sizes.group({"woman": "women", "man": "men"}[who]).size(size)
        assert abs(body.measures["hand"].value_cm - Fraction(row["cm_min"])) < 2


def median_head(months):
    """Mean of the girls' and boys' medians, between the two half months where the month itself is not listed."""
    table = {(r["sex"], Fraction(r["age_months"])): Fraction(r["p50"]) for r in rows("head_growth.csv")}
    half = Fraction(1, 2)
    ages = [months] if ("female", Fraction(months)) in table else [months - half, months + half]
    return sum(table[sex, Fraction(age)] for sex in ("female", "male") for age in ages) / (2 * len(ages))


@pytest.mark.parametrize("months", [3, 6, 12, 18, 24])
def test_baby_heads(months):
    head = sizes.group("babies").size(f"{months}mo").measures["head"]
    assert abs(head.value_cm - median_head(months)) <= Fraction(1, 20)
    assert head.confidence == "estimated"


def test_child_heads():
    """By straight lines between 36 months (CDC), 8 years (20.5 in), 17 years (mean of the survey's adults)."""
    adult = [Fraction(r["head_cm"]) for r in rows("bodies.csv")]
    (child,) = (r for r in rows("head_hand_foot.csv") if (r["part"], r["who"]) == ("hat_circumference_table2", "child"))
    assert child["in_min"] == "20.5"
    anchors = [(3, median_head(36)), (8, Fraction(child["in_min"]) * Fraction("2.54")), (17, sum(adult) / len(adult))]
    assert abs(sizes.group("children").size("2").measures["head"].value_cm - median_head(24)) <= Fraction(1, 20)
    for age in (4, 6, 8, 10, 12, 14, 16):
        (from_age, low), (to_age, high) = anchors[:2] if age <= 8 else anchors[1:]
        expected = low + (high - low) * Fraction(age - from_age, to_age - from_age)
        head = sizes.group("children").size(str(age)).measures["head"]
        assert abs(head.value_cm - expected) <= Fraction(1, 20)


def body(users="adults", **measures):
    given = {k.replace("_", "-"): sizes.Measured(Fraction(v), "the file", "given") for k, v in measures.items()}
    return sizes.Body("mine", given, users)


@pytest.mark.parametrize(
    ("users", "measures", "expected"),
    [
        ("adults", {"neck_base": "35.5"}, 17.3),  # 35.5 / pi + 6 = 17.300
        ("adults", {"neck_base": "25"}, 16),  # 13.96, raised
        ("adults", {"neck_base": "55"}, 21),  # 23.5, lowered
        ("adults", {"cross_back": "40"}, 18),  # 0.45 * 40
        ("adults", {"cross_back": "40", "neck_base": "35.5"}, 17.3),
        ("children", {"cross_back": "30"}, 13.5),
        ("children", {"cross_back": "20"}, 12),
        ("babies", {"cross_back": "22"}, 9.9),
        ("babies", {"cross_back": "30"}, 12),
        ("adults", {"neck_width": "25", "neck_base": "35.5"}, 25),  # the body's own is kept
    ],
)
def test_neck_width(users, measures, expected):
    assert float(sizes.neck_width(body(users, **measures)).value_cm) == pytest.approx(expected, abs=0.001)


def test_body_length():
    assert sizes.body_length(body(back_waist="42.5", hip_length="15")).value_cm == Fraction("57.5")
    assert sizes.body_length(body(body_length="60", back_waist="42.5", hip_length="15")).value_cm == 60
    # women M: 17.25 in + 6 in; men M: middle of 26.5 and 26.75 in, as published
    assert sizes.body_length(sizes.group("women").size("M")).value_cm == Fraction("23.25") * Fraction("2.54")
    assert sizes.body_length(sizes.group("men").size("M")).value_cm == Fraction("26.625") * Fraction("2.54")


def test_defaults_that_cannot_be_reckoned():
    assert sizes.neck_width(body(bust="90")) is None
    assert sizes.body_length(body(back_waist="42")) is None
    assert set(sizes.DEFAULTS) <= set(sizes.MEASURES)


@pytest.mark.parametrize("group", sizes.GROUPS)
def test_every_size_has_its_defaults(group):
    for each in sizes.group(group).bodies:
        assert all(rule(each) is not None for rule in sizes.DEFAULTS.values())


MARKS = {"confirmed": "", "memory": " m", "estimated": " e"}


def document_lines(group):
    """Give the rows of a group's table as docs/sizes.md must print them."""
    bodies = sizes.group(group).bodies
    yield "| measure | " + " | ".join(each.name for each in bodies) + " |"
    for name in bodies[0].measures:
        cells = (each.measures[name] for each in bodies)
        yield f"| {name} | " + " | ".join(f"{show_decimal(c.value_cm)}{MARKS[c.confidence]}" for c in cells) + " |"


@pytest.mark.parametrize("group", sizes.GROUPS)
def test_the_document_prints_the_table(group):
    text = (ROOT / "docs" / "sizes.md").read_text(encoding="utf-8")
    for line in document_lines(group):
        assert line in text.splitlines()


def test_the_document_defines_every_measure():
    text = (ROOT / "docs" / "sizes.md").read_text(encoding="utf-8")
    for name, definition in sizes.MEASURES.items():
        assert f"| {name} | {definition} |" in text.splitlines()
