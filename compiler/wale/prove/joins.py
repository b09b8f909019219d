"""Joined edges of knitted pieces held against each other: shoulders, sides, and sleeves in their armholes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from wale.prove.fabric import (
    LEFT_DEC,
    LEFT_INC,
    RIGHT_DEC,
    RIGHT_INC,
    Contradiction,
    Fabric,
    Finding,
    Row,
    insist,
)
from wale.prove.facts import Facts, Gauge
from wale.prove.ruler import Ruler


def compare_joins(facts: Facts, fabrics: Mapping[tuple[str, str], Fabric], sizes: Sequence[str]) -> Iterator[Finding]:
    """See that joined shoulders have the same stitches, and joined sides the same rows from the fold on."""
    makes = {fact.piece: fact.make for fact in facts.pieces}
    aside = {(fact.piece, fact.size): fact.aside for fact in facts.pieces}
    for join in facts.joins:
        for size in sizes:
            if join.edge == "held" and all((name, size) in fabrics for name in join.pieces):
                yield from _held([fabrics[name, size] for name in join.pieces], makes)
                continue
            ends = [(name, fabrics[name, size]) for name in join.pieces if (name, size) in fabrics]
            for name, fabric in ends[1:]:
                other = ends[0][1]
                if join.edge == "shoulders":
                    same = (
                        len({count for one in (fabric, other) for count in one.held if count or not one.is_half}) == 1
                    )
                    message = f"its shoulders hold {fabric.held} sts, those of {ends[0][0]} {other.held}"
                elif join.edge == "sides":
                    rows = [side_rows(one, aside.get((one.piece, one.size), ())) for one in (fabric, other)]
                    same = rows[0] == rows[1]
                    message = f"its side has {rows[0]} rows, that of {ends[0][0]} {rows[1]}"
                elif join.edge == "pocket":
                    same, message = lined(other, fabric), f"its {fabric.live} live sts do not fill the pocket"
                elif join.edge == "opening":
                    message = mirror_fault(other, fabric, in_colour=join.in_colour, in_stitches=join.in_stitches)
                    same = not message
                else:
                    continue
                if not same:
                    yield Finding(name, size, 0, "", message)


def lined(body: Fabric, lining: Fabric) -> bool:
    """Say whether a lining has as many live stitches as each of its pockets puts on a holder."""
    widths = {last - first + 1 for _, slots, name in body.insets if name == lining.piece for first, last in slots}
    return widths == {lining.live}


def _held(fabrics: Sequence[Fabric], makes: Mapping[str, int]) -> Iterator[Finding]:
    """See that a piece takes all that the others hold but their underarms, and that those match two by two."""
    joined, *others = fabrics
    for other in others:
        held = Counter(other.waiting * makes[other.piece])
        taken = Counter(count for count, piece in joined.joined if piece == other.piece)
        left = held - taken
        if taken - held or left != Counter(other.underarms * makes[other.piece]):
            told = sorted(held.elements())
            message = f"it takes {sorted(taken.elements())} sts of the {other.piece}, which holds {told}"
            yield Finding(joined.piece, joined.size, 0, "", message)
    body, *sleeves = (other.underarms * makes[other.piece] for other in others)
    grafted = sorted(count for sleeve in sleeves for count in sleeve)
    if sorted(body) != grafted:
        message = f"its underarms have {sorted(body)} sts, those that are grafted to them {grafted}"
        yield Finding(others[0].piece, joined.size, 0, "", message)


_MIRRORED = bytes.maketrans(
    bytes((LEFT_DEC, RIGHT_DEC, LEFT_INC, RIGHT_INC)), bytes((RIGHT_DEC, LEFT_DEC, RIGHT_INC, LEFT_INC))
)


def mirror_fault(one: Fabric, other: Fabric, *, in_colour: bool, in_stitches: bool = True) -> str:
    """Say where two halves are no mirror images, "" where they are.

    Below the neck that is row by row, each stitch and colour of a row against the other's from its other end; of a
    texture that does not mirror as many stitches, not `in_stitches` themselves. What the
    one binds off at its side where a RS row starts, the other binds off on the row after it. From
    there on one half is worked a row later, so its rows' stitches are held against those of the row before there.
    """
    first, second = sorted((one, other), key=lambda fabric: fabric.neck_row)
    shift = second.neck_row - first.neck_row
    top = [row.number for row in first.rows if len(row.ops) < row.stitches or row.gone or row.number == first.neck_row]
    low = min([*top, len(first.rows) + 1]) - 1
    for a, b in zip(first.rows[:low], second.rows[:low], strict=True):
        if _binds(a, b):
            continue
        # where stitches are gained or lost evenly in a plain row, they may stand a stitch aside
        ops = a.ops != b.ops[::-1].translate(_MIRRORED) and (bool(a.chart) or sorted(a.ops) != sorted(b.ops))
        if a.chart and not in_stitches:
            ops = len(a.ops) != len(b.ops)
        if ops or (in_colour and yarns_of(first, a) != yarns_of(second, b)[::-1]):
            return f"row {a.number} is not the mirror image of that of the {one.piece}"
    # without a slope both end on the same row, the first one with a straight row more
    more = shift - (second.late - first.late)
    counts = _but_sides(first, low)[: len(first.rows) - low - more]
    same = counts == _but_sides(second, low + shift) and _sides(first) == _sides(second)
    # stitches of buttonholes are bound off and cast on again, in one half alone
    gone = [fabric.bound_off - fabric.added for fabric in (first, second)]
    same = same and sum(first.held) == sum(second.held) and gone[0] == gone[1]
    return "" if same else f"its neck and shoulder are not the mirror image of those of the {one.piece}"


def _but_sides(fabric: Fabric, low: int) -> list[tuple[int, int]]:
    """Give the stitches after and on each row above row `low`, had nothing gone at the side: no row there is late."""
    gone = {row.number: sum(one for at, _, one in fabric.sides if at <= row.number) for row in fabric.rows[low:]}
    return [(row.stitches + gone[row.number], len(row.ops) + gone[row.number]) for row in fabric.rows[low:]]


def _sides(fabric: Fabric) -> list[tuple[int, int]]:
    """Give what goes at the side by pairs of rows: bound off, it does so on the first or the second one of a pair."""
    return [((row + 1) // 2, gone) for row, _, gone in fabric.sides]


def _binds(first: Row, second: Row) -> bool:
    """Say whether the first half binds off here what the second does on the next row; the plan tells both."""
    return first.side == "RS" and len(first.ops) < len(second.ops)


def yarns_of(fabric: Fabric, row: Row) -> list[str]:
    """Give the yarns of a row's stitches, from its right end."""
    return [fabric.palette[colour] for colour in row.colours]


