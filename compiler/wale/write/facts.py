"""From spec and plan to what the proof takes: the printed lines, and what they have to give, as plain data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec.structs import replace

from wale.actions import EDGINGS, BindOff, CastOn, Fold, Hem, Joining, Rib
from wale.course import Part, marks_placed, starts_moved
from wale.draft.repeats import kind_at
from wale.formula import Values
from wale.materials import Motif
from wale.needles import show_needle
from wale.pattern import Bullets, Chart, Paragraph, Pattern, Steps, Table
from wale.pattern import Section as Printable
from wale.plan import COURSED, Plan, Section
from wale.pockets import slots_of
from wale.prove.facts import Facts, JoinFact, Motifs, PieceFacts, Printed, PrintedPiece, RowFact, Together
from wale.sewn import seams_of
from wale.spec import Seam, SetIn, SewnOn, Spec
from wale.stitches import groups
from wale.write.bands import band_lines
from wale.write.context import Context
from wale.write.courses import course_rows, final_of, part_of
from wale.write.document import merged_lines
from wale.write.facts_measured import gauges, lengths, levels, printed_sheets, printed_tables, printed_wholes
from wale.write.facts_rows import (
    course_row_fact,
    crown_row_fact,
    half_top_row_fact,
    rib_stitch,
    row_fact,
    top_row_fact,
)
from wale.write.facts_yarn import yarn_facts
from wale.write.front_bands import hole_place
from wale.write.half_tops import neck_row
from wale.write.lines import Merged, merge
from wale.write.measurements import opening, side_seamed
from wale.write.rows import piece_rows
from wale.write.side_edges import below_top, top_rows
from wale.write.textures import NAMES


def merged_band(spec: Spec, plan: Plan, number: int, sizes: Sequence[int]) -> tuple[Merged, ...]:
    """Give a band's lines in bracket notation."""
    band, planned = spec.bands[number], plan.bands[number]
    return merge([band_lines(Context(spec, plan, plan.pieces[0], size), band, planned) for size in sizes])


def printed(spec: Spec, plan: Plan, pattern: Pattern, sizes: Sequence[int]) -> Printed:
    """Take the steps and the charts in words out of a printed pattern."""
    remarks = {
        line.slot
        for piece in plan.pieces
        for line in merged_lines(spec, plan, piece, sizes)
        if not line.lines[0].is_instruction
    }
    for number in range(len(plan.bands)):
        remarks |= {line.slot for line in merged_band(spec, plan, number, sizes) if not line.lines[0].is_instruction}
    pieces = [
        _printed_piece(section, remarks, pattern.sizes)
        for section in pattern.sections
        if section.id.startswith(("piece-", "band-"))
    ]
    drawn = [part for section in pattern.sections for part in section.parts if isinstance(part, Chart) and part.repeat]
    words = tuple((chart.name.removeprefix("Chart "), chart.words) for chart in drawn)
    names = tuple(plan.sizes[size] for size in sizes)
    return Printed(
        names,
        tuple(pieces),
        words,
        printed_tables(plan, pattern),
        printed_sheets(plan, pattern),
        printed_wholes(pattern),
        pattern.hand,
    )


def _printed_piece(section: Printable, remarks: set[str], sizes: Sequence[str]) -> PrintedPiece:
    steps = [part for part in section.parts if isinstance(part, Steps)]
    refer = [part.text for part in section.parts if isinstance(part, Paragraph) and part.text.startswith("Work steps")]
    items = [(item.address in remarks, f"{item.strong} {item.text}".strip()) for part in steps for item in part.items]
    name = section.id.split("-", 1)[1]
    return PrintedPiece(
        name,
        tuple("" if is_remark else text for is_remark, text in items),
        refer[0] if refer else "",
        steps[0].start if steps else 1,
        tuple(text if is_remark else "" for is_remark, text in items),
        tuple(_lists(section, sizes)),
    )


