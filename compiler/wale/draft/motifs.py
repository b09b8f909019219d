"""Where a motif stands: the column on each piece's centre line, and the chart row on which a section starts."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace

from wale.actions import Fabric, Half
from wale.draft.repeats import centre, kind_at
from wale.draft.seams import runs_on_from
from wale.materials import Motif
from wale.plan import Level, PiecePlan, Section
from wale.problems.problem import Problem, problem
from wale.spec import Spec


def place_motifs(spec: Spec, pieces: Sequence[PiecePlan]) -> tuple[tuple[PiecePlan, ...], list[Problem]]:
    """Place the motifs of all pieces; one that meets another piece is placed after it."""
    placed: dict[str, PiecePlan] = {}
    problems: list[Problem] = []
    waiting = list(pieces)
    while waiting:
        ready = [one for one in waiting if all(name in placed for name in _needs(spec, one))] or waiting[:1]
        for piece in ready:
            done, found = _place(spec, piece, placed)
            placed[piece.name] = done
            problems += found
            waiting.remove(piece)
    return tuple(placed[piece.name] for piece in pieces), problems


def _needs(spec: Spec, piece: PiecePlan) -> list[str]:
    fabrics = [section.fabric for section in piece.sections if section.fabric is not None]
    if not fabrics:
        return []
    leader = leader_of(spec, piece)
    met = [fabric.fit.meets[0] for fabric in fabrics if fabric.fit.meets is not None]
    whole = [piece.half.whole] if piece.half is not None else []
    return [*met, *whole, *([leader] if leader is not None else [])]


def leader_of(spec: Spec, piece: PiecePlan) -> str | None:
    """Give the other piece whose motif runs on into this one, or None."""
    found = runs_on_from(spec, next(one for one in spec.pieces if one.name == piece.name))
    return found.name if found is not None and found.name != piece.name else None


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
        leader = leader_of(spec, piece) if fabric.fit.seams == "unbroken" else None
        if leader is not None and leader in placed:
            centres = _after(motif, placed[leader], piece, fabric)
        else:
            centres = _centres(motif, piece, fabric)
        if piece.half is not None:
            centres = _at_opening(placed[piece.half.whole], piece, piece.half, fabric, motif)
        sections.append(
            replace(section, chart_start=start, centre=centres, pivot=1 if piece.half is None else piece.half.pivot)
        )
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


def placing_level(piece: PiecePlan, fabric: Fabric) -> Level:
    """Give the level that places a fabric's motif: where repeats are asked for, else the fabric's first."""
    own = [one for one in piece.sections if one.fabric == fabric]
    indexes = dict.fromkeys(index for one in own for index in (one.first, one.last) if one.even_change is None)
    indexes = indexes or dict.fromkeys(one.first for one in own)
    levels = [piece.levels[index] for index in indexes]
    asked = [level for level in levels if kind_at(fabric.fit, level.label) in ("whole", "half")]
    return (asked or levels)[0]


def _centres(motif: Motif, piece: PiecePlan, fabric: Fabric) -> tuple[Fraction, ...]:
    """The column on the centre line."""
    level = placing_level(piece, fabric)
    kind = kind_at(fabric.fit, level.label)
    # a steek has a stitch more at the start of the round than at its end, so the round's middle lies to the right
    off = Fraction(1, 2) if piece.steek is not None else Fraction(0)
    return tuple(
        (centre(motif, fabric.fit, kind, count, level.edges, piece.is_tube) - off) % motif.width
        for count in level.counts
    )


def _after(motif: Motif, leader: PiecePlan, piece: PiecePlan, fabric: Fabric) -> tuple[Fraction, ...]:
    """The column on the centre line where the first stitch follows the last one of another piece over the seam."""
    same = next(one for one in leader.sections if one.fabric is not None and one.fabric.motif == fabric.motif)
    assert same.fabric is not None and same.centre is not None
    before, level = placing_level(leader, same.fabric), placing_level(piece, fabric)
    halves = [Fraction(a + b - before.edges - level.edges, 2) for a, b in zip(before.counts, level.counts, strict=True)]
    return tuple((centre + half) % motif.width for centre, half in zip(same.centre, halves, strict=True))


def _at_opening(whole: PiecePlan, piece: PiecePlan, half: Half, fabric: Fabric, motif: Motif) -> tuple[Fraction, ...]:
    """The column at the opening: the halves stand side to side with the whole piece, and so does the motif on them."""
    index = next(number for number, one in enumerate(piece.sections) if one.fabric == fabric)
    same = whole.sections[index]
    assert same.centre is not None
    ends = zip(same.centre, whole.levels[same.first].counts, piece.levels[same.first].counts, strict=True)
    off = 1 if half.hand == "left" else -1
    return tuple(
        (centre + off * (count - 1 - Fraction(all_sts - 1, 2))) % motif.width for centre, all_sts, count in ends
    )


def column(section: Section, width: int, count: int, stitch: int, size: int) -> int:
    """Give the motif column (from 0 at the right) of a stitch.

    Args:
        width: stitches of the motif's repeat.
        count: stitches of the row, edges included.
        stitch: the stitch, from 0 at the right as seen from the right side.
    """
    assert section.centre is not None
    # In half stitches, so that the inner loops of the pattern need no fractions.
    centre = section.centre[size]
    halves = centre.numerator * (2 // centre.denominator) + 2 * stitch - section.pivot * (count - 1)
    assert halves % 2 == 0, "parity of count and centre agree"
    return halves // 2 % width
