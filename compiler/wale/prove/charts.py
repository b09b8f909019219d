"""Charts as their words tell them, laid out as seen from the right side."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct, field

from wale.prove.fabric import (
    CENTRED_DEC,
    INC,
    KNIT,
    LEFT_CROSS,
    LEFT_DEC,
    LEFT_DEEP,
    PURL,
    RIGHT_CROSS,
    RIGHT_DEC,
    RIGHT_DEEP,
    SLIPPED,
    Contradiction,
    insist,
)
from wale.prove.reader import Unreadable, read_chart_row
from wale.prove.words import ChartRow, Side

MOST_CELLS = 20_000_000
"""Most stitches of a chart in words."""


class Palette(Struct):
    """Yarns numbered as they are met."""

    yarns: dict[str, int] = field(default_factory=dict)

    def index(self, yarn: str) -> int:
        """Give a yarn's number."""
        return self.yarns.setdefault(yarn, len(self.yarns))


FACES = {
    "k": KNIT,
    "p": PURL,
    "sl": SLIPPED,
    "yo": INC,
    "k2tog": RIGHT_DEC,
    "ssk": LEFT_DEC,
    "p2tog": RIGHT_DEC,
    "ssp": LEFT_DEC,
    "k3tog": RIGHT_DEEP,
    "sssk": LEFT_DEEP,
    "s2kp": CENTRED_DEC,
}
"""Words of a texture's chart, and how they look from the right side in a row that is worked from it."""
_TURNED = {"k": "p", "p": "k", "p2tog": "k2tog", "ssp": "ssk"}
"""Words of wrong-side rows by those of right-side rows that look the same."""
_GAINS = {"yo": 1} | dict.fromkeys(("k2tog", "ssk", "p2tog", "ssp"), -1) | dict.fromkeys(("k3tog", "sssk", "s2kp"), -2)
"""Stitches that words make more than they take up."""
_CABLE = re.compile(r"cable ([2468]) (left|right)")


def face(word: str) -> int:
    """Give how a texture's stitch looks from the right side."""
    cable = _CABLE.fullmatch(word)
    return FACES[word] if cable is None else LEFT_CROSS if cable[2] == "left" else RIGHT_CROSS


def together(row: Sequence[str]) -> tuple[tuple[int, ...], ...]:
    """Give the places of a texture's row, from the right, that are worked together: cables, and lace between cuts.

    A cut leaves both sides their stitches. Of all ways to cut the row at one level the one with the fewest stitches in
    stretches holds, then the one that cuts nearest to the right edge.

    Raises:
        Contradiction: the row does not keep its stitches, or a cable is not whole.
    """
    uncut = _within_cables(row)
    level, levels = 0, dict[int, list[int]]()
    for place, word in enumerate(row):
        if place not in uncut:
            levels.setdefault(level, []).append(place)
        level += _GAINS.get(word, 0)
    insist(level == 0, f"the row has {abs(level)} sts {'more' if level > 0 else 'fewer'} at its end")
    found: list[tuple[int, ...]] | None = None
    for cuts in levels.values():
        lengths = [(end - cut) % len(row) or len(row) for cut, end in zip(cuts, cuts[1:] + cuts[:1], strict=True)]
        stretches = [
            tuple((cut + step) % len(row) for step in range(length))
            for cut, length in zip(cuts, lengths, strict=True)
            if length > 1
        ]
        if found is None or sum(map(len, stretches)) < sum(map(len, found)):
            found = stretches
    return tuple(found or ())


def _within_cables(row: Sequence[str]) -> set[int]:
    """Give the places before which a row cannot be cut, for they are in a cable."""
    found: set[int] = set()
    place = next((one for one, word in enumerate(row) if not _CABLE.fullmatch(word) or word != row[one - 1]), 0)
    end = place + len(row)
    while place < end:
        cable = _CABLE.fullmatch(row[place % len(row)])
        size = int(cable[1]) if cable is not None else 1
        whole = [row[one % len(row)] for one in range(place, place + size)]
        insist(len(set(whole)) == 1 and place + size <= end, f"{whole[0]} has not its stitches side by side")
        found.update(one % len(row) for one in range(place + 1, place + size))
        place += size
    return found


