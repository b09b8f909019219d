"""Steps that make levels of their own: shapings, sides bound off, courses, and pieces that hold or join stitches."""

from __future__ import annotations

from msgspec.structs import replace

from wale.actions import (
    BindOff,
    BindSides,
    CastOn,
    Coursed,
    Hem,
    Hold,
    Joining,
    Rib,
    Shape,
    Step,
)
from wale.constructions import COURSES
from wale.draft.builder import NOT_CUT, Builder, has_motif, refuse
from wale.draft.joined import gauge_of, joined_measure
from wale.draft.layout import LevelDraft
from wale.measure import Constant, Measure
from wale.problems.problem import Problem, problem
from wale.spec import SetIn


def join_step(build: Builder, step: Step, action: Joining, after: Step | None) -> None:
    """Begin a piece with the held stitches of others."""
    if build.cast_on is not None:
        refuse(build, step, "begins a piece that has its stitches already", "take the `cast on` line out")
    elif not build.piece.in_round or build.piece.steek is not None:
        refuse(build, step, "needs a piece worked in the round and not cut", "write `in the round` on the piece's line")
    elif after is None or isinstance(after.action, Hem | Rib | Shape | BindOff | Hold):
        refuse(build, step, "has no even rounds above it", "add a line such as `work 2 rounds` below it")
    elif build.spec.swatches[action.swatch].washed.stitches != gauge_of(build.spec, action.body):
        why = f"joins stitches of the {action.body} at another gauge than that in which they were worked"
        way_out = f"join them in the swatch of the {action.body}'s last rows, and write `work in` below two rounds"
        refuse(build, step, why, way_out)
    if not build.problems:
        build.cast_on, build.swatch = step, build.spec.swatches[action.swatch]
        build.add_level(step, "joined", joined_measure(build.spec, action), is_joined=True)


def hold_step(build: Builder, step: Step) -> None:
    """End a piece with its stitches held for another."""
    if not build.piece.in_round or build.piece.steek is not None:
        refuse(build, step, "holds stitches of a piece in the round, and this one is flat", "work it in the round")
    elif build.courses:
        refuse(build, step, f"cannot stand in a piece with a `{build.courses[-1]}` yet", "leave one of the two out")
    elif build.is_bound_off or build.tops:
        refuse(build, step, "comes after the stitches have their end", "leave one of the two lines out")
    build.is_bound_off = True


def course_step(build: Builder, step: Step, action: Coursed) -> None:
    """Place the parts of a course, and the level that it leads to."""
    course = COURSES[action.form]
    if build.piece.in_round != course.in_round:
        way = "in the round" if course.in_round else "worked flat"
        words = way if course.in_round else "flat"
        refuse(build, step, f"needs a piece worked {words}", f"write `{way}` on the piece's line")
    elif build.piece.steek is not None:
        refuse(build, step, *NOT_CUT)
    elif course.is_joined and not build.levels[-1].is_joined:
        way_out = (
            "begin the piece with `join body with sleeve in plain`, and write this line before any that changes it"
        )
        refuse(build, step, "shapes the stitches of a body and sleeves as they were joined", way_out)
    elif course.at_back and build.levels[0].is_joined and not build.courses:
        way_out = "write it below the line that shapes the joined stitches to the neck, such as `raglan up to …`"
        refuse(build, step, "needs rounds that begin in the middle of the back, and these begin where it ends", way_out)
    elif not course.is_joined and bool(course.begins) == bool(build.sections):
        why = "begins a piece" if course.begins else "has no rows above it"
        refuse(build, step, why, "move it up, below `cast on`" if course.begins else "add rows above it")
    elif course.begins == "closed" and not _is_closed(build.cast_on):
        refuse(build, step, "begins with a closed cast-on", "write `, closed` at the end of the `cast on` line")
    elif has_motif(build.fabric) and not course.in_motif:
        refuse(build, step, "is worked in a plain fabric so far", "add `work in` a plain swatch above it")
    elif build.swatch is not None and build.swatch.stitch == "garter" and not course.in_garter:
        why = f"is worked in stockinette, and the swatch {build.swatch.name} is in garter"
        refuse(build, step, why, "add `work in` a swatch in stockinette above it")
    elif course.follows and not set(course.follows) & set(build.courses):
        word = course.follows[0].split()[0]
        refuse(build, step, f"belongs to a `{word}`, and none stands above it", f"add a line `{word} …` above it")
    elif course.is_apart != (build.is_bound_off or bool(build.tops)):
        why = "is worked when all other stitches have" if course.is_apart else "comes after the stitches have"
        way_out = "move it down, below a bind-off, a top or a crown" if course.is_apart else "move it up"
        refuse(build, step, f"{why} their end", way_out)
    if not build.problems and action.form in build.courses:
        refuse(build, step, "stands a second time in this piece", "leave one of them out")
    if build.problems:
        return
    build.settle("course")
    first = len(build.levels) - 1
    if course.to:
        measure = action.given[course.to]
        build.add_level(step, measure.names[0] if measure.names else f"after-{course.form.split()[0]}", measure)
    for number, part in enumerate(course.parts):
        build.section(step, "aside" if part.is_aside else "course", None, f".{part.name}")
        last = len(build.levels) - 1 if part is course.parts[-1] else first
        build.sections[-1] = replace(build.sections[-1], part=number, folds=part.folds, first=first, last=last)
    build.courses.append(action.form)
    build.is_bound_off = build.is_bound_off or bool(course.final)


