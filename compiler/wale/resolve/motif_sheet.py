"""A motif's lines, and the order in which motifs are made of one another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from wale.parse.tree import Block, Name, Statement
from wale.resolve.context import Context
from wale.resolve.shapes import Line


class Sheet(Struct, frozen=True):
    """A motif's lines; `sound` where all of them could be read."""

    block: Block
    base: Name | None
    lines: dict[str, list[Line]]
    bars: list[Statement]
    sound: bool

    def names(self) -> Iterator[Name]:
        """Give the motifs that it is made of."""
        if self.base is not None:
            yield self.base
        for line in (*self.lines.get("stack", ()), *self.lines.get("place", ())):
            if "MOTIF" in line.head.found:
                yield line.head.name("MOTIF")


def in_order(context: Context, sheets: Mapping[str, Sheet]) -> list[str]:
    """Give the names so that each stands after those it is made of; rings are reported and left out."""
    done: dict[str, bool] = {}
    for start in sheets:
        path: dict[str, Iterator[Name]] = {}
        following: str | None = start if start not in done else None
        while following is not None or path:
            if following is not None:
                path[following] = sheets[following].names()
                following = None
            current = next(reversed(path))
            for name in path[current]:
                if name.text in path:
                    _ring(context, [*path][[*path].index(name.text) :], name)
                    done.update(dict.fromkeys(path, False))
                elif name.text in sheets and name.text not in done:
                    following = name.text
                    break
            else:
                path.pop(current)
                done.setdefault(current, True)
    return [name for name, sound in done.items() if sound]


def _ring(context: Context, ring: list[str], name: Name) -> None:
    context.report(
        "E217",
        f"the motif `{name.text}` is made of itself: {' → '.join((*ring, name.text))}",
        name.span,
        "comes back to itself",
        "Write one of these motifs as rows.",
        also=[(context.places["motif", other], f"`{other}`") for other in ring if other != name.text],
    )
