"""Hoods: a band that is widened on its first row, worked plain and joined at its top."""

from fractions import Fraction

import pytest
from support import EXAMPLES, checked, codes, world

from wale.checks.rings import rings
from wale.driver import compile_spec

HOODED = """band cover
    pick up along front neck, back neck in plain
    hood {wide} sts wide, 80 rows deep
"""
BAND = "    rib     2.5 cm, 2x2, on 3 mm\n    bind off\n\nband button-band"
WEIR = (EXAMPLES / "weir-cardigan.wale").read_text("utf-8")
CARDIGAN = WEIR.replace("neckband end, ", "").replace(", neckband end", "")
YARNS = {"mill-yarns.wale": (EXAMPLES / "mill-yarns.wale").read_text("utf-8")}


def hooded(line: str = "hood 60 cm wide, 33 cm deep", more: str = "", text: str = CARDIGAN) -> str:
    """The cardigan with a hood in the place of its neckband."""
    assert BAND in text
    return text.replace(BAND, f"    {line}\n{more}    bind off\n\nband button-band")


def test_a_hood_is_proven_in_all_sizes() -> None:
    done = compile_spec(world(hooded(), **YARNS), "a.wale")
    assert done.proof is not None, done.problems
    (hood,) = [band for band in done.plan.bands if band.name == "neckband"]
    # 60 cm at 27 sts in 10 cm: 162; 33 cm at 38 rows in 10 cm: 125.4
    assert (set(hood.hood), set(hood.rows)) == ({162}, {125})
    assert all(hood.after(size, row) == 162 for size in range(7) for row in (1, 2, 125))
    steps = [str(part) for section in done.pattern.sections if section.id == "band-neckband" for part in section.parts]
    assert "162 sts by a three-needle bind-off" in " ".join(steps)


def test_a_hood_of_one_row_has_only_the_row_that_widens_it() -> None:
    done = compile_spec(world(hooded("hood 60 cm wide, 1 row deep"), **YARNS), "a.wale")
    assert done.proof is not None, done.problems
    (section,) = [one for one in done.pattern.sections if one.id == "band-neckband"]
    told = " ".join(str(part) for part in section.parts)
    assert "increase" in told and "Work 0 rows" not in told


def test_an_odd_width_becomes_even() -> None:
    (hood,) = [band for band in checked(hooded("hood 151 sts wide, 80 rows deep"), **YARNS).plan.bands if band.hood]
    assert (set(hood.hood), set(hood.rows)) == ({152}, {80})


@pytest.mark.parametrize(
    ("line", "more", "code"),
    [
        ("hood 20 cm wide, 33 cm deep", "", "E405"),
        ("hood 200 cm wide, 33 cm deep", "", "E405"),
        ("hood 60 cm wide, 33 cm deep", "    buttonholes 3 of 2 sts\n", "E405"),
        ("hood 60 cm wide, 33 cm deep", "    rib 2 cm, 1x1\n", "E405"),
        ("hood 60 cm wide", "", "E206"),
    ],
)
def test_hoods_that_cannot_be(line: str, more: str, code: str) -> None:
    text = hooded(line, more)
    (found,) = [one for one in checked(text, **YARNS).problems if one.code == code]
    span = found.labels[0].span
    assert text[span.start : span.end] in (line, "rib 2 cm, 1x1")


def test_a_hood_on_a_child_s_garment_has_no_cords() -> None:
    text = hooded().replace("sizes women XS S M L XL 2XL 3XL", "sizes children 10\n    measure wrist 15 cm")
    waist = "    work      6 cm\n    shape     to waist/2 over 10 cm\n    shape     to bust/2 over 12 cm\n"
    assert waist in text
    done = checked(text.replace(waist, "    shape     to bust/2 over 10 cm\n"), **YARNS)
    (found,) = [one for one in done.problems if one.code == "C703"]
    assert found.message == "a hood on a garment for children has no cords"
    assert "EN 14682" in found.help and "code in force" in found.help
    assert "C703" not in codes(checked(hooded(), **YARNS))


@pytest.mark.parametrize(("wide", "fits"), [(160, True), (90, False)])
def test_a_hood_goes_round_three_quarters_of_the_head(wide: int, fits: bool) -> None:
    """At 27 sts in 10 cm 90 sts are 33.3 cm, pulled by 145/100 48.3 cm; 3/4 of a head of 70 cm are 52.5 cm."""
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    start = text.index("band neckband")
    text = text[:start] + HOODED.format(wide=wide)
    text = text.replace("    ease bust", "    measure head 70 cm\n    ease bust", 1).replace(
        "neck-width wide", "8 cm wide"
    )
    done = checked(text, **YARNS)
    assert done.spec is not None and done.plan is not None, done.problems
    (found,) = [ring for ring in rings(done.spec, done.plan) if ring.ring == "hood" and ring.size == "S"]
    assert found.girth_cm == Fraction(wide * 10, 27) and found.part_cm == Fraction(105, 2)
    assert (found.verdict == "goes on") is fits is (Fraction(wide * 10, 27) * Fraction(145, 100) >= Fraction(105, 2))
    told = [one.message for one in done.problems if one.code == "W606" and one.message.startswith("hood, ")]
    assert len(told) == (0 if fits else 1)
    assert all("may not pass the head from cheek to cheek" in one for one in told)