def needs_closed(step: Step | None) -> bool:
    """Say whether a step begins a piece on a closed cast-on."""
    return step is not None and isinstance(step.action, Coursed) and COURSES[step.action.form].begins == "closed"


def _is_closed(step: Step | None) -> bool:
    return step is not None and isinstance(step.action, CastOn) and step.action.manner == "closed"


def shape_step(build: Builder, step: Step, action: Shape) -> None:
    """Place a shaping at both edges, and the level that it leads to."""
    if build.piece.in_round:
        refuse(
            build,
            step,
            "shapes at two edges, which a round does not have",
            "write `narrow to WIDTH over LENGTH` or `widen to WIDTH over LENGTH`, or work the piece flat",
        )
        return
    if action.over is None and not _fits(build, step):
        return
    build.settle("shape")
    first = len(build.levels) - 1
    linked = build.levels[-1].key
    build.add_level(step, action.label, action.width, fabric=build.fabric, linked=linked)
    build.section(step, "shape", action.over)
    build.sections[-1] = replace(build.sections[-1], first=first, last=len(build.levels) - 1)


def _fits(build: Builder, step: Step) -> bool:
    """Say whether a fitted shaping stands in the cap of a sleeve that is set in; tell why where it does not."""
    caps = [join.piece for join in build.spec.joins if isinstance(join, SetIn) and join.edge == "cap"]
    if build.piece.name not in caps:
        way_out = f"write `set {build.piece.name} cap into armholes` in the `join` block, or `over` and a length"
        refuse(build, step, "is fitted to an armhole, and no line sets this piece into one by its cap", way_out)
    elif not any(section.kind == "bound" for section in build.sections):
        refuse(build, step, "is fitted, and stands below the cap", "add a line `bind off 3 cm each side` above it")
    elif any(section.kind == "shape" and section.measure is None for section in build.sections):
        refuse(build, step, "is fitted, and so is one above it", "give one of the two a length: `over 3 cm`")
    return not build.problems


def bind_sides_step(build: Builder, step: Step, action: BindSides) -> None:
    """Place two rows that bind off at either side, and the level above them."""
    if build.piece.in_round or not build.sections:
        why = "binds off at two edges, which a round does not have" if build.piece.in_round else "follows no rows"
        refuse(build, step, why, "work the piece flat" if build.piece.in_round else "add a line such as `work 2 rows`")
        return
    if has_motif(build.fabric) and build.sections[-1].fabric != build.fabric:
        refuse(build, step, "binds off on the row on which a chart begins", "add a line such as `work 2 rows` above it")
        return
    build.settle("bound")
    if build.problems:
        return
    first, below = len(build.levels) - 1, build.levels[-1]
    if below.measure.is_count != action.width.is_count:
        refuse(build, step, "takes stitches from a length, or a length from stitches", "write both in the same way")
        return
    sizes = range(len(build.spec.sizes))
    left = Constant(tuple(below.measure.at(size) * below.scale - 2 * action.width.at(size) for size in sizes))
    half = build.piece.half
    for size, value in enumerate(left.values):
        if value <= (abs(half.opening.at(size)) if half is not None else 0):
            build.problems.append(_nothing_left(build, action, size, below))
            return
    words = f"{below.measure.words} - 2 * {action.width.words}"
    inputs = (*below.measure.inputs, *action.width.inputs)
    measure = Measure(left, action.width.dimension, action.width.span, words, inputs)
    build.add_level(step, action.label, measure, fabric=build.fabric, linked=below.key)
    build.section(step, "bound", None, fixed=2)
    build.sections[-1] = replace(build.sections[-1], first=first, last=len(build.levels) - 1)


def _nothing_left(build: Builder, action: BindSides, size: int, below: LevelDraft) -> Problem:
    return problem(
        "E410",
        f"binding off {action.width.words} at each side leaves nothing of the {build.piece.name}",
        action.width.span,
        "bound off at each side",
        help=f"The piece is {below.measure.words} wide there; each side takes less than half of it.",
        size=build.spec.sizes[size].name,
    )
