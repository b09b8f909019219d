"""Charts of every stitch against the fabrics that the proof knits from the printed words, cell for cell."""

from __future__ import annotations

import pytest
from support import EXAMPLES, written

from wale.driver import Compiled
from wale.pattern import Chart, ChartColour
from wale.prove import proof
from wale.prove.fabric import LEFT_DEC, LEFT_INC, RIGHT_DEC, RIGHT_INC, Fabric
from wale.write.row_sheet import row_sheets
from wale.write.said import said
from wale.write.whole_charts import whole_charts

LEANS = {"ssk": LEFT_DEC, "k2tog": RIGHT_DEC, "m1L": LEFT_INC, "m1R": RIGHT_INC}
NAMES = ("millrace-pullover", "sluice-hat", "first-cowl")


@pytest.fixture(scope="module", params=NAMES)
def knitted(request: pytest.FixtureRequest) -> tuple[Compiled, dict[tuple[str, str], Fabric]]:
    """Give an example, and its fabrics by piece and size."""
    fabrics: dict[tuple[str, str], Fabric] = {}
    plain = proof.knit

    def kept(piece, size, lines, charts):
        fabric, findings = plain(piece, size, lines, charts)
        fabrics[piece, size] = fabric
        return fabric, findings

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(proof, "knit", kept)
        done = written((EXAMPLES / f"{request.param}.wale").read_text("utf-8"))
    return done, fabrics


def cell(colour: ChartColour) -> tuple[str, int | None]:
    """Take the yarn and the lean out of a legend's name."""
    shaping, _, yarn = colour.name.rpartition(" in ")
    return yarn, LEANS.get(shaping)


def worked(chart: Chart, number: int) -> list[tuple[str, int | None]]:
    """Give the stitches of a row of a chart, right to left."""
    return [cell(chart.colours[index]) for index in chart.rows[number][::-1] if index >= 0]


def knit_row(fabric: Fabric, number: int) -> list[tuple[str, int | None]]:
    """Give the stitches of a row as knitted, right side before left where the neck parts them."""
    rows = [row for row in fabric.rows if row.number == number]
    rows.sort(key=lambda row: ("", "right", "left").index(row.part))
    return [
        (fabric.palette[colour], op if op in LEANS.values() else None)
        for row in rows
        for op, colour in zip(row.ops, row.colours, strict=True)
    ]


def test_every_stitch_is_the_one_that_is_knitted(knitted):
    done, fabrics = knitted
    charts = whole_charts(done.spec, done.plan, range(len(done.plan.sizes)))
    with_motif = [piece for piece in done.plan.pieces if any(one.fabric and one.fabric.motif for one in piece.sections)]
    assert len(charts) == len(with_motif) * len(done.plan.sizes)
    for chart in charts:
        piece, size = chart.name.split(", size ")
        fabric = fabrics[piece, size]
        last = max(row.number for row in fabric.rows)
        first = last - len(chart.rows) + 1
        assert any(row.chart for row in fabric.rows if row.number in (first, first + 1)), chart.name
        assert not any(row.chart for row in fabric.rows if row.number < first), chart.name
        for number in range(len(chart.rows)):
            assert worked(chart, number) == knit_row(fabric, first + number), (chart.name, number)


def test_the_sheet_has_the_rows_and_counts_that_are_knitted(knitted):
    done, fabrics = knitted
    for index, size in enumerate(done.plan.sizes):
        parts = row_sheets(done.spec, done.plan, index)
        for lead, lines in zip(parts[::2], parts[1::2], strict=True):
            fabric = fabrics[lead.strong.split(", size")[0].lower(), size]
            assert [(int(one.strong.split()[0].rstrip(":")), one.text.split("; ")[-1]) for one in lines.items] == [
                (row.number, f"{row.stitches} sts") for row in fabric.rows
            ]


def test_the_centre_line_halves_the_piece():
    done = written((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    for chart in whole_charts(done.spec, done.plan, (0, 3)):
        widest = max(chart.rows, key=lambda row: sum(index >= 0 for index in row))
        assert chart.centre == len(widest) / 2, chart.name


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ("r", "1 rye"),
        ("rrrf", "3 rye, 1 flour"),
        ("rrrfrrrf", "(3 rye, 1 flour) twice"),
        ("frrrfrrrfrrrfrr", "(1 flour, 3 rye) 3 times, 1 flour, 2 rye"),
        ("rrfrfrfrfrf", "2 rye, (1 flour, 1 rye) 4 times, 1 flour"),
    ],
)
def test_a_row_is_said_in_few_words(row, words):
    names = {"r": "rye", "f": "flour"}
    assert said([names[sign] for sign in row]) == words


def test_a_single_shaping_needs_no_number():
    assert said(["rye", "ssk in rye", "rye", "rye"]) == "1 rye, ssk in rye, 2 rye"
