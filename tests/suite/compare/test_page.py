"""The page of `wale diff`: outlines held against a hand calculation, framed cells against the rows themselves."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support import EXAMPLES, MILL_YARNS, PLAIN, checked

from wale.cli import main
from wale.compare.comparison import Comparison, Garment, Version, compare
from wale.compare.page import page
from wale.files import MemoryWorld
from wale.outputs import html, text
from wale.outputs.plan_json import plan_dict
from wale.pattern import Chart, Charts, Schematic, Table

TUBE = f"""wale 1

pattern "Panel"
    units cm

{PLAIN}
sizes small large huge
    measure bust 80 (100, 120) cm
    ease    bust 4 cm

piece back, worked flat
    cast on bust/2 in plain
    work    10 cm
    bind off

piece front, as back
"""
"""At 20 sts and 28 rows in 10 cm: 42 (52, 62) cm are 84 (104, 124) sts, 10 cm are 28 rows."""
CLOSER = TUBE.replace("bust 4 cm", "bust 0 cm").replace("10 cm\n    bind", "15 cm\n    bind")
"""2 cm less a piece: 80 (100, 120) sts; 15 cm are 42 rows."""
GRAIN = """wale 1

pattern "Panel"
    units cm

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif grain
    repeat {across} sts, {up} rows
    key    |-| rye, |x| flour
{rows}

swatch easy, worked flat
    motif  grain in rye, flour
    needle 3.5 mm
    washed 20 sts and 28 rows in 10 cm

swatch plain, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm

sizes one
    measure bust 80 cm

piece back, worked flat
    cast on 30 cm in plain
    work    in grain on easy, from the edge
    work    20 cm
    bind off
