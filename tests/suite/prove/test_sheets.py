"""Sheets row by row and charts of every stitch: as knitted, and caught where they are not."""

from __future__ import annotations

import random
import re
from functools import cache

import pytest
from msgspec.structs import replace
from prove_patterns import NAMES, compiled
from support import SPEC, errors, world

from wale.driver import compile_spec
from wale.prove.facts import Facts, Printed, PrintedSheet, PrintedWhole
from wale.prove.proof import prove
from wale.write.document import document
from wale.write.facts import facts, printed

SEED = 20261125
DRAWN = 10
"""Slips drawn in each pattern."""
TRIED = (
    "sluice-hat",
    "stepped-shoulders",
    "short-rows",
    "sleeve-any-row",
    "hat-chart-crown",
    "wide-edge",
    "neck-below-the-armhole",
)


LACE = """wale 1

pattern "Wristers"

yarn flour
    count  2/12 Nm wool
    colour #f2ecdf

motif eddy
    repeat   6 sts, 4 rows
    stitches |-| knit, |y| yo, |/| k2tog, |\\| ssk
    | - - - - - - |
    | - y / - - - |
    | - - - - - - |
    | - - - \\ y - |

swatch waves, worked flat
    motif  eddy in flour
    needle 4.5 mm
    washed 48 sts = 24 cm, 40 rows = 17 cm

sizes one

piece cuff, worked flat
    edge    1 st each side
    cast on 30 cm in waves
    work    in eddy on waves, from the edge
    work    6 cm
    shape   to 24 cm over 8 cm
    work    3 cm
    bind off
"""


@cache
def page(name: str) -> tuple[Printed, Facts]:
    """Give what a pattern prints with all its extras in its last size, tables apart, and its facts."""
    done = compiled(name)
    assert done.spec is not None and done.plan is not None
    sizes = (len(done.plan.sizes) - 1,)
    pattern = document(done.spec, done.plan, sizes, (), ("rows", "charts"))
    whole = printed(done.spec, done.plan, pattern, sizes)
    return replace(whole, tables=()), replace(facts(done.spec, done.plan, sizes), yarn={})


@pytest.mark.parametrize("name", NAMES)
def test_sheets_and_charts_are_as_knitted(name: str) -> None:
    whole, known = page(name)
    assert len(whole.sheets) == len(whole.pieces)
    assert prove(whole, known) == []


@pytest.mark.parametrize("name", TRIED)
def test_a_changed_figure_of_a_sheet_is_caught_at_its_row(name: str) -> None:
    whole, known = page(name)
    slips: list[tuple[int, str, PrintedSheet]] = []
    for place, sheet in enumerate(whole.sheets):
        for number, line in enumerate(sheet.lines):
            for found in re.finditer(r"(?<!at each )[0-9]+(?! st at)", line):
                slip = f"{line[: found.start()]}{int(found[0]) + 1}{line[found.end() :]}"
                lines = (*sheet.lines[:number], slip, *sheet.lines[number + 1 :])
                slips.append((place, slip, replace(sheet, lines=lines)))
    for place, slip, sheet in random.Random(f"{SEED} {name}").sample(slips, DRAWN):
        sheets = (*whole.sheets[:place], sheet, *whole.sheets[place + 1 :])
        (finding,) = prove(replace(whole, sheets=sheets), known)
        assert (finding.piece, finding.size) == (sheet.piece, sheet.size)
        assert finding.line == slip or "divided at the neck" in finding.message, finding


def with_line(whole: Printed, pattern: str, new: str) -> Printed:
    """Give a page with the first line of a sheet in which a pattern occurs changed."""
    for place, sheet in enumerate(whole.sheets):
        for number, line in enumerate(sheet.lines):
            if re.search(pattern, line):
                lines = (*sheet.lines[:number], re.sub(pattern, new, line), *sheet.lines[number + 1 :])
                sheets = (*whole.sheets[:place], replace(sheet, lines=lines), *whole.sheets[place + 1 :])
                return replace(whole, sheets=sheets)
    raise AssertionError(pattern)


