"""A piece as levels (stitch counts) and sections (row counts), before any number is chosen.

`front, as back` shares unknowns: a level or section is keyed by the address of the step that asked for it, so what the
front inherits is one unknown with the back's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field
from msgspec.structs import replace

from wale.actions import (
    EDGINGS,
    BindOff,
    BindSides,
    CastOn,
    Coursed,
    Crown,
    Evenly,
    Fabric,
    Hem,
    Hold,
    Joining,
    Mark,
    Neck,
    Note,
    PomPom,
    Rib,
    Shape,
    Shoulders,
    Step,
    Work,
)
from wale.constructions import COURSES
from wale.draft.halves import half_refusals, halved
from wale.draft.joined import joined_measure
from wale.draft.seams import refusals, runs_on_from, taken
from wale.materials import Swatch
from wale.measure import MOST_CM, Combine, Constant, Measure
from wale.plan import Kind
from wale.problems.problem import Problem, problem
from wale.quantity import length_words, show_decimal
from wale.sewn import is_sewn
from wale.spec import Piece, Spec

FACING_NARROWER = Fraction(3)
"""Per cent that a folded facing is narrower than what it backs, unless the file says otherwise."""
NO_BORDER = "take `in garter` out of the `edge` line"
NOT_CUT = (
    "cannot stand in a piece with a steek yet: its sides are straight, at one gauge from the cast-on to the end",
    "leave it out, take the `steek` line out, or work the piece flat",
)


class LevelDraft(Struct, frozen=True):
    """A level without its count.

    `edges` are the edge stitches of both sides, outside rib and repeat; `taken` of them are taken up by seams, outside
    the finished width. `scale` shrinks the wish of a facing; `rib` asks for a rib's multiple. A level of a half piece
    names that of the `whole` one.
    `evened` names the level from which an even change leads here, and whether it gains stitches.
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
    evened: tuple[str, bool] | None = None
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


