"""Ways out where no count of a motif's repeat comes within the tolerance; each was solved with all sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import ceil, floor

from msgspec.structs import replace

from wale.actions import Fit
from wale.draft.layout import Layout, LevelDraft
from wale.draft.repeats import kind_at, matching_axes, residue
from wale.draft.stating import at
from wale.draft.variants import (
    bracketed,
    bracketed_lengths,
    ease_factor,
    grain,
    solved,
    tried_tolerances,
    with_ease,
    with_fit,
    with_values,
)
from wale.draft.widths import width_wish
from wale.problems.problem import Edit, Fix
from wale.quantity import in_unit, length_words, show_signed
from wale.solve.model import Rule
from wale.spec import Spec

FINER = 5
"""A tolerance that is offered is rounded up to this part of what other lengths are rounded to."""
WIDEN = 6
"""So many of these parts are added to a tolerance before it is given up."""
EASES = [sign * step for step in range(1, 13) for sign in (-1, 1)]
"""What is added to an ease, nearest first, in steps that lengths are rounded to."""
TRIES = 6
"""How many eases are solved."""

Told = Callable[[int, Fraction], str]


def nearest_counts(exact: Fraction, modulus: int, left: int) -> tuple[int, int]:
    """Give the counts = left (mod modulus) next to an exact one, below and above."""
    return floor((exact - left) / modulus) * modulus + left, ceil((exact - left) / modulus) * modulus + left


def tell(level: LevelDraft, count: int, wish: Fraction, units: str) -> str:
    """Say a count with its width and what it misses, in the pattern's unit."""
    width = (count - level.taken) / level.swatch.washed.stitches
    missed = show_signed(in_unit(width - wish, units), 2)
    return f"{count} sts = {length_words(width, units, 2, trim=False)} ({missed})"


def ways_out(
    spec: Spec, layouts: Sequence[Layout], level: LevelDraft, size: int, *, rows_too: bool = True
) -> list[Fix]:
    """Give half repeats, centred, a tolerance and an ease, where they solve; of each the count in one size."""
    if level.fabric is None or level.fabric.motif is None:
        return []
    return [
        *_placed(spec, level, level.fabric.fit, size, rows_too),
        *_tolerance(spec, layouts, level, level.fabric.fit, size, rows_too),
        *_eased(spec, layouts, level, level.fabric.fit, size, rows_too),
    ]


def other_counts(spec: Spec, layouts: Sequence[Layout], rules: Sequence[Rule]) -> list[Fix]:
    """Give written stitch counts that would do in the place of those that clash: the next below and above."""
    fixes: list[Fix] = []
    for rule in rules:
        measure = next(
            (one.measure for layout in layouts for one in layout.levels if one.measure.span in rule.spans), None
        )
        if rule.kind != "exact" or measure is None or measure.dimension != "stitches" or len(rule.terms) != 1:
            continue
        own = [one for one in rules if one.kind == "repeat" and one.terms == rule.terms]
        modulus, left = (own[0].modulus, own[0].residue) if own else (1, 0)
        written = [measure.at(size) for size in range(len(spec.sizes))]
        for side, step in ((0, -1), (1, 1)):
            counts = [Fraction(nearest_counts(count + Fraction(step, 2), modulus, left)[side]) for count in written]
            if (
                min(counts) > 0
                and solved(with_values(spec, measure.span, counts, "stitches"), rows_too=False) is not None
            ):
                words = bracketed(counts, "sts")
                fixes.append(Fix(f"write `{words}`", (Edit(measure.span, words),)))
    return fixes


def looser_widths(spec: Spec) -> str:
    """Say which tolerance of all widths would do, or ""."""
    for tolerance in tried_tolerances(spec.units):
        looser = replace(spec, width_tolerance=tolerance)
        if tolerance > spec.width_tolerance and solved(looser, rows_too=False) is not None:
            return f"They fit with `tolerance {bracketed_lengths([tolerance], spec.units)}` in the `pattern` block."
    return ""


def _placed(spec: Spec, level: LevelDraft, fit: Fit, size: int, rows_too: bool) -> Iterator[Fix]:
    assert level.fabric is not None and level.fabric.motif is not None
    motif = spec.motifs[level.fabric.motif]
    half = Edit(replace(fit.span, end=fit.span.start + len("whole")), "half")
    # Beside `centred on the stitch`, or for several levels, the words cannot simply be exchanged.
    part = Edit(fit.span, "centred") if not fit.is_centred and len(fit.at) < 2 else None
    loose = Edit(fit.span, "from the edge") if not fit.is_centred and len(fit.at) < 2 else None
    tries: list[tuple[str, Edit | None, dict[str, object]]] = []
    if fit.kind == "whole" and motif.width % 2 == 0 and fit.seams == "mirrored":
        tries.append(("half repeats", half, {"kind": "half"}))
    if fit.seams == "mirrored" and matching_axes(motif, fit.axis):
        tries.append(("centred, part repeats alike at both sides", part, {"kind": "centred", "at": ()}))
    elif fit.seams == "mirrored":
        tries.append(("from the edge, a part repeat at one side", loose, {"kind": "edge", "at": ()}))
    for title, edit, changes in tries:
        found = solved(with_fit(spec, fit.span, **changes), rows_too=rows_too)
        if found is not None:
            words = f"{title}: {tell(level, found[at(level.key, spec, size)], width_wish(level, size), spec.units)}"
            yield Fix(words, (edit,)) if edit is not None else Fix(words, grade="show")


