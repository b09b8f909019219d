"""Neck and shoulder of a half piece on the machine: one end of each row is the neck's, the other the shoulder's."""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import KNIT, Row, insist
from wale.prove.needle import Needles
from wale.prove.side_edge import SideEdges
from wale.prove.spelling import sloped


class HalfTopWork:
    """Gathers the lines of the top, then works its rows; stitches keep their places from the right edge."""

    def __init__(self, needles: Needles, top: words.Top) -> None:
        self.needles = needles
        insist(needles.side == "RS", "row 1 of the top is a RS row")
        needles.settle_columns()
        needles.check_fabric(top.fabric, 0)
        expected = needles.next_chart_row if needles.tiles is not None else 0
        insist(top.chart_row == expected, f"the next chart row is {expected}, not {top.chart_row}")
        self.base, self.first_chart_row = needles.done, top.chart_row
        self.neck: words.HalfNeck | None = None
        self.shoulder: words.HalfShoulder | None = None
        self.edges = SideEdges(needles)
        self.edge: words.SideEdge | None = None
        self.end: words.Close | words.Hold | None = None
        self.neck_line = self.end_line = needles.line
        self.low, self.high = 0, needles.count

    def add(self, line: words.TopLine) -> None:
        """Take a line of the top."""
        insist(self.end is None, "the piece is finished already")
        match line:
            case words.HalfNeck():
                insist(self.neck is None, "the neck is told already")
                self._check(line.row, line.side)
                edge = line.shaping
                if edge is not None:
                    insist(edge.side == line.side, "a half piece has one neck edge")
                    self._check(edge.start, edge.side)
                    insist(edge.start > line.row, f"row {edge.start} is worked already")
                self.neck, self.neck_line = line, self.needles.line
            case words.HalfShoulder():
                insist(self.shoulder is None, "the shoulder is told already")
                self._check(line.row, line.side)
                self.shoulder = line
            case words.SideEdge():
                insist(self.neck is not None and not line.name, "the side edge is told after the neck edge")
                insist(self.edge is None, "the side edge is told already")
                assert self.neck is not None
                self.edge = line
                self.edges.tell("left" if self.neck.side == "RS" else "right", line.works, 0)
            case words.Close() | words.Hold():
                self.end, self.end_line = line, self.needles.line
            case _:
                insist(False, "this line is for a piece with two shoulders")

    def _check(self, row: int, side: str) -> None:
        insist(side == ("RS" if row % 2 else "WS"), f"row {row} of the top is no {side} row")

    def work(self) -> None:
        """Work the whole top."""
        neck, shoulder, end, needles = self.neck, self.shoulder, self.end, self.needles
        insist(neck is not None, "the neck is not told")
        assert neck is not None
        is_turned = shoulder is not None and shoulder.turns
        is_stepped = shoulder is not None and not shoulder.turns
        # rows end where those of the other side start
        if shoulder is not None:
            here = (shoulder.side == neck.side) == shoulder.turns
            insist(here, "neck and shoulder are at the same end of the rows")
        insist((end is None) == is_stepped, "the piece is never finished")
        insist(isinstance(end, words.Close) == is_turned, "short rows are closed, and only they are")
        if isinstance(end, words.Close):
            self._check(end.row, end.side)
            insist(end.side == neck.side, "the turns are closed from the neck edge")
        edge = neck.shaping
        off = {neck.row: neck.bind_off, **(edge.steps() if edge is not None else {})}
        groups = shoulder.groups() if shoulder is not None else ()
        at_shoulder = {shoulder.row + 2 * place: one for place, one in enumerate(groups)} if shoulder else {}
        last = end.row if end is not None else max(at_shoulder)
        insist(last >= max([*off, *at_shoulder]), "the piece ends before it is shaped")
        neck_is_right, stepped, waits = neck.side == "RS", 0, 0
        hand = "left" if neck_is_right else "right"
        insist(self.edges.last(hand) <= last, "the piece ends before its side edge is shaped")
        needles.neck_row = self.base + neck.row
        for row in range(1, last + 1):
            needles.line = self.neck_line
            gone = off.get(row, 0)
            group = at_shoulder.get(row, 0)
            step = group if is_stepped else 0
            waits = 0 if is_turned and row == last else waits + group - step
            decrease = edge.decrease if edge is not None and row != neck.row and gone else ""
            needles.neck += gone
            needles.bound_off += (0 if decrease else gone) + step
            stepped += step
            at_side = self.edges.go(hand, row)
            insist(not at_side or not waits, "a side is shaped whose stitches wait")
            self.low += gone if neck_is_right else step + at_side
            self.high -= step + at_side if neck_is_right else gone
            insist(self.low + waits <= self.high, f"there are not so many stitches on row {row}")
            if self.low < self.high:
                right, left = (0, waits) if neck_is_right else (waits, 0)
                worked = self.high - self.low - waits
                ops = bytes((KNIT,)) * worked
                if edge is not None and decrease:
                    ops = sloped(worked, edge.edge, neck.side, decrease)
                self._add(row, right, left, stepped, self.edges.mark(ops, hand, row))
        self.edges.settle(hand)
        self._finish(last, stepped, hand)

    def _finish(self, last: int, stepped: int, hand: str) -> None:
        needles, left, end = self.needles, self.high - self.low, self.end
        side = "left" if hand == "left" else "right"
        needles.is_half = True
        needles.late = int(side == "left" and self.shoulder is not None)
        needles.count = 0
        if end is None:
            insist(left == 0, f"{left} sts of the shoulder are left")
            needles.stepped["left" if side == "left" else "right"] = stepped
            return
        needles.line = self.end_line
        needles.agree((end.stitches,), (left,), f"the shoulder has {left} sts, not {end.stitches}")
        needles.held["left" if side == "left" else "right"] = left

    def _add(self, row: int, right: int, left: int, stepped: int, ops: bytes) -> None:
        """Take a row off the machine of which some stitches wait at its ends."""
        needles = self.needles
        needles.done = self.base + row - 1
        chart_row = 0
        if needles.tiles is not None:
            height = len(needles.tiles.chart.rows)
            chart_row = needles.take_chart_row((self.first_chart_row + row - 2) % height + 1)
        low, high = self.low + right, self.high - left
        needles.grow(high - low)
        needles.button()
        column = needles.runs[0][0]
        side = "RS" if row % 2 else "WS"
        at_right, at_left = needles.looks.get(side, (b"", b""))
        made = ops or bytes((KNIT,)) * (high - low)
        # the band stands until it is bound off for the neck
        made = at_right + made[len(at_right) :] if low == 0 else made
        made = made[: len(made) - len(at_left)] + at_left if high == needles.count else made
        needles.rows.append(
            Row(
                self.base + row,
                side,
                "",
                needles.textured(made, chart_row, [(low, high)]),
                needles.colours(chart_row)[low:high],
                ((column + low if column >= 0 else -1, high - low),),
                right,
                self.high - self.low,
                needles.chart if chart_row else "",
                chart_row,
                0,
                needles.needle,
                needles.line,
                stepped,
                stitch=needles.plain(chart_row),
            )
        )
        needles.done = self.base + row
