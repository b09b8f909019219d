"""W613: a length far from its wish.

What: each length of a piece, the depth of a neck, the slope of shoulders, and the armhole edge, against what was asked.
Why: rows come in pairs, a shaping needs its rows, joined edges must agree; within the tolerance that may make of 2 cm
more than 3, and nobody asked for it.
Limits: more than a tenth and more than 0.5 cm; for the armhole edge more than 1 cm; our choice. A length that was
written in rows is kept exactly.
Example: `shape to 70 sts over 2 cm` from 60 sts. Instead: the length that it takes, or fewer stitches to change.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from wale.actions import Neck, Shoulders
from wale.plan import PiecePlan, Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words
from wale.source import Span
from wale.spec import SetIn, Spec

SHARE = Fraction(1, 10)
LEAST = Fraction(1, 2)
ARMHOLE = Fraction(1)

Pair = tuple[Fraction, Fraction]


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each line whose length misses its wish by far, once where pieces share it."""
    problems, seen = [], set[Span]()
    for piece in plan.pieces:
        for what, span, pairs in _lengths(plan, piece):
            far = [abs(got - wish) > max(LEAST, SHARE * wish) for got, wish in pairs]
            if any(far) and span not in seen:
                seen.add(span)
                words = _told(spec, plan, pairs, far)
                problems.append(_problem(f"{what} is {words}", span, "this length"))
    return [*problems, *_armholes(spec, plan)]


def _lengths(plan: Plan, piece: PiecePlan) -> Iterator[tuple[str, Span, list[Pair]]]:
    sizes = range(len(plan.sizes))
    for section in piece.sections:
        if section.wishes is not None and section.measure is not None:
            got = [section.wishes[size] + section.deviation(size) for size in sizes]
            yield section.address, section.measure.span, list(zip(got, section.wishes, strict=True))
    top = piece.top
    if top is None or top.neck_step is None or top.shoulder_step is None:
        return
    rows, neck, shoulders = piece.sections[-1].rows_per_cm, top.neck_step.action, top.shoulder_step.action
    if isinstance(neck, Neck) and not neck.depth.is_count:
        depths = [top.depth_rows(size) / rows for size in sizes]
        yield f"{piece.name}.neck", neck.depth.span, list(zip(depths, top.depth_wishes, strict=True))
    if isinstance(neck, Neck) and neck.placket is not None and not neck.placket.length.is_count:
        slits = [top.placket_rows[size] / rows for size in sizes]
        yield f"{piece.name}.placket", neck.placket.length.span, list(zip(slits, top.placket_wishes, strict=True))
    if isinstance(shoulders, Shoulders) and not shoulders.slope.is_count:
        slopes = [top.slope_rows[size] / rows for size in sizes]
        yield f"{piece.name}.shoulders", shoulders.slope.span, list(zip(slopes, top.slope_wishes, strict=True))


def _told(spec: Spec, plan: Plan, pairs: list[Pair], far: list[bool]) -> str:
    said = [
        f"{length_words(got, spec.units)} in size {name} where {length_words(wish, spec.units)} was asked"
        for (got, wish), name, is_far in zip(pairs, plan.sizes, far, strict=True)
        if is_far
    ]
    return said[0] if len(said) == 1 else f"{said[0]}, and so on in {len(said)} sizes"


def _problem(message: str, span: Span, label: str) -> Problem:
    return Problem(
        "W613",
        message,
        (Label(span, label),),
        help="Whole pairs of rows, the rows of a shaping or a joined edge need it. Write the length that you want.",
    )


def _armholes(spec: Spec, plan: Plan) -> list[Problem]:
    """The edge that a sleeve is sewn to: joined to its top, it may come out longer or shorter than the lines say."""
    joins = [join for join in spec.joins if isinstance(join, SetIn) and join.edge == "top"]
    for piece in plan.pieces if joins else ():
        pairs = _edge(plan, piece)
        if pairs is None:
            continue
        far = [abs(got - wish) > ARMHOLE for got, wish in pairs]
        if any(far):
            told = _told(spec, plan, pairs, far)
            words = f"the armhole edge of the {piece.name} is {told}, to fit the {joins[0].piece}'s top"
            return [_problem(words, joins[0].span, "joined here")]
    return []


def _edge(plan: Plan, piece: PiecePlan) -> list[Pair] | None:
    top, marks = piece.top, dict(piece.marks)
    if top is None or "underarm" not in marks or piece.sections[-1].wishes is None or not piece.sections[-1].to:
        return None
    below = next((i for i in range(len(piece.sections)) if piece.rows_to(i + 1, 0) == marks["underarm"][0]), None)
    if below is None or piece.sections[below].wishes is None or not piece.sections[below].to:
        return None
    last, start = piece.sections[-1], piece.sections[below]
    assert last.wishes is not None and start.wishes is not None
    return [
        (
            last.position[size] - start.position[size] - top.slope_rows[size] / last.rows_per_cm,
            last.wishes[size] - start.wishes[size] - top.slope_wishes[size],
        )
        for size in range(len(plan.sizes))
    ]
