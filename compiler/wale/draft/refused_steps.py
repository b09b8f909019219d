"""Steps of a piece that cannot stand where they do, and what they leave unsaid."""

from __future__ import annotations

from wale.actions import BindSides, Coursed, Crown, Fabric, Hem, Neck, Shape, Shoulders, Step, Work
from wale.constructions import COURSES
from wale.draft.builder import NO_BORDER, Builder, refuse
from wale.problems.problem import Problem
from wale.sewn import is_sewn


def refuse_unworked(build: Builder) -> None:
    """Refuse a piece without rows, and a change of stitches that no row is left for."""
    step = build.waits
    if step is not None and (isinstance(step.action, Fabric) or build.tops):
        refuse(build, step, "changes the fabric or the stitches, and no rows follow", "add `work 2 rows` below it")
    elif build.cast_on is not None and not build.sections:
        refuse(build, build.cast_on, "has no rows above it", "add a line such as `work to 20 cm` below it")


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


def refuse_dropped(build: Builder) -> bool:
    """Refuse a motif of which no row is worked, since another fabric, an edging or the end follows it at once."""
    step = build.motif
    if step is None or build.fabric is None or any(one.fabric == build.fabric for one in build.sections):
        return False
    way_out = "add a line such as `work 10 cm` below it, or begin a plain fabric in its place"
    refuse(build, step, "begins a motif in which no rows are worked", way_out)
    return True


def refuse_plain(build: Builder, step: Step) -> bool:
    """Refuse rows above an edging that ended a motif: whether they are plain or in the motif is not said."""
    action, began = step.action, build.motif
    in_work = (
        isinstance(action, Work | Shape | BindSides)
        or (isinstance(action, Crown) and action.manner == "in pattern")
        or (isinstance(action, Coursed) and not COURSES[action.form].is_apart)
    )
    if began is None or build.fabric is not None or not in_work or build.is_bound_off:
        return False
    assert isinstance(began.action, Fabric) and build.swatch is not None
    why = f"goes on above an edging that ended the motif {began.action.motif}, and its fabric is not said"
    way_out = (
        f"add `work in {began.action.motif} on {began.action.swatch}` and how it is placed, to go on in the motif, or "
        "`work in` a plain swatch above it"
    )
    refuse(build, step, why, way_out)
    return True


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


def _is_texture(build: Builder, fabric: Fabric | None) -> bool:
    return fabric is not None and fabric.motif is not None and build.spec.motifs[fabric.motif].is_texture


def order_of_top(build: Builder) -> list[Problem]:
    """Refuse neck or shoulders that stand alone, in the round or above no even rows; give all problems of the piece."""
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
