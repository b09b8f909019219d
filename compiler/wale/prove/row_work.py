"""One row typed in by hand, stitch by stitch from the left needle to the right one."""

from __future__ import annotations

from collections.abc import Sequence

from wale.prove.fabric import INC, KNIT, LEFT_DEC, LEFT_INC, PURL, RIGHT_DEC, RIGHT_INC, insist
from wale.prove.hand_words import Act, Do, Extent, Group, Work
from wale.prove.needle import Needles

Segments = list[int]
"""Stitches between markers, in working order."""
Doubles = tuple[tuple[int, ...], tuple[int, ...]]
"""Double stitches on the left and on the right needle."""

MOST_STEPS = 1_000_000
"""Most steps and stitches of one row."""
MAKES: dict[str, tuple[int, int, int]] = {
    "k2tog": (2, 1, RIGHT_DEC),
    "p2tog": (2, 1, RIGHT_DEC),
    "k3tog": (3, 1, RIGHT_DEC),
    "p3tog": (3, 1, RIGHT_DEC),
    "ssk": (2, 1, LEFT_DEC),
    "ssp": (2, 1, LEFT_DEC),
    "skp": (2, 1, LEFT_DEC),
    "sssk": (3, 1, LEFT_DEC),
    "sk2p": (3, 1, LEFT_DEC),
    "s2kp": (3, 1, RIGHT_DEC),
    "m1": (0, 1, INC),
    "m1p": (0, 1, INC),
    "m1l": (0, 1, LEFT_INC),
    "m1r": (0, 1, RIGHT_INC),
    "yo": (0, 1, INC),
    "kfb": (1, 2, INC),
    "pfb": (1, 2, INC),
    "ds": (1, 1, KNIT),
}
"""How many stitches a shaped one takes and makes, and how the last of them looks from the right side."""


def merged(first: Segments, second: Segments) -> Segments:
    """Give the stitches of two needles in a row; no marker stands between them."""
    return [*first[:-1], first[-1] + second[0], *second[1:]]


