"""Rules name a page and a source that stand there; the page of questions shows what the command prints."""

import re
import shlex
from pathlib import Path

import pytest

from wale.cli import main
from wale.files import MemoryWorld
from wale.reckon.questions import QUESTIONS
from wale.reckon.rules import RULES

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "reckon.md").read_text("utf-8")
SESSIONS = re.findall(r"```console\n\$ (wale reckon [^\n]*)\n(.*?)```", PAGE, re.DOTALL)


@pytest.mark.parametrize("key", RULES)
def test_a_source_stands_under_its_heading(key):
    path, anchor = RULES[key].page.split("#")
    sections = re.split(r"^## ", (ROOT / path).read_text("utf-8"), flags=re.MULTILINE)
    (section,) = [one for one in sections if one.split("\n")[0].lower().replace(" ", "-") == anchor]
    assert RULES[key].source in " ".join(section.split())


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.name)
def test_each_question_is_on_the_page_with_its_forms(question):
    section = PAGE.partition(f"\n## {question.name}\n")[2].partition("\n## ")[0]
    assert all(f"\n{form}\n" in section for form in question.forms)
    assert f"$ wale reckon {question.name} " in section


@pytest.mark.parametrize(("command", "printed"), SESSIONS)
def test_the_page_shows_what_is_printed(capsys, command, printed):
    assert main(shlex.split(command)[1:], MemoryWorld({})) == 0
    assert capsys.readouterr().out == printed


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.name)
def test_help_shows_forms_and_two_examples(capsys, question):
    assert main(["reckon", question.name, "--help"], MemoryWorld({})) == 0
    out = capsys.readouterr().out
    assert question.summary in out and all(form in out for form in question.forms)
    assert out.partition("Examples:")[2].count(f"wale reckon {question.name} ") >= 2


def test_the_list_names_each_question(capsys):
    main(["reckon", "--help"], MemoryWorld({}))
    out = capsys.readouterr().out
    assert all(f"  {question.name} " in out for question in QUESTIONS)
