"""Specs in memory for the tests: the mill crew's yarns lie beside them."""

from __future__ import annotations

from pathlib import Path

from wale.driver import Compiled, check_spec, compile_spec
from wale.files import MemoryWorld
from wale.plan import Plan
from wale.problems.problem import Fix
from wale.problems.show import show

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
SHARED = ("mill-yarns", "mill-blocks")
"""Examples that others use, and that are no patterns."""
MILL = {name: (EXAMPLES / name).read_text("utf-8") for name in (*(f"{one}.wale" for one in SHARED), "crew.csv")}
MILL_YARNS = MILL["mill-yarns.wale"]
SPEC = "a.wale"
PLAIN = """yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

swatch plain, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm
"""
"""A yarn and a flat swatch of 2 sts and 2.8 rows in a cm."""


def world(text: str | bytes, **others: str) -> MemoryWorld:
    """Give a world that holds the spec `a.wale`, what the examples use, and other files by name (`.wale` left out)."""
    used = {name if "." in name else f"{name}.wale": other for name, other in others.items()}
    return MemoryWorld({**MILL, SPEC: text, **used})


def checked(text: str | bytes, **others: str) -> Compiled:
    """Take a spec through all phases up to the checks."""
    return check_spec(world(text, **others), SPEC)


def written(text: str | bytes, **others: str) -> Compiled:
    """Take a spec through all phases up to the pattern."""
    return compile_spec(world(text, **others), SPEC)


def codes(done: Compiled) -> list[str]:
    """Give the codes of all problems in order."""
    return [found.code for found in done.problems]


def errors(done: Compiled) -> list[str]:
    """Give the codes of the errors in order."""
    return [found.code for found in done.problems if found.is_error]


def planned(text: str, **others: str) -> Plan:
    """Give the plan of a spec that has no error."""
    done = checked(text, **others)
    assert done.plan is not None, show(done.problems, done.sources, colour=False, width=120)
    return done.plan


def mended(text: str, fix: Fix) -> str:
    """Give the text of `a.wale` with the edits of a fix made."""
    for edit in sorted(fix.edits, key=lambda edit: edit.span.start, reverse=True):
        assert edit.span.file == SPEC
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text
