"""Printed tables of lengths held against the fabric: each figure is read and measured anew.

The proof knows the headings that the pattern prints: what a heading names is measured on the knitted pieces, nothing is
taken from the plan but where a named width stands, what was wished for, and the gauge. A heading that it does not know
is a finding.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.prove.fabric import Contradiction, Finding, insist
from wale.prove.facts import Facts, PrintedTable
from wale.prove.ruler import Ruler

Rulers = Mapping[tuple[str, str], Ruler]
"""By piece and size."""

_DECIMAL = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?")
_CHOSEN = re.compile(r"([0-9]+) \(([+-]?[0-9]+\.[0-9]+)\)")


class Measured(Struct, frozen=True):
    """A printed figure and what was measured, both in cm; `name` is its heading, or the words of a remark."""

    piece: str
    size: str
    name: str
    told: str
    found: Fraction


def near(told: str, found: Fraction, unit: Fraction) -> bool:
    """Whether a printed figure is a length in cm, rounded to its last place, halves away from zero."""
    if _DECIMAL.fullmatch(told) is None:
        return False
    scale = 10 ** len(told.partition(".")[2])
    size: int = (2 * abs(found) / unit * scale + 1) // 2
    return bool(Fraction(told) * scale == (size if found > 0 else -size))


def show(found: Fraction, unit: Fraction) -> str:
    """Write a length for a finding, to a hundredth."""
    return f"{float(found / unit):.2f}"


class Tables:
    """Measures the figures of tables; what was measured is gathered in `measured`, what is wrong in `findings`."""

    def __init__(self, rulers: Rulers, facts: Facts, sizes: Sequence[str]) -> None:
        self.rulers, self.facts, self.sizes = rulers, facts, sizes
        self.measured: list[Measured] = []
        self.findings: list[Finding] = []
        self._pieces = tuple(dict.fromkeys(piece for piece, _ in rulers))

    def check(self, table: PrintedTable) -> None:
        """Hold a table against the fabric."""
        before, edgings = "", dict.fromkeys(EDGINGS, 0)
        for heading, cells in table.rows:
            if len(cells) != len(self.sizes):
                self._finding(table, "", heading, f"it has {len(cells)} figures for {len(self.sizes)} sizes")
                continue
            for size, cell in zip(self.sizes, cells, strict=True):
                try:
                    self._figure(table, heading, before, edgings, size, cell)
                except Contradiction as error:
                    self._finding(table, size, f"{heading}: {cell}", str(error))
            if heading in edgings:
                edgings[heading] += 1
            before = before if heading.startswith("ease at ") else heading

    def _finding(self, table: PrintedTable, size: str, line: str, message: str) -> None:
        where = " and ".join(table.pieces) or f"table of {TITLES[table.kind]}"
        self.findings.append(Finding(where, size, 0, line, message))

    def _figure(
        self, table: PrintedTable, heading: str, before: str, edgings: Mapping[str, int], size: str, cell: str
    ) -> None:
        if table.kind == "deviations":
            piece, (told, wished), found = self._chosen(heading, size, cell)
            insist(near(told, found, table.unit), f"it misses its wish by {show(found, table.unit)}, not by {told}")
            self.measured.append(Measured(piece, size, f"{heading}, wished {wished}", told, found))
            return
        for piece in table.pieces or ("",):
            if table.kind == "schematic":
                found = self._drawn(self._ruler(piece, size), heading, edgings)
            else:
                found = self._finished(heading, before, size)
            insist(near(cell, found, table.unit), f"it measures {show(found, table.unit)}, not {cell}")
            self.measured.append(Measured(piece, size, heading, cell, found))

    def _ruler(self, piece: str, size: str) -> Ruler:
        insist((piece, size) in self.rulers, f"there is no piece {piece}")
        return self.rulers[piece, size]

    def _drawn(self, ruler: Ruler, heading: str, edgings: Mapping[str, int]) -> Fraction:
        """Measure what a schematic names."""
        level = ruler.level(heading, drawn=True)
        if level is not None:
            return ruler.width(level)
        if heading in EDGINGS:
            return ruler.part(EDGINGS[heading], edgings[heading])
        if heading in DRAWN:
            return DRAWN[heading](ruler)
        if ruler.fact.anew is not None and heading in (f"to {ruler.fact.anew[1]}", f"from {ruler.fact.anew[1]}"):
            return ruler.to_anew() if heading.startswith("to ") else ruler.height(ruler.rows)
        insist(heading.startswith("to "), "no such measure is known")
        return ruler.mark(heading.removeprefix("to "))

    def _finished(self, heading: str, before: str, size: str) -> Fraction:
        """Measure what the table of finished measurements names."""
        if heading.startswith("ease at the "):
            label = heading.removeprefix("ease at the ")
            bare = self.facts.bare.get(size, {}).get(label)
            insist(bare is not None, f"the body's {label} is not known")
            assert bare is not None
            return self._finished(before, "", size) - bare
        words, _, last = heading.rpartition(", ")
        place = _PLACE.search(words)
        if last == "length" and place is not None:
            ruler = self._ruler(words[: place.start()], size)
            insist(ruler.fact.anew is not None and ruler.fact.anew[1] == place[2], f"there is no {place[2]}")
            return ruler.to_anew() if place[1] == "to" else ruler.height(ruler.rows)
        if last == "length" and words in self._pieces:
            ruler = self._ruler(words, size)
            return ruler.height(ruler.rows)
        if last == "wide" and words.removesuffix(" neck") in self._pieces:
            return self._ruler(words.removesuffix(" neck"), size).neck_width()
        insist(last in ("around", "wide"), "no such measure is known")
        piece, _, label = words.partition(", ")
        pieces = (piece,) if label else self.facts.bodies
        rulers = [self._ruler(name, size) for name in pieces]
        levels = [(ruler, ruler.level(label or piece, drawn=False)) for ruler in rulers]
        widths = [ruler.width(level) for ruler, level in levels if level is not None]
        insist(bool(widths), "no such measure is known")
        return sum(widths, Fraction(0) if label else self.facts.openings.get(size, Fraction(0)))

    def _chosen(self, heading: str, size: str, cell: str) -> tuple[str, tuple[str, str], Fraction]:
        """Count what the table of deviations counts, and give how far it is from its wish."""
        told = _CHOSEN.fullmatch(cell)
        insist(told is not None, "it is no count with a deviation")
        assert told is not None
        address, _, kind = heading.rpartition(", ")
        for piece in self._pieces:
            ruler = self._ruler(piece, size)
            count = None
            if kind == "sts":
                level = next((one for one in ruler.fact.levels if one.address == address), None)
                if level is not None and level.wish is not None:
                    count, found, wish = ruler.count(level), ruler.width(level) - level.wish, level.wish
            else:
                length = next((one for one in ruler.fact.lengths if one.address == address), None)
                if length is not None:
                    count, found, wish = length.last - length.before, ruler.length(length) - length.wish, length.wish
            if count is not None:
                insist(count == int(told[1]), f"there are {count}, not {told[1]}")
                return piece, (told[2], show(wish, Fraction(1))), found
        insist(False, "no such count is known")
        raise AssertionError


_PLACE = re.compile(r" (to|from) the ([a-z]+)$")
TITLES = {"finished": "finished measurements", "deviations": "deviations", "schematic": "measures", "yarn": "yarn"}
DRAWN: dict[str, Callable[[Ruler], Fraction]] = {
    "hem": Ruler.hem,
    "armhole edge": Ruler.armhole,
    "to crown": lambda ruler: ruler.crown(below=True),
    "crown": lambda ruler: ruler.crown(below=False),
    "length": lambda ruler: ruler.height(ruler.rows),
    "length to high point": lambda ruler: ruler.height(ruler.rows),
    "half the neck width": Ruler.neck_width,
    "neck width": Ruler.neck_width,
    "neck depth": Ruler.neck_depth,
    "placket": Ruler.placket,
    "placket width": Ruler.placket_width,
    "shoulder": Ruler.shoulder,
    "slope": Ruler.slope,
    "from fold to front edge": lambda ruler: ruler.broad(is_folded=True),
    "neck to seam": lambda ruler: ruler.height(ruler.rows),
    "along the edges": Ruler.broad,
    "depth behind": lambda ruler: ruler.deep(is_behind=True),
    "depth in front": lambda ruler: ruler.deep(is_behind=False),
}
"""Measures of schematics beside the widths, edges and marks."""
EDGINGS = {"rib": "Rib", "garter": "Garter", "seed": "Seed", "moss": "Moss", "rolled": "Rolled edge"}
"""Textured edges by their name in a schematic: what their lines begin with."""
