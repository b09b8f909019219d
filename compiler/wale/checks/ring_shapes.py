"""The rings of a garment that go over a part of the body: how wide they are, what holds them, what they pass.

The rule stands in `checks/rings.py`, which holds them against a body.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import EDGINGS, BindOff, CastOn
from wale.draft.bands import ARMHOLES
from wale.draft.opened import slit_of
from wale.draft.pocket_edges import POCKET
from wale.plan import Girth, Level, PiecePlan, Plan
from wale.shaping.pickup import hypotenuse
from wale.source import Span
from wale.spec import PLACKET_EDGES, Seam, SetIn, Spec
from wale.write.measurements import opening

BODY, HEAD, HAND, HIP = ("bust", "shoulder-girth"), ("head",), ("hand",), ("hip",)
HEEL, ARM = ("heel-diagonal",), ("upper-arm",)
PARTS_BY_MEASURE = {
    **dict.fromkeys(("bust", "waist", "hip", "shoulder-girth", "cross-back"), BODY),
    **dict.fromkeys(("head", "neck-base"), HEAD),
    **dict.fromkeys(("wrist", "hand", "upper-arm"), HAND),
    **dict.fromkeys(("ankle", "heel-diagonal", "calf"), HEEL),
}
"""What a round piece must pass, by the measure that its width is written with."""
PARTS_BY_NAME = {
    **dict.fromkeys(("hat", "cap", "beret", "tam", "bonnet", "balaclava", "cowl", "snood", "headband"), HEAD),
    **dict.fromkeys(("mitten", "mitt", "glove", "cuff", "sleeve", "wristwarmer"), HAND),
    **dict.fromkeys(("sock", "stocking"), HEEL),
    **dict.fromkeys(("body", "pullover", "jumper", "sweater", "vest", "yoke", "slipover"), BODY),
}
"""What a round piece must pass by its name, where its width names no measure."""


HOOD, CHEEKS = "hood", "from cheek to cheek"
"""A hood's width, which goes round the head from the one to the other."""
ROUND_FACE = Fraction(3, 4)
"""Share of the head's girth that is: https://boyknits.wordpress.com/2015/10/25/the-successful-hood/ (75 percent)."""
AT_REST = "hip at rest"
"""The one ring that is to fit without being pulled."""


class Shape(Struct, frozen=True):
    """A ring before it is held against a body: girth of each size, fabrics that hold it, parts it must pass.

    Attributes:
        at_edge: it is cast on or bound off.
        strange: (swatch, motif) of motifs that are worked at the gauge of another fabric.
        at_rest: it is to fit without being pulled.
        share: what of the measure it must pass.
    """

    piece: str
    name: str
    girths: tuple[Fraction, ...]
    swatches: tuple[str, ...]
    parts: tuple[str, ...]
    span: Span
    at_edge: bool = False
    strange: tuple[tuple[str, str], ...] = ()
    at_rest: bool = False
    share: Fraction = Fraction(1)


def bodies_of(plan: Plan) -> tuple[PiecePlan, ...]:
    """Give the flat pieces with shoulders that make up a body."""
    return tuple(piece for piece in plan.pieces if piece.top is not None)


def shapes(spec: Spec, plan: Plan) -> Iterable[Shape]:
    """Give the rings of a garment, in the order in which they are told."""
    sleeves = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    seamed = {
        name for join in spec.joins if isinstance(join, Seam) for name, edge in join.edges if edge == "sides"
    } - sleeves
    tops = bodies_of(plan)
    closed = [piece for piece in plan.pieces if piece.name in seamed and piece.top is None and not piece.in_round]
    bodies = tuple(piece for piece in plan.pieces if piece in tops or (piece in closed and _passes(piece) == BODY))
    # a body that opens is put on open, whatever its girth; buttoned, it is to fit
    opens = any(piece.half is not None for piece in bodies)
    if opens:
        gaps = tuple(opening(spec, plan, size) for size in range(len(plan.sizes)))
        yield from (one for one in _body(spec, bodies, gaps) if one.at_rest)
    elif sum(piece.make for piece in bodies) > 1:
        yield from _body(spec, bodies)
        if tops:
            yield from _necks(spec, plan, tops)
    for piece in plan.pieces:
        if piece.name in sleeves or piece.is_tube or (piece in closed and piece not in bodies):
            yield from _tube(spec, piece, HAND if piece.name in sleeves else _passes(piece))
        yield from (_aside(piece, one) for one in piece.girths)
    yield from _hoods(spec, plan)


def _hoods(spec: Spec, plan: Plan) -> Iterable[Shape]:
    """Give the widths of hoods, from one front edge round the head to the other."""
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        if planned.hood:
            wide = tuple(count / planned.sts_per_cm for count in planned.hood)
            yield Shape(band.name, HOOD, wide, (band.swatch,), HEAD, band.rib.span, share=ROUND_FACE)


def _body(spec: Spec, bodies: Sequence[PiecePlan], gaps: Sequence[Fraction] = ()) -> Iterable[Shape]:
    """Give the rings of a body; `gaps` are the cm in each size between halves, which bands fill."""
    for level in bodies[0].closed_levels:
        same = [(piece, found) for piece in bodies if (found := piece.level(level.label)) is not None]
        if len(same) < len(bodies):
            continue
        widths = [[one.width(size) * piece.make for piece, one in same] for size in range(len(level.counts))]
        girths = tuple(sum(sides, gap) for sides, gap in zip(widths, gaps or [Fraction(0)] * len(widths), strict=True))
        swatches = tuple(dict.fromkeys(one.swatch for _, one in same))
        strange = tuple(dict.fromkeys(pair for piece, one in same for pair in _strange(spec, piece, one)))
        at_edge = any(_is_edge(piece, one) for piece, one in same)
        name, span = _ring_name(bodies[0], level), level.measure.span
        yield Shape("body", name, girths, swatches, BODY, span, at_edge, strange)
        if level.label == "hip":
            yield Shape("body", AT_REST, girths, swatches, HIP, span, at_edge, strange, at_rest=True)


