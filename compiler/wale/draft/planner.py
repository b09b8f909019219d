"""From the resolved spec to the plan: lay out, solve the stitches, then the rows that depend on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from wale.draft import conflicts
from wale.draft.bands import plan_bands
from wale.draft.courses import with_girths
from wale.draft.joining import misjoined, plan_holders, with_joined
from wale.draft.jointly import NoRows, solve_jointly
from wale.draft.lay_out import lay_out
from wale.draft.layout import Layout, LevelDraft, too_large
from wale.draft.motifs import place_motifs
from wale.draft.sections import plan_sections
from wale.draft.stating import at
from wale.draft.tops import plan_crown, plan_top
from wale.draft.widths import width_wish
from wale.plan import Level, PiecePlan, Plan
from wale.problems.nearest import there_are
from wale.problems.problem import Problem, problem
from wale.solve.eliminate import Unsure
from wale.solve.model import Conflict
from wale.spec import Spec

Counts = Mapping[str, int]


def plan(spec: Spec) -> tuple[Plan | None, list[Problem]]:
    """Choose whole stitches and rows for all pieces and sizes.

    Returns:
        The plan, or None where the rules conflict; and the problems, each with verified ways out.
    """
    problems = misjoined(spec)
    if problems:
        return None, problems
    layouts = []
    for piece in spec.pieces:
        layout, found = lay_out(spec, piece)
        problems += found
        if layout is not None and not found:
            layouts.append(layout)
    if problems:
        return None, problems
    problems = [*_unknown_levels(spec, layouts), *_unknown_preferences(spec, layouts)]
    if problems:
        return None, problems
    try:
        answer = solve_jointly(spec, layouts)
    except Unsure:
        return None, [_given_up(spec)]
    if isinstance(answer, Conflict):
        return None, [conflicts.of_widths(spec, layouts, answer)]
    if isinstance(answer, NoRows):
        return None, [conflicts.of_lengths(spec, layouts, answer.conflict, answer.counts, answer.solved)]
    counts, solved = answer.counts, answer.solved
    problems = [one for layout in layouts for one in too_large(spec, layout, solved)]
    if problems:
        return None, problems
    pieces = tuple(_piece(spec, layout, counts, solved) for layout in layouts)
    pieces, problems = place_motifs(spec, with_girths(spec, with_joined(pieces)))
    bands, band_problems = plan_bands(spec, pieces)
    problems = [*problems, *band_problems]
    if any(one.is_error for one in problems):
        return None, problems
    addresses = tuple(dict.fromkeys(address for size in solved for address in size))
    table = tuple((address, tuple(size[address] for size in solved)) for address in addresses)
    return Plan(spec.size_names, pieces, bands, table, (answer.widths, answer.lengths)), problems


def _given_up(spec: Spec) -> Problem:
    return problem(
        "E315",
        "the search for stitches and rows was given up",
        spec.pieces[0].span,
        f"{len(spec.pieces)} pieces in {len(spec.sizes)} sizes",
        help="Its lines tie too many numbers to each other. Compile fewer sizes at a time, leave out a fabric or rib "
        "that changes the stitches between two shapings, or let part repeats be good (`centred`).",
    )


def _unknown_levels(spec: Spec, layouts: Sequence[Layout]) -> list[Problem]:
    known = {f"{layout.piece.name}.{level.label}" for layout in layouts for level in layout.levels}
    problems = []
    for layout in layouts:
        for level in layout.levels:
            if level.measure.waits_for():
                problems.append(
                    problem(
                        "E304",
                        f"a width cannot wait for a solved width: {level.measure.words}",
                        level.measure.span,
                        "used as a width",
                        help="Write the wish itself (`bust/2`); solved widths such as `back.bust` serve in lengths.",
                    )
                )
        for section in layout.sections:
            for address in section.measure.waits_for() if section.measure else ():
                if address not in known and section.measure is not None:
                    near = ", ".join(sorted(name for name in known if name.split(".")[0] == address.split(".")[0]))
                    problems.append(
                        problem(
                            "E304",
                            f"there is no solved width {address}",
                            section.measure.span,
                            "used here",
                            help=f"Levels of that piece: {near}." if near else "No piece of that name has levels.",
                        )
                    )
    return problems


def preferable(layouts: Sequence[Layout]) -> tuple[str, ...]:
    """Give the names that a `prefer` line can weigh: levels, measures in lengths, and even steps."""
    names = ["even-steps", "neck-width"]
    for layout in layouts:
        names += [level.label for level in layout.levels]
        names += [name for section in layout.sections if section.measure for name in section.measure.names]
    return tuple(dict.fromkeys(names))


def _unknown_preferences(spec: Spec, layouts: Sequence[Layout]) -> list[Problem]:
    known = preferable(layouts)
    problems = []
    for name, (_, span) in spec.preferences.items():
        if name not in known:
            message = f"no width or length is called {name}, so it cannot be preferred"
            problems.append(problem("E307", message, span, "not known here", help=there_are(name, known)))
    return problems


def _piece(spec: Spec, layout: Layout, counts: Counts, widths: Sequence[Mapping[str, Fraction]]) -> PiecePlan:
    piece, sizes = layout.piece, range(len(spec.sizes))
    return PiecePlan(
        piece.name,
        piece.span,
        piece.in_round,
        piece.make,
        piece.edge,
        tuple(_level(spec, layout, level, counts) for level in layout.levels),
        plan_sections(spec, layout, counts, widths),
        plan_top(spec, layout, counts, widths) if layout.neck is not None else None,
        plan_crown(spec, layout, counts) if layout.crown is not None else None,
        piece.steps,
        tuple(
            (name, tuple(sum(counts[at(one.key, spec, size)] for one in layout.sections[:index]) for size in sizes))
            for name, index in layout.marks
        ),
        piece.steek,
        plan_holders(spec, layout, counts),
        half=piece.half,
    )


def _level(spec: Spec, layout: Layout, level: LevelDraft, counts: Counts) -> Level:
    sizes = range(len(spec.sizes))
    return Level(
        f"{layout.piece.name}.{level.label}",
        level.label,
        tuple(counts[at(level.key, spec, size)] for size in sizes),
        level.edges,
        level.swatch.washed.stitches,
        None if level.measure.is_count else tuple(width_wish(level, size) for size in sizes),
        level.measure,
        level.swatch.name,
        level.taken,
    )
