"""N617, W618 and N619: a yarn that rests for many rows, one that only edges use, strands over a round's end.

What: the rows of a motif in which one of its yarns is not used, as far as a piece is tall enough to need it again;
chart rows without the yarn of the edge stitches; how far a strand passes from one round into the next.
Why: a yarn that is carried up too far pulls the edge in and catches; rows that it crosses for the edge alone leave a
float as wide as the piece; a chart shows no row's end together with the start of the next.
Limits: carried up to 5 cm ("less than a couple of inches",
http://knitting.about.com/od/knittingskills/qt/stripes-carry-yarn.htm), cut beyond; worked flat, after an odd number of
rows it waits at the other edge (http://knitsimplemag.com/Beyond-the-Basics/horizontal-stripes). Over a round's end the
limit of floats holds.
Example: flour in rows 1 and 2 of 40 rests for 38. Instead: cut it, or put a stitch of it in between.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from wale.checks.floats import most_stitches, row_floats
from wale.checks.used import Worked
from wale.draft.motifs import column
from wale.materials import Motif, Swatch
from wale.plan import PiecePlan, Plan, Section
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.source import Span
from wale.spec import Spec

CARRIED = Fraction(5)
"""Highest rest in cm for which a yarn is carried up and not cut."""


class Rest(Struct, frozen=True):
    """A yarn that waits between two rows of a motif: `rows` rows, `length_cm` high.

    Attributes:
        last, after: chart rows from 1 in which it is used before and after; `after` counts on over the repeat.
    """

    motif: str
    swatch: str
    yarn: str
    in_round: bool
    last: int
    after: int
    rows: int
    length_cm: Fraction
    span: Span

    @property
    def turned(self) -> bool:
        """Whether the strand is at the other edge when it is needed again."""
        return not self.in_round and self.rows % 2 == 1

    @property
    def cut(self) -> bool:
        """Whether it is cut."""
        return self.length_cm > CARRIED


class Over(Struct, frozen=True):
    """A strand that passes `stitches` stitches over the end of rounds, at most, from chart rows `rows` (from 1) on.

    Attributes:
        ended: of those stitches, the ones of the round that ends.
        size: index of the size in which they are so many.
    """

    piece: str
    motif: str
    swatch: str
    yarn: str
    rows: tuple[int, ...]
    stitches: int
    ended: int
    size: int
    span: Span


class _Run(Struct):
    """Rows of one motif that follow each other in a piece: the motif's row of the first, and how many, per size."""

    piece: PiecePlan
    motif: Motif
    swatch: Swatch
    sections: list[Section]
    start: tuple[int, ...]
    rows: list[int]
    span: Span


def edge_yarn(piece: PiecePlan, swatch: Swatch) -> str:
    """Give the yarn of a flat piece's edge stitches, "" where there are none."""
    return "" if piece.in_round or not piece.edge.stitches else piece.edge.yarn or swatch.yarns[0]


def rests(spec: Spec, plan: Plan) -> tuple[Rest, ...]:
    """Give where a yarn of a motif rests for a row or more and comes again, once for each motif, swatch and way."""
    found: dict[tuple[str, str, bool, str, int], Rest] = {}
    for run in _runs(spec, plan):
        motif, swatch, in_round = run.motif, run.swatch, run.piece.in_round
        for yarn, _ in motif.marks:
            if yarn == edge_yarn(run.piece, swatch):
                continue
            rows = [number for number, cells in enumerate(motif.rows) if yarn in cells]
            for last, after in zip(rows, [*rows[1:], *(row + len(motif.rows) for row in rows[:1])], strict=True):
                key = (motif.name, swatch.name, in_round, yarn, last)
                if after - last > 1 and key not in found and _is_reached(run, last, after):
                    waits = after - last - 1
                    height = waits / swatch.washed.rows
                    found[key] = Rest(
                        motif.name,
                        swatch.name,
                        yarn,
                        in_round,
                        last + 1,
                        after + 1,
                        waits,
                        height,
                        run.span,
                    )
    return tuple(found.values())


