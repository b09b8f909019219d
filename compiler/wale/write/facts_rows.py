"""What each row of a piece has to give, as plain data for the proof."""

from __future__ import annotations

from functools import cache
from typing import Literal

from msgspec.structs import replace

from wale.actions import EDGINGS, Crown, Rib
from wale.draft.motifs import column
from wale.materials import Motif
from wale.needles import show_needle
from wale.plan import Section
from wale.prove.fabric import Part
from wale.prove.facts import RowFact, Runs
from wale.write.context import Context
from wale.write.half_tops import neck_gone, neck_row, shoulder_gone, waiting
from wale.write.neck_edges import INSIDE
from wale.write.rows import Row
from wale.write.sections import even_side, plain_stitch
from wale.write.side_edges import ENDS, side_bound, side_gone, side_shaped, top_count, top_rows
from wale.write.steeks import stripes
from wale.write.stitch_counts import evened
from wale.write.tops import side_count, stepped_off

PARTS: dict[str, Part] = {"top": "", "left": "left", "right": "right"}


Shaped = Literal["", "both", "left", "right"]


def needle_words(at: Context, section: Section) -> str:
    """Give the needle of a section as printed: an edging may have its own."""
    action = section.step.action
    own = action.needle_mm if isinstance(action, Rib) else None
    return _shown(own or at.swatch(section).needle_mm)


_shown = cache(show_needle)


def row_fact(at: Context, section: Section, row: Row, before: int) -> RowFact:
    """Give a row of a section that is no crown and no course; `before` are the stitches before it."""
    needle, motif = needle_words(at, section), at.motif(section)
    change = section.even_change[at.size] if section.even_change is not None else 0
    bound = at.bound_at(section, 1 if row.side == "RS" else 2) if section.kind == "bound" else 0
    is_evened = bool(change) and row.stitches != before
    if motif is None or is_evened or section.kind in ("facing", "turning", "front", *EDGINGS):
        shaped = _shaped(at, section, row, before)
        yarn, action = at.swatch(section).yarns[0], section.step.action
        inside = row.number - 1 - at.piece.rows_to(at.piece.sections.index(section), at.size)
        if isinstance(action, Rib) and action.purls is not None and inside not in evened(at, section):
            columns = action.columns(yarn)
            return RowFact(
                row.number, row.side, "", row.stitches, needle, edges=at.ends, fabric=section.swatch, columns=columns
            )
        look = _plain_look(at, section, inside)
        return RowFact(
            row.number,
            row.side,
            "",
            row.stitches,
            needle,
            yarn,
            shaped=shaped,
            fabric=section.swatch,
            bound=bound,
            inside=at.ends if shaped else (0, 0),
            stitch="" if look else _stitch(at, section),
            plain=look,
        )
    lacks = bound if row.side == "RS" else 0
    first = column(section, motif.width, row.stitches + lacks, lacks, at.size)
    cut = at.piece.steek is not None
    return RowFact(
        row.number,
        row.side,
        "",
        row.stitches,
        needle,
        texture_yarn(at, section, motif),
        motif.name,
        row.chart_row or 0,
        row.column or 0,
        ((first, row.stitches),),
        at.ends,
        shaped=_shaped(at, section, row, before),
        fabric=section.swatch,
        steek=stripes(at, motif, (row.chart_row or 1) - 1) if cut else (),
        is_even=not lacks,
        bound=bound,
    )


def _stitch(at: Context, section: Section) -> str:
    """Name the plain fabric or the rib of a section; "" of a fold and of other edges, which are told row by row."""
    if isinstance(section.step.action, Rib):
        return rib_stitch(section.step.action)
    return "" if section.kind == "turning" else plain_stitch(at.swatch(section))


def rib_stitch(rib: Rib) -> str:
    """Name a rib as its rows are known by; "" of an edge that is none."""
    return f"rib {rib.knit}x{rib.purl}" if rib.texture == "rib" else ""


def _plain_look(at: Context, section: Section, inside: int) -> Literal["", "k", "p"]:
    """Say how a row (from 0) of a section looks from the right side on which stitches are evened out; "" of another."""
    places = (section.even_start, 0), (section.even_change, section.rows[at.size] - 1)
    if not any(row == inside and changes is not None and changes[at.size] for changes, row in places):
        return ""
    is_right, knitted = even_side(at, section, inside + 1)
    return "k" if is_right == knitted else "p"


