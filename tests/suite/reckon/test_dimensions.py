"""Each public formula against pint: the units come out right, and so does the figure, whatever units go in.

pint reckons in other units than the formula (inches for cm, ounces for g, yards for m), in floats, by a formula of its
own that is written here with units. A formula that mixes up units, or lacks a factor of 10, differs at once.
"""

import importlib
import inspect
import math
import pkgutil
from fractions import Fraction
from functools import partial

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import wale.shaping
from wale.shaping import amounts, cap, crown, fabric, gauge, mitre, neck, pickup, proportions, rib, shoulders, yoke
from wale.yarn import SYSTEMS, band_metres_per_100g, count_in, held_together, metres_per_100g

UNIT = pint.UnitRegistry()
UNIT.define("wale_stitch = [wale_stitch]")
UNIT.define("wale_row = [wale_row]")
UNIT.define("wrapping = 100 gram")
STS, ROWS = "wale_stitch / inch", "wale_row / inch"
ST, ROW = UNIT.wale_stitch, UNIT.wale_row
LOOP = "inch / wale_stitch"
SYSTEM_UNITS = {
    "tex": "gram / (1000 meter)",
    "dtex": "gram / (10000 meter)",
    "den": "gram / (9000 meter)",
    "ktex": "kilogram / (1000 meter)",
    "mtex": "milligram / (1000 meter)",
    "grains": "grain / (120 yard)",
    "spyndle": "pound / (14400 yard)",
    "Nm": "meter / gram",
    "Ne": "(840 yard) / pound",
    "NeW": "(560 yard) / pound",
    "run": "(1600 yard) / pound",
    "cut": "(300 yard) / pound",
    "lea": "(300 yard) / pound",
    "ypp": "yard / pound",
    "YSW": "(256 yard) / pound",
    "gala": "(300 yard) / (24 ounce)",
}
# module.function: how it is called, units of arguments inside, the same in other units, unit of the result, formula
FORMULAS = {
    "gauge.per_length": (
        gauge.per_length,
        ("wale_stitch", "cm"),
        ("wale_stitch", "inch"),
        "wale_stitch / cm",
        lambda n, w: n / w,
    ),
    "gauge.stitches": (gauge.stitches, ("cm", "wale_stitch / cm"), ("inch", STS), "wale_stitch", lambda w, g: w * g),
    "gauge.width": (gauge.width, ("wale_stitch", "wale_stitch / cm"), ("wale_stitch", STS), "cm", lambda n, g: n / g),
    "pickup.hypotenuse": (
        pickup.hypotenuse,
        ("cm", "cm"),
        ("inch", "inch"),
        "cm",
        lambda across, up: (across**2 + up**2) ** 0.5,
    ),
    "yoke.yoke_depth": (yoke.yoke_depth, ("cm",), ("inch",), "cm", lambda girth: girth / 4),
    "gauge.miscount": (
        gauge.miscount,
        ("cm", "wale_stitch"),
        ("inch", "wale_stitch"),
        "cm",
        lambda w, n: w * (0.5 * ST) / n,
    ),
    "fabric.loop_length": (
        fabric.loop_length,
        ("wale_stitch / cm", "wale_row / cm"),
        (STS, ROWS),
        "cm / (wale_stitch * wale_row) ** 0.5",
        lambda s, r: (23.1 / (s * r)) ** 0.5,
    ),
    "fabric.loop_by_width": (
        fabric.loop_by_width,
        ("wale_stitch / cm",),
        (STS,),
        "cm / wale_stitch",
        lambda s: 4.2 / s,
    ),
    "fabric.loop_by_height": (fabric.loop_by_height, ("wale_row / cm",), (ROWS,), "cm / wale_row", lambda r: 5.5 / r),
    "fabric.stitch_density": (
        fabric.stitch_density,
        ("cm",),
        ("inch",),
        "1 / cm ** 2",
        lambda loop: 4.2 * 5.5 / loop**2,
    ),
    "fabric.tightness": (
        fabric.tightness,
        ("tex", "cm"),
        ("denier", "inch"),
        "tex ** 0.5 / cm",
        lambda t, loop: t**0.5 / loop,
    ),
    "fabric.yarn_per_area": (
        fabric.yarn_per_area,
        ("wale_stitch / cm", "1 / cm", "cm / wale_stitch"),
        (STS, "1 / inch", LOOP),
        "meter / meter ** 2",
        lambda s, r, loop: s * r * loop,
    ),
    "fabric.area_weight": (
        fabric.area_weight,
        ("wale_stitch / cm", "1 / cm", "cm / wale_stitch", "tex"),
        (STS, "1 / inch", LOOP, "denier"),
        "gram / meter ** 2",
        lambda s, r, loop, t: s * r * loop * t,
    ),
    "fabric.yarn_diameter": (
        fabric.yarn_diameter,
        ("tex", "cm ** 3 / gram"),
        ("denier", "inch ** 3 / ounce"),
        "mm",
        lambda t, v: 2 * (t * v / math.pi) ** 0.5,
    ),
    "fabric.tex_of_diameter": (
        fabric.tex_of_diameter,
        ("mm", "cm ** 3 / gram"),
        ("inch", "inch ** 3 / ounce"),
        "tex",
        lambda d, v: math.pi * (d / 2) ** 2 / v,
    ),
    "amounts.trapezium": (amounts.trapezium, ("cm",) * 3, ("inch",) * 3, "cm ** 2", lambda a, b, h: (a + b) / 2 * h),
    "amounts.sweater_area": (
        amounts.sweater_area,
        ("cm",) * 2,
        ("inch",) * 2,
        "cm ** 2",
        lambda girth, long: girth * long * 1.5,
    ),
    "amounts.grams_by_area": (
        amounts.grams_by_area,
        ("cm ** 2", "cm ** 2", "gram"),
        ("inch ** 2", "inch ** 2", "ounce"),
        "gram",
        lambda area, swatch, grams: grams * (area / swatch),
    ),
    "amounts.grams_by_length": (
        amounts.grams_by_length,
        ("cm", "meter / wrapping"),
        ("yard", "yard / ounce"),
        "gram",
        lambda length, metres: length / metres,
    ),
    "amounts.cast_on_tail": (amounts.cast_on_tail, ("inch",), ("cm",), "inch", lambda wide: 3 * wide + 10 * UNIT.inch),
    "yarn.band_metres_per_100g": (
        band_metres_per_100g,
        ("meter", "gram"),
        ("yard", "ounce"),
        "meter / wrapping",
        lambda m, g: m / g,
    ),
    "yarn.held_together": (
        lambda a, b: held_together([a, b]),
        ("meter / wrapping",) * 2,
        ("yard / pound",) * 2,
        "meter / wrapping",
        lambda a, b: 1 / (1 / a + 1 / b),
    ),
    "crown.hat_cast_on": (
        lambda head, gauge: crown.hat_cast_on(head, gauge, -2),
        ("cm", "wale_stitch / cm"),
        ("inch", STS),
        "wale_stitch",
        lambda head, g: (head - 2 * UNIT.cm) * g,
    ),
    "proportions.drop_sleeve_length": (
        proportions.drop_sleeve_length,
        ("cm", "cm"),
        ("inch", "inch"),
        "cm",
        lambda arm, wide: arm - wide / 2,
    ),
    "shoulders.slope_depth": (
        partial(shoulders.slope_depth, 3),
        ("wale_row / cm",),
        (ROWS,),
        "cm",
        lambda rows: 6 * ROW / rows,
    ),
    "proportions.foot_girths": (
        lambda foot: proportions.foot_girths(foot)[2],
        ("cm",),
        ("inch",),
        "cm",
        lambda foot: foot * 0.95 * 1.35,
    ),
    "proportions.share": (proportions.share, ("cm", ""), ("inch", ""), "cm", lambda key, part: key * part / 100),
    "rib.rib_stitches": (rib.rib_stitches, ("wale_stitch",), ("wale_stitch",), "wale_stitch", lambda n: n * 0.9),
    "rib.facing_stitches": (rib.facing_stitches, ("wale_stitch",), ("wale_stitch",), "wale_stitch", lambda n: n * 0.97),
    "crown.flat_disc_rate": (
        crown.flat_disc_rate,
        ("wale_row / wale_stitch",),
        ("wale_row / wale_stitch",),
        "wale_stitch / wale_row",
        lambda rate: 2 * math.pi / rate,
    ),
    "pickup.pick_up_ratio": (
        partial(pickup.pick_up_ratio, longest=10**9),
        ("wale_stitch / cm", "wale_row / cm"),
        (STS, ROWS),
        "wale_stitch / wale_row",
        lambda s, r: s / r,
    ),
    "amounts.cast_on_tail_from_sample": (
        lambda length: amounts.cast_on_tail_from_sample(100, 10, length),
        ("inch",),
        ("cm",),
        "inch",
        lambda length: (100 * ST) / (10 * ST) * length,
    ),
}
ELSEWHERE = {
    **dict.fromkeys(
        ("fabric.cotton_diameter", "amounts.pom_pom_grams", "amounts.tassel_grams", "amounts.scarf_yards"),
        "a test of its own below",
    ),
    **dict.fromkeys(("yarn.metres_per_100g", "yarn.count_in"), "every system below"),
    "amounts.put_ups": "whole put-ups below",
    **dict.fromkeys(("cap.cap_height", "yoke.raglan_depths"), "caps and raglans in inches below"),
    "shoulders.steps_for_slope": "whole steps below",
    "neck.boat_ends": "whole stitches of a width in cm, below",
    "mitre.mitre_every": "a choice of two, whatever the unit, below",
}
WHOLE = {
    "amounts": (),
    "buttonholes": ("margin", "buttonholes"),
    "cap": ("cap_decreases",),
    "collar": ("front_rows", "short_pairs", "turn_gaps"),
    "crown": ("crown", "least_rounds"),
    "heel": ("strip_heel",),
    "yoke": ("yoke_counts", "yoke_multiple", "raglan_neck", "raglan_rounds"),
    "fabric": ("root",),
    "gauge": ("nearest",),
    "neck": ("neck_steps", "neck_split", "sloped_neck", "scoop_neck", "boat_neck", "with_placket", "slope_runs"),
    "mitre": ("mitre_rounds",),
    "phrases": ("merge", "fold", "expand", "weigh"),
    "pickup": ("pick_up_pattern", "along_rows", "along_stitches"),
    "proportions": (),
    "repeats": ("repeat_fit", "half_drop", "half_drop_size"),
    "rib": ("rib_rule",),
    "shoulders": ("shoulder_steps", "turning_points"),
    "spacing": (
        *("distribute", "distribute_in_blocks", "decrease_round", "decrease_flat"),
        *("increase_round", "increase_flat", "increase_simply"),
    ),
    "taper": ("shapings", "least_rows", "schedule", "cast_on_at_edges"),
    "yarn": (
        *("read_fold", "resultant", "weight_classes", "classes_by_metres", "classes_by_wraps"),
        *("needle_range", "metres_range"),
    ),
}
"""Functions of counts alone (stitches and rows in and out, bare numbers, or a table): no units to mix."""
SIZES = st.fractions(min_value=Fraction(1, 2), max_value=300, max_denominator=40)


