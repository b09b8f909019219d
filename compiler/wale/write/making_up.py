"""Making up: seams, hems, set-in sleeves, pom-pom, tassel, washing."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.actions import Fold, Hem, PomPom, Tassel
from wale.armholes import cap_edges, has_bound_sides
from wale.checks.safety import young
from wale.draft.bands import ARMHOLES
from wale.draft.pocket_edges import POCKET
from wale.pattern import Paragraph
from wale.plan import PiecePlan, Plan
from wale.pockets import place_of
from wale.shaping.gauge import nearest
from wale.spec import Seam, SetIn, SewnOn, Spec
from wale.write.context import length_text, unit
from wale.write.finishing import sewing_yarn
from wale.write.joining import grafting
from wale.write.open_bands import collar_ends, placket_feet
from wale.write.steeks import cutting

FOLDS: dict[Fold, str] = {"purl ridge": "purl ridge", "picot": "row of eyelets", "slipped": "row of slipped stitches"}
"""As making up names the turning row of a hem."""


TASSEL_THICK, TASSEL_WAIST = Fraction(8, 10), Fraction(2)
"""How thick a tassel is, so that it takes the yarn that is reckoned, and how far below its top it is wound, in cm."""


def shoulder_steps(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Paragraph, ...]:
    """Give what comes before the bands: steeks to cut, blocking, and the seams that a band is picked up across."""
    several = len(plan.pieces) > 1 or any(piece.make > 1 for piece in plan.pieces)
    pieces, them = ("the pieces", "them") if several else ("the piece", "it")
    wash = f"Wash {pieces} as the swatch was washed, lay {them} flat to the measurements of the schematic"
    wash += f" and let {them} dry."
    seams = [join for join in spec.joins if isinstance(join, Seam) and _is_before_bands(spec, join)]
    cuts = (Paragraph(text) for text in cutting(plan))
    return (*cuts, Paragraph(wash), *(Paragraph(_seam(spec, plan, join, sizes)) for join in seams))


def finishing_steps(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Paragraph, ...]:
    """Give what comes last, in order."""
    items = []
    for join in spec.joins:
        if isinstance(join, SetIn):
            items.append(Paragraph(_set_in(spec, plan, join, sizes)))
        elif isinstance(join, SewnOn):
            items.append(Paragraph(_sewn_on(spec, plan, join, sizes)))
        elif not _is_before_bands(spec, join):
            items.append(Paragraph(_seam(spec, plan, join, sizes)))
    items += [Paragraph(text) for text in grafting(plan, sizes)]
    for piece in plan.pieces:
        items += [Paragraph(text) for text in _hem(spec, piece, sizes)]
    for number, band in enumerate(plan.bands):
        if band.is_folded:
            yarn = spec.swatches[spec.bands[number].swatch].yarns[0]
            text = (
                f"{band.name.capitalize()}: fold it in half to the inside and sew the bound-off edge in {yarn} to the "
            )
            items.append(
                Paragraph(f"{text}round of its picked-up sts, stitch by stitch, as loosely as the fabric gives.")
            )
    for piece in plan.pieces:
        for step in piece.steps:
            if isinstance(step.action, PomPom):
                items.append(Paragraph(_pom_pom(spec, step.action, sizes)))
            elif isinstance(step.action, Tassel):
                items.append(Paragraph(_tassel(spec, step.action, sizes)))
    items += [Paragraph(text) for text in (*collar_ends(spec, plan), *placket_feet(spec))]
    if len(spec.buttonholes) > sum(band.collar is not None for band in plan.bands if band.holes):
        items.append(Paragraph("Sew a button to the other band in front, opposite each buttonhole."))
    items.append(Paragraph("Weave in all ends on the wrong side."))
    return tuple(items)


def goes_round_armholes(spec: Spec) -> bool:
    """Say whether a band lies along armholes, which are round once the sides are sewn."""
    return any(edge == ARMHOLES for band in spec.bands for _, edge in band.edges)


def _is_before_bands(spec: Spec, join: Seam) -> bool:
    edges = ("shoulders", "sides") if goes_round_armholes(spec) else ("shoulders",)
    return any(edge in edges for _, edge in join.edges)


def _seam(spec: Spec, plan: Plan, join: Seam, sizes: Sequence[int]) -> str:
    sides = ", right sides together" if join.manner.startswith("three-needle") else ""
    pieces = [piece for name, _ in join.edges if (piece := plan.piece(name)) is not None]
    yarn = f" in {sewing_yarn(spec, pieces[0])}" if pieces else ""
    text = f"{_what(plan, join)}: {join.manner}{yarn}{sides}."
    tops = [piece.top for name, edge in join.edges if edge == "shoulders" and (piece := plan.piece(name)) is not None]
    if tops and tops[0] is not None:
        stitches = _bracket([str(tops[0].shoulder[size]) for size in sizes])
        text += f" {stitches} sts on each shoulder."
    if any(edge in ("sides", "sleeves") for _, edge in join.edges):
        taken = sorted({piece.edge.stitches for piece in pieces if not piece.in_round and piece.edge.stitches})
        if taken == [1]:
            text += " The edge stitch of each side goes into the seam."
        elif taken:
            stitches = " or ".join(str(number) for number in taken)
            text += f" The edge sts of each side ({stitches}) go into the seam."
    return text


def _what(plan: Plan, join: Seam) -> str:
    if any(edge != "sides" for _, edge in join.edges):
        return "Join " + " with ".join(f"{piece} {edge}".strip() for piece, edge in join.edges)
    bodies = [name for name, _ in join.edges if (piece := plan.piece(name)) is not None and piece.top is not None]
    seams = [f"the side seams of {' and '.join(bodies)}"] if bodies else []
    seams += [f"the {name} seams" for name, _ in join.edges if name not in bodies]
    return f"Close {' and '.join(seams)}"


def _set_in(spec: Spec, plan: Plan, join: SetIn, sizes: Sequence[int]) -> str:
    name, piece = join.piece, plan.piece(join.piece)
    slopes = any(body.top is not None and any(body.top.slope_rows) for body in plan.pieces)
    to = f"the underarm mark and {'where the slope starts' if slopes else 'the shoulder'}"
    text = f"Sew the {join.edge} of each {name} into an armhole, "
    text += f"between {to}, " if join.edge == "top" else "the bound-off sts of both underarms together, "
    text += "the middle of its top at the shoulder seam"
    if piece is None:
        return f"{text}."
    text += f", in {sewing_yarn(spec, piece)}."
    if join.edge == "cap":
        more = [cap_edges(plan, join, size) for size in sizes]
        eased = _bracket([str(length_text(spec, max(Fraction(0), cap - armhole))) for cap, armhole in more])
        return f"{text} Ease {eased} {unit(spec)} in, most of it over the top."
    widths = _bracket([str(length_text(spec, piece.levels[-1].width(size))) for size in sizes])
    text += f" The top is {widths} {unit(spec)} wide."
    if any(has_bound_sides(body) for body in plan.pieces if body.top is not None):
        text += " The upper ends of its seam go along the bound-off sts of the underarm."
    return text


def _sewn_on(spec: Spec, plan: Plan, join: SewnOn, sizes: Sequence[int]) -> str:
    places = [place for size in sizes if (place := place_of(plan, join, size)) is not None]
    pocket, under = plan.piece(join.piece), plan.piece(join.onto)
    assert pocket is not None and under is not None
    if join.is_inset:
        text = f"Sew the sides and the lower edge of each {pocket.name} to the wrong side of the {under.name}"
        text += f", in {sewing_yarn(spec, pocket)}"
        edged = any(edge == (join.onto, POCKET) for band in spec.bands for edge in band.edges)
        return f"{text}, and the ends of the pocket's edge to its right side." if edged else f"{text}."
    is_half = under.half is not None
    both = pocket.make == 2 and not is_half
    name = f"the two {pocket.name}s" if both else f"one {pocket.name}" if pocket.make == 2 else f"the {pocket.name}"
    start = "fold" if under.sections[0].kind == "facing" else "cast-on"
    rows = _bracket([str(place.rows) for place in places])
    up = _bracket([str(length_text(spec, place.up)) for place in places])
    text = f"Sew {name} onto the {under.name} by lower edge and sides, in {sewing_yarn(spec, pocket)}: the lower edge "
    text += f"{rows} rows ({up} {unit(spec)}) above the {start}, "
    if join.aside is None:
        return f"{text}its middle on that of the {under.name}."
    aside = _bracket([str(length_text(spec, place.aside)) for place in places])
    stitches = _bracket([str(place.stitches) for place in places])
    text += f"the nearer side {stitches} sts ({aside} {unit(spec)}) from the {'opening' if is_half else 'middle'}"
    return f"{text}{', one to the left of it and one to the right' if both else ''}."


def _hem(spec: Spec, piece: PiecePlan, sizes: Sequence[int]) -> list[str]:
    for step in piece.steps:
        if isinstance(step.action, Hem):
            if step.action.knitted_together:
                return []
            fold = FOLDS[step.action.fold]
            facing, above = piece.sections[0], piece.sections[2]
            depth = [nearest(facing.length(size) * above.rows_per_cm) for size in sizes]
            word = "round" if piece.in_round else "row"
            rows = _bracket([str(number) for number in depth])
            yarn = spec.swatches[piece.levels[0].swatch].yarns[0]
            narrow = _bracket([str(piece.levels[facing.first].counts[size]) for size in sizes])
            wide = _bracket([str(piece.levels[above.first].counts[size]) for size in sizes])
            return [
                f"{piece.name.capitalize()}: fold the hem along the {fold} and sew the cast-on edge in {yarn} to "
                f"the wrong side of {word} {rows} above the fold, stitch by stitch, as loosely as the fabric gives, "
                f"easing its {narrow} sts to {wide}."
            ]
    return []


def _pom_pom(spec: Spec, action: PomPom, sizes: Sequence[int]) -> str:
    size = _bracket([str(length_text(spec, action.diameter.at(number))) for number in sizes])
    text = f"Make a pom-pom of {size} {unit(spec)} in {action.yarn}. "
    if young(spec) == "babies":
        return text + "On a baby's garment leave it off, or sew it on so firmly that it stands a strong pull."
    return text + "Tie it to the crown from the inside with a bow, so that it comes off for washing."


def _tassel(spec: Spec, action: Tassel, sizes: Sequence[int]) -> str:
    """Tell a tassel; how it is made: http://knitsimplemag.com/Beyond-the-Basics/tassels."""
    size = _bracket([str(length_text(spec, action.length.at(number))) for number in sizes])
    thick, waist = (length_text(spec, cm) for cm in (TASSEL_THICK, TASSEL_WAIST))
    text = (
        f"Make a tassel of {size} {unit(spec)} in {action.yarn}: wrap the yarn round a card of that height until the "
    )
    text += f"strands, pressed together, are about {thick} {unit(spec)} thick. Tie them tightly at the upper edge, cut "
    text += f"them at the lower one, and wind the yarn firmly round them {waist} {unit(spec)} below the top. "
    if young(spec) == "babies":
        return text + "On a baby's garment leave it off, or sew it on so firmly that it stands a strong pull."
    return text + "Sew it on from the inside, firmly."


def _bracket(values: Sequence[str]) -> str:
    first, *rest = values
    return first if not rest or all(value == first for value in rest) else f"{first} ({', '.join(rest)})"
