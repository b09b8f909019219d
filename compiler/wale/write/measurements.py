"""Tables of finished measurements, ease, wishes and deviations."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.pattern import Table
from wale.plan import Level, PiecePlan, Plan
from wale.sewn import seams_of
from wale.spec import Seam, Spec
from wale.write.context import length_text, signed_text, unit


def ring_of(spec: Spec, plan: Plan, piece: PiecePlan, level: Level, size: int) -> Fraction:
    """Give the finished girth in cm that a level closes to: round, or seamed to its neighbours, or to itself."""
    width = level.width(size)
    if piece.is_tube:
        return width
    bodies = side_seamed(spec, plan)
    if piece in bodies:
        others = [one.level(level.label) for one in bodies if one is not piece]
        return width + sum((other.width(size) for other in others if other is not None), opening(spec, plan, size))
    return width


def opening(spec: Spec, plan: Plan, size: int) -> Fraction:
    """Give the cm between the halves of a body that opens, which its bands fill; 0 for one that does not."""
    halves = [piece.half for piece in side_seamed(spec, plan) if piece.half is not None]
    return sum((half.opening.at(size) for half in halves if len(halves) > 1), Fraction(0)) / max(1, len(halves))


def side_seamed(spec: Spec, plan: Plan) -> tuple[PiecePlan, ...]:
    """Give the flat pieces with shoulders that a side seam joins to one body."""
    if not any(isinstance(join, Seam) and any(edge == "sides" for _, edge in join.edges) for join in spec.joins):
        return ()
    return tuple(piece for piece in plan.pieces if piece.top is not None)


def finished_table(spec: Spec, plan: Plan, sizes: Sequence[int]) -> Table:
    """Give the finished measurements, with the ease where the body's own measure is known."""
    rows: list[tuple[str, ...]] = []
    bodies = side_seamed(spec, plan)
    seen: set[str] = set()
    for piece in plan.pieces:
        for level in piece.levels:
            if level.label == "cast-on" and len(piece.levels) > 1:
                continue
            name = level.label if piece in bodies else f"{piece.name}, {level.label}"
            if name in seen:
                continue
            seen.add(name)
            around = "around" if piece.is_tube or piece in bodies or piece.make > 1 else "wide"
            girths = [ring_of(spec, plan, piece, level, size) for size in sizes]
            rows.append((_title(name, around), *(str(length_text(spec, girth)) for girth in girths)))
            if level.label in spec.sizes[0].measures and around == "around":
                eases = [
                    girth - spec.sizes[s].measures[level.label].value for girth, s in zip(girths, sizes, strict=True)
                ]
                rows.append((f"ease at the {level.label}", *(signed_text(spec, one) for one in eases)))
        for one in piece.girths:
            girths = [one.level.width(size) for size in sizes]
            name = _title(f"{piece.name}, {one.level.label}", "around")
            rows.append((name, *(str(length_text(spec, girth)) for girth in girths)))
            worn = worn_at(spec, one.level)
            if worn:
                eases = [girth - spec.sizes[s].measures[worn].value for girth, s in zip(girths, sizes, strict=True)]
                rows.append((f"ease at the {worn}", *(signed_text(spec, one) for one in eases)))
    for piece in plan.pieces:
        total = [piece.sections[-1].position[size] for size in sizes] if piece.sections else []
        if piece.anew is not None:
            place, below = piece.sections[piece.anew].folds, piece.sections[piece.anew - 1].position
            texts = [
                tuple(str(length_text(spec, one[size])) for size in sizes)
                for one in (below, piece.sections[-1].position)
            ]
            rows += [
                (f"{piece.name} {way} the {place}, length", *told)
                for way, told in zip(("to", "from"), texts, strict=True)
            ]
        elif total:
            rows.append((f"{piece.name}, length", *(str(length_text(spec, one)) for one in total)))
        if piece.top is not None and piece.top.neck:
            level = piece.levels[-1]
            neck = seams_of(spec, piece)[1]
            widths = [(piece.top.neck[size] - neck) / level.sts_per_cm for size in sizes]
            rows.append((f"{piece.name} neck, wide", *(str(length_text(spec, one)) for one in widths)))
    header = ("", *(plan.sizes[size] for size in sizes))
    note = "Ease is finished less body." if any(row[0].startswith("ease") for row in rows) else ""
    return Table(f"Finished measurements in {unit(spec)}, washed", header, tuple(rows), note)


def worn_at(spec: Spec, level: Level) -> str:
    """Give the measure of the body that a girth is asked for by, or "" where its line names none."""
    return next((name for name in level.measure.names if name in spec.sizes[0].measures), "")


def _title(name: str, around: str) -> str:
    return f"{name}, {around}"


def deviation_table(spec: Spec, plan: Plan, sizes: Sequence[int]) -> Table:
    """Give each chosen number's deviation from its wish."""
    rows: list[tuple[str, ...]] = []
    seen: set[tuple[str, tuple[str, ...]]] = set()
    for piece in plan.pieces:
        for level in (*piece.levels, *(one.level for one in piece.girths)):
            if level.wishes is None:
                continue
            cells = tuple(f"{level.counts[size]} ({signed_text(spec, level.deviation(size), 2)})" for size in sizes)
            _add(rows, seen, (f"{level.address}, sts", *cells))
        for section in piece.sections:
            if section.wishes is None:
                continue
            cells = tuple(f"{section.rows[size]} ({signed_text(spec, section.deviation(size), 2)})" for size in sizes)
            _add(rows, seen, (f"{section.address}, {'rounds' if piece.in_round else 'rows'}", *cells))
    header = ("", *(plan.sizes[size] for size in sizes))
    note = "Counts, and how far they are from the length asked for. What a piece takes over from another is left out."
    return Table(f"Chosen counts and deviations in {unit(spec)}", header, tuple(rows), note)


def _add(rows: list[tuple[str, ...]], seen: set[tuple[str, tuple[str, ...]]], row: tuple[str, ...]) -> None:
    """Leave out what another piece inherits unchanged."""
    key = (row[0].split(".", 1)[1], row[1:])
    if key not in seen:
        seen.add(key)
        rows.append(row)
