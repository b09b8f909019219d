"""W601: carried strands that are too long.

What: in a row of two colours, the longest run of stitches for which a yarn is not used, over the ends of the repeat.
Why: a long loose strand on the wrong side snags fingers and rings, and pulls the row in.
Limit: 2.5 cm unless the file says otherwise, as the nearest whole number of stitches at the fabric's gauge; published:
at 22 sts in 10 cm catch runs longer than 6, in a run of 8 at st 3, 4 or 5
(https://www.moderndailyknitting.com/community/stranded-colorwork-consider-the-float/).
Example: one stitch of flour in twelve of rye passes 11 sts. Instead: catch the strand half-way, or put a stitch there.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.actions import CastOn, Fabric, Hem, Joining, Rib
from wale.checks.catching import staggered
from wale.checks.used import Worked, motifs_worked
from wale.materials import Motif, Swatch
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words, round_half_up
from wale.spec import Spec


class Float(Struct, frozen=True):
    """A strand that passes behind `stitches` stitches, over chart columns `column` on to the left (from 1, the right).

    Attributes:
        row: chart row from 1.
        span_cm: the stitches passed, in cm.
        catch: for each catch the stitches of the run, from 1 at either end, at which it may be made.
        best: the chart columns (from 1) of the catches that lie apart from those of the rows below and above.
    """

    motif: str
    swatch: str
    row: int
    yarn: str
    column: int
    stitches: int
    span_cm: Fraction
    catch: tuple[tuple[int, ...], ...]
    best: tuple[int, ...]


def row_floats(motif: Motif, row: int) -> tuple[tuple[str, int, int], ...]:
    """Give (yarn, column from 0 at the right where its run starts, stitches passed) of a chart row from 0."""
    width = len(motif.rows[row % len(motif.rows)])
    cells = [motif.cell(column, row) for column in range(width)]
    yarns = tuple(dict.fromkeys(cells))
    found = []
    for yarn in yarns if len(yarns) > 1 else ():
        places = [column for column, cell in enumerate(cells) if cell == yarn]
        for place, after in zip(places, [*places[1:], places[0] + width], strict=True):
            if after - place > 1:
                found.append((yarn, (place + 1) % width, after - place - 1))
    return tuple(sorted(found, key=lambda one: one[1:]))


def most_stitches(spec: Spec, swatch: Swatch) -> int:
    """Give the most stitches that a strand may pass uncaught in a fabric."""
    value, dimension = spec.float_limit
    return int(value) if dimension == "stitches" else round_half_up(value * swatch.washed.stitches)


def catches(run: int, most: int) -> tuple[tuple[int, ...], ...]:
    """Give where to catch a strand that passes `run` stitches, so that no part passes more than `most`.

    They are spread evenly; each may be made at any of up to three stitches about its place, whatever the others do.
    """
    if run <= most:
        return ()
    number = -((most - run) // (most + 1))
    places = [part * (run + 1) // (number + 1) for part in range(1, number + 1)]
    for less, more in ((1, 1), (0, 1), (1, 0)):
        lowest, highest = [0, *(at - less for at in places)], [*(at + more for at in places), run + 1]
        if all(after - before - 1 <= most for before, after in zip(lowest, highest, strict=True)):
            return tuple(tuple(range(at - less, at + more + 1)) for at in places)
    return tuple((at,) for at in places)


def long_floats(spec: Spec, plan: Plan) -> tuple[Float, ...]:
    """Give the floats beyond the limit, by motif and swatch, chart row and column."""
    return tuple(one for worked in motifs_worked(spec, plan) for one in _of(spec, worked))


def _of(spec: Spec, worked: Worked) -> list[Float]:
    motif, swatch = worked.motif, worked.swatch
    most = most_stitches(spec, swatch)
    rows = [[one for one in row_floats(motif, row) if one[2] > most] for row in range(motif.period)]
    if not any(rows):
        return []
    ways = staggered(motif, [[(yarn, column, run, catches(run, most)) for yarn, column, run in row] for row in rows])
    return [
        Float(
            motif.name,
            swatch.name,
            number + 1,
            yarn,
            column + 1,
            run,
            run / swatch.washed.stitches,
            catches(run, most),
            tuple(place + 1 for place in way),
        )
        for number, (row, own) in enumerate(zip(rows, ways, strict=True))
        for (yarn, column, run), way in zip(row, own, strict=True)
    ]


def catch_words(one: Float) -> str:
    """Say where a float lies and where to catch it."""
    places = " and at st ".join(either(choice) for choice in one.catch)
    best = " and ".join(str(column) for column in one.best)
    where = f"row {one.row}: {one.yarn} passes {one.stitches} sts from column {one.column} on"
    return f"{where}, catch at st {places}, best in column {best}"


def either(choice: tuple[int, ...]) -> str:
    """Say stitches of which one is enough: "3, 4 or 5"."""
    *others, last = (str(at) for at in choice)
    return f"{', '.join(others)} or {last}" if others else last


def _edit(motif: Motif, one: Float) -> str:
    """Name the cell that would part the longest float in halves."""
    column = (one.column - 1 + one.stitches // 2) % len(motif.rows[one.row - 1]) + 1
    return f"Or put a stitch of {one.yarn} in row {one.row} of the motif, column {column} from the right."


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn once for each motif and swatch; rows of shifted repeats are left to the chart's list."""
    problems = []
    for worked in motifs_worked(spec, plan):
        motif, rows = worked.motif, len(worked.motif.rows)
        found = [one for one in _of(spec, worked) if one.row <= rows]
        if not found:
            continue
        longest = max(found, key=lambda one: one.stitches)
        chart_rows = tuple(dict.fromkeys(one.row for one in found))
        labels = [Label(motif.row_spans[longest.row - 1], f"{longest.yarn} passes {longest.stitches} sts")]
        labels += [Label(worked.span, f"{length_words(10 / worked.swatch.washed.stitches, spec.units)} to 10 sts here")]
        words = "; ".join(catch_words(one) for one in found)
        tail = " Stitches count from either end of the run."
        tail += f" The repeat shifted by {motif.shift} sts has the same runs, as far along." if motif.shift else ""
        problems.append(
            Problem(
                "W601",
                f"floats of {motif.name} in {worked.swatch.name} pass up to {longest.stitches} sts "
                f"({length_words(longest.span_cm, spec.units)}) in chart row{'s' if len(chart_rows) > 1 else ''} "
                f"{', '.join(str(row) for row in chart_rows)}; the limit is "
                f"{most_stitches(spec, worked.swatch)} sts",
                tuple(labels),
                help=f"Catch the strand: {words}.{tail} {_edit(motif, longest)}",
            )
        )
    return [*problems, *_corrugated(spec)]


def _corrugated(spec: Spec) -> list[Problem]:
    """Warn of corrugated ribs whose strands pass more than they may: the wider of their columns."""
    ribs = [(band.rib, band.swatch) for band in spec.bands]
    for piece in spec.pieces:
        swatch = ""
        for step in piece.steps:
            match step.action:
                case CastOn(swatch=name) | Joining(swatch=name) | Fabric(swatch=name) | Hem(front=str(name)):
                    swatch = name
                case Rib() as rib:
                    ribs.append((rib, swatch))
    found = []
    for rib, name in ribs:
        run, most = max(rib.knit, rib.purl), most_stitches(spec, spec.swatches[name]) if name else 0
        if rib.purls is not None and name and run > most:
            message = f"strands of the {rib.knit}x{rib.purl} corrugated rib pass {run} sts; the limit is {most} sts"
            help = f"Make its columns at most {most} sts wide."
            found.append(Problem("W601", message, (Label(rib.span, "of two yarns"),), help=help))
    return found
