"""How large motifs that are made of others may grow, each and all together."""

from __future__ import annotations

from msgspec import Struct

from wale.motifs.size import MOST_ROWS, MOST_STITCHES, counted
from wale.resolve.context import Context
from wale.source import Span

MOST_CELLS = 2_000_000
"""Cells that all composed motifs of a file may have together."""


class Room(Struct):
    """The cells that composed motifs have taken so far."""

    taken: int = 0

    def holds(self, context: Context, name: str, width: int, rows: int, place: Span, help: str) -> bool:
        """Say whether a motif of this size may be made, and count its cells; report it where not."""
        if width <= MOST_STITCHES and rows <= MOST_ROWS and self.taken + width * rows <= MOST_CELLS:
            self.taken += width * rows
            return True
        small = width <= MOST_STITCHES and rows <= MOST_ROWS
        context.report(
            "E249",
            f"the motifs that are made of others have more than {MOST_CELLS} cells together"
            if small
            else f"the motif `{name}` grows to {counted(width, 'st')} and {counted(rows, 'row')}",
            place,
            "too many" if small else f"at most {MOST_STITCHES} sts and {MOST_ROWS} rows",
            "Make fewer of them, or of smaller ones." if small else help,
        )
        return False