"""


def version(name: str, spec: str, **others: str) -> Version:
    done = checked(spec, **others)
    assert done.spec is not None and done.plan is not None, [one.message for one in done.problems]
    told = plan_dict(done.spec, done.plan, done.problems, done.sources)
    return Version(name, told, Garment(done.spec, done.plan))


def compared(old: str, new: str, *sizes: str) -> Comparison:
    return compare(version("old.wale", old), version("new.wale", new), sizes)


def parts(found: Comparison, section: str) -> tuple[object, ...]:
    return next((one.parts for one in page(found).sections if one.id == section), ())


class Seen(HTMLParser):
    """What a reader meets: headings by level, names of pictures, and the cells of each table."""

    def __init__(self, shown: str) -> None:
        super().__init__()
        self.headings: list[tuple[str, str]] = []
        self.titles: list[str] = []
        self.rows: list[list[str]] = []
        self._in = ""
        self.feed(shown)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._in = tag
        if tag == "tr":
            self.rows.append([])

    def handle_endtag(self, tag: str) -> None:
        self._in = ""

    def handle_data(self, data: str) -> None:
        if self._in in ("h1", "h2", "h3", "h4"):
            self.headings.append((self._in, data))
        elif self._in == "title":
            self.titles.append(data)
        elif self._in in ("td", "th"):
            self.rows[-1].append(data)


def test_each_side_moves_by_half_of_what_the_width_loses() -> None:
    (told, drawn) = parts(compared(TUBE, CLOSER), "outlines")
    assert isinstance(drawn, Schematic) and told is not None
    assert drawn.name == "Back and front" and drawn.size == "small"
    # 84 and 80 sts at 2 sts in a cm are 42 and 40 cm, half of each beside the centre line; 28 and 42 rows at 2.8.
    assert set(drawn.before) == {(21.0, 0.0), (21.0, 10.0), (-21.0, 10.0), (-21.0, 0.0)}
    assert set(drawn.outline) == {(20.0, 0.0), (20.0, 15.0), (-20.0, 15.0), (-20.0, 0.0)}
    values = {one.name: one.values for one in drawn.dimensions}
    assert values == {"bust": ("42.0", "40.0", "-2.0"), "length": ("10.0", "15.0", "+5.0")}


def test_few_sizes_are_drawn_each_and_only_where_they_differ() -> None:
    some = parts(compared(TUBE, CLOSER, "large", "huge"), "outlines")
    assert [(one.size, one.before[0][0]) for one in some if isinstance(one, Schematic)] == [
        ("large", 26.0),
        ("huge", 31.0),
    ]
    wider = TUBE.replace("80 (100, 120)", "80 (100, 124)")
    (drawn,) = (one for one in parts(compared(TUBE, wider), "outlines") if isinstance(one, Schematic))
    assert drawn.size == "huge"


def test_inches_are_told_where_the_new_spec_has_them() -> None:
    inches = CLOSER.replace("units cm", "units inch")
    drawn = parts(compared(TUBE, inches, "small"), "outlines")[0]
    assert isinstance(drawn, Schematic)
    # 42 / 2.54 = 16.54, 40 / 2.54 = 15.75
    assert drawn.unit == "inches" and drawn.dimensions[0].values == ("16.5", "15.7", "-0.8")


def test_sizes_that_change_alike_share_a_row() -> None:
    (table,) = (one for one in parts(compared(TUBE, CLOSER), "pieces") if isinstance(one, Table))
    assert table.caption == "Back and front"
    told = {row[0]: row[1:] for row in table.rows}
    assert told["bust, stitches"] == ("84 (104, 124)", "80 (100, 120)", "-4")
    assert told["work 1, rows"] == ("28", "42", "+14")
    wider = TUBE.replace("80 (100, 120)", "80 (104, 124)")
    (table,) = (one for one in parts(compared(TUBE, wider), "pieces") if isinstance(one, Table))
    assert ("bust, stitches, sizes large (huge)", "104 (124)", "108 (128)", "+4") in table.rows


def test_a_version_and_itself_have_neither_outlines_nor_charts() -> None:
    same = compared(TUBE, TUBE)
    assert [one.id for one in page(same).sections] == ["changes"]
    assert "The knitting is unchanged." in html.render(page(same))


def test_a_bare_plan_says_why_no_outline_is_drawn() -> None:
    one, other = version("old.json", TUBE), version("new.wale", CLOSER)
    found = compare(Version(one.name, one.plan), other)
    (why,) = parts(found, "outlines")
    assert "a plan alone does not hold them" in getattr(why, "text", "")


def motif(rows: list[str]) -> str:
    listed = "\n".join(f"    | {' '.join(row)} |" for row in rows)
    return GRAIN.format(across=len(rows[0]), up=len(rows), rows=listed)


@st.composite
def grids(draw: st.DrawFn) -> list[str]:
    across, up = draw(st.integers(2, 5)), draw(st.integers(2, 6))
    return [draw(st.text("-x", min_size=across, max_size=across)) for _ in range(up)]


def cells(rows: list[str]) -> dict[tuple[int, int], str]:
    """Each cell of a motif as it is written, by row from below and column from the right."""
    return {
        (len(rows) - down, len(row) - along): sign for down, row in enumerate(rows) for along, sign in enumerate(row)
    }


@settings(max_examples=15, deadline=None)
@given(grids(), grids())
def test_framed_cells_are_exactly_those_that_differ(old: list[str], new: list[str]) -> None:
    found = compared(motif(old), motif(new))
    one, other = cells(old), cells(new)
    differ = {at for at in one.keys() | other.keys() if one.get(at) != other.get(at)}
    pair = next((part for part in parts(found, "charts") if isinstance(part, Charts)), None)
    assert (pair is not None) == bool(differ)
    if pair is not None:
        before, after = pair.items
        assert set(before.changed) == differ & one.keys()
        assert set(after.changed) == differ & other.keys()
        for chart, written in ((before, one), (after, other)):
            drawn = {
                (row, len(line) - along): "-x"[["rye", "flour"].index(chart.colours[cell].name)]
                for row, line in enumerate(chart.rows, 1)
                for along, cell in enumerate(line)
            }
            assert drawn == written


def test_cells_that_change_are_told_in_words() -> None:
    found = compared(motif(["-----", "x----"]), motif(["-xx-x", "x----"]))
    shown = text.render(page(found))
    # the upper row is row 2; columns count from the right
    assert "Row 2: columns 1, 3 and 4: flour, was rye." in shown


def test_another_repeat_is_told_with_what_came_and_went() -> None:
    found = compared(motif(["--", "x-"]), motif(["x--", "-x-", "-x-"]))
    shown = text.render(page(found))
    assert "The repeat is 3 sts, 3 rows instead of 2 sts, 2 rows" in shown
    assert "column 3: added" in shown and "Row 3: added." in shown


def test_a_motif_that_comes_has_its_chart_with_words() -> None:
    (chart,) = parts(compared(TUBE, motif(["-x", "x-"])), "charts")
    assert isinstance(chart, Chart) and chart.name == "grain, new"
    assert dict(chart.words)["Row 1 (RS)"] == "1 rye, 1 flour"


def test_the_page_has_its_headings_in_order_and_a_name_for_each_picture(capfd: pytest.CaptureFixture[str]) -> None:
    old = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    new = old.replace("ease bust 14 cm", "ease bust 10 cm")
    changed = MILL_YARNS.replace("| x - - - - - x - - - - - |", "| x - - - - - - - - - - - |", 1)
    new = new.replace("mill-yarns.wale", "other-yarns.wale")
    world = MemoryWorld({"a.wale": old, "b.wale": new, "mill-yarns.wale": MILL_YARNS, "other-yarns.wale": changed})
    assert main(["diff", "a.wale", "b.wale", "--size", "M", "--out", "d.html"], world) == 1
    assert capfd.readouterr().out == ""
    shown = bytes(world.files["d.html"]).decode()
    seen = Seen(shown)
    assert [words for level, words in seen.headings if level == "h2"][:4] == [
        "Contents",
        "What changes",
        "Outlines",
        "Charts",
    ]
    levels = [int(level[1]) for level, _ in seen.headings]
    assert levels[0] == 1 and all(after <= before + 1 for before, after in pairwise(levels))
    assert {("h4", "grist, old"), ("h4", "grist, new")} <= set(seen.headings)
    assert shown.count("<svg") == len([one for one in seen.titles]) - 1  # one title is the page's own
    assert "Schematic of Back, size M, old and new" in seen.titles
    assert ["A", "bust", "54.1", "52.0", "-2.1"] in seen.rows
    # the topmost of 14 rows, its seventh stitch of 12
    assert re.search(r"<strong>Row 14:</strong> column 6: rye, was flour\.", shown)
    assert "<script" not in shown and not re.search(r'(src|href)="https?:', shown)
