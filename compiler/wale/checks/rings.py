"""W606 and N607: will it go on?

What: each ring of the garment against the part of the body it must pass: every ring of a body (hem, waist, bust) the
larger of bust and shoulder girth, a neck the head, a cuff and sleeve the hand, a band along an armhole the upper arm, a
hat the head, a hood three quarters of it; the hip fits at rest.
A tube that is wide in one place and narrow in another, such as a pullover from the neck down, passes at each width what
that width's own measure says.
Why: a garment may fit where it sits and still not get there.
Rule: finished girth * (1 + give) >= part. Give is the least of the fabric as its swatch was pulled, floats included,
and of the cast-on or bind-off where that was pulled too (else it is taken to give like its fabric, as rib is). A facing
is sewn down, so it is a ring of its own. Without a stretched swatch of the very fabric, or without the measure, it is
"not known", never "goes on".
Example: a cuff of 18 cm that gives 10 %, for a hand of 21 cm. Instead: more ease, or a fabric that gives more.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.actions import EDGINGS, BindOff, CastOn
from wale.draft.bands import ARMHOLES
from wale.draft.opened import slit_of
from wale.draft.pocket_edges import POCKET
from wale.plan import Girth, Level, PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words, show_decimal, units_in_text
from wale.shaping.pickup import hypotenuse
from wale.source import Span
from wale.spec import PLACKET_EDGES, Seam, SetIn, Size, Spec
from wale.write.measurements import opening

Verdict = Literal["goes on", "too tight", "not known"]

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
EXAMPLES = {"bust": 94, "upper-arm": 29, "shoulder-girth": 104, "head": 52, "hand": 20, "heel-diagonal": 32, "hip": 98}
"""A measure in cm to show how it is written."""


class Ring(Struct, frozen=True):
    """One ring in one size.

    Attributes:
        give: width pulled / width at rest, less 1; 0 where it fits at rest; None where it is not known.
        limit: what gives least: "the fabric" or "its edge"; "" where that is not known.
        part: the measure it must pass; "" where the file does not tell.
        part_cm: None where that measure is not known.
        source: where the measure comes from; `estimated` where by a rule.
        why: what is not known, in words, or "".
        span: the line that sets the girth.
        share: what of the measure it must pass: all of it, or of the head what a hood goes round.
    """

    piece: str
    ring: str
    size: str
    girth_cm: Fraction
    give: Fraction | None
    part: str
    part_cm: Fraction | None
    source: str
    estimated: bool
    verdict: Verdict
    why: str
    span: Span
    limit: str = ""
    share: Fraction = Fraction(1)

    @property
    def part_words(self) -> str:
        """What it must pass, in words."""
        return self.part.replace("-", " ") if self.share == 1 else f"{self.part} {CHEEKS}"

    @property
    def pulled_cm(self) -> Fraction | None:
        """The girth as far as it can be pulled, or None where it is not known."""
        return None if self.give is None else self.girth_cm * (1 + self.give)

    @property
    def needed_cm(self) -> Fraction | None:
        """The finished girth that would do, or None where it is not known."""
        return None if self.give is None or self.part_cm is None else self.part_cm / (1 + self.give)

    @property
    def missing_cm(self) -> Fraction | None:
        """How much finished girth is missing, 0 where none is, or None where it is not known."""
        return None if self.needed_cm is None else max(Fraction(0), self.needed_cm - self.girth_cm)

    @property
    def needed_give(self) -> Fraction | None:
        """The give that would do at this girth, 0 where it passes at rest, or None where the part is not known."""
        return None if self.part_cm is None else max(Fraction(0), self.part_cm / self.girth_cm - 1)


class _Shape(Struct, frozen=True):
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


def rings(spec: Spec, plan: Plan) -> tuple[Ring, ...]:
    """Hold each ring against the part that it must pass, size by size."""
    return tuple(_judge(spec, shape, index) for shape in _shapes(spec, plan) for index in range(len(plan.sizes)))


def bodies_of(plan: Plan) -> tuple[PiecePlan, ...]:
    """Give the flat pieces with shoulders that make up a body."""
    return tuple(piece for piece in plan.pieces if piece.top is not None)


def _shapes(spec: Spec, plan: Plan) -> Iterable[_Shape]:
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


def _hoods(spec: Spec, plan: Plan) -> Iterable[_Shape]:
    """Give the widths of hoods, from one front edge round the head to the other."""
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        if planned.hood:
            wide = tuple(count / planned.sts_per_cm for count in planned.hood)
            yield _Shape(band.name, HOOD, wide, (band.swatch,), HEAD, band.rib.span, share=ROUND_FACE)


def _body(spec: Spec, bodies: Sequence[PiecePlan], gaps: Sequence[Fraction] = ()) -> Iterable[_Shape]:
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
        yield _Shape("body", name, girths, swatches, BODY, span, at_edge, strange)
        if level.label == "hip":
            yield _Shape("body", AT_REST, girths, swatches, HIP, span, at_edge, strange, at_rest=True)


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


def _tube(spec: Spec, piece: PiecePlan, passes: tuple[str, ...]) -> Iterable[_Shape]:
    for level in piece.closed_levels:
        if piece.joined and level is piece.levels[0]:
            continue
        girths = tuple(level.width(size) for size in range(len(level.counts)))
        name, at_edge, strange = _ring_name(piece, level), _is_edge(piece, level), _strange(spec, piece, level)
        parts = HEAD if piece.joined else _named(level) or passes
        yield _Shape(piece.name, name, girths, (level.swatch,), parts, level.measure.span, at_edge, strange)
        if level.label == "hip":
            yield _Shape(piece.name, AT_REST, girths, (level.swatch,), HIP, level.measure.span, at_edge, strange, True)


def _aside(piece: PiecePlan, girth: Girth) -> _Shape:
    """Give a girth of what a course works aside, such as a sleeve's."""
    level = girth.level
    girths = tuple(level.width(size) for size in range(len(level.counts)))
    parts = _named(level) or PARTS_BY_NAME.get(level.label, ())
    return _Shape(piece.name, level.label, girths, (level.swatch,), parts, level.measure.span, girth.is_edge)


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


