"""Ribs and other textured edges: rows told stitch by stitch, held against what they are called."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from wale.prove import words
from wale.prove.fabric import KNIT, PURL, insist
from wale.prove.needle import Needles

_RIDGE, _PLAIN = (bytes((PURL,)), bytes((KNIT,)))
_SINGLE, _SHIFTED = _PLAIN + _RIDGE, _RIDGE + _PLAIN
_UNITS = {
    "Garter": (_PLAIN, _RIDGE),
    "Seed": (_SINGLE, _SHIFTED),
    "Moss": (_SINGLE, _SINGLE, _SHIFTED, _SHIFTED),
    "Rolled edge": (_PLAIN,),
}
"""What each row of a texture repeats across, from the right side; they begin again after the last one."""


class TextureWork:
    """The rows of a textured edge, told first and worked then."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self.told: dict[int, words.TextureRow] = {}
        self.following = (0, 0)

    def add(self, line: words.TextureRow) -> None:
        """Take a row."""
        if line.number == 1:
            self.told = {}
        self.told[line.number] = line

    def work(self, line: words.TextureRows) -> None:
        """Work all rows of an edge."""
        needles = self.needles
        insist(bool(line.yarn) or not needles.chart, "the line does not say in which yarn the edge is worked")
        insist(line.in_round == needles.in_round, "rows are told for rounds, or rounds for rows")
        insist(list(self.told) == list(range(1, line.of + 1)), f"{len(self.told)} rows are told, not {line.of}")
        insist(all(row.texture == line.texture for row in self.told.values()), "the rows told are another texture's")
        insist(1 <= line.start <= line.of, f"there is no row {line.start} to begin with")
        if line.yarn:
            needles.go_plain(words.Fabric(stitch="", yarn=line.yarn))
        first = needles.done + (0 if needles.opened == needles.done else 1)
        looks = _looks(needles, line.texture, self.told)
        for number in range(line.rows):
            at = (line.start - 1 + number) % line.of + 1
            side = self.told[at].side or "round"
            insist(needles.side == side, f"the next row is a {needles.side} row, not a {side} row")
            needles.add(looks[at], needles.colours(0), 0, 0)
        needles.part(line.texture, first)
        self.following = needles.done, line.start - 1 + line.rows

    def next_row(self, texture: str, count: int) -> bytes:
        """Give how the next row of the edge looks, its rows going on after those worked, over so many stitches."""
        needles, (done, passed) = self.needles, self.following
        insist(0 < done <= needles.done and bool(self.told), f"no rows of {texture} are worked")
        row = self.told[(passed + needles.done - done) % len(self.told) + 1]
        insist(row.texture.lower() == texture, f"the rows told are {row.texture.lower()}, not {texture}")
        insist(row.side == needles.side, f"the next row is a {needles.side} row, not a {row.side} row")
        return needles.spell(row.stitches, row.side, count)


def _looks(needles: Needles, texture: str, told: Mapping[int, words.TextureRow]) -> dict[int, bytes]:
    """Give how each row looks from the right side; all make the texture between the same edge stitches."""
    looks = {number: needles.spell(row.stitches, row.side or "round") for number, row in told.items()}
    units = _UNITS[texture]
    # Edge stitches are told apart from a texture of two kinds of stitch only.
    most = 20 if len(units[0]) > 1 else 0
    right, left = needles.apart
    inner = [look[right : len(look) - left] for look in looks.values()]
    widest = min(most, (needles.count - right - left) // 2 - 1)
    fits = any(_fits(inner, units, needles.edges(edge)) for edge in range(widest + 1))
    insist(fits and len(looks) % len(units) == 0, f"the words do not make {texture.lower()}")
    return looks


def _fits(looks: Sequence[bytes], units: Sequence[bytes], ends: tuple[int, int]) -> bool:
    right, left = ends
    for number, look in enumerate(looks):
        unit = units[number % len(units)]
        inner = look[right : len(look) - left]
        if inner != (unit * (len(inner) // len(unit) + 1))[: len(inner)]:
            return False
        if right + left and set(look[:right] + look[len(look) - left :]) != {KNIT}:
            return False
    return True
