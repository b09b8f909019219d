"""The knitting machine: works the read lines of one piece and size one after the other.

It knows nothing but the words and the charts' words. Where a line cannot be worked it stops with a finding. Where
stitches that a line states are not those on the needle, a strict machine stops too; else it notes that and goes on.
"""

from __future__ import annotations

from collections.abc import Sequence

from wale.prove import words
from wale.prove.charts import Charts
from wale.prove.crown import CrownWork
from wale.prove.evened import evened
from wale.prove.fabric import KNIT, LEFT_DEC, PURL, Contradiction, Fabric, Finding, insist
from wale.prove.flat_band import FlatBandWork
from wale.prove.front_band import begin_band, begin_holes
from wale.prove.half_top import HalfTopWork
from wale.prove.hand import HandWork
from wale.prove.hand_words import HandLine
from wale.prove.mitre import MitreWork
from wale.prove.needle import Needles
from wale.prove.ribs import RibWork
from wale.prove.shapings import ShapingWork
from wale.prove.textures import TextureWork
from wale.prove.top import TopWork
from wale.prove.words import Instruction


def knit(
    piece: str, size: str, lines: Sequence[tuple[str, Instruction | HandLine]], charts: Charts
) -> tuple[Fabric | None, list[Finding]]:
    """Knit one piece in one size.

    Args:
        lines: the printed lines and what they say, in order.

    Returns:
        The fabric, or None and a finding with the row and line at which the words could not be worked.
    """
    machine = Machine(charts)
    try:
        for number, (_, instruction) in enumerate(lines):
            machine.needles.line = number
            machine.work(instruction)
        machine.finish()
    except Contradiction as error:
        row, number = machine.needles.done + 1, machine.needles.line
        return None, [Finding(piece, size, row, lines[number][0], str(error))]
    needles = machine.needles
    held = (needles.held.get("left", 0), needles.held.get("right", 0))
    fabric = Fabric(
        piece,
        size,
        tuple(needles.palette.yarns),
        needles.cast_on,
        tuple(needles.rows),
        held,
        needles.bound_off,
        needles.drawn,
        needles.count,
        tuple(needles.marks),
        needles.hem_join,
        needles.cast_on_yarn,
        needles.bind_off_yarn,
        needles.fold,
        tuple(needles.parts),
        needles.crown,
        needles.neck_row,
        needles.neck,
        needles.slit,
        (held[0] or needles.stepped.get("left", 0), held[1] or needles.stepped.get("right", 0)),
        needles.picked,
        needles.steek,
        needles.added,
        tuple(needles.holders),
        needles.underarms,
        needles.joined,
        needles.is_half,
        needles.late,
        needles.hole_row,
        needles.holes,
        needles.deeper,
        needles.marked,
        needles.mitres,
        needles.cord,
        tuple(needles.sides),
        tuple(needles.band_holes),
        tuple(needles.insets),
        tuple(needles.starts),
        tuple(needles.divided),
    )
    return fabric, []


