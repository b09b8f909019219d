"""Patch pockets: where a piece that is sewn onto another lies on it, in whole rows and stitches."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.plan import Level, PiecePlan, Plan, Section
from wale.shaping.gauge import nearest
from wale.spec import SewnOn


class Place(Struct, frozen=True):
    """Where a pocket lies in one size.

    Attributes:
        rows: of the piece below it, from the fold or cast-on up to its lower edge.
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
    inside = max(0, nearest((join.up.at(size) - start) * section.rows_per_cm))
    up = start + inside / section.rows_per_cm
    level = under.levels[section.last]
    stitches = nearest(join.aside.at(size) * level.sts_per_cm) if join.aside is not None else 0
    aside, wide = stitches / level.sts_per_cm, max(level.width(size) for level in pocket.levels)
    high = pocket.sections[-1].position[size]
    reach = aside + wide if join.aside is not None else wide / 2
    across = _narrowest(under, up, up + high, size) / under.ends_shaped - reach
    room = (across, _top(under, size) - up - high)
    return Place(before + inside, up, stitches, aside, room, section, level, before)


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
