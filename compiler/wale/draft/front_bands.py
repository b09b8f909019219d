"""Buttonholes of a band that is worked along with a half piece: on which rows they are worked."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate

from msgspec.structs import replace

from wale.plan import PiecePlan
from wale.problems.problem import Problem, problem
from wale.shaping.buttonholes import buttonholes, margin
from wale.spec import Spec


def place_buttonholes(spec: Spec, pieces: Sequence[PiecePlan]) -> tuple[tuple[PiecePlan, ...], list[Problem]]:
    """Place the buttonholes of all front bands."""
    problems: list[Problem] = []
    placed = []
    for piece in pieces:
        holes = piece.half.holes if piece.half is not None else None
        if holes is None:
            placed.append(piece)
            continue
        rows = tuple(hole_rows(piece, size) for size in range(len(spec.sizes)))
        placed.append(replace(piece, hole_rows=rows))
        short = next((size for size, found in enumerate(rows) if not found), None)
        if short is not None:
            name = spec.size_names[short]
            message = f"{holes.number} buttonholes do not fit in the front edge of the {piece.name} in size {name}"
            help = "Write fewer ones, or let the first lie a row's height or more from the ends."
            problems.append(problem("E518", message, holes.span, help=help, size=name))
    return tuple(placed), problems


def hole_rows(piece: PiecePlan, size: int) -> tuple[int, ...]:
    """Give the right-side rows of the piece on which buttonholes are worked; none where they do not fit.

    They are spread over the pairs of rows up to the neck by the rule of picked-up bands, a pair for each hole
    (docs/maths.md#buttonholes).
    """
    holes = piece.half.holes if piece.half is not None else None
    if holes is None:
        return ()
    pairs, first = hole_pairs(piece, size), margin(holes.first.at(size), Fraction(piece.sections[-1].rows_per_cm, 2))
    gaps = buttonholes(pairs, holes.number, 1, first)
    if gaps is None:
        return ()
    below = accumulate(gaps[:-1], lambda before, gap: before + 1 + gap)
    return tuple(2 * pair + 1 for pair in below)


def hole_pairs(piece: PiecePlan, size: int) -> int:
    """Give the pairs of rows from the cast-on to the neck of a half piece."""
    neck = piece.top.neck_rows[size] if piece.top is not None else -1
    # the neck of the left half begins on a wrong-side row, one row lower than that of the right one
    return (piece.total_rows(size) - neck - 1) // 2
