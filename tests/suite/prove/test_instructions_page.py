"""The page on the wording: it shows every rule of the grammar, with a line that reads by that rule."""

from __future__ import annotations

import re

import pytest
from support import ROOT

from wale.prove.syntax import grammar_text, instruction_parser

PAGE = (ROOT / "docs" / "instructions.md").read_text("utf-8")
ROWS = re.findall(r"^\| `(\w+)` \| (.+?) \| .+ \|$", PAGE, re.M)
RULES = re.findall(r"^(_?[a-z_]+):", grammar_text(), re.M)


def test_the_page_names_every_rule() -> None:
    assert {rule for rule, _ in ROWS} == {rule for rule in RULES if not rule.startswith("_")}
    assert all(f"`{rule}`" in PAGE for rule in RULES)


@pytest.mark.parametrize(("rule", "line"), ROWS, ids=[rule for rule, _ in ROWS])
def test_its_line_reads_by_the_rule(rule: str, line: str) -> None:
    tree = instruction_parser().parse(line, start="chart_row" if line.startswith("Row ") else "line")
    assert any(found.data == rule for found in tree.iter_subtrees())
