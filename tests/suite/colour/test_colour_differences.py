"""Colours compared: the published pairs of CIEDE2000, our closed formula against the library, and what is told."""

import random
import sys
from pathlib import Path

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st
from support import checked, written

from wale.colour import CLOSE_BELOW, SAME_BELOW, SIGHTS, apart, as_seen, difference, lightness
from wale.pattern import Drawings, Table

# Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and
# mathematical observations", Color Research and Application 30 (2005), 21-30, table 1: L* a* b*, L* a* b*, difference.
PUBLISHED = """\
50.0000 2.6772 -79.7751 50.0000 0.0000 -82.7485 2.0425
50.0000 3.1571 -77.2803 50.0000 0.0000 -82.7485 2.8615
50.0000 2.8361 -74.0200 50.0000 0.0000 -82.7485 3.4412
50.0000 -1.3802 -84.2814 50.0000 0.0000 -82.7485 1.0000
50.0000 -1.1848 -84.8006 50.0000 0.0000 -82.7485 1.0000
50.0000 -0.9009 -85.5211 50.0000 0.0000 -82.7485 1.0000
50.0000 0.0000 0.0000 50.0000 -1.0000 2.0000 2.3669
50.0000 -1.0000 2.0000 50.0000 0.0000 0.0000 2.3669
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0009 7.1792
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0010 7.1792
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0011 7.2195
50.0000 2.4900 -0.0010 50.0000 -2.4900 0.0012 7.2195
50.0000 -0.0010 2.4900 50.0000 0.0009 -2.4900 4.8045
50.0000 -0.0010 2.4900 50.0000 0.0010 -2.4900 4.8045
50.0000 -0.0010 2.4900 50.0000 0.0011 -2.4900 4.7461
50.0000 2.5000 0.0000 50.0000 0.0000 -2.5000 4.3065
50.0000 2.5000 0.0000 73.0000 25.0000 -18.0000 27.1492
50.0000 2.5000 0.0000 61.0000 -5.0000 29.0000 22.8977
50.0000 2.5000 0.0000 56.0000 -27.0000 -3.0000 31.9030
50.0000 2.5000 0.0000 58.0000 24.0000 15.0000 19.4535
50.0000 2.5000 0.0000 50.0000 3.1736 0.5854 1.0000
50.0000 2.5000 0.0000 50.0000 3.2972 0.0000 1.0000
50.0000 2.5000 0.0000 50.0000 1.8634 0.5757 1.0000
50.0000 2.5000 0.0000 50.0000 3.2592 0.3350 1.0000
60.2574 -34.0099 36.2677 60.4626 -34.1751 39.4387 1.2644
63.0109 -31.0961 -5.8663 62.8187 -29.7946 -4.0864 1.2630
61.2901 3.7196 -5.3901 61.4292 2.2480 -4.9620 1.8731
35.0831 -44.1164 3.7933 35.0232 -40.0716 1.5901 1.8645
22.7233 20.0904 -46.6940 23.0331 14.9730 -42.5619 2.0373
36.4612 47.8580 18.3852 36.2715 50.5065 21.2231 1.4146
90.8027 -2.0831 1.4410 91.1528 -1.6435 0.0447 1.4441
90.9257 -0.5406 -0.9208 88.6381 -0.8985 -0.7239 1.5381
6.7747 -0.2908 -2.4247 5.8714 -0.0985 -2.2286 0.6377
2.0776 0.0795 -1.1350 0.9033 -0.0636 -0.5514 0.9082
"""
PAIRS = [tuple(map(float, line.split())) for line in PUBLISHED.splitlines()]
COLOURS = st.tuples(*[st.integers(0, 255)] * 3).map(lambda parts: "#{:02x}{:02x}{:02x}".format(*parts))
PAGES = Path(__file__).parents[3] / "docs" / "problems"


def test_there_are_34_published_pairs():
    assert len(PAIRS) == 34


@pytest.mark.parametrize("pair", PAIRS, ids=range(1, 35))
def test_the_difference_of_a_published_pair(pair):
    """The formula that `difference` asks for, which takes its colours in Lab."""
    one, other = Color("lab-d65", pair[:3]), Color("lab-d65", pair[3:6])
    assert one.delta_e(other, method="2000") == pytest.approx(pair[6], abs=0.00006)
    assert other.delta_e(one, method="2000") == pytest.approx(pair[6], abs=0.00006)


@given(COLOURS, COLOURS)
def test_our_lightness_is_the_library_s(one, other):
    assert lightness(one) == pytest.approx(Color(one).convert("lab-d65")["l"], abs=0.01)
    found = apart(one, other)
    assert found.difference == difference(other, one) or abs(found.difference - difference(other, one)) < 1e-9


@given(st.integers(0, 255), st.sampled_from(list(SIGHTS)))
def test_greys_look_alike_to_all_eyes(light, sight):
    # Both methods hold the greys of the screen as they are (Brettel 1997, Viénot 1999).
    grey = "#" + f"{light:02x}" * 3
    assert difference(as_seen(grey, sight), grey) < 1


def test_red_and_green_of_one_lightness_as_the_simulation_has_them():
    # Viénot 1999: for protanopes and deuteranopes red and green become shades of one hue, so that r = g in each.
    for sight in ("protan", "deutan"):
        for colour in ("#9c4a3c", "#5f7040", "#ff0000"):
            seen = as_seen(colour, sight)
            assert seen[1:3] == seen[3:5]


