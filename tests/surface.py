"""A knitted surface as a complex of stitches, edges and faces, built up along its rim, for tests of what was knitted.

Nodes are stitches, and each new stitch is sewn to the rim by triangles, so that courses, wales and the diagonals
between them are edges. The rim is one or several rings of corners: a corner is where a ring passes a stitch, and a
stitch has two where the fabric is only a chain of stitches there. Ends, counts and boundaries are reckoned from edges
and faces alone (networkx), not from the rings.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

import networkx as nx

AHEAD, BACK = 1, -1


@dataclass(eq=False)
class Corner:
    """Where a ring of the rim passes a stitch; `beside` and `edges` by direction."""

    stitch: int
    beside: dict[int, Corner] = field(default_factory=dict)
    edges: dict[int, int] = field(default_factory=dict)


class Surface:
    """Stitches, edges between two stitches, and faces as the edges round them."""

    def __init__(self) -> None:
        self.stitches = 0
        self.edges: list[tuple[int, int]] = []
        self.faces: list[tuple[int, ...]] = []

    def begin(self) -> Corner:
        """Make a first stitch, a ring of its own."""
        corner = self._corner()
        corner.beside = {AHEAD: corner, BACK: corner}
        return corner

    def sprout(self, at: Corner, way: int) -> Corner:
        """Chain a new stitch to a corner, out of the fabric; the corner itself stays behind it."""
        tip, after = self._corner(), Corner(at.stitch)
        edge = self._edge(at, tip)
        if at.beside[way] is at:
            self._tie(tip, at, edge, way)
        else:
            self._tie(after, at.beside[way], at.edges[way], way)
            self._tie(tip, after, edge, way)
        self._tie(at, tip, edge, way)
        return tip

    def over(self, at: Corner, way: int) -> Corner:
        """Set a new stitch on the edge from a corner to the next one."""
        following, old, new = at.beside[way], at.edges[way], self._corner()
        first, second = self._edge(at, new), self._edge(new, following)
        self.faces.append((old, first, second))
        self._tie(at, new, first, way)
        self._tie(new, following, second, way)
        return new

    def cover(self, corner: Corner) -> None:
        """Close the fabric over a corner: its neighbours come together, it is inside from now on."""
        before, after = corner.beside[BACK], corner.beside[AHEAD]
        edge = self._edge(before, after)
        self.faces.append((corner.edges[BACK], corner.edges[AHEAD], edge))
        self._tie(before, after, edge, AHEAD)

    def bridge(self, one: Corner, other: Corner, way: int) -> None:
        """Run the yarn from a corner to another that is not beside it; what lies between becomes a ring of its own."""
        edge = self._edge(one, other)
        near, far = Corner(one.stitch), Corner(other.stitch)
        self._tie(near, one.beside[way], one.edges[way], way)
        self._tie(other.beside[-way], far, other.edges[-way], way)
        self._tie(far, near, edge, way)
        self._tie(one, other, edge, way)

    def close(self, corner: Corner) -> None:
        """Close a whole ring with one face: drawn together, or grafted."""
        self.faces.append(tuple(step.edges[AHEAD] for step in ring(corner)))

    def _corner(self) -> Corner:
        self.stitches += 1
        return Corner(self.stitches - 1)

    def _edge(self, one: Corner, other: Corner) -> int:
        self.edges.append((one.stitch, other.stitch))
        return len(self.edges) - 1

    @staticmethod
    def _tie(one: Corner, other: Corner, edge: int, way: int) -> None:
        one.beside[way], other.beside[-way] = other, one
        one.edges[way] = other.edges[-way] = edge

    @property
    def euler(self) -> int:
        """Stitches less edges and faces: 2 less a hole for each ring of the rim, on a surface without handles."""
        return self.stitches - len(self.edges) + len(self.faces)

    @property
    def is_connected(self) -> bool:
        """Whether all stitches hang together."""
        return nx.is_connected(self.graph(range(len(self.edges))))

    @property
    def rims(self) -> tuple[frozenset[int], ...]:
        """The boundaries, each as its stitches: components of the edges that have one face.

        Raises:
            AssertionError: an edge has no face or more than two, or a boundary is no simple ring.
        """
        used = Counter(edge for face in self.faces for edge in face)
        assert set(used.values()) <= {1, 2} and len(used) == len(self.edges), "fabric on one or two sides of each edge"
        rim = self.graph(edge for edge, faces in used.items() if faces == 1)
        assert all(degree == 2 for _, degree in rim.degree), "a rim that touches itself"
        return tuple(frozenset(part) for part in nx.connected_components(rim))

    def graph(self, edges: object) -> nx.MultiGraph:
        """Give the graph of some edges."""
        found = nx.MultiGraph()
        found.add_edges_from((*self.edges[edge], edge) for edge in edges)  # type: ignore[attr-defined]
        return found


def ring(corner: Corner) -> list[Corner]:
    """Give the corners of a ring from one on, ahead."""
    found, step = [corner], corner.beside[AHEAD]
    while step is not corner:
        found.append(step)
        step = step.beside[AHEAD]
    return found
