"""The proof: read the printed lines, knit every piece in every size, and hold the fabrics against the plan's facts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct, field

from wale.prove.charts import Charts, ReadChart, read_chart
from wale.prove.compare import compare
from wale.prove.fabric import Contradiction, Fabric, Finding
from wale.prove.facts import Facts, PieceFacts, Printed, PrintedPiece
from wale.prove.hand_words import HandLine
from wale.prove.joins import compare_armholes, compare_joins
from wale.prove.machine import knit
from wale.prove.mirrored import mirrored, mirrored_chart, mirrored_sheet, mirrored_table, mirrored_whole
from wale.prove.reader import Reading, Unreadable, lines_of, read, read_by_hand
from wale.prove.remarks import Placed, measured
from wale.prove.ruler import Ruler
from wale.prove.sheets import check_sheet
from wale.prove.starts import Listed, check_starts
from wale.prove.stitches import by_yarn, compare_stitches
from wale.prove.tables import Measured, Tables
from wale.prove.whole_charts import check_whole
from wale.prove.words import Instruction, Refer, Shaping
from wale.prove.yarn import Need, check_yarn, needs

Step = Reading[Instruction | HandLine] | str
"""A step as read, or the words of a remark."""


class Outcome(Struct, frozen=True):
    """What a proof found.

    Attributes:
        findings: what is wrong; the rest is there only where nothing is.
        measured: the figures that were measured.
        needs: by size and yarn; `yarn_figures` of their table were compared.
        stitches: of each piece and size, by yarn, once.
    """

    findings: tuple[Finding, ...]
    measured: tuple[Measured, ...] = ()
    needs: Mapping[str, Mapping[str, Need]] = field(default_factory=dict)
    yarn_figures: int = 0
    stitches: Mapping[tuple[str, str], Mapping[str, int]] = field(default_factory=dict)


def prove(printed: Printed, facts: Facts) -> list[Finding]:
    """Prove a pattern.

    Returns:
        What is wrong, piece by piece and size by size; empty where the words make the fabric that was planned.
    """
    return list(prove_all(printed, facts).findings)


def prove_all(printed: Printed, facts: Facts) -> Outcome:
    """Prove a pattern: its pieces row by row, then how they join, then what the tables and remarks tell of them.

    Words for the left hand are mirrored first: then they have to make what was planned, and are themselves the words of
    its mirror image.
    """
    charts, findings = _charts(printed)
    expected = {(fact.piece, fact.size): fact for fact in facts.pieces}
    knitted: dict[tuple[str, str], tuple[Fabric, PieceFacts]] = {}
    beside: dict[tuple[str, str], _Beside] = {}
    earlier: dict[str, list[Step]] = {}
    for piece in printed.pieces:
        steps, found = _read(piece, earlier, printed.hand)
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
                lines, beside[piece.name, size] = _of_size(piece, steps, printed.sizes, index)
                if printed.hand == "left":
                    lines = [(text, mirrored(said)) for text, said in lines]
            except Unreadable as error:
                findings.append(Finding(piece.name, size, 0, "", str(error)))
                continue
            fabric, found = knit(piece.name, size, lines, charts)
            if fabric is not None:
                knitted[piece.name, size] = fabric, fact
                found = compare(fabric, fact, facts, [text for text, _ in lines])
            findings += found
    if not findings:
        findings += [Finding(piece, size, 0, "", "this piece is not printed") for piece, size in expected]
        findings += compare_joins(facts, {key: fabric for key, (fabric, _) in knitted.items()}, printed.sizes)
    if findings:
        return Outcome(tuple(findings))
    return _measure(printed, facts, knitted, beside)


def _measure(
    printed: Printed,
    facts: Facts,
    knitted: Mapping[tuple[str, str], tuple[Fabric, PieceFacts]],
    beside: Mapping[tuple[str, str], _Beside],
) -> Outcome:
    """Measure the fabrics by the gauge, and hold the printed lengths against them."""
    rulers = {key: Ruler(fabric, fact, facts.gauges) for key, (fabric, fact) in knitted.items()}
    tables = Tables(rulers, facts, printed.sizes)
    is_left = printed.hand == "left"
    for table in map(mirrored_table, printed.tables) if is_left else printed.tables:
        if table.kind != "yarn":
            tables.check(table)
    findings, told = tables.findings, tables.measured
    for sheet in map(mirrored_sheet, printed.sheets) if is_left else printed.sheets:
        if (key := (sheet.piece, sheet.size)) in knitted:
            findings += check_sheet(sheet, knitted[key][0])
    for chart in map(mirrored_whole, printed.wholes) if is_left else printed.wholes:
        if (key := (chart.piece, chart.size)) in knitted:
            findings += check_whole(chart, *knitted[key], facts.motifs)
    findings += compare_armholes(facts, rulers, printed.sizes) if facts.gauges else ()
    for key, told_beside in beside.items() if facts.gauges else ():
        findings += check_starts(rulers[key], told_beside.lists, facts)
        for one in measured(rulers[key], told_beside.remarks, printed.sizes, key[1]):
            if isinstance(one, Finding):
                findings.append(one)
            else:
                told.append(one)
    reckoned, compared, wrong = _yarn(printed, facts, knitted)
    findings += wrong
    if findings:
        return Outcome(tuple(findings))
    stitches = {key: by_yarn(fabric) for key, (fabric, _) in knitted.items()}
    return Outcome((), tuple(told), reckoned, compared, stitches)


def _yarn(
    printed: Printed, facts: Facts, knitted: Mapping[tuple[str, str], tuple[Fabric, PieceFacts]]
) -> tuple[dict[str, dict[str, Need]], int, list[Finding]]:
    """Count the stitches that take yarn, reckon the yarn from them, and hold the printed table against it."""
    findings: list[Finding] = []
    reckoned: dict[str, dict[str, Need]] = {}
    if not facts.yarn:
        return reckoned, 0, findings
    for fabric, fact in knitted.values():
        findings += compare_stitches(fabric, fact, facts)
    if findings:
        return reckoned, 0, findings
    for size in printed.sizes:
        # The counts compared just now: those of the fabric.
        counted = {piece: (fact.make, fact.stitches) for (piece, of), (_, fact) in knitted.items() if of == size}
        try:
            reckoned[size] = needs(counted, facts.yarn[size])
        except Contradiction as error:
            findings.append(Finding("table of yarn", size, 0, "", str(error)))
    compared = 0
    for table in printed.tables:
        if table.kind == "yarn" and not findings:
            wrong, number = check_yarn(table, reckoned, printed.sizes)
            findings += wrong
            compared += number
    return reckoned, compared, findings


class _Beside(Struct, frozen=True):
    """What stands beside the lines of a piece in one size: remarks, and lists of starts."""

    remarks: tuple[Placed, ...]
    lists: tuple[Listed, ...]


def _of_size(
    piece: PrintedPiece, steps: Sequence[Step], sizes: Sequence[str], index: int
) -> tuple[list[tuple[str, Instruction | HandLine]], _Beside]:
    """Give the lines of one size with what they say, and what stands beside them, each with its place."""
    lines: list[tuple[str, Instruction | HandLine]] = []
    placed: list[Placed] = []
    before = [0]
    for step in steps:
        if isinstance(step, str):
            placed.append((len(lines), step))
        else:
            lines += lines_of((step,), sizes, index)
        before.append(len(lines))
    taken = len(steps) - len(piece.steps)
    lists = []
    for after, size, text in piece.lists:
        if size == sizes[index]:
            shaping = [at for at in range(before[taken + after]) if isinstance(lines[at][1], Shaping)]
            lists.append((shaping[-1] if shaping else -1, text))
    return lines, _Beside(tuple(placed), tuple(lists))


def _charts(printed: Printed) -> tuple[Charts, list[Finding]]:
    charts: dict[tuple[str, bool], ReadChart] = {}
    findings = []
    for name, words in printed.charts:
        try:
            chart = read_chart(mirrored_chart(words) if printed.hand == "left" else words)
        except Contradiction as error:
            findings.append(Finding(name, "", 0, "", str(error)))
            continue
        charts[name, chart.is_flat] = chart
    return charts, findings


def _read(piece: PrintedPiece, earlier: Mapping[str, list[Step]], hand: str) -> tuple[list[Step], list[Finding]]:
    """Read the steps of a piece, those that it takes from an earlier one first; remarks stay as they are."""
    steps: list[Step] = []
    findings = []
    if piece.refer:
        try:
            (refer,) = read(piece.refer).instructions
            steps += _referred(piece, mirrored(refer) if hand == "left" else refer, earlier)
        except Unreadable as error:
            findings.append(Finding(piece.name, "", 0, piece.refer, str(error)))
    for number, line in enumerate(piece.steps):
        remark = piece.remarks[number] if number < len(piece.remarks) else ""
        try:
            steps.append(read_by_hand(line) if line else remark)
        except Unreadable as error:
            findings.append(Finding(piece.name, "", 0, line, str(error)))
            steps.append("")
    return steps, findings


def _referred(piece: PrintedPiece, refer: Instruction | HandLine, earlier: Mapping[str, list[Step]]) -> list[Step]:
    if not isinstance(refer, Refer):
        raise Unreadable("this line does not refer to a piece")
    if refer.piece not in earlier or refer.last > len(earlier[refer.piece]):
        raise Unreadable(f"the {refer.piece} has no {refer.last} steps")
    if not refer.last + 1 == refer.following == piece.first:
        raise Unreadable(f"after step {refer.last} comes step {piece.first}")
    return earlier[refer.piece][: refer.last]