def edges_alone(spec: Spec, plan: Plan) -> tuple[tuple[Worked, str, tuple[int, ...]], ...]:
    """Give the motifs worked flat with chart rows (from 1) in which the edge stitches' yarn does not occur."""
    found: dict[tuple[str, str, str], tuple[Worked, str, tuple[int, ...]]] = {}
    for run in _runs(spec, plan):
        edge = edge_yarn(run.piece, run.swatch)
        rows = tuple(number for number, cells in enumerate(run.motif.rows, 1) if edge not in cells)
        if edge and rows:
            worked = Worked(run.motif, run.swatch, run.piece.edge.span or run.span)
            found.setdefault((run.motif.name, run.swatch.name, edge), (worked, edge, rows))
    return tuple(found.values())


def overs(spec: Spec, plan: Plan) -> tuple[Over, ...]:
    """Give the strands that pass too far over the end of a round, where the chart's own rows do not show it.

    Rounds of one count are looked at; of a section that is shaped, none.
    """
    found: dict[tuple[str, str, str, str], dict[int, tuple[int, int, int]]] = {}
    spans: dict[tuple[str, str, str, str], Span] = {}
    for run in _runs(spec, plan):
        if not run.piece.is_tube:
            continue
        most = most_stitches(spec, run.swatch)
        for section in run.sections:
            if section.first != section.last:
                continue
            for size in range(len(plan.sizes)):
                for yarn, row, passed, ended in _over(run, section, size, most):
                    key = (run.piece.name, run.motif.name, run.swatch.name, yarn)
                    spans.setdefault(key, run.span)
                    rows = found.setdefault(key, {})
                    rows[row] = max(rows.get(row, (0, 0, 0)), (passed, -size, ended))
    return tuple(_told(key, rows, spans[key]) for key, rows in found.items())


def _told(key: tuple[str, str, str, str], rows: dict[int, tuple[int, int, int]], span: Span) -> Over:
    passed, size, ended = max(rows.values())
    return Over(*key, tuple(sorted(rows)), passed, ended, -size, span)


def _over(run: _Run, section: Section, size: int, most: int) -> Iterator[tuple[str, int, int, int]]:
    """Give the yarn, the chart row from 1 of the round that ends, the stitches passed over its end, and those of it."""
    motif, count = run.motif, run.piece.levels[section.first].counts[size]
    assert section.chart_start is not None
    width, start = motif.width, column(section, motif.width, count, 0, size)
    for row in range(section.chart_start[size], section.chart_start[size] + min(section.rows[size] - 1, motif.period)):
        for yarn in dict.fromkeys(motif.rows[row % len(motif.rows)]):
            if yarn not in motif.rows[(row + 1) % len(motif.rows)]:
                continue
            ended = next((n for n in range(count) if motif.cell((start + count - 1 - n) % width, row) == yarn), count)
            begun = next((n for n in range(count) if motif.cell((start + n) % width, row + 1) == yarn), count)
            own = max((far for at in (row, row + 1) for one, _, far in row_floats(motif, at) if one == yarn), default=0)
            if ended + begun > max(most, own):
                yield yarn, row % motif.period + 1, ended + begun, ended


def _is_reached(run: _Run, last: int, after: int) -> bool:
    """Whether a piece of some size is worked from one row of the motif to the other."""
    period = len(run.motif.rows)
    return any(
        start + (last - start) % period + after - last < start + rows
        for start, rows in zip(run.start, run.rows, strict=True)
    )


