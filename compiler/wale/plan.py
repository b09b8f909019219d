"""The plan: whole stitches and rows of every piece and size, each with its wish, deviation and lines of the spec.

Given by `draft.planner`, read by the writer, the checks and the JSON output. Tuples over sizes are in size order.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.actions import DECREASED, CastOn, Edge, Fabric, Half, Neck, Steek, Step
from wale.measure import Measure
from wale.shaping.taper import Schedule
from wale.solve.model import Model
from wale.source import Span

Kind = Literal[
    "facing",
    "turning",
    "front",
    "rib",
    "garter",
    "seed",
    "moss",
    "rolled",
    "work",
    "shape",
    "bound",
    "crown",
    "course",
    "aside",
]

COURSED: tuple[Kind, ...] = ("course", "aside")
"""Parts of courses; one that is worked aside, such as a heel's flap, adds nothing to the length of its piece."""


class Level(Struct, frozen=True):
    """A stitch count of a piece at one height.

    Attributes:
        address: `back.bust`; `label` is its last part.
        counts: stitches, edge stitches included.
        edges: edge stitches of both sides, outside rib and repeat; `taken` of them are taken up by seams.
        sts_per_cm: gauge there.
        wishes: finished width wished in cm; None where it was written as a count.
    """

    address: str
    label: str
    counts: tuple[int, ...]
    edges: int
    sts_per_cm: Fraction
    wishes: tuple[Fraction, ...] | None
    measure: Measure
    swatch: str
    taken: int = 0

    def width(self, size: int) -> Fraction:
        """Finished width in cm, without the edge stitches that seams take up."""
        return (self.counts[size] - self.taken) / self.sts_per_cm

    def deviation(self, size: int) -> Fraction:
        """Width got less width wished, in cm; 0 for a written count."""
        return self.width(size) - self.wishes[size] if self.wishes is not None else Fraction(0)


class Girth(Struct, frozen=True):
    """A girth of what a course works aside, such as a sleeve's.

    Attributes:
        level: its stitches, as those of any level.
        rows: rows of the piece below it, of each size.
        begins: it is that of the stitches with which the next row begins.
        is_edge: it is bound off there.
    """

    level: Level
    rows: tuple[int, ...]
    begins: bool
    is_edge: bool


class Section(Struct, frozen=True):
    """A run of rows worked alike.

    Attributes:
        address: `back.shape[1]`, or `back.hem.facing` for a part of a hem.
        rows: rows or rounds of each size.
        first, last: index of the level at its first and last row; they differ for a shaping or an even change.
        wishes: length wished in cm (of the section, or where `to`, of the piece up to its end); None: given as rows.
        to: the wish is measured from the fold or cast-on to the end of this section.
        position: length got from the fold to its end, cm; the section's own length is rows / rows_per_cm.
        schedules: shaping rows of each size, for a shape.
        fabric: what is worked, None before the first `work in`.
        chart_start: 0-based row of the motif on the section's first row, per size; None where plain.
        even_change: stitches to gain (or lose, negative) evenly on the section's last row.
        even_start: the same on its first row, from the count of the section below; `first` is the level after it.
        centre: motif column (from 0 at the right) of the stitch that keeps its place, per size; None where plain. With
            a steek it is the middle of the round, half a column to the right of that of the piece.
        pivot: the stitch that keeps its place while the edges change, in halves of a row from its right end: 1 on the
            centre line, 0 or 2 at the opening of a half piece.
        numbers: of a course, those of each size by name.
        folds: the name of the place at its start from which lengths of the piece count anew, or "".
    """

    address: str
    kind: Kind
    step: Step
    rows: tuple[int, ...]
    rows_per_cm: Fraction
    swatch: str
    first: int
    last: int
    wishes: tuple[Fraction, ...] | None
    to: bool
    position: tuple[Fraction, ...]
    measure: Measure | None
    fabric: Fabric | None = None
    schedules: tuple[Schedule, ...] = ()
    chart_start: tuple[int, ...] | None = None
    even_change: tuple[int, ...] | None = None
    centre: tuple[Fraction, ...] | None = None
    even_start: tuple[int, ...] | None = None
    pivot: int = 1
    numbers: tuple[Mapping[str, Fraction], ...] = ()
    folds: str = ""

    def length(self, size: int) -> Fraction:
        """Length of the section in cm, washed."""
        return self.rows[size] / self.rows_per_cm

    def deviation(self, size: int) -> Fraction:
        """Length got less length wished, in cm."""
        if self.wishes is None:
            return Fraction(0)
        return (self.position[size] if self.to else self.length(size)) - self.wishes[size]


