"""What the counts of pieces in a motif are multiples of, as a knitter adds or leaves out a repeat."""

from __future__ import annotations

from collections.abc import Sequence

from wale.draft.repeats import kind_at
from wale.materials import Motif
from wale.plan import PiecePlan, Section


def multiples(motif: Motif, uses: Sequence[tuple[PiecePlan, Section]]) -> list[str]:
    """Tell of pieces that begin a motif in whole or half repeats what their counts are a multiple of.

    Args:
        uses: the pieces, each with its sections in this motif.
    """
    found: dict[str, list[str]] = {}
    seen: set[str] = set()
    for piece, section in uses:
        if piece.name in seen or section.fabric is None:
            continue
        seen.add(piece.name)
        level = piece.levels[section.first]
        kind = kind_at(section.fabric.fit, level.label)
        if kind not in ("whole", "half"):
            continue
        step = motif.width if kind == "whole" else motif.width // 2
        rest = (level.counts[0] - level.edges) % step
        text = f"a multiple of {step} sts{f' plus {rest}' if rest else ''}"
        if level.edges:
            text += f" and {level.edges} {'edge' if piece.steek is None else 'steek'} sts"
        found.setdefault(text, []).append(piece.name)
    return [f"Stitches where it begins, {', '.join(names)}: {text}." for text, names in found.items()]
