"""Stitches that are really knitted, by fabric and chart row: what yarn is reckoned from.

Counted row by row in knitting order, with shapings, neck, shoulders, crown and bands; short-row stitches that wait are
not counted twice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from wale.actions import EDGINGS, Crown, Rib
from wale.plan import COURSED, Plan, Section
from wale.spec import Spec
from wale.write.context import Context
from wale.write.courses import course_rows
from wale.write.half_tops import last_row, neck_gone, shoulder_gone, waiting
from wale.write.side_edges import ENDS, End, begins_in_top, below_top, side_gone, top_count, top_rows
from wale.write.steeks import stripes
from wale.write.tops import side_count

_PLAIN_KINDS = ("facing", "turning", "front", *EDGINGS)


class Patch(NamedTuple):
    """Stitches of one sort: a row of a motif (from 0), or (`motif` None) plain stitches of one yarn or several."""

    swatch: str
    motif: str | None
    row: int
    yarn: str


Row = Mapping[Patch, int]
"""Stitches of one row by sort."""


def stitch_counts(spec: Spec, plan: Plan, size: int) -> dict[Patch, int]:
    """Give the stitches of a whole garment in one size, `make` counted, cast-on and bind-off left out."""
    return total_counts(plan, place_counts(spec, plan, size))


def place_counts(spec: Spec, plan: Plan, size: int) -> list[Row]:
    """Give the stitches of each piece, knitted once, then of each band."""
    pieces = [piece_counts(Context(spec, plan, piece, size)) for piece in plan.pieces]
    return [*pieces, *(_summed(band_rows(spec, plan, number, size)) for number in range(len(plan.bands)))]


def total_counts(plan: Plan, places: Sequence[Row]) -> dict[Patch, int]:
    """Give the stitches of a garment from those of its places, each piece as often as it is made."""
    found: dict[Patch, int] = {}
    made = [*(piece.make for piece in plan.pieces), *(band.make for band in plan.bands)]
    for place, make in zip(places, made, strict=True):
        _add(found, place, make)
    return found


def piece_counts(at: Context) -> dict[Patch, int]:
    """Give the stitches of one piece, knitted once."""
    if at.piece.steek is not None:
        return _summed(worked_rows(at))
    found: dict[Patch, int] = {}
    for section in at.piece.sections:
        sorts, edge, counts = _sorts(at, section)
        edges, period = _edges(at, section, len(counts) if edge is not None else 0), len(sorts)
        for row in evened(at, section) if counts else ():
            _add(found, {_plain(at, section): counts[row]})
            counts[row] = 0
            edges[row : row + 1] = [0] if edges else []
        for row in range(min(period, len(counts))):
            _add(found, {sorts[row]: sum(counts[row::period]) - sum(edges[row::period])})
        if edge is not None:
            _add(found, {edge: sum(edges)})
    return found


def _summed(rows: Iterable[Row]) -> dict[Patch, int]:
    found: dict[Patch, int] = {}
    for row in rows:
        _add(found, row)
    return found


def worked_rows(at: Context) -> list[Row]:
    """Give the stitches of each row of a piece, from the cast-on; short rows of both sides and the closing row too."""
    found: list[Row] = []
    for section in at.piece.sections:
        sorts, edge, counts = _sorts(at, section)
        edges, plain = _edges(at, section, len(counts)), evened(at, section)
        for row, count in enumerate(counts):
            sort = sorts[row % len(sorts)]
            if row in plain:
                found.append({_plain(at, section): count})
            elif at.piece.steek is not None and sort.motif is not None:
                found.append(_with_steek(at, sort, count))
            else:
                found.append({sort: count} if edge is None else {sort: count - edges[row], edge: edges[row]})
    return found


def _with_steek(at: Context, sort: Patch, count: int) -> Row:
    """Give the stitches of a motif's round, those of the steek by their yarns."""
    yarns = stripes(at, at.spec.motifs[sort.motif or ""], sort.row)
    found = {sort: count - len(yarns)}
    for yarn in yarns:
        _add(found, {Patch(sort.swatch, None, 0, yarn): 1})
    return found