@pytest.mark.parametrize(
    ("name", "pattern", "new", "why"),
    [
        ("short-rows", " RS:", " WS:", "it is a RS row"),
        ("short-rows", "left side: ", "", "it belongs to the left side"),
        ("short-rows", "turn; [0-9]+ sts wait at this end; ", "", "sts wait from a turn"),
        ("short-rows", "close the turns; ", "", "turns are closed on another row"),
        ("short-rows", "bind off [0-9]+ for the neck", "bind off 2 for the neck", "sts become"),
        ("sleeve-any-row", "increase 1 st at each edge; ", "", "sts become"),
        ("sleeve-any-row", "increase 1 st", "decrease 1 st", "does not decrease at each edge"),
        ("stepped-shoulders", "chart row 1 from", "chart row 2 from", "it is worked in row 1"),
        ("sluice-hat", "; [0-9]+ sts fewer", "; turn to the left", "is nothing that can be due"),
    ],
)
def test_a_sheet_that_says_another_thing_is_caught(name: str, pattern: str, new: str, why: str) -> None:
    whole, known = page(name)
    findings = prove(with_line(whole, pattern, new), known)
    assert [why in finding.message for finding in findings] == [True], findings


@pytest.mark.parametrize("name", TRIED)
def test_a_changed_stitch_of_a_chart_is_caught_at_its_row(name: str) -> None:
    whole, known = page(name)
    (chart, *others) = whole.wholes
    chance = random.Random(f"{SEED} {name}")
    for _ in range(DRAWN):
        number = chance.randrange(len(chart.rows))
        cells = list(chart.rows[number])
        place = chance.choice([at for at, cell in enumerate(cells) if cell])
        cells[place] = chance.choice([one for one in ("rye", "flour", "ssk in rye", "") if one != cells[place]])
        (finding,) = prove(replace(whole, wholes=(with_row(chart, number, tuple(cells)), *others)), known)
        assert (finding.piece, finding.size, finding.row) == (chart.piece, chart.size, chart.first + number)


def with_row(chart: PrintedWhole, number: int, cells: tuple[str, ...]) -> PrintedWhole:
    return replace(chart, rows=(*chart.rows[:number], cells, *chart.rows[number + 1 :]))


def test_a_row_that_is_drawn_a_stitch_aside_is_caught() -> None:
    whole, known = page("decreasing")
    chart = whole.wholes[0]
    number = next(at for at, cells in enumerate(chart.rows) if not cells[0])
    cells = (*chart.rows[number][1:], "")
    (finding,) = prove(replace(whole, wholes=(with_row(chart, number, cells),)), known)
    assert finding.row == chart.first + number and "over each other" in finding.message


def test_a_chart_that_begins_on_another_row_is_caught() -> None:
    whole, known = page("sluice-hat")
    (chart,) = whole.wholes
    (finding,) = prove(replace(whole, wholes=(replace(chart, first=chart.first + 1),)), known)
    assert "the piece ends with row" in finding.message


@pytest.mark.parametrize("way", ["", ", on any row"])
def test_lace_that_is_shaped_has_a_sheet(way: str) -> None:
    """Lace has decreases of its own: on its row 1 and 3 one each, beside those of the edges."""
    text = LACE.replace("over 8 cm", f"over 8 cm{way}")
    done = compile_spec(world(text), SPEC, (), ("rows", "charts"))
    assert done.spec is not None and done.plan is not None and done.pattern is not None and errors(done) == []
    page, wanted = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    (sheet,) = page.sheets
    shaped = [number for number, line in enumerate(sheet.lines) if "decrease 1 st at each edge" in line]
    assert shaped
    for old, new in (
        ("at each edge", "at the left edge"),
        ("decrease", "increase"),
        ("decrease 1 st at each edge; ", ""),
    ):
        lines = [line.replace(old, new) if number == shaped[0] else line for number, line in enumerate(sheet.lines)]
        assert prove(replace(page, sheets=(replace(sheet, lines=tuple(lines)),)), wanted)
