"""Defaults that were used: each is noted as an assumption, printed in the pattern."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from wale.actions import CastOn, Fabric, Hem, Rib
from wale.materials import Swatch
from wale.resolve.context import Context
from wale.resolve.size_values import Sizing
from wale.sewn import is_sewn
from wale.spec import Band, Join, Piece, Size

DEFAULTS_REST_ON = {"neck-width": ("neck-base", "cross-back"), "body-length": ("back-waist", "hip-length")}
"""Body measures from which a garment measure follows."""
RIB_RANGE = 10
"""Per cent that a rib may differ from the fabric whose gauge it takes; common practice, no source."""


def note_bodies(context: Context, sizing: Sizing, used: Iterable[str]) -> None:
    """Note where the body measures that are used come from: their table, and which were estimated or recalled.

    Args:
        used: measures in the order of their first use, garment measures that follow from others among them.
    """
    sizes = sizing.all
    names: dict[str, set[int]] = {}
    for name in used:
        for number, size in enumerate(sizes):
            for each in _rests_on(size, name):
                names.setdefault(each, set()).add(number)

    def sources(name: str, confidence: str) -> tuple[str, ...]:
        found = [size.measures[name] if number in names[name] else None for number, size in enumerate(sizes)]
        return tuple(one.source if one is not None and one.confidence == confidence else "" for one in found)

    for name in names:
        if any(estimated := sources(name, "estimated")):
            values = tuple(size.measures[name].value for size in sizes if name in size.measures)
            told = len(values) == len(sizes)
            text = f"The body's `{name}` is estimated{' at {}' if told else ''}."
            context.assume(text, "", sizing.head, values if told else (), estimated)
    for confidence, how in (("confirmed", "as seen"), ("memory", "that are recalled, not seen again")):
        figures = {name: found for name in names if any(found := sources(name, confidence))}
        if figures:
            origins = tuple(next(filter(None, found), "") for found in zip(*figures.values(), strict=True))
            names_told = ", ".join(f"`{name}`" for name in figures)
            text = f"Figures of the size table `{sizing.group}` {how} in its source: {names_told}."
            context.assume(text, "", sizing.head, (), origins)
    if sizing.file:
        context.assume("The bodies are those of the table that the line `sizes from` names.", f'"{sizing.file}"')


def _rests_on(size: Size, name: str) -> tuple[str, ...]:
    """The body measures that a measure of a size comes from: itself, or those from which a garment measure follows."""
    if name in size.measures:
        return (name,)
    known = tuple(each for each in DEFAULTS_REST_ON.get(name, ()) if each in size.measures)
    return known[:1] if name == "neck-width" else known


def note_edges(context: Context, pieces: Sequence[Piece], joins: Sequence[Join]) -> None:
    """Note the edge stitches that no line asks for, and whether a seam takes them."""
    default = [piece for piece in pieces if not piece.in_round and piece.edge.span is None]
    for sewn, what in ((True, "taken up by the seam"), (False, "which no seam takes: they count as width")):
        names = [piece.name for piece in default if is_sewn(joins, piece) == sewn]
        if names:
            said = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
            have = f"{said} {'has' if len(names) == 1 else 'have'}"
            context.assume(f"The {have} 1 edge stitch on each side, {what}; a line `edge` changes it.")


def note_ribs(context: Context, pieces: Sequence[Piece], bands: Sequence[Band], swatches: Mapping[str, Swatch]) -> None:
    """Note each rib that takes the gauge of another fabric."""
    worked: dict[tuple[str, str], dict[str, None]] = {}
    corrugated = {band.name: None for band in bands if band.rib.purls is not None}
    for piece in pieces:
        swatch = ""
        for step in piece.steps:
            match step.action:
                case CastOn(swatch=name) | Fabric(swatch=name) | Hem(front=str(name)):
                    swatch = name
                case Rib(texture=kind) as rib if swatch:
                    worked.setdefault((swatch, kind), {})[piece.name] = None
                    if rib.purls is not None:
                        corrugated[piece.name] = None
    for band in bands:
        if band.hood is not None:
            text = f"The front edge of the {band.name}, a hood, is plain stockinette, which rolls outwards by itself."
            context.assume(text, "common practice, no source", band.span)
            continue
        worked.setdefault((band.swatch, band.rib.texture), {})[band.name] = None
    if corrugated:
        context.assume(
            f"The corrugated rib of the {' and the '.join(corrugated)} draws in and gives less than a rib in one yarn, "
            "for a strand lies behind all of its stitches.",
            "common practice, no source",
        )
    for (name, texture), places in worked.items():
        taken, of = swatches[name], " and the ".join(places)
        edging = texture if texture == "rib" else f"{texture} edge"
        if texture == "rolled":
            context.assume(
                f"The rolled edge of the {of} is plain stockinette that rolls up by itself; lengths count it unrolled.",
                "common practice, no source",
            )
        elif texture not in (taken.stitch, taken.stitch.split()[0]):
            fabric = taken.motif or taken.stitch
            own = {"rib": "fabric rib 2x2", "garter": "fabric garter"}.get(texture)
            way = (
                f"A swatch in {texture} (`{own} in {taken.yarns[0]}`), named where the {texture} starts, gives its own "
                "gauge."
                if own is not None
                else f"Write its depth in rows, counted on a swatch in {texture}, to have it exactly."
            )
            context.assume(
                f"The {edging} of the {of} takes the gauge of the swatch `{name}` in {fabric}: it may come out about "
                f"{RIB_RANGE} % narrower or wider, and as much shorter or longer. {way}",
                f"±{RIB_RANGE} %: common practice, no source",
            )