@pytest.mark.parametrize("name", FORMULAS)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_units_and_figure_agree_with_pint(name, data):
    function, inside, outside, result, formula = FORMULAS[name]
    values = [data.draw(SIZES) for _ in inside]
    quantities = [
        UNIT.Quantity(float(value), unit).to(other) for value, unit, other in zip(values, inside, outside, strict=True)
    ]
    expected = formula(*quantities).to(result).magnitude  # raises DimensionalityError where the units do not come out
    assert float(function(*values)) == pytest.approx(expected, rel=1e-5, abs=2e-5)


def public_functions():
    names = [f"wale.shaping.{one.name}" for one in pkgutil.iter_modules(wale.shaping.__path__)]
    for name in (*names, "wale.yarn"):
        module = importlib.import_module(name)
        for word, one in inspect.getmembers(module, callable):
            if getattr(one, "__module__", "") == name and not inspect.isclass(one) and not word.startswith("_"):
                yield f"{name.rsplit('.')[-1]}.{word}"


def test_every_public_formula_is_here_and_nothing_else():
    counted = [f"{module}.{word}" for module, words in WHOLE.items() for word in words]
    assert sorted([*FORMULAS, *ELSEWHERE, *counted]) == sorted(public_functions())
    for name, (function, *_) in FORMULAS.items():
        assert getattr(function, "__name__", "<lambda>") in ("<lambda>", name.rsplit(".")[-1])