def _passes(piece: PiecePlan) -> tuple[str, ...]:
    """Give what a tube must pass: by the measure its width names, else by its name; a crown means the head.

    One that begins with a body and its sleeves is pulled on over the head, above what its first round holds.
    """
    if piece.joined:
        return HEAD
    named = (found for level in piece.levels if (found := _named(level)))
    return next(named, ()) or PARTS_BY_NAME.get(piece.name.rstrip("s"), ()) or (HEAD if piece.crown else ())


def _named(level: Level) -> tuple[str, ...]:
    """Give what a level passes by the measure that its width names, or nothing where it names none."""
    return next((PARTS_BY_MEASURE[name] for name in level.measure.names if name in PARTS_BY_MEASURE), ())


def _tube(spec: Spec, piece: PiecePlan, passes: tuple[str, ...]) -> Iterable[Shape]:
    for level in piece.closed_levels:
        if piece.joined and level is piece.levels[0]:
            continue
        girths = tuple(level.width(size) for size in range(len(level.counts)))
        name, at_edge, strange = _ring_name(piece, level), _is_edge(piece, level), _strange(spec, piece, level)
        parts = HEAD if piece.joined else _named(level) or passes
        yield Shape(piece.name, name, girths, (level.swatch,), parts, level.measure.span, at_edge, strange)
        if level.label == "hip":
            yield Shape(piece.name, AT_REST, girths, (level.swatch,), HIP, level.measure.span, at_edge, strange, True)


def _aside(piece: PiecePlan, girth: Girth) -> Shape:
    """Give a girth of what a course works aside, such as a sleeve's."""
    level = girth.level
    girths = tuple(level.width(size) for size in range(len(level.counts)))
    parts = _named(level) or PARTS_BY_NAME.get(level.label, ())
    return Shape(piece.name, level.label, girths, (level.swatch,), parts, level.measure.span, girth.is_edge)


def _is_edge(piece: PiecePlan, level: Level) -> bool:
    """Say whether a level's stitches are cast on (but provisionally) or bound off."""
    cast_on = any(isinstance(step.action, CastOn) and step.action.manner != "provisional" for step in piece.steps)
    bound_off = any(isinstance(step.action, BindOff) for step in piece.steps)
    return (cast_on and level is piece.levels[0]) or (bound_off and level is piece.levels[-1])


def _strange(spec: Spec, piece: PiecePlan, level: Level) -> tuple[tuple[str, str], ...]:
    """Give the motifs worked at a level whose floats its swatch does not show."""
    at = piece.levels.index(level)
    worked = [one for one in piece.sections if at in (one.first, one.last) and one.kind in ("work", "shape", "crown")]
    motifs = dict.fromkeys(one.fabric.motif for one in worked if one.fabric is not None and one.fabric.motif)
    return tuple((level.swatch, motif) for motif in motifs if spec.swatches[level.swatch].motif != motif)


def _ring_name(piece: PiecePlan, level: Level) -> str:
    if level is not piece.levels[0]:
        return level.label
    first = piece.sections[0].kind if piece.sections else "work"
    if first in EDGINGS:
        return "rib at the cast-on" if first == "rib" else f"{first} edge at the cast-on"
    return "facing of the hem" if first == "facing" else "cast-on edge"


def _necks(spec: Spec, plan: Plan, bodies: Sequence[PiecePlan]) -> Iterable[Shape]:
    swatches = tuple(dict.fromkeys(piece.sections[-1].swatch for piece in bodies))
    spans = [piece.top.neck_step.action.span for piece in bodies if piece.top is not None and piece.top.neck_step]
    girths = tuple(sum((neck_edge(spec, piece, s) for piece in bodies), Fraction(0)) for s in range(len(plan.sizes)))
    span = spans[0] if spans else bodies[0].span
    yield Shape(
        "body",
        "neck opening",
        girths,
        swatches,
        HEAD,
        span,
        at_edge=not any(edge == "neck" for band in spec.bands for _, edge in band.edges),
    )
    for number, band in enumerate(plan.bands):
        edges = [edge for _, edge in spec.bands[number].edges]
        # along a placket, or where one opens the neck, a band is no ring: it is put on unbuttoned
        slit = slit_of(spec.bands[number], {piece.name: piece for piece in bodies})
        if band.hood or slit or {POCKET, *PLACKET_EDGES} & set(edges):
            continue
        around = tuple(band.last(size) / band.sts_per_cm for size in range(len(plan.sizes)))
        parts = ARM if ARMHOLES in edges else HEAD
        yield Shape(band.name, "band", around, (spec.bands[number].swatch,), parts, band.span, at_edge=True)


def neck_edge(spec: Spec, piece: PiecePlan, size: int) -> Fraction:
    """Give the length of a shaped neck edge in cm: its centre, the slant of its steps, and the straight rows."""
    top = piece.top
    assert top is not None
    gauge = spec.swatches[piece.sections[-1].swatch].washed
    steps = top.steps[size]
    slant = sum((hypotenuse(step / gauge.stitches, 2 / gauge.rows) for step in steps), Fraction(0))
    straight = (top.neck_rows[size] - 2 * len(steps)) / gauge.rows
    return top.centre[size] / gauge.stitches + 2 * (slant + straight)
