"""Yarn beside the stitches: cast-on, bind-off, seams, sewn hems, and the ends that are woven in.

Lengths are of the yarn with all its strands as one. A cast-on or bind-off takes three times its width (long-tail: M.
Righetti, *Knitting in Plain English*, with 10 inches to spare); sewing takes three times the seam and 15 cm at each end
(common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import BindOff, CastOn, Hem
from wale.armholes import cap_edges
from wale.materials import Swatch
from wale.plan import Level, PiecePlan, Plan
from wale.quantity import CM_PER_INCH
from wale.shaping.amounts import cast_on_tail
from wale.spec import Seam, SetIn, SewnOn, Spec
from wale.write.yarn_lengths import grams_of, loop_length
from wale.write.yarn_used import ZERO, parts_of

PER_WIDTH = 3
END_CM = Fraction(15)
MAKING_UP = "making up"


class Finish(Struct, frozen=True):
    """A length of yarn for one thing.

    Attributes:
        piece: piece, band, or `MAKING_UP`.
        what: "cast-on", "bind-off", "crown", "hem" or "seam".
        cm: for one copy of the piece; for all seams where it is making up.
    """

    piece: str
    what: str
    yarn: str
    cm: Fraction


def finishing(spec: Spec, plan: Plan, size: int) -> tuple[Finish, ...]:
    """Give all yarn beside the stitches of a garment in one size, in the order of work."""
    found: list[Finish] = []
    for piece in plan.pieces:
        found += _piece(spec, piece, size)
    for number, band in enumerate(plan.bands):
        own, swatch = spec.bands[number], spec.swatches[spec.bands[number].swatch]
        wide = band.last(size) / band.sts_per_cm
        length = _cord(swatch, own.cord, band.last(size)) if own.cord else _edge(wide)
        found.append(Finish(band.name, "bind-off", swatch.yarns[0], length))
        if band.is_folded:
            found.append(Finish(band.name, "hem", swatch.yarns[0], _sewn(wide)))
    for join in spec.joins:
        match join:
            case Seam():
                found += _seam(spec, plan, join, size)
            case SetIn():
                found += _set_in(spec, plan, join, size)
            case SewnOn():
                found += _sewn_on(spec, plan, join, size)
    return tuple(found)


def _edge(width_cm: Fraction) -> Fraction:
    return PER_WIDTH * width_cm + END_CM


def _cord(swatch: Swatch, cord: int, count: int) -> Fraction:
    """A cord has a row of its stitches for each one that it binds off, of the loops of its swatch."""
    return cord * count * loop_length(swatch) + END_CM


def _sewn(length_cm: Fraction, seams: int = 1) -> Fraction:
    return PER_WIDTH * length_cm + 2 * END_CM * seams


def _width(level: Level, size: int) -> Fraction:
    """Give the width of a level with its edge stitches."""
    return level.counts[size] / level.sts_per_cm


def _piece(spec: Spec, piece: PiecePlan, size: int) -> list[Finish]:
    found = []
    first, last = piece.levels[0], piece.levels[-1]
    for step in piece.steps:
        action = step.action
        if isinstance(action, CastOn):
            yarn = spec.swatches[action.swatch].yarns[0]
            found.append(
                Finish(piece.name, "cast-on", yarn, cast_on_tail(_width(first, size) / CM_PER_INCH) * CM_PER_INCH)
            )
        elif isinstance(action, BindOff):
            yarn = spec.swatches[last.swatch].yarns[0]
            length = _edge(_width(last, size))
            if action.cord:
                length = _cord(spec.swatches[last.swatch], action.cord, last.counts[size])
            found.append(Finish(piece.name, "bind-off", yarn, length))
        elif isinstance(action, Hem) and not action.knitted_together:
            yarn = spec.swatches[first.swatch].yarns[0]
            found.append(Finish(piece.name, "hem", yarn, _sewn(_width(first, size))))
    if piece.top is not None:
        bound = piece.top.neck[size] + (
            piece.ends_shaped * piece.top.shoulder[size] if piece.top.manner == "steps" else 0
        )
        found.append(Finish(piece.name, "bind-off", _main(spec, piece), _edge(bound / last.sts_per_cm)))
    if piece.crown is not None:
        found.append(Finish(piece.name, "crown", _main(spec, piece), 2 * END_CM))
    return found


def _main(spec: Spec, piece: PiecePlan) -> str:
    """Give the yarn that finishes a piece: the main one of its last fabric."""
    return spec.swatches[piece.sections[-1].swatch if piece.sections else piece.levels[-1].swatch].yarns[0]


def edge_cm(piece: PiecePlan, edge: str, size: int) -> Fraction:
    """Give the length of all edges of a name, of all copies of a piece; 0 for an edge that it has not."""
    last = piece.levels[-1]
    if edge == "cast-on":
        return _width(piece.levels[0], size) * piece.make
    if edge == "top":
        return _width(last, size) * piece.make
    top = piece.top
    if edge == "shoulders" and top is not None:
        return piece.ends_shaped * top.shoulder[size] / last.sts_per_cm * piece.make
    if edge == "neck" and top is not None:
        return top.neck[size] / last.sts_per_cm * piece.make
    whole = piece.sections[-1].position[size] if piece.sections else Fraction(0)
    marks = dict(piece.marks)
    under = _height(piece, marks["underarm"][size], size) if "underarm" in marks else whole
    if edge == "sides":
        return piece.ends_shaped * under * piece.make
    if edge == "armholes" and top is not None:
        slope = top.slope_rows[size] / piece.sections[-1].rows_per_cm
        return piece.ends_shaped * max(Fraction(0), whole - under - slope) * piece.make
    return Fraction(0)


def _height(piece: PiecePlan, rows: int, size: int) -> Fraction:
    """Give how far above the fold or cast-on so many rows of a piece reach."""
    before = 0
    for section in piece.sections:
        after = before + section.rows[size]
        if rows <= after:
            return section.position[size] - (after - rows) / section.rows_per_cm
        before = after
    return piece.sections[-1].position[size]


def _seam(spec: Spec, plan: Plan, join: Seam, size: int) -> list[Finish]:
    """Give a seam's yarn: each edge is half of it; two edges of a piece or a pair make one seam."""
    edges = dict.fromkeys(join.edges)
    pieces = [(piece, edge) for name, edge in edges if (piece := plan.piece(name)) is not None]
    if not pieces:
        return []
    # beside a half piece one shoulder of the whole one is joined
    single = any(piece.half is not None and edge == "shoulders" for piece, edge in pieces)
    apart = [piece.ends_shaped if single else 1 for piece, _ in pieces]
    lengths = [edge_cm(piece, edge, size) / parts for (piece, edge), parts in zip(pieces, apart, strict=True)]
    length = sum(lengths, Fraction(0)) / 2
    doubled = ("sides", "shoulders", "armholes")
    ends = [piece.make * (piece.ends_shaped if edge in doubled else 1) for piece, edge in pieces]
    seams = max(1, sum(one // parts for one, parts in zip(ends, apart, strict=True)) // 2)
    return [Finish(MAKING_UP, "seam", sewing_yarn(spec, pieces[0][0]), _sewn(length, seams))]


def _set_in(spec: Spec, plan: Plan, join: SetIn, size: int) -> list[Finish]:
    piece = plan.piece(join.piece)
    if piece is None:
        return []
    length = cap_edges(plan, join, size)[0] * piece.make if join.edge == "cap" else edge_cm(piece, "top", size)
    return [Finish(MAKING_UP, "seam", sewing_yarn(spec, piece), _sewn(length, piece.make))]


def _sewn_on(spec: Spec, plan: Plan, join: SewnOn, size: int) -> list[Finish]:
    piece = plan.piece(join.piece)
    if piece is None:
        return []
    around = 2 * piece.sections[-1].position[size] + _width(piece.levels[0], size)
    return [Finish(MAKING_UP, "seam", sewing_yarn(spec, piece), _sewn(around * piece.make, piece.make))]


def sewing_yarn(spec: Spec, piece: PiecePlan) -> str:
    """Give the yarn in which a piece's edges are joined: that of its edge stitches, else its main one."""
    return piece.edge.yarn or _main(spec, piece)


def finish_grams(spec: Spec, ends: Sequence[Finish], plan: Plan | None = None) -> dict[str, Fraction]:
    """Give grams of cast-ons, bind-offs and seams by yarn; yarns of unknown length are left out.

    Args:
        plan: counts the copies of each piece; without it each end counts once.
    """
    found: dict[str, Fraction] = {}
    for end in ends:
        made = plan.made(end.piece) if plan is not None else None
        for part in parts_of(spec, end.yarn):
            grams = grams_of(spec, part, end.cm * (made.make if made is not None else 1))
            if grams is not None:
                found[part] = found.get(part, ZERO) + grams
    return found
