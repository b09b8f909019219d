"""Pieces whose outline or measures differ: the old outline over the new one, with the measures that differ.

Both lie in one pair of axes, x = 0 the piece's centre line and y = 0 its lower edge or fold (write/outline.py).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from wale.compare.comparison import Comparison, Garment
from wale.pattern import Dimension, Schematic
from wale.plan import PiecePlan
from wale.quantity import show_length, show_signed, unit_word
from wale.write.outline import HIDDEN, Point, layers, outline
from wale.write.schematics import Measure, letter_of, measures, role_of

FEW = 2
"""Up to so many sizes are drawn each; of more, the first in which a piece differs."""
NONE = "–"

Laid = tuple[tuple[Point, ...], tuple[Measure, ...]]
"""A piece of one size laid flat: its outline and its measures."""


def outlines(found: Comparison) -> tuple[Schematic, ...]:
    """Give the schematics, pieces that differ alike in one; none where a side is a bare plan."""
    old, new = found.old.garment, found.new.garment
    if old is None or new is None:
        return ()
    former = {now: before for before, now in found.renamed}
    pieces = {piece.name: piece for piece in old.plan.pieces}
    groups: dict[tuple[str, Laid, Laid], list[str]] = {}
    for piece in new.plan.pieces:
        before = pieces.get(former.get(piece.name, piece.name))
        if before is not None and _is_seen(before) and _is_seen(piece):
            for size in _drawn(found, before, piece):
                groups.setdefault((size, *_both(old, new, before, piece, size)), []).append(piece.name)
    units = new.spec.units
    return tuple(
        _schematic(" and ".join(names).capitalize(), size, one, other, units)
        for (size, one, other), names in groups.items()
    )


def told_lengths(old: Fraction | None, new: Fraction | None, units: str) -> tuple[str, str, str]:
    """Give two lengths in cm as printed, and the difference of what is printed; finer where they would look alike."""
    if old is None or new is None:
        before, after = (NONE if one is None else show_length(one, units) for one in (old, new))
        return before, after, ""
    places = 1 if show_length(old, units) != show_length(new, units) else 2
    before, after = (show_length(one, units, places) for one in (old, new))
    return before, after, show_signed(Fraction(after) - Fraction(before), places)


def _is_seen(piece: PiecePlan) -> bool:
    return any(section.kind not in HIDDEN for section in piece.sections)


def _drawn(found: Comparison, before: PiecePlan, after: PiecePlan) -> tuple[str, ...]:
    """Name the sizes in which a piece is drawn."""
    old, new = found.old.garment, found.new.garment
    assert old is not None and new is not None
    pairs = ((size, _both(old, new, before, after, size)) for size in found.sizes)
    differ = tuple(size for size, (one, other) in pairs if one != other)
    return differ if len(found.sizes) <= FEW else differ[:1]


def _both(old: Garment, new: Garment, before: PiecePlan, after: PiecePlan, size: str) -> tuple[Laid, Laid]:
    """Lay both versions of a piece flat; measures have the names that the new garment gives them."""
    role = role_of(new.spec, after)
    return _laid(before, old.plan.sizes.index(size), role), _laid(after, new.plan.sizes.index(size), role)


def _laid(piece: PiecePlan, size: int, role: str) -> Laid:
    return outline(layers(piece, size)), measures(piece, size, role)


def _schematic(name: str, size: str, old: Laid, new: Laid, units: str) -> Schematic:
    dimensions = tuple(_dimensions(old[1], new[1], units))
    shape, before = (tuple(map(_cm, points)) for points in (new[0], old[0]))
    return Schematic(name, size, shape, (), dimensions, unit_word(units), before)


def _dimensions(old: Sequence[Measure], new: Sequence[Measure], units: str) -> Iterator[Dimension]:
    """Give the measures that differ, lettered; drawn on the new piece where it has them."""
    before, after = _by_name(old), _by_name(new)
    count = 0
    for key in dict.fromkeys((*after, *before)):
        one, other = before.get(key), after.get(key)
        values = (None if one is None else one.value), (None if other is None else other.value)
        if values[0] != values[1]:
            drawn = other or one
            assert drawn is not None
            told = told_lengths(*values, units)
            yield Dimension(letter_of(count), drawn.name, _cm(drawn.start), _cm(drawn.end), told)
            count += 1


def _by_name(some: Sequence[Measure]) -> dict[tuple[str, int], Measure]:
    """Give measures by name, those of one name (two ribs) numbered from below."""
    found: dict[tuple[str, int], Measure] = {}
    for one in some:
        found[one.name, sum(name == one.name for name, _ in found)] = one
    return found


def _cm(point: Point) -> tuple[float, float]:
    return float(point[0]), float(point[1])
