"""Rows typed in by hand on the machine: a left needle, a right needle, markers between stitches, and holders."""

from __future__ import annotations

from collections.abc import Sequence

from wale.prove.fabric import KNIT, PURL, insist
from wale.prove.hand_words import Again, Between, HandCastOn, HandLine, HandRow, HandRows, Told
from wale.prove.needle import Needles
from wale.prove.row_work import Doubles, RowWork, Segments, merged

MOST_AGAIN = 100_000
"""Most rows that one line may ask for."""


class HandWork:
    """Works hand lines over the needles of the machine, whose stitches it keeps up to date."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self.left: Segments = [0]
        self.right: Segments = [0]
        self.doubles: Doubles = ((), ())
        self.told: dict[int, HandRow] = {}
        self.latest: list[HandRow] = []
        self.number = self.passed = self.run_start = 0
        self.is_free = True

    @property
    def waits(self) -> int:
        """Stitches that a turn left on the right needle."""
        return sum(self.right)

    def work(self, line: HandLine) -> None:
        """Work one line."""
        needles = self.needles
        if not isinstance(line, HandCastOn):
            begun = needles.cast_on > 0 or (isinstance(line, Between) and line.kind == "pick")
            insist(begun, "there are no stitches on the needle")
        if sum(self.left) + sum(self.right) != needles.count:
            self.left, self.right, self.doubles = [needles.count], [0], ((), ())
        if not isinstance(line, HandRow | Again):
            self.doubles = ((), ())
        match line:
            case HandCastOn():
                self._cast_on(line)
            case HandRow():
                self._label(line)
                self._row(line)
            case HandRows():
                self._rows(line)
            case Again():
                self._again(line)
            case Between():
                self._between(line)
            case Told():
                self._state(line.after)
        needles.count = sum(self.left) + sum(self.right)
        needles.runs = ((needles.runs[0][0] if needles.chart and needles.runs else -1, needles.count),)

    def _cast_on(self, line: HandCastOn) -> None:
        total = sum(line.counts)
        if line.total:
            self.needles.agree((line.total,), (total,), f"that makes {total} sts, not {line.total}")
        if self.needles.cast_on:
            insist(not self.waits, "sts wait from a turn, so none can be cast on between two rows")
            self.left[0] += total
            self.needles.added += total
            return
        self.needles.set_count(total, line.yarn, line.needle)
        self.needles.in_round = line.joined
        self.left, self.right = [total], [0]

    def _label(self, line: HandRow) -> None:
        """See that the label follows, and remember the row for repeats."""
        if not line.numbers:
            self.passed += 1
            return
        first, last = line.numbers[0], line.numbers[-1]
        together = line.numbers == tuple(range(first, last + 1))
        insist(together, "rows that take turns with others are told one by one, and then repeated")
        if first == 1:
            self.told, self.run_start = {}, self.needles.done
        elif self.number and first not in (self.number + 1, self.number + self.passed + 1):
            following = self.number + 1
            self.needles.agree(
                (first,), (following,), f"row {first} stands where row {following} should", is_count=False
            )
        for number in line.numbers:
            self.told[number] = line
        self.number, self.passed = last, 0

    def _row(self, line: HandRow) -> None:
        """Work a row as often as its label has numbers."""
        insist(len(line.numbers) <= MOST_AGAIN, f"{len(line.numbers)} rows are too many for one line")
        for _ in line.numbers or (0,):
            self._one_row(line)
        self._state(line.after)

    def _one_row(self, line: HandRow) -> None:
        needles = self.needles
        insist(not needles.chart, f"the work is in chart {needles.chart}; a row in words needs a plain fabric")
        self._round_or_flat(line.in_round)
        if line.side and not line.in_round and needles.side != line.side:
            insist(self.is_free, f"the next row is a {needles.side} row, not a {line.side} row")
            needles.shift += 1
        insist(needles.count > 0 or bool(needles.holders), "there are no stitches on the needle")
        self.is_free = False
        before, begun, divisions = self.waits, needles.count, merged(self.right, self.left)
        row = RowWork(needles, self.left, self.right, needles.side, self.doubles)
        turned = row.work(line.works)
        self.latest.append(line)
        rest = sum(row.left)
        insist(turned or not rest, f"{_sts(rest)} left unworked at the end; say `turn` where they shall wait")
        needles.count = rest + sum(row.right)
        wrong = needles.side == "WS"
        ops = bytes(row.ops[::-1]) if wrong else bytes(row.ops)
        waiting = rest if wrong else before
        needles.runs = ((-1, len(ops)),)
        needles.add(ops, needles.yarn_colours(len(ops)), 0, 0, waiting, begun)
        after = merged(row.right, row.left)
        if len(after) > len(divisions):
            needles.divided.append((needles.done, tuple(after[:-1])))
        if turned or not needles.in_round:
            self.left, self.right = row.right[::-1], row.left[::-1]
            self.doubles = row.made_doubles, tuple(one for one in row.doubles if one < rest)
        else:
            self.left, self.right, self.doubles = row.right, [0], ((), ())
        if turned and needles.in_round:
            needles.in_round, self.is_free = False, True
            needles.shift += needles.side != "WS"

    def _round_or_flat(self, in_round: bool) -> None:
        is_round = self.needles.in_round
        told = "in the round, so it has no rows" if is_round else "flat; say `Join to a round.` before its first round"
        insist(in_round == is_round, f"the work is {told}")

    def _rows(self, line: HandRows) -> None:
        needles = self.needles
        insist(line.rows <= MOST_AGAIN, f"{line.rows} rows are too many for one line")
        self._round_or_flat(line.in_round)
        insist(not self.waits, f"{_sts(self.waits)} wait from a turn; work a row to the end first")
        if line.kind != "even" or not needles.stitch:
            insist(not needles.chart or line.kind == "even", f"the work is in chart {needles.chart}")
            if not needles.chart:
                self._set_stitch(line)
        for _ in range(line.rows):
            if line.kind in ("knit", "purl") and not needles.chart:
                faces = (line.kind == "purl") != (needles.side == "WS")
                needles.stitch = "stockinette" if needles.in_round and line.kind == "knit" else "garter"
                needles.add(bytes((PURL if faces else KNIT,)) * needles.count, needles.colours(0), 0, 0)
            else:
                needles.work_row()
        if not needles.in_round and line.rows % 2:
            self.left.reverse()
        self.is_free = False
        self.passed += line.rows
        self._state(line.after)

    def _set_stitch(self, line: HandRows) -> None:
        needles = self.needles
        if line.kind == "rib":
            insist(line.rib[0] == line.rib[1] > 0, "a rib has as many knit stitches as purl ones")
            insist(
                not needles.in_round or needles.count % sum(line.rib) == 0,
                f"a rib of {line.rib[0]}x{line.rib[1]} takes {sum(line.rib)} sts, {needles.count} are no whole number",
            )
            needles.stitch = f"rib {line.rib[0]}x{line.rib[1]}"
        else:
            needles.stitch = "garter" if line.kind == "garter" else "stockinette"

    def _again(self, line: Again) -> None:
        if line.numbers:
            missing = [number for number in line.numbers if number not in self.told]
            insist(not missing, f"there is no row {missing[0] if missing else 0} to repeat")
            rows: Sequence[HandRow] = [self.told[number] for number in line.numbers]
        else:
            insist(line.last <= len(self.latest), f"only {len(self.latest)} rows in words were worked before")
            rows = self.latest[-line.last :]
        insist(line.times * len(rows) <= MOST_AGAIN, f"{line.times * len(rows)} rows are too many for one line")
        times = 0
        while times < line.times if line.times else not self._reached(line):
            away = abs(self.needles.count - line.until)
            for row in rows:
                self._one_row(row)
            times += 1
            nearer = line.times or line.until_rows or abs(self.needles.count - line.until) < away
            insist(bool(nearer), f"the rows never come to {line.until} sts, there are {self.needles.count}")
        self.passed += times * len(rows)
        self._state(line.after)

    def _reached(self, line: Again) -> bool:
        if not line.until_rows:
            return self.needles.count == line.until
        worked = self.needles.done - self.run_start
        insist(worked <= line.until, f"{worked} rows are worked, not {line.until}")
        return worked == line.until

    def _state(self, after: tuple[int, ...]) -> None:
        """Hold stated stitches against those on the needles."""
        if not after:
            return
        whole = merged(self.right, self.left)
        found = (sum(whole),) if len(after) == 1 else tuple(whole)
        if after != found:
            there = ", ".join(map(str, found))
            self.needles.agree(after, found, f"there are {there} sts, not {', '.join(map(str, after))}")
        else:
            self.needles.agree(after, found, "")

    def _between(self, line: Between) -> None:
        needles = self.needles
        total = sum(self.left) + self.waits
        match line.kind:
            case "join":
                insist(not needles.in_round, "the work is in the round already")
                needles.in_round, self.is_free = True, True
                self.left, self.right = merged(self.right, self.left), [0]
            case "flat":
                needles.agree((line.number,), (total,), f"there are {total} sts on the needle, not {line.number}")
                needles.in_round, self.is_free = False, True
            case "start":
                insist(needles.in_round and not self.waits, "only a round has a start that moves")
                row = RowWork(needles, self.left, self.right, "round")
                row.advance(line.number)
                self.left, self.right = merged(row.left, row.right), [0]
                needles.starts.append((needles.done, line.number))
            case "put":
                self._put(line, total)
            case "waste":
                insist(needles.in_round and not self.waits, "waste yarn is laid between two rounds")
                insist(line.number + line.other <= total, f"{total} sts are too few for this waste yarn")
                insist(not line.back or line.back * 2 == line.other, f"{line.back} of {line.other} sts are put back")
                needles.holders.append(line.other)
                needles.added += line.other
            case "take" | "open":
                needles.take_held(line.number)
                needles.added += line.other
                if not total:
                    self.is_free = True
                self.left = merged(self.left, [line.number + line.other])
            case "pick":
                insist(needles.in_round or not total, "in flat work stitches are picked up within a row")
                if not needles.cast_on:
                    needles.set_count(line.number, needles.yarn, needles.needle)
                else:
                    needles.added += line.number
                self.left = merged(self.left, [line.number])
            case _:
                self._end(line, total)

    def _put(self, line: Between, total: int) -> None:
        needles = self.needles
        number = total if line.which == "all" else line.number
        if line.which == "all" and line.number:
            needles.agree((line.number,), (total,), f"there are {total} sts, not {line.number}")
        if line.which == "all":
            self.left, self.right = [0], [0]
        else:
            insist(not self.waits, "stitches wait from a turn; put them on a holder within the row")
            side = self.left if line.which == "next" else self.left[::-1]
            row = RowWork(needles, list(side), [0], "round")
            row.advance(number)
            self.left = row.left if line.which == "next" else row.left[::-1]
        needles.holders.append(number)
        self.is_free = True

    def _end(self, line: Between, total: int) -> None:
        needles = self.needles
        number = line.number + line.other if line.kind == "graft" else line.number
        if line.which == "last":
            insist(number <= total, f"there are only {_sts(total)}")
            self.left = [total - number]
        else:
            if number:
                needles.agree((number,), (total,), f"there are {total} sts on the needle, not {number}")
            number = total
            self.left = [0]
        self.right = [0]
        if line.kind == "draw":
            needles.drawn += number
        else:
            needles.bound_off += number
        self.is_free = True


def _sts(count: int) -> str:
    return f"{count} st" if count == 1 else f"{count} sts"
