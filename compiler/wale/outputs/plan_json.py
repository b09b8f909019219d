"""The solved plan as JSON: every count, length, row and choice, exact, with the line of the spec it comes from.

Described by `plan.schema.json` beside this file and by docs/plan-json.md. Arrays over sizes are in the
order of `sizes`.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Any, Literal

from wale import __version__
from wale.actions import Crown, Half, Rib, Step
from wale.materials import Motif, Swatch, Yarn
from wale.plan import BandPlan, CollarPlan, CrownPlan, Level, PiecePlan, Plan, Section, Top
from wale.pockets import slots_of
from wale.problems.export import as_json
from wale.problems.problem import Problem
from wale.quantity import show_decimal
from wale.sewn import seams_of
from wale.shaping.taper import Schedule
from wale.source import Source, Span
from wale.spec import Band, Join, SetIn, SewnOn, Spec
from wale.write.context import Context
from wale.write.rows import Row, piece_rows
from wale.write.yarn_needed import YarnNeed, yarn_needed

FORMAT = "wale plan 1"
"""Name and version of the format; a reader refuses a version it does not know."""
SIDES = {"RS": "R", "WS": "W", "round": "O"}
"""One letter a row."""

Json = dict[str, Any]
Hand = Literal["right", "left"]
Lines = Callable[[Span | None], Json | None]


def render(
    spec: Spec,
    plan: Plan,
    problems: Sequence[Problem],
    sources: Mapping[str, Source],
    hand: Hand = "right",
    names: Mapping[str, str] | None = None,
) -> str:
    """Give the plan as JSON text; the same plan gives the same bytes. `names` calls files by other names."""
    return json.dumps(plan_dict(spec, plan, problems, sources, hand, names), indent=1, ensure_ascii=False) + "\n"


def _renamed(told: Any, names: Mapping[str, str]) -> Any:
    if isinstance(told, list):
        return [_renamed(one, names) for one in told]
    if not isinstance(told, dict):
        return told
    return {key: names.get(one, one) if key == "file" else _renamed(one, names) for key, one in told.items()}


def plan_dict(
    spec: Spec,
    plan: Plan,
    problems: Sequence[Problem],
    sources: Mapping[str, Source],
    hand: Hand = "right",
    names: Mapping[str, str] | None = None,
) -> Json:
    """Give the plan as data for JSON.

    Args:
        problems: warnings and cautions that stand beside the plan.
        sources: the files by the name in their spans, for line numbers.
        hand: the hand for which the pattern is compiled.
        names: other names by which to call files.
    """
    called = names or {}

    def line(span: Span | None) -> Json | None:
        if span is None:
            return None
        source = sources.get(span.file)
        return {
            "file": called.get(span.file, span.file),
            "line": source.place(span.start)[0] if source is not None else None,
        }

    bands, needed = zip(spec.bands, plan.bands, strict=True), yarn_needed(spec, plan)
    return {
        "format": FORMAT,
        "compiler": f"wale {__version__}",
        "title": spec.title,
        "about": spec.about,
        "version": spec.version,
        "changes": list(spec.changes),
        "group": spec.group,
        "hand": hand,
        "sizes": [
            {"name": size.name, "made_to_measure": size.made_to_measure, "line": line(size.span)} for size in spec.sizes
        ],
        "yarns": [_yarn(one, needed.of(one.name), line) for one in spec.yarns.values()],
        "swatches": [_swatch(one, line) for one in spec.swatches.values()],
        "motifs": [_motif(one, line) for one in spec.motifs.values()],
        "pieces": [_piece(spec, plan, piece, line) for piece in plan.pieces],
        "bands": [_band(band, planned, line) for band, planned in bands],
        "joins": [_join(one, line) for one in spec.joins],
        "assumptions": [
            {"text": one.said(), "source": one.origin(), "line": line(one.span)} for one in spec.assumptions
        ],
        "problems": _renamed(as_json(problems, sources), called),
    }


def _exact(value: Fraction) -> str:
    return f"{value.numerator}/{value.denominator}"


def _number(value: Fraction) -> Json:
    """A number that need not be whole: as printed to two decimals, and exact."""
    return {"decimal": show_decimal(value, 2), "exact": _exact(value)}


def _numbers(values: Iterable[Fraction]) -> list[Json]:
    return [_number(value) for value in values]


def _wish(wished: Sequence[Fraction] | None, got: Sequence[Fraction]) -> Json:
    """A wish, what became of it, and the difference, in cm; a written count has no wish."""
    if wished is None:
        return {"wished": None, "got": _numbers(got), "deviation": None}
    off = (one - other for one, other in zip(got, wished, strict=True))
    return {"wished": _numbers(wished), "got": _numbers(got), "deviation": _numbers(off)}


def _yarn(yarn: Yarn, needs: Sequence[YarnNeed], line: Lines) -> Json:
    run = yarn.metres_per_100g
    return {
        "name": yarn.name,
        "colour": yarn.colour,
        "count": yarn.count,
        "fibre": yarn.fibre,
        "strands": yarn.strands,
        "metres_per_100g": None if run is None else _number(run),
        "needed": [_need(one) for one in needs],
        "line": line(yarn.span),
    }


def _need(need: YarnNeed) -> Json:
    return {
        "grams": need.grams,
        "metres": need.metres,
        "to_buy": need.to_buy,
        "costs": [
            {"amount": _number(one.cost), "currency": one.currency} for one in need.cheapest if one.cost is not None
        ],
    }


def _swatch(swatch: Swatch, line: Lines) -> Json:
    return {
        "name": swatch.name,
        "in_round": swatch.in_round,
        "stitch": swatch.stitch,
        "motif": swatch.motif,
        "yarns": list(swatch.yarns),
        "needle_mm": _number(swatch.needle_mm),
        "stitches_per_cm": _number(swatch.washed.stitches),
        "rows_per_cm": _number(swatch.washed.rows),
        "line": line(swatch.washed.span),
    }


def _motif(motif: Motif, line: Lines) -> Json:
    return {
        "name": motif.name,
        "rows": [list(row) for row in motif.rows],
        "shift": motif.shift,
        "wedge": motif.wedge,
        "origin": [list(told) for told in motif.origin],
        "line": line(motif.span),
    }


def _piece(spec: Spec, plan: Plan, piece: PiecePlan, line: Lines) -> Json:
    return {
        "name": piece.name,
        "in_round": piece.in_round,
        "make": piece.make,
        "edge": {"stitches": piece.edge.stitches, "yarn": piece.edge.yarn, "garter": piece.edge.garter},
        "steek": piece.steek.stitches if piece.steek is not None else 0,
        "holders": [list(held) for held in piece.holders],
        "joined": [{"piece": name, "stitches": list(counts)} for name, counts in piece.joined],
        "half": None if piece.half is None else _half(piece, piece.half, len(plan.sizes)),
        "line": line(piece.span),
        "steps": [_step(step, line) for step in piece.steps],
        "levels": [_level(level, len(plan.sizes), line) for level in piece.levels],
        "sections": [_section(piece, section, len(plan.sizes), line) for section in piece.sections],
        "girths": [_level(one.level, len(plan.sizes), line) for one in piece.girths],
        "pockets": _pockets(spec, plan, piece),
        "top": None if piece.top is None else _top(spec, piece, piece.top, line),
        "crown": None if piece.crown is None else _crown(piece.crown, line),
        "marks": [{"name": name, "rows": list(rows)} for name, rows in piece.marks],
        "rows": [
            _rows(piece_rows(Context(spec, plan, piece, size)), plan.sizes[size]) for size in range(len(plan.sizes))
        ],
    }


def _pockets(spec: Spec, plan: Plan, piece: PiecePlan) -> list[Json]:
    sizes = [slots_of(plan, spec.joins, piece, size) for size in range(len(plan.sizes))]
    linings = sorted({slot.lining for slots in sizes for slot in slots})
    found = []
    for name in linings:
        own = [slot for slots in sizes for slot in slots if slot.lining == name]
        found.append(
            {
                "name": name,
                "opened_on": [slot.row for slot in own],
                "first": [list(slot.places) for slot in own],
                "held": [slot.stitches for slot in own],
            }
        )
    return found


def _half(piece: PiecePlan, half: Half, sizes: int) -> Json:
    band, holes = half.band, half.holes
    return {
        "hand": half.hand,
        "whole": half.whole,
        "opening": [_number(half.opening.at(size)) for size in range(sizes)],
        "band": None if band is None else {"stitches": band.stitches, "texture": band.texture},
        "buttonholes": None
        if holes is None
        else {"each": holes.each, "on_rows": [list(rows) for rows in piece.hole_rows]},
    }


def _step(step: Step, line: Lines) -> Json:
    kind = step.action.texture if isinstance(step.action, Rib) else type(step.action).__name__
    words = "".join(f"-{letter.lower()}" if letter.isupper() else letter for letter in kind).lstrip("-")
    return {"address": step.address, "action": words, "line": line(step.action.span)}


def _level(level: Level, sizes: int, line: Lines) -> Json:
    return {
        "address": level.address,
        "label": level.label,
        "line": line(level.measure.span),
        "words": level.measure.words,
        "swatch": level.swatch,
        "stitches_per_cm": _number(level.sts_per_cm),
        "stitches": list(level.counts),
        "edges": level.edges,
        "taken": level.taken,
        "width": _wish(level.wishes, [level.width(size) for size in range(sizes)]),
    }


def _section(piece: PiecePlan, section: Section, sizes: int, line: Lines) -> Json:
    got = [section.position[size] if section.to else section.length(size) for size in range(sizes)]
    fabric, start, centre, change = section.fabric, section.chart_start, section.centre, section.even_change
    return {
        "address": section.address,
        "kind": section.kind,
        "line": line(section.step.action.span),
        "words": None if section.measure is None else section.measure.words,
        "swatch": section.swatch,
        "rows_per_cm": _number(section.rows_per_cm),
        "motif": None if fabric is None else fabric.motif,
        "fit": None if fabric is None else fabric.fit.kind,
        "first_level": piece.levels[section.first].address,
        "last_level": piece.levels[section.last].address,
        "rows": list(section.rows),
        "measured_from": "start of the piece" if section.to else "start of the section",
        "length": _wish(section.wishes, got),
        "position": _numbers(section.position),
        "schedules": [
            {
                "first": one.first,
                "intervals": [every for every, _ in one.then],
                "times": [times for _, times in one.then],
            }
            for one in section.schedules
        ],
        "even_change": None if change is None else list(change),
        "even_start": None if section.even_start is None else list(section.even_start),
        "chart_start": None if start is None else [row + 1 for row in start],
        "centre_column": None if centre is None else _numbers(column + 1 for column in centre),
    }


def _schedule(schedule: Schedule) -> Json:
    return {
        "first": schedule.first,
        "intervals": [interval for interval, _ in schedule.then],
        "times": [times for _, times in schedule.then],
    }


def _top(spec: Spec, piece: PiecePlan, top: Top, line: Lines) -> Json:
    last, taken = piece.sections[-1], seams_of(spec, piece)[1]
    gauge, rows = piece.levels[last.last].sts_per_cm, last.rows_per_cm
    depth = [top.depth_rows(size) for size in range(len(top.neck))]
    return {
        "neck_line": line(top.neck_step.action.span if top.neck_step is not None else None),
        "shoulder_line": line(top.shoulder_step.action.span if top.shoulder_step is not None else None),
        "manner": top.manner,
        "neck_stitches": list(top.neck),
        "neck_width": _wish(top.neck_wishes, [(count - taken) / gauge for count in top.neck]),
        "neck_rows": depth,
        "neck_depth": _wish(top.depth_wishes, [count / rows for count in depth]),
        "neck_centre": [top.own_centre(size) for size in range(len(depth))],
        "neck_steps": [list(top.own_steps(size)) for size in range(len(depth))],
        "placket": _placket(top, rows) if top.has_placket else None,
        "shoulder_stitches": list(top.shoulder),
        "slope_rows": list(top.slope_rows),
        "slope": _wish(top.slope_wishes, [count / rows for count in top.slope_rows]),
        "slope_groups": [list(groups) for groups in top.groups],
    }


def _placket(top: Top, rows: Fraction) -> Json:
    return {
        "stitches": list(top.centre),
        "beside": list(top.corner),
        "rows": list(top.placket_rows),
        "length": _wish(top.placket_wishes, [count / rows for count in top.placket_rows]),
    }


def _crown(crown: CrownPlan, line: Lines) -> Json:
    action = crown.step.action
    assert isinstance(action, Crown)
    return {
        "line": line(action.span),
        "manner": action.manner,
        "wedges": crown.wedges,
        "start": list(crown.start),
        "rounds": list(crown.rounds),
        "decreases": [
            {"rounds": [number for number, _ in one], "stitches": [count for _, count in one]}
            for one in crown.decrease_rounds
        ],
        "final": list(crown.final),
    }


def _rows(rows: Sequence[Row], size: str) -> Json:
    """All rows of a piece in one size, in working order: runs where values stay or count up, else one value a row."""
    return {
        "size": size,
        "total": len(rows),
        "number": _counting([row.number for row in rows]),
        "section": _runs([row.section for row in rows]),
        "sides": "".join(SIDES[row.side] for row in rows),
        "stitches": _runs([row.stitches for row in rows]),
        "chart_row": _counting([row.chart_row for row in rows]),
        "column": [row.column for row in rows],
    }


def _runs(values: Sequence[Any]) -> Json:
    """Equal neighbours as one value and how often it stands."""
    runs = [(value, len(list(run))) for value, run in groupby(values)]
    return {"value": [value for value, _ in runs], "times": [times for _, times in runs]}


def _counting(values: Sequence[int | None]) -> Json:
    """Values that count up by one as the first of them and how many there are; None stands for itself."""
    keys = [None if value is None else value - place for place, value in enumerate(values)]
    firsts, times, place = [], [], 0
    for _, run in groupby(keys):
        firsts.append(values[place])
        times.append(len(list(run)))
        place += times[-1]
    return {"first": firsts, "times": times}


def _band(band: Band, planned: BandPlan, line: Lines) -> Json:
    return {
        "name": band.name,
        "line": line(band.span),
        "swatch": band.swatch,
        "rib": {"knit": band.rib.knit, "purl": band.rib.purl, "texture": band.rib.texture},
        "in_round": not planned.is_flat,
        "make": planned.make,
        "folded": planned.is_folded,
        "hood": list(planned.hood) or None,
        "overlap": band.overlap,
        "collar": None if planned.collar is None else _collar(planned.collar),
        "mitres": [
            {"stitches": list(one), "rounds": list(two)}
            for one, two in zip(planned.marked, planned.mitres, strict=True)
        ],
        "end_of": band.end or None,
        "buttonholes": None if not planned.holes else _buttonholes(planned),
        "picked": [{"edge": edge, "stitches": list(counts)} for edge, counts in planned.picked],
        "stitches": list(planned.stitches),
        "rows": list(planned.rows),
        "stitches_per_cm": _number(planned.sts_per_cm),
        "rows_per_cm": _number(planned.rows_per_cm),
    }


def _collar(collar: CollarPlan) -> Json:
    return {
        "rows_below": list(collar.base),
        "apart": [list(gaps) for gaps in collar.gaps],
        "beyond": [list(ends) for ends in collar.ends],
    }


def _buttonholes(planned: BandPlan) -> Json:
    return {
        "stitches": planned.each,
        "row": list(planned.hole_rows),
        "between": [list(gaps) for gaps in planned.holes],
    }


def _join(join: Join, line: Lines) -> Json:
    edges: list[tuple[str, str]]
    if isinstance(join, SewnOn) and join.is_inset:
        edges, kind, manner = [(join.piece, "live stitches"), (join.onto, "fabric")], "inset", _place(join)
    elif isinstance(join, SewnOn):
        edges, kind, manner = [(join.piece, "lower edge and sides"), (join.onto, "fabric")], "sewn-on", _place(join)
    elif isinstance(join, SetIn):
        edges, kind, manner = [(join.piece, join.edge)], "set-in", ""
    else:
        edges, kind, manner = list(join.edges), "seam", join.manner
    places = [{"piece": piece, "edge": edge} for piece, edge in edges]
    return {"kind": kind, "edges": places, "manner": manner, "line": line(join.span)}


def _place(join: SewnOn) -> str:
    """Give where a pocket lies, as written."""
    return f"{join.up.words} up" + (f", {join.aside.words} from the centre" if join.aside is not None else "")