def _necks(spec: Spec, plan: Plan, bodies: Sequence[PiecePlan]) -> Iterable[_Shape]:
    swatches = tuple(dict.fromkeys(piece.sections[-1].swatch for piece in bodies))
    spans = [piece.top.neck_step.action.span for piece in bodies if piece.top is not None and piece.top.neck_step]
    girths = tuple(sum((neck_edge(spec, piece, s) for piece in bodies), Fraction(0)) for s in range(len(plan.sizes)))
    span = spans[0] if spans else bodies[0].span
    yield _Shape(
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
        yield _Shape(band.name, "band", around, (spec.bands[number].swatch,), parts, band.span, at_edge=True)


def neck_edge(spec: Spec, piece: PiecePlan, size: int) -> Fraction:
    """Give the length of a shaped neck edge in cm: its centre, the slant of its steps, and the straight rows."""
    top = piece.top
    assert top is not None
    gauge = spec.swatches[piece.sections[-1].swatch].washed
    steps = top.steps[size]
    slant = sum((hypotenuse(step / gauge.stitches, 2 / gauge.rows) for step in steps), Fraction(0))
    straight = (top.neck_rows[size] - 2 * len(steps)) / gauge.rows
    return top.centre[size] / gauge.stitches + 2 * (slant + straight)


def _judge(spec: Spec, shape: _Shape, index: int) -> Ring:
    size = spec.sizes[index]
    girth = shape.girths[index]
    give, limit = _give(spec, shape)
    known = {part: size.measures[part] for part in shape.parts if part in size.measures}
    share = shape.share
    part = max(known, key=lambda name: known[name].value, default=shape.parts[-1] if shape.parts else "")
    whole = bool(shape.parts) and len(known) == len(shape.parts)
    if shape.at_rest and whole and girth >= known[part].value * share:
        give, limit = Fraction(0), ""
    tight = give is not None and part in known and girth * (1 + give) < known[part].value * share
    verdict: Verdict = "too tight" if tight else "goes on" if whole and give is not None else "not known"
    why = "" if verdict != "not known" else _unknown(shape, size, give)
    if verdict == "not known" and not whole and shape.parts:
        part = next(name for name in shape.parts if name not in known)
    found = known.get(part)
    return Ring(
        shape.piece,
        shape.name,
        size.name,
        girth,
        give,
        part,
        found.value * share if found else None,
        found.source if found else "",
        found is not None and found.confidence == "estimated",
        verdict,
        why,
        shape.span,
        limit,
        share,
    )


def _give(spec: Spec, shape: _Shape) -> tuple[Fraction | None, str]:
    """Give the least give of the fabrics and edges that hold a ring, and which of the two it is."""
    swatches = [spec.swatches[name] for name in shape.swatches]
    fabrics = [one.stretch for one in swatches if one.stretch is not None]
    if shape.strange or len(fabrics) < len(swatches) or not fabrics:
        return None, ""
    edges = [one.edge_stretch for one in swatches if one.edge_stretch is not None] if shape.at_edge else []
    least = min([*fabrics, *edges])
    return least - 1, "the fabric" if least == min(fabrics) else "its edge"


def _unknown(shape: _Shape, size: Size, give: Fraction | None) -> str:
    if not shape.parts:
        return "no line says what it goes over"
    missing = [part for part in shape.parts if part not in size.measures]
    reasons = [f"the sizes give no measure `{part}`" for part in missing]
    if shape.strange:
        reasons += [
            f"the swatch `{swatch}` was not knitted in {motif}, whose strands hold it back"
            for swatch, motif in shape.strange
        ]
    elif give is None:
        reasons.append(f"no line `stretch` says how far the swatch `{'` or `'.join(shape.swatches)}` can be pulled")
    return " and ".join(reasons)


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each ring that is too tight, and note once what is not known."""
    found = rings(spec, plan)
    groups: dict[tuple[str, str], list[Ring]] = {}
    for ring in found:
        groups.setdefault((ring.piece, ring.ring), []).append(ring)
    problems = []
    for (piece, name), group in groups.items():
        tight = [ring for ring in group if ring.verdict == "too tight"]
        if tight:
            graded = {size.name for size in spec.sizes if not size.made_to_measure}
            problems.append(_too_tight(piece, name, tight, [ring for ring in group if ring.size in graded], spec.units))
    unknown = [ring for ring in found if ring.verdict == "not known"]
    if unknown:
        problems.append(_not_known(unknown))
    return problems


def _too_tight(piece: str, name: str, tight: Sequence[Ring], graded: Sequence[Ring], units: str) -> Problem:

    def told(value: Fraction | None) -> str:
        return length_words(value or Fraction(0), units)

    figures = "; ".join(
        f"{ring.size}: {told(ring.girth_cm)}, {told(ring.pulled_cm)} pulled, for {told(ring.part_cm)}" for ring in tight
    )
    wanted = ", ".join(f"{ring.size} {told(ring.needed_cm)} ({told(ring.missing_cm)} more)" for ring in tight)
    gives = ", ".join(f"{ring.size} {_percent(ring.needed_give)}" for ring in tight)
    part, words, limit = tight[0].part, tight[0].part_words, f" of {tight[0].limit}" if tight[0].limit else ""
    guessed = (
        f" The {part} is estimated: {units_in_text(tight[0].source, units)}."
        if any(ring.estimated for ring in tight)
        else ""
    )
    return Problem(
        "W606",
        f"{name}, {piece}: may not pass the {words} ({figures})",
        (Label(tight[0].span, "this width"),),
        help=f"At this give{limit} ({_percent(tight[0].give)}) it needs a finished girth of {wanted}; at this girth a "
        f"give of {gives}.{_would_do(tight, graded)}{guessed}",
        size=tight[0].size if len(tight) == 1 else "",
    )


def _would_do(tight: Sequence[Ring], graded: Sequence[Ring]) -> str:
    """Say whose ring, of the table's sizes, would pass the part of each body that it is too tight for."""
    words = ""
    for ring in tight:
        passing = (one.size for one in graded if one.pulled_cm and ring.part_cm and one.pulled_cm >= ring.part_cm)
        size = next(passing, None)
        if size is not None and size != ring.size:
            words += f" For {ring.size} the ring of size {size} would do."
    return words


def _percent(share: Fraction | None) -> str:
    return f"{show_decimal((share or Fraction(0)) * 100, 0)} %"


def _not_known(unknown: Sequence[Ring]) -> Problem:
    causes: dict[str, dict[str, None]] = {}
    for ring in unknown:
        causes.setdefault(ring.why, {})[ring_words(ring)] = None
    words = "; ".join(f"{why} (for {', '.join(rings)})" for why, rings in causes.items())
    pieces = list(dict.fromkeys(ring.piece for ring in unknown))
    whole = f"the {pieces[0]}" if len(pieces) == 1 else f"the {', '.join(pieces[:-1])} and {pieces[-1]}"
    ways = []
    if any("no line `stretch`" in ring.why for ring in unknown):
        ways.append("Pull the swatch as wide as is comfortable and write what it measures: `stretch 40 sts = 17.4 cm`.")
    if any("was not knitted in" in ring.why for ring in unknown):
        ways.append("Knit a swatch in the motif and pull that.")
    if any(ring.part and ring.part_cm is None for ring in unknown):
        part = next(ring.part for ring in unknown if ring.part and ring.part_cm is None)
        ways.append(f"Write the missing measure into the sizes, such as `measure {part} {EXAMPLES.get(part, 52)} cm`.")
    return Problem(
        "N607",
        f"not known whether {whole} can be put on: {words}",
        (Label(unknown[0].span, "this width, the first of them" if len(unknown) > 1 else "this width"),),
        help=" ".join(ways) or "Name the piece's width after a measure, such as `cast on head in plain`.",
    )


def ring_words(ring: Ring) -> str:
    """Name a ring as knitters do: "the sleeve at the wrist", "the facing of the hat's hem"."""
    known = {
        "facing of the hem": f"the facing of the {ring.piece}'s hem",
        "rib at the cast-on": f"the {ring.piece}'s ribbed cast-on",
        "cast-on edge": f"the {ring.piece}'s cast-on edge",
        "neck opening": "the neck opening",
        "band": f"the {ring.piece}",
        HOOD: f"the {ring.piece}'s width as a hood",
        AT_REST: f"the {ring.piece} at the hip, not pulled",
        "sleeve": f"the {ring.piece}'s sleeve",
        "cuff": f"the {ring.piece}'s cuff",
    }
    # A level that no measure names is called `body`, further ones `body-2` and so on.
    plain = f"the {ring.piece} itself" if ring.ring.partition("-")[0] == "body" else ""
    return known.get(ring.ring) or plain or f"the {ring.piece} at the {ring.ring.replace('-', ' ')}"
