"""Necks, shoulders and crowns of the plan: fixed functions of the solved counts."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from operator import add

from wale.actions import Crown, Neck, Shoulders
from wale.draft.layout import Layout
from wale.draft.lengths import depth_key, slope_key
from wale.draft.plackets import foot, placket_key
from wale.draft.stating import at
from wale.draft.widths import front_sts, neck_key, neck_width, shoulder_key
from wale.measure import Measure
from wale.plan import CrownPlan, Top
from wale.shaping.crown import crown
from wale.shaping.neck import Neck as Curved
from wale.shaping.neck import boat_ends, boat_neck, neck_steps, scoop_neck, sloped_neck, with_placket
from wale.shaping.shoulders import shoulder_steps
from wale.spec import Spec


def plan_top(spec: Spec, layout: Layout, counts: Mapping[str, int], widths: Sequence[Mapping[str, Fraction]]) -> Top:
    """Lay out neck and shoulders of every size."""
    assert layout.neck is not None and layout.shoulders is not None
    neck, shoulders = layout.neck.action, layout.shoulders.action
    assert isinstance(neck, Neck) and isinstance(shoulders, Shoulders)
    sizes = range(len(spec.sizes))

    def of(key: str) -> tuple[int, ...]:
        return tuple(counts[at(key, spec, size)] for size in sizes)

    def wished(measure: Measure, made: Sequence[int], per_cm: Fraction) -> tuple[Fraction, ...]:
        return tuple(made[size] / per_cm if measure.is_count else measure.at(size, widths[size]) for size in sizes)

    stitches, held = of(neck_key(layout)), of(shoulder_key(layout))
    depth, slope = of(depth_key(layout)), of(slope_key(layout))
    gauge, placket = layout.levels[-1].swatch.washed, neck.placket
    # Steps stand on every second row after the neck's first; the last pair of rows stays straight.
    gaps = _gaps(layout, of)
    least = [gap + 2 * max(1, front_sts(layout)) for gap in gaps]
    if placket is not None:
        least = [foot(placket, stitches[size], gauge.stitches, size) for size in sizes]
    curves = [
        _curve(neck, across, max(1, depth[size] - 2), least[size], boat_ends(gauge.stitches))
        for size, across in enumerate(
            2 * one + gap if layout.piece.half else one for one, gap in zip(stitches, gaps, strict=True)
        )
    ]
    rows, slit, corner = depth, tuple[int, ...](), tuple[int, ...]()
    if placket is not None:
        slit = of(placket_key(layout))
        rows = tuple(map(add, depth, slit))
        corner = tuple((curve.centre - one) // 2 for curve, one in zip(curves, least, strict=True))
        curves = [with_placket(*one) for one in zip(curves, least, slit, strict=True)]
    return Top(
        stitches,
        held,
        rows,
        tuple(
            curve.centre if layout.piece.half is None else (curve.centre - gap) // 2
            for curve, gap in zip(curves, gaps, strict=True)
        ),
        tuple(curve.steps for curve in curves),
        slope,
        tuple(shoulder_steps(held[size], slope[size] // 2 + 1) for size in sizes),
        wished(neck_width(layout), stitches, gauge.stitches),
        wished(neck.depth, depth, gauge.rows),
        wished(shoulders.slope, slope, gauge.rows),
        layout.neck,
        layout.shoulders,
        shoulders.manner,
        slit,
        corner,
        wished(placket.length, slit, gauge.rows) if placket is not None else (),
    )


def _curve(neck: Neck, stitches: int, rows: int, least: int, ends: int) -> Curved:
    match neck.curve:
        case "V":
            sloped = sloped_neck(stitches, rows, least=least)
            assert sloped is not None, "the length model keeps enough rows"
            return sloped
        case "scoop":
            return scoop_neck(stitches, rows, least=least)
        case "boat":
            return boat_neck(stitches, rows, ends, least=least)
        case "round" | "square":
            return neck_steps(stitches, rows, curved=neck.curve == "round", least=least)


def _gaps(layout: Layout, of: Callable[[str], tuple[int, ...]]) -> tuple[int, ...]:
    """Give the stitches between two halves where the whole piece has its neck; less than 0 where their edges meet."""
    top = layout.levels[-1]
    if top.whole is None:
        return tuple(-1 for _ in of(top.key))
    return tuple(whole - 2 * half for whole, half in zip(of(top.whole), of(top.key), strict=True))


def plan_crown(spec: Spec, layout: Layout, counts: Mapping[str, int]) -> CrownPlan:
    """Lay out the crown of every size."""
    assert layout.crown is not None and isinstance(layout.crown.action, Crown)
    action = layout.crown.action
    draft = next(one for one in layout.sections if one.kind == "crown")
    sizes = range(len(spec.sizes))
    before = [counts[at(layout.levels[-1].key, spec, size)] for size in sizes]
    rounds = tuple(counts[at(draft.key, spec, size)] for size in sizes)
    starts, decreases, finals = [], [], []
    for size in sizes:
        if action.chart is not None:
            widths = [len(row) for row in spec.motifs[action.chart].rows]
            more = rounds[size] - len(widths)
            starts.append(widths[0] * action.wedges)
            decreases.append(
                tuple(
                    (number + more, width * action.wedges)
                    for number, (below, width) in enumerate(pairwise(widths), 2)
                    if width < below
                )
            )
            finals.append(widths[-1] * action.wedges)
            continue
        laid = crown(before[size], action.wedges, rounds[size])
        assert laid is not None, "the length model keeps enough rounds"
        starts.append(before[size] - before[size] % action.wedges)
        decreases.append(tuple((one.round, one.stitches) for one in laid.decreases))
        finals.append(laid.left)
    return CrownPlan(layout.crown, action.wedges, tuple(starts), rounds, tuple(decreases), tuple(finals))