def texture_yarn(at: Context, section: Section, motif: Motif) -> str:
    """Give the yarn of a texture; "" where a motif is in colours."""
    return at.swatch(section).yarns[0] if motif.is_texture else ""


def course_row_fact(at: Context, section: Section, row: Row, fabric: str) -> RowFact:
    """Give a row of a course that is in stockinette, garter or a rib; "" where it is in more than one of them."""
    assert row.worked is not None
    left = row.stitches - row.worked - row.waiting
    yarn = at.swatch(section).yarns[0]
    needle = needle_words(at, section)
    waits = (row.waiting, left)
    fact = RowFact(row.number, row.side, "", row.stitches, needle, yarn, waiting=waits, fabric=section.swatch)
    if fabric in ("stockinette", "garter"):
        return replace(fact, plain="p" if fabric == "garter" and row.side == "WS" else "k")
    return replace(fact, stitch=fabric)


def _shaped(at: Context, section: Section, row: Row, before: int) -> Shaped:
    """Say at which ends a row is shaped."""
    if section.kind != "shape" or row.stitches == before:
        return ""
    return "both" if at.piece.half is None else at.piece.half.side


def half_top_row_fact(at: Context, row: Row) -> RowFact:
    """A row of the neck and shoulder of a half piece."""
    piece, section, half = at.piece, at.piece.sections[-1], at.piece.half
    assert half is not None
    motif, count = at.motif(section), top_count(at)
    within = row.number - (piece.total_rows(at.size) - top_rows(at))
    neck, stepped, waits = neck_gone(at, within), shoulder_gone(at, within), waiting(at, within)
    off = stepped + side_gone(at, half.side, within)
    low, high = (off, count - neck) if half.side == "right" else (neck, count - off)
    right, at_edge = half.side == "right", at.edge if motif is None else 0
    fact = RowFact(
        row.number,
        row.side,
        "",
        high - low,
        needle_words(at, section),
        waiting=(waits, 0) if half.side == "right" else (0, waits),
        fabric=section.swatch,
        shaped=_ends(_sloped_half(at, within), half.side if side_shaped(at, half.side, within) else ""),
        inside=(at_edge, INSIDE) if right else (INSIDE, at_edge),
        bound=side_bound(at, half.side, within),
    )
    if motif is None:
        return replace(fact, yarn=at.swatch(section).yarns[0], stitch=plain_stitch(at.swatch(section)))
    runs = ((column(section, motif.width, count, low, at.size), high - low),)
    beside, beside_neck = at.ends if right else at.ends[::-1]
    at_side, at_neck = beside if not stepped else 0, max(0, beside_neck - neck)
    edges = (at_side, at_neck) if right else (at_neck, at_side)
    own = texture_yarn(at, section, motif)
    return replace(fact, yarn=own, chart=motif.name, chart_row=row.chart_row or 0, runs=runs, edges=edges)


def _sloped_half(at: Context, row: int) -> Literal["", "left", "right"]:
    """Say at which end a row of a half's top has a decrease of its neck: at the opening."""
    top, half = at.piece.top, at.piece.half
    assert top is not None and half is not None
    if not top.is_sloped or row <= neck_row(at) or neck_gone(at, row) == neck_gone(at, row - 1):
        return ""
    return "left" if half.side == "right" else "right"


def crown_row_fact(at: Context, section: Section, row: Row, inside: int) -> RowFact:
    """Give a round of a crown; `inside` counts from its first one."""
    plan, size = at.piece.crown, at.size
    assert plan is not None and isinstance(plan.step.action, Crown)
    action, needle, motif = plan.step.action, needle_words(at, section), at.motif(section)
    yarn = action.yarn or at.swatch(section).yarns[0]
    start, wedge = plan.start[size], plan.start[size] // plan.wedges
    is_evened = at.first_count(section) != start and inside == 1
    length, fabric = row.stitches // plan.wedges, section.swatch
    if action.chart is not None and not is_evened:
        own = at.spec.motifs[action.chart]
        number = inside - (plan.rounds[size] - len(own.rows))
        runs: Runs = ((0, length),) * plan.wedges
        return RowFact(row.number, row.side, "", row.stitches, needle, "", own.name, number, 1, runs, fabric=fabric)
    if action.manner == "plain" or motif is None or is_evened:
        stitch = "stockinette" if action.manner == "plain" else plain_stitch(at.swatch(section))
        fact = RowFact(row.number, row.side, "", row.stitches, needle, yarn, fabric=fabric)
        return replace(fact, plain="k") if is_evened else replace(fact, stitch=stitch)
    origin = column(section, motif.width, at.first_count(section), 0, size)
    runs = tuple(((origin + number * wedge) % motif.width, length) for number in range(plan.wedges))
    where = (motif.name, at.chart_row(section, inside), origin + 1)
    cells = texture_yarn(at, section, motif)
    return RowFact(row.number, row.side, "", row.stitches, needle, cells, *where, runs, fabric=fabric)


