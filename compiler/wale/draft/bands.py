"""Picked-up bands: how many stitches along each edge, and rounds of rib.

One stitch for each stitch width of the edge's true length at the band's gauge: straight along bound-off stitches, by
the row gauge along rows, and the slant of a step by both. Source: docs/maths.md#pick-up-along-rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import isqrt

from wale.plan import BandPlan, PiecePlan, Top
from wale.problems.problem import Problem, problem
from wale.shaping.gauge import nearest
from wale.spec import Band, Spec

PRECISION = 10**6


def plan_bands(spec: Spec, pieces: Sequence[PiecePlan]) -> tuple[tuple[BandPlan, ...], list[Problem]]:
    """Plan all bands."""
    bands, problems = [], []
    by_name = {piece.name: piece for piece in pieces}
    for band in spec.bands:
        bad = [f"{piece} {edge}" for piece, edge in band.edges if _top(by_name, piece) is None or edge != "neck"]
        if bad:
            problems.append(
                problem(
                    "E503",
                    f"the band {band.name} cannot be picked up along {bad[0]}",
                    band.span,
                    help="A band is picked up along the shaped neck of a piece, such as `along back neck, front neck`.",
                )
            )
            continue
        bands.append(_band(spec, band, by_name))
    return tuple(bands), problems


def _top(pieces: dict[str, PiecePlan], name: str) -> Top | None:
    return pieces[name].top if name in pieces else None


def _band(spec: Spec, band: Band, pieces: dict[str, PiecePlan]) -> BandPlan:
    swatch = spec.swatches[band.swatch]
    gauge = swatch.washed.stitches
    modulus = sum(band.rib.multiple or (1, 0))
    parts: list[tuple[str, list[int]]] = []
    for name, _ in band.edges:
        parts += _edge_parts(spec, pieces[name], gauge)
    # The last straight part takes up what the rib's multiple asks for.
    last = max(index for index, (name, _) in enumerate(parts) if name.startswith("the centre"))
    totals = []
    for size in range(len(spec.sizes)):
        exact = sum(part[size] for _, part in parts)
        total = nearest(Fraction(exact), modulus)
        parts[last][1][size] += total - exact
        totals.append(total)
    rows = tuple(
        int(band.rib.depth.at(size))
        if band.rib.depth.is_count
        else nearest(band.rib.depth.at(size) * swatch.washed.rows)
        for size in range(len(spec.sizes))
    )
    picked = tuple((name, tuple(part)) for name, part in parts)
    return BandPlan(band.name, picked, tuple(totals), rows, swatch.washed.rows, gauge, band.span)


def _edge_parts(spec: Spec, piece: PiecePlan, gauge: Fraction) -> list[tuple[str, list[int]]]:
    """Side, centre and side of one neck, in stitches of the band."""
    top = piece.top
    assert top is not None
    body = spec.swatches[piece.sections[-1].swatch].washed
    sides, centres = [], []
    for size in range(len(spec.sizes)):
        steps = top.steps[size]
        slant = sum((hypotenuse(step / body.stitches, 2 / body.rows) for step in steps), Fraction(0))
        straight = (top.neck_rows[size] - 2 * len(steps)) / body.rows
        sides.append(nearest((slant + straight) * gauge))
        centres.append(nearest(top.centre[size] / body.stitches * gauge))
    return [
        (f"one side of the {piece.name} neck", sides),
        (f"the centre of the {piece.name} neck", centres),
        (f"the other side of the {piece.name} neck", list(sides)),
    ]


def hypotenuse(across: Fraction, up: Fraction) -> Fraction:
    """Give the length of a slant to a millionth, in exact arithmetic."""
    square = across * across + up * up
    return Fraction(isqrt(square.numerator * PRECISION**2 // square.denominator), PRECISION)
