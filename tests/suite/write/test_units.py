"""Every length is printed in the unit that the pattern asks for, rounded once from the exact value."""

from __future__ import annotations

import re
from fractions import Fraction as F

import pytest
from garments import hat, pullover
from msgspec.structs import replace
from support import EXAMPLES, written

from wale.driver import Compiled
from wale.materials import Gauge
from wale.outputs import text
from wale.pattern import Pattern, Section
from wale.source import Span
from wale.spec import Assumption, Spec
from wale.write.context import about_text, gauge_text, length_text, signed_text, unit
from wale.write.materials import gauge_parts
from wale.write.measurements import finished_table
from wale.write.schematics import schematics


def spec(units: str) -> Spec:
    made, _ = hat()
    return replace(made, units=units)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("units", "value", "printed"),
    [
        # Halves go up: 33.55 as a float lies below 33.55 and would give 33.5.
        ("cm", F("33.55"), "33.6"),
        ("cm", F(45), "45.0"),
        # 33.55 / 2.54 = 13.2087; 45 / 2.54 = 17.7165; 3.937 / 2.54 = 1.55, a half.
        ("inch", F("33.55"), "13.2"),
        ("inch", F(45), "17.7"),
        ("inch", F("3.937"), "1.6"),
    ],
)
def test_a_length_is_rounded_once_in_its_unit(units: str, value: F, printed: str) -> None:
    assert str(length_text(spec(units), value)) == printed


def test_differences_and_rough_lengths_follow_the_unit() -> None:
    assert (signed_text(spec("cm"), F("-1.25")), signed_text(spec("inch"), F("5.08"))) == ("-1.3", "+2.0")
    assert (about_text(spec("cm"), F(15)), about_text(spec("inch"), F(15))) == ("15 cm", "6 inches")
    assert (unit(spec("cm")), unit(spec("inch"))) == ("cm", "inches")


def test_a_gauge_is_told_over_ten_cm_or_four_inches() -> None:
    # 22 sts and 30 rows in 4 inches, 10.16 cm, are 21.65 and 29.53 in 10 cm.
    gauge = Gauge(F(22) / F("10.16"), F(30) / F("10.16"), Span("mill.wale", 0, 1))
    assert gauge_text(spec("inch"), gauge) == "22 sts and 30 rows in 4 inches"
    assert gauge_text(spec("cm"), gauge) == "21.7 sts and 29.5 rows in 10 cm"


def test_an_assumption_gives_its_lengths_in_the_unit_with_sizes_in_brackets() -> None:
    taken = Assumption("It is taken as {}.", values=(F("50.8"), F("55.88"), F("55.88")))
    assert taken.said() == "It is taken as 50.8 (55.9, 55.9) cm."
    assert taken.said((0, 2), "inch") == "It is taken as 20 (22) inches."
    assert taken.said((1, 2), "inch") == "It is taken as 22 inches."
    assert Assumption("Up to {}.", values=(F("2.54"),)).said((0, 1, 2), "inch") == "Up to 1 inch."


@pytest.mark.parametrize(("units", "bust"), [("cm", ("50.0", "55.0", "60.0")), ("inch", ("19.7", "21.7", "23.6"))])
def test_schematics_and_tables_and_text_agree_on_the_unit(units: str, bust: tuple[str, ...]) -> None:
    # A back of 50, 55 and 60 cm, the schematic's width; 50 / 2.54 = 19.69, 55 / 2.54 = 21.65, 60 / 2.54 = 23.62.
    made, plan = pullover()
    made = replace(made, units=units)  # type: ignore[arg-type]
    back = schematics(made, plan, (0, 1, 2))[0]
    assert next(one.values for one in back.dimensions if one.name == "bust") == bust
    word = {"cm": "cm", "inch": "inches"}[units]
    assert back.unit == word
    assert f" in {word}, washed" in finished_table(made, plan, (0, 1, 2)).caption
    pattern = Pattern("P", "", ("S", "M", "L"), "A4", None, (Section("a", "A", (back,)),), "wale")
    assert f"Back: finished measures in {word}:" in text.render(pattern)


def test_a_pattern_in_inches_names_no_cm_in_its_gauge() -> None:
    made, plan = pullover()
    words = " ".join(
        getattr(part, "text", "") + "".join(item.text for item in getattr(part, "items", ()))
        for part in gauge_parts(replace(made, units="inch"), plan)
    )
    assert "in 4 inches" in words
    assert "about 6 inches" in words
    assert " cm" not in words


def in_inches(name: str) -> Compiled:
    source = (EXAMPLES / f"{name}.wale").read_text("utf-8").replace("    units cm\n", "")
    return written(source.replace("    use ", "    units inch\n    use ", 1))


@pytest.mark.parametrize("name", ["millrace-pullover", "sluice-hat", "first-cowl"])
def test_a_pattern_in_inches_names_no_cm_at_all(name: str) -> None:
    done = in_inches(name)
    assert done.pattern is not None
    page = text.render(done.pattern)
    assert " inches" in page
    assert not re.findall(r".*\bcm\b.*", page)


def test_problems_speak_in_the_patterns_unit() -> None:
    """What stands between backticks is to be written into the file, where cm are as good."""
    head = "measure head 52 (56, 60) cm\n    ease    head -2.5 cm"
    source = (EXAMPLES / "sluice-hat.wale").read_text("utf-8").replace("    use ", "    units inch\n    use ", 1)
    tight = written(source.replace(head, head.replace("-2.5", "-20")))
    (told,) = {one.code: one for one in tight.problems if one.code == "W606"}.values()
    assert "inches" in told.message and "inches" in told.help
    assert " cm" not in told.message + told.help
    narrow = written(source.replace("cast on head in", "cast on head/10 in"))
    clash = [one for one in narrow.problems if one.severity == "error"]
    assert clash and not [one for one in clash if " cm" in re.sub("`[^`]*`", "", one.message + one.help)]
