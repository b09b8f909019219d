"""Where a motif stands: the column on each piece's centre line, and the chart row on which a section starts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from wale.draft.repeats import centre, kind_at
from wale.plan import PiecePlan, Section
from wale.problems.problem import Problem, problem
from wale.spec import Fabric, Motif, Spec


def place_motifs(spec: Spec, pieces: Sequence[PiecePlan]) -> tuple[tuple[PiecePlan, ...], list[Problem]]:
    """Place the motifs of all pieces; one that meets another piece is placed after it."""
    placed: dict[str, PiecePlan] = {}
    problems: list[Problem] = []
    waiting = list(pieces)
    while waiting:
        ready = [one for one in waiting if all(target in placed for target, _ in _meets(one))] or waiting[:1]
        for piece in ready:
            done, found = _place(spec, piece, placed)
            placed[piece.name] = done
            problems += found
            waiting.remove(piece)
    return tuple(placed[piece.name] for piece in pieces), problems


def _meets(piece: PiecePlan) -> list[tuple[str, str]]:
    fabrics = [section.fabric for section in piece.sections if section.fabric is not None]
    return [fabric.fit.meets for fabric in fabrics if fabric.fit.meets is not None]


def _place(spec: Spec, piece: PiecePlan, placed: dict[str, PiecePlan]) -> tuple[PiecePlan, list[Problem]]:
    sizes = range(len(spec.sizes))
    problems: list[Problem] = []
    sections: list[Section] = []
    for section in piece.sections:
        fabric = section.fabric
        if fabric is None or fabric.motif is None:
            sections.append(section)
            continue
        motif = spec.motifs[fabric.motif]
        before = [one for one in sections if one.fabric == fabric]
        if before:
            last = before[-1]
            assert last.chart_start is not None
            start = tuple((last.chart_start[size] + last.rows[size]) % motif.charted(piece.in_round) for size in sizes)
        else:
            start, found = _first_row(spec, piece, fabric, motif, placed)
            problems += found
        sections.append(replace(section, chart_start=start, centre=_centres(spec, piece, fabric, motif)))
    return replace(piece, sections=tuple(sections)), problems


def _first_row(
    spec: Spec, piece: PiecePlan, fabric: Fabric, motif: Motif, placed: dict[str, PiecePlan]
) -> tuple[tuple[int, ...], list[Problem]]:
    zero = tuple(0 for _ in spec.sizes)
    if fabric.fit.meets is None:
        return zero, []
    name, mark = fabric.fit.meets
    other = placed.get(name)
    rows = dict(other.marks).get(mark) if other is not None else None
    if other is None or rows is None:
        known = ", ".join(mark for mark, _ in other.marks) if other is not None else ""
        return zero, [
            problem(
                "E502",
                f"{piece.name} cannot meet {name} at {mark}: there is no such place",
                fabric.fit.span,
                help=f"Marks of {name}: {known}." if known else f"Write `mark {mark}` in the piece {name}.",
            )
        ]
    first = next((i for i, one in enumerate(other.sections) if one.fabric and one.fabric.motif == motif.name), None)
    if first is None:
        return zero, [
            problem(
                "E502",
                f"{piece.name} cannot meet {name} at {mark}: {name} is not worked in {motif.name}",
                fabric.fit.span,
                help=f"Work {name} in {motif.name}, or leave `meets` out.",
            )
        ]
    result = []
    for size in range(len(spec.sizes)):
        start = other.sections[first].chart_start
        assert start is not None
        reached = start[size] + rows[size] - other.rows_to(first, size)
        own = sum(one.rows[size] for one in piece.sections if one.fabric == fabric)
        result.append((reached - own) % motif.charted(piece.in_round))
    return tuple(result), []


def _centres(spec: Spec, piece: PiecePlan, fabric: Fabric, motif: Motif) -> tuple[Fraction, ...]:
    """The column on the centre line, from the level where repeats are asked for, else the fabric's first."""
    own = [one for one in piece.sections if one.fabric == fabric]
    indexes = dict.fromkeys(index for one in own for index in (one.first, one.last) if one.even_change is None)
    indexes = indexes or dict.fromkeys(one.first for one in own)
    levels = [piece.levels[index] for index in indexes]
    asked = [level for level in levels if kind_at(fabric.fit, level.label) in ("whole", "half")]
    level = (asked or levels)[0]
    kind = kind_at(fabric.fit, level.label)
    return tuple(centre(motif, fabric.fit, kind, count, level.edges, piece.in_round) for count in level.counts)


def column(section: Section, width: int, count: int, stitch: int, size: int) -> int:
    """Give the motif column (from 0 at the right) of a stitch.

    Args:
        width: stitches of the motif's repeat.
        count: stitches of the row, edges included.
        stitch: the stitch, from 0 at the right as seen from the right side.
    """
    assert section.centre is not None
    place = section.centre[size] + stitch - Fraction(count - 1, 2)
    assert place.denominator == 1, "parity of count and centre agree"
    return int(place) % width
