"""Picked-up bands: how many stitches along each edge, and rounds of rib.

One stitch for each stitch width of the edge's true length at the band's gauge: straight along bound-off stitches, by
the row gauge along rows, and the slant of a step by both. Source: docs/maths.md#pick-up-along-rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from wale.armholes import bound_edge, has_armholes, rows_edge
from wale.draft.band_ends import cannot_go_on, end_part, goes_up
from wale.draft.collars import collar_misplaced, with_collar
from wale.draft.mitres import centre_of, make_room, misplaced, with_mitres
from wale.draft.opened import cannot_open, front_neck, opened_parts, opens, overlap_too_wide
from wale.draft.pocket_edges import HELD, POCKET, has_pocket, held_parts, pocket_does_not_fit
from wale.plan import BandPlan, PiecePlan
from wale.problems.problem import Problem, problem
from wale.sewn import FRONT_EDGE, seams_of, taken_in_front
from wale.shaping.buttonholes import buttonholes, margin
from wale.shaping.gauge import nearest
from wale.shaping.pickup import along_rows, hypotenuse, pick_up_ratio
from wale.shaping.rib import rib_rule
from wale.spec import PLACKET_EDGES, Band, Spec

ARMHOLES = "armholes"
PIECES = 2
"""Pieces between which an armhole lies."""
STRAIGHT = ("the centre", "the front edge", "the edge", HELD)
"""How the names of parts begin that may take a stitch more or less."""


def plan_bands(spec: Spec, pieces: Sequence[PiecePlan]) -> tuple[tuple[BandPlan, ...], list[Problem]]:
    """Plan all bands."""
    bands: list[BandPlan] = []
    problems: list[Problem] = []
    by_name = {piece.name: piece for piece in pieces}
    for band in spec.bands:
        bad = [f"{piece} {edge}" for piece, edge in band.edges if not _is_there(spec, by_name, piece, edge)]
        holes = [piece for piece, edge in band.edges if edge == ARMHOLES]
        if not bad and holes and (len(holes) != PIECES or len(set(holes)) < PIECES or len(band.edges) > PIECES):
            bad = [f"{' and '.join(f'{piece} {edge}' for piece, edge in band.edges)}"]
        if bad:
            problems.append(
                problem(
                    "E503",
                    f"the band {band.name} cannot be picked up along {bad[0]}",
                    band.span,
                    help="A band is picked up along the shaped neck of a piece, such as `along back neck, front neck`, "
                    "along the front edge of a half piece, such as `along left-front front-edge`, or round the "
                    "armholes of two pieces that bind off at the sides or have the mark `underarm`, such as `along "
                    "back armholes, front armholes`; or over the stitches of a pocket, where a piece has one inset.",
                )
            )
            continue
        wrong = misplaced(band, by_name) if band.mitred else None
        wrong = wrong or cannot_open(band, by_name) or cannot_go_on(band, by_name, bands)
        if band.collar is not None:
            wrong = wrong or collar_misplaced(band, by_name)
        if wrong is not None:
            problems.append(wrong)
            continue
        planned = _band(spec, band, by_name, bands)
        if band.mitred:
            planned, wrong = with_mitres(spec, band, planned, by_name)
        elif band.collar is not None:
            planned, wrong = with_collar(spec, band, planned, by_name)
        planned = _with_holes(band, planned)
        wrong = wrong or overlap_too_wide(band, planned.picked)
        problems += [wrong] if wrong is not None else []
        if band.hood is not None and wrong is None:
            problems += _hood_does_not_fit(band, planned)
        elif planned.is_flat and (band.rib.twisted or band.rib.purls):
            message = f"the band {band.name} is worked flat, and its rib is twisted or corrugated"
            problems.append(problem("E405", message, band.rib.span, help="Write a plain rib, such as `rib 3 cm, 1x1`."))
        if band.folded and (planned.is_flat or band.mitred):
            message = f"the band {band.name} is {'worked flat' if planned.is_flat else 'mitred'} and folded"
            problems.append(problem("E405", message, band.rib.span, help="Fold bands in the round, without mitres."))
        problems += pocket_does_not_fit(spec, band, planned, by_name)
        wrong = _holes_do_not_fit(spec, band, planned)
        if wrong is not None:
            problems.append(wrong)
        bands.append(planned)
    return tuple(bands), problems


def _is_there(spec: Spec, pieces: dict[str, PiecePlan], name: str, edge: str) -> bool:
    piece = pieces.get(name)
    if piece is not None and edge == POCKET:
        return has_pocket(spec, name)
    if piece is None or edge not in PARTS:
        return False
    if edge == ARMHOLES:
        return has_armholes(piece)
    if edge in PLACKET_EDGES:
        return piece.top is not None and piece.top.has_placket
    return piece.top is not None if edge == "neck" else piece.half is not None and piece.half.band is None


def _band(spec: Spec, band: Band, pieces: dict[str, PiecePlan], before: Sequence[BandPlan]) -> BandPlan:
    swatch = spec.swatches[band.swatch]
    gauge = swatch.washed.stitches
    opened = opens(band, pieces)
    is_flat = opened or any(
        (pieces[name].half is not None and edge != ARMHOLES) or edge in (POCKET, *PLACKET_EDGES)
        for name, edge in band.edges
    )
    modulus, rest = (1, 0) if band.rib.multiple is None else rib_rule(*band.rib.multiple, in_round=not is_flat)
    parts: list[tuple[str, list[int]]] = []
    for name, edge in band.edges:
        found = held_parts(spec, pieces, name) if edge == POCKET else PARTS[edge](spec, pieces[name], gauge)
        # the second piece of an armhole runs back down to the underarm
        parts += found[::-1] if edge == ARMHOLES and parts else found
    if opened and (front := front_neck(band, pieces)) is not None:
        parts = opened_parts(band, front, {name: _edge_parts(spec, pieces[name], gauge) for name, _ in band.edges})
    if band.end:
        parts.insert(len(parts) if goes_up(band, pieces) else 0, end_part(band, before, gauge))
    # The last straight part takes up what the rib's multiple asks for, of a whole piece if there is one.
    turned = centre_of(band, pieces, parts)
    straight = [index for index, (name, _) in enumerate(parts) if name.startswith(STRAIGHT) and index != turned]
    whole = {f"{STRAIGHT[0]} of the {name} neck" for name, _ in band.edges if pieces[name].half is None}
    last = max([index for index in straight if parts[index][0] in whole] or straight)
    sizes = range(len(spec.sizes))
    totals = []
    for size in sizes:
        if turned >= 0:
            make_room(band, pieces, parts, size)
        exact = sum(part[size] for _, part in parts)
        total = nearest(Fraction(exact), modulus, rest)
        parts[last][1][size] += total - exact
        totals.append(total)
    layers = 2 if band.folded else 1
    rows = tuple(
        layers * int(band.rib.depth.at(size))
        if band.rib.depth.is_count
        else layers * nearest(band.rib.depth.at(size) * swatch.washed.rows)
        for size in sizes
    )
    picked = tuple((name, tuple(part)) for name, part in parts)
    planned = BandPlan(
        band.name,
        picked,
        tuple(totals),
        rows,
        swatch.washed.rows,
        gauge,
        band.span,
        is_flat,
        make=band.make,
        is_folded=band.folded,
    )
    if band.hood is not None:
        wide = [band.hood.at(size) * (1 if band.hood.is_count else gauge) for size in sizes]
        planned = replace(planned, hood=tuple(nearest(one, 2) for one in wide))
    return planned


def _with_holes(band: Band, plan: BandPlan) -> BandPlan:
    """Spread the buttonholes of a band, or of a collar along the right front."""
    holes, collar = band.buttonholes, plan.collar
    if holes is None:
        return plan
    gaps, middle = [], []
    for size, total in enumerate(plan.stitches):
        along = _along(plan, size)
        first = margin(holes.first.at(size), plan.sts_per_cm)
        found = buttonholes(along, holes.number, holes.each, first) or ()
        gaps.append((*found[:-1], found[-1] + total - along) if found else ())
        # in the middle of the band, on a right-side row: row 1 is a wrong-side row
        rows = plan.rows[size] if collar is None else collar.front(size)
        middle.append(nearest(Fraction(rows, 2), 2))
    return replace(plan, each=holes.each, hole_rows=tuple(middle), holes=tuple(gaps))


def _along(plan: BandPlan, size: int) -> int:
    """Give the stitches along which buttonholes lie: all of a band, those of the right front of a collar."""
    return plan.stitches[size] if plan.collar is None else plan.collar.ends[size][0]


def _hood_does_not_fit(band: Band, plan: BandPlan) -> list[Problem]:
    """A hood is worked flat along necks, without buttonholes, and gains at most a stitch between two."""
    span = band.rib.span
    if not plan.is_flat or any(edge != "neck" for _, edge in band.edges):
        help = (
            "Pick it up along a neck, such as `along front neck, back neck`, or `along right-front neck, back neck, "
            "left-front neck`."
        )
        return [problem("E405", f"the hood {band.name} is not picked up along a neck", span, help=help)]
    if band.buttonholes is not None or band.cord:
        help = "Leave out buttonholes and cord; a hood is joined at its top."
        return [problem("E405", f"the hood {band.name} has buttonholes or a cord", span, help=help)]
    for picked, wide in zip(plan.stitches, plan.hood, strict=True):
        if not 2 * picked > wide >= picked:
            message = f"the hood {band.name} has {wide} sts and the neck {picked}, which it cannot become on one row"
            return [problem("E405", message, span, help=f"Make it as wide as {picked} to {2 * picked - 1} sts are.")]
    return []


def _holes_do_not_fit(spec: Spec, band: Band, plan: BandPlan) -> Problem | None:
    holes = band.buttonholes
    if holes is None or band.hood is not None:
        return None
    if not {FRONT_EDGE, *PLACKET_EDGES} & {edge for _, edge in band.edges}:
        help = "Give them to a band along the front edge of a half piece, or along a placket."
        message = f"the band {band.name} has no front edge to button"
        return problem("E518", message, holes.span, help=help)
    if band.rib.texture == "rolled":
        help = "Work the band in rib, garter, seed or moss."
        return problem("E518", f"the band {band.name} rolls up over its buttonholes", holes.span, help=help)
    for size, name in enumerate(spec.size_names):
        if not plan.holes[size]:
            message = f"{holes.number} buttonholes of {holes.each} sts do not fit in the {_along(plan, size)} sts of "
            message += f"{band.name} in size {name}"
            help = "Write fewer or smaller ones, or let the first lie a stitch's width or more from the ends."
            return problem("E518", message, holes.span, help=help, size=name)
        rows = plan.rows[size] if plan.collar is None else plan.collar.base[size] + 1
        if rows - plan.hole_rows[size] < 2:
            message = f"the {rows} rows of {band.name} are too few for buttonholes in size {name}"
            return problem("E518", message, holes.span, help="Make the rib deeper: it takes 4 rows.", size=name)
    return None


def _edge_parts(spec: Spec, piece: PiecePlan, gauge: Fraction) -> list[tuple[str, list[int]]]:
    """Side, centre and side of one neck, in stitches of the band."""
    top = piece.top
    assert top is not None
    if piece.half is not None:
        return _half_neck_parts(spec, piece, gauge)
    body = spec.swatches[piece.sections[-1].swatch].washed
    sides, centres = [], []
    for size in range(len(spec.sizes)):
        steps = top.own_steps(size)
        slant = sum((hypotenuse(step / body.stitches, 2 / body.rows) for step in steps), Fraction(0))
        straight = (top.depth_rows(size) - 2 * len(steps)) / body.rows
        sides.append(nearest((slant + straight) * gauge))
        # a placket's foot is no part of the neck's edge
        across = top.own_centre(size) - (top.centre[size] if top.has_placket else 0)
        centres.append(nearest(across / body.stitches * gauge))
    return [
        (f"one side of the {piece.name} neck", sides),
        (f"the centre of the {piece.name} neck", centres),
        (f"the other side of the {piece.name} neck", list(sides)),
    ]


def _half_neck_parts(spec: Spec, piece: PiecePlan, gauge: Fraction) -> list[tuple[str, list[int]]]:
    """What is bound off at first and the side of half a neck, in the order in which they are picked up."""
    top, half = piece.top, piece.half
    assert top is not None and half is not None
    body = spec.swatches[piece.sections[-1].swatch].washed
    seam = taken_in_front(spec, next(one for one in spec.pieces if one.name == piece.name))
    sides, centres = [], []
    for size in range(len(spec.sizes)):
        steps = top.steps[size]
        slant = sum((hypotenuse(step / body.stitches, 2 / body.rows) for step in steps), Fraction(0))
        straight = (top.neck_rows[size] - 2 * len(steps)) / body.rows
        sides.append(nearest((slant + straight) * gauge))
        centres.append(nearest(max(0, top.centre[size] - seam) / body.stitches * gauge))
    parts = [(f"the centre of the {piece.name} neck", centres), (f"the side of the {piece.name} neck", sides)]
    # nothing lies along the first row of a V whose one stitch the band at the opening takes up
    parts = parts if any(centres) else parts[1:]
    return parts if half.hand == "right" else parts[::-1]


def _front_parts(spec: Spec, piece: PiecePlan, gauge: Fraction) -> list[tuple[str, list[int]]]:
    """The front edge of a half piece up to its neck, by the ratio of gauges."""
    found = []
    for size in range(len(spec.sizes)):
        found.append(sum(along_rows(rows, ratio) for rows, ratio in front_rows(piece, gauge, size)))
    return [(f"{STRAIGHT[1]} of the {piece.name}", found)]


def front_rows(piece: PiecePlan, gauge: Fraction, size: int) -> list[tuple[int, Fraction]]:
    """Give the rows of the front edge from the fold or cast-on up to the neck, each run with its ratio of stitches."""
    found = []
    # the neck of the half that opens at the left begins a row lower than that of the other
    left = piece.total_rows(size) - (piece.top.neck_rows[size] + 1 if piece.top is not None else 0)
    for section in piece.sections:
        rows = min(section.rows[size], left)
        left -= rows
        if rows and section.kind not in ("facing", "turning"):
            found.append((rows, pick_up_ratio(gauge, section.rows_per_cm)))
    return found


def _placket_parts(spec: Spec, piece: PiecePlan, gauge: Fraction) -> list[tuple[str, list[int]]]:
    """One edge of a placket from its foot up to the neck, by the ratio of gauges."""
    top, sizes = piece.top, range(len(spec.sizes))
    assert top is not None
    ratio = pick_up_ratio(gauge, piece.sections[-1].rows_per_cm)
    return [
        (f"{STRAIGHT[2]} of the {piece.name} placket", [along_rows(top.placket_rows[size], ratio) for size in sizes])
    ]


def _armhole_parts(spec: Spec, piece: PiecePlan, gauge: Fraction) -> list[tuple[str, list[int]]]:
    """What is bound off at the underarm, where there is, and the edge from there to the shoulder's tip."""
    sizes = range(len(spec.sizes))
    bound = [nearest(armhole_floor(spec, piece, size) * gauge) for size in sizes]
    edge = [nearest(rows_edge(piece, size) * gauge) for size in sizes]
    parts = [
        (f"the bound-off sts of the {piece.name} armhole", bound),
        (f"{STRAIGHT[2]} of the {piece.name} armhole", edge),
    ]
    return parts if any(bound) else parts[1:]


def armhole_floor(spec: Spec, piece: PiecePlan, size: int) -> Fraction:
    """Give the length in cm of what is bound off at one side, without the edge stitches that the seam takes up."""
    return max(Fraction(0), bound_edge(piece, size) - seams_of(spec, piece)[0] / piece.levels[-1].sts_per_cm)


PARTS = {
    "neck": _edge_parts,
    FRONT_EDGE: _front_parts,
    ARMHOLES: _armhole_parts,
    **dict.fromkeys(PLACKET_EDGES, _placket_parts),
}
"""By edge: its parts in stitches of the band."""