def test_colours_well_apart_in_lightness_are_so_to_all_eyes():
    """The check looks no further where L* differs by 30: try saturated colours, which come nearest, and any others."""
    dice = random.Random(6)
    worst = 100.0
    for number in range(12_000):
        ends = (0, 255) if number % 2 else range(256)
        one, other = (
            "#" + "".join(f"{dice.choice(ends) if dice.random() < 0.7 else dice.randrange(256):02x}" for _ in range(3))
            for _ in range(2)
        )
        if CLOSE_BELOW <= abs(lightness(one) - lightness(other)) < CLOSE_BELOW + 6:
            found = apart(one, other)
            worst = min(worst, found.difference, *found.seen)
    assert SAME_BELOW < worst < 2 * SAME_BELOW  # and some came near


HAT = (PAGES / "W602.md").read_text("utf-8").split("```wale\n")[1].split("```")[0]


def hat(one: str, other: str) -> str:
    return HAT.replace("#8a5a2b", one).replace("#6f6a3a", other)


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("#8a5a2b", "#efe6d2", []),
        ("#8a5a2b", "#7d5630", ["W615"]),  # alike in all
        ("#777777", "#b8b8b8", ["N603"]),  # L* 50 and 75
        ("#3a6fb0", "#8a6a5a", ["W602"]),  # blue and brown of one lightness
        ("#9c4a3c", "#5f7040", ["W602", "W616"]),  # red and green of one lightness
        ("#ff0000", "#004800", ["N603", "W616"]),  # L* 53 and 26: red looks dark without red cones
    ],
)
def test_what_a_pair_is_warned_of(one, other, expected):
    found = [each.code for each in checked(hat(one, other)).problems if each.code in ("W602", "N603", "W615", "W616")]
    assert found == expected


def test_the_warning_has_the_figures_and_both_places():
    (found,) = [each for each in checked(hat("#9c4a3c", "#5f7040")).problems if each.code == "W616"]
    assert len(found.labels) == 2
    for sight, name in (("protan", "red-blind"), ("deutan", "green-blind")):
        seen = difference(as_seen("#9c4a3c", sight), as_seen("#5f7040", sight))
        assert f"{seen:.0f} to {name} ones" in found.message
    assert "blue-blind" not in found.message


@pytest.mark.parametrize(
    ("one", "other", "words"),
    [
        ("#8a5a2b", "#efe6d2", "well apart"),
        ("#8a5a2b", "#7d5630", "hardly different"),
        ("#777777", "#b8b8b8", "faint in grey"),
        ("#9c4a3c", "#5f7040", "run together in grey, alike to red-blind and green-blind eyes"),
    ],
)
def test_the_drawings_tell_each_pair_with_figures_and_words(one, other, words):
    from support import SPEC, world

    from wale.driver import compile_spec

    pattern = compile_spec(world(hat(one, other)), SPEC, extras=("drawings",)).pattern
    assert pattern is not None
    (table,) = [
        part
        for section in pattern.sections
        for part in section.parts
        if isinstance(part, Table) and part.caption == "How the colours stand apart"
    ]
    ((names, *figures, told),) = table.rows
    assert (names, told) == (f"rye ({one}) and bran ({other})", words)
    assert figures[0] == f"{abs(lightness(one) - lightness(other)):.0f}"
    assert figures[1] == f"{difference(one, other):.0f}"


@pytest.mark.parametrize(("other", "is_told"), [("#efe6d2", False), ("#7d5630", True)])
def test_the_pattern_tells_of_colours_only_where_they_come_close(other, is_told):
    """L* of #8a5a2b is 42.6, of #efe6d2 91.5 and of #7d5630 40.0: 49 and 3 apart, on either side of 30."""
    pattern = written(hat("#8a5a2b", other)).pattern
    assert pattern is not None
    tables = [part.caption for section in pattern.sections for part in section.parts if isinstance(part, Table)]
    assert ("How the colours stand apart" in tables) is is_told


def test_drawings_show_the_fabric_to_each_kind_of_eyes():
    from support import SPEC, world

    from wale.driver import compile_spec

    pattern = compile_spec(world(hat("#9c4a3c", "#5f7040")), SPEC, extras=("drawings",)).pattern
    assert pattern is not None
    (shown,) = [
        part
        for section in pattern.sections
        for part in section.parts
        if isinstance(part, Drawings) and "colour-blind" in part.title
    ]
    assert [one.caption for one in shown.items] == [f"specks on specked to {eyes} eyes" for eyes in SIGHTS.values()]
    for one, sight in zip(shown.items, SIGHTS, strict=True):
        colours = {as_seen("#9c4a3c", sight), as_seen("#5f7040", sight)}
        assert {colour for row in one.parts[0].tile for colour in row} == colours


def test_no_colours_are_compared_where_none_meet_and_the_check_needs_no_library():
    import subprocess

    code = "import sys; sys.argv = ['wale', 'check', 'examples/millrace-pullover.wale']; import wale.cli as c; "
    code += "c.main(); print('coloraide' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], cwd=PAGES.parents[1], capture_output=True, text=True)
    assert done.stdout.splitlines()[-1] == "False"
