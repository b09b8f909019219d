"""Neck and shoulders on the machine: short rows or stepped bind-offs, the neck row, and both sides after it.

Stitches keep their places from the right edge, seen from the right side. Right-side rows run from right to left, so
they start at the right armhole, or at the neck edge of the left side; the ends of rows are the other way round.
"""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import KNIT, Part, Row, insist
from wale.prove.needle import Needles
from wale.prove.side_edge import SideEdges
from wale.prove.spelling import sloped
from wale.prove.words import ShoulderRows

AT_ONCE = 2
"""Rows from the neck row to the next on which the left side of a neck is shaped."""
WAITS = "a side is shaped whose stitches wait"


class TopWork:
    """Gathers the lines of the top and works its rows, which they interleave."""

    def __init__(self, needles: Needles, top: words.Top) -> None:
        self.needles = needles
        insist(needles.side == "RS", "row 1 of the top is a RS row")
        needles.settle_columns()
        needles.check_fabric(top.fabric, 0)
        if needles.tiles is not None:
            expected = needles.next_chart_row
            insist(top.chart_row == expected, f"the next chart row is {expected}, not {top.chart_row}")
        else:
            insist(top.chart_row == 0, "the work is in no chart")
        self.base, self.line = needles.done, needles.line
        self.first_chart_row = top.chart_row
        self.shoulders: ShoulderRows | None = None
        self.before: int | None = None
        self.neck: words.NeckRow | None = None
        self.sides: list[words.NeckSide] = []
        self.edges = SideEdges(needles)
        self.ends: dict[str, words.Close | words.Hold] = {}
        self.low, self.high = 0, needles.count
        self.width = needles.count
        self.right_waits = self.left_waits = self.middle = 0
        self.lines: dict[str, int] = {}
        self.end_lines: dict[str, int] = {}

    def add(self, line: words.TopLine) -> None:
        """Take a line of the top."""
        match line:
            case ShoulderRows():
                insist(self.shoulders is None and not self.sides, "the shoulders are told already")
                insist(line.right > 0 and line.left > 0, "the line tells of one shoulder twice")
                follows = self.neck is None or min(line.right, line.left) > self.neck.row
                insist(follows, "shoulders that begin before the neck row are told before it")
                insist(line.right_side == "RS" or line.turns, "a right shoulder is bound off on RS rows")
                self.shoulders = line
                self._check_sides(line)
            case words.Before():
                insist(self.before is None and self.neck is None, "the rows before the neck are told already")
                self.before = line.last
            case words.NeckRow():
                insist(self.neck is None, "the neck row is told already")
                insist((self.before or 0) == line.row - 1, f"row {line.row} does not follow the rows worked before it")
                self._check_side(line.row, line.side)
                insist(line.side == "RS", "the neck row is a RS row")
                self._sides_of_neck_row(line)
                self.neck = line
                self.lines[""] = self.needles.line
            case words.NeckSide():
                insist(self.neck is not None, "the neck row is not told")
                insist(not self.sides or bool(self._end_of(self.sides[-1].name)), "the side before is not finished")
                insist(line.name == ("right" if self.sides else "left"), "the left side is worked first")
                self.sides.append(line)
                self.lines[line.name] = self.needles.line
            case words.SideEdge():
                insist(bool(self.sides) and line.name == self.sides[-1].name, f"the {line.name} side is not in work")
                insist(line.name not in self.ends, "this side is finished already")
                assert self.neck is not None
                self.edges.tell(line.name, line.works, self.neck.row)
            case words.Close() | words.Hold():
                insist(bool(self.sides), "no side of the neck is being worked")
                name = self.sides[-1].name
                insist(name not in self.ends, "this side is finished already")
                self.ends[name] = line
                self.end_lines[name] = self.needles.line

    def _sides_of_neck_row(self, line: words.NeckRow) -> None:
        """Take what the neck row does at the sides of the piece, where it starts and where it ends."""
        if line.off:
            self.edges.bind("right", line.row, line.off)
        for end, told in (("right", line.start), ("left", line.end)):
            if told is not None:
                self.edges.shape(end, line.row, told)
        if line.end is not None:
            takes = line.end.edge + 2
            insist(line.last == takes, f"{line.end.decrease} and the edge take {takes} sts, not {line.last}")

    def _end_of(self, name: str) -> bool:
        return name in self.ends or (self.shoulders is not None and not self.shoulders.turns)

    def _check_sides(self, line: ShoulderRows) -> None:
        self._check_side(line.right, line.right_side)
        self._check_side(line.left, line.left_side)
        at_end = {"right": "WS", "left": "RS"}
        sides = {"right": line.right_side, "left": line.left_side}
        for name, side in sides.items():
            here = (at_end[name] == side) == line.turns
            insist(here, f"{side} rows do not {'end' if line.turns else 'start'} at the {name} shoulder")

    def _check_side(self, row: int, side: str) -> None:
        insist(side == ("RS" if row % 2 else "WS"), f"row {row} of the top is no {side} row")

    def work(self) -> None:
        """Work the whole top."""
        insist(self.neck is not None, "the neck row is not told")
        insist(len(self.sides) == 2, "both sides of the neck have to be told")
        assert self.neck is not None
        left, right = self.sides
        self.needles.line = self.lines[""]
        for row in range(1, self.neck.row):
            self._across(row)
        self._neck_row(self.neck)
        gap = self.neck.bind_off
        self.needles.bound_off += gap
        self.needles.neck += gap
        self.needles.neck_row = self.base + self.neck.row
        self.needles.slit = self._slit(self.neck)
        right_end = self.middle
        self._side("left", left, right_end + gap, self.high)
        self._side("right", right, self.low, right_end)
        self.edges.settle("left", "right")
        self.needles.count = 0

    def _slit(self, neck: words.NeckRow) -> tuple[int, int]:
        """Give the rows beside the foot of a slit, and its stitches; a neck that goes on at once has none."""
        edge = self.sides[0].shaping
        beside = edge.start - neck.row if edge is not None else 0
        return (beside, neck.bind_off) if beside > AT_ONCE else (0, 0)

    def _group(self, row: int, name: str) -> int:
        """Stitches of the turn or step that stands on a row of a shoulder, or 0."""
        if self.shoulders is None:
            return 0
        first = self.shoulders.right if name == "right" else self.shoulders.left
        number, odd = divmod(row - first, 2)
        groups = self.shoulders.groups()
        return groups[number] if not odd and 0 <= number < len(groups) else 0

    def _turn(self, row: int, name: str) -> None:
        group = self._group(row, name)
        if name == "right":
            self.right_waits += group
        else:
            self.left_waits += group

    def _step(self, row: int, name: Part) -> int:
        group = self._group(row, name)
        self.needles.bound_off += group
        self.needles.stepped[name] = self.needles.stepped.get(name, 0) + group
        return group

    @property
    def _has_turns(self) -> bool:
        return self.shoulders is not None and self.shoulders.turns

    def _across(self, row: int) -> None:
        """Work a row over the whole width."""
        is_right = row % 2 == 1
        if self._has_turns:
            self._turn(row, "left" if is_right else "right")
        elif is_right:
            self.low += self._step(row, "right")
        else:
            self.high -= self._step(row, "left")
        self._add(row, "", [(self.low + self.right_waits, self.high - self.left_waits)], self.high - self.low)

    def _neck_row(self, neck: words.NeckRow) -> None:
        step = 0
        if self._has_turns:
            self._turn(neck.row, "left")
        else:
            step = self._step(neck.row, "right")
            self.low += step
        self.low += self.edges.go("right", neck.row)
        self.high -= self.edges.go("left", neck.row)
        insist(neck.counted != "left", "worked stitches are on the right needle")
        insist(bool(neck.counted) == (self.right_waits > 0), "the line does not say what waits at the right end")
        insist(neck.after_step == (step > 0), "the line does not say what the shoulder binds off on this row")
        insist(neck.turns == (self.left_waits > 0), "the line does not say where the row ends")
        middle = self.low + neck.work + (neck.start.edge + 1 if neck.start is not None else 0)
        end = self.high - self.left_waits
        insist(self.low + self.right_waits <= middle, "the neck lies among stitches that wait")
        insist(middle + neck.bind_off <= end, "the neck lies among stitches that wait")
        parts = [(self.low + self.right_waits, middle), (middle + neck.bind_off, end)]
        ops = bytes((KNIT,)) * sum(high - low for low, high in parts)
        for side in ("right", "left"):
            ops = self.edges.mark(ops, side, neck.row)
        self._add(neck.row, "", parts, self.high - self.low - neck.bind_off, ops)
        self.middle = middle

    def _side(self, name: Part, line: words.NeckSide, low: int, high: int) -> None:
        """Work one side to its end."""
        self.needles.line = self.lines[name]
        assert self.neck is not None
        end = self.ends.get(name)
        first = self.neck.row + 1
        edge_side = "RS" if name == "left" else "WS"
        if name == "right":
            insist(line.row == first and line.side == "WS", f"the right side goes on with row {first} (WS)")
        edge = line.shaping
        steps = edge.steps() if edge is not None else {}
        if edge is not None:
            insist(edge.side == edge_side, f"the {name} side has its neck edge where {edge_side} rows start")
            self._check_side(edge.start, edge_side)
            insist(edge.start >= first, f"row {edge.start} is worked already")
        insist(self._end_of(name), f"the {name} side is never finished")
        row, last = first, end.row if end is not None else None
        if isinstance(end, words.Close):
            self._check_side(end.row, end.side)
            insist(self._has_turns and end.side == edge_side, "the turns are closed from the neck edge")
        while low < high and (last is None or row <= last):
            insist(last is not None or row <= self._last_step(name), f"{high - low} sts of the {name} side are left")
            is_right, decrease = row % 2 == 1, ""
            if (name == "left") == is_right:
                step = steps.pop(row, 0)
                if edge is not None and edge.decrease and step:
                    decrease = edge.decrease
                else:
                    self.needles.bound_off += step
                self.needles.neck += step
                low, high = (low + step, high) if name == "left" else (low, high - step)
                if self._has_turns and row != last:
                    self._turn(row, name)
                elif self._has_turns:
                    insist(self._group(row, name) == 0, f"row {row} turns and closes the turns")
                    self.right_waits, self.left_waits = self._closed(name)
            elif not self._has_turns:
                step = self._step(row, name)
                low, high = (low + step, high) if name == "right" else (low, high - step)
            at_side = self.edges.go(name, row)
            insist(not at_side or not (self.left_waits if name == "left" else self.right_waits), WAITS)
            low, high = (low, high - at_side) if name == "left" else (low + at_side, high)
            insist(low <= high, f"there are not so many stitches to bind off on row {row}")
            waits = (
                low + (self.right_waits if name == "right" else 0),
                high - (self.left_waits if name == "left" else 0),
            )
            insist(waits[0] <= waits[1], f"no stitches are left to work on row {row}")
            if low < high:
                worked = waits[1] - waits[0]
                ops = bytes((KNIT,)) * worked
                if edge is not None and decrease:
                    ops = sloped(worked, edge.edge, edge_side, decrease)
                self._add(row, name, [waits], high - low, self.edges.mark(ops, name, row))
            row += 1
        insist(self.edges.last(name) < row, f"the {name} side ends before its side edge is shaped")
        insist(not steps, f"the {name} side ends before its neck edge is shaped")
        self._check_end(name, end, high - low, row)

    def _last_step(self, name: str) -> int:
        """Row of the last turn or step of a shoulder."""
        assert self.shoulders is not None
        first = self.shoulders.right if name == "right" else self.shoulders.left
        return first + 2 * (len(self.shoulders.groups()) - 1)

    def _closed(self, name: str) -> tuple[int, int]:
        return (0, self.left_waits) if name == "right" else (self.right_waits, 0)

    def _check_end(self, name: Part, end: words.Close | words.Hold | None, left: int, row: int) -> None:
        if end is None:
            insist(left == 0, f"{left} sts of the {name} side are left")
            insist(self._last_step(name) == row - 1, f"nothing is left to bind off after row {row - 1}")
            return
        self.needles.line = self.end_lines[name]
        self.needles.agree((end.stitches,), (left,), f"the {name} side has {left} sts, not {end.stitches}")
        if isinstance(end, words.Hold):
            insist(not self._has_turns, "short rows are never closed")
        if self.shoulders is not None:
            last = self._last_step(name)
            insist(last < row, f"the {name} side ends before row {last} turns")
        self.needles.held[name] = left

    def _add(self, row: int, part: Part, spans: list[tuple[int, int]], stitches: int, ops: bytes = b"") -> None:
        """Take a row over some spans of places off the machine, all knit where no `ops` are given."""
        needles = self.needles
        chart_row = 0
        if needles.tiles is not None:
            needles.done = self.base + row - 1
            height = len(needles.tiles.chart.rows)
            chart_row = needles.take_chart_row((self.first_chart_row + row - 2) % height + 1)
        needles.grow(sum(high - low for low, high in spans))
        colours = needles.colours(chart_row)
        column = needles.runs[0][0]
        runs = tuple((column + low if column >= 0 else -1, high - low) for low, high in spans)
        needles.rows.append(
            Row(
                self.base + row,
                "RS" if row % 2 else "WS",
                part,
                needles.textured(ops or bytes((KNIT,)) * sum(high - low for low, high in spans), chart_row, spans),
                b"".join(colours[low:high] for low, high in spans),
                runs,
                self.right_waits if part != "left" else 0,
                stitches,
                needles.chart if chart_row else "",
                chart_row,
                0,
                needles.needle,
                self.lines.get(part, self.line),
                spans[0][0] - self.right_waits - needles.narrowed[0] if part != "left" else 0,
                stitch=needles.plain(chart_row),
            )
        )
        needles.done = self.base + row
