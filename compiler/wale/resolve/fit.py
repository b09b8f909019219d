"""How a motif is placed: the options of `work in MOTIF on SWATCH`."""

from __future__ import annotations

from typing import Literal

from msgspec.structs import replace

from wale.actions import Fit
from wale.materials import Motif
from wale.motifs.size import counted
from wale.motifs.symmetry import mirror_axes
from wale.motifs.tiling import Tiling
from wale.parse.tree import Name
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import length_cm
from wale.resolve.context import Context
from wale.resolve.shapes import Line

_AXES: dict[str, Literal["stitch", "gap", "first"] | None] = {
    "centred on the stitch": "stitch",
    "centred on the gap": "gap",
    "centred on the first axis": "first",
    "centred": None,
}
_KINDS: dict[str, Literal["whole", "half", "edge"]] = {
    "whole repeats at LEVEL…": "whole",
    "whole repeats": "whole",
    "half repeats at LEVEL…": "half",
    "half repeats": "half",
    "from the edge": "edge",
}
AT_PLAINEST = "starts at the plainest column"
FIT_OPTIONS = (
    *_AXES,
    *_KINDS,
    "tolerance AMOUNT",
    "seams mirrored",
    "seams unbroken",
    "meets PIECE at MARK",
    AT_PLAINEST,
)


def read_fit(
    context: Context, line: Line, motif: Motif | None, meets: list[tuple[Name, Name]], in_round: bool
) -> Fit | None:
    """Give the fit; two that contradict each other, or an axis that the motif lacks, are problems."""
    axes = [form for form in _AXES if form in line.options]
    kinds = [form for form in _KINDS if form in line.options]
    seams = [form for form in ("seams mirrored", "seams unbroken") if form in line.options]
    for group in (axes, kinds, seams, ["from the edge", *axes] if "from the edge" in line.options and axes else []):
        if len(group) > 1:
            first, second = line.options[group[0]], line.options[group[1]]
            context.report(
                "E204",
                f"`{context.cut(first.span)}` and `{context.cut(second.span)}` contradict each other",
                second.span,
                "one of the two",
                "Leave one of them out.",
            )
            return None
    tolerance = None
    if "tolerance AMOUNT" in line.options:
        tolerance = length_cm(context, line.options["tolerance AMOUNT"].number("AMOUNT"))
        if tolerance is None:
            return None
    axis = _AXES[axes[0]] if axes else None
    if motif is None or not _has_axis(context, line, motif, axis, axes) or not _halves(context, line, motif, kinds):
        return None
    if "seams mirrored" in seams and not _mirrors_at_seams(context, line, motif):
        return None
    if AT_PLAINEST in line.options and not in_round:
        context.report(
            "E250",
            "a flat piece has no start of the round",
            line.options[AT_PLAINEST].span,
            "only in the round",
            "Leave it out; `centred`, `whole repeats` and `from the edge` place a motif on flat work.",
        )
        return None
    if not axes and not kinds:
        _assume(context, line, motif, in_round)
    at = tuple(name.text for name in line.options[kinds[0]].names("LEVEL")) if kinds and kinds[0].endswith("…") else ()
    met = _meets(line, meets)
    side: Literal["mirrored", "unbroken"] = "unbroken" if "seams unbroken" in seams else "mirrored"
    kind = _KINDS[kinds[0]] if kinds else "centred"
    place = line.options[(kinds or axes)[0]].span if kinds or axes else line.span
    return Fit(kind, place, at, axis, tolerance, side, met, bool(axes), AT_PLAINEST in line.options)


def _assume(context: Context, line: Line, motif: Motif, in_round: bool) -> None:
    """Note where a motif stands of which the line says nothing."""
    if in_round:
        text = "Where a line does not say how the motif is placed in the round, there are whole repeats."
    elif motif.axes():
        text = "Where a line does not say how the motif is placed, it is centred."
    else:
        text = (
            f"The motif `{motif.name}` does not mirror{_by_shift(motif)}, so it starts at the right edge where a line "
            "says nothing else."
        )
    context.assume(text, span=line.span)


def _halves(context: Context, line: Line, motif: Motif, kinds: list[str]) -> bool:
    """Say whether half repeats are asked of a motif that has them; report it where not."""
    if not kinds or not kinds[0].startswith("half") or motif.width % 2 == 0:
        return True
    place = line.options[kinds[0]].span
    word = replace(place, end=place.start + len("half"))
    context.report(
        "E245",
        f"the motif `{motif.name}` has {motif.width} sts, so there is no half repeat of it",
        place,
        "an odd number of stitches",
        "Write `whole repeats` or `centred`.",
        fixes=[Fix("write `whole repeats`", (Edit(word, "whole"),))],
        also=[(motif.span, "the motif")],
    )
    return False


def _mirrors_at_seams(context: Context, line: Line, motif: Motif) -> bool:
    """Say whether a motif can end alike at both sides; report it where not."""
    if motif.wedge or motif.axes():
        return True
    context.report(
        "E245",
        f"the motif `{motif.name}` has no mirror axis, so both sides of a piece cannot end alike",
        line.options["seams mirrored"].span,
        f"it does not mirror{_by_shift(motif)}",
        "Leave `seams mirrored` out, or change the motif: a row shift other than half a repeat takes the mirror away.",
        also=[(motif.span, "the motif")],
    )
    return False


def _meets(line: Line, meets: list[tuple[Name, Name]]) -> tuple[str, str] | None:
    met = line.options.get("meets PIECE at MARK")
    if met is None:
        return None
    meets.append((met.name("PIECE"), met.name("MARK")))
    return met.name("PIECE").text, met.name("MARK").text


def _by_shift(motif: Motif) -> str:
    """Say of a motif without an axis that its shift takes the mirror away, where it is the shift."""
    if not mirror_axes(Tiling(motif.rows)):
        return ""
    return f" (its rows do, but the shift of {counted(motif.shift, 'st')} takes that away)"


def _has_axis(
    context: Context, line: Line, motif: Motif, axis: Literal["stitch", "gap", "first"] | None, axes: list[str]
) -> bool:
    found = motif.axes()
    if motif.wedge or not axes or (axis is None and found):
        return True
    on_stitch = [each for each in found if each.denominator == 1]
    wanted = on_stitch if axis == "stitch" else [each for each in found if each.denominator == 2]
    if axis in ("first", None):
        wanted = list(found)
    if wanted:
        return True
    other = "a stitch" if on_stitch else "a gap between stitches" if found else ""
    place = line.options[axes[0]].span
    instead = f"centred on the {'stitch' if on_stitch else 'gap'}" if other else "from the edge"
    # Beside `whole repeats` nothing takes its place.
    alone = bool(other) or not any(form in _KINDS for form in line.options)
    context.report(
        "E245",
        f"the motif `{motif.name}` has no mirror axis on a {axis}"
        if axis not in ("first", None)
        else f"the motif `{motif.name}` has no mirror axis",
        place,
        f"it mirrors on {other}" if other else f"it does not mirror{_by_shift(motif)}",
        f"Write `{instead}`."
        if other
        else f"{f'Write `{instead}`' if alone else 'Leave it out'}, or change the motif: a row shift other than half a "
        "repeat takes the mirror away.",
        fixes=[Fix(f"write `{instead}`", (Edit(place, instead),))] if alone else [],
        also=[(motif.span, "the motif")],
    )
    return False