class Machine:
    """Dispatches the lines; neck and crown keep their own books until all their lines are read."""

    def __init__(self, charts: Charts, *, is_strict: bool = True) -> None:
        self.needles = Needles(charts, is_strict=is_strict)
        self.ribs = RibWork(self.needles)
        self.textures = TextureWork(self.needles)
        self.band = FlatBandWork(self.needles, self.ribs.told, self.textures)
        self.mitre = MitreWork(self.needles)
        self.shapings = ShapingWork(self.needles)
        self.top: TopWork | HalfTopWork | None = None
        self.crown = CrownWork(self.needles)
        self.hand: HandWork | None = None
        self.by_hand = -1

    def work(self, line: Instruction | HandLine) -> None:
        """Work one line."""
        if isinstance(line, HandLine):
            insist(self.top is None, "this line stands after the neck and shoulders")
            self.hand = self.hand or HandWork(self.needles)
            self.hand.work(line)
            self.by_hand = self.needles.done
            return
        if self.hand is not None and self.needles.count:
            insist(not self.hand.waits, f"{self.hand.waits} sts wait from a turn; work a row to the end first")
        if not isinstance(line, words.CastOn | words.PickUp | words.Gather):
            insist(self.needles.count > 0, "there are no stitches on the needle")
        insist(not self.band.turned or isinstance(line, words.CollarClose), "the turns of the short rows are open")
        if isinstance(line, words.TopLine):
            insist(self.top is not None, "the top has not begun")
            assert self.top is not None
            self.top.add(line)
            return
        insist(self.top is None, "this line stands after the neck and shoulders")
        match line:
            case words.CastOn() | words.PickUp() | words.Needles() | words.BindOff() | words.Cord() | words.Refer():
                self._ends(line)
            case words.Keep() | words.Gather():
                self._ends(line)
            case (
                words.PlainRows()
                | words.EvenRow()
                | words.Turning()
                | words.RibRow()
                | words.RibRows()
                | words.TextureRow()
                | words.TextureRows()
            ):
                self._plain(line)
            case words.Mitre() | words.MitreRounds():
                self.mitre.work(line)
            case words.HoleRow() | words.HoleClose() | words.CollarTurns() | words.CollarClose():
                self.band.work(line)
            case (
                words.Border()
                | words.FrontBand()
                | words.BandHoles()
                | words.BeginChart()
                | words.Plain()
                | words.Edge()
                | words.Steek()
                | words.Work()
            ):
                self._fabric(line)
            case words.Mark():
                self._rounds_or_rows(line.in_round)
                self.needles.marks.append((line.name, self.needles.done))
            case words.HemJoin():
                self._join_hem(line)
            case words.ShapingRow():
                self.shapings.add(line)
            case words.Shaping():
                self.shapings.work(line)
            case words.BindRow():
                self.shapings.bind(line)
            case words.Inset():
                self._inset(line)
            case words.Top():
                insist(not self.needles.in_round, "a round has no neck")
                self.top = (HalfTopWork if line.is_half else TopWork)(self.needles, line)
            case _:
                insist(not any(self.needles.steek), "a piece that is cut open has no crown")
                self.crown.add(line)

    def finish(self) -> None:
        """Work what waited for its last line."""
        if self.top is not None:
            self.top.work()
        needles = self.needles
        insist(not needles.gaps, "buttonholes are left open")
        insist(not self.band.turned, "the turns of the short rows are left open")
        insist(len(needles.insets) == len(needles.openings), "the row on which a pocket is opened never comes")
        insist(len(needles.band_holes) == len(needles.hole_rows), "the row of a buttonhole never comes")
        insist(needles.fold + needles.hem_join <= needles.done, "the row on which the hem is knitted in never comes")

    def _ends(self, line: words.End) -> None:
        needles = self.needles
        match line:
            case words.CastOn():
                needles.set_count(line.count, line.yarn, line.needle)
                needles.in_round = line.joined
            case words.PickUp():
                total = sum(count for count, _ in line.picked)
                needles.agree((line.total,), (total,), f"{total} sts are picked up, not {line.total}")
                needles.set_count(total, line.yarn, line.needle)
                needles.picked = tuple((count, edge.strip()) for count, edge in line.picked)
                needles.in_round = line.joined
                # picked up from the right side, the next row is a wrong-side row
                needles.shift = 0 if line.joined else 1
            case words.Needles():
                needles.needle = line.needle
            case words.BindOff():
                needles.agree(
                    (line.count,), (needles.count,), f"there are {needles.count} sts to bind off, not {line.count}"
                )
                needles.bound_off += needles.count
                needles.count = 0
                needles.bind_off_yarn = line.yarn
            case words.Cord():
                self._cord(line)
            case words.Keep():
                insist(needles.in_round, "only a round has a start from which its stitches are held")
                total = sum(count for count, _ in line.kept)
                needles.agree((total,), (needles.count,), f"{total} sts are held of {needles.count}")
                needles.holders += [count for count, _ in line.kept]
                needles.underarms = tuple(count for count, is_underarm in line.kept if is_underarm)
                needles.count = 0
            case words.Gather():
                total = sum(count for count, _ in line.taken)
                needles.agree((line.total,), (total,), f"{total} sts are joined, not {line.total}")
                needles.set_count(total, line.yarn, line.needle)
                needles.joined, needles.in_round = line.taken, True
            case words.Refer():
                insist(False, "this line stands in front of a piece")

    def _cord(self, line: words.Cord) -> None:
        """Bind off with a cord: each repeat works its last stitch together with the next one on the needle."""
        needles, cord = self.needles, line.cord
        needles.agree((line.count,), (needles.count,), f"there are {needles.count} sts to bind off, not {line.count}")
        ops = needles.spell(line.stitches, "round", cord + 1)
        joins = bytes((KNIT,)) * (cord - 1) + bytes((LEFT_DEC,))
        insist(ops == joins, "the words do not work the cord's last st together with the next one")
        told = (line.slipped, line.last)
        insist(told == (cord, cord), f"the cord has {cord} sts, not {told[0]} to slip back and {told[1]} at its end")
        insist(line.times == needles.count, f"{needles.count} sts are bound off in {line.times} repeats")
        needles.bound_off += needles.count
        needles.count, needles.cord, needles.bind_off_yarn = 0, cord, line.yarn

    def _plain(self, line: words.PlainLine) -> None:
        needles = self.needles
        match line:
            case words.PlainRows():
                self._rounds_or_rows(line.in_round)
                insist(needles.in_round or (line.from_right and needles.side == "RS"), "the next row is no RS row")
                needles.go_plain(line.fabric)
                first = needles.done + 1
                for _ in range(line.rows):
                    needles.work_row()
                needles.part(line.part, first)
            case words.EvenRow():
                self._even(line)
                if not line.crown_round:
                    needles.lengthen_part()
            case words.Turning():
                side = line.side or "round"
                insist(needles.side == side, f"the next row is a {needles.side} row, not a {side} row")
                insist(not needles.chart, "the fold is not worked in a chart")
                needles.fold = needles.done + 1
                ops = bytes((PURL,)) * needles.count
                if line.stitches:
                    ops = needles.spell(line.stitches, side)
                    insist(len(ops) == needles.count, "the fold does not keep the stitches")
                needles.add(ops, needles.colours(0), 0, 0)
            case words.RibRow():
                self.ribs.add(line)
            case words.TextureRow():
                self.textures.add(line)
            case words.TextureRows():
                self.textures.work(line)
            case words.RibRows():
                first = needles.done + (0 if needles.opened == needles.done else 1)
                self.ribs.work(line)
                needles.part("Rib", first)

    def _even(self, line: words.EvenRow) -> None:
        needles = self.needles
        side = line.side or "round"
        insist(needles.side == side, f"the next row is a {needles.side} row, not a {side} row")
        told = bool(line.yarn) or (not needles.chart and self.crown.own is None)
        insist(told, "the line does not say in which colours the row is worked")
        ops = evened(needles, line, side)
        change = line.change if line.grows else -line.change
        got = len(ops) - needles.count
        needles.agree((change,), (got,), f"the words change the stitches by {got}, not {change}", is_count=False)
        needles.agree((line.after,), (len(ops),), f"the words give {len(ops)} sts, not {line.after}")
        needles.count = len(ops)
        needles.opened = needles.done + 1 if needles.chart or needles.done == self.by_hand else 0
        needles.pass_chart_row()
        needles.runs = ((needles.runs[0][0], len(ops)),)
        needles.add(ops, bytes((needles.palette.index(line.yarn or needles.yarn),)) * len(ops), 0, 0)
        if line.crown_round:
            self.crown.evened(line.crown_round)

    def _join_hem(self, line: words.HemJoin) -> None:
        needles = self.needles
        insist(needles.fold > 0 and not needles.hem_join, "there is no fold")
        row = needles.fold + line.row
        side = "" if needles.in_round else ("RS" if row % 2 else "WS")
        insist(line.side == side, f"row {line.row} above the fold is a {side} row")
        needles.hem_join = line.row

    def _rounds_or_rows(self, in_round: bool) -> None:
        words_for = {True: "in the round", False: "flat"}
        insist(in_round == self.needles.in_round, f"the work is {words_for[self.needles.in_round]}")

    def _fabric(self, line: words.FabricLine) -> None:
        needles = self.needles
        match line:
            case words.BeginChart():
                side = line.side or "round"
                insist(needles.side == side, f"the next row is a {needles.side} row, not a {side} row")
                needles.begin_chart(line.chart, line.row, line.right, line.wrong, line.width, line.yarn)
            case words.Border():
                needles.begin_border(line.stitches)
            case words.FrontBand():
                begin_band(needles, line)
            case words.BandHoles():
                begin_holes(needles, line)
            case words.Plain():
                needles.go_plain(line.fabric)
            case words.Edge():
                insist(needles.start is not None, "edge stitches are told when a chart begins")
                insist(
                    line.band == (sum(needles.apart) if needles.has_band else 0), f"the band has not {line.band} sts"
                )
                right, left = needles.apart if line.band else (line.stitches, line.stitches)
                needles.outside = (right or line.stitches, left or line.stitches)
                needles.edge_yarn = line.yarn
            case words.Steek():
                needles.begin_steek(line.first, line.last, line.yarns)
            case words.Work():
                self._rounds_or_rows(line.in_round)
                needles.check_fabric(line.fabric, line.rows)
                for _ in range(line.rows):
                    needles.work_row()

    def _inset(self, line: words.Inset) -> None:
        """Take the row on which a pocket is opened; its stitches are as many as the lining's."""
        needles, row = self.needles, self.needles.done + line.row
        insist(not needles.in_round and line.row > 0, "a pocket is opened in flat work, on a row that comes")
        insist(line.side == ("RS" if row % 2 else "WS"), f"row {line.row} from here is no {line.side} row")
        widths = {last - first + 1 for first, last in line.slots}
        insist(widths == {line.live}, f"the {line.lining} has {line.live} sts for {sorted(widths)}")
        ends = [place for slot in line.slots for place in slot]
        insist(ends == sorted(ends) and ends[0] > 0, "the openings do not lie side by side")
        needles.openings.append((row, line.slots, line.lining))