def _asked(spec: Spec, layouts: Sequence[Layout], fit: Fit) -> list[tuple[Layout, LevelDraft]]:
    """The levels at which one line asks for repeats."""
    return [
        (layout, level)
        for layout in layouts
        for level in layout.levels
        if level.fabric is not None
        and level.fabric.motif is not None
        and level.fabric.fit == fit
        and not level.measure.is_count
        and kind_at(fit, level.label) == fit.kind
    ]


def _miss(spec: Spec, layout: Layout, level: LevelDraft, wish: Fraction) -> Fraction:
    """What the nearest count of the repeat misses at least, in cm."""
    assert level.fabric is not None and level.fabric.motif is not None
    fit, gauge = level.fabric.fit, level.swatch.washed.stitches
    carry = layout.carry if fit.seams == "unbroken" else 1
    rule = residue(spec.motifs[level.fabric.motif], fit, fit.kind, level.edges, layout.piece.is_tube, carry)
    exact = wish * gauge + level.taken
    modulus, left = (rule.modulus, rule.residue) if rule is not None else (1, 0)
    return min(abs(count - exact) / gauge for count in nearest_counts(exact, modulus, left))


def _tolerance(
    spec: Spec, layouts: Sequence[Layout], level: LevelDraft, fit: Fit, size: int, rows_too: bool
) -> Iterator[Fix]:
    sizes = range(len(spec.sizes))
    most = max(
        _miss(spec, layout, one, width_wish(one, s)) for layout, one in _asked(spec, layouts, fit) for s in sizes
    )
    step = grain(spec.units) / FINER
    needed = ceil(most / step) * step
    for more in range(WIDEN):
        tolerance = needed + more * step
        found = solved(with_fit(spec, fit.span, tolerance=tolerance), rows_too=rows_too)
        if found is not None:
            count = found[at(level.key, spec, size)]
            told = bracketed_lengths([tolerance], spec.units)
            words = f"a tolerance of {told}: {tell(level, count, width_wish(level, size), spec.units)}"
            end = replace(fit.span, start=fit.span.end)
            edit = (Edit(end, f", tolerance {told}"),)
            yield Fix(words, edit) if fit.tolerance is None else Fix(words, grade="show")
            return


def _eased(
    spec: Spec, layouts: Sequence[Layout], level: LevelDraft, fit: Fit, size: int, rows_too: bool
) -> Iterator[Fix]:
    """The `ease` line with another ease for all sizes, else with one a size, rounded as lengths that are offered."""
    names, sizes = level.measure.names, range(len(spec.sizes))
    factor = ease_factor(spec, level.measure, names[0]) if len(names) == 1 and names[0] in spec.sizes[0].ease else None
    if factor is None:
        return
    name, tolerance = names[0], fit.tolerance or spec.width_tolerance
    asked = [(layout, one, ease_factor(spec, one.measure, name)) for layout, one in _asked(spec, layouts, fit)]

    def fits(index: int, more: Fraction) -> bool:
        return all(
            _miss(spec, layout, one, width_wish(one, index) + (own or 0) * one.scale * more) <= tolerance
            for layout, one, own in asked
        )

    eases = [steps * grain(spec.units) for steps in EASES]
    uniform = [(more,) * len(spec.sizes) for more in eases if all(fits(index, more) for index in sizes)]
    each = [next((more for more in (Fraction(0), *eases) if fits(index, more)), None) for index in sizes]
    own = (
        []
        if None in each or any(one.made_to_measure for one in spec.sizes)
        else [tuple(one or Fraction(0) for one in each)]
    )
    for extra in [*uniform[:TRIES], *own]:
        varied = with_ease(spec, name, extra)
        found = solved(varied, rows_too=rows_too) if varied is not None and _grows(varied, name) else None
        if varied is None or found is None:
            continue
        place = spec.sizes[0].ease_spans[name]
        written = [one.ease[name] for one in varied.sizes if not one.made_to_measure] or [varied.sizes[0].ease[name]]
        words = bracketed_lengths(written, spec.units)
        wish = width_wish(level, size) + factor * level.scale * extra[size]
        count = found[at(level.key, spec, size)]
        yield Fix(f"an ease of {words} ({name}): {tell(level, count, wish, spec.units)}", (Edit(place, words),))
        return


def _grows(spec: Spec, name: str) -> bool:
    finished = [size.measures[name].value + size.ease[name] for size in spec.sizes if not size.made_to_measure]
    return finished == sorted(finished)
