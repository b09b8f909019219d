"""Nonsense is refused with its reason; each page's example brings its problem."""

import re
import shlex
from pathlib import Path

import pytest

from wale.cli import main
from wale.files import MemoryWorld

PAGES = Path(__file__).parents[3] / "docs" / "problems"


@pytest.mark.parametrize(
    ("asked", "code", "reason"),
    [
        ("count 0 Nm", "E802", "more than 0"),
        ("count -5 Nm", "E802", "more than 0"),
        ("count 400 m per 0 g", "E802", "more than 0"),
        ("count 0/8 Nm", "E802", "no yarn count"),
        ("count 400 m per 99999 kg", "E802", "beyond all bounds"),
        ("count 5 Xy", "E801", "Xy"),
        ("count 2,5 Nm", "E801", "2.5"),
        ("count class huge", "E801", "huge"),
        ("strands 1000000000 of 2/8 Nm", "E802", "strands"),
        ("strands 2.5 of 2/8 Nm", "E802", "whole"),
        ("strands 30 of 2/8 Nm with 30 of 2/8 Nm", "E802", "strands"),
        ("strands 2 of 12 wpi", "E801", "no length"),
        ("gauge 2 sts = 1 cm", "E803", "swatch"),
        ("gauge 40 sts = 0 cm", "E802", "more than 0"),
        ("gauge 40 sts = 40 g", "E801", "length"),
        ("gauge 4000 sts = 1 cm", "E802", "no knitting"),
        ("gauge 40 sts = 10 cm please", "E801", "please"),
        ("gauge 40 sts", "E801", "ends"),
        ("width -50 cm at 22 sts = 10 cm", "E802", "more than 0"),
        ("width 90 sts at 22 rows = 10 cm", "E801", "stitches"),
        ("spread 60 decreases over 96 sts", "E804", "122 sts"),
        ("spread 96 to 96 sts", "E804", "the same"),
        ("taper 53 to 118 sts over 140 rows", "E804", "odd"),
        ("taper 53 to 119 sts over 40 rows", "E804", "66 rows"),
        ("pick-up 3 sts and 30 rows = 10 cm", "E803", "swatch"),
        ("crown 12 sts in 8 wedges", "E804", "nothing to decrease"),
        ("crown 88 sts in 8 wedges over 5 rounds", "E804", "10 decrease rounds"),
        ("repeat 0 in 240", "E802", "more than 0"),
        ("repeat 12 plus 300 in 240", "E804", "hold"),
        ("shoulder 3 sts in 16 steps", "E804", "do not make"),
        ("neck 32.5 sts in 14 rows", "E802", "whole"),
        ("neck 60 sts in 8 rows boat", "E801", "with"),
        ("yarn 60 squares of 0 g", "E802", "more than 0"),
        ("yarn 50 cm by 60 cm from 1 cm by 1 cm of 1 g", "E803", "swatch"),
        ("pom-pom 6 m", "E802", "beyond"),
        ("needle 0 mm", "E802", "more than 0"),
        ("needle 400 mm", "E802", "no knitting needle"),
        ("needle US 12", "E802", "`12`"),
        ("contrast 8a5a2b", "E801", "two colours"),
        ("contrast 8a5a2b c9a36b 112233", "E801", "two colours"),
    ],
)
def test_refused(reckon, asked, code, reason):
    done, data = reckon(*asked.split(maxsplit=1))
    (found,) = data["problems"]
    assert (done, found["code"]) == (1, code)
    assert reason in found["message"] and found["help"] and "answer" not in data


@pytest.mark.parametrize("code", ["E801", "E802", "E803", "E804"])
def test_the_first_example_on_its_page_brings_it_and_the_second_mends_it(capsys, code):
    first, second = re.findall(r"```text\nwale (.*)\n```", (PAGES / f"{code}.md").read_text("utf-8"))
    assert main(shlex.split(first), MemoryWorld({})) == 1
    assert f"error[{code}]" in capsys.readouterr().err
    assert main(shlex.split(second), MemoryWorld({})) == 0
    assert capsys.readouterr().err == ""


def test_an_unknown_option_or_question_is_the_calls_fault(capsys):
    assert main(["reckon", "count", "4", "Nm", "--jsn"], MemoryWorld({})) == 2
    assert main(["reckon", "weather"], MemoryWorld({})) == 2
    assert "weather" in capsys.readouterr().err