def side_rows(fabric: Fabric, aside: Sequence[tuple[int, int]]) -> int:
    """Give the rows of a side edge, counted from the fold of a hem where there is one, without those worked aside.

    Raises:
        Contradiction: a row that is worked aside is worked from side to side.
    """
    last = max((row.number for row in fabric.rows if row.part != "left"), default=0) - fabric.late
    for before, end in aside:
        whole = [row.number for row in fabric.rows[before:end] if not row.part and len(row.ops) == row.stitches]
        insist(not whole, f"row {min(whole, default=0)} goes from side to side")
    return last - fabric.fold - sum(end - before for before, end in aside)


def compare_armholes(facts: Facts, rulers: Mapping[tuple[str, str], Ruler], sizes: Sequence[str]) -> Iterator[Finding]:
    """See that a sleeve's top is twice as wide as the armhole edge of each piece, but for a stitch and a row."""
    for sleeve, *bodies in (join.pieces for join in facts.joins if join.edge == "armholes"):
        for size, body in ((size, body) for size in sizes for body in bodies):
            if (sleeve, size) not in rulers or (body, size) not in rulers:
                continue
            top, edge = rulers[sleeve, size], rulers[body, size]
            try:
                gauge, beside = top.gauge(top.rows), edge.gauge(edge.rows)
                width = (top.stitches(top.rows) - top.fact.seams) / gauge.stitches
                if abs(2 * edge.armhole() - width) > _slack(gauge, beside):
                    told = f"its top is {float(width):.2f} cm wide, twice the armhole edge of the {body} is "
                    yield Finding(sleeve, size, top.rows, "", f"{told}{float(2 * edge.armhole()):.2f} cm")
            except Contradiction as error:
                yield Finding(sleeve, size, 0, "", str(error))


def _slack(sleeve: Gauge, body: Gauge) -> Fraction:
    return 1 / sleeve.stitches + 1 / body.rows
