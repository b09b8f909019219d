"""From the steps of a piece to its layout, step by step."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from wale.actions import (
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
    Tassel,
    Work,
)
from wale.constructions import COURSES
from wale.draft.builder import FACING_NARROWER, NO_BORDER, NOT_CUT, Builder, named, refuse
from wale.draft.halves import half_refusals
from wale.draft.laid_steps import bind_sides_step, course_step, hold_step, join_step, needs_closed, shape_step
from wale.draft.layout import Layout, too_large
from wale.draft.seams import refusals, runs_on_from
from wale.problems.problem import Problem, problem
from wale.sewn import is_sewn
from wale.spec import Piece, Spec


def lay_out(spec: Spec, piece: Piece) -> tuple[Layout | None, list[Problem]]:
    """Turn a piece's steps into levels and sections.

    Returns:
        The layout, or None when a step cannot stand where it does; and the problems.
    """
    refused = [*refusals(spec, piece), *half_refusals(piece)]
    if refused:
        return None, refused
    leader = runs_on_from(spec, piece)
    build = Builder(spec, piece, leader.name if leader is not None else None)
    refuse_border(build)
    if build.problems:
        return None, build.problems
    following = [*piece.steps[1:], None]
    for step, after in zip(piece.steps, following, strict=True):
        _place(build, step, after)
        if build.problems:
            return None, build.problems
    if build.sections and build.sections[-1].kind == "turning":
        refuse(build, build.sections[-1].step, "folds a hem with nothing worked above it", "add rows after the hem")
        return None, build.problems
    refuse_unworked(build)
    if build.problems:
        return None, build.problems
    build.settle(None)
    refuse_waiting(build)
    if build.problems:
        return None, build.problems
    if build.cast_on is None:
        return None, [problem("E405", f"the piece {piece.name} has no `cast on`", piece.span)]
    layout = Layout(
        piece,
        named(build),
        tuple(build.sections),
        build.fold,
        tuple(build.marks),
        build.tops.get("neck"),
        build.tops.get("shoulders"),
        build.tops.get("crown"),
        build.follows,
    )
    return layout, [*_order_of_top(build), *too_large(spec, layout)]


def refuse_unworked(build: Builder) -> None:
    """Refuse a piece without rows, and a change of stitches that no row is left for."""
    step = build.waits
    if step is not None and (isinstance(step.action, Fabric) or build.tops):
        refuse(build, step, "changes the fabric or the stitches, and no rows follow", "add `work 2 rows` below it")
    elif build.cast_on is not None and not build.sections:
        refuse(build, build.cast_on, "has no rows above it", "add a line such as `work to 20 cm` below it")


def refuse_waiting(build: Builder) -> None:
    """Refuse a course whose held stitches no later one takes up: a raglan without sleeves, a gusset without a thumb."""
    for step in build.piece.steps:
        if isinstance(step.action, Coursed):
            after = [one for one in COURSES.values() if step.action.form in one.follows]
            if after and not any(one.line in build.courses for one in after):
                example = f"`{after[0].example or after[0].form}`"
                refuse(
                    build, step, "holds stitches that nothing takes up again", f"add a line such as {example} below it"
                )


def refuse_border(build: Builder) -> None:
    """Refuse what a border of garter does not go with yet."""
    if not build.piece.edge.garter:
        return
    if is_sewn(build.spec.joins, build.piece):
        refuse(build, build.piece.steps[0], "has a border of garter at sides that are sewn", NO_BORDER)
    for step in build.piece.steps:
        if isinstance(step.action, Neck | Shoulders | Coursed):
            refuse(build, step, "cannot stand in a piece with a border of garter at its sides yet", NO_BORDER)


def refuse_texture(build: Builder, step: Step) -> bool:
    """Refuse what a texture does not go with yet: a steek, and a crown in the pattern."""
    action = step.action
    if isinstance(action, Fabric) and build.piece.steek is not None and _is_texture(build, action):
        refuse(build, step, "works a texture in a piece with a steek: its stitches are plain", "work it in colours")
    elif isinstance(action, Crown) and action.manner == "in pattern" and _is_texture(build, build.fabric):
        refuse(build, step, "decreases in a texture, whose wedges are not built yet", "add `, plain in` and the yarn")
    else:
        return False
    return True


def refuse_rib(build: Builder, step: Step) -> bool:
    """Refuse rows that are no `rib` line in the swatch of a rib: no rule fits their stitches to its columns."""
    swatch = build.swatch
    if swatch is None or not swatch.stitch.startswith("rib"):
        return False
    if not isinstance(step.action, Work | Shape | BindSides | Hem | Crown | Coursed):
        return False
    why = f"would be worked in the swatch {swatch.name}, a rib, to whose columns only a `rib` line fits the stitches"
    refuse(build, step, why, "write a `rib` line in its place, or add `work in` another swatch above it")
    return True


def _is_texture(build: Builder, fabric: Fabric | None) -> bool:
    return fabric is not None and fabric.motif is not None and build.spec.motifs[fabric.motif].is_texture


def _place(build: Builder, step: Step, after: Step | None) -> None:
    action, swatches = step.action, build.spec.swatches
    if not isinstance(action, CastOn | Joining) and build.cast_on is None:
        refuse(build, step, "comes before the stitches are cast on", "move `cast on` up")
        return
    if build.tops and isinstance(action, Work | Shape | Evenly | BindSides | Hem | Rib | Fabric | BindOff):
        refuse(build, step, "comes after the neck, shoulders or crown", "move it above them")
        return
    if build.is_bound_off and not isinstance(action, Mark | PomPom | Tassel | Coursed | Note):
        refuse(build, step, "comes after the stitches are bound off", "move `bind off` down")
        return
    if build.piece.steek is not None and isinstance(action, Hem | Rib | Shape | Crown):
        refuse(build, step, *NOT_CUT)
        return
    if refuse_texture(build, step) or refuse_rib(build, step):
        return
    match action:
        case CastOn():
            if build.cast_on is not None:
                refuse(build, step, "is the second cast-on of this piece", "a piece is cast on once")
                return
            if action.manner == "closed" and not needs_closed(after):
                refuse(build, step, "is closed, and nothing begins there", "write a line such as `toe to ankle` below")
                return
            build.cast_on, build.swatch = step, swatches[action.swatch]
            hem = after is not None and isinstance(after.action, Hem)
            percent = action.narrower if action.narrower is not None else (FACING_NARROWER if hem else Fraction(0))
            build.add_level(step, "cast-on", action.width, scale=1 - percent / 100)
        case Joining():
            join_step(build, step, action, after)
        case Hold():
            hold_step(build, step)
        case Hem():
            build.section(step, "facing", action.depth, ".facing")
            build.section(step, "turning", None, ".turning", fixed=1)
            build.fold = len(build.sections)
            if action.front is not None:
                build.change_fabric(step, swatches[action.front], None)
                build.section(step, "front", action.depth, ".front")
            elif build.levels[-1].scale != 1:
                build.evenly(step, build.cast_on or step)
        case Rib():
            build.fabric = None
            below = build.levels[-1]
            if build.sections and (action.multiple or below.rib or below.scale != 1):
                build.evenly(step, step, rib=action.multiple)
            elif not build.sections:
                build.levels[-1] = replace(below, rib=action.multiple, fabric=None)
            build.section(step, action.texture, action.depth)
        case Fabric():
            build.change_fabric(step, swatches[action.swatch], action)
        case Work():
            build.section(step, "work", action.length, to=action.to)
        case Shape():
            shape_step(build, step, action)
        case Evenly():
            build.reach(step, action)
        case BindSides():
            bind_sides_step(build, step, action)
        case Mark():
            build.marks.append((action.name, len(build.sections)))
        case Neck():
            build.tops["neck"] = step
        case Shoulders():
            build.tops["shoulders"] = step
        case Crown():
            if not build.piece.in_round:
                refuse(build, step, "needs a piece worked in the round", "write `in the round` on the piece's line")
                return
            if any(section.folds for section in build.sections):
                why = "closes a piece whose lengths count anew from a heel or an underarm"
                refuse(build, step, why, "write it in a piece of its own")
                return
            build.section(step, "crown", action.over)
            build.tops["crown"] = step
        case Coursed():
            course_step(build, step, action)
        case BindOff():
            build.is_bound_off = True
        case PomPom() | Tassel():
            pass


def _order_of_top(build: Builder) -> list[Problem]:
    if build.piece.in_round and ("neck" in build.tops or "shoulders" in build.tops):
        step = build.tops.get("neck") or build.tops["shoulders"]
        refuse(build, step, "needs a piece worked flat", "write `worked flat` on the piece's line")
    elif "neck" in build.tops and "shoulders" not in build.tops:
        neck = build.tops["neck"]
        refuse(build, neck, "has no `shoulders` beside it", "add `shoulders slope 3 cm, short rows` below the neck")
    elif "shoulders" in build.tops and "neck" not in build.tops:
        shoulders = build.tops["shoulders"]
        refuse(build, shoulders, "has no `neck` beside it", "add `neck neck-width wide, 2 cm deep` above it")
    elif "neck" in build.tops and (not build.sections or build.sections[-1].kind != "work"):
        neck = build.tops["neck"]
        refuse(build, neck, "follows no even rows, and the neck lies inside them", "add a line `work to …` above it")
    elif "neck" in build.tops and (late := [name for name, at in build.marks if at == len(build.sections)]):
        neck = build.tops["neck"]
        way_out = f"move `mark {late[0]}` up, above the last `work` line"
        refuse(build, neck, f"begins below the mark {late[0]}, which stands after the last rows", way_out)
    return build.problems
