"""Where a motif comes from, whose it is, who is thanked: lines that change nothing, printed with its chart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from wale.materials import Motif, Origin
from wale.resolve.shapes import Line, Shape

LINES = {
    "source": Shape({"source TEXT": ()}),
    "rights": Shape({"rights TEXT": ()}),
    "credit": Shape({"credit TEXT": ()}),
}


def origin(lines: Mapping[str, list[Line]], made_of: Iterable[Motif]) -> Origin:
    """Give what is told of a motif's origin: its own lines, then those of the motifs that it is made of, each once."""
    own = [(keyword, line.head.text("TEXT")) for keyword in LINES for line in lines.get(keyword, ())]
    others = [told for motif in made_of for told in motif.origin]
    return tuple(dict.fromkeys([*own, *others]))
