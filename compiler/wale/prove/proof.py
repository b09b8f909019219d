"""The proof: read the printed lines, knit every piece in every size, and hold the fabrics against the plan's facts."""

from __future__ import annotations

from collections.abc import Mapping

from wale.prove.charts import Charts, ReadChart, read_chart
from wale.prove.compare import compare, compare_joins
from wale.prove.fabric import Contradiction, Fabric, Finding
from wale.prove.facts import Facts, Printed, PrintedPiece
from wale.prove.machine import knit
from wale.prove.reader import Reading, Unreadable, lines_of, read
from wale.prove.words import Instruction, Refer


def prove(printed: Printed, facts: Facts) -> list[Finding]:
    """Prove a pattern.

    Returns:
        What is wrong, piece by piece and size by size; empty where the words make the fabric that was planned.
    """
    charts, findings = _charts(printed)
    expected = {(fact.piece, fact.size): fact for fact in facts.pieces}
    fabrics: dict[tuple[str, str], Fabric] = {}
    earlier: dict[str, list[Reading[Instruction] | None]] = {}
    for piece in printed.pieces:
        steps, found = _read(piece, earlier)
        readings = [step for step in steps if step is not None]
        earlier[piece.name] = steps
        findings += found
        if found:
            continue
        for index, size in enumerate(printed.sizes):
            fact = expected.pop((piece.name, size), None)
            if fact is None:
                findings.append(Finding(piece.name, size, 0, "", "this piece was not planned"))
                continue
            try:
                lines = lines_of(readings, printed.sizes, index)
            except Unreadable as error:
                findings.append(Finding(piece.name, size, 0, "", str(error)))
                continue
            fabric, found = knit(piece.name, size, lines, charts)
            if fabric is not None:
                fabrics[piece.name, size] = fabric
                found = compare(fabric, fact, facts.motifs, [text for text, _ in lines])
            findings += found
    if not findings:
        findings += [Finding(piece, size, 0, "", "this piece is not printed") for piece, size in expected]
        findings += compare_joins(facts, fabrics, printed.sizes)
    return findings


def _charts(printed: Printed) -> tuple[Charts, list[Finding]]:
    charts: dict[tuple[str, bool], ReadChart] = {}
    findings = []
    for name, words in printed.charts:
        try:
            chart = read_chart(words)
        except Contradiction as error:
            findings.append(Finding(name, "", 0, "", str(error)))
            continue
        charts[name, chart.is_flat] = chart
    return charts, findings


def _read(
    piece: PrintedPiece, earlier: Mapping[str, list[Reading[Instruction] | None]]
) -> tuple[list[Reading[Instruction] | None], list[Finding]]:
    """Read the steps of a piece, those that it takes from an earlier one first; remarks are None."""
    steps: list[Reading[Instruction] | None] = []
    findings = []
    if piece.refer:
        try:
            steps += _referred(piece, read(piece.refer), earlier)
        except Unreadable as error:
            findings.append(Finding(piece.name, "", 0, piece.refer, str(error)))
    for line in piece.steps:
        try:
            steps.append(read(line) if line else None)
        except Unreadable as error:
            findings.append(Finding(piece.name, "", 0, line, str(error)))
            steps.append(None)
    return steps, findings


def _referred(
    piece: PrintedPiece, reading: Reading[Instruction], earlier: Mapping[str, list[Reading[Instruction] | None]]
) -> list[Reading[Instruction] | None]:
    refer = reading.instructions[0]
    if not isinstance(refer, Refer):
        raise Unreadable("this line does not refer to a piece")
    if refer.piece not in earlier or refer.last > len(earlier[refer.piece]):
        raise Unreadable(f"the {refer.piece} has no {refer.last} steps")
    if not refer.last + 1 == refer.following == piece.first:
        raise Unreadable(f"after step {refer.last} comes step {piece.first}")
    return earlier[refer.piece][: refer.last]
