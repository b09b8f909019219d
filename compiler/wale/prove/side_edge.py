"""Side edges that are shaped while a neck is worked: what goes at either side of a top on which row."""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import LEFT_DEC, RIGHT_DEC, insist
from wale.prove.needle import Needles

LEANS = {"right": LEFT_DEC, "left": RIGHT_DEC}
"""How the decreases of a side look from the right side."""
SIDE_EDGE = {
    ("right", "RS"): (True, "ssk"),
    ("right", "WS"): (False, "ssp"),
    ("left", "RS"): (False, "k2tog"),
    ("left", "WS"): (True, "p2tog"),
}
"""Whether rows of a side start there, and the decrease that leans with its edge."""


class SideEdges:
    """The side edges of a top; rows are numbered from its first one, and sides are those seen from the right side."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self._bound: dict[tuple[str, int], int] = {}
        self._shaped: dict[tuple[str, int], int] = {}
        self._marks: dict[str, list[tuple[str, int]]] = {}
        self._base = needles.done

    def tell(self, end: str, works: tuple[words.SideWork, ...], after: int) -> None:
        """Take what a line tells of one side, all of it above row `after`."""
        for work in works:
            insist(work.rows[0] > after, f"row {work.rows[0]} is worked already")
            after = work.rows[-1]
            for row in work.rows:
                if work.mark:
                    self._marks.setdefault(end, []).append((work.mark, self._base + row))
                elif work.bind_off:
                    insist(work.side == _side(row), f"row {row} of the top is no {work.side} row")
                    self.bind(end, row, work.bind_off)
                else:
                    told = [one for one in work.decreases if one.side == _side(row)]
                    insist(len(told) == 1, f"the line does not tell how a {_side(row)} row is shaped")
                    self.shape(end, row, told[0])

    def bind(self, end: str, row: int, stitches: int) -> None:
        """Bind off at the start of a row."""
        insist(SIDE_EDGE[end, _side(row)][0], f"{_side(row)} rows do not start at the {end} side")
        self._bound[end, row] = stitches

    def shape(self, end: str, row: int, told: words.SideDecrease) -> None:
        """Decrease at a side."""
        starts, decrease = SIDE_EDGE[end, _side(row)]
        insist(not told.is_band, f"there is no front band at the {end} side")
        insist(told.starts == starts, f"{_side(row)} rows do not {'start' if told.starts else 'end'} at the {end} side")
        insist(told.decrease == decrease, f"{told.decrease} does not lean with the {end} side of a {_side(row)} row")
        edge = self.needles.outside[end == "left"]
        insist(not self.needles.chart or told.edge == edge, f"the edge has {edge} sts, not {told.edge}")
        self._shaped[end, row] = told.edge

    def bound(self, end: str, row: int) -> int:
        """Give what a row binds off at a side."""
        return self._bound.get((end, row), 0)

    def is_shaped(self, end: str, row: int) -> bool:
        """Say whether a row is decreased at a side."""
        return (end, row) in self._shaped

    def settle(self, *ends: str) -> None:
        """Keep the marks of the sides that there are, which are the same at both."""
        told = [self._marks.get(end, []) for end in ends]
        insist(all(one == told[0] for one in told), "the sides are not marked on the same rows")
        self.needles.marks += told[0]

    def last(self, end: str) -> int:
        """Give the last row on which a side is shaped, 0 where it is not."""
        return max((row for side, row in (*self._bound, *self._shaped) if side == end), default=0)

    def go(self, end: str, row: int) -> int:
        """Let go on a row what goes at a side, and give the stitches."""
        bound = self.bound(end, row)
        gone = bound + self.is_shaped(end, row)
        if gone:
            needles, (right, left) = self.needles, self.needles.narrowed
            needles.bound_off += bound
            needles.narrowed = (right + gone, left) if end == "right" else (right, left + gone)
            needles.sides.append((self._base + row, end, gone))
        return gone

    def mark(self, ops: bytes, end: str, row: int) -> bytes:
        """Show a side's decrease among the stitches of a row, all of which are worked there."""
        if not self.is_shaped(end, row):
            return ops
        edge, made = self._shaped[end, row], bytearray(ops)
        insist(edge < len(made), f"there are no stitches to decrease inside {edge} edge sts")
        made[edge if end == "right" else len(made) - 1 - edge] = LEANS[end]
        return bytes(made)


def _side(row: int) -> str:
    return "RS" if row % 2 else "WS"
