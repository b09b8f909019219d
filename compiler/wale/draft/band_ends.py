"""Bands along an edge in front that go on along the end of another band: a button band beside a neckband."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from wale.plan import BandPlan, PiecePlan
from wale.problems.problem import Problem, problem
from wale.sewn import FRONT_EDGE
from wale.shaping.pickup import along_rows, pick_up_ratio
from wale.spec import PLACKET_EDGES, Band

Part = tuple[str, list[int]]


def goes_up(band: Band, pieces: Mapping[str, PiecePlan]) -> bool | None:
    """Say whether a band is picked up from below to the neck, as at the right as worn; None of another band."""
    if len(band.edges) != 1:
        return None
    ((name, edge),) = band.edges
    if edge in PLACKET_EDGES:
        return edge == PLACKET_EDGES[0]
    half = pieces[name].half if name in pieces else None
    return half.hand == "right" if half is not None and edge == FRONT_EDGE else None


def cannot_go_on(band: Band, pieces: Mapping[str, PiecePlan], before: Sequence[BandPlan]) -> Problem | None:
    """Say why a band cannot be picked up along the end of another one."""
    if not band.end:
        return None
    if goes_up(band, pieces) is None:
        message = f"the band {band.name} is picked up along the end of {band.end} and not along one edge in front"
        help = "Pick it up along a front edge or one edge of a placket, such as `right-front front-edge`, too."
        return problem("E503", message, band.span, help=help)
    other = next((one for one in before if one.name == band.end), None)
    if other is None:
        message = f"the band {band.name} is picked up along the end of {band.end}, which is not knitted yet"
        return problem("E503", message, band.span, help=f"Write the band {band.end} above this one.")
    if not other.is_flat or other.hood or other.collar is not None:
        what = "a hood" if other.hood else "a shawl collar" if other.collar is not None else "closed to a round"
        message = f"the band {band.end} is {what}, and has no end along which {band.name} could be picked up"
        return problem("E503", message, band.span, help=f"Leave `{band.end} end` out.")
    return None


def end_part(band: Band, before: Sequence[BandPlan], gauge: Fraction) -> Part:
    """Give the stitches along the end of another band, by the ratio of gauges."""
    other = next(one for one in before if one.name == band.end)
    ratio = pick_up_ratio(gauge, other.rows_per_cm)
    return f"the end of the {band.end}", [along_rows(rows, ratio) for rows in other.rows]
