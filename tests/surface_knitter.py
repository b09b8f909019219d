"""Knits the lines of a pattern stitch by stitch onto a `Surface`: a machine of its own, which knows no counts.

It follows the yarn: each new stitch lies between the one before it and the next on the needle. Where stitches on the
needle are no neighbours in the fabric, the yarn runs across and leaves an opening; stitches that are picked up close
theirs.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from surface import AHEAD, Corner, ring
from surface_needles import Needle, SurfaceNeedles

from wale.prove import words
from wale.prove.hand_words import Act, Again, Between, Do, Extent, Group, HandCastOn, HandRow, HandRows, Work


class SurfaceKnitter(SurfaceNeedles):
    """Works lines."""

    def knit(self, lines: Sequence[Any]) -> SurfaceKnitter:
        """Work lines in order."""
        for line in lines:
            self.work(line)
            stated = getattr(line, "after", ())
            if isinstance(stated, tuple) and stated:
                assert sum(stated) == len(self.live), f"{stated} are stated, {len(self.live)} are there"
        return self

    def work(self, line: Any) -> None:
        match line:
            case words.CastOn():
                self._cast_on(line.count, line.joined)
            case HandCastOn():
                self._cast_on(sum(line.counts), line.joined)
            case HandRow():
                if 1 in line.numbers:
                    self.begun = self.rows
                for number in line.numbers or (0,):
                    self.told[number] = line
                    self._row(line.works)
                    self.latest.append(line)
            case HandRows() | words.Work() | words.PlainRows() | words.RibRows():
                for _ in range(line.rows):
                    self._row(())
            case words.EvenRow():
                self._row(_acts(line.stitches))
            case Again():
                self._again(line)
            case Between():
                self._between(line)
            case words.BindOff():
                self._end(len(self.live), "bind", whole=True)
            case words.DecreaseRound() | words.Wedges():
                self.wedges = line.wedges
            case words.Crown():
                for number in range(1, line.rounds + 1):
                    each = len(self.live) // self.wedges
                    self._row(_wedge(each, self.wedges) if number in line.schedule.rows() else ())
            case words.Draw():
                self._end(line.count, "draw", whole=True)
            case words.Keep():
                self.kept.setdefault(self.piece, []).append(self._parts([count for count, _ in line.kept]))
                self.left, self.right, self.yarn = [], [], None
            case words.Gather():
                self._gather([name for _, name in line.taken])
            case words.Turning():
                self._row(())
            case words.Top() | words.Shaping() | words.Steek() | words.PickUp():
                raise NotImplementedError(type(line).__name__)
            case _:
                # Colours, charts, places and stated counts make no stitch.
                pass

    def _parts(self, counts: Sequence[int]) -> list[list[Corner]]:
        """Part the stitches on the needle."""
        corners = iter(self.live)
        return [[next(corners) for _ in range(count)] for count in counts]

    def _gather(self, names: Sequence[str]) -> None:
        """Take what pieces keep but every other part, the underarms, which wait to be grafted."""
        parts = {name: [one for piece in self.kept[name] for one in piece[1::2]] for name in self.kept}
        self.left, self.is_round, self.way = [one for name in names for one in parts[name].pop(0)], True, AHEAD

    def graft_underarms(self) -> None:
        """Close the holes at the underarms, each bounded by stitches of a body and of a sleeve."""
        body, *sleeves = sorted((pieces for pieces in self.kept.values()), key=len)
        arms = [{one.stitch for one in piece[0]} for kind in sleeves for piece in kind]
        for underarm in body[0][::2]:
            beside = {one.stitch for one in ring(underarm[0])}
            assert sum(arm <= beside for arm in arms) == 1, "an underarm of one sleeve lies against that of the body"
            self.surface.close(underarm[0])

    def _row(self, works: Sequence[Work]) -> None:
        self.rows += 1
        self.bound, self.near = set(), []
        worked = list(works)
        turned = bool(worked) and isinstance(worked[-1], Act) and worked[-1].kind == "turn"
        for one in worked[: -1 if turned else None]:
            self._work(one)
        while self.left and not turned:
            self._stitch("k")
        if turned or not self.is_round:
            self.left, self.right = self.right[::-1], self.left[::-1]
            self.way, self.is_round = -self.way, False
        else:
            self.left, self.right = self.right, []

    def _work(self, one: Work) -> None:
        match one:
            case Do(work="psso"):
                self._pass_over()
            case Do():
                goal = self._goal(one.extent)
                if goal is None:
                    for _ in range(one.extent.number):
                        self._stitch(one.work)
                while goal is not None and self._rest() > goal:
                    self._stitch(one.work)
            case Group():
                goal = self._goal(one.extent)
                times = one.extent.number if goal is None else 0
                while times > 0 or (goal is not None and self._rest() > goal):
                    times -= 1
                    for work in one.works:
                        self._work(work)
            case Act():
                self._act(one)

    def _goal(self, extent: Any) -> int | None:
        """How many stitches stay on the left needle; None where it goes by times."""
        if extent.far == "times":
            return None
        if extent.far == "marker":
            return sum(one is not None for one in self.left[self.left.index(None) :]) + int(extent.number)
        if extent.far == "double":
            live = [one for one in self.left if one]
            return len(live) - next(at for at, one in enumerate(live) if one in self.doubles)
        return int(extent.number)

    def _rest(self) -> int:
        return sum(one is not None for one in self.left)

    def _act(self, one: Act) -> None:
        match one.kind:
            case "cast":
                for _ in range(one.number):
                    self._put(self.surface.sprout(self._at(), self.way), yarn=True)
            case "picked":
                self._pick_up(one.number)
            case "held":
                self.left[:0] = self._take(one.number)
                for _ in range(one.number):
                    self._stitch("k")
            case "bound":
                for _ in range(one.number):
                    self.bound.add(id(self._next()))
            case "set_aside":
                self.holders.append([self._next() for _ in range(one.number)])
            case "waste":
                # The row that comes to stand above the waste yarn hangs on nothing below it.
                self.holders.append([self._next() for _ in range(one.number)])
                self._act(Act("cast", one.number))
            case "place":
                self.right.append(None)
            case "slip":
                self.right.append(self.left.pop(0))
            case "remove":
                self.left.pop(0)

    def _cast_on(self, count: int, joined: bool) -> None:
        is_new = not self.live
        if is_new:
            self._put(self.surface.begin(), yarn=True)
            count -= 1
        else:
            # New stitches stand in front of the next row, where the yarn is.
            self.left.reverse()
            self.right, self.left = self.left, []
            self.way, self.yarn = -self.way, None
        for _ in range(count):
            self._put(self.surface.sprout(self._at(), self.way), yarn=True)
        if self.surface.faces and not is_new:
            self.right.reverse()
            self.way = -self.way
        self.left, self.right = self.right, []
        self.is_round = joined

    def _again(self, line: Again) -> None:
        rows = [self.told[number] for number in line.numbers] if line.numbers else self.latest[-line.last :]
        done = 0
        while done < line.times if line.times else self._until(line) != line.until:
            for row in rows:
                self._row(row.works)
            done += 1

    def _until(self, line: Again) -> int:
        return self.rows - self.begun if line.until_rows else len(self.live)

    def _between(self, line: Between) -> None:
        match line.kind:
            case "join":
                self.left, self.right, self.is_round = [*self.right, *self.left], [], True
                if self.way != AHEAD:
                    self.left, self.way = self.left[::-1], AHEAD
            case "flat":
                self.is_round = False
            case "start":
                passed: Needle = []
                while sum(one is not None for one in passed) < line.number:
                    passed.append(self.left.pop(0))
                self.left += passed
                self.yarn = passed[-1]
            case "put":
                self._aside(line)
                self.yarn = None
            case "take" | "open":
                self.left += self._take(line.number)
                self.yarn = None
                if line.other:
                    self._between(Between("pick", line.other))
            case "pick":
                self.right, self.left = self.left, []
                self._pick_up(line.number)
                self.left, self.right, self.is_round = self.right, [], True
            case "bind" | "draw" | "graft":
                self._end(line.number + line.other, line.kind, whole=line.which != "last")

    def _aside(self, line: Between) -> None:
        count = len(self.live) if line.which == "all" else line.number
        corners = [one for one in self.left if one]
        held = corners[-count:] if line.which == "last" else corners[:count]
        self.holders.append(held)
        gone = {id(one) for one in held}
        self.left = [one for one in self.left if id(one) not in gone or one is None]

    def _end(self, count: int, kind: str, *, whole: bool) -> None:
        corners = self.live if whole or not count else self.live[-count:]
        if kind != "bind":
            self.surface.close(corners[0])
        gone = {id(one) for one in corners}
        self.left = [one for one in (*self.right, *self.left) if id(one) not in gone and one is not None]
        self.right, self.yarn = [], None


def _acts(stitches: Sequence[Any]) -> list[Work]:
    return [
        Group(tuple(_acts(one.stitches)), Extent("times", one.times))
        if isinstance(one, words.Repeat)
        else Do(one.work.lower(), Extent("times", one.count))
        for one in stitches
    ]


def _wedge(each: int, wedges: int) -> list[Work]:
    return _acts([words.Repeat((words.Stitch("k", each - 2), words.Stitch("k2tog", 1)), wedges)])
