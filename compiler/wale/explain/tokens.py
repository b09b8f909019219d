"""Numbers in a text with what the words around them say: groups in brackets, units, signs."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

_NUMBER = r"(?:(?<![\w)])[+-])?\d+(?:\.\d+)?(?: \d/\d\d?)?"
_ORDINAL = r"(?:st|nd|rd|th)?"
_GROUP = re.compile(rf"(?<![\d.])({_NUMBER}){_ORDINAL}(?: \(({_NUMBER}{_ORDINAL}(?:, {_NUMBER}{_ORDINAL})*)\))?")
_ORDINAL_END = re.compile(_ORDINAL)
_ONE = re.compile(_NUMBER)

REACH = 64
"""Characters on either side in which the unit of a number stands."""
ROW, COUNT, COLUMN = ("row", "round"), ("rows", "rounds"), ("column",)
_TIMES = re.compile(r" times?\b")
_BEFORE = (
    (re.compile(r"\bcolumns? $"), COLUMN),
    (re.compile(r"\b(?:[Rr]ow|[Rr]ound|chart rows) $"), ROW),
    (re.compile(r"\b(?:rows|then) [^a-z;:.]*to $"), ROW),
    (re.compile(r"\bUS $"), ("US",)),
    (re.compile(r"(?<!\w)[kp]$"), ("sts",)),
)
_AFTER = (
    (re.compile(r" ?(?:edge )?(?:sts?|stitches)\b"), ("sts",)),
    (re.compile(r" columns\b"), ("sts",)),
    (re.compile(r" (?:rows|rounds)\b"), COUNT),
    (re.compile(r" (?:row|round)\b"), COUNT),
    (re.compile(r" wedges\b"), ("wedges",)),
    (re.compile(r" (?:cm|inches)\b"), ("cm", "")),
    (re.compile(r" mm\b"), ("mm",)),
    (re.compile(r" g\b"), ("g", "")),
    (re.compile(r" m\b"), ("m", "")),
)


class Group(Struct, frozen=True):
    """A number, or one for each size in brackets: figures, the place of each, and the units that its words allow.

    `units` is empty where the words tell nothing; `stop` is where it ends, ordinal and closing bracket included.
    """

    figures: tuple[str, ...]
    places: tuple[tuple[int, int], ...]
    units: tuple[str, ...]
    stop: int

    @property
    def start(self) -> int:
        """Where it begins."""
        return self.places[0][0]


def groups(text: str, sizes: int) -> Iterator[Group]:
    """Give the numbers of a text; brackets belong to the number before them where they make one for each size."""
    place = 0
    while (found := _GROUP.search(text, place)) is not None:
        spots = [found.span(1)]
        if found[2] is not None:
            spots += [(found.start(2) + one.start(), found.start(2) + one.end()) for one in _ONE.finditer(found[2])]
        if len(spots) != sizes:
            spots = spots[:1]
        place = max(spots[-1][1], found.end(1))
        single = _ORDINAL_END.match(text, found.end(1))
        stop = found.end() if len(spots) > 1 or single is None else single.end()
        figures = tuple(text[start:stop] for start, stop in spots)
        before = text[max(0, found.start() - REACH) : found.start()]
        yield Group(figures, tuple(spots), _units(before, text[stop : stop + REACH]), stop)


def _units(before: str, after: str) -> tuple[str, ...]:
    if _TIMES.match(after):
        return ("times", "repeats")
    for pattern, units in _BEFORE:
        if pattern.search(before):
            return units
    for pattern, units in _AFTER:
        if pattern.match(after):
            return units
    return ()
