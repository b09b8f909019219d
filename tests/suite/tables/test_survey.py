"""The survey's bodies in our measures: allowances recomputed against the published sizes, and the text form."""

from fractions import Fraction

import pytest
import survey

from wale import sizes

PUBLISHED_SIZES = {"women": ("S", "M", "L", "XL"), "men": ("S", "M", "L", "XL")}  # busts that the survey spans


def at_bust(sex, column, bust):
    """The survey's value of a column at a bust, on its least-squares line."""
    pairs = [(float(r["chest_cm"]), float(r[column])) for r in survey.rows() if r["sex"] == sex]
    mean_x, mean_y = (sum(v) / len(pairs) for v in zip(*pairs, strict=True))
    slope = sum((x - mean_x) * (y - mean_y) for x, y in pairs) / sum((x - mean_x) ** 2 for x, _ in pairs)
    return mean_y + slope * (bust - mean_x)


def against_published(group, sex, measure, combine):
    """Mean over the sizes of combine(published, surveyed at the same bust)."""
    column = survey.MAPPING[measure].column
    found = []
    for name in PUBLISHED_SIZES[group]:
        known = sizes.group(group).size(name).measures
        found.append(combine(float(known[measure].value_cm), at_bust(sex, column, float(known["bust"].value_cm))))
    return sum(found) / len(found)


def ratio(published, surveyed):
    return published / surveyed


def gap(published, surveyed):
    return published - surveyed


SEXES = (("women", "female", 0), ("men", "male", 1))


@pytest.mark.parametrize(("group", "sex", "index"), SEXES)
def test_waist_goes_half_way_to_the_published_ratio(group, sex, index):
    half_way = (1 + against_published(group, sex, "waist", ratio)) / 2
    assert float(survey.MAPPING["waist"].factor[index]) == pytest.approx(half_way, abs=0.006)


@pytest.mark.parametrize(("group", "sex", "index"), SEXES)
def test_sleeve_path_is_the_published_ratio(group, sex, index):
    mean = against_published(group, sex, "neck-to-wrist", ratio)
    assert float(survey.MAPPING["neck-to-wrist"].factor[index]) == pytest.approx(mean, abs=0.006)


def test_upper_arm_is_the_womens_ratio():
    mean = against_published("women", "female", "upper-arm", ratio)
    assert float(survey.MAPPING["upper-arm"].factor[0]) == pytest.approx(mean, abs=0.006)


@pytest.mark.parametrize(("group", "sex", "index"), SEXES)
def test_armhole_is_the_published_difference_to_half_a_cm(group, sex, index):
    mean = against_published(group, sex, "armhole-depth", gap)
    assert float(survey.MAPPING["armhole-depth"].plus[index]) == pytest.approx(mean, abs=0.25)


def test_mens_hip_length_is_the_published_hip_length_less_the_waist_back_length():
    below = []
    for name in PUBLISHED_SIZES["men"]:
        known = sizes.group("men").size(name).measures
        navel = at_bust("male", "waist_back_length_cm", float(known["bust"].value_cm))
        below.append(float(known["body-length"].value_cm) - navel)
    assert float(survey.MAPPING["hip-length"].plus[1]) == pytest.approx(sum(below) / len(below), abs=0.5)


def test_all_bodies():
    found = survey.bodies()
    assert len(found) == 300
    assert sum(each["sex"] == "female" for each in found) == 150
    for each in found:
        assert set(each["measures"]) == set(survey.MAPPING) <= set(sizes.MEASURES)
        assert all(3 < value < 200 for value in each["measures"].values())


def test_a_body_by_hand():
    # F0007: chest 98.8, navel waist 96.4 * 0.94 = 90.616, spine to wrist 79.2 * 0.93 = 73.656,
    # upper arm 32.0 * 0.94 = 30.08, armhole 15.9 + 3
    (row,) = (r for r in survey.rows() if r["body_id"] == "F0007")
    measures = survey.measures_of(row)
    expected = {
        "bust": "98.8",
        "waist": "90.6",
        "neck-to-wrist": "73.7",
        "upper-arm": "30.1",
        "armhole-depth": "18.9",
        "hip-length": "15",
    }
    assert {name: measures[name] for name in expected} == {name: Fraction(v) for name, v in expected.items()}
    assert survey.body_block(row).splitlines()[:3] == [
        "body F0007",
        "    measure bust 98.8 cm",
        "    measure waist 90.6 cm",
    ]
    assert survey.body_block(row).count("\n    measure ") == len(survey.MAPPING)


def test_every_body_has_its_defaults():
    for each in survey.bodies():
        measures = {name: sizes.Measured(v, "survey", "given") for name, v in each["measures"].items()}
        body = sizes.Body(each["id"], measures)
        assert 16 <= sizes.neck_width(body).value_cm <= 21
        assert 45 < sizes.body_length(body).value_cm < 85


def test_the_document_tells_every_allowance():
    path = survey.DATA.parents[1] / "docs" / "sizes.md"
    lines = path.read_text(encoding="utf-8").splitlines()
    for name, mapped in survey.MAPPING.items():
        start = f"| {name} | {f'`{mapped.column}`' if mapped.column else 'none'} | {allowance(mapped)} |"
        assert any(line.startswith(start) for line in lines), start


def allowance(mapped):
    """Say an allowance as the document does: women's, then men's where it differs."""
    if mapped.factor != (1, 1):
        words = [f"× {float(factor):g}" for factor in mapped.factor]
    elif mapped.column and mapped.plus != (0, 0):
        words = [f"+ {float(plus):g} cm" for plus in mapped.plus]
    elif not mapped.column:
        words = [f"{float(plus):g} cm" for plus in mapped.plus]
    else:
        words = ["as measured"]
    return words[0] if len(set(words)) == 1 else f"women {words[0]}, men {words[1]}"
