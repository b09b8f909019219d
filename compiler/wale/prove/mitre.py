"""Mitres of a band: stitches marked in its round, beside which a double decrease takes one from each side."""

from __future__ import annotations

from itertools import pairwise

from wale.prove import words
from wale.prove.fabric import CENTRED_DEC, KNIT, insist
from wale.prove.needle import Needles


class MitreWork:
    """The marked stitches, told first, and the rounds that are worked then."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self.marked: tuple[int, ...] = ()

    def work(self, line: words.Mitre | words.MitreRounds) -> None:
        """Mark stitches of the round, or work the rounds."""
        needles = self.needles
        insist(needles.in_round and needles.done > 0 and not needles.chart, "a mitre stands above a round of rib")
        if isinstance(line, words.Mitre):
            insist(list(line.marked) == sorted(set(line.marked)), "the marked sts do not follow each other")
            insist(line.marked[0] >= 1 and line.marked[-1] <= needles.count, "a marked st is not in the round")
            change = 2 * len(line.marked)
            needles.agree((line.fewer,), (change,), f"the words take {change} sts, not {line.fewer}", is_count=False)
            self.marked = line.marked
            return
        insist(bool(self.marked), "no st is marked")
        ops, first = needles.rows[-1].ops, needles.done + 1
        insist(all(ops[place - 1] == KNIT for place in self.marked), "a marked st is no knit st")
        on = line.schedule.rows()
        insist(on[0] >= first and on[-1] <= line.rounds, "a mitre round is worked already, or comes after the last one")
        ends = (0, *self.marked, len(ops) + 1)
        between = [ops[low : high - 1] for low, high in pairwise(ends)]
        for number in range(first, line.rounds + 1):
            if number in on:
                between = [self._shorter(part, place) for place, part in enumerate(between)]
            stitch = bytes((CENTRED_DEC if number in on else KNIT,))
            worked = stitch.join(between)
            needles.count, needles.runs = len(worked), ((-1, len(worked)),)
            needles.add(worked, needles.colours(0), 0, 0)
        needles.agree((line.after,), (needles.count,), f"there are {needles.count} sts, not {line.after}")
        needles.marked, needles.mitres = self.marked, on

    def _shorter(self, part: bytes, place: int) -> bytes:
        """Take the stitch beside each marked one."""
        first, last = int(place > 0), int(place < len(self.marked))
        insist(len(part) > first + last, "no stitches are left beside a marked st")
        return part[first : len(part) - last]
