"""What motifs are made from: yarns, motifs that are made already, and room."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from wale.materials import Motif, Yarn
from wale.parse.tree import Name
from wale.resolve.context import Context
from wale.resolve.motif_room import Room


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

    def yarn(self, name: Name) -> str | None:
        """Give a yarn's name, or None where it is unknown or broken."""
        return name.text if self.context.knows("yarn", name) and name.text in self.yarns else None
