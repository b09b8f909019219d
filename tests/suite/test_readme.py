"""The README says what is so: its cowl is the example, its links lead somewhere, its refusal is the compiler's."""

import re
from pathlib import Path

from support import checked

from wale.problems.show import show

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
