"""The lines `version` and `changes`: on the front page, in a section, in the plan, and laid out."""

from __future__ import annotations

import json

import pytest
from support import EXAMPLES, MILL_YARNS, codes, written

from wale.driver import render
from wale.files import MemoryWorld
from wale.pattern import Bullets, Paragraph, Section

COWL = (EXAMPLES / "first-cowl.wale").read_text("utf-8")


def with_lines(*lines: str) -> str:
    return COWL.replace('pattern "First cowl"\n', 'pattern "First cowl"\n' + "".join(f"    {line}\n" for line in lines))


@pytest.mark.parametrize(("written_so", "said"), [("1.2", "1.2"), ("1.10", "1.10"), ("3", "3"), ('"May, b"', "May, b")])
def test_the_version_is_printed_as_it_is_written(written_so: str, said: str) -> None:
    done = written(with_lines(f"version {written_so}", 'changes "The rib is 1 cm longer."', 'changes "Softer yarn."'))
    assert done.pattern is not None
    assert done.pattern.about == f"Version {said}."
    (section,) = (one for one in done.pattern.sections if one.id == "version")
    assert section == Section(
        "version",
        "Version",
        (
            Paragraph(f"This is version {said} of the pattern."),
            Paragraph("It changes:"),
            Bullets((Paragraph("The rib is 1 cm longer."), Paragraph("Softer yarn."))),
        ),
    )
    plan = json.loads(render(done, "json", MemoryWorld())[0])
    assert (plan["version"], plan["changes"]) == (said, ["The rib is 1 cm longer.", "Softer yarn."])


def test_without_the_lines_nothing_is_said() -> None:
    done = written(COWL)
    assert done.pattern is not None
    assert "version" not in {section.id for section in done.pattern.sections}
    plan = json.loads(render(done, "json", MemoryWorld())[0])
    assert (plan["version"], plan["changes"]) == ("", [])


@pytest.mark.parametrize("line", ["version 0", "version", "version beta", "changes 3", "version 1.2 cm"])
def test_what_is_no_version_is_a_problem(line: str) -> None:
    assert any(code.startswith("E") for code in codes(written(with_lines(line))))


def test_two_versions_are_one_too_many() -> None:
    assert "E205" in codes(written(with_lines("version 1", "version 2")))


@pytest.mark.parametrize("form", ["text", "html"])
def test_the_front_of_text_and_page_names_it(form: str) -> None:
    done = written(with_lines("version 1.2", 'about "A cowl."'))
    said = render(done, form, MemoryWorld({"mill-yarns.wale": MILL_YARNS}))[0].decode()  # type: ignore[arg-type]
    assert "Version 1.2. A cowl." in said
