"""A sleeve's cap and its armhole: how long their edges are, in rows that are not chosen yet.

Along the rows of an edge each plain row counts by its height, a shaped one by its slant, and what is bound off by its
width. The stitches are known, and with them the shaped rows, so an edge is a constant and so much a row.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.draft.layout import Layout
from wale.draft.linked import RowBuilder, whole
from wale.draft.stating import at
from wale.quantity import CM_PER_INCH
from wale.shaping.pickup import hypotenuse
from wale.solve.model import Wish
from wale.spec import SetIn, Spec

EASED = CM_PER_INCH
"""The most by which a cap's edge is longer than the armhole's, in cm; see `checks.caps` for its source."""
LIGHTLY = Fraction(1, 100)
"""Weight of the middle of what is eased in: it never moves a length that was asked for (our choice)."""
Edge = tuple[dict[str, Fraction], Fraction]
"""Cm a row by unknown key, and the cm that do not depend on rows."""


def fit_cap(
    build: RowBuilder,
    spec: Spec,
    sleeve: Layout,
    bodies: list[tuple[Layout, str]],
    join: SetIn,
    size: int,
    counts: Mapping[str, int],
) -> None:
    """Ask for a cap whose edge is as long as the armhole's, or up to an inch longer, where one of its lines is fitted.

    Args:
        bodies: the pieces with shoulders, each with the key of its slope.
        counts: solved stitches by unknown key.
    """
    fitted = [one for one in sleeve.sections if one.kind == "shape" and one.measure is None]
    if not fitted or any(_start(body) is None for body, _ in bodies):
        return
    top, last = sleeve.levels[-1], sleeve.sections[-1].swatch.washed
    terms, constant = _side(spec, sleeve, size, counts)
    terms = {key: 2 * factor for key, factor in terms.items()}
    constant = 2 * constant + (counts[at(top.key, spec, size)] - top.taken) / last.stitches
    for body, slope in bodies:
        more, fixed = _side(spec, body, size, counts)
        more[at(slope, spec, size)] = -1 / body.sections[-1].swatch.washed.rows
        # two of its sides make an armhole's edge there, one of a half piece and one of its mirror image
        share = Fraction(body.piece.make * body.ends_shaped, 2)
        for key, factor in more.items():
            terms[key] = terms.get(key, Fraction(0)) - share * factor
        constant -= share * fixed
    edge = tuple((factor, key) for key, factor in terms.items())
    slack = 1 / last.stitches + 1 / last.rows
    scaled, low, high = whole(edge, -slack - constant, EASED - constant)
    why = "the cap's edge is as long as the armhole's, or up to an inch longer, best half of that"
    rule = build.rule("join", why, scaled, (join.span, fitted[0].step.action.span), lower=low, upper=high)
    build.rests(rule)
    build.wishes.setdefault(Wish(edge, constant - EASED / 2, LIGHTLY))


def _start(layout: Layout) -> int | None:
    return next((index for index, one in enumerate(layout.sections) if one.kind == "bound"), None)


def _side(spec: Spec, layout: Layout, size: int, counts: Mapping[str, int]) -> Edge:
    """Give one side's edge from the first bind-off at the sides to the last section's end."""
    terms: dict[str, Fraction] = {}
    constant, start = Fraction(0), _start(layout)
    assert start is not None
    for section in layout.sections[start:]:
        row, stitch = 1 / section.swatch.washed.rows, 1 / layout.levels[section.last].swatch.washed.stitches
        ends = [counts[at(layout.levels[index].key, spec, size)] for index in (section.first, section.last)]
        changed = Fraction(abs(ends[0] - ends[1]), layout.ends_shaped)
        terms[at(section.key, spec, size)] = row
        if section.kind == "shape":
            constant += changed * (hypotenuse(stitch, row) - row)
        elif section.kind == "bound":
            constant += changed * stitch
    return terms, constant
