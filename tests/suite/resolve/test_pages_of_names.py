"""Each page of a problem found while resolving: its example triggers it, what it tells to write instead does not."""

import re
from pathlib import Path

import pytest
from resolve_frame import TABLES, codes, framed, mended, resolved

from wale.problems.codes import CODES

PAGES = Path(__file__).parents[3] / "docs" / "problems"
FENCE = re.compile(r"```wale\n(.*?)```", re.S)
MINE = sorted(code for code in CODES if code[1] == "2")
FILES = {
    **TABLES,
    "hat.wale": "wale 1\n\npiece hat, in the round\n    cast on 50 cm in plain-round\n",
    "yarns.wale": "wale 1\n\nyarn bran\n    count 2/8 Nm wool\n    colour #c9a36b\n",
}


def snippets(code):
    return FENCE.findall((PAGES / f"{code}.md").read_text("utf-8"))


@pytest.mark.parametrize("code", MINE)
def test_the_example_triggers_its_problem_alone(code):
    spec, problems = resolved(framed(snippets(code)[0]), FILES)
    assert set(codes(problems)) == {code}
    assert (spec is None) == (CODES[code].severity == "error")


@pytest.mark.parametrize("code", MINE)
def test_what_to_write_instead_has_no_problem(code):
    spec, problems = resolved(framed(snippets(code)[1]), FILES)
    assert codes(problems) == []
    assert spec is not None


@pytest.mark.parametrize("code", MINE)
def test_each_fix_takes_its_problem_away(code):
    text = framed(snippets(code)[0])
    _, problems = resolved(text, FILES)
    for problem in problems:
        for fix in problem.fixes:
            if fix.edits and fix.grade != "show":
                _, left = resolved(mended(text, fix), FILES)
                assert code not in codes(left), fix.title


@pytest.mark.parametrize("code", MINE)
def test_the_problem_points_at_the_line_at_fault(code):
    text = framed(snippets(code)[0])
    _, problems = resolved(text, FILES)
    for problem in problems:
        span = problem.labels[0].span
        assert 0 <= span.start <= span.end <= len(TABLES.get(span.file, text))
        assert "\n" not in problem.message
        assert problem.message[:1] and len(problem.message) < 200
