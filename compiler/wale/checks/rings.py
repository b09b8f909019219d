"""W606 and N607: will it go on?

What: each ring of the garment against the part of the body it must pass: every ring of a body (hem, waist, bust) the
larger of bust and shoulder girth, a neck the head, a cuff and sleeve the hand, a hat the head.
Why: a garment may fit where it sits and still not get there.
Rule: finished girth * (1 + give) >= part; give as the swatch was pulled. A facing is sewn down, so it is a ring of its
own; rib is taken to give like its swatch, a band's loose bind-off like its fabric. Without a stretched swatch, or
without the measure, it is "not known", never "goes on".
Example: a cuff of 18 cm that gives 10 %, for a hand of 21 cm. Instead: more ease, or a fabric that gives more.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from wale.draft.bands import hypotenuse
from wale.plan import Level, PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.quantity import show_cm, show_decimal
from wale.source import Span
from wale.spec import SetIn, Size, Spec

Verdict = Literal["goes on", "too tight", "not known"]

BODY, HEAD, HAND = ("bust", "shoulder-girth"), ("head",), ("hand",)
PARTS_BY_MEASURE = {
    **dict.fromkeys(("bust", "waist", "hip", "shoulder-girth", "cross-back"), BODY),
    **dict.fromkeys(("head", "neck-base"), HEAD),
    **dict.fromkeys(("wrist", "hand", "upper-arm"), HAND),
}
"""What a round piece must pass, by the measure that its width is written with."""
PARTS_BY_NAME = {
    **dict.fromkeys(("hat", "cap", "beret", "tam", "bonnet", "balaclava", "cowl", "snood", "headband"), HEAD),
    **dict.fromkeys(("mitten", "mitt", "glove", "cuff", "sleeve", "wristwarmer"), HAND),
    **dict.fromkeys(("body", "pullover", "jumper", "sweater", "vest", "yoke", "slipover"), BODY),
}
"""What a round piece must pass by its name, where its width names no measure."""


@dataclass(frozen=True, slots=True)
class Ring:
    """One ring in one size.

    Attributes:
        give: width pulled / width at rest, less 1; None where no swatch was stretched.
        part: the measure it must pass; "" where the file does not tell.
        part_cm: None where that measure is not known.
        source: where the measure comes from; `estimated` where by a rule.
        why: what is not known, in words, or "".
        span: the line that sets the girth.
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

    @property
    def needed_cm(self) -> Fraction | None:
        """The finished girth that would do, or None where it is not known."""
        return None if self.give is None or self.part_cm is None else self.part_cm / (1 + self.give)


@dataclass(frozen=True, slots=True)
class _Shape:
    """A ring before it is held against a body: girth of each size, fabrics that hold it, parts it must pass."""

    piece: str
    name: str
    girths: tuple[Fraction, ...]
    swatches: tuple[str, ...]
    parts: tuple[str, ...]
    span: Span


def rings(spec: Spec, plan: Plan) -> tuple[Ring, ...]:
    """Hold each ring against the part that it must pass, size by size."""
    return tuple(_judge(spec, shape, index) for shape in _shapes(spec, plan) for index in range(len(plan.sizes)))


def bodies_of(plan: Plan) -> tuple[PiecePlan, ...]:
    """Give the flat pieces with shoulders that make up a body."""
    return tuple(piece for piece in plan.pieces if piece.top is not None)


def _shapes(spec: Spec, plan: Plan) -> Iterable[_Shape]:
    bodies = bodies_of(plan)
    sizes = range(len(plan.sizes))
    if sum(piece.make for piece in bodies) > 1:
        for level in bodies[0].levels:
            same = [(piece, found) for piece in bodies if (found := piece.level(level.label)) is not None]
            if len(same) == len(bodies):
                girths = tuple(sum((one.width(s) * piece.make for piece, one in same), Fraction(0)) for s in sizes)
                swatches = tuple(dict.fromkeys(one.swatch for _, one in same))
                yield _Shape("body", _ring_name(bodies[0], level), girths, swatches, BODY, level.measure.span)
        yield from _necks(spec, plan, bodies)
    sleeves = {join.piece for join in spec.joins if isinstance(join, SetIn)}
    for piece in plan.pieces:
        if piece.name in sleeves or piece.in_round:
            yield from _tube(piece, HAND if piece.name in sleeves else None, sizes)


def _tube(piece: PiecePlan, parts: tuple[str, ...] | None, sizes: Sequence[int]) -> Iterable[_Shape]:
    named = [name for level in piece.levels for name in level.measure.names if name in PARTS_BY_MEASURE]
    passes = parts or (PARTS_BY_MEASURE[named[0]] if named else PARTS_BY_NAME.get(piece.name.rstrip("s"), ()))
    passes = passes or (HEAD if piece.crown is not None else ())
    for level in piece.levels:
        girths = tuple(level.width(size) for size in sizes)
        name = _ring_name(piece, level)
        yield _Shape(piece.name, name, girths, (level.swatch,), passes, level.measure.span)


