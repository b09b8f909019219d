"""What is noted of defaults: estimated and recalled measures with their own sources, tolerances, ribs."""

from __future__ import annotations

from fractions import Fraction

from support import EXAMPLES, checked

from wale.spec import Assumption

SHEET = """wale 1
pattern "Cuffs"
    use "mill-yarns.wale"
sizes women S M
    ease wrist 5 cm, upper-arm 8 cm
piece cuff, worked flat
    cast on wrist in plain
    rib 5 cm, 2x2
    work to 10 cm
    bind off
join
    seam sides
"""
OWN = """    measure wrist 16 cm
    ease wrist 5 cm
"""


def noted(text: str, words: str) -> list[Assumption]:
    spec = checked(text).spec
    assert spec is not None
    return [one for one in spec.assumptions if words in one.text]


def test_an_estimated_measure_is_noted_for_each_size_with_its_rule() -> None:
    """docs/sizes.md: bust x 0.041 + 11.49 cm; busts of 33 and 37 inches."""
    (wrist,) = noted(SHEET, "`wrist` is estimated")
    assert wrist.values == tuple(inch * Fraction("2.54") * Fraction("0.041") + Fraction("11.49") for inch in (33, 37))
    assert wrist.said() == "The body's `wrist` is estimated at 14.9 (15.3) cm."
    assert wrist.said([1]) == "The body's `wrist` is estimated at 15.3 cm."
    assert "bust × 0.041 + 11.49 cm" in wrist.origin() and "Survey" in wrist.origin([0])


def test_a_measure_that_is_not_used_is_not_noted() -> None:
    assert noted(SHEET, "`head`") == noted(SHEET, "upper-arm") == []


def test_figures_from_memory_are_named_once() -> None:
    (said,) = noted(SHEET.replace("cast on wrist", "cast on upper-arm"), "recalled")
    assert "`upper-arm`" in said.text and "from memory" in said.origin()


def test_a_body_of_the_file_estimates_nothing() -> None:
    """The size is estimated, the body measured: for the body alone nothing is noted."""
    text = SHEET.replace("piece cuff", f"body mine\n{OWN}\npiece cuff")
    (wrist,) = noted(text, "`wrist` is estimated")
    assert wrist.holds([0]) and wrist.holds() and not wrist.holds([2])
    alone = text.replace("sizes women S M\n    ease wrist 5 cm, upper-arm 8 cm\n", "")
    assert noted(alone, "estimated") == []


def test_rules_of_a_body_are_told_for_it_alone() -> None:
    """The table has a neck base, this body its neck's width by its cross-back only."""
    text = (
        SHEET.replace("cast on wrist", "cast on neck-width")
        .replace("ease wrist 5 cm, upper-arm 8 cm", "ease upper-arm 8 cm")
        .replace("piece cuff", "body mine\n    measure cross-back 40 cm\n\npiece cuff")
    )
    (neck,) = noted(text, "`neck-width` is not given")
    assert "neck-base" in neck.origin([0]) and "cross-back" not in neck.origin([0, 1])
    assert "cross-back × 0.45" in neck.origin([2])
    # the estimate and the recalled figure are those that are used: this body's own cross-back is neither
    (base,) = noted(text, "`neck-base` is estimated")
    assert base.holds([0]) and not base.holds([2]) and base.said([0]) == "The body's `neck-base` is estimated."
    assert noted(text, "recalled") == []


def test_a_garment_measure_of_the_file_is_no_default() -> None:
    text = SHEET.replace("cast on wrist", "cast on neck-width").replace("wrist 5 cm, ", "")
    given = text.replace("    ease", "    measure neck-width 18 (19) cm\n    ease")
    assert noted(given, "`neck-width` is not given") == []
    (neck,) = noted(
        text.replace("piece cuff", "body mine\n    measure neck-width 18 cm\n\npiece cuff"), "`neck-width` is not given"
    )
    assert neck.holds([0]) and not neck.holds([2])


def test_both_tolerances_are_noted_unless_written() -> None:
    assert len(noted(SHEET, "may miss their wish by {}")) == 2
    written = SHEET.replace('mill-yarns.wale"\n', 'mill-yarns.wale"\n    tolerance lengths 1 cm\n    tolerance 2 cm\n')
    assert noted(written, "may miss their wish") == []


def test_a_rib_at_the_gauge_of_another_fabric_is_noted_with_a_range() -> None:
    (said,) = noted(SHEET, "takes the gauge")
    assert "cuff" in said.text and "`plain` in stockinette" in said.text and "10 %" in said.text
    assert "common practice, no source" in said.origin()


def test_a_rib_at_the_gauge_of_a_rib_is_not() -> None:
    rib = "swatch cuffs, worked flat\n    fabric rib 2x2 in rye\n    needle 3 mm\n"
    rib += "    washed 30 sts and 38 rows in 10 cm\n"
    text = SHEET.replace("sizes women", f"{rib}sizes women").replace("wrist in plain", "wrist in cuffs")
    assert noted(text, "takes the gauge") == []
    assert len(noted(text.replace("    rib 5", "    work in plain\n    rib 5"), "takes the gauge")) == 1


def test_the_pullover_notes_what_it_rests_on() -> None:
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    assert len(noted(text, "`wrist` is estimated")) == len(noted(text, "`neck-base` is estimated")) == 1
    (said,) = noted(text, "recalled")
    assert all(
        f"`{name}`" in said.text for name in ("upper-arm", "armhole-depth", "neck-to-wrist", "back-waist", "hip")
    )


def test_the_table_that_figures_are_of_is_named_with_its_source() -> None:
    """docs/sizes.md: women's busts stand unmarked, so they were seen in the source; the upper arm is recalled."""
    text = SHEET.replace("ease wrist", "ease bust 8 cm, wrist").replace("cast on wrist", "cast on bust/2")
    (seen,) = noted(text, "as seen")
    assert seen.said() == "Figures of the size table `women` as seen in its source: `bust`."
    assert all(source.startswith("Craft Yarn Council") for source in seen.sources)
    assert noted(SHEET, "as seen") == []
    (recalled,) = noted(SHEET.replace("cast on wrist", "cast on upper-arm"), "recalled")
    assert recalled.said() == (
        "Figures of the size table `women` that are recalled, not seen again in its source: `upper-arm`."
    )
