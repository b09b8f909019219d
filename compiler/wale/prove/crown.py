"""Crowns on the machine: rounds divided into wedges, each losing a stitch at its end."""

from __future__ import annotations

from wale.prove import words
from wale.prove.charts import Tiles
from wale.prove.fabric import KNIT, insist
from wale.prove.needle import Needles
from wale.prove.spelling import SHAPED
from wale.prove.words import Fabric as Worked
from wale.prove.words import Instruction


class CrownWork:
    """Gathers the lines of a crown and works its rounds."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self.wedges: words.Wedges | None = None
        self.decrease: words.DecreaseRound | None = None
        self.own: Tiles | None = None
        self.own_name = ""
        self.done = 0

    def evened(self, number: int) -> None:
        """Note the round that evened the stitches out."""
        insist(number == 1, "stitches are evened out on the crown's first round")
        self.needles.crown = self.needles.done - 1
        self.done = 1

    def add(self, line: Instruction) -> None:
        """Take a line of the crown."""
        needles = self.needles
        insist(needles.in_round, "a crown is worked in the round")
        match line:
            case words.CrownPlain():
                needles.go_plain(Worked(stitch="stockinette", yarn=line.yarn))
            case words.CrownChart():
                chart = needles.charts.get((line.chart, False))
                insist(chart is not None, f"there is no chart {line.chart}")
                assert chart is not None
                needles.go_plain(Worked(stitch="stockinette", yarn=needles.yarn))
                self.own, self.own_name = Tiles(chart, needles.palette), line.chart
            case words.Wedges():
                self._divide(line)
            case words.DecreaseRound():
                insist(line.shaped == "k2tog" and not line.more, "a wedge ends with a decrease")
                insist(line.wedges == line.change, f"{line.wedges} wedges lose {line.wedges} sts, not {line.change}")
                self.decrease = line
            case words.Crown():
                self._work(line)
            case words.Draw():
                needles.agree((line.count,), (needles.count,), f"there are {needles.count} sts left, not {line.count}")
                needles.drawn, needles.count = needles.count, 0
            case _:
                insist(False, "this line cannot stand here")

    def _divide(self, line: words.Wedges) -> None:
        needles = self.needles
        total = line.wedges * line.stitches
        insist(total == needles.count, f"{line.wedges} wedges hold {total} sts, but there are {needles.count}")
        self.wedges = line
        if needles.tiles is None:
            insist(not line.columns, "the work is in no chart")
            needles.runs = ((-1, line.stitches),) * line.wedges
            return
        needles.settle_columns()
        insist(len(line.columns) in (1, line.wedges), "each wedge starts at a column of the chart")
        told = line.columns * (line.wedges if len(line.columns) == 1 else 1)
        width = needles.tiles.chart.width
        ((first, _),) = needles.runs
        for number, column in enumerate(told):
            stands = (first + number * line.stitches) % width + 1
            insist(column == stands, f"wedge {number + 1} starts at chart column {stands}, not {column}")
        needles.runs = tuple((column - 1, line.stitches) for column in told)

    def _work(self, line: words.Crown) -> None:
        needles, wedges, decrease = self.needles, self.wedges, self.decrease
        insist(wedges is not None and decrease is not None, "wedges and decrease round are not told")
        assert wedges is not None and decrease is not None
        insist(wedges.wedges == decrease.wedges, f"there are {wedges.wedges} wedges, not {decrease.wedges}")
        inside = "work the chart row" if self.own else ("work in chart" if needles.chart else "knit")
        insist(decrease.inside == inside, f"inside the wedges one has to {inside}, not to {decrease.inside}")
        insist((line.fabric is None) == (self.own is not None or self._is_plain(line)), "the fabric is not told")
        if line.fabric is not None:
            needles.check_fabric(line.fabric, line.rounds - self.done)
        shaped = frozenset(line.schedule.rows())
        insist(max(shaped) <= line.rounds, f"the last decrease would be on round {max(shaped)} of {line.rounds}")
        insist(min(shaped) > self.done, "round 1 is worked already")
        own = len(self.own.chart.rows) if self.own is not None else line.rounds - self.done
        insist(own == line.rounds - self.done, f"the chart has {own} rows for {line.rounds - self.done} rounds")
        needles.crown = needles.done - self.done
        for number in range(self.done + 1, line.rounds + 1):
            self._round(number, number in shaped)
        needles.agree((line.after,), (needles.count,), f"there are {needles.count} sts, not {line.after}")

    def _is_plain(self, line: words.Crown) -> bool:
        """Whether the crown was told to be plain before, so that its rounds need not say so again."""
        return line.fabric is None and not self.needles.chart

    def _round(self, number: int, shaped: bool) -> None:
        needles = self.needles
        length = needles.runs[0][1]
        ops = bytes((KNIT,)) * length
        start = needles.start_column("RS")
        if shaped:
            insist(length >= 2, "the wedges have no 2 sts left")
            length -= 1
            ops = bytes((KNIT,)) * (length - 1) + bytes((SHAPED["k2tog"][0],))
            needles.runs = tuple((column, length) for column, _ in needles.runs)
            needles.count = length * len(needles.runs)
        wedges = len(needles.runs)
        if self.own is None:
            chart_row = needles.take_chart_row()
            needles.add(ops * wedges, needles.colours(chart_row), chart_row, start)
            return
        row = number - self.done
        cells = self.own.whole(row)
        insist(len(cells) == length, f"row {row} of the chart has {len(cells)} sts, the wedge {length}")
        needles.chart, saved = self.own_name, needles.runs
        needles.runs = tuple((0, length) for _ in saved)
        needles.add(ops * wedges, cells * wedges, row, 1)
