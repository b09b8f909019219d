"""What motifs are made from: yarns, motifs that are made already, and room."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from wale.materials import Motif, Yarn
from wale.parse.tree import Name
from wale.resolve.context import Context
from wale.resolve.motif_room import Room
from wale.source import Span
from wale.stitches import TEXTURE


class Kit(Struct, frozen=True):
    """What motifs are made from: the yarns, the motifs that are made so far, and the room left."""

    context: Context
    yarns: Mapping[str, Yarn]
    motifs: Mapping[str, Motif]
    room: Room

    def motif(self, name: Name) -> Motif | None:
        """Give a motif that another is made of; a wedge is reported, a broken one is silent."""
        found = self.motifs.get(name.text) if self.context.knows("motif", name) else None
        if found is not None and found.wedge:
            self.context.report(
                "E245",
                f"the motif `{name.text}` is a wedge, and of wedges no other motif is made",
                name.span,
                "a wedge",
                "Name a motif whose rows are of one length.",
                also=[(found.span, "the motif")],
            )
            return None
        return found

    def plain(self, name: Name) -> tuple[str, bool] | None:
        """Give a yarn's name, or a stitch and that it is one; None where it is neither or broken."""
        if name.text in TEXTURE and name.text not in self.yarns:
            return name.text, True
        return (name.text, False) if self.context.knows("yarn", name) and name.text in self.yarns else None

    def is_texture(self, places: Sequence[Span], parts: Sequence[bool]) -> bool | None:
        """Say whether a motif made of some parts is a texture; None after a report where only some of them are."""
        if len(set(parts)) == 1:
            return parts[0]
        self.context.report(
            "E256",
            "a motif is a texture or in colours, not both",
            places[parts.index(not parts[0])],
            "a texture" if parts[0] is False else "in colours",
            "Make it of textures only, their plain rows and ground `knit` or `purl`, or of colours only.",
            also=[(places[0], "a texture" if parts[0] else "in colours")],
        )
        return None