def _lists(section: Printable, sizes: Sequence[str]) -> Iterator[tuple[int, str, str]]:
    """Take the lists of starts after shaping rows out of a piece: steps before them, size, and rows in one wording."""
    steps = 0
    for part in section.parts:
        if isinstance(part, Steps):
            steps += len(part.items)
        elif isinstance(part, Bullets):
            for item in part.items:
                yield steps, item.strong.removesuffix(":"), item.text
        elif isinstance(part, Table):
            yield steps, sizes[0], "; ".join(f"{row}: {count} sts, {rs}/{ws}" for row, count, rs, ws in part.rows)


def facts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> Facts:
    """Gather the facts of some sizes."""
    yarn, stitches = yarn_facts(spec, plan, sizes)
    pieces = piece_facts(spec, plan, sizes)
    return Facts(
        tuple(replace(piece, stitches=stitches[piece.piece, piece.size]) for piece in pieces),
        motif_cells(spec),
        (*_joins(spec, plan), *_mirrored(spec, plan)),
        gauges(spec),
        tuple(piece.name for piece in side_seamed(spec, plan)),
        {spec.sizes[size].name: {name: one.value for name, one in spec.sizes[size].measures.items()} for size in sizes},
        {name: len(motif.rows) for name, motif in spec.motifs.items()},
        yarn,
        openings=openings_of(spec, plan, sizes),
        together=_together(spec),
    )


def _together(spec: Spec) -> Together:
    """Give by texture and row what is worked together: yarn overs with their decreases, cables."""
    cells = motif_cells(spec)
    textures = [motif.name for motif in spec.motifs.values() if motif.is_texture]
    return {name: tuple(groups(row) or () for row in cells[name]) for name in textures}


def openings_of(spec: Spec, plan: Plan, sizes: Sequence[int]) -> dict[str, Fraction]:
    """Give the cm between the halves of the body, by size; empty where it does not open."""
    return {plan.sizes[size]: opening(spec, plan, size) for size in sizes if opening(spec, plan, size)}


def piece_facts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> list[PieceFacts]:
    """Gather the facts of the pieces, then of the bands, in some sizes; their stitches for yarn are not counted."""
    pieces = [_piece(Context(spec, plan, piece, size)) for piece in plan.pieces for size in sizes]
    return pieces + [_band(spec, plan, number, size) for number in range(len(plan.bands)) for size in sizes]


def motif_cells(spec: Spec) -> Motifs:
    """Give the yarn of each motif's cells over a whole period; of a wedge's own chart, row by row."""
    return {
        name: tuple(tuple(row[::-1]) for row in motif.rows) if motif.wedge else _cells(motif)
        for name, motif in spec.motifs.items()
    }


def _cells(motif: Motif) -> tuple[tuple[str, ...], ...]:
    """The cells of a period; twice where its rows are odd, as flat work turns its sides over."""
    rows = motif.period * (1 + motif.period % 2)
    return tuple(tuple(motif.cell(x, y) for x in range(motif.width)) for y in range(rows))


def _joins(spec: Spec, plan: Plan) -> list[JoinFact]:
    topped = {piece.name: piece for piece in plan.pieces if piece.top is not None}
    flat = {piece.name for piece in plan.pieces if not piece.in_round}
    found = []
    for join in spec.joins:
        if isinstance(join, Seam):
            for edge in ("shoulders", "sides"):
                names = [piece for piece, of in join.edges if of == edge and piece in topped]
                if edge == "shoulders":
                    names = [name for name in names if topped[name].top.manner == "short rows"]  # type: ignore[union-attr]
                if len(names) > 1:
                    found.append(JoinFact(edge, tuple(names)))
        elif isinstance(join, SetIn) and join.edge == "top" and join.piece in flat:
            bodies = [name for name, piece in topped.items() if "underarm" in dict(piece.marks)]
            found.append(JoinFact("armholes", (join.piece, *bodies)))
    pockets = [join for join in spec.joins if isinstance(join, SewnOn) and join.is_inset]
    found += [JoinFact("pocket", (join.onto, join.piece)) for join in pockets]
    for piece in plan.pieces:
        if piece.joined:
            found.append(JoinFact("held", (piece.name, *dict.fromkeys(name for name, _ in reversed(piece.joined)))))
    return found


