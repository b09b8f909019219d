"""A piece as levels (stitch counts) and sections (row counts), before any number is chosen.

`front, as back` shares unknowns: a level or section is keyed by the address of the step that asked for it, so what the
front inherits is one unknown with the back's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.actions import (
    Fabric,
    Step,
)
from wale.materials import Swatch
from wale.measure import MOST_CM, Measure
from wale.plan import Kind
from wale.problems.problem import Problem, problem
from wale.quantity import length_words
from wale.spec import Piece, Spec


class LevelDraft(Struct, frozen=True):
    """A level without its count.

    `edges` are the edge stitches of both sides, outside rib and repeat; `taken` of them are taken up by seams, outside
    the finished width. `scale` shrinks the wish of a facing; `rib` asks for a rib's multiple. A level of a half piece
    names that of the `whole` one.
    `evened` names the level from which an even change leads here, and whether its line asks for more stitches or
    for fewer; None: for neither.
    One that `is_joined` is what other pieces leave to it, its measure what they were wished to leave.
    """

    key: str
    label: str
    measure: Measure
    swatch: Swatch
    edges: int
    taken: int
    scale: Fraction = Fraction(1)
    rib: tuple[int, int] | None = None
    fabric: Fabric | None = None
    linked: str | None = None
    evened: tuple[str, bool | None] | None = None
    is_joined: bool = False
    whole: str | None = None


class SectionDraft(Struct, frozen=True):
    """A section without its rows. `measure` None: exactly `fixed` rows; `evens`: an even change on its first row.

    `part` is the index of a course's part that it is; its rows follow from the stitches.
    """

    key: str
    kind: Kind
    step: Step
    swatch: Swatch
    first: int
    last: int
    measure: Measure | None
    to: bool = False
    fixed: int = 0
    fabric: Fabric | None = None
    parity: tuple[int, int] = (1, 0)
    evens: bool = False
    part: int = 0
    folds: str = ""


class Layout(Struct, frozen=True):
    """A piece ready to be modelled.

    Attributes:
        fold: index of the first section that counts as length.
        follows: the piece whose motif runs on into this one over the side seam (itself for a sleeve), or None.
    """

    piece: Piece
    levels: tuple[LevelDraft, ...]
    sections: tuple[SectionDraft, ...]
    fold: int
    marks: tuple[tuple[str, int], ...]
    neck: Step | None
    shoulders: Step | None
    crown: Step | None
    follows: str | None = None

    def measured_from(self, index: int) -> int:
        """Give the index of the section from whose start the length up to section `index` is measured."""
        return next((at for at in range(index, self.fold, -1) if self.sections[at].folds), self.fold)

    def after(self, section: SectionDraft) -> LevelDraft:
        """Give the level that a course leads to which asks for a width."""
        return self.levels[section.first + 1]

    @property
    def has_own_counts(self) -> bool:
        """Whether its stitches differ from those of the piece that it is made as: it follows another."""
        return self.follows not in (None, self.piece.name)

    @property
    def carry(self) -> int:
        """What of a motif's balance an unbroken seam leaves to this piece: 1 all, 0 nothing, -1 less by as much."""
        return 1 if self.follows is None else -1 if self.has_own_counts else 0

    @property
    def ends_shaped(self) -> int:
        """How many ends of a row a shaping changes."""
        return 1 if self.piece.half is not None else 2


def too_large(spec: Spec, layout: Layout, widths: Sequence[Mapping[str, Fraction]] = ()) -> list[Problem]:
    """Refuse a piece that is wider or longer than anything knitted, also where counts were written.

    Args:
        widths: solved widths in cm by address, one mapping a size; before they are known lengths that wait for them
            are left out.
    """
    for size, one in enumerate(spec.sizes):
        length = Fraction(0)
        for level in layout.levels:
            if not level.measure.waits_for() and _cm(level.measure, size, level.swatch.washed.stitches) > MOST_CM:
                return [_beyond(layout, level.measure, "wide", one.name, spec.units)]
        for section in layout.sections:
            if section.measure is None or (section.measure.waits_for() and not widths):
                continue
            own = _cm(section.measure, size, section.swatch.washed.rows, widths[size] if widths else None)
            length = max(length, own) if section.to and not section.measure.is_count else length + own
            if length > MOST_CM:
                return [_beyond(layout, section.measure, "long", one.name, spec.units)]
    return []


def _cm(measure: Measure, size: int, gauge: Fraction, solved: Mapping[str, Fraction] | None = None) -> Fraction:
    value = measure.at(size, solved)
    return value / gauge if measure.is_count else value


def _beyond(layout: Layout, measure: Measure, how: str, size: str, units: str) -> Problem:
    more = "wider" if how == "wide" else "longer"
    message = f"the {layout.piece.name} is more than {length_words(Fraction(MOST_CM), units, 0)} {how}"
    help = f"Nothing knitted is {more} than that; check the numbers and their units."
    return problem("E223", message, measure.span, f"{more} than that here", help=help, size=size)