def top_row_fact(at: Context, row: Row) -> RowFact:
    """Give a row of neck and shoulders."""
    piece, size, top = at.piece, at.size, at.piece.top
    assert top is not None
    section = piece.sections[-1]
    motif, count = at.motif(section), top_count(at)
    part = PARTS[row.section.rsplit(".", 1)[1]]
    rows = top_rows(at)
    within = row.number - (piece.total_rows(size) - rows)
    stepped = {end: stepped_off(at, end, within, rows) for end in ENDS}
    off = {end: stepped[end] + side_gone(at, end, within) for end in ENDS}
    low, high = off["right"], count - off["left"]
    sides = [end for end in ENDS if part in ("", end)]
    at_edge = at.edge if motif is None else 0
    neck_row = piece.total_rows(size) - top.neck_rows[size] + 1
    spans = [(low, high)]
    if part == "left":
        spans = [(high - row.stitches, high)]
    elif part == "right":
        spans = [(low, low + row.stitches)]
    elif row.number == neck_row:
        side = side_count(at)
        spans = [(low, side), (count - side, high)]
    low, high = spans[0][0], spans[-1][1]
    stitches = sum(end - start for start, end in spans)
    fact = RowFact(
        row.number,
        row.side,
        part,
        stitches,
        needle_words(at, section),
        waiting=_waiting(at, row, part),
        is_even=off["right"] == off["left"],
        fabric=section.swatch,
        shaped=_ends(_sloped(at, within, part), *(end for end in sides if side_shaped(at, end, within))),
        inside=(INSIDE if part == "left" else at_edge, INSIDE if part == "right" else at_edge),
        bound=sum(side_bound(at, end, within) for end in sides),
    )
    if motif is None:
        return replace(fact, yarn=at.swatch(section).yarns[0], stitch=plain_stitch(at.swatch(section)))
    runs = tuple((column(section, motif.width, count, start, size), end - start) for start, end in spans)
    edges = (
        at.edge if part != "left" and not stepped["right"] else 0,
        at.edge if part != "right" and not stepped["left"] else 0,
    )
    own = texture_yarn(at, section, motif)
    return replace(fact, yarn=own, chart=motif.name, chart_row=row.chart_row or 0, runs=runs, edges=edges)


def _ends(*ends: Shaped) -> Shaped:
    """Join the ends at which a row is shaped."""
    found = [one for one in ends if one]
    return "both" if len(found) > 1 else found[0] if found else ""


def _sloped(at: Context, row: int, part: str) -> Literal["", "left", "right"]:
    """Say at which end of a side a row of the top has a decrease of its neck."""
    top, size = at.piece.top, at.size
    assert top is not None
    start = top_rows(at) - top.neck_rows[size] + (3 if part == "left" else 2)
    step, odd = divmod(row - start, 2)
    if not part or not top.is_sloped or odd or not 0 <= step < len(top.steps[size]) or not top.steps[size][step]:
        return ""
    return "right" if part == "left" else "left"


def _waiting(at: Context, row: Row, part: str) -> tuple[int, int]:
    """Give what short rows leave unworked at the right and the left armhole on a row."""
    top, size = at.piece.top, at.size
    assert top is not None
    if top.manner != "short rows" or not top.slope_rows[size]:
        return 0, 0
    total = top_rows(at)
    number = row.number - (at.piece.total_rows(size) - total)
    groups, start = top.groups[size][:-1], total - top.slope_rows[size]
    # Closed on the last row of either side: `total` at the right, the row after it at the left.
    right = 0 if number >= total else sum(group for turn, group in enumerate(groups) if start + 2 * turn <= number)
    left = 0 if number > total else sum(group for turn, group in enumerate(groups) if start + 1 + 2 * turn <= number)
    return right if part != "left" else 0, left if part != "right" else 0
