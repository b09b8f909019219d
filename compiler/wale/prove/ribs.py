"""Ribs on the machine: rows told first and worked then, or rounds told with their number."""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import KNIT, PURL, TWISTED, insist
from wale.prove.needle import Needles
from wale.prove.spelling import shades


class RibWork:
    """The rows of a rib as they are told, by their side."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self.told: dict[str, words.RibRow] = {}

    def add(self, line: words.RibRow) -> None:
        """Take a row."""
        self.told[line.side] = line

    def work(self, line: words.RibRows) -> None:
        """Work so many rows or rounds, and see that they make the rib that the line names."""
        needles = self.needles
        insist(bool(line.yarn) or not needles.chart, "the line does not say in which yarn the rib is worked")
        if line.yarn:
            needles.go_plain(words.Fabric(stitch="", yarn=line.yarn))
        if line.stitches is not None:
            insist(needles.in_round, "the work is flat")
            ops = needles.spell(line.stitches, "round")
            colours = self._shaded(line.stitches, "round")
            insist(len(ops) == needles.count, "a rib row keeps its stitches")
            self._ribbed(ops, colours, line, (0, 0))
            for _ in range(line.rows):
                needles.add(ops, colours, 0, 0, rib=f"rib {line.knit}x{line.purl}")
            return
        insist(not needles.in_round, "the work is in the round")
        insist(needles.side == line.begins, f"the next row is a {needles.side} row, not a {line.begins} row")
        insist("RS" in self.told and "WS" in self.told, "the rib rows are not told")
        right = needles.spell(self.told["RS"].stitches, "RS")
        wrong = needles.spell(self.told["WS"].stitches, "WS")
        inner = slice(needles.apart[0], len(right) - needles.apart[1])
        insist(right[inner] == wrong[inner], "the ribs of RS and WS rows do not stand over each other")
        # edge stitches stand at an end where no border or band does
        from_end = right[inner][::-1] if needles.apart[0] else right[inner]
        leading = len(from_end) - len(from_end.lstrip(bytes((KNIT,))))
        if leading == len(from_end) and not needles.has_band:
            # no purl column: one rib stands between the edge stitches
            leading = (len(from_end) + line.knit) // 2
        colours = self._shaded(self.told["RS"].stitches, "RS")
        same = colours == self._shaded(self.told["WS"].stitches, "WS")
        insist(same, "the colours of RS and WS rows do not stand over each other")
        ends = needles.edges(max(0, leading - (0 if line.twisted else line.knit)))
        self._ribbed(right[inner], colours[inner], line, ends)
        for _ in range(line.rows):
            look = wrong if needles.side == "WS" else right
            needles.add(look, colours, 0, 0, rib=f"rib {line.knit}x{line.purl}")

    def _shaded(self, stitches: words.Stitches, side: str) -> bytes:
        """Give the colours of a row in words, from its right end."""
        needles = self.needles
        told = bytes(needles.palette.index(yarn) for yarn in shades(stitches, needles.yarn))
        return told[::-1] if side == "WS" else told

    def _ribbed(self, ops: bytes, colours: bytes, line: words.RibRows, ends: tuple[int, int]) -> None:
        knit, purl = line.knit, line.purl
        inside = slice(ends[0], len(ops) - ends[1])
        inner = ops[inside]
        unit = bytes((TWISTED if line.twisted else KNIT,)) * knit + bytes((PURL,)) * purl
        rib = unit * (len(inner) // len(unit) + 1)
        name = f"{knit}x{purl} {'twisted ' if line.twisted else ''}rib"
        insist(inner == rib[: len(inner)], f"the words do not make a {name}")
        shown = colours[inside]
        first, second = shown[0], shown[knit] if len(shown) > knit else shown[0]
        told = "of two colours" if line.corrugated else "of one colour"
        insist(line.corrugated == (first != second), f"the rib is not {told}")
        columns = (bytes((first,)) * knit + bytes((second,)) * purl) * (len(shown) // (knit + purl) + 1)
        insist(shown == columns[: len(shown)], "the colours do not follow the columns of the rib")
