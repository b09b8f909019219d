"""Lists that tell where rows start in the chart after each shaping row, held against the knitted rows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from wale.prove.fabric import Contradiction, Finding, Row, insist
from wale.prove.facts import Facts, RowFact
from wale.prove.ruler import Ruler

_ENTRY = re.compile(r"([0-9]+): ([0-9]+) sts, ([0-9]+)/([0-9]+)")

Listed = tuple[int, str]
"""The line (from 0, of its size) that shapes the rows, -1 without one, and a list such as `3: 157 sts, 1/11`."""


def check_starts(ruler: Ruler, lists: Sequence[Listed], facts: Facts) -> Iterator[Finding]:
    """See that a list names each shaping row, with its stitches and the columns of RS and WS rows from there on.

    Rows of a list count from 1 in the run that the line before it tells.
    """
    both = list(zip(ruler.fabric.rows, ruler.fact.rows, strict=True))
    for line, text in lists:
        rows = [pair for pair in both if pair[0].line == line]
        told = {}
        try:
            insist(bool(rows), "no rows are shaped before this list")
            first = rows[0][0].number
            for entry in text.split("; "):
                found = _ENTRY.fullmatch(entry)
                insist(found is not None, f"`{entry}` is no row with its stitches and columns")
                assert found is not None
                told[int(found[1])] = tuple(int(one) for one in found.groups()[1:])
            worked = {
                row.number - first + 1: (row.stitches, *_columns(row, planned, facts))
                for row, planned in rows
                if planned.shaped
            }
            for number in sorted({*told, *worked}):
                if told.get(number) != worked.get(number):
                    message = f"after row {number} there are {_say(worked.get(number))}, not {_say(told.get(number))}"
                    yield Finding(ruler.fact.piece, ruler.fact.size, first + number - 1, text, message)
                    break
        except Contradiction as error:
            yield Finding(ruler.fact.piece, ruler.fact.size, 0, text, str(error))


def _say(told: tuple[int, ...] | None) -> str:
    return "none listed" if told is None else f"{told[0]} sts, {told[1]}/{told[2]}"


def _columns(row: Row, planned: RowFact, facts: Facts) -> tuple[int, int]:
    """Give the columns from 1 at which rows over these stitches start, from the right and from the left."""
    insist(bool(row.chart), "the rows are not worked in a chart")
    width = len(facts.motifs[row.chart][row.chart_row - 1])
    (first, _), (last, length) = row.runs[0], row.runs[-1]
    return (first + planned.edges[0]) % width + 1, (last + length - 1 - planned.edges[1]) % width + 1
