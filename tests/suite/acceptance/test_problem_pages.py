"""The first example on every page of a problem triggers exactly that problem, seen through all phases."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from support import SPEC, codes, errors, world

from wale.driver import Compiled, check_spec
from wale.files import MemoryWorld
from wale.problems.codes import CODES

HERE = Path(__file__).parent
PAGES = Path(__file__).parents[3] / "docs" / "problems"
sys.path.append(str(HERE.parent / "resolve"))

from resolve_frame import TABLES, framed  # noqa: E402

OF_THE_DISK = {
    code: "is about files or the system; tests/suite/files and tests/suite/cli trigger it"
    for code in ("E901", "E902", "E903", "E904", "E905", "E906", "E907", "E908", "E909", "E910", "E911", "E912")
}
UNSHOWN = {
    **OF_THE_DISK,
    "E308": "is weighed on the command line; tests/suite/yarn triggers it",
    **{f"E31{n}": "is asked on the command line; tests/suite/regrade triggers it" for n in range(1, 5)},
    "E315": "no page can show what takes so long; tests/suite/draft triggers it",
    "E306": "is asked on the command line; tests/suite/cli triggers it",
    **{f"E80{n}": "is asked on the command line; tests/suite/reckon triggers it" for n in range(1, 5)},
    **{f"E85{n}": "is found in a written pattern; tests/suite/prove triggers it" for n in range(1, 7)},
    "E130": "no page can show a file that is too long",
    "W913": "is met by the typesetter; tests/suite/outputs triggers it",
    **{f"E92{n}": "is met in a picture; tests/suite/picture triggers it" for n in range(1, 6)},
    **{f"E94{n}": "is met in a PDF; tests/suite/published triggers it" for n in range(1, 6)},
    "W946": "is met between two prints; tests/suite/published triggers it",
    "E947": "is met in a plan; tests/suite/compare triggers it",
    "E937": "is about git; tests/suite/compare triggers it",
    "W926": "is met in a picture; tests/suite/picture triggers it",
    **dict.fromkeys(("E931", "E932", "E933", "E934", "W935", "E936"), "is about git; tests/suite/versions triggers it"),
}
"""Pages whose example cannot be compiled by itself, and why."""
ALONE = [code for code in sorted(CODES) if code not in UNSHOWN]
FILES = {
    **TABLES,
    "hat": "wale 1\n\npiece hat, in the round\n    cast on 50 cm in plain-round\n",
    "yarns": "wale 1\n\nyarn bran\n    count 2/8 Nm wool\n    colour #c9a36b\n",
}
SIZES = {"E305": ("4XL",)}
"""Sizes that are asked for on the command line."""


def examples(code: str) -> list[str]:
    return re.findall(r"```wale\n(.*?)```", (PAGES / f"{code}.md").read_text("utf-8"), re.DOTALL)


def compiled(code: str, example: str) -> Compiled:
    """Compile an example; a few blocks only stand in the frame of the tests of resolving."""
    is_whole = code[1] != "2" or example.startswith("wale ")
    here: MemoryWorld = world(example if is_whole else framed(example).replace("main.wale", SPEC), **FILES)
    return check_spec(here, SPEC, SIZES.get(code, ()))


@pytest.mark.parametrize("code", ALONE)
def test_the_first_example_triggers_its_problem_alone(code: str) -> None:
    done = compiled(code, examples(code)[0])
    # A page of syntax shows only the lines it is about: what a whole pattern needs is missing there.
    missing = {"E206"} if code[1] == "1" else set()
    assert code in codes(done)
    assert set(errors(done)) - missing <= {code}


@pytest.mark.parametrize("code", [code for code in sorted(CODES) if code[1] in "345"])
def test_what_to_write_instead_compiles(code: str) -> None:
    for example in examples(code)[1:]:
        if example.startswith("wale 1"):
            assert errors(compiled(code, example)) == []


@pytest.mark.parametrize("code", sorted(CODES))
def test_every_page_tells_why_and_what_to_do(code: str) -> None:
    text = (PAGES / f"{code}.md").read_text("utf-8")
    assert text.startswith(f"# {code}: {CODES[code].title}\n")
    assert "\n## What to " in text


@pytest.mark.parametrize("code", sorted(UNSHOWN))
def test_what_is_not_shown_is_a_problem_and_has_a_reason(code: str) -> None:
    assert code in CODES and UNSHOWN[code]
