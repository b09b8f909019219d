"""Defaults that were used: each is noted as an assumption, printed in the pattern."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from wale.actions import CastOn, Fabric, Hem, Rib
from wale.materials import Swatch
from wale.resolve.context import Context
from wale.resolve.sizes import Sizing
from wale.sewn import is_sewn
from wale.spec import Band, Piece, Seam, SetIn

DEFAULTS_REST_ON = {"neck-width": ("neck-base", "cross-back"), "body-length": ("back-waist", "hip-length")}
"""Body measures from which a garment measure follows."""
RIB_RANGE = 10
"""Per cent that a rib may differ from the fabric whose gauge it takes; common practice, no source."""


def note_bodies(context: Context, sizing: Sizing, used: Iterable[str]) -> None:
    """Note body measures that are used and were estimated, or recalled from memory.

    Args:
        used: measures in the order of their first use, garment measures that follow from others among them.
    """
    names = dict.fromkeys(each for name in used for each in (name, *_under(sizing, name)))
    recalled: dict[str, None] = {}
    for name in names:
        found = [size.measures.get(name) for size in sizing.all]
        if any(one is not None and one.confidence == "estimated" for one in found) and None not in found:
            sources = tuple(one.source if one is not None and one.confidence == "estimated" else "" for one in found)
            values = tuple(one.value for one in found if one is not None)
            context.assume(f"The body's `{name}` is estimated at {{}}.", "", sizing.head, values, sources)
        if any(one is not None and one.confidence == "memory" for one in found):
            recalled[name] = None
    if recalled:
        first = next(iter(recalled))
        sources = tuple(
            one.source if (one := size.measures.get(first)) is not None and one.confidence == "memory" else ""
            for size in sizing.all
        )
        names_told = ", ".join(f"`{name}`" for name in recalled)
        text = f"Figures of the size table that are recalled, not seen again in its source: {names_told}."
        context.assume(text, "", sizing.head, (), sources)


def _under(sizing: Sizing, name: str) -> tuple[str, ...]:
    """The body measures from which a garment measure follows where no body states it."""
    rests = DEFAULTS_REST_ON.get(name, ())
    if not rests or sizing.knows(name):
        return ()
    known = [each for each in rests if all(each in size.measures for size in sizing.all)]
    return tuple(known[:1] if name == "neck-width" else known)


def note_edges(context: Context, pieces: Sequence[Piece], joins: Sequence[Seam | SetIn]) -> None:
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
    worked: dict[str, dict[str, None]] = {}
    for piece in pieces:
        swatch = ""
        for step in piece.steps:
            match step.action:
                case CastOn(swatch=name) | Fabric(swatch=name) | Hem(front=str(name)):
                    swatch = name
                case Rib() if swatch:
                    worked.setdefault(swatch, {})[piece.name] = None
    for band in bands:
        worked.setdefault(band.swatch, {})[band.name] = None
    for name, places in worked.items():
        taken = swatches[name]
        if not taken.stitch.startswith("rib"):
            fabric = taken.motif or taken.stitch
            context.assume(
                f"The rib of the {' and the '.join(places)} takes the gauge of the swatch `{name}` in {fabric}: it may "
                f"come out about {RIB_RANGE} % narrower or wider, and as much shorter or longer. A swatch in rib "
                f"(`fabric rib 2x2 in {taken.yarns[0]}`), named where the rib starts, gives its own gauge.",
                f"±{RIB_RANGE} %: common practice, no source",
            )
