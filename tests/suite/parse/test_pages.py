"""The page of each problem of syntax: its first example meets the code alone, its second mends it."""

import re
from pathlib import Path

import pytest

from wale.parse.parser import parse
from wale.problems.codes import CODES
from wale.source import Source

PAGES = Path(__file__).parents[3] / "docs" / "problems"
# No page can show a file that is too long.
UNSHOWN = {"E130"}


def codes_of(text: str) -> list[str]:
    return [found.code for found in parse(Source("page.wale", text))[1]]


@pytest.mark.parametrize("code", sorted(code for code in CODES if code.startswith("E1")))
def test_examples_of_the_page(code: str) -> None:
    text = (PAGES / f"{code}.md").read_text("utf-8")
    *bad, good = re.findall(r"```wale\n(.*?)```", text, re.DOTALL)
    assert text.startswith(f"# {code}: {CODES[code].title}\n")
    assert [codes_of(example) for example in bad] == ([] if code in UNSHOWN else [[code]])
    assert codes_of(good) == []
