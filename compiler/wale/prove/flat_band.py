"""Rows of flat bands that are worked as the rows told before: buttonholes, and the short rows of a collar."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import accumulate
from operator import sub

from wale.prove import words
from wale.prove.fabric import insist
from wale.prove.needle import Needles
from wale.prove.textures import TextureWork


class FlatBandWork:
    """Buttonholes and short rows, in a rib or in another texture; `turned` while turns are open."""

    def __init__(self, needles: Needles, rib: Mapping[str, words.RibRow], textures: TextureWork) -> None:
        self.needles, self.rib, self.textures = needles, rib, textures
        self.turned = False
        self.texture = "rib"
        self.right = self.left = 0

    def work(self, line: words.HoleLine | words.CollarLine) -> None:
        """Work one line."""
        match line:
            case words.HoleRow():
                self._open(line)
            case words.HoleClose():
                self._close(line)
            case words.CollarTurns():
                self._turns(line)
            case words.CollarClose():
                self._ends(line)

    def _as_told(self, texture: str, count: int) -> bytes:
        """Give how the next row looks over so many stitches, worked as the rows told before."""
        needles, side = self.needles, self.needles.side
        insist(not needles.chart and not needles.in_round, "the work is no plain flat band")
        if texture != "rib":
            return self.textures.next_row(texture, count)
        insist(side in self.rib, "the rib rows are not told")
        return needles.spell(self.rib[side].stitches, side, count)

    def _open(self, line: words.HoleRow) -> None:
        """Bind buttonholes off."""
        needles, side = self.needles, self.needles.side
        insist(line.side == side, f"the next row is a {side} row, not a {line.side} row")
        insist(side == "RS" and not needles.holes, "buttonholes are bound off once, on a RS row")
        whole = self._as_told(line.texture, needles.count)
        runs, place, ops = [], line.first, whole[: line.first]
        for off, work in line.then:
            runs.append((place, off))
            ops += whole[place + off : place + off + work]
            place += off + work
        insist(place == needles.count, f"the words take {place} sts, but {needles.count} are on the needle")
        insist(all(off > 0 for _, off in runs) and line.first > 0, "nothing is bound off")
        needles.gaps = needles.holes = tuple(runs)
        needles.hole_row = needles.done + 1
        needles.bound_off += place - len(ops)
        self._add(ops, line.after)

    def _close(self, line: words.HoleClose) -> None:
        """Cast the stitches of buttonholes on again over the gaps of the row before."""
        needles, side = self.needles, self.needles.side
        insist(line.side == side, f"the next row is a {side} row, not a {line.side} row")
        insist(bool(needles.gaps), "no buttonhole is open")
        insist({off for _, off in needles.gaps} == {line.each}, "a gap has another number of sts")
        added = sum(off for _, off in needles.gaps)
        ops = self._as_told(line.texture, needles.count + added)
        needles.gaps, needles.added = (), needles.added + added
        self._add(ops, line.after)

    def _add(self, ops: bytes, after: int) -> None:
        needles = self.needles
        needles.agree((after,), (len(ops),), f"there are {len(ops)} sts, not {after}")
        needles.count = len(ops)
        needles.runs = ((-1, len(ops)),)
        needles.add(ops, needles.colours(0), 0, 0)

    def _turns(self, line: words.CollarTurns) -> None:
        """Work short rows, each of which ends beyond the turn before it on that side."""
        insist(not self.needles.gaps, "buttonholes are left open")
        insist(line.sides == ("RS", "WS"), "short rows begin with a RS row, and a WS row follows")
        insist(self.needles.side == "RS", "the next row is a WS row, not a RS row")
        self.turned, self.texture = True, line.texture
        insist(all(rows % 2 == 0 for rows, _ in line.more), "one side turns more often than the other")
        farther = [each for rows, each in line.more for _ in range(rows // 2)]
        lefts, rights = (list(accumulate(farther, sub, initial=end)) for end in line.left)
        for self.left, right in zip(lefts, rights, strict=True):
            self._between()
            self.right = right
            self._between()
        insist(min(lefts[-1], rights[-1]) > 0, "the last turns leave no stitches beyond them")

    def _between(self) -> None:
        """Work a row from the turn below to the next one, or to the end."""
        needles = self.needles
        insist(self.left + self.right < needles.count, "the turns leave no stitches between them")
        whole, first, last = self._as_told(self.texture, needles.count), self.right, needles.count - self.left
        needles.add(whole[first:last], needles.colours(0)[first:last], 0, 0, self.right)

    def _ends(self, line: words.CollarClose) -> None:
        """Work two rows to the end."""
        insist(self.turned, "no turns are open")
        insist(self.needles.side == "RS", "the turns are closed from a RS row on")
        self.left = 0
        self._between()
        self.right = 0
        self._between()
        self.turned = False
        count = self.needles.count
        self.needles.agree((line.after,), (count,), f"there are {count} sts, not {line.after}")
