"""Needles over a `Surface`: stitch by stitch, each new one between the one before it and the next on the needle."""

from __future__ import annotations

from surface import AHEAD, Corner, Surface

from wale.prove.hand_words import HandRow
from wale.prove.row_work import MAKES

Needle = list[Corner | None]
"""Stitches in working order; None is a marker."""


class SurfaceNeedles:
    """`left` is still to work, `right` is worked, `holders` wait; `way` is how rows run along the rim."""

    def __init__(self) -> None:
        self.surface = Surface()
        self.left: Needle = []
        self.right: Needle = []
        self.holders: list[list[Corner]] = []
        self.yarn: Corner | None = None
        self.way, self.is_round = AHEAD, False
        self.told: dict[int, HandRow] = {}
        self.latest: list[HandRow] = []
        self.bound: set[int] = set()
        self.doubles: set[Corner] = set()
        self.near: list[Corner] = []
        """Stitches left on the holder that the row takes some from."""
        self.rows = self.begun = self.wedges = 0
        self.piece = ""
        self.kept: dict[str, list[list[list[Corner]]]] = {}
        """What each copy of a piece keeps for another, in its parts."""

    @property
    def live(self) -> list[Corner]:
        """Stitches on the needles."""
        return [one for one in (*self.right, *self.left) if one]

    @property
    def open(self) -> list[Corner]:
        """Stitches that nothing holds when the work ends: on the needles and on holders."""
        return [*self.live, *(one for holder in self.holders for one in holder)]

    def _at(self) -> Corner:
        """The corner from which the yarn comes."""
        if self.yarn is None:
            self.yarn = next(one for one in reversed(self.right or self.left) if one)
        return self.yarn

    def _next(self) -> Corner:
        while self.left and self.left[0] is None:
            self.right.append(self.left.pop(0))
        corner = self.left.pop(0)
        assert corner is not None
        return corner

    def _put(self, corner: Corner, *, yarn: bool) -> None:
        self.right.append(corner)
        if yarn:
            self.yarn = corner

    def _neighbours(self, corner: Corner, way: int) -> bool:
        return any(corner.beside[way] is one for one in (*self.live, *self.near))

    def _stitch(self, work: str) -> None:
        if work in ("sl", "ds"):
            self._link(corner := self._next(), corner)
            self.doubles |= {corner} if work == "ds" else set()
            self._put(corner, yarn=True)
            return
        takes, makes, _ = MAKES.get(work, (1, 1, 0))
        if not takes:
            self._more()
            return
        corner = self._next()
        new = self._one(corner)
        for _ in range(takes - 1):
            other = self._next()
            if self._neighbours(other, self.way):
                self.surface.cover(other)
        self._link(corner, new)
        self._put(new, yarn=True)
        for _ in range(makes - 1):
            self._more()

    def _one(self, corner: Corner) -> Corner:
        """Draw a new stitch through one; that one is inside the fabric where both its neighbours are on the needle."""
        before, after = self._neighbours(corner, -self.way), self._neighbours(corner, self.way)
        if not before and not after and self.live:
            return self.surface.sprout(corner, self.way)
        if not after and before:
            return self.surface.over(corner.beside[-self.way], self.way)
        new = self.surface.over(corner, self.way)
        if before:
            self.surface.cover(corner)
        return new

    def _link(self, corner: Corner, new: Corner) -> None:
        """Run the yarn across where the stitch before is no neighbour."""
        yarn, way = self.yarn, self.way
        if yarn is None or yarn in (corner, new, corner.beside[-way], new.beside[-way]):
            return
        passed = {id(yarn.beside[way]), id(yarn.beside[way].beside[way])}
        if passed & self.bound or not (self.is_round or self.right):
            return
        self.surface.bridge(yarn, new, way)

    def _more(self) -> None:
        """Make a stitch between the last one and the next."""
        at = self._at()
        beside = self._neighbours(at, self.way)
        self._put(self.surface.over(at, self.way) if beside else self.surface.sprout(at, self.way), yarn=True)

    def _pass_over(self) -> None:
        last, slipped = self.right.pop(), self.right.pop()
        assert last is not None and slipped is not None
        if any(slipped.beside[-self.way] is one for one in (*self.live, last)):
            self.surface.cover(slipped)
        self._put(last, yarn=True)

    def _pick_up(self, count: int) -> None:
        """Draw stitches through the edge, from the yarn to the next stitch that waits on a needle or holder."""
        way, at = self.way, self._at()
        waits = {id(one) for one in self.open}
        path: list[Corner] = []
        step = at.beside[way]
        while id(step) not in waits:
            assert step is not at, "no edge to pick up along"
            path.append(step)
            step = step.beside[way]
        for number in range(count):
            own = path[len(path) * number // count : len(path) * (number + 1) // count]
            new = self.surface.over(self.yarn or at, way)
            for one in own:
                self.surface.cover(one)
            self._put(new, yarn=True)

    def _take(self, count: int) -> Needle:
        fitting = [holder for holder in self.holders if len(holder) == count]
        holder = (fitting or [holder for holder in self.holders if len(holder) > count])[0]
        taken, rest = holder[:count], holder[count:]
        place = self.holders.index(holder)
        self.holders[place : place + 1] = [rest] if rest else []
        self.near = rest
        return list(taken)