def evened(at: Context, section: Section) -> tuple[int, ...]:
    """Give the rows (from 0) of a crown or a corrugated rib that even stitches out, which they do in one yarn."""
    crown, action, size = at.piece.crown, section.step.action, at.size
    if section.kind == "crown" and crown is not None:
        return (0,) if at.first_count(section) != crown.start[size] else ()
    if not isinstance(action, Rib) or action.purls is None:
        return ()
    places = (section.even_start, 0), (section.even_change, section.rows[size] - 1)
    return tuple(row for changes, row in places if changes is not None and changes[size])


def _plain(at: Context, section: Section) -> Patch:
    """Give the sort of a row in one yarn."""
    crown = at.piece.crown
    own = crown.step.action.yarn if crown is not None and isinstance(crown.step.action, Crown) else None
    swatch = at.swatch(section)
    return Patch(swatch.name, None, 0, own or swatch.yarns[0])


def _beside(at: Context) -> int:
    """Count the stitches of a flat row outside its chart: edge stitches and a front band."""
    return 0 if at.piece.in_round else sum(at.ends)


def _edges(at: Context, section: Section, rows: int) -> list[int]:
    """Give the edge stitches worked on each row: a shoulder's tip waits in short rows, or is bound off."""
    found, top, size = [_beside(at)] * rows, at.piece.top, at.size
    if top is None or not rows:
        return found
    if at.piece.half is not None:
        first = begins_in_top(at, section)
        return [
            max(0, _beside(at) - at.edge - neck_gone(at, row))
            + at.edge * (shoulder_gone(at, row) + waiting(at, row) == 0)
            for row in range(first, first + rows)
        ]
    if section is not at.piece.sections[-1]:
        return found
    total, slope = section.rows[size], top.slope_rows[size]
    start, is_turned = total - slope, top.manner == "short rows"
    if not slope:
        return [*found[:total], 0][:rows]
    for row in range(start, total + 2):
        right = row == total or row < start if is_turned else row <= start
        left = row > total or row <= start if is_turned else row <= start + 1
        found[row - 1] = at.edge * (right + left)
    return found


def band_rows(spec: Spec, plan: Plan, number: int, size: int) -> list[Row]:
    """Give the stitches of each round of a band."""
    swatch, band = spec.swatches[spec.bands[number].swatch], plan.bands[number]
    sort = Patch(swatch.name, None, 0, " ".join(spec.bands[number].rib.columns(swatch.yarns[0])) or swatch.yarns[0])
    rows: list[Row] = [{sort: band.worked(size, row)} for row in range(1, band.rows[size] + 1)]
    if band.holes:
        open_row = band.hole_rows[size] - 1
        rows[open_row] = {sort: band.stitches[size] - band.each * (len(band.holes[size]) - 1)}
    return rows


def _sorts(at: Context, section: Section) -> tuple[list[Patch], Patch | None, list[int]]:
    """Give the sorts of a section's rows, in turn from its first row; that of its edges; all stitches of each row."""
    swatch, counts = at.swatch(section), row_stitches(at, section)
    motif, start, yarn = None, 0, swatch.yarns[0]
    if section.kind not in _PLAIN_KINDS:
        motif = at.motif(section)
        start = section.chart_start[at.size] if section.chart_start is not None else 0
    if section.kind == "crown" and at.piece.crown is not None and isinstance(at.piece.crown.step.action, Crown):
        action = at.piece.crown.step.action
        if action.chart is not None:
            motif = at.spec.motifs[action.chart]
            start = len(motif.rows) - len(counts)
        elif action.manner == "plain":
            motif, yarn = None, action.yarn or yarn
    edge = Patch(swatch.name, None, 0, at.piece.edge.yarn or yarn) if _beside(at) else None
    if isinstance(section.step.action, Rib) and section.step.action.purls is not None:
        return [Patch(swatch.name, None, 0, " ".join(section.step.action.columns(yarn)))], edge, counts
    if motif is None or motif.is_texture:
        return [Patch(swatch.name, None, 0, yarn)], None if motif is None else edge, counts
    period = len(motif.rows)
    sorts = [Patch(swatch.name, motif.name, (start + row) % period, "") for row in range(period)]
    return sorts, edge, counts


