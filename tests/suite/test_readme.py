"""The README says what is so: its cowl is the example, its links lead somewhere, its refusal is the compiler's."""

import re
from fractions import Fraction
from pathlib import Path

from support import checked

from wale.knit_report import KnitGauge, as_text
from wale.knitting import knit_pattern
from wale.problems.show import show
from wale.source import Source

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")


def blocks() -> list[str]:
    """Give the code blocks."""
    return re.findall(r"^```[a-z]*\n(.*?)^```", README, re.DOTALL | re.MULTILINE)


def test_the_first_spec_is_the_example():
    assert (ROOT / "examples" / "first-cowl.wale").read_text("utf-8") in blocks()


def test_each_link_leads_to_a_file():
    links = re.findall(r"\]\(([^)#]+)\)", README)
    assert len(links) > 10
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_the_refusal_is_what_the_compiler_says():
    spec = next(block for block in blocks() if block.startswith('wale 1\n\npattern "Panel"'))
    told = next(block for block in blocks() if block.startswith("error[E301]"))
    done = checked(spec)
    assert show(done.problems, done.sources, colour=False, width=100).strip() == told.strip().replace(
        "panel.wale", "a.wale"
    )


def test_the_cap_is_knitted_as_told():
    """22 sts and 30 rows in 10 cm; 80 sts lose 8 in round 1 and 8 in round 5, which makes 64."""
    cap = next(block for block in blocks() if block.startswith("Mill cap"))
    source = Source("cap.txt", cap)
    knitted = knit_pattern(source, ())
    assert as_text(knitted, KnitGauge(Fraction(22, 10), Fraction(3), False)) in blocks()
    assert show(knitted.problems, {"cap.txt": source}, colour=False, width=80).strip() + "\n" in blocks()
    plain = as_text(knitted, None).partition("\n\n")[0]
    assert plain in (ROOT / "docs" / "architecture.md").read_text("utf-8")
