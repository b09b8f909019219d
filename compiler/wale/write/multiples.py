"""What the counts of pieces in a motif are multiples of, as a knitter adds or leaves out a repeat."""

from __future__ import annotations

from msgspec import Struct

from wale.draft.repeats import kind_at
from wale.materials import Motif
from wale.plan import PiecePlan, Plan, Section


class Multiple(Struct, frozen=True):
    """Of what the counts are a multiple where pieces begin a motif: of `step` sts, plus `rest` and `edges`.

    Attributes:
        rest: what makes both sides alike.
        edges: stitches outside the motif, `outside` says which: "edge" or "steek".
        pieces: their names.
    """

    step: int
    rest: int
    edges: int
    outside: str
    pieces: tuple[str, ...]

    def words(self) -> str:
        """Tell it."""
        rest = f" plus {self.rest}" if self.rest else ""
        edges = f" and {self.edges} {self.outside} sts" if self.edges else ""
        return f"Stitches where it begins, {', '.join(self.pieces)}: a multiple of {self.step} sts{rest}{edges}."


def multiples(plan: Plan, motif: Motif, in_round: bool) -> list[Multiple]:
    """Give the multiples of the pieces that begin a motif in whole or half repeats, flat or in the round."""
    found: dict[tuple[int, int, int, str], list[str]] = {}
    for piece in plan.pieces:
        section = next((one for one in piece.sections if one.fabric and one.fabric.motif == motif.name), None)
        if section is None or piece.in_round is not in_round:
            continue
        step = _step(motif, section, piece)
        if step:
            level = piece.levels[section.first]
            outside = "edge" if piece.steek is None else "steek"
            key = (step, (level.counts[0] - level.edges) % step, level.edges, outside)
            found.setdefault(key, []).append(piece.name)
    return [Multiple(*key, tuple(names)) for key, names in found.items()]


def _step(motif: Motif, section: Section, piece: PiecePlan) -> int:
    """Give the stitches that come or go together where a section begins, 0 where part repeats are good."""
    assert section.fabric is not None
    kind = kind_at(section.fabric.fit, piece.levels[section.first].label)
    return motif.width if kind == "whole" else motif.width // 2 if kind == "half" else 0
