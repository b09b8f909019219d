"""The page on the language: its examples fit into the frame and are proven, and every form of a line is on it."""

import re
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent / "resolve"))

from resolve_frame import TABLES as SIZE_TABLES
from resolve_frame import framed, resolved

from wale.driver import compile_spec
from wale.files import MemoryWorld
from wale.parse.lines import HEADS
from wale.quantity import UNITS
from wale.resolve import constructions, heading, joins, making, motifs, pieces, sizes, steps, swatches, yarns
from wale.resolve.shapes import show
from wale.sizes import GROUPS, group

PAGE = (Path(__file__).parents[2] / "docs" / "language.md").read_text("utf-8")
EXAMPLES = re.findall(r"```wale\n(.*?)```", PAGE, re.S)
TABLES = [
    table
    for module in (heading, yarns, motifs, swatches, sizes, pieces, steps, joins, making, constructions)
    for name, table in vars(module).items()
    if name.endswith(("HEAD", "LINES"))
]
FREE_WORDS = "MANNER"


@pytest.mark.parametrize("example", EXAMPLES, ids=[text.strip().splitlines()[0][:30] for text in EXAMPLES])
def test_the_example_resolves_without_a_problem(example):
    spec, problems = resolved(framed(example), SIZE_TABLES)
    assert problems == []
    assert spec is not None


@pytest.mark.parametrize("example", EXAMPLES, ids=[text.strip().splitlines()[0][:30] for text in EXAMPLES])
def test_the_example_is_planned_written_and_proven(example):
    done = compile_spec(MemoryWorld({"a.wale": framed(example), **SIZE_TABLES}), "a.wale")
    assert [found.message for found in done.problems if found.is_error] == []
    assert done.proof is not None


def test_every_form_of_a_line_is_on_the_page():
    missing = [
        show(form)
        for table in TABLES
        for shape in table.values()
        for form, options in shape.forms.items()
        for form in (form, *options, *([shape.listed] if shape.listed else []))
        if form != FREE_WORDS and f"`{show(form)}`" not in PAGE and not is_variant(form)
    ]
    assert missing == []


def is_variant(form):
    """Forms that the page tells in one go: the fibre left out, and parts of a list."""
    return form in (
        "count AMOUNT per WEIGHT",
        "count COUNT",
        "count SYSTEM COUNT",
        "count COUNT x NUMBER",
        "count R RESULTANT",
        "count class NUMBER",
        "pick up along PIECE EDGE",
        "PIECE EDGE in SWATCH",
        "PIECE EDGE",
        "MEASURE VALUE",
        "CELL YARN",
        "YARN",
        "rib DEPTH",
    )


def test_every_block_and_unit_is_on_the_page():
    for word in (*HEADS, *UNITS):
        assert f"`{word}`" in PAGE, word


def test_the_measures_of_each_table_are_listed() -> None:
    for name in GROUPS:
        table = group(name)
        measures = dict.fromkeys(measure for body in table.bodies for measure in body.measures)
        assert f"| `{name}` | {', '.join(table.names)} | {', '.join(measures)} |" in PAGE