def _mirrored(spec: Spec, plan: Plan) -> list[JoinFact]:
    """Give the halves that are mirror images of each other."""
    in_colour = {
        piece.name: not any(at.motif(one) for one in whole.sections) or _mirrors(at)
        for piece in plan.pieces
        if piece.half is not None and (whole := plan.piece(piece.half.whole)) is not None
        for at in (Context(spec, plan, whole, 0),)
    }
    owners = {piece.half.owner for piece in plan.pieces if piece.half is not None}
    pairs = [
        tuple(one.name for one in plan.pieces if one.half is not None and one.half.owner == owner) for owner in owners
    ]
    return [
        JoinFact("opening", pair, in_colour[pair[0]], in_colour[pair[0]] or not _has_texture(spec, plan, pair[0]))
        for pair in sorted(pairs)
        if len(pair) > 1
    ]


def _has_texture(spec: Spec, plan: Plan, name: str) -> bool:
    fabrics = [one.fabric for piece in plan.pieces if piece.name == name for one in piece.sections]
    names = [fabric.motif for fabric in fabrics if fabric is not None and fabric.motif is not None]
    return any(spec.motifs[one].is_texture for one in names)


def _band(spec: Spec, plan: Plan, number: int, size: int) -> PieceFacts:
    band, planned = spec.bands[number], plan.bands[number]
    swatch = spec.swatches[band.swatch]
    count = planned.stitches[size]
    needle = show_needle(band.rib.needle_mm or swatch.needle_mm)
    hole_row = planned.hole_rows[size] if planned.holes else 0
    holes = _holes(planned.holes[size], planned.each) if planned.holes else ()
    gone = planned.each * len(holes)
    mitres = planned.mitres[size] if planned.mitres else ()
    last = planned.rows[size] if planned.collar is None else planned.collar.base[size]
    spans = [(1, hole_row - 1), (hole_row + 2, last)] if hole_row else [(1, mitres[0] - 1 if mitres else last)]
    told = [(first, end) for first, end in spans if first <= end and not planned.hood]
    rows = tuple(
        RowFact(
            row,
            ("WS" if row % 2 else "RS") if planned.is_flat else "round",
            "",
            count - gone if row == hole_row else planned.after(size, row),
            needle,
            "" if band.rib.purls is not None else swatch.yarns[0],
            fabric=swatch.name,
            waiting=planned.collar.waiting(size, row) if planned.collar is not None else (0, 0),
            columns=band.rib.columns(swatch.yarns[0]),
            stitch="" if not any(first <= row <= end for first, end in told) else rib_stitch(band.rib),
        )
        for row in range(1, planned.rows[size] + 1)
    )
    yarn = swatch.yarns[0]
    textures = tuple((NAMES.get(band.rib.texture, "Rib"), *span) for span in told)
    picked = tuple((counts[size], name) for name, counts in planned.picked)
    return PieceFacts(
        band.name,
        plan.sizes[size],
        count,
        rows,
        bound_off=planned.last(size) + gone,
        cast_on_yarn=yarn,
        picked=picked,
        make=planned.make,
        marked=planned.marked[size] if mitres else (),
        mitres=mitres,
        textures=textures,
        twisted=planned.rows[size] if band.rib.twisted else 0,
        cord=band.cord,
        hole_row=hole_row,
        holes=holes,
    )


def _holes(gaps: Sequence[int], each: int) -> tuple[tuple[int, int], ...]:
    """Give where each buttonhole begins, counted from the right, and its stitches."""
    return tuple((sum(gaps[: number + 1]) + number * each, each) for number in range(len(gaps) - 1))


