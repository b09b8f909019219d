"""Printed yarn: counted on the fabric, reckoned anew, and caught where a figure or a count is another."""

from __future__ import annotations

import random
import re
from fractions import Fraction

import pytest
from msgspec.structs import replace
from prove_patterns import compiled
from support import written
from test_measured import NAMES, SEED, damaged_tables, outcome, page

from wale.prove import proof
from wale.prove.fabric import Fabric
from wale.prove.facts import Facts, Grams, PieceFacts, PrintedTable, PutUpFact, Rate, SizeYarn, YarnFact
from wale.prove.proof import prove
from wale.prove.stitches import compare_stitches
from wale.prove.yarn import check_yarn, needs

DRAWN = 12
"""Figures damaged in each pattern."""
BLANKET = """wale 1
pattern "blanket"
    use "mill-yarns.wale"
motif pick
    repeat 4 sts, 1 rows
    key |-| rye, |x| flour
    | - - x - |
swatch picked, worked flat
    motif pick in rye, flour
    needle 3.5 mm
    washed 20 sts and 20 rows in 10 cm
    weight 10 g of 20 sts, 50 rows
sizes one
piece blanket, worked flat
    edge 0 sts each side
    cast on 20 cm in picked
    work in pick on picked, from the edge
    work to 50 cm
    bind off
"""


@pytest.mark.parametrize("name", NAMES)
def test_a_changed_figure_of_the_yarn_table_is_caught_in_its_size(name: str) -> None:
    whole, known = page(name)
    whole = replace(whole, tables=tuple(table for table in whole.tables if table.kind == "yarn"))
    every = list(damaged_tables(whole))
    assert len(every) > 10
    for size, cell, damaged in random.Random(f"{SEED} {name}").sample(every, DRAWN):
        findings = prove(damaged, known)
        assert {one.size for one in findings} == {size}, cell
        assert all(cell in one.line and one.piece == "table of yarn" for one in findings)


def with_stitches(known: Facts, name: str, change: int) -> Facts:
    """Give facts whose reckoning counts some stitches more of the first sort of a piece."""

    def changed(piece: PieceFacts) -> PieceFacts:
        if piece.piece != name:
            return piece
        sort = min(piece.stitches)
        return replace(piece, stitches={**piece.stitches, sort: piece.stitches[sort] + change})

    return replace(known, pieces=tuple(changed(piece) for piece in known.pieces))


@pytest.mark.parametrize("change", [1, -1])
def test_a_stitch_more_or_less_in_the_reckoning_names_its_piece(change: int) -> None:
    whole, known = page("millrace-pullover")
    findings = prove(whole, with_stitches(known, "sleeve", change))
    assert {one.piece for one in findings} == {"sleeve"}
    assert {one.size for one in findings} == set(whole.sizes)
    assert all("yarn is reckoned for" in one.message for one in findings)


def test_a_piece_left_out_of_the_reckoning_is_caught() -> None:
    whole, known = page("millrace-pullover")
    short = {}
    for size, yarn in known.yarn.items():
        rates = tuple(replace(rate, pieces=tuple(one for one in rate.pieces if one != "front")) for rate in yarn.rates)
        short[size] = replace(yarn, rates=rates)
    findings = prove(whole, replace(known, yarn=short))
    assert findings and all("no yarn is reckoned for stitches of the front" in one.message for one in findings)


def test_a_motif_counted_in_the_wrong_colours_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    # The reckoning's sorts are those of the fabric, but its chart would be all rye: far beyond a quarter of a repeat.
    whole, known = page("sluice-hat")
    knitted: dict[tuple[str, str], tuple[Fabric, PieceFacts]] = {}
    measure = proof._measure
    monkeypatch.setattr(proof, "_measure", lambda *found: knitted.update(found[2]) or measure(*found))
    assert prove(whole, known) == []
    plain = {name: tuple(tuple("rye" for _ in row) for row in rows) for name, rows in known.motifs.items()}
    for fabric, fact in knitted.values():
        assert list(compare_stitches(fabric, fact, known)) == []
        (rye, flour) = compare_stitches(fabric, fact, replace(known, motifs=plain))
        assert "sts are in rye" in rye.message and "sts are in flour" in flour.message


def test_stitches_of_each_yarn_by_hand() -> None:
    # 40 sts (20 cm of 2 sts a cm), 100 rows (50 cm of 2 rows a cm); one stitch of four is flour.
    done = written(BLANKET)
    assert done.proof is not None
    assert done.proof.outcome.stitches["blanket", "one"] == {"rye": 3000, "flour": 1000}
    # 10 g weigh 1000 sts: 4000 sts weigh 40 g in both yarns together.
    rye, flour = (done.proof.outcome.needs["one"][yarn] for yarn in ("rye", "flour"))
    assert rye.by_weight is not None and flour.by_weight is not None
    assert rye.by_weight[1] + flour.by_weight[1] == 40


def test_the_pullover_counts_every_stitch_of_its_yarns() -> None:
    found, (_, known) = outcome("millrace-pullover"), page("millrace-pullover")
    for piece in known.pieces:
        worked = sum(row.stitches - sum(row.waiting) for row in piece.rows)
        assert sum(found.stitches[piece.piece, piece.size].values()) == worked
    table = next(table for table in page("millrace-pullover")[0].tables if table.kind == "yarn")
    assert found.yarn_figures == sum(len(cells) for _, cells in table.rows)


def test_ready_and_bought_by_hand() -> None:
    # 100 g knitted and 10 g of ends: 121 g with a tenth more, 130 with the swatch; 400 m per 100 g; 100 g on hand.
    rate = Rate(
        ("plain", "", 0, "rye"),
        ("scarf",),
        (Grams("rye", None, (Fraction(9, 100), Fraction(1, 10), Fraction(11, 100))),),
    )
    cone = PutUpFact("cones of 50 g", Fraction(50), Fraction("11.50"), "EUR")
    fact = YarnFact("rye", False, Fraction(10), Fraction(9), Fraction(1, 10), Fraction(400), Fraction(100), (cone,))
    found = needs({"scarf": (2, {("plain", "", 0, "rye"): 500})}, SizeYarn((rate,), (fact,)))
    rye = found["rye"]
    assert rye.takes == (100, 110, 120)
    table = PrintedTable(
        "yarn",
        Fraction(1),
        (
            ("rye, to have ready, g", ("130",)),
            ("rye, the same in m", ("520",)),
            ("rye, knitted, by the loop, g", ("100",)),
            ("rye, the garment takes, g", ("100 to 120",)),
            ("rye, cones of 50 g", ("3",)),
            ("rye, cones of 50 g to buy", ("1",)),
            ("rye, cost of all in EUR", ("34.50",)),
        ),
    )
    findings, compared = check_yarn(table, {"one": found}, ("one",))
    assert [one.message for one in findings] == [] and compared == 7


def test_a_yarn_that_is_not_known_says_so() -> None:
    done = compiled("sluice-hat")
    assert done.pattern is not None
    whole, known = page("sluice-hat")
    table = next(table for table in whole.tables if table.kind == "yarn")
    renamed = replace(table, rows=tuple((re.sub("^rye", "bran", heading), cells) for heading, cells in table.rows))
    findings = prove(replace(whole, tables=(renamed,)), known)
    assert findings and all("no yarn bran is known" in one.message for one in findings)
