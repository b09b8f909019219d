"""Mitres of a band: it turns the point of a V, or the two corners of a square neck, on a knit stitch of its rib.

That stitch is the middle of a knit rib, and the rib is the same on both of its sides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec.structs import replace

from wale.actions import Neck
from wale.plan import BandPlan, PiecePlan
from wale.problems.problem import Problem, problem
from wale.shaping.gauge import nearest
from wale.shaping.mitre import mitre_every, mitre_rounds
from wale.spec import Band, Spec

MITRED = ("V", "square")
"""Necks with a point or with corners."""
Parts = Sequence[tuple[str, list[int]]]


def mitred_neck(band: Band, pieces: Mapping[str, PiecePlan]) -> str:
    """Give the piece whose neck a band turns, or "" where none can be told."""
    names = [name for name, edge in band.edges if edge == "neck" and _curve(pieces[name]) in MITRED]
    whole = all(pieces[name].half is None for name, _ in band.edges)
    return names[0] if len(names) == 1 and whole and len(band.edges) > 1 else ""


def misplaced(band: Band, pieces: Mapping[str, PiecePlan]) -> Problem | None:
    """Say why a band cannot be mitred."""
    if band.rib.texture != "rib" or band.rib.knit % 2 == 0 or band.rib.twisted:
        help = "Write `1x1`, or leave `mitred` out."
        why = "a mitre stands on the middle stitch of a knit rib; this edge has none"
    elif band.is_open:
        why, help = f"the band {band.name} is mitred and open in front", "Leave `mitred` or `open in front` out."
    elif not mitred_neck(band, pieces):
        why = f"the band {band.name} is mitred, and not one of its edges is a V or square neck of a whole piece"
        help = "Pick it up along two necks, one of them `V` or `square`, such as `along back neck, front neck`."
    else:
        return None
    return problem("E405", why, band.rib.span, help=help)


def make_room(band: Band, pieces: Mapping[str, PiecePlan], parts: Parts, size: int) -> None:
    """Give the mitred neck the stitches with which its rib mirrors: its sides alike, its centre from rib to rib."""
    knit, unit = band.rib.knit, band.rib.knit + band.rib.purl
    centre = centre_of(band, pieces, parts)
    point = _curve(pieces[mitred_neck(band, pieces)]) == "V"
    parts[centre][1][size] = 1 if point else max(1, nearest(Fraction(parts[centre][1][size]), unit, 1))
    rest = side_rest(knit, unit, is_first=centre == 1)
    for side in (centre - 1, centre + 1):
        parts[side][1][size] = nearest(Fraction(parts[side][1][size]), unit, rest)


def side_rest(knit: int, unit: int, *, is_first: bool) -> int:
    """Give what a side of a mitred neck leaves over whole ribs: the round begins or ends with it."""
    return ((knit - 1) // 2 if is_first else -(knit + 1) // 2) % unit


def centre_of(band: Band, pieces: Mapping[str, PiecePlan], parts: Parts) -> int:
    """Give the part of a band that is the centre of the mitred neck, or -1."""
    name = mitred_neck(band, pieces) if band.mitred else ""
    return next((at for at, (part, _) in enumerate(parts) if part == f"the centre of the {name} neck"), -1)


def slant(spec: Spec, piece: PiecePlan, size: int) -> Fraction:
    """Give half the width of the opening at a mitre over its depth."""
    if _curve(piece) == "square" or piece.top is None:
        return Fraction(1)
    gauge = spec.swatches[piece.sections[-1].swatch].washed
    across = sum(piece.top.steps[size]) + Fraction(piece.top.centre[size], 2)
    return across / gauge.stitches / (piece.top.neck_rows[size] / gauge.rows)


def with_mitres(
    spec: Spec, band: Band, plan: BandPlan, pieces: Mapping[str, PiecePlan]
) -> tuple[BandPlan, Problem | None]:
    """Mark the stitches on which a band turns, and give its mitre rounds."""
    piece = pieces[mitred_neck(band, pieces)]
    at = next(at for at, (part, _) in enumerate(plan.picked) if part == f"the centre of the {piece.name} neck")
    marked, rounds = [], []
    for size, name in enumerate(spec.size_names):
        first = sum(counts[size] for _, counts in plan.picked[:at]) + 1
        wide, sides = plan.picked[at][1][size], [plan.picked[one][1][size] for one in (at - 1, at + 1)]
        every = mitre_every(plan.sts_per_cm, plan.rows_per_cm, slant(spec, piece, size))
        found = mitre_rounds(plan.rows[size], every)
        marked.append((first,) if wide == 1 else (first, first + wide - 1))
        rounds.append(found)
        if min(sides) <= len(found) or 1 < wide <= 2 * len(found) + 2:
            why = f"the {len(found)} mitre rounds of {band.name} take all stitches beside a corner in size {name}"
            return plan, problem("E405", why, band.rib.span, help="Make the band narrower.", size=name)
    return replace(plan, marked=tuple(marked), mitres=tuple(rounds)), None


def _curve(piece: PiecePlan) -> str:
    action = piece.top.neck_step.action if piece.top is not None and piece.top.neck_step is not None else None
    return action.curve if isinstance(action, Neck) else ""