class Top(Struct, frozen=True):
    """Neck and shoulders, which lie inside the last rows of a piece: the neck may begin in a section below the last.

    Per size: stitches of the neck and of one shoulder (edge stitch included), neck rows (even, the last ones of the
    piece), neck centre and steps of one side, slope rows (even) and the groups left unworked at each turn. A half piece
    has one shoulder, half a neck, and of its centre what lies on this side of the opening. The rows of a neck include
    those of a placket below it (`placket_rows`, empty without one); its centre is then the placket's foot. Its first
    steps, beside the slit, are 0, and what is left of the neck's own centre, its `corner`, is the next one.
    """

    neck: tuple[int, ...]
    shoulder: tuple[int, ...]
    neck_rows: tuple[int, ...]
    centre: tuple[int, ...]
    steps: tuple[tuple[int, ...], ...]
    slope_rows: tuple[int, ...]
    groups: tuple[tuple[int, ...], ...]
    neck_wishes: tuple[Fraction, ...]
    depth_wishes: tuple[Fraction, ...]
    slope_wishes: tuple[Fraction, ...]
    neck_step: Step | None
    shoulder_step: Step | None
    manner: str
    placket_rows: tuple[int, ...] = ()
    corner: tuple[int, ...] = ()
    placket_wishes: tuple[Fraction, ...] = ()

    @property
    def has_placket(self) -> bool:
        """Whether a slit lies below the neck."""
        return bool(self.placket_rows)

    def depth_rows(self, size: int) -> int:
        """Give the rows of the neck above its placket."""
        return self.neck_rows[size] - (self.placket_rows[size] if self.has_placket else 0)

    def own_centre(self, size: int) -> int:
        """Give the stitches of the neck's centre, those of a placket's foot and beside it."""
        return self.centre[size] + (2 * self.corner[size] if self.has_placket else 0)

    def own_steps(self, size: int) -> tuple[int, ...]:
        """Give the steps of one side beyond the neck's own centre."""
        begun = self.placket_rows[size] // 2 - 1 + (self.corner[size] > 0) if self.has_placket else 0
        return self.steps[size][begun:]

    @property
    def is_sloped(self) -> bool:
        """Whether the steps of its neck are decreases, as those of a V are."""
        action = self.neck_step.action if self.neck_step is not None else None
        return isinstance(action, Neck) and action.curve in DECREASED


class CrownPlan(Struct, frozen=True):
    """A crown: stitches of its wedges at the start, and (round, stitches after) of each decrease round, per size.

    Where the piece has more stitches than `start`, round 1 takes the surplus away evenly.
    """

    step: Step
    wedges: int
    start: tuple[int, ...]
    rounds: tuple[int, ...]
    decrease_rounds: tuple[tuple[tuple[int, int], ...], ...]
    final: tuple[int, ...]


class PiecePlan(Struct, frozen=True):
    """One piece, knitted `make` times; `marks` are named places with the rows knitted before them, per size.

    Attributes:
        holders: where it goes on into another piece, the stitches put on each holder from the start of the round, in
            each size: underarm and the rest by turns.
        joined: where it begins with other pieces, the stitches of each in each size, from the start of the round.
        girths: of what its courses work aside.
        hole_rows: rows on which buttonholes are worked in a half piece's band, of each size.
    """

    name: str
    span: Span
    in_round: bool
    make: int
    edge: Edge
    levels: tuple[Level, ...]
    sections: tuple[Section, ...]
    top: Top | None
    crown: CrownPlan | None
    steps: tuple[Step, ...]
    marks: tuple[tuple[str, tuple[int, ...]], ...] = ()
    steek: Steek | None = None
    holders: tuple[tuple[int, ...], ...] = ()
    joined: tuple[tuple[str, tuple[int, ...]], ...] = ()
    half: Half | None = None
    girths: tuple[Girth, ...] = ()
    hole_rows: tuple[tuple[int, ...], ...] = ()

    @property
    def ends_shaped(self) -> int:
        """How many ends of a row a shaping changes: both, or that of a half piece's side."""
        return 1 if self.half is not None else 2

    @property
    def is_tube(self) -> bool:
        """Whether it stays a closed ring: worked in the round and not cut open."""
        return self.in_round and self.steek is None

    @property
    def closed_levels(self) -> tuple[Level, ...]:
        """Levels that lie on a ring once the sides are sewn: those below the first bind-off at the sides.

        A closed cast-on is none.
        """
        closed = any(isinstance(step.action, CastOn) and step.action.manner == "closed" for step in self.steps)
        above = next((one.last for one in self.sections if one.kind == "bound"), len(self.levels))
        return self.levels[closed:above]

    def level(self, label: str) -> Level | None:
        """The level of that label, or None."""
        return next((level for level in self.levels if level.label == label), None)

    def rows_to(self, index: int, size: int) -> int:
        """Rows knitted before section `index`."""
        return sum(section.rows[size] for section in self.sections[:index])

    @property
    def is_from_above(self) -> bool:
        """Whether it is worked from its upper end down: a pullover from the neck, a sock from its cuff."""
        starts = [step.action for step in self.steps if isinstance(step.action, CastOn)]
        return any(section.folds for section in self.sections) and not any(one.manner == "closed" for one in starts)

    @property
    def anew(self) -> int | None:
        """Index of the section from whose start lengths count anew, or None: of the last one."""
        return next((at for at in range(len(self.sections) - 1, -1, -1) if self.sections[at].folds), None)

    def total_rows(self, size: int) -> int:
        """All rows of a size."""
        return self.rows_to(len(self.sections), size)