@given(sts=SIZES, rows=SIZES, slant=SIZES)
def test_rounds_between_mitres_in_inches(sts, rows, slant):
    inch = Fraction(254, 100)
    assert mitre.mitre_every(sts * inch, rows * inch, slant) == mitre.mitre_every(sts, rows, slant)


@given(depth=SIZES, rows=SIZES)
def test_steps_for_a_slope_in_inches(depth, rows):
    exact = (UNIT.Quantity(float(depth), "cm") * UNIT.Quantity(float(rows), "wale_row / cm")).to("wale_row") / (2 * ROW)
    inches = shoulders.steps_for_slope(depth / Fraction(254, 100), rows * Fraction(254, 100))
    assert inches == shoulders.steps_for_slope(depth, rows)
    assert abs(inches - max(1, exact.to("").magnitude)) <= 0.5 + 1e-6


@given(per_cm=SIZES)
def test_the_ends_of_a_boat_neck(per_cm):
    exact = UNIT.Quantity(2.5, "cm") * UNIT.Quantity(float(per_cm * Fraction(254, 100)), STS)
    assert abs(neck.boat_ends(per_cm) - exact.to("wale_stitch").magnitude) <= 0.5 + 1e-6


@given(grams=SIZES, put_up=SIZES)
def test_whole_put_ups_in_ounces(grams, put_up):
    ratio = UNIT.Quantity(float(grams), "gram").to("ounce") / UNIT.Quantity(float(put_up), "gram").to("ounce")
    (number,) = amounts.put_ups([grams], put_up)
    assert ratio.to("").magnitude - 1e-9 <= number < ratio.to("").magnitude + 1 + 1e-9


