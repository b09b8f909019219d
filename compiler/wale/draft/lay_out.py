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
from wale.draft.builder import FACING_NARROWER, NOT_CUT, Builder, named, refuse
from wale.draft.halves import half_refusals
from wale.draft.laid_steps import bind_sides_step, course_step, hold_step, join_step, needs_closed, shape_step
from wale.draft.layout import Layout, too_large
from wale.draft.refused_steps import (
    order_of_top,
    refuse_border,
    refuse_dropped,
    refuse_plain,
    refuse_rib,
    refuse_texture,
    refuse_unworked,
    refuse_waiting,
)
from wale.draft.seams import refusals, runs_on_from
from wale.problems.problem import Problem, problem
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
    if build.problems or refuse_dropped(build):
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
    return layout, [*order_of_top(build), *too_large(spec, layout)]


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
    if refuse_texture(build, step) or refuse_plain(build, step) or refuse_rib(build, step):
        return
    if isinstance(action, Rib | Fabric) and refuse_dropped(build):
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
