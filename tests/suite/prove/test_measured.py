"""Printed lengths and widths: measured anew on the fabric, and caught where a figure is another."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

import pytest
from msgspec.structs import replace
from prove_patterns import compiled
from support import EXAMPLES, written

from wale.prove.fabric import Finding
from wale.prove.facts import Facts, Printed, PrintedPiece
from wale.prove.proof import Outcome, prove, prove_all
from wale.prove.remarks import is_length
from wale.prove.tables import near
from wale.proven import Unproven, prove_pattern
from wale.write.facts import facts, printed

SEED = 20261125
DRAWN = 16
"""Figures damaged in each pattern."""
NAMES = ("millrace-pullover", "sluice-hat", "first-cowl", "stepped-over-a-low-neck", "hem", "sleeve", "hat-chart-crown")


@cache
def page(name: str) -> tuple[Printed, Facts]:
    done = compiled(name)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    return printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)


@cache
def outcome(name: str) -> Outcome:
    return prove_all(*page(name))


def measured(name: str, piece: str, size: str, what: str) -> list[Fraction]:
    return [one.found for one in outcome(name).measured if (one.piece, one.size, one.name) == (piece, size, what)]


def test_the_pullover_measures_what_its_counts_and_gauge_make() -> None:
    # Swatch easy: 40 sts = 13.6 cm, 40 rows = 12.2 cm, washed; one edge stitch at each side goes into the seams.
    hip, high = (139 - 2) * Fraction(136, 400), (20 + 32 + 40 + 24 + 60 + 12) * Fraction(122, 400)
    assert measured("millrace-pullover", "back", "XS", "hip") == [hip]
    assert measured("millrace-pullover", "", "XS", "hip, around") == [2 * hip]
    assert measured("millrace-pullover", "back", "XS", "length to high point") == [high]
    assert measured("millrace-pullover", "back", "XS", "neck width") == [49 * Fraction(136, 400)]  # 43 + 3 + 3
    assert measured("millrace-pullover", "back", "XS", "shoulder") == [(41 - 1) * Fraction(136, 400)]
    assert measured("millrace-pullover", "back", "XS", "slope") == [10 * Fraction(122, 400)]
    # The facing: 10 rows and the row that gains stitches, 40 rows = 10 cm.
    assert measured("millrace-pullover", "back", "XS", "hem") == [Fraction(11, 4)]


def test_each_printed_length_is_measured() -> None:
    whole, _ = page("millrace-pullover")
    figures = sum(len(cells) * max(1, len(table.pieces)) for table in whole.tables for _, cells in table.rows)
    remarks = sum("The piece measures" in one for piece in whole.pieces for one in piece.remarks)
    assert {table.kind for table in whole.tables} >= {"finished", "deviations", "schematic"}
    assert remarks and len(outcome("millrace-pullover").measured) > figures


def _slips(text: str) -> Iterator[str]:
    """Change each figure by one in its last place."""
    for found in re.finditer(r"[0-9]+(?:\.[0-9]+)?", text):
        places = len(found[0].partition(".")[2])
        for step in (1, -1):
            value = Fraction(found[0]) + Fraction(step, 10**places)
            if value >= 0:
                yield f"{text[: found.start()]}{float(value):.{places}f}{text[found.end() :]}"


def damaged_tables(whole: Printed) -> Iterator[tuple[str, str, Printed]]:
    """Give pages with one figure of a table changed: the size, the changed cell, and the page."""
    for place, table in enumerate(whole.tables):
        for number, (heading, cells) in enumerate(table.rows):
            for size, cell in enumerate(cells):
                for slip in _slips(cell):
                    row = (heading, (*cells[:size], slip, *cells[size + 1 :]))
                    rows = (*table.rows[:number], row, *table.rows[number + 1 :])
                    tables = (*whole.tables[:place], replace(table, rows=rows), *whole.tables[place + 1 :])
                    yield whole.sizes[size], slip, replace(whole, tables=tables)


def damaged_figures(whole: Printed) -> Iterator[tuple[str, str, Printed]]:
    """Give pages with one figure changed that no line instructs: its sort, the changed words, and the page."""
    for place, table in enumerate(whole.tables):
        kind = "yarn figure" if table.kind == "yarn" else "length or width"
        alone = replace(whole, tables=(table,))
        for _, cell, damaged in damaged_tables(alone):
            yield (
                kind,
                cell,
                replace(whole, tables=(*whole.tables[:place], *damaged.tables, *whole.tables[place + 1 :])),
            )
    for place, piece in enumerate(whole.pieces):

        def with_piece(changed: PrintedPiece, place: int = place) -> Printed:
            return replace(whole, pieces=(*whole.pieces[:place], changed, *whole.pieces[place + 1 :]))

        for number, remark in enumerate(piece.remarks):
            for slip in _slips(remark) if is_length(remark) else ():
                remarks = (*piece.remarks[:number], slip, *piece.remarks[number + 1 :])
                yield "length on the way", slip, with_piece(replace(piece, remarks=remarks))
        for number, (after, size, text) in enumerate(piece.lists):
            for slip in _slips(text):
                lists = (*piece.lists[:number], (after, size, slip), *piece.lists[number + 1 :])
                yield "list of starts", slip, with_piece(replace(piece, lists=lists))


@pytest.mark.parametrize("name", NAMES)
def test_a_changed_figure_of_a_table_is_caught_in_its_size(name: str) -> None:
    whole, known = page(name)
    every = list(damaged_tables(whole))
    for size, cell, damaged in random.Random(f"{SEED} {name}").sample(every, min(DRAWN, len(every))):
        findings = prove(damaged, known)
        assert {one.size for one in findings} == {size}, cell
        assert all(cell in one.line for one in findings)


@pytest.mark.parametrize("name", NAMES)
def test_a_changed_length_in_a_remark_is_caught(name: str) -> None:
    whole, known = page(name)
    tried = 0
    for place, piece in enumerate(whole.pieces):
        for number, remark in enumerate(piece.remarks):
            for slip in _slips(remark.partition("about")[2]):
                told = f"{remark.partition('about')[0]}about{slip}"
                remarks = (*piece.remarks[:number], told, *piece.remarks[number + 1 :])
                pieces = (*whole.pieces[:place], replace(piece, remarks=remarks), *whole.pieces[place + 1 :])
                if tried < DRAWN:
                    findings = prove(replace(whole, pieces=pieces, tables=()), known)
                    assert findings and all(one.line == told and one.row > 0 for one in findings), told
                tried += 1
    assert tried >= 2


def test_a_remark_that_stands_after_other_rows_is_caught() -> None:
    whole, known = page("millrace-pullover")
    back = whole.pieces[0]
    places = [number for number, remark in enumerate(back.remarks) if "The piece measures" in remark]
    one, other = places[:2]
    remarks = list(back.remarks)
    remarks[one], remarks[other] = remarks[other], remarks[one]
    findings = prove(replace(whole, pieces=(replace(back, remarks=tuple(remarks)), *whole.pieces[1:])), known)
    assert {finding.size for finding in findings} == set(whole.sizes)


@pytest.mark.parametrize("name", ["millrace-pullover", "decreasing", "sleeve"])
def test_a_changed_figure_of_a_list_of_starts_is_caught_in_its_size(name: str) -> None:
    whole, known = page(name)
    slips = [
        (place, number, size, slip)
        for place, piece in enumerate(whole.pieces)
        for number, (_, size, text) in enumerate(piece.lists)
        for slip in _slips(text)
    ]
    assert len(slips) > DRAWN
    for place, number, size, slip in random.Random(f"{SEED} {name}").sample(slips, DRAWN):
        piece = whole.pieces[place]
        lists = list(piece.lists)
        lists[number] = (lists[number][0], size, slip)
        pieces = (*whole.pieces[:place], replace(piece, lists=tuple(lists)), *whole.pieces[place + 1 :])
        findings = prove(replace(whole, pieces=pieces, tables=()), known)
        assert {(one.piece, one.size) for one in findings} == {(piece.name, size)}, slip


def test_a_sleeve_that_does_not_fit_its_armhole_is_caught() -> None:
    # A row gauge for the body alone: its armhole edges, 20 % longer, leave the sleeve's top behind.
    whole, known = page("millrace-pullover")
    gauges = {**known.gauges, "loose": replace(known.gauges["easy"], rows=known.gauges["easy"].rows * Fraction(5, 6))}
    pieces = tuple(
        replace(one, rows=tuple(replace(row, fabric="loose") if row.chart else row for row in one.rows), levels=())
        if one.piece in ("back", "front")
        else one
        for one in known.pieces
    )
    bare = replace(whole, tables=(), pieces=tuple(replace(one, remarks=()) for one in whole.pieces))
    loose = replace(known, gauges=gauges, pieces=pieces, yarn={})
    findings = prove(bare, loose)
    assert {(one.piece, one.size) for one in findings} == {("sleeve", size) for size in whole.sizes}
    assert all("twice the armhole edge" in one.message and one.row > 0 for one in findings)
    assert prove(bare, replace(known, yarn={})) == []


def test_picked_up_stitches_that_change_their_edges_are_caught() -> None:
    whole, known = page("millrace-pullover")
    band = whole.pieces[-1]
    number, line = next((at, step) for at, step in enumerate(band.steps) if step.startswith("Pick up"))
    first = re.search(r"knit (.*?) along one side of the back neck, (.*?) along the centre", line)
    assert first is not None
    swapped = line.replace(f"{first[1]} along one", "# along one").replace(f"{first[2]} along the c", "% along the c")
    swapped = swapped.replace("#", first[2], 1).replace("%", first[1], 1)
    steps = (*band.steps[:number], swapped, *band.steps[number + 1 :])
    damaged = replace(whole, pieces=(*whole.pieces[:-1], replace(band, steps=steps)))
    assert {one.size for one in prove(damaged, known)} == set(whole.sizes)


def test_a_heading_that_is_not_known_is_caught() -> None:
    whole, known = page("sluice-hat")
    for place, table in enumerate(whole.tables):
        (heading, cells), *rest = table.rows
        rows = ((f"{heading} again", cells), *rest)
        tables = (*whole.tables[:place], replace(table, rows=rows), *whole.tables[place + 1 :])
        assert prove(replace(whole, tables=tables), known), heading


def test_inches_are_measured_too() -> None:
    text = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
    done = written(text.replace('    use   "mill-yarns', '    units inch\n    use   "mill-yarns'))
    assert done.proof is not None
    (head,) = [one for one in done.proof.outcome.measured if (one.size, one.name) == ("small", "hat, head, around")]
    # 144 sts in the round; swatch easy-round: 40 sts = 13.8 cm.
    assert head.found == 144 * Fraction(138, 400) and head.told == "19.6"


def test_a_mismatch_names_piece_size_and_row() -> None:
    done = compiled("sluice-hat")
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    text = done.pattern
    sections = []
    for section in text.sections:
        parts = tuple(_longer(part) for part in section.parts)
        sections.append(replace(section, parts=parts))
    with pytest.raises(Unproven, match=r"hat, size small, row [0-9]+: it measures") as caught:
        prove_pattern(done.spec, done.plan, replace(text, sections=tuple(sections)), done.sizes)
    assert isinstance(caught.value.findings[0], Finding)


def _longer(part: object) -> object:
    from wale.pattern import Steps

    if not isinstance(part, Steps):
        return part
    items = [
        replace(item, text=re.sub(r"about ([0-9]+)\.", lambda found: f"about {int(found[1]) + 1}.", item.text))
        for item in part.items
    ]
    return replace(part, items=tuple(items))


@pytest.mark.parametrize(
    ("told", "found", "holds"),
    [
        ("46.6", Fraction(4658, 100), True),
        ("46.5", Fraction(4658, 100), False),
        ("0.3", Fraction(1, 4), True),  # halves go away from zero
        ("0.2", Fraction(1, 4), False),
        ("-0.3", Fraction(-1, 4), True),
        ("+0.3", Fraction(1, 4), True),
        ("0.00", Fraction(0), True),
        ("many", Fraction(1), False),
    ],
)
def test_a_figure_is_rounded_to_its_last_place(told: str, found: Fraction, holds: bool) -> None:
    assert near(told, found, Fraction(1)) == holds
