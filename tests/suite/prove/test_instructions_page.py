"""The page on the wording: it shows every rule of both grammars, with a line that reads by that rule."""

from __future__ import annotations

import re

import pytest
from support import ROOT

from wale.knitting import knit_pattern
from wale.prove.syntax import grammar_text, hand_parser, instruction_parser
from wale.source import Source

PAGE = (ROOT / "docs" / "instructions.md").read_text("utf-8")
PARTS = dict(zip(("instructions", "rows"), PAGE.split("\n## Patterns typed in\n"), strict=True))
ROWS = [
    (grammar, rule, line)
    for grammar, text in PARTS.items()
    for rule, line in re.findall(r"^\| `(\w+)` \| (.+?) \| .+ \|$", text, re.M)
]


@pytest.mark.parametrize("grammar", PARTS)
def test_the_page_names_every_rule(grammar: str) -> None:
    text = grammar_text(grammar)
    rules = {*re.findall(r"^(_?[a-z_]+):", text, re.M), *re.findall(r"-> ([a-z]+)", text)} - {"marker"}
    assert {rule for told, rule, _ in ROWS if told == grammar} == {rule for rule in rules if not rule.startswith("_")}
    assert all(f"`{rule}`" in PARTS[grammar] for rule in rules)


@pytest.mark.parametrize(("grammar", "rule", "line"), ROWS, ids=[f"{grammar}-{rule}" for grammar, rule, _ in ROWS])
def test_its_line_reads_by_the_rule(grammar: str, rule: str, line: str) -> None:
    if grammar == "rows":
        tree = hand_parser().parse(line, start="hand")
    else:
        tree = instruction_parser().parse(line, start="chart_row" if line.startswith("Row ") else "line")
    assert any(found.data == rule for found in tree.iter_subtrees())


def test_the_file_that_the_page_shows_is_knitted() -> None:
    (shown,) = re.findall(r"```text\n(.*?)```", PAGE, re.S)
    knitted = knit_pattern(Source("cap.txt", shown))
    assert knitted.problems == ()
    assert [[row.stitches for row in one.rows[-2:]] for one in knitted.trials] == [[72, 72], [88, 88]]