def row_stitches(at: Context, section: Section) -> list[int]:
    """Give the stitches worked on each row of a section; with a top, both sides together and the closing row after."""
    piece, size = at.piece, at.size
    if section.kind in COURSED:
        return [one.worked for one in course_rows(at, section)]
    total, first = section.rows[size], at.first_count(section)
    counts = [first] * total
    changes: list[tuple[int, int]] = []
    if section.kind == "shape":
        step = at.each_shaping(section)
        changes = [(row, first + step * number) for number, row in enumerate(section.schedules[size].rows(), 1)]
    elif section.kind == "bound":
        changes = [(1, first - at.bound_at(section, 1)), (2, at.last_count(section))]
    elif section.kind == "crown" and piece.crown is not None:
        changes = list(piece.crown.decrease_rounds[size])
        if first != piece.crown.start[size]:
            changes.insert(0, (1, piece.crown.start[size]))
    elif section.even_change is not None and total:
        changes = [(total, at.last_count(section))]
    for row, after in changes:
        counts[row - 1 :] = [after] * (total - row + 1)
    if piece.top is not None:
        below, first_row = below_top(at, section), max(1, begins_in_top(at, section))
        within = _top(at) if piece.half is None else _half_top(at)
        ends = section is piece.sections[-1]
        counts[below:] = within[first_row - 1 : None if ends else first_row - 1 + total - below]
    return counts


def _half_top(at: Context) -> list[int]:
    half, count = at.piece.half, top_count(at)
    assert half is not None
    return [
        count - neck_gone(at, row) - shoulder_gone(at, row) - waiting(at, row) - side_gone(at, half.side, row)
        for row in range(1, last_row(at) + 1)
    ]


def _top(at: Context) -> list[int]:
    """Rows of neck and shoulders: across up to the neck row, then both sides, less what waits or is bound off."""
    top, size, total, count = at.piece.top, at.size, top_rows(at), top_count(at)
    assert top is not None
    first = total - top.neck_rows[size] + 1
    closing = 1 if top.slope_rows[size] else 0
    counts = [count] * first + [0] * (total + 1 - first)
    counts[first - 1] -= top.centre[size] + sum(side_gone(at, end, first) for end in ENDS)
    sides: tuple[tuple[End, int, int], ...] = (("left", first + 2, total + closing), ("right", first + 1, total))
    for side, begin, last in sides:
        left, steps = side_count(at), iter(top.steps[size])
        for row in range(first + 1, last + 1):
            if row >= begin and (row - begin) % 2 == 0:
                left -= next(steps, 0)
            counts[row - 1] += left - side_gone(at, side, row)
    waiting = 0
    for turn, group in enumerate(top.groups[size] if top.slope_rows[size] else ()):
        waiting += group
        start = total - top.slope_rows[size] + 2 * turn
        if top.manner == "steps":
            for row in (*range(start + 1, total + 1), *range(start + 2, total + 2)):
                counts[row - 1] -= group
        elif turn < len(top.groups[size]) - 1:
            for row in (start, start + 1, start + 1, start + 2):
                counts[row - 1] -= waiting
    return counts


def _add(found: dict[Patch, int], row: Row, times: int = 1) -> None:
    for patch, stitches in row.items():
        if stitches:
            found[patch] = found.get(patch, 0) + stitches * times