def _piece(at: Context) -> PieceFacts:
    piece, size, top = at.piece, at.size, at.piece.top
    rows: list[RowFact] = []
    found = iter(piece_rows(at))
    for section in piece.sections:
        if section.kind in COURSED:
            rows += [course_row_fact(at, section, next(found), made.fabric) for made in course_rows(at, section)]
            continue
        before = at.first_count(section)
        for inside in range(1, below_top(at, section) + 1):
            row = next(found)
            rows.append(
                crown_row_fact(at, section, row, inside)
                if section.kind == "crown"
                else row_fact(at, section, row, before)
            )
            before = row.stitches
    if top is not None:
        write = top_row_fact if piece.half is None else half_top_row_fact
        rows += [write(at, row) for row in found if row.stitches]
    held = bound_off = drawn = live = 0
    holders = piece.holders[size] if piece.holders else ()
    end = piece.levels[-1].counts[size]
    if top is not None:
        held = top.shoulder[size] if top.manner == "short rows" or not top.slope_rows[size] else 0
        bound_off = end - piece.ends_shaped * (held + (sum(top.steps[size]) if top.is_sloped else 0))
    elif piece.crown is not None:
        drawn = piece.crown.final[size]
    elif any(isinstance(step.action, BindOff) for step in piece.steps):
        bound_off = end
    elif not holders and not any(map(final_of, piece.sections)):
        live = end
    insets = tuple(
        (one.row, tuple((first, first + one.stitches - 1) for first in one.places), one.lining)
        for one in slots_of(at.plan, at.spec.joins, piece, size)
    )
    half = piece.half
    holes: tuple[tuple[int, int, int], ...] = ()
    if half is not None and half.holes is not None:
        holes = tuple((row, hole_place(half), half.holes.each) for row in piece.hole_rows[size])
        bound_off += half.holes.each * len(holes)
    bound_off += sum(piece.ends_shaped * at.bound_off(section) for section in piece.sections if section.kind == "bound")
    for section in piece.sections:
        final = final_of(section)
        if final is not None:
            ends = int(section.numbers[size][final.number])
            bound_off, drawn = (bound_off, drawn + ends) if final.is_drawn else (bound_off + ends, drawn)
    return PieceFacts(
        piece.name,
        at.plan.sizes[size],
        piece.levels[0].counts[size],
        tuple(rows),
        piece.edge.yarn or at.swatch(piece.sections[-1]).yarns[0],
        _mirrors(at),
        (held, held) if piece.half is None else ((0, held) if piece.half.side == "right" else (held, 0)),
        bound_off,
        drawn,
        live,
        tuple((name, before[size]) for name, before in piece.marks),
        _hem_join(at),
        *_end_yarns(at),
        piece.levels[0].taken,
        levels(at),
        lengths(at),
        piece.make,
        steek=piece.steek.ends if piece.steek is not None else (0, 0),
        shoulder_seam=seams_of(at.spec, piece)[0],
        neck_seam=seams_of(at.spec, piece)[1],
        anew=_anew(at),
        waiting=(*holders, *(last - first + 1 for _, slots, _ in insets for first, last in slots)),
        insets=insets,
        starts=tuple((done + rows, sts) for done, part, of in _courses(at) for rows, sts in starts_moved(part, of)),
        divided=tuple((done + row, sts) for done, part, of in _courses(at) for row, sts in marks_placed(part, of)),
        underarms=holders[::2],
        joined=tuple((counts[size], name) for name, counts in piece.joined),
        aside=tuple(
            (piece.rows_to(index, size), piece.rows_to(index + 1, size))
            for index, section in enumerate(piece.sections)
            if section.kind == "aside"
        ),
        apart=_apart(at),
        apart_to=_apart_to(at),
        band_holes=holes,
        eyelets=_fold_pairs(at, "picot"),
        slips=_fold_pairs(at, "slipped"),
        twisted=sum(_twisted(at, section) for section in piece.sections),
        cord=sum(step.action.cord for step in piece.steps if isinstance(step.action, BindOff)),
        textures=tuple(
            (NAMES.get(section.kind, "Rib"), piece.rows_to(index, size) + 1, piece.rows_to(index + 1, size))
            for index, section in enumerate(piece.sections)
            if section.kind in EDGINGS
        ),
    )