def _runs(spec: Spec, plan: Plan) -> Iterator[_Run]:
    """Give the rows of motifs without a break, piece by piece; wedges of crowns apart."""
    for piece in plan.pieces:
        run: _Run | None = None
        for section in piece.sections:
            name = section.fabric.motif if section.fabric is not None else None
            in_colours = spec.coloured(name) and section.chart_start is not None and section.kind != "crown"
            if name is None or section.fabric is None or section.chart_start is None or not in_colours:
                yield from _given(run)
                run = None
                continue
            if run is not None and (run.motif.name, run.swatch.name) == (name, section.swatch):
                run.sections.append(section)
                run.rows = [one + more for one, more in zip(run.rows, section.rows, strict=True)]
                continue
            yield from _given(run)
            motif, swatch = spec.motifs[name], spec.swatches[section.swatch]
            run = _Run(piece, motif, swatch, [section], section.chart_start, list(section.rows), section.fabric.span)
        yield from _given(run)


def _given(run: _Run | None) -> Iterator[_Run]:
    if run is not None:
        yield run


def gathered(spec: Spec, plan: Plan) -> tuple[tuple[Rest, tuple[int, ...]], ...]:
    """Give the rests, those of a yarn and motif that are alike together: the first, and the chart rows before each."""
    found: dict[tuple[str, str, str, bool, int], list[Rest]] = {}
    for one in rests(spec, plan):
        found.setdefault((one.motif, one.swatch, one.yarn, one.in_round, one.rows), []).append(one)
    return tuple((alike[0], tuple(one.last for one in alike)) for alike in found.values())


def rest_words(spec: Spec, one: Rest, rows: tuple[int, ...]) -> str:
    """Say after which chart rows a yarn rests, how long, and what to do with it."""
    word = "round" if one.in_round else "row"
    words = f"{one.yarn}, once used {_named(rows)}, rests for {one.rows} {word}{'s' if one.rows > 1 else ''}, "
    words += f"{length_words(one.length_cm, spec.units, trim=False)}, and comes again: "
    if one.cut:
        return words + "cut it and join it anew"
    if one.turned:
        behind = "along behind the stitches of a row between"
        return f"{words}it would wait at the other edge, so catch it {behind}, or cut it"
    where = "inside, at the start of the round" if one.in_round else "at the edge"
    twisted = f", twisted with the working yarn every other {word}" if one.rows > 2 else ""
    return f"{words}carry it up {where}{twisted}"


def _named(rows: tuple[int, ...]) -> str:
    return f"in chart row{'s' if len(rows) > 1 else ''} {', '.join(map(str, rows))}"


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Note yarns that are cut or wait at the wrong edge for rows, once each; warn of edges; note ends of rounds."""
    problems = []
    for one, rows in gathered(spec, plan):
        if one.cut or (one.turned and one.rows > 1):
            motif = spec.motifs[one.motif]
            help = "Or put a stitch of it in a row between; the pattern tells each rest."
            words = rest_words(spec, one, rows)
            label = Label(motif.row_spans[one.last - 1], f"{one.yarn} is used here, and then rests")
            problems.append(Problem("N617", f"of {one.motif} in {one.swatch}, {words}", (label,), help=help))
    for worked, yarn, lacking in edges_alone(spec, plan):
        problems.append(
            Problem(
                "W618",
                f"{yarn} is the yarn of the edge stitches but not {_named(lacking)} of {worked.motif.name}: there it "
                "passes behind the whole width",
                (
                    Label(worked.span, f"edge stitches in {yarn}"),
                    Label(worked.motif.row_spans[lacking[0] - 1], f"no {yarn} in this row"),
                ),
                help=f"Give the edge a yarn that each row has, put a stitch of {yarn} into the row, or wind a short "
                "length of it for either edge and let it wait there (common practice).",
            )
        )
    for over in overs(spec, plan):
        problems.append(
            Problem(
                "N619",
                f"{over_words(over)}; the limit is {most_stitches(spec, spec.swatches[over.swatch])} sts",
                (Label(over.span, f"worked in rounds in {over.motif}"),),
                help="Catch the strand behind the last stitch of such a round.",
            )
        )
    return problems


def over_words(one: Over) -> str:
    """Say how far a strand passes over the end of a round."""
    where = f"over the end of rounds {_named(one.rows)} of {one.motif}"
    return f"{where}, {one.yarn} passes up to {one.stitches} sts in {one.swatch}"
