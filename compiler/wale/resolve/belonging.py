"""Which blocks a line may stand in, by its keyword."""

from __future__ import annotations

from wale.resolve import constructions, heading, joins, making, motifs, sizes, steps, swatches, yarns

BLOCKS = {
    "pattern": heading.LINES,
    "yarn": yarns.LINES,
    "swatch": swatches.LINES,
    "motif": motifs.LINES,
    "sizes": sizes.LINES,
    "body": sizes.LINES,
    "piece": steps.LINES,
    "join": joins.JOIN_LINES,
    "band": joins.BAND_LINES,
    "make": making.LINES,
    "construction": constructions.LINES,
}
"""The lines of each block."""


def blocks_of(keyword: str) -> tuple[str, ...]:
    """Give the blocks that have such a line, in the order of the language; none where no block has."""
    return tuple(block for block, lines in BLOCKS.items() if keyword in lines)