class CollarPlan(Struct, frozen=True):
    """The short rows of a shawl collar, all of each size; the first of them is a right-side row.

    Attributes:
        base: rows below them over all stitches; two such rows follow them.
        gaps: stitches from each turn to the next one on its side, and from the last one to the foot of the neck.
        ends: stitches at the right and at the left end along which the collar is as deep as in front.
        sides: stitches along a side of the front neck, the fewer of both.
    """

    base: tuple[int, ...]
    gaps: tuple[tuple[int, ...], ...]
    ends: tuple[tuple[int, int], ...]
    sides: tuple[int, ...]

    def pairs(self, size: int) -> int:
        """Short rows on each side."""
        return len(self.gaps[size])

    def waiting(self, size: int, row: int) -> tuple[int, int]:
        """Give the stitches at the right and at the left end that are not worked on a row."""
        short, gaps, (right, left) = row - self.base[size], self.gaps[size], self.ends[size]
        if not 1 <= short <= 2 * len(gaps) + 1:
            return 0, 0
        # a row begins at the turn of the row before it and ends at a turn of its own
        turned, turns = short // 2, (short + 1) // 2
        return (
            right + sum(gaps[turned - 1 :]) if turned else 0,
            left + sum(gaps[turns - 1 :]) if turns <= len(gaps) else 0,
        )

    def front(self, size: int) -> int:
        """Rows along the fronts."""
        return self.base[size] + 2


class BandPlan(Struct, frozen=True):
    """A picked-up band: stitches from each edge (in picking order, with the edge's name), all, and its rounds.

    Attributes:
        make: how often it is worked, such as once along each armhole.
        is_flat: it is worked in rows, the first one a wrong-side row.
        each: stitches of a buttonhole.
        hole_rows: the row on which they are bound off, of each size; empty where there are none.
        holes: stitches before, between and after them, of each size.
        marked: stitches of the round (from 1) on which it turns a corner, of each size; empty where it turns none.
        is_folded: it is worked to twice its depth and sewn down inside.
        hood: stitches that a hood has from its first row on, of each size; empty where it is none.
        collar: the short rows of a shawl collar, whose rows are those behind; None where it is none.
        mitres: rounds on which it loses a stitch at both sides of each of them.
    """

    name: str
    picked: tuple[tuple[str, tuple[int, ...]], ...]
    stitches: tuple[int, ...]
    rows: tuple[int, ...]
    rows_per_cm: Fraction
    sts_per_cm: Fraction
    span: Span
    is_flat: bool = False
    each: int = 0
    hole_rows: tuple[int, ...] = ()
    holes: tuple[tuple[int, ...], ...] = ()
    make: int = 1
    marked: tuple[tuple[int, ...], ...] = ()
    mitres: tuple[tuple[int, ...], ...] = ()
    is_folded: bool = False
    hood: tuple[int, ...] = ()
    collar: CollarPlan | None = None

    def worked(self, size: int, row: int) -> int:
        """Stitches that are worked on a row, buttonholes apart."""
        return self.after(size, row) - (sum(self.collar.waiting(size, row)) if self.collar is not None else 0)

    def after(self, size: int, row: int) -> int:
        """Stitches after a row, buttonholes apart."""
        if self.hood:
            return self.hood[size]
        if not self.mitres:
            return self.stitches[size]
        return self.stitches[size] - 2 * len(self.marked[size]) * sum(one <= row for one in self.mitres[size])

    def depth(self, size: int) -> Fraction:
        """How deep it is in cm, once it is folded."""
        return self.rows[size] / self.rows_per_cm / (2 if self.is_folded else 1)

    def last(self, size: int) -> int:
        """Stitches that are bound off at the end."""
        return self.after(size, self.rows[size])


class Plan(Struct, frozen=True):
    """Everything solved, and the models of stitches and rows that the counts solve: why a count is what it is."""

    sizes: tuple[str, ...]
    pieces: tuple[PiecePlan, ...]
    bands: tuple[BandPlan, ...]
    solved: tuple[tuple[str, tuple[Fraction, ...]], ...] = ()
    models: tuple[Model, Model] | None = None

    def piece(self, name: str) -> PiecePlan | None:
        """The piece of that name, or None."""
        return next((piece for piece in self.pieces if piece.name == name), None)

    def made(self, name: str) -> PiecePlan | BandPlan | None:
        """The piece or band of that name, or None."""
        every: tuple[PiecePlan | BandPlan, ...] = self.pieces + self.bands
        return next((one for one in every if one.name == name), None)
