"""Making up: seams, hems, set-in sleeves, pom-pom, washing."""

from __future__ import annotations

from collections.abc import Sequence

from wale.pattern import Paragraph, Steps
from wale.plan import PiecePlan, Plan
from wale.quantity import show_cm
from wale.spec import Hem, PomPom, Seam, Spec
from wale.write.context import length_text, unit


def making_up(spec: Spec, plan: Plan, sizes: Sequence[int]) -> Steps:
    """Give the steps that finish the garment, in order."""
    items = [Paragraph("Wash the pieces as the swatch was washed, lay them flat to the schematic's measurements, dry.")]
    for join in spec.joins:
        if isinstance(join, Seam):
            items.append(Paragraph(_seam(spec, plan, join, sizes)))
        else:
            items.append(Paragraph(_set_in(spec, plan, join.piece, sizes)))
    for piece in plan.pieces:
        items += [Paragraph(text) for text in _hem(piece, sizes)]
    for piece in plan.pieces:
        items += [Paragraph(_pom_pom(step.action, sizes)) for step in piece.steps if isinstance(step.action, PomPom)]
    items.append(Paragraph("Weave in all ends on the wrong side."))
    return Steps(tuple(items))


def _seam(spec: Spec, plan: Plan, join: Seam, sizes: Sequence[int]) -> str:
    text = f"{_what(plan, join)}: {join.manner}."
    tops = [piece.top for name, edge in join.edges if edge == "shoulders" and (piece := plan.piece(name)) is not None]
    if tops and tops[0] is not None:
        stitches = _bracket([str(tops[0].shoulder[size]) for size in sizes])
        text += f" {stitches} sts on each shoulder."
    if any(edge in ("sides", "sleeves") for _, edge in join.edges):
        taken = sorted({piece.edge.stitches for piece in plan.pieces if not piece.in_round})
        stitches = " or ".join(str(number) for number in taken)
        text += f" The edge stitch of each side ({stitches} st) goes into the seam."
    return text


def _what(plan: Plan, join: Seam) -> str:
    if any(edge != "sides" for _, edge in join.edges):
        return "Join " + " with ".join(f"{piece} {edge}".strip() for piece, edge in join.edges)
    bodies = [name for name, _ in join.edges if (piece := plan.piece(name)) is not None and piece.top is not None]
    seams = [f"the side seams of {' and '.join(bodies)}"] if bodies else []
    seams += [f"the {name} seams" for name, _ in join.edges if name not in bodies]
    return f"Close {' and '.join(seams)}"


def _set_in(spec: Spec, plan: Plan, name: str, sizes: Sequence[int]) -> str:
    text = (
        f"Sew the top of each {name} into an armhole, between the underarm mark and where the slope starts, the middle "
    )
    text += "of its top at the shoulder seam."
    piece = plan.piece(name)
    if piece is not None:
        widths = _bracket([str(length_text(spec, piece.levels[-1].width(size))) for size in sizes])
        text += f" The top is {widths} {unit(spec)} wide."
    return text


def _hem(piece: PiecePlan, sizes: Sequence[int]) -> list[str]:
    for step in piece.steps:
        if isinstance(step.action, Hem):
            if step.action.knitted_together:
                return []
            rows = _bracket([str(piece.sections[0].rows[size]) for size in sizes])
            word = "rounds" if piece.in_round else "rows"
            return [
                f"{piece.name.capitalize()}: fold the hem along the purl ridge and sew its facing of {rows} {word} to "
                "the wrong side of the fabric, stitch by stitch and as loosely as the fabric gives."
            ]
    return []


def _pom_pom(action: PomPom, sizes: Sequence[int]) -> str:
    size = _bracket([show_cm(action.diameter.at(number)) for number in sizes])
    return (
        f"Make a pom-pom of {size} cm in {action.yarn}. Tie it to the crown from the inside with a bow, so that it "
        "comes off for washing."
    )


def _bracket(values: Sequence[str]) -> str:
    first, *rest = values
    return first if not rest or all(value == first for value in rest) else f"{first} ({', '.join(rest)})"
