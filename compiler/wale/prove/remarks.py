"""Remarks of a piece that tell how long it is by now, held against the rows worked up to them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from wale.prove.fabric import Contradiction, Finding, insist
from wale.prove.ruler import Ruler
from wale.prove.tables import Measured, near, show

_FIGURES = r"([0-9.]+(?: \([0-9., ]+\))?)"
_LENGTH = re.compile(
    rf"(?:Sizes? (?P<who>[^:]+): )?The piece measures about {_FIGURES} (?P<unit>cm|inches) from the "
    rf"(?P<origin>fold|cast-on|heel|underarm|join), washed"
    rf"(?:; {_FIGURES} (?:cm|inches) as measured on the needles)?\."
)
UNITS = {"cm": Fraction(1), "inches": Fraction(254, 100)}
"""Units of printed lengths in cm."""

Placed = tuple[int, str]
"""A remark and how many lines of its size stand before it."""


def is_length(text: str) -> bool:
    """Whether a remark tells a length that can be measured."""
    return _LENGTH.fullmatch(text) is not None


def measured(ruler: Ruler, remarks: Sequence[Placed], sizes: Sequence[str], size: str) -> Iterator[Measured | Finding]:
    """Measure what the remarks of a piece tell in one size.

    Args:
        sizes: all printed sizes, in the order of the brackets.
    """
    piece = ruler.fact.piece
    for lines, text in remarks:
        told = _LENGTH.fullmatch(text)
        who = told["who"].split(", ") if told is not None and told["who"] else list(sizes)
        if told is None or size not in who:
            continue
        worked = [one.number for one in ruler.fabric.rows if one.line < lines and one.part != "left"]
        row = min(max(worked, default=0), ruler.rows)
        try:
            anew = ruler.fact.anew
            begun = "fold" if ruler.fabric.fold else "join" if ruler.fabric.joined else "cast-on"
            origin = anew[1] if anew is not None and row > anew[0] else begun
            insist(told["origin"] == origin, f"its length counts from the {origin}")
            for group, found in ((2, ruler.height(row)), (5, ruler.on_needles(row))):
                figure = _of(told[group], who, size)
                insist((figure is None) == (found is None), "a length on the needles needs a gauge off the needles")
                if figure is None or found is None:
                    continue
                unit = UNITS[told["unit"]]
                insist(near(figure, found, unit), f"it measures {show(found, unit)} after row {row}, not {figure}")
                what = "washed" if group == 2 else "on the needles"
                yield Measured(piece, size, f"length after row {row}, {what}", figure, found)
        except Contradiction as error:
            yield Finding(piece, size, row, text, str(error))


def _of(figures: str | None, who: Sequence[str], size: str) -> str | None:
    """Give one size's figure of a bracket."""
    if figures is None:
        return None
    first, _, rest = figures.partition(" (")
    every = [first, *rest.rstrip(")").split(", ")] if rest else [first] * len(who)
    insist(len(every) == len(who), f"its brackets hold figures for {len(every)} sizes")
    return every[who.index(size)]