def _apart(at: Context) -> tuple[tuple[str, str], ...]:
    """How a border of garter or a front band looks from the right side at both ends, on RS and on WS rows."""
    if at.border:
        return ("k" * at.border,) * 2, ("p" * at.border,) * 2
    half = at.piece.half
    if half is None or half.band is None:
        return ()
    looks = [half.band.look(is_right_side=is_right) for is_right in (True, False)]
    # from the right end: the left half has its front edge at the left
    return tuple((look, "") if half.hand == "right" else ("", look[::-1]) for look in looks)


def _courses(at: Context) -> Iterator[tuple[int, Part, Values]]:
    """Give the parts of courses in a piece, each with the rows before it and its numbers."""
    done = 0
    for section in at.piece.sections:
        if section.kind in COURSED:
            yield done, part_of(section), section.numbers[at.size]
        done += section.rows[at.size]


def _apart_to(at: Context) -> int:
    """The last row on which a border or a band stands: a band is bound off for the neck."""
    rows = at.piece.total_rows(at.size)
    return rows if at.piece.half is None or at.piece.top is None else rows - top_rows(at) + neck_row(at) - 1


def _anew(at: Context) -> tuple[int, str] | None:
    """The rows before the place from which lengths count anew, and its name."""
    start = at.piece.anew
    return None if start is None else (at.piece.rows_to(start, at.size), at.piece.sections[start].folds)


def _end_yarns(at: Context) -> tuple[str, str]:
    """The yarns of the cast-on and of a bind-off over all stitches, "" where there is none."""
    actions = [step.action for step in at.piece.steps]
    first = next((at.spec.swatches[one.swatch].yarns[0] for one in actions if isinstance(one, CastOn | Joining)), "")
    binds = at.piece.top is None and any(isinstance(one, BindOff) for one in actions)
    return first, at.spec.swatches[at.piece.levels[-1].swatch].yarns[0] if binds else ""


def _fold_pairs(at: Context, fold: Fold) -> int:
    """The pairs of such a fold: two stitches each, all but the edges' and flat at least one at each end."""
    for section in at.piece.sections:
        action = section.step.action
        if section.kind == "turning" and isinstance(action, Hem) and action.fold == fold:
            return (at.first_count(section) - (0 if at.piece.in_round else 2 * max(at.edge, 1))) // 2
    return 0


def _twisted(at: Context, section: Section) -> int:
    """The rows of a section that are twisted rib: all of a twisted rib but those that even the stitches out."""
    action, size = section.step.action, at.size
    if not isinstance(action, Rib) or not action.twisted:
        return 0
    changes = (section.even_change, section.even_start)
    return section.rows[size] - sum(bool(change[size]) for change in changes if change is not None)


def _hem_join(at: Context) -> int:
    """The row above the fold, on the right side, that comes nearest to the facing's depth; the later of two."""
    hem = next((step.action for step in at.piece.steps if isinstance(step.action, Hem)), None)
    if hem is None or not hem.knitted_together:
        return 0
    kinds = [section.kind for section in at.piece.sections]
    facing, above = at.piece.sections[kinds.index("facing")], at.piece.sections[kinds.index("turning") + 1]
    depth = facing.length(at.size) * above.rows_per_cm
    rows = range(1, int(depth) + 4, 1 if at.piece.in_round else 2)
    return min(rows, key=lambda row: (abs(row - depth), -row))


def _mirrors(at: Context) -> bool:
    """Whether every motif of a flat piece mirrors about its centre line, and so do all its rows."""
    if at.piece.in_round or at.piece.half is not None:
        return False
    found = False
    for section in at.piece.sections:
        motif = at.motif(section)
        if motif is None or section.centre is None or section.fabric is None:
            continue
        label = at.piece.levels[section.first].label
        if kind_at(section.fabric.fit, label) in ("half", "edge") or not _has_axis(motif, section.centre[at.size]):
            return False
        found = True
    return found


def _has_axis(motif: Motif, centre: Fraction) -> bool:
    return centre % motif.width in motif.axes()
