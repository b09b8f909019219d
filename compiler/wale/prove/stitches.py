"""The stitches of a knitted piece by fabric, chart row and yarn, counted and held against those that yarn rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from wale.prove.fabric import Fabric, Finding, Row
from wale.prove.facts import Facts, PieceFacts, RowFact, Sort


def by_sort(fabric: Fabric, fact: PieceFacts, heights: Mapping[str, int]) -> dict[Sort, int]:
    """Count the stitches of each sort; edge stitches that wait in short rows are not worked."""
    found: dict[Sort, int] = {}
    for row, planned in zip(fabric.rows, fact.rows, strict=True):
        worked, chart = len(row.ops), planned.chart
        sort = (planned.fabric, "", 0, planned.yarn or " ".join(planned.columns))
        if chart or planned.columns:
            # a texture is all in one yarn
            if chart and not planned.yarn:
                sort = (planned.fabric, chart, (row.chart_row - 1) % heights[chart], "")
            if planned.edges != (0, 0):
                edges = _edges(row, planned)
                for yarn in planned.steek or (fact.edge_yarn,):
                    edge = (planned.fabric, "", 0, yarn)
                    found[edge] = found.get(edge, 0) + (1 if planned.steek else edges)
                worked -= edges
        found[sort] = found.get(sort, 0) + worked
    return {sort: stitches for sort, stitches in found.items() if stitches}


def _edges(row: Row, planned: RowFact) -> int:
    """Count the edge stitches that a row works: those at an end that no stitch waits at or is bound off."""
    right, left = planned.edges
    return (right if not row.waiting else 0) + (left if row.waiting + len(row.ops) == row.stitches else 0)


def by_yarn(fabric: Fabric) -> dict[str, int]:
    """Count the stitches of each yarn, stitch by stitch."""
    colours = b"".join(row.colours for row in fabric.rows)
    return {yarn: colours.count(number) for number, yarn in enumerate(fabric.palette)}


def compare_stitches(fabric: Fabric, fact: PieceFacts, facts: Facts) -> Iterator[Finding]:
    """Hold the stitches of a piece against those that its yarn is reckoned from.

    The reckoning shares a row of a chart out by the cells of its motif. What a piece holds of each yarn may differ from
    that by a quarter of a repeat in each run of stitches, and by no more.
    """
    found = by_sort(fabric, fact, facts.heights)
    if found != fact.stitches:
        for sort in sorted({*found, *fact.stitches}):
            got, planned = found.get(sort, 0), fact.stitches.get(sort, 0)
            if got != planned:
                what = f"row {sort[2] + 1} of {sort[1]}" if sort[1] else f"plain in {sort[3]}"
                message = f"{got} sts are worked in {what}, but yarn is reckoned for {planned}"
                yield Finding(fact.piece, fact.size, 0, "", message)
        return
    shares: dict[str, Fraction] = {}
    for (_, chart, number, yarn), stitches in found.items():
        cells = facts.motifs[chart][number] if chart else tuple(yarn.split())
        for name in dict.fromkeys(cells):
            shares[name] = shares.get(name, Fraction(0)) + Fraction(stitches * cells.count(name), len(cells))
    quarters = sum(len(row.runs) * len(facts.motifs[row.chart][row.chart_row - 1]) for row in fabric.rows if row.chart)
    quarters += sum(len(planned.columns) for planned in fact.rows)
    for yarn, stitches in by_yarn(fabric).items():
        share = shares.get(yarn, Fraction(0))
        if 4 * abs(stitches - share) > quarters:
            message = f"{stitches} sts are in {yarn}, but yarn is reckoned for {float(share):.0f}"
            yield Finding(fact.piece, fact.size, 0, "", message)