def _ring_name(piece: PiecePlan, level: Level) -> str:
    if level is not piece.levels[0]:
        return level.label
    first = piece.sections[0].kind if piece.sections else "work"
    return {"facing": "facing of the hem", "rib": "rib at the cast-on"}.get(first, "cast-on edge")


def _necks(spec: Spec, plan: Plan, bodies: Sequence[PiecePlan]) -> Iterable[_Shape]:
    swatches = tuple(dict.fromkeys(piece.sections[-1].swatch for piece in bodies))
    spans = [piece.top.neck_step.action.span for piece in bodies if piece.top is not None and piece.top.neck_step]
    girths = tuple(sum((neck_edge(spec, piece, s) for piece in bodies), Fraction(0)) for s in range(len(plan.sizes)))
    yield _Shape("body", "neck opening", girths, swatches, HEAD, spans[0] if spans else bodies[0].span)
    for number, band in enumerate(plan.bands):
        around = tuple(stitches / band.sts_per_cm for stitches in band.stitches)
        yield _Shape(band.name, "band", around, (spec.bands[number].swatch,), HEAD, band.span)


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
    stretches = [spec.swatches[name].stretch for name in shape.swatches]
    pulled = [one for one in stretches if one is not None]
    give = min(pulled) - 1 if pulled and len(pulled) == len(stretches) else None
    known = {part: size.measures[part] for part in shape.parts if part in size.measures}
    part = max(known, key=lambda name: known[name].value, default=shape.parts[-1] if shape.parts else "")
    whole = bool(shape.parts) and len(known) == len(shape.parts)
    tight = give is not None and part in known and girth * (1 + give) < known[part].value
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
        found.value if found else None,
        found.source if found else "",
        found is not None and found.confidence == "estimated",
        verdict,
        why,
        shape.span,
    )


def _unknown(shape: _Shape, size: Size, give: Fraction | None) -> str:
    if not shape.parts:
        return "the file does not tell what it goes over"
    missing = [part for part in shape.parts if part not in size.measures]
    reasons = [f"no {part} is known" for part in missing]
    if give is None:
        reasons.append(f"the swatch {' or '.join(shape.swatches)} was not stretched")
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
            problems.append(_too_tight(piece, name, tight))
    unknown = [ring for ring in found if ring.verdict == "not known"]
    if unknown:
        problems.append(_not_known(unknown))
    return problems


def _too_tight(piece: str, name: str, tight: Sequence[Ring]) -> Problem:
    figures = "; ".join(
        f"{ring.size}: {show_cm(ring.girth_cm)} cm, {show_cm(ring.girth_cm * (1 + (ring.give or 0)))} cm pulled, for "
        f"{show_cm(ring.part_cm or Fraction(0))} cm"
        for ring in tight
    )
    wanted = ", ".join(f"{ring.size} {show_cm(ring.needed_cm or Fraction(0))} cm" for ring in tight)
    part = tight[0].part
    guessed = f" The {part} is estimated: {tight[0].source}." if any(ring.estimated for ring in tight) else ""
    return Problem(
        "W606",
        f"{name}, {piece}: may not pass the {part} ({figures})",
        (Label(tight[0].span, "this width"),),
        help=f"At this give ({_percent(tight)}) it needs a finished girth of {wanted}.{guessed}",
        size=tight[0].size if len(tight) == 1 else "",
    )


def _percent(tight: Sequence[Ring]) -> str:
    return f"{show_decimal((tight[0].give or Fraction(0)) * 100, 0)} %"


def _not_known(unknown: Sequence[Ring]) -> Problem:
    names: dict[str, dict[str, None]] = {}
    for ring in unknown:
        names.setdefault(ring.why, {})[f"{ring.ring}, {ring.piece}"] = None
    words = "; ".join(f"{' and '.join(rings)}: {why}" for why, rings in names.items())
    ways = []
    if any(ring.give is None for ring in unknown):
        ways.append("Stretch the swatch and write such as `stretch 40 sts = 17.4 cm`.")
    if any(ring.part and ring.part_cm is None for ring in unknown):
        ways.append("Write the missing measure, such as `measure head 52 cm`.")
    return Problem(
        "N607",
        f"it is not known whether it goes on ({words})",
        (Label(unknown[0].span, "the first of these"),),
        help=" ".join(ways) or "Name the piece's width after a measure, such as `cast on head in plain`.",
    )
