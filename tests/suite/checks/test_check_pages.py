"""The example on each page of a check's problem triggers that problem, and no error but its own."""

import pytest
from specs import ROOT, compiled

from wale.checks import check
from wale.problems.codes import CODES

MINE = [code for code in CODES if code in ("E504", "E505") or code[1] in "67"]


@pytest.mark.parametrize("code", MINE)
def test_the_example_on_the_page_triggers_its_problem(code):
    page = (ROOT / "docs/problems" / f"{code}.md").read_text("utf-8")
    example = page.split("```wale\n")[1].split("```")[0]
    problems = check(*compiled(example))
    assert code in [one.code for one in problems]
    assert {one.code for one in problems if one.is_error} <= {code}
    mine = next(one for one in problems if one.code == code)
    assert mine.labels and mine.help and mine.message[-1] != "."
    assert mine.severity == {"E": "error", "W": "warning", "N": "note", "C": "caution"}[code[0]]


@pytest.mark.parametrize("name", ["millrace-pullover.wale", "sluice-hat.wale"])
def test_the_examples_bring_no_warning(name):
    from specs import example

    assert [one.message for one in check(*example(name)) if one.severity != "note"] == []