class ReadChart(Struct, frozen=True):
    """A chart: rows from column 1 (right) on, and the side told with each row ("" in the round).

    Rows hold the names of yarns, or the stitches of a texture as they look from the right side.
    """

    rows: tuple[tuple[str, ...], ...]
    sides: tuple[Side, ...]
    is_texture: bool = False

    @property
    def width(self) -> int:
        """Stitches of its first row."""
        return len(self.rows[0])

    @property
    def is_flat(self) -> bool:
        """Whether its rows tell a side."""
        return bool(self.sides[0])


Charts = Mapping[tuple[str, bool], ReadChart]
"""By name and whether it is for flat work."""


def read_chart(words: Iterable[tuple[str, str]]) -> ReadChart:
    """Read a chart's words, bottom row first.

    Raises:
        Contradiction: a row is not in the controlled wording, out of order, or not the row that it says it repeats.
    """
    told: list[ChartRow] = []
    cells = 0
    for number, (label, text) in enumerate(words, 1):
        try:
            row = read_chart_row(label, text)
        except Unreadable as error:
            raise Contradiction(f"{label}: {error}") from None
        insist(row.number == number, f"row {row.number} of the chart stands where row {number} should")
        counts = [count * times for runs, times in row.stretches for count, _ in runs]
        insist(all(counts), "a run of the chart has no stitches")
        cells += sum(counts)
        insist(cells <= MOST_CELLS, "the chart has more stitches than anybody knits")
        if row.same_as is not None:
            insist(0 < row.same_as < number, f"row {number} cannot be as row {row.same_as}")
            other = _worked(told[row.same_as - 1])
            insist(row.begun < len(other), f"row {row.same_as} has no {row.begun} sts to begin row {number} along")
            same = _worked(row) == other[row.begun :] + other[: row.begun]
            along = f", begun {row.begun} sts along" if row.begun else ""
            insist(same, f"row {number} is not as row {row.same_as}{along}")
        told.append(row)
    insist(bool(told), "the chart has no rows")
    kinds = {row.is_texture for row in told}
    insist(len(kinds) == 1, "some rows of the chart tell stitches, and some yarns")
    return ReadChart(tuple(_cells(row) for row in told), tuple(row.side for row in told), kinds.pop())


def _cells(row: ChartRow) -> tuple[str, ...]:
    cells = _worked(row)
    if row.side != "WS" or not row.is_texture:
        return cells[::-1] if row.side == "WS" else cells
    return tuple(_TURNED.get(cell, cell) for cell in cells[::-1])


def _worked(row: ChartRow) -> tuple[str, ...]:
    return tuple(
        yarn for runs, times in row.stretches for _ in range(times) for count, yarn in runs for _ in range(count)
    )


class Tiles:
    """A chart's rows as bytes, of colours or of a texture's stitches, long enough to be cut to any run of stitches."""

    def __init__(self, chart: ReadChart, palette: Palette) -> None:
        self.chart, self.is_texture = chart, chart.is_texture
        self._rows = [bytes(map(face if self.is_texture else palette.index, row)) for row in chart.rows]
        self.together = [together(row) if self.is_texture else () for row in chart.rows]
        self._wide: dict[int, bytes] = {}

    def cut(self, row: int, runs: Sequence[tuple[int, int]]) -> bytes:
        """Give the colours of runs (first column from 0, stitches) on a chart row from 1."""
        tile = self._rows[row - 1]
        width = len(tile)
        longest = max(length for _, length in runs) + width
        wide = self._wide.get(row, b"")
        if len(wide) < longest:
            wide = self._wide[row] = tile * (longest // width + 2)
        return b"".join(wide[start % width : start % width + length] for start, length in runs)

    def whole(self, row: int) -> bytes:
        """Give the colours of one whole row of the chart."""
        return self._rows[row - 1]
