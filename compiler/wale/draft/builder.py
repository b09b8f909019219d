"""What a piece is laid out with: its levels and sections so far, and how they begin."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct, field
from msgspec.structs import replace

from wale.actions import (
    EDGINGS,
    CastOn,
    Evenly,
    Fabric,
    Step,
)
from wale.draft.halves import halved
from wale.draft.layout import LevelDraft, SectionDraft
from wale.draft.seams import taken
from wale.materials import Swatch
from wale.measure import Combine, Constant, Measure
from wale.plan import COURSED, Kind
from wale.problems.problem import Problem, problem
from wale.quantity import show_decimal
from wale.spec import Piece, Spec

FACING_NARROWER = Fraction(3)
"""Per cent that a folded facing is narrower than what it backs, unless the file says otherwise."""


NO_BORDER = "take `in garter` out of the `edge` line"


NOT_CUT = (
    "cannot stand in a piece with a steek yet: its sides are straight, at one gauge from the cast-on to the end",
    "leave it out, take the `steek` line out, or work the piece flat",
)


class Builder(Struct):
    """The layout of a piece as far as its steps are placed, and what could not be."""

    spec: Spec
    piece: Piece
    follows: str | None = None
    levels: list[LevelDraft] = field(default_factory=list)
    sections: list[SectionDraft] = field(default_factory=list)
    marks: list[tuple[str, int]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    fold: int = 0
    swatch: Swatch | None = None
    fabric: Fabric | None = None
    cast_on: Step | None = None
    motif: Step | None = None
    """The line that began the motif; an edging ends it, and `fabric` is then None."""
    waits: Step | None = None
    is_bound_off: bool = False
    tops: dict[str, Step] = field(default_factory=dict)
    courses: list[str] = field(default_factory=list)

    @property
    def edges(self) -> int:
        """Edge stitches of both sides, a front band among them, or those of a steek."""
        if self.piece.steek is not None:
            return self.piece.steek.stitches
        if self.piece.half is not None:
            return sum(self.piece.half.ends(self.piece.edge.stitches))
        return 0 if self.piece.in_round else 2 * self.piece.edge.stitches

    @property
    def even(self) -> tuple[int, int]:
        """Row parity of a section that starts on a right-side row and ends on a wrong-side row."""
        return (1, 0) if self.piece.in_round else (2, 0)

    def section(
        self, step: Step, kind: Kind, measure: Measure | None, part: str = "", *, to: bool = False, fixed: int = 0
    ) -> None:
        """Add a section in the fabric in work, at the newest level."""
        assert self.swatch is not None
        evens = self.settle(kind)
        at = len(self.levels) - 1
        parity = self.even if kind not in ("facing", "turning") else (1, 0)
        if kind == "facing" and not self.piece.in_round:
            parity = (2, 1)
        address = step.address + part
        self.sections.append(
            SectionDraft(address, kind, step, self.swatch, at, at, measure, to, fixed, self.fabric, parity, evens)
        )

    def add_level(self, step: Step, label: str, measure: Measure, **rest: object) -> None:
        """Add a level at the gauge in work; a name that is taken gets a number."""
        assert self.swatch is not None
        own = self.follows not in (None, self.piece.name)
        owner = self.piece.name if own else step.address.split(".")[0]
        same = [level for level in self.levels if level.label == label or level.label.startswith(f"{label}-")]
        label = f"{label}-{len(same) + 1}" if same else label
        sewn = taken(self.spec, self.piece)
        half = self.piece.half
        if half is not None:
            rest["whole"], owner = f"{owner}.{label}", half.owner
        self.levels.append(
            LevelDraft(f"{owner}.{label}", label, measure, self.swatch, self.edges, sewn, **rest)  # type: ignore[arg-type]
        )

    def change_fabric(self, step: Step, swatch: Swatch, fabric: Fabric | None) -> None:
        """Start a level in another gauge, whose count is reached evenly."""
        assert self.cast_on is not None
        below = self.levels[-1]
        fresh = self.sections and (swatch != below.swatch or below.rib or below.scale != 1)
        if below.is_joined and not self.sections and swatch.washed.stitches != below.swatch.washed.stitches:
            why = "changes the gauge of stitches that are joined as they are, and no round is left to gain or lose some"
            refuse(self, step, why, "add a line such as `work 2 rounds` above it")
            return
        self.swatch, self.fabric = swatch, fabric
        self.motif = step if has_motif(fabric) else None
        if fresh or self.waits is not None:
            owner = step if below.label != "cast-on" else self.cast_on
            self.evenly(step, owner, fabric=fabric)
        elif not self.sections:
            self.levels[-1] = replace(below, swatch=swatch, fabric=fabric)
        else:
            self.levels[-1] = replace(below, fabric=below.fabric or fabric)

    def evenly(self, step: Step, owner: Step, **rest: object) -> None:
        """Start a level whose count is reached evenly; one that has no rows yet takes on what is asked here too."""
        if self.piece.steek is not None:
            refuse(self, step, *NOT_CUT)
            return
        if self.waits is not None:
            self.levels[-1] = replace(self.levels[-1], swatch=self.swatch, **rest)
            return
        below = self.levels[-1]
        self.waits = step
        self.add_level(owner, self.name_of(below) or "body", below.measure, evened=(below.key, None), **rest)

    def name_of(self, level: LevelDraft) -> str:
        """Give the name that the cast-on line gives its width, else the first measure in a width of a level, or ""."""
        action = self.cast_on.action if self.cast_on is not None else None
        if isinstance(action, CastOn) and action.label and level.measure.span == action.width.span:
            return action.label
        return level.measure.names[0] if level.measure.names else ""

    def reach(self, step: Step, action: Evenly) -> None:
        """Start a level of its own width whose count is reached evenly, with a change of fabric above it at once."""
        if self.piece.steek is not None:
            refuse(self, step, *NOT_CUT)
        elif not self.sections:
            refuse(self, step, "comes before any rows", "cast on the stitches that it leads to, or add rows above it")
        elif self.waits is not None and isinstance(self.waits.action, Evenly):
            refuse(self, step, "follows another such line without rows between", "add a line such as `work 2 rows`")
        if self.problems:
            return
        if self.waits is not None:
            self.levels.pop()
        width = action.width or self._part_of(step, action)
        if width is None:
            return
        self.waits = step
        evened = (self.levels[-1].key, action.grows)
        self.add_level(step, action.label, width, fabric=self.fabric, evened=evened)

    def _part_of(self, step: Step, action: Evenly) -> Measure | None:
        """Give a share of what was wished for at a level below."""
        labels = [level.label for level in named(self)]
        below = self.levels[labels.index(action.of)] if action.of in labels else None
        if below is None:
            known = ", ".join(labels)
            refuse(
                self, step, f"speaks of a level `{action.of}`, which does not stand below it", f"name one of {known}"
            )
            return None
        columns, asked = len(self.spec.sizes), below.measure
        share = action.percent / 100
        if asked.is_count:
            share /= below.swatch.washed.stitches
        term = Combine("*", asked.term, Constant((share,) * columns))
        words = f"{show_decimal(action.percent, 1).removesuffix('.0')} % of {asked.words}"
        return Measure(term, "length", action.span, words, (action.span, *asked.inputs), asked.names)

    def settle(self, kind: Kind | None) -> bool:
        """Say on which row an even change comes, now that the kind of what follows it is known (None: nothing).

        From a motif or a course to a plain fabric that is on the first row of the new one, so that no row of the motif
        is lost, and those of the course are as told: then this is True. Else it is on the last row below
        (on the facing's, below a turning row).
        """
        step, self.waits = self.waits, None
        if step is None:
            return False
        below = self.sections[-1]
        is_plain = kind in (*EDGINGS, "work", "front") and not has_motif(self.fabric)
        if is_plain and (has_motif(below.fabric) or below.kind in COURSED):
            return True
        if below.kind in ("shape", "bound", *COURSED):
            why, way_out = "follows a shaping without even rows between", "add a line such as `work 2 rows` above it"
            refuse(self, step, why, way_out)
        elif isinstance(step.action, Evenly) and has_motif(self.fabric) and self.fabric == below.fabric:
            way_out = "begin a motif anew below it, by a `work in` line, or work it in a plain fabric"
            refuse(self, step, "changes the stitches within a motif, whose columns would no longer meet", way_out)
        else:
            self.even_below()
        return False

    def even_below(self) -> None:
        """Reach the newest level evenly on the last row below."""
        at = len(self.sections) - (2 if self.sections[-1].kind == "turning" else 1)
        for index in range(at, len(self.sections)):
            first = self.sections[index].first if index == at else len(self.levels) - 1
            self.sections[index] = replace(self.sections[index], first=first, last=len(self.levels) - 1)


def has_motif(fabric: Fabric | None) -> bool:
    """Whether a fabric is worked in a motif."""
    return fabric is not None and fabric.motif is not None


def named(build: Builder) -> tuple[LevelDraft, ...]:
    """Name a cast-on after its measure where no level above it bears that name: `cast on bust/2 in plain` is `bust`.

    Levels of a half piece get their own width here.
    """
    half = build.piece.half
    levels = build.levels
    if half is not None:
        levels = [replace(level, measure=halved(level.measure, half)) for level in levels]
    first, *others = levels
    name = build.name_of(first)
    if name and name not in [level.label for level in others]:
        first = replace(first, label=name)
    return (first, *others)


def refuse(build: Builder, step: Step, why: str, way_out: str) -> None:
    """Say that a step cannot stand where it does."""
    build.problems.append(
        problem("E405", f"this line of {build.piece.name} {why}", step.action.span, "here", help=way_out + ".")
    )
