"""A schematic and its table on paper: side by side where the page has room for both, else one below the other."""

from __future__ import annotations

import re

import pytest
from support import EXAMPLES, world

from wale.driver import compile_spec
from wale.outputs import document
from wale.outputs.setting import Setting

PAGE = 168.0
"""An A4 page less its margins, in mm; a letter page is wider."""


def boxes(name: str, sizes: tuple[str, ...]) -> list[tuple[bool, float, float]]:
    """For each schematic: whether its table stands beside it, the widths of picture and table in mm."""
    done = compile_spec(world((EXAMPLES / f"{name}.wale").read_text("utf-8")), "a.wale", sizes)
    assert done.pattern is not None
    page = document.render(done.pattern, Setting("a4", False), "")
    found = []
    for box in page.split('<div class="schematic-box')[1:]:
        classes, picture = box.partition(">")[0], re.search(r'<svg[^>]* width="([\d.]+)mm"', box)
        assert picture is not None
        columns = re.findall(r'<col style="width:([\d.]+)em"/>', box.partition("</table>")[0])
        # a table's em is 0.9 of 10.5 point, a point 25.4 / 72 mm
        found.append(("abreast" in classes, float(picture[1]), sum(map(float, columns)) * 0.9 * 10.5 * 25.4 / 72))
    return found


@pytest.mark.parametrize(("name", "size", "pieces"), [("sluice-hat", "small", 1), ("millrace-pullover", "M", 3)])
def test_the_table_of_one_size_stands_beside_the_drawing(name: str, size: str, pieces: int) -> None:
    found = boxes(name, (size,))
    assert len(found) == pieces
    assert all(beside and picture + table + 5 <= PAGE for beside, picture, table in found)


def test_a_table_of_seven_sizes_stands_below_the_drawing() -> None:
    assert not any(beside for beside, _, _ in boxes("millrace-pullover", ()))