class RowWork:
    """A row on the needles.

    Attributes:
        left: what is still to be worked; `right`: what is worked, both in working order.
        ops: how the stitches look from the right side, in working order.
        doubles: double stitches on the left needle, as how many stitches lie beyond each.
        made_doubles: those on the right needle, in the same way.
    """

    def __init__(
        self, needles: Needles, left: Segments, right: Segments, side: str, doubles: Doubles = ((), ())
    ) -> None:
        self.needles = needles
        self.doubles, self.made_doubles = doubles
        self.left, self.right = list(left), list(right)
        self.ops = bytearray()
        self._looks = {"k": KNIT, "p": PURL} if side != "WS" else {"k": PURL, "p": KNIT}
        self._looks["sl"] = KNIT
        self._steps = 0

    def work(self, works: Sequence[Work]) -> bool:
        """Work a row and say whether it ends with a turn."""
        for number, one in enumerate(works, 1):
            if isinstance(one, Act) and one.kind == "turn":
                insist(number == len(works), "nothing can be worked after the turn; begin a new row")
                return True
            self._work(one)
        return False

    def advance(self, count: int, what: str = "") -> None:
        """Move stitches over unworked, past markers."""
        have = sum(self.left)
        need = f"{what} needs {count}" if what else f"{count} are asked for"
        insist(count <= have, f"not enough stitches: {have} left where {need}")
        while count:
            if not self.left[0]:
                self.left.pop(0)
                self.right.append(0)
                continue
            step = min(count, self.left[0])
            self.left[0] -= step
            self.right[-1] += step
            count -= step

    def _work(self, one: Work) -> None:
        self._steps += 1
        insist(max(self._steps, len(self.ops)) <= MOST_STEPS, "the row has more stitches than anybody knits")
        match one:
            case Do():
                self._stitches(one)
            case Group():
                self._group(one)
            case Act():
                self._act(one)

    def _stitches(self, one: Do) -> None:
        plain = one.work in self._looks
        takes = 1 if plain else MAKES.get(one.work, (0, 0, 0))[0]
        if one.work == "psso":
            self._pass_over(one)
            return
        times = self._times(one.extent, takes, one.work)
        if plain:
            self.advance(times, f"{one.work}{times}")
            self.ops += bytes((self._looks[one.work],)) * times
            return
        said = one.work if times == 1 else f"{one.work} {'twice' if times == 2 else f'{times} times'}"
        have = sum(self.left)
        insist(takes * times <= have, f"not enough stitches: {have} left where {said} needs {takes * times}")
        insist(times <= MOST_STEPS, "the row has more stitches than anybody knits")
        for _ in range(times):
            self._shaped(one.work)

    def _shaped(self, work: str) -> None:
        takes, makes, look = MAKES[work]
        if work == "ds":
            insist(not self.ops, "a double stitch is made right after the turn")
            self.made_doubles = (*self.made_doubles, sum(self.right))
        while takes and not self.left[0]:
            self.left.pop(0)
            self.right.append(0)
        insist(not takes or takes <= self.left[0], f"a marker stands between the stitches of {work}")
        self.left[0] -= takes
        self.right[-1] += makes
        self.needles.deeper += max(0, takes - makes - 1)
        self.ops += bytes((KNIT,)) * (makes - 1) + bytes((look,))

    def _pass_over(self, one: Do) -> None:
        insist(len(self.ops) >= 2 and self.right[-1] >= 2, "there is no slipped stitch to pass over")
        insist(one.extent == Extent("times", 1), "pass one stitch over at a time")
        self.right[-1] -= 1
        self.ops[-2:] = bytes((LEFT_DEC,))

    def _far(self, extent: Extent) -> int:
        """Give how many stitches there are up to where something goes."""
        have = sum(self.left)
        if extent.far == "double":
            ahead = [have - 1 - beyond for beyond in self.doubles if beyond < have]
            insist(bool(ahead), "there is no double stitch ahead")
            return min(ahead)
        if extent.far == "marker":
            insist(len(self.left) > 1, "there is no marker ahead")
            have = self.left[0]
        where = "the marker" if extent.far == "marker" else "the end"
        insist(extent.number <= have, f"not enough stitches: {have} left before {where}, not {extent.number}")
        return have - extent.number

    def _times(self, extent: Extent, takes: int, work: str) -> int:
        if extent.far == "times":
            return extent.number
        far = self._far(extent)
        insist(takes > 0, f"{work} takes no stitches, so it has no end")
        told = f"{work} takes {takes} sts at a time; {far % takes} of {far} would be left over"
        insist(far % takes == 0, told)
        return far // takes

    def _group(self, one: Group) -> None:
        if one.extent.far == "times":
            for _ in range(one.extent.number):
                for work in one.works:
                    self._work(work)
            return
        goal = len(self.left), sum(self.left) - self._far(one.extent)
        takes = _takes(one.works)
        if takes:
            far = self._far(one.extent)
            told = f"what is repeated takes {takes} sts; {far % takes} of {far} would be left over"
            insist(far % takes == 0, told)
        while sum(self.left) > goal[1]:
            before = sum(self.left)
            for work in one.works:
                self._work(work)
            insist(sum(self.left) < before, "what is repeated takes no stitches, so it has no end")
        insist(sum(self.left) == goal[1], "what is repeated does not come out at the end")

    def _act(self, one: Act) -> None:
        needles = self.needles
        match one.kind:
            case "turn":
                insist(False, "a turn ends the row, it cannot be repeated")
            case "cast" | "picked":
                insist(one.number <= MOST_STEPS, f"{one.number} sts are more than anybody knits")
                self._new(one.number, KNIT)
                needles.added += one.number
            case "held":
                needles.take_held(one.number)
                self._new(one.number, self._looks[one.work])
            case "bound":
                self._off(one.number, f"bind off {one.number}")
                needles.bound_off += one.number
            case "set_aside":
                self._off(one.number, f"the holder for {one.number}")
                needles.holders.append(one.number)
            case "waste":
                self._off(one.number, f"the waste yarn for {one.number}")
                needles.holders.append(one.number)
                self._new(one.number, self._looks[one.work])
                needles.added += one.number
            case "place":
                self.right.append(0)
            case "slip" | "remove":
                insist(len(self.left) > 1, "there is no marker ahead")
                insist(not self.left[0], f"the marker is {self.left[0]} sts further on")
                self.left.pop(0)
                if one.kind == "slip":
                    self.right.append(0)

    def _new(self, count: int, look: int) -> None:
        self.right[-1] += count
        self.ops += bytes((look,)) * count

    def _off(self, count: int, what: str) -> None:
        """Take stitches off the left needle for good or for a while."""
        have = sum(self.left)
        insist(count <= have, f"not enough stitches: {have} left where {what} needs {count}")
        while count:
            if not self.left[0]:
                self.left.pop(0)
                self.right.append(0)
                continue
            step = min(count, self.left[0])
            self.left[0] -= step
            count -= step


def _takes(works: Sequence[Work]) -> int:
    """Give how many stitches works take each time, or 0 where that depends on what is on the needle."""
    total = 0
    for one in works:
        if isinstance(one, Act) or one.extent.far != "times":
            return 0
        each = _takes(one.works) if isinstance(one, Group) else MAKES.get(one.work, (int(one.work != "psso"), 0, 0))[0]
        if isinstance(one, Group) and not each:
            return 0
        total += each * one.extent.number
    return total
