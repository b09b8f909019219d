"""Pockets: where a piece that is sewn onto another, or behind it, lies on it, in whole rows and stitches."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

from wale.plan import Level, PiecePlan, Plan, Section
from wale.shaping.gauge import nearest
from wale.spec import Join, SewnOn


class Place(Struct, frozen=True):
    """Where a pocket lies in one size.

    Attributes:
        rows: of the piece below it, from the fold or cast-on up to its lower edge; of one that is inset to its opening.
        up: the same in cm.
        stitches: of the piece between its middle, or its opening, and the nearer side of the pocket; 0 in the middle.
        aside: the same in cm.
        room: by how many cm the piece is wider, and higher, than the pocket needs; below 0 it does not lie on it.
        section, level: of the piece at the pocket's lower edge.
        below: rows from the fold to the start of that section.
    """

    rows: int
    up: Fraction
    stitches: int
    aside: Fraction
    room: tuple[Fraction, Fraction]
    section: Section
    level: Level
    below: int


def place_of(plan: Plan, join: SewnOn, size: int) -> Place | None:
    """Give the place of a pocket; None where one of the two pieces is not there."""
    pocket, under = plan.piece(join.piece), plan.piece(join.onto)
    if pocket is None or under is None:
        return None
    section, before = _section_at(under, join.up.at(size), size)
    start = section.position[size] - section.length(size)
    inside = max(0, nearest((join.up.at(size) - start) * section.rows_per_cm, 2 if join.is_inset else 1))
    if join.is_inset:
        # it is opened on a right-side row of this section, and not on one that evens the stitches out
        inside = max(_evened(section, size), min(inside, section.rows[size] - 2))
    up = start + inside / section.rows_per_cm
    level = under.levels[section.last]
    stitches = nearest(join.aside.at(size) * level.sts_per_cm) if join.aside is not None else 0
    aside, wide = stitches / level.sts_per_cm, max(level.width(size) for level in pocket.levels)
    high = pocket.sections[-1].position[size]
    low = up - high if join.is_inset else up
    reach = aside + wide if join.aside is not None else wide / 2
    across = _narrowest(under, low, low + high, size) / under.ends_shaped - reach
    above = _top(under, size) - low - high
    room = (across, min(low, above) if join.is_inset else above)
    return Place(before + inside, up, stitches, aside, room, section, level, before)


def _evened(section: Section, size: int) -> int:
    """Give the rows of a section up to the pair that evens its stitches out at its start."""
    return 2 if section.even_start is not None and section.even_start[size] else 0


def _section_at(piece: PiecePlan, height: Fraction, size: int) -> tuple[Section, int]:
    """Give the section at a height above the fold, and the rows from the fold to its start."""
    counted = [one for one in piece.sections if one.kind not in ("facing", "turning")]
    rows = 0
    for section in counted:
        if section.position[size] >= height or section is counted[-1]:
            return section, rows
        rows += section.rows[size]
    raise AssertionError("a piece has sections")


def _narrowest(piece: PiecePlan, low: Fraction, high: Fraction, size: int) -> Fraction:
    """Give the smallest width in cm between two heights."""
    widths = [
        piece.levels[index].width(size)
        for section in piece.sections
        if section.position[size] > low and section.position[size] - section.length(size) < high
        for index in (section.first, section.last)
    ]
    return min(widths, default=Fraction(0))


def _top(piece: PiecePlan, size: int) -> Fraction:
    """Give the height in cm at which neck or shoulders begin, else the end of the piece."""
    last = piece.sections[-1]
    if piece.top is None:
        return last.position[size]
    return last.position[size] - max(piece.top.neck_rows[size], piece.top.slope_rows[size]) / last.rows_per_cm


class Slot(Struct, frozen=True):
    """The opening of a pocket that is inset, in one size.

    Attributes:
        lining: the piece whose stitches take the place of those on the holder.
        row: of the piece, from the cast-on; a right-side row.
        before: stitches on the needle before it.
        places: the first stitch of each opening, from 1 where the row starts.
        stitches: of each.
    """

    lining: str
    row: int
    before: int
    places: tuple[int, ...]
    stitches: int


def slots_of(plan: Plan, joins: Iterable[Join], piece: PiecePlan, size: int) -> tuple[Slot, ...]:
    """Give the openings of a piece in one size, by their rows."""
    insets = [one for one in joins if isinstance(one, SewnOn) and one.is_inset and one.onto == piece.name]
    found = [_slot(plan, join, piece, size) for join in insets]
    return tuple(sorted((one for one in found if one is not None), key=lambda one: one.row))


def _slot(plan: Plan, join: SewnOn, piece: PiecePlan, size: int) -> Slot | None:
    lining, place = plan.piece(join.piece), place_of(plan, join, size)
    if lining is None or place is None:
        return None
    hidden = sum(one.rows[size] for one in piece.sections if one.kind in ("facing", "turning"))
    count, many = _count_at(piece, place, size), lining.levels[-1].counts[size]
    middle = count // 2 - place.stitches
    places: tuple[int, ...]
    if piece.half is not None:
        places = (count - place.stitches - many,) if piece.half.hand == "left" else (place.stitches,)
    else:
        places = ((count - many) // 2,) if join.aside is None else (middle - many, count - middle)
    return Slot(lining.name, hidden + place.rows + 1, count, tuple(one + 1 for one in places), many)


def _count_at(piece: PiecePlan, place: Place, size: int) -> int:
    """Give the stitches on the needle below an opening."""
    section, first = place.section, piece.levels[place.section.first].counts[size]
    if section.kind != "shape":
        return first
    grows = piece.levels[section.last].counts[size] > first
    shaped = sum(row <= place.rows - place.below for row in section.schedules[size].rows())
    return first + piece.ends_shaped * (shaped if grows else -shaped)