class _Builder(Struct):
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
    waits: Step | None = None
    is_bound_off: bool = False
    tops: dict[str, Step] = field(default_factory=dict)
    courses: list[str] = field(default_factory=list)

    @property
    def edges(self) -> int:
        if self.piece.steek is not None:
            return self.piece.steek.stitches
        return 0 if self.piece.in_round else 2 * self.piece.edge.stitches

    @property
    def even(self) -> tuple[int, int]:
        """Row parity of a section that starts on a right-side row and ends on a wrong-side row."""
        return (1, 0) if self.piece.in_round else (2, 0)

    def section(
        self, step: Step, kind: Kind, measure: Measure | None, part: str = "", *, to: bool = False, fixed: int = 0
    ) -> None:
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
        self.swatch, self.fabric = swatch, fabric
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
            _refuse(self, step, *NOT_CUT)
            return
        if self.waits is not None:
            self.levels[-1] = replace(self.levels[-1], swatch=self.swatch, **rest)
            return
        below = self.levels[-1]
        self.waits = step
        self.add_level(owner, _name(below) or "body", below.measure, **rest)

    def reach(self, step: Step, action: Evenly) -> None:
        """Start a level of its own width whose count is reached evenly, with a change of fabric above it at once."""
        if self.piece.steek is not None:
            _refuse(self, step, *NOT_CUT)
        elif not self.sections:
            _refuse(self, step, "comes before any rows", "cast on the stitches that it leads to, or add rows above it")
        elif self.waits is not None and isinstance(self.waits.action, Evenly):
            _refuse(self, step, "follows another such line without rows between", "add a line such as `work 2 rows`")
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
        labels = [level.label for level in _named(self)]
        below = self.levels[labels.index(action.of)] if action.of in labels else None
        if below is None:
            known = ", ".join(labels)
            _refuse(
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

        From a motif to a plain fabric that is on the first row of the new one, so that no row of the motif is lost:
        then this is True. Else it is on the last row below (on the facing's, below a turning row).
        """
        step, self.waits = self.waits, None
        if step is None:
            return False
        below = self.sections[-1]
        if _has_motif(below.fabric) and kind in (*EDGINGS, "work", "front") and not _has_motif(self.fabric):
            return True
        if below.kind in ("shape", "bound"):
            why, way_out = "follows a shaping without even rows between", "add a line such as `work 2 rows` above it"
            _refuse(self, step, why, way_out)
        elif isinstance(step.action, Evenly) and _has_motif(self.fabric) and self.fabric == below.fabric:
            way_out = "begin a motif anew below it, by a `work in` line, or work it in a plain fabric"
            _refuse(self, step, "changes the stitches within a motif, whose columns would no longer meet", way_out)
        else:
            self.even_below()
        return False

    def even_below(self) -> None:
        """Reach the newest level evenly on the last row below."""
        at = len(self.sections) - (2 if self.sections[-1].kind == "turning" else 1)
        for index in range(at, len(self.sections)):
            first = self.sections[index].first if index == at else len(self.levels) - 1
            self.sections[index] = replace(self.sections[index], first=first, last=len(self.levels) - 1)


def _has_motif(fabric: Fabric | None) -> bool:
    return fabric is not None and fabric.motif is not None


def _name(level: LevelDraft) -> str:
    return level.measure.names[0] if level.measure.names else ""


def _named(build: _Builder) -> tuple[LevelDraft, ...]:
    """Name a cast-on after its measure where no level above it bears that name: `cast on bust/2 in plain` is `bust`.

    Levels of a half piece get their own width here.
    """
    half = build.piece.half
    levels = build.levels
    if half is not None:
        levels = [replace(level, measure=halved(level.measure, half)) for level in levels]
    first, *others = levels
    name = _name(first)
    if name and name not in [level.label for level in others]:
        first = replace(first, label=name)
    return (first, *others)


def lay_out(spec: Spec, piece: Piece) -> tuple[Layout | None, list[Problem]]:
    """Turn a piece's steps into levels and sections.

    Returns:
        The layout, or None when a step cannot stand where it does; and the problems.
    """
    refused = [*refusals(spec, piece), *half_refusals(piece)]
    if refused:
        return None, refused
    leader = runs_on_from(spec, piece)
    build = _Builder(spec, piece, leader.name if leader is not None else None)
    _refuse_border(build)
    if build.problems:
        return None, build.problems
    following = [*piece.steps[1:], None]
    for step, after in zip(piece.steps, following, strict=True):
        _place(build, step, after)
        if build.problems:
            return None, build.problems
    if build.sections and build.sections[-1].kind == "turning":
        _refuse(build, build.sections[-1].step, "folds a hem with nothing worked above it", "add rows after the hem")
        return None, build.problems
    build.settle(None)
    if build.problems:
        return None, build.problems
    if build.cast_on is None:
        return None, [problem("E405", f"the piece {piece.name} has no `cast on`", piece.span)]
    layout = Layout(
        piece,
        _named(build),
        tuple(build.sections),
        build.fold,
        tuple(build.marks),
        build.tops.get("neck"),
        build.tops.get("shoulders"),
        build.tops.get("crown"),
        build.follows,
    )
    return layout, [*_order_of_top(build), *too_large(spec, layout)]


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


def _refuse_border(build: _Builder) -> None:
    """Refuse what a border of garter does not go with yet."""
    if not build.piece.edge.garter:
        return
    if is_sewn(build.spec.joins, build.piece):
        _refuse(build, build.piece.steps[0], "has a border of garter at sides that are sewn", NO_BORDER)
    for step in build.piece.steps:
        if isinstance(step.action, Neck | Shoulders | Coursed):
            _refuse(build, step, "cannot stand in a piece with a border of garter at its sides yet", NO_BORDER)


def _place(build: _Builder, step: Step, after: Step | None) -> None:
    action, swatches = step.action, build.spec.swatches
    if not isinstance(action, CastOn | Joining) and build.cast_on is None:
        _refuse(build, step, "comes before the stitches are cast on", "move `cast on` up")
        return
    if build.tops and isinstance(action, Work | Shape | Evenly | BindSides | Hem | Rib | Fabric):
        _refuse(build, step, "comes after the neck, shoulders or crown", "move it above them")
        return
    if build.is_bound_off and not isinstance(action, Mark | PomPom | Coursed | Note):
        _refuse(build, step, "comes after the stitches are bound off", "move `bind off` down")
        return
    if build.piece.steek is not None and isinstance(action, Hem | Rib | Shape | Crown):
        _refuse(build, step, *NOT_CUT)
        return
    match action:
        case CastOn():
            if build.cast_on is not None:
                _refuse(build, step, "is the second cast-on of this piece", "a piece is cast on once")
                return
            build.cast_on, build.swatch = step, swatches[action.swatch]
            hem = after is not None and isinstance(after.action, Hem)
            percent = action.narrower if action.narrower is not None else (FACING_NARROWER if hem else Fraction(0))
            rib = None
            if after is not None and isinstance(after.action, Rib):
                rib = after.action.multiple
            build.add_level(step, "cast-on", action.width, scale=1 - percent / 100, rib=rib)
        case Joining():
            _join(build, step, action, after)
        case Hold():
            _hold(build, step)
        case Hem():
            build.section(step, "facing", action.depth, ".facing")
            build.section(step, "turning", None, ".turning", fixed=1)
            build.fold = len(build.sections)
            if action.front is not None:
                build.change_fabric(step, swatches[action.front], None)
                build.section(step, "front", action.depth, ".front")
        case Rib():
            build.fabric = None
            below = build.levels[-1]
            if build.sections and (action.multiple or below.rib or below.scale != 1):
                build.evenly(step, step, rib=action.multiple)
            build.section(step, action.texture, action.depth)
        case Fabric():
            build.change_fabric(step, swatches[action.swatch], action)
        case Work():
            build.section(step, "work", action.length, to=action.to)
        case Shape():
            _shape(build, step, action)
        case Evenly():
            build.reach(step, action)
        case BindSides():
            _bind_sides(build, step, action)
        case Mark():
            build.marks.append((action.name, len(build.sections)))
        case Neck():
            build.tops["neck"] = step
        case Shoulders():
            build.tops["shoulders"] = step
        case Crown():
            if not build.piece.in_round:
                _refuse(build, step, "needs a piece worked in the round", "write `in the round` on the piece's line")
                return
            build.section(step, "crown", action.over)
            build.tops["crown"] = step
        case Coursed():
            _course(build, step, action)
        case BindOff():
            build.is_bound_off = True
        case PomPom():
            pass


def _join(build: _Builder, step: Step, action: Joining, after: Step | None) -> None:
    if build.cast_on is not None:
        _refuse(build, step, "begins a piece that has its stitches already", "take the `cast on` line out")
    elif not build.piece.in_round or build.piece.steek is not None:
        _refuse(
            build, step, "needs a piece worked in the round and not cut", "write `in the round` on the piece's line"
        )
    elif after is None or isinstance(after.action, Hem | Rib | Shape | BindOff | Hold):
        _refuse(build, step, "has no even rounds above it", "add a line such as `work 2 rounds` below it")
    if not build.problems:
        build.cast_on, build.swatch = step, build.spec.swatches[action.swatch]
        build.add_level(step, "joined", joined_measure(build.spec, action), is_joined=True)


def _hold(build: _Builder, step: Step) -> None:
    if not build.piece.in_round or build.piece.steek is not None:
        _refuse(build, step, "holds stitches of a piece in the round, and this one is flat", "work it in the round")
    elif build.courses:
        _refuse(build, step, f"cannot stand in a piece with a `{build.courses[-1]}` yet", "leave one of the two out")
    elif build.is_bound_off or build.tops:
        _refuse(build, step, "comes after the stitches have their end", "leave one of the two lines out")
    build.is_bound_off = True


def _course(build: _Builder, step: Step, action: Coursed) -> None:
    course = COURSES[action.form]
    if build.piece.in_round != course.in_round:
        way = "in the round" if course.in_round else "worked flat"
        words = way if course.in_round else "flat"
        _refuse(build, step, f"needs a piece worked {words}", f"write `{way}` on the piece's line")
    elif build.piece.steek is not None:
        _refuse(build, step, *NOT_CUT)
    elif _has_motif(build.fabric) or not build.sections:
        _refuse(build, step, "is worked in a plain fabric so far", "add `work in` a plain swatch and rows above it")
    elif course.follows and not set(course.follows) & set(build.courses):
        word = course.follows[0].split()[0]
        _refuse(build, step, f"belongs to a `{word}`, and none stands above it", f"add a line `{word} …` above it")
    elif build.is_bound_off and not course.follows:
        _refuse(build, step, "comes after the stitches are bound off", "move it up")
    if not build.problems and action.form in build.courses:
        _refuse(build, step, "stands a second time in this piece", "leave one of them out")
    if build.problems:
        return
    build.settle("course")
    first = len(build.levels) - 1
    if course.to:
        measure = action.given[course.to]
        build.add_level(step, measure.names[0] if measure.names else course.to, measure)
    for number, part in enumerate(course.parts):
        build.section(step, "aside" if part.is_aside else "course", None, f".{part.name}")
        last = len(build.levels) - 1 if part is course.parts[-1] else first
        build.sections[-1] = replace(build.sections[-1], part=number, folds=part.folds, first=first, last=last)
    build.courses.append(action.form)
    build.is_bound_off = build.is_bound_off or bool(course.final)


def _shape(build: _Builder, step: Step, action: Shape) -> None:
    if build.piece.in_round:
        _refuse(
            build,
            step,
            "shapes at two edges, which a round does not have",
            "work the piece flat, or shape it by a change of fabric or a crown",
        )
        return
    build.settle("shape")
    first = len(build.levels) - 1
    linked = build.levels[-1].key
    build.add_level(step, action.label, action.width, fabric=build.fabric, linked=linked)
    build.section(step, "shape", action.over)
    build.sections[-1] = replace(build.sections[-1], first=first, last=len(build.levels) - 1)


def _bind_sides(build: _Builder, step: Step, action: BindSides) -> None:
    if build.piece.half is not None:
        _refuse(build, step, "binds off at both sides, and a half piece has one", "give this piece lines of its own")
        return
    if build.piece.in_round or not build.sections:
        why = "binds off at two edges, which a round does not have" if build.piece.in_round else "follows no rows"
        _refuse(build, step, why, "work the piece flat" if build.piece.in_round else "add a line such as `work 2 rows`")
        return
    if _has_motif(build.fabric) and build.sections[-1].fabric != build.fabric:
        _refuse(
            build, step, "binds off on the row on which a chart begins", "add a line such as `work 2 rows` above it"
        )
        return
    build.settle("bound")
    if build.problems:
        return
    first, below = len(build.levels) - 1, build.levels[-1]
    if below.measure.is_count != action.width.is_count:
        _refuse(build, step, "takes stitches from a length, or a length from stitches", "write both in the same way")
        return
    sizes = range(len(build.spec.sizes))
    left = Constant(tuple(below.measure.at(size) * below.scale - 2 * action.width.at(size) for size in sizes))
    for size, value in enumerate(left.values):
        if value <= 0:
            build.problems.append(_nothing_left(build, action, size, below))
            return
    words = f"{below.measure.words} - 2 * {action.width.words}"
    inputs = (*below.measure.inputs, *action.width.inputs)
    measure = Measure(left, action.width.dimension, action.width.span, words, inputs)
    build.add_level(step, action.label, measure, fabric=build.fabric, linked=below.key)
    build.section(step, "bound", None, fixed=2)
    build.sections[-1] = replace(build.sections[-1], first=first, last=len(build.levels) - 1)


def _nothing_left(build: _Builder, action: BindSides, size: int, below: LevelDraft) -> Problem:
    return problem(
        "E410",
        f"binding off {action.width.words} at each side leaves nothing of the {build.piece.name}",
        action.width.span,
        "bound off at each side",
        help=f"The piece is {below.measure.words} wide there; each side takes less than half of it.",
        size=build.spec.sizes[size].name,
    )


def _order_of_top(build: _Builder) -> list[Problem]:
    if build.piece.in_round and ("neck" in build.tops or "shoulders" in build.tops):
        step = build.tops.get("neck") or build.tops["shoulders"]
        _refuse(build, step, "needs a piece worked flat", "write `worked flat` on the piece's line")
    elif "neck" in build.tops and "shoulders" not in build.tops:
        neck = build.tops["neck"]
        _refuse(build, neck, "has no `shoulders` beside it", "add `shoulders slope 3 cm, short rows` below the neck")
    elif "shoulders" in build.tops and "neck" not in build.tops:
        shoulders = build.tops["shoulders"]
        _refuse(build, shoulders, "has no `neck` beside it", "add `neck neck-width wide, 2 cm deep` above it")
    elif "neck" in build.tops and (not build.sections or build.sections[-1].kind != "work"):
        neck = build.tops["neck"]
        _refuse(build, neck, "follows no even rows, and the neck lies inside them", "add a line `work to …` above it")
    return build.problems


def _refuse(build: _Builder, step: Step, why: str, way_out: str) -> None:
    build.problems.append(
        problem("E405", f"this line of {build.piece.name} {why}", step.action.span, "here", help=way_out + ".")
    )