@given(armhole=SIZES, bind_off=SIZES, chest=SIZES)
def test_caps_and_raglans_in_inches(armhole, bind_off, chest):
    inch = Fraction(254, 100)
    of_cm = cap.cap_height(armhole * inch, bind_off * inch, chest * inch, inch=inch)
    assert of_cm == cap.cap_height(armhole, bind_off, chest) * inch
    assert yoke.raglan_depths(armhole * inch, bind_off * inch) == tuple(
        depth * inch for depth in yoke.raglan_depths(armhole, bind_off)
    )


@given(ne=SIZES)
def test_peirce_in_inches_and_in_mm(ne):
    # 28 sqrt(Ne) in the inch, and 2 sqrt(tex v / pi) with v = 1.1: the two published forms agree within half a per cent
    tex = (1 / (float(ne) * UNIT(SYSTEM_UNITS["Ne"]))).to("tex")
    thick = (2 * (tex * UNIT("1.1 cm**3 / gram") / math.pi) ** 0.5).to("inch")
    assert float(fabric.cotton_diameter(ne)) == pytest.approx(thick.magnitude, rel=5e-3)


@given(long=SIZES, wide=SIZES, sts=SIZES)
def test_scarf_rule_in_yards(long, wide, sts):
    # 36 inches in a yard, divided by 6: the rule gives 6 inches of yarn for each stitch width of each row of an inch
    area = UNIT.Quantity(float(long * wide), "inch ** 2")
    yarn = area * UNIT.Quantity(float(sts), "1 / inch") * 6
    assert float(amounts.scarf_yards(long, wide, sts)) == pytest.approx(yarn.to("yard").magnitude, rel=1e-9)


@given(across=SIZES)
def test_pom_pom_by_density(across):
    # d^3 / 30 g is a density of 1 g in 30 cubic cm of its cube
    cube = UNIT.Quantity(float(across), "cm").to("inch") ** 3
    assert float(amounts.pom_pom_grams(across)) == pytest.approx((cube / UNIT("30 cm**3 / gram")).to("gram").magnitude)


@pytest.mark.parametrize("system", SYSTEMS)
@settings(max_examples=15, deadline=None)
@given(number=SIZES)
def test_counts_in_units(system, number):
    quantity = UNIT.Quantity(float(number), "dimensionless") * UNIT(SYSTEM_UNITS[system])
    per_100g = 1 / quantity if SYSTEMS[system].kind == "direct" else quantity
    metres = metres_per_100g(number, system)
    assert float(metres) == pytest.approx(per_100g.to("meter / wrapping").magnitude, rel=1e-9)
    assert count_in(metres, system) == number


@pytest.mark.parametrize(
    ("system", "pints"), [("tex", "tex"), ("dtex", "dtex"), ("den", "denier"), ("Ne", "Ne"), ("Nm", "Nm")]
)
def test_counts_against_pints_own_textile_units(system, pints):
    one = 1 * UNIT(pints)
    per_100g = 1 / one if SYSTEMS[system].kind == "direct" else one
    assert float(metres_per_100g(Fraction(1), system)) == pytest.approx(
        per_100g.to("meter / wrapping").magnitude, rel=1e-9
    )


@given(length=SIZES)
def test_the_yarn_of_a_tassel(length):
    grams = UNIT.Quantity(float(length), "cm") * UNIT("0.25 gram / cm")
    assert float(amounts.tassel_grams(length)) == pytest.approx(grams.to("gram").magnitude)
