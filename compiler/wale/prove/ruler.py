"""A knitted piece laid flat and measured by its gauge: rows and stitches as they came off the machine, in cm.

Heights count from the fold of a hem, else from the cast-on. A column is as long as the rows in which it was worked, so
a shoulder's tip, which short rows leave out or which is bound off early, lies lower than the neck.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.prove.fabric import Fabric, Row, insist
from wale.prove.facts import Gauge, LengthFact, LevelFact, PieceFacts


class Ruler:
    """Measures one piece in one size, rows of the right side of a divided neck standing for both."""

    def __init__(self, fabric: Fabric, fact: PieceFacts, gauges: Mapping[str, Gauge]) -> None:
        self.fabric, self.fact, self._gauges = fabric, fact, gauges
        self._stitches: dict[int, int] = {0: fabric.cast_on}
        self._runs: list[tuple[int, str]] = []
        self._fabrics: dict[int, str] = {}
        self._begun = {row.number: row.begun for row in fabric.rows}
        for row, planned in zip(fabric.rows, fact.rows, strict=True):
            if row.part == "left":
                continue
            self._stitches[row.number], self._fabrics[row.number] = row.stitches, planned.fabric
            if not self._runs or self._runs[-1][1] != planned.fabric:
                self._runs.append((row.number - 1, planned.fabric))
        self.rows = max(self._stitches) - fabric.late

    def stitches(self, row: int) -> int:
        """Give the stitches after a row, 0 for the cast-on.

        Raises:
            Contradiction: there is no such row.
        """
        insist(row in self._stitches, f"there is no row {row}")
        return self._stitches[row]

    def count(self, level: LevelFact) -> int:
        """Give the stitches of a level."""
        return self._begun[level.row] if level.begins else self.across(level.row)

    def across(self, row: int) -> int:
        """Give the stitches after a row as they would be without the neck: those below it, less what the sides lost."""
        below = min(row, self.fabric.neck_row - 1) if self.fabric.neck_row else row
        insist(row in self._stitches, f"there is no row {row}")
        return self.stitches(below) - sum(gone for at, _, gone in self.fabric.sides if below < at <= row)

    def gauge(self, row: int) -> Gauge:
        """Give the gauge of a row.

        Raises:
            Contradiction: there is no such row, or its gauge is not known.
        """
        name = self._fabrics.get(row, "")
        insist(name in self._gauges, f"the gauge of row {row} is not known")
        return self._gauges[name]

    def between(self, before: int, last: int) -> Fraction:
        """Give the height of the rows after row `before` up to row `last`."""
        insist(0 <= before <= last <= self.rows, f"there are no rows {before + 1} to {last}")
        high = Fraction(0)
        for number, (start, name) in enumerate(self._runs):
            end = self._runs[number + 1][0] if number + 1 < len(self._runs) else self.rows
            low, high_row = max(start, before), min(end, last)
            rows = high_row - low - sum(max(0, min(b, high_row) - max(a, low)) for a, b in self.fact.aside)
            if rows > 0:
                insist(name in self._gauges, f"the gauge of row {start + 1} is not known")
                high += rows / self._gauges[name].rows
        return high

    def height(self, row: int) -> Fraction:
        """Give the height of a row above the place from which it counts, the fold or the cast-on; 0 below a fold."""
        start = self.fabric.fold
        if self.fact.anew is not None and row > self.fact.anew[0]:
            start = self.fact.anew[0]
        return self.between(start, max(row, start))

    def to_anew(self) -> Fraction:
        """Give the height of the place from which lengths count anew."""
        insist(self.fact.anew is not None, "no lengths count anew")
        assert self.fact.anew is not None
        return self.height(self.fact.anew[0])

    def on_needles(self, row: int) -> Fraction | None:
        """Give the height as measured on the needles, by the rows of the fabric in work; None: not known."""
        gauge = self.gauge(row)
        return None if gauge.on_needles is None else self.height(row) * gauge.rows / gauge.on_needles

    def width(self, level: LevelFact) -> Fraction:
        """Give the finished width of a level: its stitches, less those that seams take up, by its gauge."""
        stitches = self.count(level) - self.fact.seams
        near = [self._fabrics.get(row) for row in (level.row, level.row + 1)]
        is_worked = level.fabric in self._fabrics.values()
        insist(level.fabric in near or not is_worked, f"nothing at row {level.row} is in the gauge of {level.fabric}")
        return stitches / self._gauges[level.fabric].stitches

    def length(self, length: LengthFact) -> Fraction:
        """Give a length of some rows: their own, or the height that they reach."""
        return self.height(length.last) if length.is_height else self.between(length.before, length.last)

    def level(self, name: str, *, drawn: bool) -> LevelFact | None:
        """Give the level that a table or (`drawn`) a schematic calls by a name."""
        return next((one for one in self.fact.levels if name == (one.drawn if drawn else one.label)), None)

    def part(self, name: str, number: int = 0) -> Fraction:
        """Give the depth of a part of a hem, or of a rib."""
        found = [(first, last) for part, first, last in self.fabric.parts if part == name]
        insist(number < len(found), f"no {name.lower()} was worked")
        first, last = found[number]
        return self.between(first - 1, last)

    def hem(self) -> Fraction:
        """Give how far a folded hem reaches: its front, else its facing."""
        fronts = [name for name, *_ in self.fabric.parts if name == "Front of the hem"]
        return self.part(fronts[0] if fronts else "Facing")

    def mark(self, name: str) -> Fraction:
        """Give the height of a mark."""
        rows = dict(self.fabric.marks).get(name)
        insist(rows is not None, f"{name} is not marked")
        assert rows is not None
        return self.height(rows)

    def slope(self) -> Fraction:
        """Give how much lower the tip of a shoulder lies than the neck: the rows in which it is not worked."""
        # short rows below, and the row that closes them, are none of the shoulder's
        low = max((end + 1 for _, end in self.fact.aside), default=0)
        rows = [row for row in self.fabric.rows if row.part != "left" and row.number > low]
        missed = sum(
            1 for row in rows if row.waiting or row.gone or (self.fabric.is_half and len(row.ops) < row.stitches)
        )
        return missed / self.gauge(self.rows).rows

    def armhole(self) -> Fraction:
        """Give the armhole's edge, from the underarm to the shoulder's tip."""
        return self.height(self.rows) - self.slope() - self.mark("underarm")

    def neck_depth(self) -> Fraction:
        """Give the depth of the neck's centre, or of the upper end of its slit, below its upper end."""
        insist(self.fabric.neck_row > 0, "there is no neck")
        # a neck that begins on a wrong-side row is that of a half piece whose mirror image begins it a row later
        is_early = any(row.number == self.fabric.neck_row and row.side == "WS" for row in self.fabric.rows)
        return self.between(self.fabric.neck_row - (0 if is_early else 1) + self.fabric.slit[0], self.rows)

    def placket(self) -> Fraction:
        """Give the length of the slit below the neck."""
        rows, _ = self.fabric.slit
        insist(rows > 0, "there is no placket")
        return self.between(self.fabric.neck_row - 1, self.fabric.neck_row - 1 + rows)

    def placket_width(self) -> Fraction:
        """Give the width of the slit's foot."""
        return self.fabric.slit[1] / self.gauge(self.fabric.neck_row).stitches

    def neck_width(self) -> Fraction:
        """Give the width of the neck: all stitches bound off for it."""
        return (self.fabric.neck - self.fact.neck_seam) / self.gauge(self.rows).stitches

    def shoulder(self) -> Fraction:
        """Give the finished width of a shoulder."""
        left, right = self.fabric.shoulders
        insist(left == right or self.fabric.is_half, f"the shoulders have {left} and {right} sts")
        return (max(left, right) - self.fact.shoulder_seam) / self.gauge(self.rows).stitches

    def crown(self, *, below: bool) -> Fraction:
        """Give the height of a crown, or of what is below it."""
        insist(self.fabric.crown >= 0, "there is no crown")
        return self.height(self.fabric.crown) if below else self.between(self.fabric.crown, self.rows)

    def broad(self, *, is_folded: bool = False) -> Fraction:
        """Give the width of a band: along the edges that it is picked up from, or of a hood folded in half."""
        stitches = Fraction(self.stitches(self.rows), 2) if is_folded else Fraction(self.fabric.cast_on)
        return stitches / self.gauge(self.rows).stitches

    def deep(self, *, is_behind: bool) -> Fraction:
        """Give the depth of a collar by the rows worked over one stitch: in its middle, or at its lower end."""
        places = (self.fabric.cast_on // 2,) if is_behind else (0, self.fabric.cast_on - 1)
        rows = [
            sum(1 for row in self.fabric.rows if row.waiting <= place < row.waiting + len(row.ops) + self._bound(row))
            for place in places
        ]
        return min(rows) / self.gauge(self.rows).rows

    def _bound(self, row: Row) -> int:
        """Give the stitches of buttonholes that are bound off on a row."""
        return sum(each for _, each in self.fabric.holes) if row.number == self.fabric.hole_row else 0
