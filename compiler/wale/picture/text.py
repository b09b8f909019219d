"""A motif as a block of the language, and yarns that are known by their colour alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wale.motifs.size import counted, size_words
from wale.picture.matching import Motif

MARKS = "-xo+*=%&"
"""Marks of the yarns in their order."""
FREE = {
    "rights": "whose picture it is, and what may be done with it",
    "credit": "who is thanked for it",
}
"""Lines that are left to fill in where nothing is told."""


def motif_text(name: str, yarns: Sequence[str], motif: Motif, shift: int, told: Mapping[str, str]) -> str:
    """Give the motif's block.

    Args:
        yarns: names, by the indexes in `motif`; those that do not occur are left out of the key.
        motif: rows from the bottom up.
        shift: stitches that the repeat above starts along.
        told: what is said of `source`, `rights` and `credit`.
    """
    used = {yarn for row in motif for yarn in row}
    key = ", ".join(f"|{MARKS[yarn]}| {yarns[yarn]}" for yarn in sorted(used))
    lines = [
        f"motif {name}",
        f"    repeat {size_words(len(motif[0]), len(motif))}",
        f"    key    {key}",
        *(f"    | {' '.join(MARKS[yarn] for yarn in row)} |" for row in reversed(motif)),
    ]
    if shift:
        lines.append(f"    next   shifts {counted(shift, 'st')}")
    for keyword in ("source", "rights", "credit"):
        if keyword in told:
            lines.append(f'    {keyword} "{told[keyword]}"')
        else:
            lines.append(f'    -- {keyword} "{FREE[keyword]}"')
    return "\n".join(lines) + "\n"


def yarns_text(colours: Mapping[str, str]) -> str:
    """Give blocks for yarns of which the colour alone is known; how thick they are is a guess, and says so."""
    return "\n".join(
        f"yarn {name}\n    count  class 3  -- a guess: write your yarn's own count\n    colour {colour}\n"
        for name, colour in colours.items()
    )
