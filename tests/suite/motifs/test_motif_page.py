"""docs/motifs.md: its examples resolve, and each chart on it is the fabric of the lines above it."""

import re
import sys
from pathlib import Path

import pytest
from motif_cases import shown

sys.path.append(str(Path(__file__).parents[1] / "resolve"))

from resolve_frame import spec_of

PAGE = (Path(__file__).parents[3] / "docs" / "motifs.md").read_text("utf-8")
SHOWN = re.findall(r"```wale\n(.*?)```\n\n```text\n(.*?)```", PAGE, re.DOTALL)
NAMES = [re.findall(r"^motif ([\w-]+)", example, re.MULTILINE)[-1] for example, _ in SHOWN]


@pytest.mark.parametrize("number", range(len(SHOWN)), ids=NAMES)
def test_the_chart_is_the_fabric_of_the_lines_above_it(number):
    # An example may be made of motifs shown before it.
    spec = spec_of("\n".join(example for example, _ in SHOWN[: number + 1]))
    chart = SHOWN[number][1].replace(" ", "").splitlines()
    assert shown(spec.motifs[NAMES[number]].tiling.rectangle()) == chart


def test_every_example_has_its_chart():
    assert PAGE.count("```wale") == len(SHOWN) == PAGE.count("```text") > 10
